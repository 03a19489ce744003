# The receiver's screens behind the first questions (frontend/src/walk/later.ts).

## Cautions at the step where they matter (a line each)
dock-caution-opening = Take care: opening a carton
dock-caution-opening-points =
    Cut glove on the holding hand. Cut strapping away from you with a guarded cutter: it springs back.
    Prawns are crustaceans, a major allergen, and drip of raw ones spoils cooked, ready-to-eat ones: keep them apart, change gloves, clean the bench.
    Drip and dust can affect people with the allergy too. Collect the staples.
    Shell and tail spines pierce gloves. Clean a wound at once and report redness or swelling.
    Bare wet skin freezes to metal and glaze. Wear insulated gloves.
dock-caution-probing = Take care: probing
dock-caution-probing-points =
    Clean and sanitise the probe before use, after use and between lots. Never push it through a dirty liner.
    Between packs first. Core only in doubt: block clamped, hand drill, cut glove, never the point of a knife.
    Discard or reseal a probed pack.
dock-caution-drilling = Take care: drilling a block
dock-caution-drilling-points =
    Clamp the block to the bench. No hand holds it near the drill, in a cloth or without.
    Hand drill, never the point of a knife. Drill away from you, with a cut glove and eye protection.
    Clean and sanitise the drill and the probe before and after. Never go through a dirty liner. Discard or reseal a probed pack.
dock-caution-deglazing = Take care: cold, wet and an allergen
dock-caution-deglazing-points =
    Prawns are a major allergen; drip and spray affect people too: keep other food away, cooked, ready-to-eat ones above all. Change gloves, clean bench and sink.
    Some prawns carry sulphites, which can set off asthma-like reactions. Read the label first and tell whoever handles them.
    Wet skin freezes to glaze and metal: wear insulated, waterproof gloves and keep spells short. Shell and tail spines pierce gloves; clean a wound at once.
    Wipe up water at once: a wet floor freezes near the door.
dock-caution-thawing = Take care: thawing and smelling
dock-caution-thawing-points =
    Do not taste raw prawns. Drip is an allergen and spoils other food: keep it apart, change gloves, clean the bench and sink.
    Some prawns carry sulphites, which can set off asthma-like reactions. Read the label before you smell them close up.
    Do not refreeze or serve a thawed sample.
dock-caution-label = Take care: sulphites
dock-caution-label-points =
    Sulphites can set off asthma-like reactions. If the label declares them, the kitchen must know.
    Sulphite powder gives off a choking gas with acid or water: air the room and keep it away from acids.
dock-caution-sample = Take care: smelling and tasting
dock-caution-sample-points =
    Do not taste raw prawns. You can only smell them properly once thawed; cook a sample to judge the flavour.
dock-caution-refused = Take care: refused and held goods
dock-caution-refused-points =
    Mark them, keep them apart and frozen, and stop their use. Throw nothing away until the supplier or the authority agrees.
dock-caution-hazard = Take care: a possible hazard
dock-caution-hazard-points =
    Glass, metal, a chemical smell, or thawing for an unknown time: hold everything, tell the manager and follow the recall rules. A sample does not clear it.
dock-caution-photo = Take care: photos
dock-caution-photo-points =
    No faces, number plates or other people's papers, unless your site allows it.
dock-caution-freezer = Take care: in the freezer
dock-caution-freezer-points =
    Never alone without someone who knows and checks. Know the inside release and the alarm.
    Gloves, jacket, dry shoes, short stays.

## Procedures, by what they are done for
dock-procedure-sample = The counted sample, without glaze
dock-procedure-pack = A whole inner pack, IQF
dock-procedure-block = A whole frozen block
dock-procedure-count = Take and count a sample
dock-procedure-between_packs = Between packs
dock-procedure-core = Core, only if in doubt
dock-procedure-surface = Surface, a first look
dock-procedure-ice_point = Check the thermometer in ice
dock-procedure-thaw = Thaw a few, to look at and smell
## What a scanned code says
dock-scan-SCAN-01 = This code does not hold what a carton label needs. The text is kept. Type the lot and date from the printed label.
dock-scan-SCAN-02 = A check digit in this code is wrong, so part of it was misread. Nothing was taken from it. Scan again, or type from the printed label.
dock-scan-SCAN-03 = This code combines identifiers that may not go together. Nothing was taken from it. Type from the printed label.
dock-scan-lost_separator = The scanned lot may include a date as well: a separator may be missing. Compare it with the printed label.
dock-scan-no_product_key = The code names a lot but no product. What it says was taken over. Compare it with the printed label.
## Draw.svelte, with counts
dock-draw-times-in-100 = { $times ->
    [one] about once in 100 times
   *[other] about { $times } times in 100
    }
dock-draw-times-in-10 = about { $times } times in 10
dock-draw-said = { $count ->
    [one] Open carton { $positions }
   *[other] Open cartons { $positions }
    }
dock-draw-title = { $count ->
    [one] Open this carton
   *[other] Open these cartons
    }
dock-draw-says = { $bad ->
    [one] If 1 of these { $lot } were bad, opening { $opened } would miss it { $chance }.
   *[other] If { $bad } of these { $lot } were bad, opening { $opened } would miss them all { $chance }.
    } Besides these, open any carton that looks warm, wet or frosted: you can add one from the list.
