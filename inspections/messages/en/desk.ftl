# The desk's screens (frontend/src/desk).

## Several screens
desk-not-checked-2 = not checked
desk-load = Load
desk-docket = Docket
desk-label = Label
desk-under-liner = Under the liner
desk-sample = Sample
desk-thermometer = Thermometer
desk-signature = Signature
desk-temperature = Temperature
desk-where = Where
desk-species-marks = Species marks
desk-deliveries = Deliveries
desk-put-away = Put away
desk-why = Why
desk-site = Site
desk-supplier = Supplier
desk-underlid = Underlid
desk-more = More
desk-sign-in = Sign in
desk-try-again = Try again
desk-password = Password
desk-page-could-not-opened = The page could not be opened. Nothing is lost. Check the network, then load it again.
desk-no-such-page = No such page
desk-photo-advice = Photo advice
desk-how-photo-looked = How a photo is looked at
desk-nothing-compare-yet = Nothing to compare yet.
desk-darkening-seen = Darkening seen
desk-cannot-tell = Cannot tell
desk-reference-card = Reference card
desk-not-checked = Not checked: { $join }.
desk-newer = Newer
desk-page = Page { $page } of { $pages }
desk-older = Older
desk-not-put-away-yet = Not put away yet
desk-find = Find
desk-all = All
desk-from = From
desk-line = Line { $number }: { $name }
desk-not-noted = not noted
desk-refused = Refused
desk-choose = Choose
desk-reading-file = Reading the file …
desk-sha-256 = SHA-256 { $sha256 }
desk-answer = Answer
desk-vehicle = Vehicle
desk-devices = Devices
desk-exports = Exports
desk-column = Column
desk-how-judged = How it is judged
desk-limits = Limits
desk-import-table = Import a table
desk-import = Import
desk-orders = Orders
desk-suppliers = Suppliers
desk-specifications = Specifications
desk-thermometers = Thermometers
desk-leave-as = Leave as it was
desk-kept-hand = Kept by hand
desk-importing-table = importing a table
desk-where-lot = Where is this lot
desk-all-sites = All sites
desk-who-did-what = Who did what

## Desk.svelte
desk-desk-underlid-desk = Underlid desk
desk-desk-opening-page = Opening the page …
desk-desk-there-nothing-under-address = There is nothing under this address. Nothing is lost.
desk-desk-go-deliveries = Go to the deliveries.

## agreement/AdviceSwitchRow.svelte
desk-advice-switch-row-is-on = Photo advice is on
desk-advice-switch-row-is-off = Photo advice is off
desk-advice-switch-row-switch-off-asked = Switch off …
desk-advice-switch-row-switch-on-asked = Switch on …
desk-advice-switch-row-leave-on = Leave it on
desk-advice-switch-row-leave-off = Leave it off
desk-advice-switch-row-set = , set by { $by }
desk-advice-switch-row-since-version = since { $at }{ $by } (version { $since_version })
desk-advice-switch-row-its-photos-kept-shown = Its photos are kept and shown, and not looked at for darkening. Phones and evidence say so.
desk-advice-switch-row-photo-advice-for = Photo advice for { $name }
desk-advice-switch-row-from-now-no-photo = From now on no photo of these goods is looked at for darkening, in any kitchen of the group. Deliveries signed before keep their advice. It can be switched on again.
desk-advice-switch-row-from-now-photos-these = From now on photos of these goods are looked at for darkening again, in every kitchen of the group. Deliveries signed meanwhile stay without advice.
desk-advice-switch-row-makes-version-specification-with = { $is_on } This makes version { $version } of the specification, with your name and the time.
desk-advice-switch-row-switching = Switching …
desk-advice-switch-row-switch-off = Switch off
desk-advice-switch-row-switch-2 = Switch on

## agreement/Agreement.svelte
desk-agreement-photo-advice = the photo advice
desk-agreement-advice-against-findings-all = Advice against findings, all sites
desk-agreement-how-counted = How this is counted
desk-agreement-one-unit-one-opened = One unit is one opened carton of a signed delivery with at least one photo of its prawns. One photo that shows darkening is enough for “darkening seen”. The receiver found black spot when one piece of those looked at had it; the limit is that of the specification.
desk-agreement-where-only-frames-shown = Where only frames were shown, what it would have said at the cut-off is counted. “Cannot tell” counts as not flagged. Thick mark: the share. Box: its 95 % interval. Dashed box: too few to say (under { $cartons } cartons or { $deliveries } deliveries).
desk-agreement-agreement-no-proof-receiver = Agreement is no proof: a receiver who has read the advice may find what it said, and photo and eye may have met other prawns.
desk-agreement-method = method { $version }: { $photos }
desk-agreement-answers-several-answers-one = Answers by { $join }. Of several answers to one photo the newest counts; the earlier ones are kept.
desk-agreement-what-advice-worth = What the advice is worth
desk-agreement-site = By site
desk-agreement-specification = By specification
desk-agreement-specification-holds-for-whole = A specification holds for the whole group: group operations switch its photo advice.
desk-agreement-species = By species

## agreement/CountTable.svelte
desk-count-table-cartons-what-advice-said = Cartons, by what the advice said and whether the receiver found black spot: beyond the limit, within it, or none.
desk-count-table-advice-said = Advice said
desk-count-table-beyond-limit = Beyond limit
desk-count-table-within-limit = Within limit
desk-count-table-none-found = None found

## agreement/GroupRow.svelte
desk-group-row-none = none
desk-group-row-too-few = { $count } of { $of }, too few
desk-group-row-flags-right = Flags right
desk-group-row-black-spot-flagged = Black spot flagged
desk-group-row-compared = { $cartons } compared
desk-group-row-advice-against-findings = Advice against findings, { $name }

## agreement/Learnt.svelte
desk-learnt-where-darkening-begins = Where darkening begins
desk-learnt-receivers-findings-beside-figure = Receivers’ findings beside the figure of the sample photo move the one cut-off, for each kind of goods: one in twenty sound cartons may lie above it. The finding is entered before the advice is shown.

## agreement/MeasureRow.svelte
desk-measure-row-no-carton = No carton { $of }.
desk-measure-row-too-few-say = { $count } of { $of } { $of_2 }: too few to say
desk-measure-row-share = { $count } of { $of } { $of_2 }

## agreement/worth.ts
desk-worth-below = below
desk-worth-above = above
desk-worth-none-seen = None seen
desk-worth-flags-right = Flags that were right
desk-worth-with-darkening-seen = with darkening seen
desk-worth-black-spot-flagged = Black spot that was flagged
desk-worth-with-black-spot = with black spot
desk-worth-agreeing = Agreeing
desk-worth-where-told-something = where it told something
desk-worth-could-not-tell = Could not tell
desk-worth-no-opened-carton-both = No opened carton has both photo advice and a receiver's look for black spot in this period. Nothing can be said yet.
desk-worth-where-advice-said-darkening = Of { $of } where the advice said darkening, receivers found black spot in { $count }.
desk-worth-advice-said-darkening-no = The advice said darkening of no carton that was looked at for black spot.
desk-worth-where-receivers-found-black = Of { $of } where receivers found black spot, the advice said darkening in { $count }.
desk-worth-receivers-found-black-spot = Receivers found black spot in no carton that has advice.
desk-worth-could-not-tell-2 = In { $count } of { $of } it could not tell.
desk-worth-too-few-say-what = Too few to say what it is worth: { $of } with black spot and { $of_2 } without, of { $deliveries }. It takes { $cartons } of each, of { $deliveries_2 }.
desk-worth-flags-cartons-with-black = It flags cartons with black spot clearly more often than cartons without.
desk-worth-flags-cartons-with-black-2 = It flags cartons with black spot less often than cartons without. Consider switching it off.
desk-worth-flags-cartons-with-without = It flags cartons with and without black spot about as often: a flag tells little here. Consider switching it off.
desk-worth-all-advice-came-after = All of this advice came after the receivers had signed, so none of them can have been led by it.
desk-worth-advice-came-after-receiver = In { $cartons } the advice came after the receiver had signed; there { $agreeing } agree.
desk-worth-no-carton-advice-sure = In no carton is the advice sure to have come after the receiver had signed.
desk-worth-agree = ({ $agreeing } agree)
desk-worth-other-receiver-may-read =
    { $count ->
        [one] { $sure } In the other one the receiver may have read it before answering{ $agreed }, so agreement there proves nothing.
       *[other] { $sure } In the other { $count } the receiver may have read it before answering{ $agreed }, so agreement there proves nothing.
    }
desk-worth-of = { $count } of { $of }
desk-worth-with-advice-not-looked =
    { $count ->
        [one] { $cartons } with advice was not looked at for black spot: nothing to compare with, so not counted here.
       *[other] { $cartons } with advice were not looked at for black spot: nothing to compare with, so not counted here.
    }
desk-worth-no-answer-still-waits =
    { $count ->
        [one] { $cartons } has no answer: it still waits, the photo could not be read, or advice was switched off.
       *[other] { $cartons } have no answer: it still waits, the photo could not be read, or advice was switched off.
    }
