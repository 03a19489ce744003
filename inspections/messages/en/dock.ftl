# The receiver's screens up to the first questions; those of the later ones are in dock_later.ftl.

## Cautions at the step where they matter (a line each)
dock-caution-ending = Follow your site's rules and local codes. If unsure, ask your supervisor or a qualified person. This does not replace training.
dock-caution-more = More
dock-caution-dock = Take care: on the dock
dock-caution-dock-points =
    Forklift and tail-lift: keep clear until the driver signals. No phone while vehicles move.
    Dry ice or nitrogen: nobody goes in before it is aired and cleared. Breathless, dizzy or a headache: get out.
    Dry ice burns the skin: wear insulated gloves, and never seal it in.
    Ramps are slippery with frost and drip. Do not climb on a stack or pull from the middle of it: icy film slides.
    { $known ->
        [no] Test the weight of a carton before you lift it.
       *[other] Cartons as ordered hold { $weights } net, and more with glaze and packing: test the weight first.
    } Split the load, or use two people or a trolley.

## The list of checks
dock-progress = { $kind ->
    [draw] { $left ->
        [one] 1 question, then cartons are drawn
       *[other] { $left } questions, then cartons are drawn
        }
    [cartons] { $cartons ->
        [one] { $left } left, 1 carton open
       *[other] { $left } left, { $cartons } cartons open
        }
    [added] { $added ->
        [one] { $left } left: 1 carton more to open
       *[other] { $left } left: { $added } cartons more to open
        }
   *[end] { $left ->
        [one] 1 question left
       *[other] { $left } questions left
        }
    }
dock-steps-weighed = { $kind ->
    [glazed] { $weight } with glaze
   *[other] { $weight } without glaze
    }
dock-steps-done = done
dock-steps-left = left as not checked
dock-steps-signed = signed
dock-steps-read = read
dock-steps-drawn = Cartons { $positions }
dock-steps-counted = { $counted } of { $docket }
dock-steps-looked-at = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
    }
dock-marks-agree = agree
dock-marks-disagree = do not agree
dock-marks-unsure = not settled
dock-clock-ahead = This phone's clock is { $apart } ahead of the server's. The times on this record come from it, and the record will say so. If you can, set the clock before you sign. Nothing is lost either way.
dock-clock-behind = This phone's clock is { $apart } behind the server's. The times on this record come from it, and the record will say so. If you can, set the clock before you sign. Nothing is lost either way.
dock-clock-days = { $days ->
    [one] { $days } day
   *[other] { $days } days
    }
dock-home-today = today
dock-explained-size = { $kind ->
    [up_to] Size { $size }: up to { $high }{ $unit }.
    [from] Size { $size }: { $low }{ $unit } or more.
   *[between] Size { $size }: { $low } to { $high }{ $unit }.
    }
dock-explained-plan = { $bad ->
    [0] The plan accepts the lot only if none of the cartons opened is bad.
    [one] The plan accepts the lot with at most { $bad } bad carton among those opened.
   *[other] The plan accepts the lot with at most { $bad } bad cartons among those opened.
    }

## App.svelte
dock-app-newer-underlid-ready = A newer Underlid is ready.
dock-app-your-entries-stay = Your entries are kept. It takes a second.
dock-app-use-now = Use it now
dock-later = Later
dock-app-opening-desk = Opening the desk…
dock-app-desk-could-not = The desk could not be opened. What is on this phone is safe. Check the signal, then try again.
dock-try-again = Try again
dock-app-opening = Opening…
dock-app-questions-could-not = The questions could not be loaded. What you entered is kept on this phone. Check the signal, then try again.
dock-app-list-what-waits = The list of what waits could not be loaded. What you entered is kept on this phone. Check the signal, then try again.

## gate.ts
dock-gate-usable = The photo can be used.
dock-gate-blurred = The photo is blurred. Hold still and take it again.
dock-gate-dark = The photo is too dark. Use more light and take it again.
dock-gate-glared = There is too much glare in the photo. Tilt away from the lamp and take it again.
dock-gate-small = The photo is too small. Go closer and use the camera's normal setting.
dock-gate-empty = Nothing can be made out in the photo. Point the camera at the prawns and take it again.