## PutAway.svelte, with counts
## Decide.svelte, by hand
dock-split-accepted = { $count } accepted
dock-split-refused = { $count } refused
dock-split-held = { $count } held
dock-decide-suggested = The limits suggest: { $suggestion }
dock-decide-why-if = Why (if you wish)
dock-decide-why = Why
dock-decide-as = Decide: { $decision }
dock-decide-opened = { $opened } of { $lot } opened, { $defective } with a fault. You decide; this is what the limits say.

## AdviceList.svelte, by its answers
dock-split-none = no cartons
dock-advice-off-for = { $line }: photo advice is switched off for this specification.
dock-advice-one-line = One line
dock-advice-off = Photo advice is switched off for this specification.
dock-advice-darkened = { $at_head ->
    [0] { $dark } of { $pieces } pieces look darkened
   *[other] { $dark } of { $pieces } pieces look darkened, { $at_head } of them at the head
    }
dock-advice-counted = { $length ->
    [0] { $pieces } pieces counted in the photo. This is only a hint: the weighed count stands.
   *[other] { $pieces } pieces counted in the photo, about { $length } mm long. This is only a hint: the weighed count stands.
    }
dock-advice-darkening_seen = Darkening seen
dock-advice-none_seen = No dark places seen
dock-advice-cannot_tell = Cannot tell
dock-advice-switched_off = Switched off
dock-advice-look_here = Look at the framed places
dock-advice-finding_first = Enter the black spot you saw first; the advice comes after that.

## procedures.ts
dock-procedures-sieve-with-prawns = Sieve with prawns { $entered } { $unit }, sieve { $entered2 } { $unit2 }.

## size_says.ts
dock-size-says-words = Weighed with its glaze: the size cannot be told. Weigh it without the glaze.
dock-size-says-short = With the glaze on, the size cannot be told.
dock-size-says-size-as-ordered = size { $text }, as ordered.
dock-size-says-not-nearest-size = not { $text }. Nearest size { $nearest }.
dock-size-says-too-close-edge = { $found }: too close to the edge of { $text } to tell from { $pieces } pieces. { $more_words }
dock-size-says-short-too-close-tell = { $found }: too close to { $text } to tell.
dock-size-says-about-more-would = About { $more } more would tell.
dock-size-says-only-weighing-whole = Only weighing the whole pack would tell.

## CheckList.svelte
dock-check-list-carton = Carton { $position }{ $many }
dock-check-list-verdict-signatures = Verdict and signatures
dock-check-list-docket-vehicle = Docket and vehicle
dock-check-list-carton-2 = , carton { $position }
dock-check-list-go-on = Go on: { $value }{ $value2 }
dock-check-list-all-questions-answered = All questions answered
dock-check-list-open = open
dock-check-list-tap-any-line = Tap any line to answer or correct it.
dock-check-list-defective = defective
dock-check-list-done = done

## ConflictChoice.svelte
dock-conflict-choice-another-receiver = Another receiver
dock-conflict-choice-ago = , { $age_in_words } ago
dock-conflict-choice-that-needs-server = This needs the server, and it could not be reached. Both versions are kept as they are. Try again where there is a signal.
dock-conflict-choice-docket-already-signed = This docket is already signed
dock-conflict-choice-another-phone-on = Another phone is on this docket
dock-conflict-choice-under = Docket { $docket_number }
dock-conflict-choice-was-signed-sealed = It was signed and sealed by { $person }{ $when }. Your version is safe on this phone.
dock-conflict-choice-has-delivery-with = { $person } has a delivery with the same docket{ $when }. Both versions are safe. Nothing has been overwritten.
dock-conflict-choice-has-changed-delivery = { $person } has changed this delivery{ $when }, after you last sent yours. Both versions are safe. Nothing has been overwritten.
dock-conflict-choice-continue-with-other = Continue with the other phone's
dock-conflict-choice-yours-set-aside = Yours is set aside on this phone.
dock-conflict-choice-keep-mine-on = Keep mine on top
dock-conflict-choice-others-stays-on = The other's stays on the server as an earlier version.
dock-conflict-choice-send-mine-as = Send mine as a separate record
dock-conflict-choice-both-stay-each = Both are kept, each under its own name. The manager will settle it.

## ProcedurePage.svelte
dock-procedure-page-kept = { $title_of }: kept
dock-procedure-page-under = Carton { $position }, { $last_number } steps
dock-procedure-page-leave = Leave
dock-procedure-page-begin = Begin
dock-procedure-page-under-step = { $title_of }, step { $number } of { $last_number }
dock-procedure-page-go-on-before = Carry on before the time is up
dock-procedure-page-done-next = Done, next
dock-procedure-page-under-carton-all-steps = Carton { $position }, all steps done
dock-procedure-page-without-glaze = Without glaze
dock-procedure-page-now-enter-reading = Now enter the reading.
dock-procedure-page-nothing-was-entered = Nothing was entered along the way. The question is still open.
dock-procedure-page-now-look-smell = Now look at them, smell them and answer the question.
dock-procedure-page-file-check = File this check
dock-procedure-page-enter-reading = Enter the reading
dock-procedure-page-keep-these = Keep these
dock-procedure-page-back-question = Back to the question

## Record.svelte
dock-vehicle = Vehicle