desk-worth-goods-marked-sound-photographs = { $state } goods: { $auc } ({ $auc_low } to { $auc_high }) on { $marked } marked and { $none } sound photographs
desk-worth-what-method-worth-photographs = What the method is worth on photographs kept aside is not known yet. So the darkest places are framed, and no answer is given unless receivers’ findings here have shown that it tells.
desk-worth-photographs-kept-aside-chance = On photographs kept aside the chance that a marked one comes first was, for { $join }. Answers are given where the lower end is above { $floor }.
desk-worth-without-with-black-spot = { $sound } without and { $spotted } with black spot
desk-worth-too-few-learn-from = { $findings }: too few to learn from ({ $least } of each). The shipped cut-off { $shipped } holds.
desk-worth-cut-off-shipped-one = { $findings }: cut-off { $refitted } ({ $low } to { $high }), { $drift } { $side } the shipped one.
desk-worth-chance-carton-with-black = Chance that a carton with black spot comes first: { $auc } ({ $auc_low } to { $auc_high }).
desk-worth-answers-given = { $where } { $tells } Answers are given by it.
desk-worth-lower-end-not-above = the lower end is not above { $floor }
desk-worth-moved-more-than = it has moved by more than { $most_moved }
desk-worth-quiet-so-only-frames = { $where } { $tells } Quiet: { $why }, so only frames are shown.

## card/Card.svelte
desk-card-card-photo-gives-true = A card in the photo gives true white, true brightness and millimetres. With it the photo advice tells more often, and closer.
desk-card-open-page-print = Open the page and print it at
desk-card-actual-size-not-fit = (“actual size”; not “fit to page”), on plain white matt paper, in colour. It is A6: a postcard.
desk-card-check-scale-with-ruler = Check the scale on it with a ruler:
desk-card-from-0-80-must = from 0 to 80 it must measure 80 mm
desk-card-if-does-not-print = {"."} If it does not, print it again.
desk-card-put-clear-matt-sleeve = Put it in a clear matt sleeve or cover it with matt film, so that it can be wiped clean.
desk-card-lay-flat-beside-prawns = Lay it flat beside the prawns, in the same light, with all four corner marks in the photo. Keep it off the food.
desk-card-print-new-one-when = Print a new one when it has faded or is stained.
desk-card-open-card-pdf = Open the card (PDF)
desk-card-keep-file = Keep the file
desk-card-fetched-from-server-so = It is fetched from the server, so it needs a network. Photos without a card are looked at too, with a wider range.

## deliveries/Added.svelte
desk-added-added-after-signing = Added after signing
desk-added-nothing-yet-put-away = Nothing yet. Put-away, refused goods and corrections appear here, each with its own seal.
desk-added-what-used-first-stands = What is to be used first stands on top.
desk-added-closed-again = closed again
desk-added-not-closed = not closed
desk-added-best-before = , best before { $best_before }
desk-added-line-freezer-liner = Line { $line_id }: { $count }{ $position }, in the freezer { $in_at }, { $out_at }, liner { $liner_closed }{ $best_before }.
desk-added-nothing-went-into-freezer = Nothing went into the freezer: all cartons were refused.
desk-added-kept-apart-as = kept apart, as of
desk-added-event-by = { $event } by { $by },
desk-added-line = Line { $line_id }: { $count } { $part }, { $event } { $happened_at }{ $reason }{ $where }.
desk-added-lot = , lot { $lot }
desk-added-line-thawed = Line { $line_id }{ $lot }, thawed { $thawed_at }: { $what }, { $rest }.
desk-added-photo-what-found = Photo { $i } of what was found
desk-added-reason = Reason: { $reason }
desk-added-line-2 = Line { $id }
desk-added-refused-held-cartons-where = Refused and held cartons: where they are
desk-added-correction = Correction
desk-added-refused-held-goods = Refused and held goods
desk-added-found-thawing = Found on thawing
desk-added-min-out-cold = { $minutes } min out of the cold
desk-added-minutes-out-cold-not = minutes out of the cold not noted

## deliveries/CartonCard.svelte
desk-carton-card-label-typed = Label (typed)
desk-carton-card-defective = ✕ defective
desk-carton-card-without-number = without a number
desk-carton-card-carton = Carton { $position }
desk-carton-card-opened = Opened
desk-carton-card-probed = Probed
desk-carton-card-prawns = { $pieces } prawns{ $weight }
desk-carton-card-weighed = Weighed, { $name }
desk-carton-card-prawns-looked = Prawns examined
desk-carton-card-label-scanned = Label (scanned)
desk-carton-card-read-nothing-typed = read, nothing typed
desk-carton-card-lot-label = Lot on the label
desk-carton-card-best-before = Best before
desk-carton-card-marks-agree = agree
desk-carton-card-marks-disagree = do not agree
desk-carton-card-marks-unsure = not sure
desk-carton-card-note = Note: { $note }
desk-carton-card-foreign-matter = Foreign matter: { $foreign_note }
desk-carton-card-all-checks-carton-made = All checks of this carton: { $length } made, { $length_2 } not made
desk-carton-card-outside-limit-not-defective = ± outside a limit, not defective
desk-carton-card-no-defect-found = ✓ no defect found

## deliveries/Deliveries.svelte
desk-deliveries-deliveries = the deliveries
desk-deliveries-nothing-refused-or-held = Nothing was refused or held in the deliveries of this page.
desk-deliveries-nothing-fits-these-filters = Nothing fits these filters.
desk-deliveries-show-all-deliveries = Show all deliveries.
desk-deliveries-no-delivery-been-signed = No delivery has been signed yet. It appears here as soon as a phone has sent it.
desk-deliveries-only-deliveries-with-refused = Only deliveries with refused or held cartons.
desk-deliveries-fits-these-filters = fits these filters
desk-deliveries-fit-these-filters = fit these filters
desk-deliveries-today = Today, { $name }
desk-deliveries-pages = Pages

## deliveries/DeliveryLine.svelte
desk-delivery-line-docket = Docket { $docket_number }{ $name } · { $receiver }
desk-delivery-line-accepted = { $accepted } accepted
desk-delivery-line-refused = { $refused } refused
desk-delivery-line-held = { $held } held
desk-delivery-line-phone-server-differ = · phone and server differ

## deliveries/DeliveryPage.svelte
desk-delivery-page-driver = driver
desk-delivery-page-all-deliveries = All deliveries
desk-delivery-page-print = Print
desk-delivery-page-delivery = the delivery
desk-delivery-page-accepted = { $sum } accepted,
desk-delivery-page-refused = { $sum } refused
desk-delivery-page-held = , { $sum } held
desk-delivery-page-order = , order { $number }
desk-delivery-page-arrived-received = at { $name }, arrived { $arrived_at }. Received by { $receiver }{ $number }.
desk-delivery-page-put-away = Put away.
desk-delivery-page-not-put-away-yet = Not put away yet.
desk-delivery-page-invented-for-demonstration = Invented for the demonstration.
desk-delivery-page-signed-sealed = Signed { $signed_at } and sealed. { $state } { $is_demo }
desk-delivery-page-noticed-when-record-sealed = Noticed when the record was sealed
desk-delivery-page-entries-could-not-used = Entries that could not be used
desk-delivery-page-they-kept-as-entered = They are kept as entered and counted as not checked.
desk-delivery-page-photos-load-papers = Photos of the load and the papers
desk-delivery-page-written-docket = Written on the docket
desk-delivery-page-no-wording-kept = No wording was kept.
desk-delivery-page-driver-did-not-sign = The driver did not sign. Reason noted: { $reason }
desk-delivery-page-notes = Notes: { $notes }
desk-delivery-page-events-for-other-systems = Events for other systems (EPCIS 2.0)
desk-delivery-page-judged-version-record-can = Judged by “{ $name }”, version { $version }. This record can only be added to. The judgements do not replace local food law or a competent person.

## deliveries/EarlierAnswers.svelte
desk-earlier-answers-method = { $at }, method { $method_version }
desk-earlier-answers-its-marked-areas = Its marked areas

## deliveries/Evidence.svelte
desk-evidence-evidence-for-supplier = Evidence for the supplier
desk-evidence-link-opens-deliverys-readings = A link opens this delivery's readings, photos and seal for anyone who has it, without an account.
desk-evidence-whom-note-for-you = To whom (a note for you)
desk-evidence-opens-for = Opens for
desk-evidence-year = a year
desk-evidence-days = { $one } days
desk-evidence-making-link = Making the link …
desk-evidence-make-link = Make a link
desk-evidence-links = the links
desk-evidence-ended = ended
desk-evidence-ran-out = ran out { $expires_at }
desk-evidence-opens-until = opens until { $expires_at }
desk-evidence-made = , made by { $created_by }
desk-evidence-end-link = End this link
desk-evidence-openings-counted-nothing-kept = Openings are counted, and nothing is kept of who opened. Some mail and chat programs open a link by themselves to show a preview. What is opened while signed in here is not counted.
desk-evidence-link-made = The link is made.
desk-evidence-link-no-longer-opens = The link no longer opens anything.
desk-evidence-not-opened-yet = Not opened yet.
desk-evidence-opened-once = Opened once, { $first_opened_at }.
desk-evidence-opened-times-first-last = Opened { $openings } times: first { $first_opened_at }, last { $last_opened_at }.