## picture.ts
dock-picture-your-other-entries = Your other entries are kept.
dock-picture-photo-cut-off = This photo is cut off or damaged. { $safe } Take it again.
dock-picture-file-empty-take = This file is empty. { $safe } Take the photo again.
dock-picture-file-larger-than = This file is larger than 40 MB. { $safe } Take it with the camera's normal setting.
dock-picture-picture-has-million = This picture has { $millions } million pixels, and 66 million is the most that can be read. { $safe } Take it with the camera's normal setting.
dock-picture-file-not-photo = This file is not a photo, whatever its name says. { $safe } Choose a photo or take one.

## clock.svelte.ts
dock-clock-under-1-min = under 1 min
dock-clock-min = { $minutes } min
dock-clock-signed-in-on = { $signed_in } is signed in on this phone. You can sign as { $printed }; the record will show both names.

## ice_checks.svelte.ts
dock-ice-checks-phone-could-not = This phone could not save the check. Nothing was filed. Free some space, then file it again.

## photos.svelte.ts
dock-photos-said = Photo kept

## runs.svelte.ts
dock-runs-phone-could-not = This phone could not save where you are in the procedure. It carries on while this page stays open. Free some space.

## session.svelte.ts
dock-session-supplier-not-on = Supplier not on this phone
dock-session-server-could-not = The server could not be reached. What is on this phone is safe. Check the signal and try again.
dock-session-signing-in-did = Signing in did not work. What is on this phone is safe. Try again.

## walk.svelte.ts
dock-walk-phone-full-last = This phone is full. The last entry is on the screen but not saved. Free some space, then tap “Keep again”.
dock-walk-delivery-signed-what = This delivery is signed. What was signed is safe. Write a correction instead.
dock-walk-last-entry-could = The last entry could not be saved on this phone. It is still on the screen. Tap “Keep again”; if that does not help, note it on paper.

## refusals.ts
dock-refusals-photo-delivery-no = A photo of this delivery is no longer on this phone. All other entries are kept. Take the photo again, or tell your manager.
dock-refusals-something-answered-in = Something answered in place of the server, perhaps the sign-in page of this network. Everything is kept on this phone. Check the network.
dock-refusals-could-not-be = This could not be sent just now. It is kept on this phone and will be sent again automatically.

## uploads.ts
dock-uploads-server-did-not = The server did not accept a photo. It is kept on this phone and will be sent again.

## wire.ts
dock-wire-server-had-trouble = The server had a problem. Everything is kept on this phone and will be sent again automatically.
dock-wire-server-could-not = The server could not do this (answer { $status }). What was saved before is safe. Try again in a minute.
dock-wire-server-did-not = The server did not accept this (answer { $status }). It is kept on this phone. If it keeps happening, tell your manager.

## SignIn.svelte
dock-sign-in-underlid = Underlid
dock-sign-in-receiving-desk-for = The receiving desk for frozen prawns
dock-sign-in-sign-in = Sign in
dock-sign-in-server-asks-who = The server asks who you are again. { $count ->
        [one] 1 thing is
       *[other] { $count } things are
    } kept on this phone and will be sent once you have signed in.
dock-sign-in-user-name = User name
dock-sign-in-password = Password
dock-sign-in-signing-in = Signing in…
dock-sign-in-go-on-without = Carry on without sending
dock-sign-in-once-signed-in = Once signed in, this phone works without a signal. Nothing leaves it until the server has it.
dock-sign-in-sign-in-by = Sign in with a PIN
dock-sign-in-passkey = Sign in with a passkey
dock-sign-in-device-shared = This device is shared

## Expected.svelte
dock-expected-expected = Expected
dock-expected-expected-2 = Expected · { $orders }
dock-expected-act = Receive
dock-expected-order = Order { $number } · { $day_word }
dock-expected-specification-missing = specification missing
dock-expected-without-signal = without a signal
dock-expected-nothing-more-expected = Nothing more is expected here today, as far as this phone knows{ $value }.
dock-expected-something-else-has = Something else has arrived