## AdviceList.svelte
dock-advice-list-photo-advice = Photo advice
dock-advice-list-compares-each-piece = It compares each piece with itself. It decides nothing and changes no verdict.
dock-advice-list-alt = { $value } photo
dock-advice-list-carton = , carton { $position_of }
dock-advice-list-being-looked-at = being looked at
dock-advice-list-no-advice-yet = no advice yet
dock-advice-list-alt-darkest-places-framed = The darkest places, framed
dock-advice-list-show-where = Show where
dock-advice-list-alt-where-darkening-was = Where darkening was seen

## CheckField.svelte
dock-check-field-seen = seen
dock-check-field-not-seen = not seen
dock-check-field-none-these = None of these

## Choices.svelte
dock-choices-chosen = chosen

## DriverScreen.svelte
dock-driver-screen-aria-label = For the driver
dock-driver-screen-alt = What was found
dock-code-title = Code for the supplier
dock-code-alt = QR code of docket { $docket }
dock-code-what = Leads the supplier to the evidence of this delivery, by a link from the kitchen or with its account. Carries seal { $number } of this site. It is worth a photo.
dock-code-without-seal = Leads the supplier to the evidence of this delivery, by a link from the kitchen or with its account. This site has no seal yet that the code could carry.

## HowTo.svelte
dock-how-to-step-by-step = Step by step
dock-how-to-title = Step by step, with the timer

## IceResult.svelte
dock-ice-result-no-reading-was = No reading was entered. The check does not count.
dock-ice-result-passed = Passed.
dock-ice-result-in-ice-within = { $read } in ice, within { $shown_measure } of 0 °C.
dock-ice-result-failed = Failed.
dock-ice-result-in-ice-more = { $read } in ice, more than { $shown_measure } from 0 °C. File it, take the probe out of use and tell the manager.
dock-ice-result-site-has-no = This site has no thermometer on its list, so the check cannot be filed. Write it down, and ask your manager to add the thermometer.
dock-ice-result-which-thermometer-was = Which thermometer was in the ice?
dock-ice-result-thermometer-in-ice = The thermometer in the ice
dock-ice-result-one = this one
dock-ice-result-check-kept-with = A check is kept with the thermometer, not with this delivery. Readings from now on are judged by it.

## InkPad.svelte
dock-ink-pad-clear = Clear

## KeyResult.svelte
dock-key-result-agrees-with-docket = Agrees with the docket.
dock-key-result-nothing-seen-rules = Nothing seen rules out { $name_of }.
dock-key-result-often-mistaken-for = Often mistaken for it, and not ruled out:
dock-key-result-1-prawn-prawns = { $others ->
        [one] 1 prawn
       *[other] { $others } prawns
    } on the list would fit these marks too. Label and papers tell them apart.
dock-key-result-looks-like-instead = { $others ->
        [one] Looks like { $name_of } instead.
       *[other] Looks like one of these instead:
    }
dock-key-result-keep-few-prawns = Keep a few prawns frozen and apart. A laboratory or the papers can settle it; the marks cannot.
dock-key-result-these-marks-fit = These marks fit no prawn on the list.
dock-key-result-look-again-or = Look again, or record it as not settled.
dock-key-result-no-mark-could = No mark could be seen.
dock-key-result-record-will-say = The record will say that the marks do not settle the species.

## NextStepCard.svelte
dock-next-step-card-open = Open more first
dock-next-step-card-sort = Sort by label
dock-next-step-card-probe = Probe again
dock-next-step-card-open-2 = Open { $slice }
dock-next-step-card-two-numbers-are = Two numbers are needed: how many labels were read, and how many differ. What you entered is still here.
dock-next-step-card-cannot-differ-read = { $differ } of { $read } cannot differ. What you entered is still here. Correct one of the two.
dock-next-step-card-differ = { $differ } of { $read } differ
dock-next-step-card-write-in-few = Say in a few words why there is no time. Everything else is kept.
dock-next-step-card-no-more-opened = No more cartons opened
dock-next-step-card-label = Labels read
dock-next-step-card-hint = in all
dock-next-step-card-label-differ = Differ
dock-next-step-card-hint-set-apart = set apart
dock-next-step-card-why-not = Why not?
dock-next-step-card-hold-what-was = Hold the cartons not examined
dock-next-step-card-no-time-for = No time for that
dock-next-step-card-sorted = Sorted
dock-next-step-card-open-more = Open { $cartons } more
dock-next-step-card-open-those-beside = Open the cartons next to it

## NotFinished.svelte
dock-not-finished-left-out = { $value }: left out
dock-not-finished-above-zero = Above zero
dock-not-finished-minus-put-in = Minus put in
dock-not-finished-not-finished = Not finished
dock-not-finished-put-minus-in = Put the minus in
dock-not-finished-above-zero-2 = It is above zero
dock-not-finished-why-not = Why not?
dock-not-finished-why-was-not = Why was it not done? The docket will say so.
dock-not-finished-leave-out = Leave it out
dock-not-finished-left-out-2 = Left out: { $value }. { $reason }

## Pad.svelte
dock-pad-pieces = pcs
dock-pad-aria-label = Unit

## PadKeys.svelte
dock-pad-keys-aria-label = comma
dock-pad-keys-aria-label-plus-or-minus = plus or minus
dock-pad-keys-aria-label-delete-last-digit = delete last digit

## PlainChecks.svelte
dock-carton = Carton { $position }
dock-plain-checks-none-any = None of any
dock-plain-checks-none-rest = None of the rest
dock-plain-checks-dash-stays-not = A dash means “not checked”.
dock-plain-checks-what-you-entered = { $wanted } What you entered is still here.
dock-plain-checks-say-what = { $label }: say what it is.
dock-plain-checks-has-no-answer = { $label } has no answer yet.
dock-plain-checks-what-you-entered-2 = { $value } What you entered is still here.