## deliveries/Filters.svelte
desk-filters-today = Today
desk-filters-refused-or-held = Refused or held
desk-filters-docket-supplier-or-lot = Docket, supplier or lot
desk-filters-words-look-for = Words to look for
desk-filters-more-filters = More filters
desk-filters-to = To

## deliveries/LineCard.svelte
desk-line-card-specification-not-found = specification not found
desk-line-card-glaze-declared = · { $declared_glaze_percent } glaze declared
desk-line-card-version-carton = { $code }, version { $version } · { $presentation } · { $state } · { $grade } · { $carton_net_g } a carton{ $declared_glaze_percent }
desk-line-card-suggestion = Suggestion
desk-line-card-decided = Decided
desk-line-card-receiver-decided-otherwise-than = The receiver decided otherwise than suggested.
desk-line-card-none-written = none written
desk-line-card-reason-given = Reason given: { $reason }
desk-line-card-docket = On the docket
desk-line-card-counted = Counted
desk-line-card-not-counted = not counted
desk-line-card-accepted = Accepted
desk-line-card-held = Held
desk-line-card-lot = Lot
desk-line-card-cartons-opened = { $opened } of { $lot } cartons opened
desk-line-card-open-accept-with-most = , by the { $plan_words }: open { $n }, accept with at most { $acceptance }
desk-line-card-found-defective = {"."} Found: { $defective } defective.
desk-line-card-what-sample-cannot-show = What this sample cannot show:
desk-line-card-if-1-carton-5 = if 1 carton in 5 were bad, opening this many would miss it { $miss_chance } of the time.
desk-line-card-with-what-found-up = With what was found, up to { $upper_bad } could still be bad.
desk-line-card-nothing-can-said-since = nothing can be said, since too little was counted or opened.
desk-line-card-nothing-found-against-limits = Nothing found against the limits in what was checked.
desk-line-card-not-checked-line = Not checked on this line: { $join }.
desk-line-card-allowance = Allowance:

## deliveries/Logger.svelte
desk-logger-data-logger = Data logger
desk-logger-logger-files = the logger files
desk-logger-earlier-reading-read-anew = { $file_name }: an earlier reading, read anew below
desk-logger-no-logger-file-yet = No logger file yet.
desk-logger-add-logger-file = Add a logger file
desk-logger-sites-clock = by the site's clock
desk-logger-when-goods-left-if = When the goods left, if the papers say ({ $timezone })
desk-logger-loggers-file-as-csv = The logger's file, as CSV. Choose it, or drop it here.
desk-logger-keep = Keep { $name }
desk-logger-file-kept-server-untouched = The file is kept on the server, untouched, and sealed.
desk-logger-most-5-mb-added = At most 5 MB. It is added to the signed record; the record itself stays as it was. The supplier sees it by an evidence link, with everything that is in the file.
desk-logger-which-clock-did-logger = Which clock did the logger keep?
desk-logger-which-unit-temperatures = Which unit are the temperatures in?
desk-logger-what-comes-first-its = What comes first in its dates?
desk-logger-which-column-lay-with = Which column lay with the goods?

## deliveries/LoggerCard.svelte
desk-logger-card-added-after-signing-seal = Added after signing, { $at }, by { $person }. It has a seal of its own; the seal of the delivery is unchanged.
desk-logger-card-site = the site
desk-logger-card-temperature-c-logger-time = Temperature in °C by the logger, time by the clock of { $timezone }.
desk-logger-card-shaded-warmer-than = Shaded: warmer than { $shaded_limit }.
desk-logger-card-dotted-frame-no-reading = Dotted frame: no reading.
desk-logger-card-grey-not-way-not = Grey: not on the way, not counted.
desk-logger-card-where-line-leaves-scale = Where the line leaves the scale it runs along its edge.
desk-logger-card-coldest = Coldest
desk-logger-card-warmest = Warmest
desk-logger-card-mean-kinetic-temperature = Mean kinetic temperature
desk-logger-card-without-reading = Without a reading
desk-logger-card-min = { $gap_minutes } min
desk-logger-card-warmer-than = Warmer than { $limit_c }: { $minutes_text }
desk-logger-card-longest-listed-counted-but = The longest are listed; { $count } counted but not listed.
desk-logger-card-how-reckoned = How this is reckoned
desk-logger-card-mean-kinetic-temperature-2 = Mean kinetic temperature: { $mean_kinetic } { $source_words }
desk-logger-card-storage-life = Storage life: { $life } { $source_words }
desk-logger-card-from-column-method = { $answers } { $readings } from the column “{ $column }”. Method { $method_version }.
desk-logger-card-first = ; the first are
desk-logger-card-left-out = { $unread } left out{ $unread_2 }:
desk-logger-card-line = Line { $line }: { $text }
desk-logger-card-how-loggers-read-worked = How loggers are read, worked through
desk-logger-card-download-file-as-came = Download the file as it came

## deliveries/NewLink.svelte
desk-new-link-send-now-its-address = Send it now: its address is shown this once and not kept.
desk-new-link-address-evidence-page = Address of the evidence page
desk-new-link-copy = Copy
desk-new-link-share = Share …
desk-new-link-write-mail = Write a mail
desk-new-link-qr-code-for-driver = QR code, for the driver to scan
desk-new-link-qr-code-link = QR code of the link
desk-new-link-link-copied-paste-into = The link is copied. Paste it into your message to the supplier.
desk-new-link-browser-does-not-let = This browser does not let the link be copied. It is marked in the box: copy it from there.
desk-new-link-device-could-not-share = This device could not share the link. Nothing is lost: copy it, or write a mail.

## deliveries/OtherWay.svelte
desk-other-way-phone-server-judged-differently = The phone and the server judged differently
desk-other-way-receiver-saw-phones-answer = The receiver saw the phone's answer when deciding. The server's answer is the one used on this page. Both are kept. Tell whoever looks after the installation: this should not happen.
desk-other-way-differences = Differences
desk-other-way-phone = Phone
desk-other-way-server = Server

## deliveries/PhotoCard.svelte
desk-photo-card-photo-not-reached-server = The photo has not reached the server yet. It is safe on the phone that took it.
desk-photo-card-save-file = Save the file
desk-photo-card-picture-cannot-shown-right = The picture cannot be shown right now. The original is kept.
desk-photo-card-open-original = Open the original
desk-photo-card-with-places-advice-about = , with the places that the advice is about marked
desk-photo-card-not-looked-for-darkening = Not looked at for darkening.
desk-photo-card-photo-advice-decides-nothing = Photo advice: decides nothing
desk-photo-card-where = Where: { $join }
desk-photo-card-method = By method { $method_version }.
desk-photo-card-hide-marks = Hide the marks
desk-photo-card-show-marks = Show the marks
desk-photo-card-how-light-prawns = How light the prawns are
desk-photo-card-how-much-prawns-surface = How much of the prawns’ surface is how light, from black at the left to white at the right, with the part marked that looked dark
desk-photo-card-no-advice-photo-yet = No advice on this photo yet.

## deliveries/ReasonCard.svelte
desk-reason-card-measured = Measured
desk-reason-card-how-judged = How this is judged: { $title }

## deliveries/Seals.svelte
desk-seals-addition = addition
desk-seals-seals = Seals
desk-seals-seals-2 = the seals
desk-seals-no-seal-record-for = No seal is on record for this delivery. Tell whoever looks after the installation.
desk-seals-seal = Seal { $number }
desk-seals-signed-delivery = signed delivery
desk-seals-logger-file = logger file
desk-seals-of-what = of the { $kind }, { $sealed_at }
desk-seals-fingerprint = Fingerprint
desk-seals-follows = follows { $previous_sha256 }
desk-seals-first-seal-site = first seal of this site
desk-seals-key = key { $public_key_id }

## deliveries/SheetChecks.svelte
desk-sheet-checks-checks-against-their-limits = Checks against their limits
desk-sheet-checks-check = Check
desk-sheet-checks-number = Number
desk-sheet-checks-fine = Fine is