## InHand.svelte
dock-in-hand-title = Open on this phone
dock-in-hand-act = Carry on
dock-in-hand-docket = Docket { $docket_number } ·{" "}
dock-in-hand-another-phone-choose = Another phone has changed it: choose
dock-in-hand-discard-nothing-entered = Discard: nothing is entered yet
dock-in-hand-title-put-away = To put away
dock-in-hand-act-put-away = Put away
dock-in-hand-signed-waits-be = signed, waiting for its seal
dock-in-hand-sealed = sealed
dock-in-hand-docket-2 = Docket { $docket_number } · { $value }
dock-in-hand-min-out-cold = { $stage ->
    [alarm] { $minutes } min out of the cold, over { $limit }: into the freezer now
   *[fine] { $minutes } min out of the cold, freezer within { $limit }
    }

## PhotoButton.svelte
dock-photo-button-photo-could-not = The photo could not be kept on this phone. Your other entries are kept. Free some space and take it again.
dock-photo-button-looking-at = Looking at it…
dock-photo-button-no-photo-yet = no photo yet
dock-photo-button-1-photo-kept = { $taken ->
        [one] 1 photo kept
       *[other] { $taken } photos kept
    }
dock-photo-button-alt = { $value } photo
dock-photo-button-file = File
dock-photo-button-choose-kept-photos = : choose kept photos for { $value }
dock-photo-button-with-outline-on = With an outline on the picture
dock-photo-button-lay-prawns-that = Lay the prawns you counted side by side on a pale, plain tray: none touching, no hand in the picture, the card beside them. Photo advice is given on this photo.
dock-photo-button-photos-may-not = { $doubtful } photos may not serve. The last one:{" "}
dock-photo-button-keep-anyway-keep = { $doubtful ->
        [one] Keep it anyway
       *[other] Keep them anyway
    }

## PhotoThumb.svelte
dock-photo-thumb-photo = photo

## SampleCamera.svelte
dock-sample-camera-camera-could-not = The camera could not be opened here. Nothing is lost. Use the Sample button above: it opens the phone’s own camera.
dock-sample-camera-no-picture-came = No picture came from the camera. Nothing is lost. Use the Sample button above.
dock-sample-camera-aria-label = Camera, with an outline for the sample
dock-sample-camera-card = card
dock-sample-camera-tray-fills-frame = Fill the frame with the tray. Prawns side by side, none touching. No hand in the picture.
dock-sample-camera-take-photo = Take the photo
dock-close = Close

## StatusPill.svelte
dock-status-pill-sign-in-again = Sign in again,
dock-status-pill-nothing-waits = nothing waits
dock-status-pill-sign-in-send = Sign in to send
dock-status-pill-wait-here = { $count } wait here
dock-status-pill-all-on = All on
dock-status-pill-server = the server
dock-status-pill-nothing-waits-2 = Nothing waits,
dock-status-pill-no-signal = no signal
dock-status-pill-1-thing-waits = { $count ->
        [one] 1 thing waits here
       *[other] { $count } things wait here
    }
dock-status-pill-needs-you = needs you
dock-status-pill-oldest = oldest { $value }

## TimerStrip.svelte
dock-timer-strip-running = running
dock-timer-strip-time-up = time is up
dock-timer-strip-carton = { $value }, carton { $position }: { $value2 }

## TopBar.svelte
dock-back = Back

## UndoStrip.svelte
dock-undo-strip-kept-on-phone = kept on this phone
dock-undo-strip-keeping = keeping…
dock-undo-strip-undo = Undo
dock-undo-strip-aria-label = The whole list of checks
dock-undo-strip-list = List

## HandOver.svelte
dock-hand-over-who-has-device = Who has this device now?
dock-hand-over-no-signal-just = No signal just now. Handing over needs one; you can carry on with what is here.
dock-hand-over-1-thing-waits = { $count ->
        [one] 1 thing waits
       *[other] { $count } things wait
    } here and will be sent once somebody has signed in.