## ProbeUsed.svelte
dock-probe-used-none-these = None of these
dock-probe-used-which-thermometer = Which thermometer?
dock-probe-used-thermometer-not-named = { $rows ->
        [one] Thermometer not named
       *[other] No thermometer listed
    }
dock-probe-used-change = Change
dock-probe-used-surface-reading-does = A surface reading does not decide anything. Probe between packs when you can.
dock-probe-used-title = How was it measured?
dock-probe-used-label = Where the probe was
dock-probe-used-thermometer = Thermometer
dock-probe-used-in-order = in order
dock-probe-used-not-in-order = not in order
dock-probe-used-chosen = chosen
dock-probe-used-reading-from-one = A reading from a thermometer that is overdue or has failed is kept, and the record says so.

## ProcedureBasis.svelte
dock-procedure-basis-after = After { $source } ({ $word }).

## ReasonRow.svelte
dock-reason-row-why = Why

## ResultWhy.svelte
dock-result-why-head = Numbers
dock-result-why-head-sum = Sum
dock-result-why-head-limit = Limit
dock-result-why-head-sources = Sources

## ScanPanel.svelte
dock-scan-panel-camera-could-not = The camera could not be opened here. Nothing is lost. Take a photo of the barcode, or type what is printed under it.
dock-scan-panel-no-barcode-was = No barcode was found in this photo. Nothing is lost. Go closer, keep it flat and sharp, or type what is printed under it.
dock-scan-panel-aria-label = Camera, looking for a barcode
dock-scan-panel-hold-barcode-flat = Hold the barcode flat in the picture, at arm's length.
dock-scan-panel-from-photo = From a photo
dock-scan-panel-or-type-text = Or type the text under the bars
dock-scan-panel-use-text = Use the text

## SizeFound.svelte
dock-size-found-size-found = Size found
dock-size-found-why-title = Why this size
dock-size-found-why = Why
dock-size-found-said = Carton { $position }: { $words }

## StepTimer.svelte
dock-step-timer-start-time = Start the time
dock-step-timer-time-up = Time is up
dock-step-timer-up-at-also = Up at { $time_of_day }. It also runs with this page closed.
dock-step-timer-start-time-again = Start the time again
dock-step-timer-start-over = Start over
dock-step-timer-sound-at-end = Sound at the end: { $value }
dock-step-timer-on = on
dock-step-timer-off = off
dock-step-timer-screen-stays-lit = The screen stays lit.

## Stepper.svelte
dock-stepper-aria-label = { $label }: one less
dock-stepper-aria-label-number-pieces = { $label }: number of pieces
dock-stepper-aria-label-one-more = { $label }: one more

## TenthOfPiece.svelte
dock-tenth-of-piece-tenth-piece-about = A tenth of a piece is about one tail segment. Pieces with more black than this count as “black over a tenth”.

## WhyPanel.svelte
dock-why-panel-head = Numbers
dock-why-panel-head-sum = Sum
dock-why-panel-head-limit = Limit
dock-why-panel-head-source = Source

## Air.svelte
dock-air-said = Vehicle air { $entry_shown }
dock-air-said-vehicle-air-not = Vehicle air: not checked
dock-air-title = What does the vehicle's air reading show?
dock-air-display-or-logger = Read the display or the logger before the doors have been open for long.
dock-air-label = Vehicle air temperature
dock-air-none-words = The vehicle's own display
dock-air-no-reading-leave = No reading: leave as not checked

## Count.svelte
dock-count-said = { $count } counted, { $docket } on the docket
dock-count-docket-lot = Docket lot { $lot }
dock-count-docket-lot-taken = Docket lot taken off
dock-count-title = How many cartons does the docket say?
dock-count-label = Cartons on the docket
dock-count-unit-word = cartons
dock-keep = Keep
dock-count-title-how-many-cartons = How many cartons did you count?
dock-count-lot-on-docket = Lot on the docket, if given
dock-count-ordered = { $cartons ->
        [one] The order was for 1 carton.
       *[other] The order was for { $cartons } cartons.
    }
dock-count-docket-has = { $cartons ->
        [one] The docket says 1 carton.
       *[other] The docket says { $cartons } cartons.
    }
dock-count-docket-same = The docket says the same
dock-count-docket-other = The docket says another number
dock-count-far = { $count } counted, { $docket } on the docket, { $ordered } ordered.
dock-count-count-before-signing = Set broken, wet or frosted cartons aside.
dock-count-label-cartons-counted = Cartons counted

## Decide.svelte
dock-decide-departs-from-suggestion = This differs from the suggestion. Nothing is lost. Say why in a few words.
dock-decide-accepted-refused-held = Accepted, refused and held add up to { $sum }, but { $counted } were counted. Nothing is lost. Make them add up.
dock-decide-what-do-you = What do you decide?
dock-decide-look-further-first = Look further first
dock-decide-not-finished = Not finished
dock-decide-limits-for-delivery = The limits for this delivery are not on this phone, so nothing is suggested. Use your own judgement and say why.
dock-decide-reasons = Reasons
dock-decide-nothing-was-found = Nothing found outside the limits.
dock-decide-1-check-checks = { $not_checked ->
        [one] 1 check
       *[other] { $not_checked } checks
    } not made: the record will say so