## deliveries/SheetLine.svelte
desk-sheet-line-without-known-specification = without a known specification
desk-sheet-line-what-ordered = What was ordered
desk-sheet-line-what-typed-for-line = What was typed for the line
desk-sheet-line-without-position = without a position
desk-sheet-line-not-defective = ✓ not defective
desk-sheet-line-carton = Carton { $position }: { $is_defective }
desk-sheet-line-defective-because = Defective, because of: { $join }.
desk-sheet-line-not-defective-no-critical = Not defective: no critical fault, and no major one that is neither short value nor a doubt.
desk-sheet-line-line-as-whole = The line as a whole
desk-sheet-line-plan = The plan
desk-sheet-line-plan-2 = Plan
desk-sheet-line-open = Open
desk-sheet-line-accept-with = Accept with
desk-sheet-line-refuses-opens-all-accepts = , refuses at { $rejection }, opens { $total } in all and accepts then at most { $last }
desk-sheet-line-opened-asked-with-fault = { $opened } opened, { $planned } asked. { $defective } with a fault, { $bad } of them bad ({ $shown } beyond chance); the plan accepts at most { $acceptance }{ $rejection }:
desk-sheet-line-what-had-checked = What had to be checked
desk-sheet-line-had-checked = Had to be checked
desk-sheet-line-steps-first-yes-decides = Steps: the first “yes” decides
desk-sheet-line-suggestion = Suggestion:
desk-sheet-line-steps-above-give-another = The steps above give another answer than the sealed record, which was judged by another edition of these rules. The sealed reasons are what counted.
desk-sheet-line-decided = Decided:
desk-sheet-line-no-reason-written = no reason written
desk-sheet-line-otherwise-than-suggested-because = Otherwise than suggested, because: { $reason }

## deliveries/SheetPairs.svelte
desk-sheet-pairs-nothing-typed = Nothing was typed.

## deliveries/Vehicle.svelte
desk-vehicle-air = Air
desk-vehicle-prompt-above = prompt above { $bound }
desk-vehicle-seal-number = Seal number
desk-vehicle-none-noted = none noted
desk-vehicle-note = Note

## deliveries/Worksheet.svelte
desk-worksheet-recompute-hand = Recompute it by hand
desk-worksheet-each-entry-as-typed = Each entry as typed, each sum with its numbers, each check against its limit, the tally, the steps, the decision. Numbers are compared unrounded; they are written with four decimals, or with more where four would hide on which side of a limit they lie.
desk-worksheet-whole-procedure = The whole procedure
desk-worksheet-worksheet = the worksheet
desk-worksheet-limits = Limits:

## deliveries/logger.ts
desk-logger-files-times-no-zone = The file’s times have no zone; they were taken to be by the clock of { $zone }, at the offset of the first reading.
desk-logger-files-times-carry-their = The file’s times carry their zone.
desk-logger-its-unit-told = Its unit was told: °{ $unit }.
desk-logger-told-day-comes-first = Told: the day comes first.
desk-logger-told-month-comes-first = Told: the month comes first.

## deliveries/readings.ts
desk-readings-refuse = refuse
desk-readings-past-limit = past the limit
desk-readings-product-temperature = Product temperature
desk-readings-inside-transport-tolerance = inside the transport tolerance
desk-readings-outside-tolerance = outside the tolerance
desk-readings-prawns-with-black-spot = Prawns with black spot
desk-readings-uniformity = Uniformity
desk-readings-life-left = Shelf life left
desk-readings-net-without-glaze = Net without glaze
desk-readings-glaze = Glaze
desk-readings-noted-as-short = noted as short
desk-readings-count = Count
desk-readings-days-best-before = Days to best before

## deliveries/sending.ts
desk-sending-docket-evidence-delivery = Docket { $docket }: evidence of the delivery
desk-sending-what-found-when-docket = What was found when docket { $docket } came in, with readings, limits and photos:
desk-sending-link-opens-until-without = The link opens until { $expires_at }, without an account.
desk-sending-seal-record-sha-256 = Seal { $number } of the record, SHA-256: { $sha256 }. Keep this message: with it you can tell later whether the record is still the same.

## deliveries/unusable.ts
desk-unusable-entry-could-not-used = This entry could not be used ({ $code }). It is kept as it was typed. Ask whoever typed it.

## deliveries/why.ts
desk-why-no-source-record = No source is on record.
desk-why-published-limit = Published limit. { $source }
desk-why-agreed-specification = Agreed in the specification.
desk-why-house-limit-not-published = House limit, not a published one.
desk-why-its-ground-as-kitchen = { $told } Its ground as the kitchen gives it: { $source }.

## devices/Devices.svelte
desk-devices-device-without-name = Device without a name
desk-devices-out-use = ✕ Out of use
desk-devices-use = ✓ In use
desk-devices-last-hands = { $name } · last in the hands of { $person }
desk-devices-nobody-record = nobody on record
desk-devices-shared-since = Shared since { $enrolled_at }, by { $enrolled_by }.
desk-devices-out-use-since-what = Out of use since { $revoked_at }, by { $revoked_by }. What is on it stays there.
desk-devices-take-out-use-nothing = Take it out of use? Nothing of it is taken from then on. What is on it stays there, and is sent when it comes into use again.
desk-devices-leave-use = Leave it in use
desk-devices-take-out-use = Take it out of use
desk-devices-take-into-use-again = Take into use again
desk-devices-take-out-use-2 = Take out of use
desk-devices-share-device-site = Share a device at a site
desk-devices-receivers-then-sign-their = Receivers then sign in on it by their name and PIN, to receive and nothing else.
desk-devices-name-device = Name of the device
desk-devices-dock-tablet = Dock tablet
desk-devices-make-code = Make a code
desk-devices-device-open-underlid-choose = On the device, open Underlid, choose “This device is shared” and enter:
desk-devices-for-one-device-until = For one device, until { $expires_at }. It is shown this once.
desk-devices-devices = the devices
desk-devices-shared-site = Shared at a site
desk-devices-no-device-shared-yet = No device is shared yet.
desk-devices-somebodys-own = Somebody’s own
desk-devices-lost-or-stolen-take = Lost or stolen? Take it out of use, and give its owner a new password.
desk-devices-none-signed-yet = None has signed in yet.

## devices/HandIn.svelte
desk-hand-in-phone-cannot-send = A phone that cannot send
desk-hand-in-phone-under-its-way = On the phone, under “On its way”, what waits can be saved as a file. Brought in here it counts as if the phone had sent it, by the person who received the goods, and once, however often.
desk-hand-in-file-from-phone = File from the phone
desk-hand-in-bringing-so-far = Bringing it in: { $length } so far…
desk-hand-in-brought-all-server = ✓ { $length } brought in. All of it is on the server.
desk-hand-in-could-not-brought = { $length } of { $length_2 } could not be brought in:
desk-hand-in-delivery-record = Delivery record
desk-hand-in-photo = Photo
desk-hand-in-signed-record = Signed record
desk-hand-in-put-away-correction-or = Put-away, correction, or refused goods
desk-hand-in-thermometer-check-ice = Thermometer check in ice
desk-hand-in-no-file-phones-or = This is no file of a phone’s, or it is cut off. Nothing was changed. Save it on the phone anew.
desk-hand-in-server-cannot-reached-what = The server cannot be reached. What came in is safe. Choose the file once more: nothing counts twice.
desk-hand-in-file-could-not-read = The file could not be read to its end. What came in is safe. Choose the file once more: nothing counts twice.

## exports/Exports.svelte
desk-exports-signed-deliveries-arrived-from = Signed deliveries that arrived from { $words }, of the sites that you answer for. Times are UTC; days are the site's own.
desk-exports-tables = the tables
desk-exports-columns = Columns
desk-exports-columns-2 = Columns of { $name }
desk-exports-kind = Kind
desk-exports-meaning = Meaning
desk-exports-other-systems-read-same = Other systems read the same rows page by page:
desk-exports-how = how
desk-exports-workbook-xlsx = Workbook (.xlsx)
desk-exports-parquet = Parquet

## how/How.svelte
desk-how-kept-with-app-these = Kept with the app: these pages can be read without a signal.
desk-how-no-page-came-with = No page came with this build. The limits and their sources stand under
desk-how-pages-could-not-opened = The pages could not be opened. Nothing is lost. Check the network, then load this page again.
desk-how-all-pages = All pages
desk-how-there-no-page-under = There is no page under this address. Nothing is lost. Choose one from the list.

## imports/Imports.svelte
desk-imports-importing-for-site-managers = Importing is for site managers, group operations and administrators. Nothing was changed. Ask one of them.
desk-imports-what-import = What to import
desk-imports-csv-file-or-xlsx = { $about } A CSV file or an .xlsx workbook, as a spreadsheet saves it; of a workbook, the sheet that was open. Importing the same file twice changes nothing; what is not in the file stays as it is.
desk-imports-headings = Headings:
desk-imports-download-template = Download a template
desk-imports-your-file = Your file
desk-imports-check-file-change-nothing = Check the file, change nothing
desk-imports-import = Import { $added }
desk-imports-choose-file-first-checked = Choose a file first. It is checked before anything is written.

## imports/Report.svelte
desk-report-cannot-used = { $length } cannot be used
desk-report-imported = Imported
desk-report-file-can-used = The file can be used
desk-report-nothing-been-written = Nothing has been written.
desk-report-read-added-changed-as = { $rows } read: { $added } { $would }added, { $changed } { $would_2 }changed, { $unchanged } as before. { $is_written }
desk-report-file-not-utf-8 = The file is not in UTF-8. It was read as Windows-1252; look at letters with accents before you import.
desk-report-everything-file-record-already = Everything in the file is on record already.
desk-report-cells-cannot-used = Cells that cannot be used
desk-report-line = Line
desk-report-written-there = Written there
desk-report-what-do = What to do
desk-report-whole-line = whole line
desk-report-would = would be