dock-hand-over-nobody-site-has = Nobody at this site has a PIN yet. Sign in with your user name and password, then set yours at the desk, under “You and this screen”.
dock-hand-over-aria-label = { $pin } digits typed
dock-hand-over-aria-label-delete-last-digit = delete last digit
dock-hand-over-take = Take over
dock-hand-over-somebody-else = Somebody else
dock-hand-over-sign-in-with = Sign in with user name and password
dock-hand-over-stay-with = Stay with { $name }

## ShareDevice.svelte
dock-share-device-share-device = Share this device
dock-share-device-shared-device-stays = A shared device stays at the dock. Whoever receives takes it over by name and PIN.
dock-share-device-code-from-your = Code from your manager
dock-share-device-placeholder = XXXX-XXXX
dock-share-device-made-at-desk = Made at the desk under “Devices”. It is valid for 15 minutes.
dock-share-device-sharing = Sharing…
dock-share-device-sign-in-with = Sign in with user name and password

## Docket.svelte
dock-docket-whose-delivery-choose = Whose delivery is it? Choose the supplier. What you typed is still here.
dock-docket-docket-number-missing = The docket number is missing. Type it as printed. If the paper has none, type “none”.
dock-docket-said = Docket { $text }
dock-docket-title = What is the docket number?
dock-docket-under = Docket
dock-docket-supplier = Supplier
dock-docket-choose-supplier = Choose the supplier
dock-docket-number-as-printed = Number as printed
dock-next = Next

## choices.ts
dock-choices-label = Between packs
dock-choices-label-core = Core
dock-choices-label-surface = Surface
dock-choices-load = Load
dock-choices-docket = Docket
dock-choices-label-label = Label
dock-choices-top = Lid open
dock-choices-under-liner = Under the liner
dock-choices-sample = Sample
dock-choices-defect = Close-up of a fault
dock-choices-temperature = Thermometer
dock-choices-signature = Signature
dock-choices-label-they-agree = They agree
dock-choices-label-they-do-not = They do not agree
dock-choices-label-not-sure = Not sure
dock-choices-label-accept = Accept
dock-choices-label-accept-with-allowance = Accept with allowance
dock-choices-label-hold = Hold
dock-choices-label-reject = Reject
dock-choices-label-not-ready = Not ready

## home.ts
dock-home-supplier-not-chosen = Supplier not chosen yet
dock-home-was-due = was due { $day_shown }

## procedures.ts
dock-procedures-not-weighed = Not weighed
dock-procedures-gross-weight = Gross weight
dock-procedures-wet-sieve = Wet sieve
dock-procedures-scale-set-zero = Scale set to zero with the sieve
dock-procedures-on-sieve-drained = On the sieve, drained
dock-procedures-empty-packing = Empty packaging
dock-procedures-label = Pieces in the sample
dock-procedures-pieces = pieces
dock-procedures-without = Not counted
dock-procedures-largest-tenth-together = Largest tenth, together
dock-procedures-smallest-tenth-together = Smallest tenth, together
dock-procedures-label-reading-in-ice = Reading in ice
dock-procedures-without-no-reading = No reading
dock-procedures-sample = Draining
dock-procedures-count = Sample
dock-procedures-between-packs = Probe
dock-procedures-ice-point = Ice-point check
dock-procedures-thaw = Thawing

## readings.ts
dock-readings-entry-cannot-be = This entry cannot be used as it is. The rest is kept. Enter it again.
dock-readings-pieces = pieces
dock-readings-pieces-in-would = { $pieces } pieces in { $entered } { $unit } would be { $shown } g each, and no prawn weighs that. The rest is kept. Check the weight, its unit and the number of pieces.
dock-readings-nothing-was-entered = Nothing was entered here. The rest is kept. Count the cartons and enter the number.
dock-readings-no-whole-number = “{ $entered }” is not a whole number of cartons. The rest is kept. Enter digits only.

## checks.ts
dock-checks-not-checked = not checked
dock-checks-found = { $pieces } found
dock-checks-all-sound = all sound
dock-checks-none = none
dock-checks-label = Pieces