dock-decide-not-asked = Not asked here: { $checks }. They stand under “Photos and more checks”.
dock-decide-label = Your decision
dock-decide-label-accepted = Accepted
dock-decide-label-refused = Refused
dock-decide-label-held = Held
dock-decide-decide-otherwise = Decide differently

## Draw.svelte
dock-draw-almost-never = almost never
dock-draw-about-half-time = about half the time
dock-draw-aria-label = Cartons to open
dock-draw-count-from-door = Count from the door end, top to bottom, one layer after another. Drawn at random from { $lot }, so nobody picks the good ones.
dock-draw-all-are-opened = All are opened, so none can hide.
dock-draw-label = Layers on the pallet
dock-draw-why-title = Why so many cartons
dock-draw-why-so-many = Why so many?
dock-draw-said-opened = { $positions } of { $lot } opened
dock-draw-limits-that-delivery = The limits for this delivery are not on this phone. What you entered is kept. Open Underlid once where there is a signal, then come back.
dock-draw-start-with-carton = Start with carton { $value }

## Faults.svelte
dock-faults-label = Frozen
dock-faults-label-thawed-in-bag = Thawed, in a bag
dock-faults-label-not-smelled = Not smelled
dock-faults-sound = Any fault in these { $looked_at } pieces?
dock-faults-each = How many of the { $looked_at }?
dock-faults-none-frozen = No fault, smelled frozen
dock-faults-none-thawed = No fault, smelled thawed
dock-faults-none-not-smelled = No fault, not smelled
dock-faults-marks-as-carton = as in carton { $position }
dock-faults-no = A fault: count
dock-faults-all-sound = Pieces and smell: all sound
dock-faults-as-marked = Pieces as counted
dock-faults-title = Which is closest to the black spot seen?
dock-faults-under = Carton { $position }, the published 0 to 10 scale
dock-faults-on-without-score = Carry on without a score
dock-faults-label-how-was-smelled = How was it smelled?
dock-faults-how-was-smelled = Say how it was smelled.
dock-faults-label-thaw-few-first = Thaw a few first, step by step
dock-faults-black-spot-score = Black-spot score { $score }: change

## Label.svelte
dock-label-label-as-carton = Label as carton { $position }
dock-label-no-day-calendar = “{ $best_before }” is not a date. What you entered is still here. Type day, month, year, for example 31.03.2028.
dock-label-lot-not-entered = The lot is missing. What you entered is still here. Type it as printed, or mark below that the label shows none.
dock-label-best-before-day = The best-before date is missing. What you entered is still here. Type it as printed, or mark below that the label shows none.
dock-label-label-read = Label read
dock-label-species = Species
dock-label-made-up-as = Presentation
dock-label-origin = Origin
dock-label-title = Same label as carton { $position }?
dock-label-lot = Lot
dock-label-none-shown = none shown
dock-label-best-before = Best before
dock-label-no-read-one = No, read this one
dock-label-yes-same = Yes, the same
dock-label-what-does-label = What does the label say?
dock-label-does-label-say = Does the label say this?
dock-label-scan-barcode = Scan the barcode
dock-label-shows = Also on it
dock-label-size-weight = Size, weight
dock-label-which-origin = Which origin the label shows is not chosen. What you entered is still here. Choose it.
dock-label-which-origin-shown = Which origin does it show?
dock-label-shown = shown
dock-label-day-form = dd.mm.yyyy
dock-label-not-shown = not shown
dock-label-scientific-name-as = Scientific name as printed
dock-label-raw-or-cooked = Raw or cooked
dock-label-size-as-printed = Size as printed
dock-label-net-weight-kg = Net weight, kg
dock-label-origin-two-letters = Origin (two letters)
dock-label-farmed-or-caught = Farmed or caught
dock-label-area-catch-or = Area of catch or farming
dock-label-first-frozen-on = First frozen on
dock-label-produced-on = Produced on
dock-label-which-these-does = Which of these does the label show?
dock-label-not-required-here = (not required here)
dock-label-something-differs = Something differs
dock-label-yes-all = Yes, as shown

## Lines.svelte
dock-lines-choose-what-docket = Choose what the docket lists. What you typed is still here.
dock-lines-said = Line added
dock-lines-said-line-taken-off = Line removed
dock-lines-said-lines-entered = Lines entered
dock-lines-title = What does the docket list?
dock-lines-under = Lines on the docket
dock-lines-cartons-on-docket = { $cartons_on_docket } cartons on the docket
dock-lines-take-off = Remove
dock-lines-what = What is it?
dock-lines-choose-from-what = Choose from what your group buys
dock-lines-cartons-on-docket-2 = Cartons on the docket
dock-lines-add-line = Add this line
dock-lines-these-are-all = These are all the lines

## Load.svelte
dock-load-load = Load: { $answer_shown }
dock-load-photo-seal-number = Photo, seal number, note
dock-load-seal-number-on = Seal number on the doors
dock-load-said = Seal number
dock-load-note = Note