## imports/tables.ts
desk-tables-one-line-for-each = One line for each product of an order. Site, supplier and specification by their codes.
desk-tables-one-line-for-each-2 = One line for each supplier; the code finds it again.
desk-tables-one-line-for-each-3 = One line for each product; a changed line becomes a new version, past deliveries keep theirs.
desk-tables-one-line-for-each-4 = One line for each thermometer; site and name find it again.

## keep/Form.svelte
desk-form-may-stay-empty = (may stay empty)
desk-form-add-nothing = Add nothing
desk-form-saving = Saving …
desk-form-save = Save

## keep/Keep.svelte
desk-keep-many-once-come = Many at once come in by
desk-keep-all-kept-hand = All that is kept by hand
desk-keep-group-operations-may-change = Group operations may change them.
desk-keep-these = the { $what }
desk-keep-add = Add a { $one }
desk-keep-new = New { $one }
desk-keep-find = Find a { $one }
desk-keep-nothing-list-matches = Nothing on this list matches.
desk-keep-no-listed-yet = No { $one } is listed yet.
desk-keep-out-use = (out of use)
desk-keep-change = Change { $row }
desk-keep-change-2 = Change
desk-keep-saved = { $row } is saved.

## keep/kinds.ts
desk-kinds-raw = raw
desk-kinds-cooked = cooked
desk-kinds-farmed = farmed
desk-kinds-one-person = person
desk-kinds-one-site = site
desk-kinds-one-supplier = supplier
desk-kinds-one-specification = specification
desk-kinds-one-thermometer = thermometer
desk-kinds-one-freezer = freezer
desk-kinds-european-union = European Union
desk-kinds-united-states = United States
desk-kinds-australia-new-zealand = Australia and New Zealand
desk-kinds-codex-elsewhere = Codex (elsewhere)
desk-kinds-use = In use
desk-kinds-people = People
desk-kinds-receiver-sees-deliveries-their = A receiver sees the deliveries of their sites and receives; a site manager also answers for those sites; group operations answer for all. An account is ended, never removed: deliveries name it.
desk-kinds-name-as-stands-docket = Name, as it stands on the docket
desk-kinds-user-name-for-signing = User name, for signing in
desk-kinds-letters-digits-no-blanks = Letters and digits, no blanks.
desk-kinds-role = Role
desk-kinds-sites = Sites
desk-kinds-8-signs-or-more = 8 signs or more. Tell it to the person; they can ask for another.
desk-kinds-8-signs-or-more-2 = 8 signs or more. A new one signs the person out everywhere. Left empty, it stays as it is.
desk-kinds-pin-for-shared-devices = PIN for shared devices
desk-kinds-4-8-digits-everybody = 4 to 8 digits. Everybody can set their own, too.
desk-kinds-4-8-digits-left = 4 to 8 digits. Left empty, it stays as it is.
desk-kinds-may-sign = May sign in
desk-kinds-pin = has a PIN
desk-kinds-no-pin = no PIN
desk-kinds-site-kitchen-receives-its = A site is a kitchen that receives. Its clock gives the days of its deliveries, its market the rules for labels.
desk-kinds-name = Name
desk-kinds-short-code-as-printed = Short code, as printed on seals
desk-kinds-three-six-letters = Three to six letters.
desk-kinds-time-zone = Time zone
desk-kinds-as-tz-database-such = As in the tz database, such as Europe/Lisbon.
desk-kinds-currency = Currency
desk-kinds-three-letters-such-as = Three letters, such as EUR.
desk-kinds-market = Market
desk-kinds-who-delivers-one-out = Who delivers. One that is out of use is offered no more at the dock; its deliveries stay.
desk-kinds-short-code = Short code
desk-kinds-contact = Contact
desk-kinds-contacts-e-mail = Contact’s e-mail
desk-kinds-what-bought-change-makes = What is bought. A change makes a new version; deliveries keep the one they were judged by.
desk-kinds-code = Code
desk-kinds-species = Species
desk-kinds-presentation = Presentation
desk-kinds-state = State
desk-kinds-part-cooked = part cooked
desk-kinds-size-grade = Size grade
desk-kinds-such-as-16-20 = Such as 16/20, U/10 or 30/40 per kg.
desk-kinds-net-weight-carton-kg = Net weight of a carton, kg
desk-kinds-packs-or-blocks-carton = Packs or blocks in a carton
desk-kinds-declared-glaze = Declared glaze, %
desk-kinds-countries-origin = Countries of origin
desk-kinds-two-letter-codes-comma = Two-letter codes, comma between.
desk-kinds-production-method = Production method
desk-kinds-not-agreed = not agreed
desk-kinds-caught-sea = caught at sea
desk-kinds-caught-fresh-water = caught in fresh water
desk-kinds-least-shelf-life-left = Least shelf life left at arrival, % of the whole
desk-kinds-version = version { $version }
desk-kinds-what-measured-with-checks = What is measured with. Checks in ice are filed at the dock; one noted here counts when its day is later.
desk-kinds-last-check-ice-noted = Last check in ice, noted by hand
desk-kinds-read-c = It read, °C
desk-kinds-next-check-due = Next check due
desk-kinds-freezers = Freezers
desk-kinds-where-cartons-put-away = Where cartons are put away.
desk-kinds-fill = Fill this in.
desk-kinds-write-number = Write a number.

## limits/LimitRow.svelte
desk-limit-row-going-past = Going past it is
desk-limit-row-source = Source
desk-limit-row-otherwise = Otherwise { $severity }.
desk-limit-row-source-2 = { $words } Source: { $source }{ $known }.
desk-limit-row-as-ordered = as ordered
desk-limit-row-as-plan-accepts = as the plan accepts
desk-limit-row-none-seen = none seen

## limits/Limits.svelte
desk-limits-limits-use = Limits in use
desk-limits-limits = the limits
desk-limits-no-limits-use-yet = No limits are in use yet. Nothing can be judged without them. Ask your administrator to load the default ones.
desk-limits-version-sampling = “{ $name }”, version { $version }. Sampling by the { $plan_words }.
desk-limits-setting-up-installation = the setting up of this installation
desk-limits-use-since-published = In use since { $created_at }, published by { $created_by }.
desk-limits-every-limit-names-where = Every limit names where it comes from. A specification may lay its own bound over one of these. Local food law comes first.
desk-limits-change-limits = Change limits
desk-limits-they-hold-for-every = They hold for every site of the group. Group operations may change them.
desk-limits-sampling-plan = Sampling plan
desk-limits-how-judged = How this is judged
desk-limits-changes = Changes
desk-limits-sampling-plan-2 = sampling plan
desk-limits-changed = { $number } changed: { $join }.
desk-limits-nothing-changed-yet = Nothing changed yet.
desk-limits-publishing = Publishing …
desk-limits-publish-as-version = Publish as version { $version }
desk-limits-earlier-versions = Earlier versions
desk-limits-by = , by { $created_by }
desk-limits-try-others = Try others on past deliveries
desk-try-title = Try other limits
desk-try-how = Each delivery signed from { $period } is judged twice: under its own limits and plan, and under those tried. Nothing is changed. At most 300 deliveries are judged at once: 2 to 5 seconds where each has one line, longer with more. Cartons of one delivery resemble each other, so the truth may lie further off than the intervals.
desk-try-not-yours = Group operations may try limits. Nothing was judged.
desk-try-file = File of limits (JSON), or none
desk-try-unread = { $file } could not be read as a set of limits. Nothing was judged. Choose a file as GET /api/limits gives it.
desk-try-plan-own = Each delivery its own
desk-try-try = Try
desk-try-judging = Judging …
desk-try-trial = the trial
desk-try-found = { $deliveries } and { $lines } judged; { $changed } would have changed.
desk-try-left-out = { $lines } left out: the plan asks for cartons that nobody opened.
desk-try-table = Own limits beside those tried
desk-try-own = Own
desk-try-tried = Tried
desk-try-changed = Lines that would have changed
desk-try-first-shown = The first { $number } are shown.
desk-try-line = { $docket }, line { $line }
desk-try-no-number = no docket number
desk-try-lines = Lines: { $suggestion }
desk-try-refused = Cartons refused
desk-try-held = Cartons held
desk-try-bad = Opened cartons bad
desk-try-of = { $some } of { $all }
desk-try-caught = Bad ones refused or held, where all were opened
desk-try-missed = Bad ones taken unopened, estimated
desk-try-interval = { $about } of { $closed } (95 %: { $low } to { $high })
desk-try-none-unopened = nothing was taken unopened
desk-try-side = { $suggestion }, { $cartons } refused
desk-try-change = { $before } → { $after }
desk-limits-use = · in use
desk-limits-version = “{ $name }”, version { $version }, { $created_at }{ $created_by }{ $id }
desk-limits-new-version-use-for = The new version is in use for deliveries begun from now on. Open ones keep the limits that they were begun with.
desk-limits-source-given-does-not = The source given does not say this number. Write where the new one comes from, or “house rule”.

