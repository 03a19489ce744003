### Claims: what the server says of them to either side, on pages, at the desk, in mails and notifications.

## inspections.claims.standing
claims-state-open = Open
claims-state-all = All
claims-state-drafted = Drafted
claims-state-sent = Sent, no answer yet
claims-state-contested = Contested
claims-state-offered = Amount offered
claims-state-agreed = Agreed, credit awaited
claims-state-settled = Settled
claims-state-withdrawn = Withdrawn
claims-kind-send = Claim sent
claims-kind-agree = Agreed to the claim
claims-kind-contest = Contested the claim
claims-kind-ask = Asked a question
claims-kind-offer = Offered an amount
claims-kind-accept = Accepted the offer
claims-kind-note = Wrote
claims-kind-credit = Recorded the credit
claims-kind-withdraw = Withdrew the claim
claims-side-kitchen = kitchen
claims-side-supplier = supplier

## inspections.claims.amounts
claims-ground-refused = Refused cartons
claims-ground-short_cartons = Cartons on the docket that did not come
claims-ground-short_weight = Short net weight
claims-ground-short_units = Short net weight of single units
claims-ground-label_weight = Less net weight on the label than ordered
claims-ground-grade = Smaller size grade than ordered
claims-ground-quality = Lower quality
claims-ground-uniformity = Uneven sizes
claims-ground-sorting = Lost in sorting
claims-ground-other = Other
claims-sum-refused = { $cartons } × { $net_kg } kg × { $price } per kg
claims-sum-short_cartons = { $cartons } × { $net_kg } kg × { $price } per kg
claims-sum-short_weight = { $cartons } × { $units } × ({ $declared_g } g declared − { $found_g } g found) ÷ 1000 × { $price } per kg
claims-sum-short_units = { $kg } kg short × { $price } per kg
claims-sum-label_weight = { $kg } kg less × { $price } per kg
claims-sum-grade = { $kg } kg × ({ $price } ordered − { $price_delivered } delivered) per kg
claims-sum-quality = { $kg } kg × { $price } per kg × { $percent } %
claims-sum-uniformity = { $kg } kg × { $price } per kg × { $percent } %
claims-sum-sorting = { $kg } kg sorted out × { $price } per kg
claims-sum-other = { $amount } as stated
claims-sum-unknown = ({ $name }: not known)
claims-sum-cartons =
    { $count ->
        [one] { $count } carton
       *[other] { $count } cartons
    }
claims-sum-units =
    { $count ->
        [one] { $count } unit
       *[other] { $count } units
    }
claims-sum-part-cartons = { $count } cartons
claims-sum-part-units = { $count } units
claims-input-cartons = cartons
claims-input-net_kg = net weight of a carton, kg
claims-input-price = price per kg
claims-input-units = units in a carton
claims-input-declared_g = declared net weight of a unit, g
claims-input-found_g = mean net weight found, g
claims-input-kg = weight, kg
claims-input-price_delivered = price per kg of the grade that came
claims-input-percent = percent taken off
claims-input-amount = amount

## inspections.claims.services, drafting
claims-basis-terms = { $hours } hours from arrival, by the terms agreed with the supplier
claims-basis-usual = { $hours } hours from arrival, common practice: no terms are kept for this supplier

## inspections.claims.when
claims-due-send = to be sent
claims-due-answer = to be answered
claims-time-days =
    { $count ->
        [one] { $count } day
       *[other] { $count } days
    }
claims-time-hours = { $count } h
claims-time-minutes = { $count } min
claims-time-left = { $time } left
claims-time-over = { $time } over

## inspections.claims.exports
claims-table-name = Claims
claims-column-number = Claim
claims-column-state_words = State
claims-column-supplier = Supplier
claims-column-site = Site
claims-column-docket_number = Docket
claims-column-line = Line
claims-column-product = Product
claims-column-arrived_at = Arrived
claims-column-age_days = Days old
claims-column-currency = Currency
claims-column-claimed = Claimed
claims-column-offered = Offered
claims-column-agreed = Agreed
claims-column-credited = Credited
claims-column-credit_note = Credit note
claims-column-deadline = Due
claims-column-sent_at = Sent
claims-column-closed_at = Closed