## Marks.svelte
dock-marks-species-ordered = the species ordered
dock-marks-marks = Marks { $value }
dock-marks-title = Do the marks agree with the species ordered?
dock-marks-no-marks-are = No marks are listed for this species. Answer from what you know, or “Not sure”.
dock-marks-label = Do the marks agree
dock-marks-under = Carton { $position }, question { $value } of at most 4
dock-marks-cannot-see = Cannot see it
dock-marks-marks-agree-with = The marks agree with { $name }
dock-marks-does-not-look = This does not look like { $name }
dock-marks-cannot-be-told = Cannot be told from these marks
dock-marks-look-again = Look again
dock-marks-keep = Keep: { $value }
dock-marks-title-does-look-like = Does it look like { $name }?
dock-marks-answered-before-marks = Earlier answer: marks { $value }.
dock-marks-from-memory = (from memory)
dock-marks-marks-agree-or = Marks agree or disagree. They never prove a species.
dock-marks-no-or-not = No, or not sure
dock-marks-looks-right = Looks right

## Photos.svelte
dock-photos-label = One inner pack, gross
dock-photos-hint-tare = tare
dock-photos-hint = as packed
dock-photos-label-its-empty-pack = Its empty packing
dock-photos-label-without-pack-glazed = Without packing, glazed
dock-photos-label-without-glaze = Without glaze
dock-photos-hint-sprayed-drained = sprayed and drained
dock-photos-label-largest-tenth = Largest tenth
dock-photos-hint-sample-weighed-together = of the sample, weighed together
dock-photos-label-smallest-tenth = Smallest tenth
dock-photos-label-deeply-dried-prawns = Prawns with freezer burn
dock-photos-hint-freezer-burn-weighed = dehydration, weighed together
dock-photos-label-all-prawns-looked = All prawns examined
dock-photos-hint-that-dried-ones = including the dried ones
dock-photos-black-spot-score = Black-spot score removed
dock-photos-black-spot-score-2 = Black-spot score { $score }
dock-photos-carton-opened-besides = Carton { $value } opened besides
dock-photos-under = Carton { $position }{ $value }
dock-photos-back-photos = Back to the photos
dock-photos-title = Which is closest to the black spot seen?
dock-photos-under-carton-published-0 = Carton { $position }, the published 0 to 10 scale
dock-photos-take-score-off = Remove the score
dock-photos-title-photos-carton = Photos of this carton
dock-photos-for-sample-photo = For the sample photo: flash off, light from all sides. Hard shadows look like black spot.
dock-photos-reference-card-gives = Reference card: gives the pieces’ length
dock-photos-more-checks-weights = More checks: weights, black-spot scale, note
dock-photos-label-weigh-pack-without = Weigh a pack without glaze, step by step
dock-photos-black-spot-score-3 = Black-spot score
dock-photos-0-10-with = 0 to 10, with drawings
dock-photos-not-checked = not checked
dock-photos-note-on-carton = Note on this carton
dock-photos-note = Note
dock-photos-open-one-more = Open one more carton, number
dock-photos-add = Add

## Pieces.svelte
dock-pieces-pieces = { $pieces } pieces
dock-pieces-said = No sample from this carton
dock-pieces-title = Take a sample. How many pieces?
dock-pieces-count-out-good = Count out a good handful of whole prawns from more than one place. 40 or more tell you more than 20.
dock-pieces-label = Pieces in the sample
dock-pieces-unit-word = pieces
dock-pieces-label-step-by-step = Step by step
dock-pieces-no-sample-here = No sample here

## Sign.svelte
dock-sign-your-signature-missing = Your signature is missing. Everything else is kept. Sign in the first box.
dock-sign-your-name-missing = Your name is missing. Everything else is kept. Type it under your signature.
dock-sign-drivers-reason-missing = The driver's reason is missing. Everything else is kept. Write what was said.
dock-sign-drivers-signature-missing = The driver's signature is missing. Everything else is kept. Hand the phone over, or say that the driver will not sign.
dock-sign-drivers-name-missing = The driver's name is missing. Everything else is kept. Type it under the signature.
dock-sign-title = Not ready to sign
dock-sign-under = Signatures
dock-sign-these-have-no = These have no answer yet:
dock-sign-carton = , carton { $position }
dock-sign-answer-each-or = Answer each one, or leave it as not checked. Use “The whole list”.
dock-sign-title-both-sign = Both sign
dock-sign-under-then-record-sealed = The record is then sealed and can only be added to
dock-sign-label = Receiver signs here
dock-sign-receivers-name = Receiver's name
dock-sign-placeholder = Your name
dock-sign-driver-will-not = The driver will not sign. What was said?
dock-sign-driver-signs-after = The driver signs after all
dock-sign-drivers-own-words = The driver's own words (if any)
dock-sign-label-driver-signs-here = Driver signs here
dock-sign-drivers-name = Driver's name
dock-sign-driver-will-not-2 = The driver will not sign
dock-sign-keeping = Keeping…
dock-sign-sign-without-driver = Close without the driver
dock-sign-sign-close-record = On the docket and signed: close

## Temperature.svelte
dock-temperature-product = Product { $entry_shown }
dock-temperature-said = Temperature: not checked
dock-temperature-title = How cold is the product?
dock-temperature-label = Product temperature
dock-not-checked = Not checked

## UnderLid.svelte
dock-under-lid-sound = Is all this sound under the lid?
dock-under-lid-each = What is under the lid?
dock-under-lid-yes = Yes, all sound
dock-under-lid-no = No, something is not
dock-under-lid-all-sound = Under the lid: all sound
dock-under-lid-as-marked = Under the lid: as marked