## limits/editing.ts
desk-editing-points = points
desk-editing-ratio = ratio
desk-editing-score = of 10
desk-editing-pieces = prawns
desk-editing-cartons = cartons
desk-editing-days = days
desk-editing-readings = readings
desk-editing-could-not-read-as = This could not be read as a number. Nothing was changed. Write digits with one comma or point.
desk-editing-carton-hazards = Carton and hazards
desk-editing-condition-prawns = Condition of the prawns
desk-editing-species-size = Species and size
desk-editing-weight-number = Weight and number
desk-editing-label-life = Label and life
desk-editing-other = Other
desk-editing-prawns = % of prawns
desk-editing-times-table = times the table

## loaded.svelte.ts
desk-loaded-you-signed-out-nothing = You are signed out. Nothing is lost. Sign in to go on.
desk-loaded-server-cannot-reached-from = The server cannot be reached from here. Nothing is lost. Check the network, then try again.

## lots/LotLine.svelte
desk-lot-line-docket-and-labels = The docket names the lot; so do labels of { $cartons } of { $opened }{ $which }.
desk-lot-line-labels-only = The docket does not name the lot, but labels of { $cartons } of { $opened } do{ $which }.
desk-lot-line-docket-only = The docket names the lot; it was read on no label.
desk-lot-line-invented = (invented)
desk-lot-line-lot = Lot { $lot }, { $name }{ $is_demo }
desk-lot-line-best-before = , best before { $join }
desk-lot-line-carton = (carton { $join })
desk-lot-line-one-step-back = One step back
desk-lot-line-order = , order { $order }
desk-lot-line-arrived = { $name }{ $order }, arrived { $arrived_at }
desk-lot-line-docket-line = docket { $docket_number }, line { $line }
desk-lot-line-received = Received
desk-lot-line-accepted-refused-held-signed = { $decided }: of { $cartons } { $accepted } accepted, { $refused } refused, { $held } held; signed by { $signed_by }, { $signed_at }
desk-lot-line-one-step-forward = One step forward
desk-lot-line-freezer-not-named = a freezer that was not named
desk-lot-line-put-away = { $count } in { $join }{ $in_at }, by { $by }
desk-lot-line-without-put-away-record = { $not_put_away } without a put-away on record.
desk-lot-line-fetched = fetched by { $by }
desk-lot-line-set-apart = set apart at { $where }
desk-lot-line-where-refused-held-cartons = Where refused and held cartons stand is not on record.
desk-lot-line-nothing-kept = Nothing was kept.

## lots/Lots.svelte
desk-lots-lot-docket-or-label = Lot on the docket or a label
desk-lots-lot-look-for = Lot to look for
desk-lots-enter-lot-or-how = Enter the lot, or how it begins or ends. It is looked for on dockets and on the labels of all opened cartons; capitals, blanks and strokes make no difference.
desk-lots-lot = the lot
desk-lots-no-docket-no-label = No docket and no label of an opened carton names a lot that begins or ends with “{ $asked }”. Cartons that stayed closed are known by their docket only: look for the supplier's deliveries of those days as well.
desk-lots-from = “{ $asked }”: { $lines } at { $sites }, from { $suppliers }.
desk-lots-cartons-came = Cartons that came
desk-lots-kept-not-put-away = Kept, not put away
desk-lots-there-such-lines-newest = There are { $shown } such lines; the newest { $length } are shown and added up. Enter more of the lot.
desk-lots-numbers-whole-docket-lines = Numbers are of whole docket lines: a line may hold other lots besides. What was cooked or thrown away since is not recorded here; look in the freezer.
desk-lots-print-recall-sheet = Print the recall sheet
desk-lots-as-server-screens-clock = As on the server on { $at }, by this screen's clock.
desk-lots-checked-cartons-found-set = Checked by ____________________ on ____________ Cartons found ______ Set apart at ____________________

## orders/Orders.svelte
desk-orders-expected-orders = Expected orders
desk-orders-from-today = From today
desk-orders-past = Past
desk-orders-orders = the orders
desk-orders-no-past-order-record = No past order is on record.
desk-orders-nothing-expected = Nothing is expected.
desk-orders-orders-come = Orders come in by
desk-orders-order = Order { $number }{ $name }
desk-orders-kg = , { $to_fixed } { $currency } a kg
desk-orders-arrived = Arrived:
desk-orders-docket = docket { $docket_number }
desk-orders-nothing-received-order = Nothing was received on this order.
desk-orders-not-received-yet = Not received yet.
desk-orders-today = Today, { $iso }

## parts/LimitBar.svelte
desk-limit-bar-entered-as = entered as { $entered }
desk-limit-bar-else = , else { $beyond }

## parts/PeriodFilter.svelte
desk-period-filter-months = Months
desk-period-filter-days-as-below = Days as below
desk-period-filter-up-with = Up to and with

## parts/Read.svelte
desk-read-asking-server = Asking the server …
desk-read-as-server = As on the server at { $at }.
desk-read-not-read-from-server = Not read from the server yet.

## parts/SignatureDrawing.svelte
desk-signature-drawing-signature = Signature of { $name }
desk-signature-drawing-no-name-written = no name written

## parts/Standing.svelte
desk-standing-shown-below-what-server = Shown below is what the server said at { $at }.
desk-standing-reading-from-server = Reading { $what } from the server …

## parts/period.svelte.ts
desk-period-last-months = Last { $long } months
desk-period-days = { $from } to { $to }
desk-period-1 = 1 to { $slice } { $last }
desk-period-months = { $first } to { $last }

## shell/More.svelte
desk-more-thermometers-their-checks-ice = Thermometers and their checks in ice
desk-more-photo-advice-what-worth = Photo advice: what it is worth
desk-more-reference-card-for-photos = Reference card for photos
desk-more-people-sites-suppliers-specifications = People, sites, suppliers, specifications, equipment
desk-more-receiving-dock = Receiving at the dock
desk-more-operators-own-pages-new = The operator’s own pages (new tab)
desk-more-screen = Screen
desk-more-sign-out = Sign out
desk-more-what-waits-device-stays = What waits on this device stays here and is sent at the next sign-in.
desk-more-as-device-says = As the device says
desk-more-bright = Bright
desk-more-dark = Dark

## shell/OwnPin.svelte
desk-own-pin-your-pin-for-shared = Your PIN for shared devices
desk-own-pin-device-your-site-shares = On a device that your site shares you sign in by your name and this PIN, to receive and nothing else.
desk-own-pin-new-pin-4-8 = New PIN, 4 to 8 digits
desk-own-pin-your-password = Your password
desk-own-pin-your-pin-set = ✓ Your PIN is set.
desk-own-pin-setting = Setting …
desk-own-pin-set-pin = Set the PIN

## shell/Places.svelte
desk-places-desk = Desk
desk-places-desk-2 = desk
desk-places-you-screen = You and this screen
desk-places-receiving = Receiving
desk-places-claims = Claims

## thermometers/Thermometers.svelte
desk-thermometers-within-limits-use = , within { $allowed } by the limits in use
desk-thermometers-each-checked-crushed-ice = Each is checked in crushed ice, where it has to read 0 °C{ $allowed }. A reading from one that is not in order is kept, and the record says so. The receiver files a check at the dock, from “Step by step” at the temperature question.
desk-thermometers-thermometers = the thermometers
desk-thermometers-no-thermometer-listed = No thermometer is listed.
desk-thermometers-they-come = They come in by
desk-thermometers-none-use = None is in use.
desk-thermometers-all-use-order = All that are in use are in order.
desk-thermometers-use-not-order =
    { $length ->
        [one] { $length } of { $length_2 } in use is not in order.
       *[other] { $length } of { $length_2 } in use are not in order.
    }
desk-thermometers-accurate = { $name }accurate to ± { $accuracy_c }
desk-thermometers-last-check = Last check
desk-thermometers-read-ice = Read in ice
desk-thermometers-next-due = Next due
desk-thermometers-done = Done by
desk-thermometers-noted-hand-or-from = noted by hand or from a table
desk-thermometers-checks-filed-from-phones =
    { $count ->
        [one] Checks filed from phones, the newest one
       *[other] Checks filed from phones, the newest { $count }
    }
desk-thermometers-out-use = Out of use
desk-thermometers-order = ✓ In order
desk-thermometers-not-order = ! Not in order
desk-thermometers-before-used-again = before it is used again
desk-thermometers-30-days-after-check = 30 days after the check
desk-thermometers-sent = { $done_by }, sent by { $sent_by }