## inspections.claims.messages: mails and notifications
claims-message-waiting = Waiting to be sent
claims-message-sending = Being sent
claims-message-sent = Sent
claims-message-unsure = May not have been sent
claims-message-failed = Not sent
claims-message-stopped = The server stopped while it was sending this. It may or may not have gone out.
claims-message-broken = The server at the other end broke off. The message may or may not have gone out.
claims-message-refused = The server at the other end did not take this message, after { $times } tries.
claims-message-not-yet = The server at the other end has not taken it yet.
claims-message-taken-up = The invitation was taken up or ended before this went out.
claims-message-gone = This browser no longer takes notifications. Its owner can ask for them again on the claims page.
claims-subject-send = Claim { $number }: docket { $docket }
claims-subject-agree = Claim { $number }: agreed
claims-subject-contest = Claim { $number }: contested
claims-subject-ask = Claim { $number }: a question
claims-subject-offer = Claim { $number }: { $amount } offered
claims-subject-accept = Claim { $number }: offer accepted
claims-subject-note = Claim { $number }: a message
claims-subject-credit = Claim { $number }: credit recorded, settled
claims-subject-withdraw = Claim { $number }: withdrawn
claims-subject-reminder_notice = Claim { $number } has not been sent: the notice period ends { $deadline }
claims-subject-reminder_answer = Claim { $number }: an answer is due by { $deadline }
claims-subject-invitation = { $installation }: claims on { $supplier }
claims-invitation-mail-about = { $name }, { $by } has invited you to { $installation }: you see every claim sent to { $supplier }, with its evidence, and can answer it.
claims-invitation-mail-do = Choose a password here. The link works once, and for { $days } days:
claims-mail-title = Claim { $number }
claims-mail-first = { $supplier }: claim { $number }
claims-mail-about = { $supplier }, docket { $docket }, { $site }
claims-mail-reminder_notice = This claim has been drafted but not sent. The notice period ends on { $deadline } ({ $basis }).
claims-mail-reminder_answer = An answer to this claim is due by { $deadline }. You can agree, contest it, ask a question or offer another amount.
claims-mail-due = An answer is due by { $deadline }.
claims-mail-supplier = Read the evidence and answer here. You need no account; the link is yours alone and works for { $days } days:
claims-mail-kitchen = At the desk:
claims-mail-seal = Keep this message: seal { $number } of this site has the hash
claims-mail-hold = A later copy of the record can be checked against it.
claims-mail-end = { $installation }. This message was sent by a program.
claims-push-about = { $supplier }, docket { $docket }

## The claim's page
claims-title = Claim { $number }: docket { $docket }
claims-over = Claim on a delivery
claims-fact-state = Status
claims-fact-claimed = Claimed
claims-fact-offered = Offered by the { $side }
claims-fact-agreed = Agreed
claims-fact-credit = Credit note
claims-fact-answer = Answer by
claims-fact-from = From
claims-fact-to = To
claims-fact-docket = Docket
claims-fact-arrived = Arrived
claims-docket-line = { $docket }, line { $line }
claims-ways = On this page
claims-way-all = All claims
claims-way-what = What is claimed
claims-way-thread = What was said
claims-way-answer = Answer
claims-way-evidence = Evidence of the delivery
claims-way-line = Evidence of this line
claims-not-sent = Not sent
claims-kept-form = What you wrote is still in the form below. Files have to be chosen again.
claims-changed = Claimed: { $amount }. Changed by the kitchen: { $reason }
claims-together = Total { $amount }
claims-rounding = Each amount is rounded half up to the smallest unit of { $currency }; the claim is the sum of the rounded amounts. Tax and freight are not included.
claims-short-name = What fell short, and against which limit
claims-short-none = Nothing was found past a limit: the claim rests on the cartons counted.
claims-evidence-has = The evidence has every reading, photo and limit. It tells what was measured, and nothing about why.
claims-sent-on = Sent on { $at }. Notice was due by { $notice } ({ $basis }). Times are local to { $site }.
claims-sent-late = Sent on { $at }. Notice was due by { $notice } ({ $basis }); it was sent after that. Times are local to { $site }.
claims-thread-same = Both sides see the same. Each entry is sealed into the record of the delivery and cannot be altered afterwards.
claims-entry-amount = { $what }: { $amount }
claims-entry-by = { $by }, for the { $side }, { $at }. Seal { $seal },
claims-entry-credit = Credit note { $number }
claims-entry-above = This is more than the { $claimed } claimed.
claims-point = { $name }:
claims-photo-alt = Photo { $name }, sent by the { $side }
claims-file-bytes = { $bytes } bytes, SHA-256
claims-answer-final = What you send is sealed at once and cannot be taken back. You can answer again.
claims-answer-name = Your answer
claims-answer-agree = Agree to the claim: { $amount }
claims-answer-accept = Accept the amount offered by the kitchen: { $amount }
claims-answer-contest = Contest it
claims-answer-offer = Offer another amount
claims-answer-ask = Ask a question
claims-answer-note = Write a message, or just send files
claims-amount = Amount you offer, in { $currency }
claims-amount-only = only with an offer
claims-above = The amount is above the { $claimed } claimed, and that is meant
claims-points = Your reasons, point by point
claims-points-only = only where you contest
claims-point-of = { $name }, { $amount }
claims-words = In your own words
claims-files = Photos and logger files
claims-files-which = At most { $most }, { $mb } MB together: JPEG, PNG or WebP; a logger’s table as CSV or text. They are kept as they are; a photo that says where it was taken keeps that.
claims-logger = About a logger’s file: clock, unit, dates
claims-logger-zone = Its clock, where its times carry none
claims-logger-unit = Its unit, where the file does not say
claims-logger-order = Its dates, where they can be read both ways
claims-logger-day = The day comes first
claims-logger-month = The month comes first
claims-logger-column = The column to read, where it has several
claims-by = Your name
claims-by-account = You answer as { $name }.
claims-send = Send the answer
claims-footer = This page tells what was seen and measured when the goods came in, and what both sides say about it. It is not legal advice; the terms agreed between you and local law come first.