## Weigh.svelte
dock-weigh-words = For the size without glaze: spray, drain two minutes, weigh.
dock-weigh-pieces = { $pieces } pieces, { $entry_shown }
dock-weigh-said = Sample not weighed
dock-weigh-without-glaze = Without glaze
dock-weigh-label = Glaze still on
dock-weigh-title = Too close to tell
dock-weigh-under = Carton { $position }, { $pieces } pieces in { $entry_shown }
dock-weigh-add-pieces-these = Add pieces to these, count them all again and weigh them together. Or keep it: the record will say that the size could not be determined.
dock-weigh-keep-as = Keep it as it is
dock-weigh-weigh-more-pieces = Weigh more pieces
dock-weigh-title-what-do-these = What do these { $pieces } pieces weigh?
dock-weigh-label-weight-sample = Weight of the sample
dock-weigh-not-weighed = Not weighed

## Wording.svelte
dock-wording-said = Written on the docket
dock-wording-title = Write this on the docket before anyone signs:
dock-wording-copied = Copied
dock-wording-copy-words = Copy the words

## Thawed.svelte
dock-thawed-photo-could-not = The photo could not be read. What you chose is still here. Take it again.
dock-thawed-could-not-be = This could not be kept on this phone. What you chose is still here. Free some space and try again.
dock-thawed-title = Found on thawing
dock-thawed-title-kept-on-its = Kept, and on its way
dock-thawed-gets-seal-its = It gets a seal of its own beside the sealed delivery. The supplier sees it on the evidence page.
dock-thawed-keep-half-what = Keep half of what was thawed, cold and marked, until the supplier has answered.
dock-thawed-deliveries = To the deliveries
dock-thawed-title-which-lot-was = Which lot was thawed?
dock-thawed-lot-or-docket = Lot or docket number
dock-thawed-scan-carton = Scan the carton
dock-thawed-label = Lot
dock-thawed-lot = Lot { $lot }
dock-thawed-no-lot-on = { $name }, no lot on record
dock-thawed-without-number = without number
dock-thawed-hint = { $name }, { $supplier_shown }, docket { $value }, { $to_locale_date_string }
dock-thawed-no-lot-like = No lot like this came here in the last four months, as far as this phone knows. Nothing is lost. Type less of it, or fetch the newest list where there is a signal.
dock-thawed-more-type-some = { $value } more: type some of the lot.
dock-thawed-title-what-wrong = What is wrong?
dock-thawed-under = Lot { $value }, { $name }
dock-thawed-label-fault = Fault
dock-thawed-title-how-much = How much of it?
dock-thawed-label-how-much = How much
dock-thawed-title-photo = A photo of it
dock-thawed-under-lot = Lot { $value }
dock-thawed-take-photo = Take a photo
dock-thawed-1-photo-taken = { $shots ->
        [one] 1 photo taken
       *[other] { $shots } photos taken
    }
dock-thawed-more-if-needs = More, if it needs words
dock-thawed-keep-without-photo = Keep it without a photo
dock-thawed-keep = Keep it

## PutAway.svelte
dock-put-away-where-cartons-stand = Where the { $value } cartons stand until they are fetched or decided
dock-put-away-title = Put away
dock-done = Done
dock-put-away-put-away-at = Put away at { $time_of_day }.
dock-put-away-title-nothing-goes-into = Nothing goes into the freezer
dock-put-away-under = Put-away
dock-put-away-all-cartons-were = All cartons were refused: there is nothing to put away. Keep them apart, marked and frozen until they are fetched.
dock-put-away-title-which-freezer-for = Which freezer for { $total } { $total ->
        [one] carton
       *[other] cartons
    }?
dock-put-away-label = Freezer
dock-put-away-title-what-does-freezers = What does the freezer's air show?
dock-put-away-label-freezer-air = Freezer air
dock-put-away-no-reading-leave = No reading: leave as not checked
dock-put-away-title-1-carton-in = { $total ->
        [one] 1 carton in the freezer, liner closed again?
       *[other] { $total } cartons in the freezer, liners closed again?
    }
dock-put-away-another-freezer = Another freezer
dock-put-away-refused-held = refused and held
dock-put-away-refused = refused
dock-put-away-held = held
dock-put-away-in-closed = All in, liners closed
dock-put-away-more = More, or a liner open
dock-put-away-in-front-expires = : in front, it expires before what is in there
dock-put-away-behind-what-in = : behind what is in there
dock-put-away-best-before = best before { $best_before }{ $value }
dock-put-away-them-are-held = { $held } of them { $held ->
        [one] is
       *[other] are
    } held: mark { $held ->
        [one] it
       *[other] them
    }, keep apart, do not use.
dock-put-away-where-if-you = Where (if you note it)
dock-put-away-placeholder = shelf 2 left
dock-put-away-first-expired-in = First expired in front; of the same date, new behind old. Lot label outward.
dock-put-away-in-but-liner = In, but a liner is still open
dock-put-away-yes-in-closed = Yes, in and closed

## Record.svelte
dock-record-correction-needs-its = A correction needs its text and a reason. What you typed is still here.
dock-record-your-version-set = Your version, set aside
dock-record-sealed = Sealed
dock-record-signed-kept-on = Signed, and kept on this phone
dock-record-under = Docket { $docket_number }, arrived { $time_of_day }
dock-record-other-phones-version = The other phone's version went on. This one is kept here and was not sent.
dock-record-seal-number = Seal number { $number }.
dock-record-record-on-server = The record is on the server and can only be added to.
dock-record-server-would-not = The server has not sealed this yet.
dock-record-open-again-put = Open it again to correct it
dock-record-seal-comes-when = The seal will come when this phone next reaches the server. You need do nothing more. Keep the phone charged.
dock-record-servers-own-reckoning = The server's own reckoning differs from this phone's in { $difference ->
        [one] one place
       *[other] { $difference } places
    }. Both are kept on the record. Tell your manager.