## trail/Trail.svelte
desk-trail-kept-for-good-never = Kept for good and never altered. What a receiver entered stands with each delivery, in its own versions.
desk-trail-person-or-thing = Person or thing
desk-trail-trail = the trail
desk-trail-nothing-record-matches = Nothing on record matches.
desk-trail-somebody-with-link = Somebody with the link

## words.ts
desk-words-receiver = receiver
desk-words-administrator = administrator
desk-words-over-99 = over 99 %
desk-words-under-1 = under 1 %
desk-words-no-data = no data
desk-words-cannot-said = cannot be said
desk-words-range = { $replace } to { $high }
desk-words-times = { $ratio } times
desk-words-time-not-noted = time not noted
desk-words-not-decided = Not decided
desk-words-site-manager = site manager
desk-words-group-operations = group operations
desk-words-carton-top = Carton top
desk-words-defect = Defect
desk-words-no-darkening-seen = No darkening seen
desk-words-look-framed-places = Look at the framed places
desk-words-them-head = , { $at_head } of them at the head
desk-words-pieces-look-darkened = { $dark_pieces } of { $pieces } pieces look darkened{ $at_head }
desk-words-on-pieces = { $said } on { $pieces }
desk-words-prawn-area = { $said }: { $share } of the prawn area
desk-words-between-packs = between packs
desk-words-core = in the core
desk-words-surface = on the surface
desk-words-house-plan = house plan
desk-words-codex-cxs-233-level = Codex CXS 233, level I
desk-words-codex-cxs-233-level-2 = Codex CXS 233, level II
desk-words-iso-2859-1-level = ISO 2859-1, level S-2
desk-words-iso-2859-1-level-2 = ISO 2859-1, level S-3
desk-words-iso-2859-1-level-3 = ISO 2859-1, level S-4
desk-words-iso-2859-1-level-4 = ISO 2859-1, level I
desk-words-iso-2859-1-level-5 = ISO 2859-1, level II
desk-words-not-stated = not stated

## Numbers of things; $shown is $count as it is written
desk-counted-carton =
    { $count ->
        [one] { $shown } carton
       *[other] { $shown } cartons
    }
desk-counted-cell =
    { $count ->
        [one] { $shown } cell
       *[other] { $shown } cells
    }
desk-counted-claim =
    { $count ->
        [one] { $shown } claim
       *[other] { $shown } claims
    }
desk-counted-day =
    { $count ->
        [one] { $shown } day
       *[other] { $shown } days
    }
desk-counted-defective-carton =
    { $count ->
        [one] { $shown } defective carton
       *[other] { $shown } defective cartons
    }
desk-counted-delivery =
    { $count ->
        [one] { $shown } delivery
       *[other] { $shown } deliveries
    }
desk-counted-docket-line =
    { $count ->
        [one] { $shown } docket line
       *[other] { $shown } docket lines
    }
desk-counted-earlier-answer =
    { $count ->
        [one] { $shown } earlier answer
       *[other] { $shown } earlier answers
    }
desk-counted-entry =
    { $count ->
        [one] { $shown } entry
       *[other] { $shown } entries
    }
desk-counted-fault =
    { $count ->
        [one] { $shown } fault
       *[other] { $shown } faults
    }
desk-counted-freezer =
    { $count ->
        [one] { $shown } freezer
       *[other] { $shown } freezers
    }
desk-counted-kept-carton =
    { $count ->
        [one] { $shown } kept carton
       *[other] { $shown } kept cartons
    }
desk-counted-limit =
    { $count ->
        [one] { $shown } limit
       *[other] { $shown } limits
    }
desk-counted-line =
    { $count ->
        [one] { $shown } line
       *[other] { $shown } lines
    }
desk-counted-note =
    { $count ->
        [one] { $shown } note
       *[other] { $shown } notes
    }
desk-counted-opened-carton =
    { $count ->
        [one] { $shown } opened carton
       *[other] { $shown } opened cartons
    }
desk-counted-person =
    { $count ->
        [one] { $shown } person
       *[other] { $shown } people
    }
desk-counted-photo =
    { $count ->
        [one] { $shown } photo
       *[other] { $shown } photos
    }
desk-counted-photographed-carton =
    { $count ->
        [one] { $shown } photographed carton
       *[other] { $shown } photographed cartons
    }
desk-counted-piece =
    { $count ->
        [one] { $shown } piece
       *[other] { $shown } pieces
    }
desk-counted-reading =
    { $count ->
        [one] { $shown } reading
       *[other] { $shown } readings
    }
desk-counted-record =
    { $count ->
        [one] { $shown } record
       *[other] { $shown } records
    }
desk-counted-row =
    { $count ->
        [one] { $shown } row
       *[other] { $shown } rows
    }
desk-counted-shorter-one =
    { $count ->
        [one] { $shown } shorter one
       *[other] { $shown } shorter ones
    }
desk-counted-site =
    { $count ->
        [one] { $shown } site
       *[other] { $shown } sites
    }
desk-counted-species =
    { $count ->
        [one] { $shown } species
       *[other] { $shown } species
    }
desk-counted-specification =
    { $count ->
        [one] { $shown } specification
       *[other] { $shown } specifications
    }
desk-counted-supplier =
    { $count ->
        [one] { $shown } supplier
       *[other] { $shown } suppliers
    }
desk-counted-thermometer =
    { $count ->
        [one] { $shown } thermometer
       *[other] { $shown } thermometers
    }
desk-counted-month =
    { $count ->
        [one] { $shown } month
       *[other] { $shown } months
    }
desk-counted-week =
    { $count ->
        [one] { $shown } week
       *[other] { $shown } weeks
    }

## desk/shell/Passkeys
desk-passkeys-title = Your passkeys
desk-passkeys-what = A passkey signs you in by the finger, face or PIN that unlocks your phone or computer, without the password.
desk-passkeys-used = Last used on { $day }
desk-passkeys-unused = Not used yet
desk-passkeys-take-away = Take away
desk-passkeys-name = Name of the device, as you will know it again
desk-passkeys-password = Your password
desk-passkeys-add = Add a passkey on this device
desk-passkeys-not-made = No passkey was made. Nothing was changed. Begin again, or choose another device when the browser asks.
desk-passkeys-not-here = Passkeys need a browser of today and a server that is reached over HTTPS by a name.

## desk/parked/Parked
desk-parked-title = Photos given up
desk-parked-what = The photos are kept as they were taken; what is missing is their small pictures or the advice on them. Look at them yourself, or let the worker try again.
desk-parked-standing = what was given up
desk-parked-none = No photo was given up.
desk-parked-again = Try again