## explained.ts
dock-explained-count = count
dock-explained-prawns-weighed = prawns weighed
dock-explained-weight-without-glaze = weight without glaze
dock-explained-lowest-possible-95 = lowest likely, 95 %
dock-explained-highest-possible-95 = highest likely, 95 %
dock-explained-spread-piece-weights = spread of piece weights
dock-explained-cartons-delivered = cartons delivered
dock-explained-cartons-that-plan = cartons that the plan opens
dock-explained-bad-cartons-if = bad cartons, if 1 in 5 were bad
dock-explained-chance-open-none = chance of opening none of them
dock-explained-bad-cartons-that = bad cartons that a clean sample can still miss, 5 % chance

## names.ts
dock-names-not-checked = not checked
dock-names-kg = { $value } kg
dock-names-size-word = { $grade } (“{ $word }” in US price lists; the count decides)
dock-names-specification-not-on = Specification not on this phone

## steps.ts
dock-steps-docket = Docket number
dock-steps-lines = Lines on the docket
dock-steps-count = Cartons counted
dock-steps-air = Vehicle air
dock-steps-load = State of the load
dock-steps-draw = Which cartons to open
dock-steps-label = Label
dock-steps-lid = Liner and frost
dock-steps-temperature = Temperature
dock-steps-pieces = Pieces in the sample
dock-steps-weigh = Sample weight
dock-steps-faults = Pieces, smell, foreign matter
dock-steps-marks = Species marks
dock-steps-photos = Photos and more checks
dock-steps-decide = Verdict
dock-steps-sign = Signatures
dock-steps-best-before = best before { $day_shown }
dock-steps-not-smelled = { $told }, not smelled
dock-steps-1-photo-photos = { $count ->
        [one] 1 photo
       *[other] { $count } photos
    }

## Home.svelte
dock-home-phone-could-not = This phone could not save a new delivery. What is on it is safe. Free some space and try again.
dock-home-other-phones-record = The other phone's record could not be fetched. Nothing has changed. Try again where there is a signal.
dock-home-underlid = Underlid
dock-home-deliveries = Deliveries
dock-home-server-asks-you = The server asks you to sign in again. Everything is kept here and you can go on working.
dock-home-sign-in = Sign in
dock-home-has-device-in = has this device.
dock-home-hand-over = Hand it over
dock-home-site = Site
dock-home-aria-label = More
dock-home-found-on-thawing = Found on thawing: report a fault
dock-home-desk-past-deliveries = The desk: past deliveries and suppliers
dock-home-phone-works-without = This phone works without a signal.
dock-home-not-yet-ready = Not yet ready to start without a signal: keep this page open once with a signal, over HTTPS.

## App.svelte
dock-app-opening-2 = Opening…
dock-app-page-could-not = This page could not be loaded. What you entered before is kept on this phone. Check the signal, then try again.

    

## WalkPage.svelte
dock-walk-page-questions-could-not = The questions could not be loaded. What you entered is kept on this phone. Check the signal, then try again.
dock-walk-page-opening = Opening…
dock-walk-page-title = Not on this phone
dock-walk-page-delivery-not-on = This delivery is not on this phone. It may be on another one. What is here is safe. Go back to the list.
dock-walk-page-new-delivery = New delivery
dock-walk-page-supplier-not-chosen = Supplier not chosen yet
dock-walk-page-min-out-cold = { $minutes } min out of the cold
dock-walk-page-over-into-freezer = Over { $alarm_minutes }: into the freezer now
dock-walk-page-hurry-min-left = Hurry: { $value } min left
dock-walk-page-freezer-within = freezer within { $alarm_minutes }
dock-walk-page-keep-again = Keep again

## Elsewhere.svelte
dock-elsewhere-title = Open on other phones
dock-elsewhere-act = Carry on here
dock-elsewhere-not-entered = not entered
dock-elsewhere-docket-ago = Docket { $value } · { $person_name }, { $age_in_words } ago
dock-elsewhere-title-done-on-phone = Finished on this phone
dock-elsewhere-docket = Docket { $docket_number } · { $time_of_day }
dock-elsewhere-seal = Seal { $number }
dock-elsewhere-waits = waits
dock-elsewhere-title-set-aside = Set aside
dock-elsewhere-docket-your-version = Docket { $docket_number }: your version, kept but not sent