## The supplier's account
claims-account-over = Claims and figures
claims-account-person = Signed in as { $name }.
claims-account-out = Sign out
claims-account-only = You see the claims on { $supplier } and the evidence for them. Other suppliers do not see them, and you see nothing of theirs.
claims-account-count =
    { $count ->
        [one] { $count } claim.
       *[other] { $count } claims.
    }
claims-account-none = No claim matches.
claims-account-state = Status
claims-account-order = Order
claims-account-site = Site
claims-account-every = All
claims-account-over-due = Past their deadline only
claims-account-show = Show
claims-order-age = Oldest first
claims-order-deadline = Next deadline first
claims-order-amount = Largest first, by currency
claims-account-row = { $number }: docket { $docket }, line { $line }
claims-account-where = { $product }, { $site }, arrived { $days ->
        [0] today
        [one] { $days } day ago
       *[other] { $days } days ago
    }
claims-account-due = { $what } by { $at }: { $left }
claims-figures-name = Figures
claims-figures-goods = Cartons
claims-figures-goods-about = Every delivery that was signed at receiving, since the first. “Opened” are the cartons that were looked into; a carton is defective when something in it was past a limit. Refused cartons went back or were set aside for you.
claims-figures-goods-none = No delivery has been signed yet.
claims-figures-site = Site
claims-figures-all = All sites
claims-figures-deliveries = Deliveries
claims-figures-delivered = Delivered
claims-figures-opened = Opened
claims-figures-defective = Defective
claims-figures-refused = Refused
claims-figures-claims = Claims
claims-figures-claims-about = Every claim that was sent. Amounts in different currencies are not added up. The share agreed is that of the claims on which an amount was agreed.
claims-figures-claims-none = No claim has been sent yet.
claims-figures-currency = Currency
claims-figures-sent = Sent
claims-figures-open = Open
claims-figures-claimed = Claimed
claims-figures-agreed = Agreed
claims-figures-credited = Credited
claims-figures-share = Share agreed
claims-figures-days = Days to settle, median
claims-figures-nothing = none yet
claims-sign-in-title = Sign in as a supplier
claims-sign-in-about = For people of a supplier whom the kitchen has invited. Whoever has a link to a single delivery needs no account: open the link.
claims-sign-in-lost = Password lost? Ask the kitchen for a new invitation.
claims-sign-in-user = E-mail address
claims-sign-in-password = Password
claims-sign-in-do = Sign in
claims-invitation-title = Choose a password
claims-invitation-about = { $name }, this opens the claims on your firm and the evidence for them. The password is yours alone; the kitchen does not see it.
claims-invitation-password = New password, at least 8 characters
claims-invitation-again = The same once more
claims-invitation-do = Keep it and sign in