dock-record-kept-on-record = { $text } This is kept on the record.
dock-record-accepted-refused-held = { $accepted } accepted, { $refused } refused, { $held } held
dock-record-seal-number-2 = , seal number { $number }
dock-record-waits-for-its = , waits for its seal
dock-record-put-away-at = Put away at { $time_of_day }{ $value }.
dock-record-put-away = Put away
dock-record-refused-held-cartons = Refused and held cartons: where they are
dock-record-what-right = What is correct
dock-record-why-corrected = Why it is corrected
dock-record-keep-correction = Keep the correction
dock-record-leave = Leave it
dock-record-write-correction = Write a correction
dock-record-deliveries = To the deliveries

## BlackSpotScale.svelte
dock-black-spot-scale-aria-label = Black-spot scale
dock-black-spot-scale-limit-past-from = Limit: { $words }. Past it from here on.
dock-black-spot-scale-fits = fits { $affected } of { $looked_at }
dock-black-spot-scale-chosen = chosen
dock-black-spot-scale-how-tell = How to tell
dock-black-spot-scale-scale-drawings-are = Scale: { $source }. The drawings are ours.

## Count.svelte
dock-count-title-cartons-that-right = { $again } cartons: is that right?
dock-count-no-enter-again = No, enter it again
dock-count-yes-were-counted = Yes, { $again } were counted

## WaitingPage.svelte
dock-waiting-page-document = Delivery record
dock-waiting-page-photo = Photo
dock-waiting-page-signature = Signed record, for its seal
dock-waiting-page-addendum = Put-away, correction, refused goods, or found on thawing
dock-waiting-page-check = Thermometer check in ice
dock-waiting-page-label = As the phone
dock-waiting-page-label-bright = Bright
dock-waiting-page-label-dark = Dark
dock-waiting-page-no-number-yet = no number yet
dock-waiting-page-docket = Docket { $docket }
dock-waiting-page-thermometer-not-on = Thermometer not on this phone
dock-waiting-page-file-could-not = The file could not be made. What waits is still on this phone. Free some space, then try again.
dock-waiting-page-title = On its way
dock-waiting-page-on-its-way = On its way to the server, and this phone
dock-waiting-page-opening = Opening…
dock-waiting-page-all-on-server = All on the server.
dock-waiting-page-nothing-yours-exists = Nothing of yours is only on this phone.
dock-waiting-page-1-thing-waits = { $count ->
        [one] 1 thing waits
       *[other] { $count } things wait
    } on this phone.
dock-waiting-page-server-asks-you = The server asks you to sign in.
dock-waiting-page-app-older-than = This app is older than the server can understand. Update it; all goes by itself then.
dock-waiting-page-app-newer-than = This app is newer than the server. All goes by itself once the server is updated. Tell your manager.
dock-waiting-page-no-signal-just = No signal just now. They will be sent automatically when it is back.
dock-waiting-page-sending-now = Sending now.
dock-waiting-page-they-are-tried = They will be tried again automatically.
dock-waiting-page-sign-in-send = Sign in to send
dock-waiting-page-look-for-update = Look for the update
dock-waiting-page-sending = Sending…
dock-waiting-page-try-now = Try now
dock-waiting-page-tried-once-times = {" "}· tried { $attempts ->
        [one] once
       *[other] { $attempts } times
    }
dock-waiting-page-open-delivery = Open the delivery
dock-waiting-page-take-check-off = Delete this check from the phone
dock-waiting-page-phone-cannot-send = This phone cannot send any more?
dock-waiting-page-save-all-that = Save all that waits as a file and give it to your manager, who brings it in at the desk, under Devices. It stays on this phone too, and counts once.
dock-waiting-page-saving = Saving…
dock-waiting-page-save-as-file = Save as a file
dock-waiting-page-phone = This phone
dock-waiting-page-what-kept-here = What is kept here is protected: the phone will not clear it on its own.
dock-waiting-page-phone-has-not = The phone has not promised to keep what is here when space runs low. Add Underlid to the home screen, and send soon.
dock-waiting-page-browser-cannot-say = This browser cannot say whether it protects what is kept here. Send soon.
dock-waiting-page-little-room-left = Little room is left on this phone:
dock-waiting-page-about-mb-what = about { $floor } MB. What was entered is kept; a new photo may not be. Send what waits, or free some space.
dock-waiting-page-starts-without-signal = Starts without a signal.
dock-waiting-page-does-not-start = Does not start without a signal yet. That takes one visit over HTTPS.
dock-waiting-page-behind = behind
dock-waiting-page-ahead = ahead of
dock-waiting-page-phones-clock-min = This phone's clock is { $abs } min { $value } the server. Set it right, or times on the record will be wrong.
dock-waiting-page-label-brightness = Brightness
dock-waiting-page-your-entries-wait = { $count } of your entries wait here. They stay on this phone and go when someone signs in.
dock-waiting-page-nothing-waits-here = Nothing waits here.
dock-waiting-page-sign-out = { $value } Sign out?
dock-waiting-page-sign-out-2 = Sign out
dock-waiting-page-sign-out-3 = Sign out { $name }