## Comparison
desk-comparison-measures = Measures and cost of a sound kilogram
desk-comparison-as-table = The same as a table
desk-comparison-over-time = { $name } over time
desk-comparison-by-month = Month
desk-comparison-by-week = Week from
desk-comparison-defective = Defective of opened
desk-comparison-luck = By luck alone
desk-comparison-added-up = Added up
desk-comparison-of = { $part } of { $whole }
desk-comparison-to = { $low } to { $high }
desk-comparison-beyond = { $limits }: beyond
desk-comparison-not-said = not said
desk-comparison-week-of = the week of { $day }
desk-comparison-time-none = No carton was opened: nothing to show over time.
desk-comparison-time-few = Too few to say: { $spans } with an opened carton. It takes { $needed } before limits can be drawn.
desk-comparison-time-same = The same in every one: nothing to say over time.
desk-comparison-overall = Overall { $share }.
desk-comparison-widened = Its deliveries wander more than luck makes them, so the limits are drawn wider.
desk-comparison-at-most = luck gives at most { $limit }
desk-comparison-at-least = luck gives at least { $limit }
desk-comparison-no-change-month = No change over { $spans }: no month beyond the limits, nor the running total.
desk-comparison-no-change-week = No change over { $spans }: no week beyond the limits, nor the running total.
desk-comparison-point-out = More than luck explains in { $span }: { $count }, where { $past }.
desk-comparison-shift-odds = { " " }(1 chance in { $one_in } by luck)
desk-comparison-shift-worse = Worse since { $span }: { $since } defective, before { $before }{ $odds }.
desk-comparison-shift-better = Better since { $span }: { $since } defective, before { $before }{ $odds }.
desk-comparison-no-data-said = No data: no carton of this supplier was opened in this period.
desk-comparison-no-comparison = No comparison is possible: the others brought too little of these goods to the same sites.
desk-comparison-within = Within what luck explains, in the same goods at the same sites.
desk-comparison-too-few-said = Too few to say: { $cartons } opened over { $deliveries }. It takes { $least } over { $over }.
desk-comparison-as-far = : { $chance } that luck alone goes as far
desk-comparison-luck-more = More defective cartons than luck explains{ $far }, in the same goods at the same sites.
desk-comparison-luck-fewer = Fewer defective cartons than luck explains{ $far }, in the same goods at the same sites.
desk-comparison-hardly = less than 1 chance in 1,000,000
desk-comparison-one-in = 1 chance in { $number }
desk-comparison-points-below = As counted, { $points } points below all the others together ({ $low } to { $high } points). This does not allow for its goods.
desk-comparison-points-above = As counted, { $points } points above all the others together ({ $low } to { $high } points). This does not allow for its goods.
desk-comparison-beside = At the others' rates ({ $others }), the same goods at the same sites would have given { $expected } defective cartons; { $found } were found.
desk-comparison-beside-times = At the others' rates ({ $others }), the same goods at the same sites would have given { $expected } defective cartons; { $found } were found: { $times } as many (95 % interval { $interval }; 1 is like the others).
desk-comparison-or-more = at least { $low }
desk-comparison-run = { $deliveries ->
    [one] All of its last delivery was refused: { $cartons } since { $since }.
   *[other] All of its last { $deliveries } deliveries were refused: { $cartons } since { $since }.
}
desk-comparison-alone = { $share } of its opened cartons are goods that nobody else brought to that site: they are left out of the comparison.
desk-comparison-stray-not = Together they stray no further than luck makes them.
desk-comparison-alike = Cartons of one delivery are alike, so the limits are drawn { $times } times as wide.
desk-comparison-stray = Together they stray { $times } times as far as luck alone makes them: they truly differ.
desk-comparison-any-place = any place
desk-comparison-place = place { $low }
desk-comparison-places = between place { $low } and { $high }
desk-comparison-order = How sure is the order
desk-comparison-order-none = It takes three suppliers that can be compared, and a defective carton, before an order can be told from luck.
desk-comparison-order-how = From the fewest defective cartons to the most, goods and sites allowed for. The bar shows the places that a supplier has in 95 of 100 orders, the mark the middle one. Suppliers whose bars overlap cannot be told apart.
desk-comparison-order-places = Places
desk-comparison-order-most = Chance of the most
desk-comparison-sites = Sites, in the same goods of the same suppliers
desk-comparison-sites-alike = No site finds clearly more or fewer than the others.
desk-comparison-rate = Rate
desk-comparison-beside-sites = Beside the other sites
desk-comparison-probed = Probed
desk-comparison-weighed = Sample weighed
desk-comparison-too-few = too few to say
desk-comparison-any = any
desk-comparison-sites-label = Sites
desk-comparison-site-more = { $site } finds more than the other sites in the same goods.
desk-comparison-site-times = { $site } finds { $times } as many as the other sites in the same goods.
desk-comparison-site-strict = It may look closer, or its deliveries may suffer on the way. Its suppliers are compared with the others there, so this does not count against them.
desk-comparison-site-only = { $site } finds only { $times } as many as the other sites in the same goods.
desk-comparison-site-mild = It may look less closely.
desk-comparison-goods = Goods
desk-comparison-share = Share
desk-comparison-everybody = Everybody's rate
desk-comparison-parts = goods and sites
desk-comparison-goods-of = Goods of { $name }
desk-comparison-sites-of = Sites of { $name }
desk-comparison-time = Over time.
desk-comparison-slope = Added up: defective cartons above or below its own rate. A slope is a change.
desk-comparison-legend = Grey: where luck alone leaves it. Dot: within. Cross: beyond.
desk-comparison-drawn = { $name } over time: { $says }
desk-comparison-drawn-total = { $name }, running total: { $says }
desk-comparison-each-month = Each month: share of opened cartons defective, up to { $top }.
desk-comparison-each-week = Each week: share of opened cartons defective, up to { $top }.
desk-comparison-from-to = From { $from } to { $to }.
desk-comparison-funnel = Found beside expected
desk-comparison-funnel-none = It takes two suppliers with the same goods at the same sites before anything can be drawn here.
desk-comparison-funnel-axis = defective cartons expected
desk-comparison-funnel-legend = Upwards: found over expected; 1 is like the others. Numbers: those named above. Dashed lines: 95 of 100 suppliers by luck alone; full lines: 998 of 1,000. Triangle up: more than luck explains. Triangle down: fewer. Dot: within. Open dot: too few to say.
desk-comparison-found = Found
desk-comparison-expected = Expected
desk-comparison-ratio = Found over expected
desk-comparison-by-test = By the exact test
desk-comparison-says-more = more than luck explains
desk-comparison-says-fewer = fewer than luck explains
desk-comparison-says-within = within luck
desk-comparison-funnel-drawn = Found over expected for { $suppliers }. { $marked }.
desk-comparison-none-beyond = None beyond what luck explains
desk-comparison-title = Suppliers compared
desk-comparison-read = How to read this
desk-comparison-read-luck = “More than luck explains” is said only where luck alone would hardly go as far, allowing for cartons of one delivery being alike and for so many suppliers being looked at together. All else is “within what luck explains”: no proof that they are alike.
desk-comparison-read-marks = Thick mark: the rate. Box: its 95 % interval. Dashed line: all suppliers together. Dashed box: too few to say. Names are in alphabetical order: this is no league table.
desk-comparison-what = the comparison
desk-comparison-nothing = Nothing was delivered from { $span }. Choose other days.
desk-comparison-together = All suppliers together
desk-comparison-all = All suppliers together, { $span }: { $rate } of { $cartons } defective ({ $interval }).
desk-comparison-read-one = In large figures stands what was counted. Beside it, what the others' rates would have given in the same goods, so that neither difficult goods nor a strict site counts against a supplier.
desk-comparison-read-sites = In large figures stands what was counted. Beside it, what the others' rates would have given in the same goods at the same sites, so that neither difficult goods nor a strict site counts against a supplier.
desk-comparison-no-data = No data
desk-comparison-with-defective = Deliveries with a defective carton
desk-comparison-measures-of = Measures of this supplier
desk-comparison-rests = What this rests on
desk-comparison-came = { $deliveries }, { $cartons } delivered, { $refused } refused
desk-comparison-held = , { $held } held
desk-comparison-thawed = , { $faults } found on thawing
desk-comparison-share-of = opened cartons defective: { $share } ({ $interval })
desk-comparison-allowed = With the others' goods and sites its rate would be about { $rate } ({ $interval }).
desk-comparison-exact = Goods and sites are compared like with like, by an exact test in each kind of goods at each site.
desk-comparison-stretched = Cartons of one delivery resemble each other here, which stretches what luck explains { $times } times.
desk-comparison-among = To go as far as this one does has { $chance }; with { $suppliers } looked at together, it is marked only if it still stands out among them.
desk-comparison-guess = Best guess for the next carton, pulled towards everybody's rate as far as the number is small: { $rate } ({ $interval }). Chance that the true rate is above everybody's: { $chance }.
desk-comparison-looked = Of { $cartons }, { $probed } had the product temperature read and { $weighed } had a sample weighed. What was not measured is not known to be sound.

## Measures
desk-measures = Measures
desk-measures-received = Cartons received
desk-measures-refused = Refused
desk-measures-defective = Opened cartons defective
desk-measures-short = Short weight
desk-measures-off-count = Count against grade
desk-measures-warm = Too warm at receipt
desk-measures-mean = Mean product temperature
desk-measures-spot = Black spot beyond the limit
desk-measures-burn = Freezer burn or frost
desk-measures-soft = Soft or broken
desk-measures-late = Came after the day ordered for
desk-measures-claims = Claims sent
desk-measures-agreed = Claims agreed to
desk-measures-settle = From claim to credit
desk-measures-cost = Cost of a sound kilogram
desk-measures-opened = Cartons opened
desk-measures-probed = Of those, probed
desk-measures-weighed = Of those, sample weighed
desk-measures-out = Door to freezer
desk-measures-specification = Specification
desk-measures-species = Species
desk-measures-not-looked = not looked at
desk-measures-share = { $part } of { $whole }: { $share } ({ $interval })
desk-measures-no-price = no price, or several currencies
desk-measures-paid = { $money } paid
desk-measures-not-weighed = not weighed
desk-measures-there = { $share } of the weight there
desk-measures-none-opened = none opened
desk-measures-sound = { $share } of cartons sound
desk-measures-not-read = not read
desk-measures-no-order = no order named
desk-measures-none-sent = none sent
desk-measures-none-settled = none settled
desk-measures-days = { $days } days on average
desk-measures-none = none
desk-measures-not-noted = not noted
desk-measures-minutes = { $minutes } minutes on average
desk-measures-claims-late = { $claims }, { $late } of them late
desk-measures-by = By
desk-measures-again = All goods again
desk-measures-too-few = Too few cartons opened to say anything of shares.
desk-measures-one-table = As one table
desk-measures-what = the measures
desk-measures-together = All together
desk-measures-each-claim = Each claim
desk-measures-advice = How often the photo advice agreed
desk-measures-overdue = Thermometer checks that are overdue
desk-measures-how = How these are counted

## The month's summary
desk-summary = The month in one page
desk-summary-what = the summary
desk-summary-month = Month
desk-summary-site = Site
desk-summary-all-sites = All my sites
desk-summary-print = Print
desk-summary-pdf = As PDF
desk-summary-how = How suppliers are compared
desk-summary-mail = Send me this by mail each month
desk-summary-no-mail = This server cannot send you mail: it has no mail server, or your account has no e-mail address. Your administrator can set up both.
