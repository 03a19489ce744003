### Claims at the desk, the suppliers' people, and notifications.

## claims/Claims.svelte
desk-claims-title = Claims
desk-claims-state = Status
desk-claims-state-open = Open
desk-claims-state-drafted = Drafted
desk-claims-state-sent = Sent, no answer yet
desk-claims-state-contested = Contested
desk-claims-state-offered = Amount offered
desk-claims-state-agreed = Agreed, credit awaited
desk-claims-state-settled = Settled
desk-claims-state-withdrawn = Withdrawn
desk-claims-state-all = All
desk-claims-order = Order
desk-claims-order-age = Oldest first
desk-claims-order-deadline = Next deadline first
desk-claims-order-amount = Largest first, by currency
desk-claims-order-supplier = By supplier
desk-claims-supplier = Supplier
desk-claims-site = Site
desk-claims-every = All
desk-claims-over = Past their deadline
desk-claims-over-on = ✓ Past their deadline
desk-claims-csv = Table, CSV
desk-claims-xlsx = Table, Excel
desk-claims-what = the claims
desk-claims-count =
    { $count ->
        [one] { $count } claim.
       *[other] { $count } claims.
    }
desk-claims-none = No claim matches. A claim is drafted on the page of a delivery of which something was refused, short or taken with an allowance.
desk-claims-no-mail = No mail goes out by itself: this server has no mail server or no public address. Send the link of the delivery by hand.

## claims/ClaimLine.svelte
desk-claims-line-about = { $number } · docket { $docket }, line { $line } · { $site }
desk-claims-line-no-amount = amount open
desk-claims-line-due = { $what }: { $left }
desk-claims-line-age =
    { $days ->
        [one] { $days } day old
       *[other] { $days } days old
    }

## claims/ClaimsOf.svelte
desk-claims-of-none = Nothing to claim: no carton was refused or missing, and none was taken with an allowance.
desk-claims-of-draft = Draft a claim on line { $line }

## claims/ClaimFigures.svelte
desk-claims-figures-about = All claims that were sent, whatever the months above. Amounts in different currencies are not added up. The share agreed is that of the claims on which an amount was agreed.
desk-claims-figures-sent = Sent
desk-claims-figures-open = Open
desk-claims-figures-claimed = Claimed
desk-claims-figures-agreed = Agreed
desk-claims-figures-share = Share agreed
desk-claims-figures-days = Days to settle, median
desk-claims-figures-unsettled = none settled

## claims/ClaimPage.svelte
desk-claims-page-back = All open claims
desk-claims-page-what = the claim
desk-claims-page-title = Claim { $number }
desk-claims-page-about = { $product }, { $site }.
desk-claims-page-docket = Docket { $docket }, line { $line }
desk-claims-page-to-claim = To be claimed
desk-claims-page-open = open
desk-claims-page-offered = Offered by the { $side }
desk-claims-page-credited = Credited
desk-claims-page-credit = { $amount }, note { $note }
desk-claims-page-due = Has { $what } by
desk-claims-page-items = What is claimed
desk-claims-page-changed = Claimed: { $amount }. Reason for the change: { $reason }
desk-claims-page-notice = Notice is due by { $until } ({ $basis }).
desk-claims-page-notice-left = Notice is due by { $until } ({ $basis }): { $left }.
desk-claims-page-rounding = Each amount is rounded half up to the smallest unit of { $currency }; the claim is their sum, without tax and freight.
desk-claims-page-short = What fell short, and against which limit
desk-claims-page-short-none = Nothing was found past a limit: the claim rests on the cartons counted.

## claims/Items.svelte
desk-claims-items-priced = { $input }, { $currency }
desk-claims-items-other = Another amount, { $currency }
desk-claims-items-reckoned = as calculated
desk-claims-items-reason = Reason, where anything is changed
desk-claims-items-out = Take out { $ground }
desk-claims-items-add = Add
desk-claims-items-add-it = Add it
desk-claims-items-save = Save the draft
desk-claims-items-drop = Give the draft up

## claims/Reply.svelte
desk-claims-reply-title = Answer
desk-claims-reply-what = What
desk-claims-reply-send = Send the claim
desk-claims-reply-accept = Accept { $amount }
desk-claims-reply-offer = Offer another amount
desk-claims-reply-ask = Ask a question
desk-claims-reply-note = Write, or just send files
desk-claims-reply-credit = Record the credit note
desk-claims-reply-withdraw = Withdraw the claim
desk-claims-reply-agree = Agree
desk-claims-reply-contest = Contest
desk-claims-reply-sealed = What is sent is sealed and cannot be changed afterwards. { $supplier } then has { $hours } hours to answer. If you changed the draft, save it first.
desk-claims-reply-amount = Amount, { $currency }
desk-claims-reply-note-number = Number of the credit note
desk-claims-reply-why = Why
desk-claims-reply-words = In your words
desk-claims-reply-files = Photos and logger files
desk-claims-reply-files-which = At most 6, 7 MB together: JPEG, PNG or WebP; a logger’s table as CSV or text. Photos are kept without the place where they were taken.
desk-claims-reply-logger = About a logger’s file: unit, dates
desk-claims-reply-unit = Its unit, where the file does not say
desk-claims-reply-order = Its dates, where they can be read both ways
desk-claims-reply-day = The day comes first
desk-claims-reply-month = The month comes first
desk-claims-reply-column = The column to read, where it has several
desk-claims-reply-above = I mean it: this is more than is claimed
desk-claims-reply-sending = Sending …

## claims/Thread.svelte
desk-claims-thread-title = What was said
desk-claims-thread-about = The supplier sees the same. Each entry is sealed into the record of the delivery.
desk-claims-thread-amount = { $what }: { $amount }
desk-claims-thread-by = { $by }, for the { $side }, { $at }. Seal { $seal }.
desk-claims-thread-above = This is more than the { $claimed } claimed.
desk-claims-thread-credit = Credit note { $number }
desk-claims-thread-point = { $name }:
desk-claims-thread-photo = { $name }, sent by the { $side }

## claims/Mails.svelte
desk-claims-mails-title = Mails and notifications
desk-claims-mails-mail = Mail to { $to }:
desk-claims-mails-notification = Notification to { $to }:
desk-claims-mails-again = Send it again

## claims/Terms.svelte
desk-claims-terms = Terms of { $supplier }: notice within { $notice } h of arrival, an answer within { $answer } h
desk-claims-terms-usual = Terms of { $supplier }: notice within { $notice } h of arrival, an answer within { $answer } h (common practice: none are kept)
desk-claims-terms-currency = Currency of its claims, three letters (empty: that of the site)
desk-claims-terms-notice = Hours from arrival to give notice
desk-claims-terms-answer = Hours to answer
desk-claims-terms-keep = Keep these terms
desk-claims-terms-kept = Kept. Claims drafted from now on go by it.
desk-claims-terms-are = Claims are in { $currency }. Group operations change these terms.
desk-claims-terms-of-site = Claims are in the currency of the site. Group operations change these terms.

## claims/SupplierPeople.svelte
desk-claims-people = People of { $supplier } who may sign in ({ $count })
desk-claims-people-what = the people
desk-claims-people-about = They see every claim that was sent to their firm, at all sites, with its evidence and their own figures. They see nothing of other suppliers.
desk-claims-people-row = { $name }, { $email }
desk-claims-people-invited = invited by { $by } on { $at }, no password set yet
desk-claims-people-last = last signed in { $at }
desk-claims-people-never = has a password, not signed in yet
desk-claims-people-ended = ended
desk-claims-people-end = End the account
desk-claims-people-again = Invite again
desk-claims-people-name = Name
desk-claims-people-email = E-mail address, to sign in with
desk-claims-people-invite = Invite
desk-claims-people-pass = Pass this address on to { $name } yourself. It is shown this once, works once, and for 14 days.
desk-claims-people-mailed = A mail with this address goes to { $name }. Here it is too, should the mail not arrive: it is shown this once, works once, and for 14 days.
desk-claims-people-mail = Mail with the invitation: { $words }
desk-claims-people-address = Address of the invitation
desk-claims-people-is-ended = The account of { $name } is ended. Whoever was signed in with it is out.
desk-claims-people-none = Nobody was invited yet. Whoever gets a link needs no account.

## claims/Notify.svelte
desk-claims-notify-title = Notifications on this device
desk-claims-notify-about = This browser can tell you when a supplier has answered, and when a deadline is near, even while this page is closed. It is asked for on this device only, and you can stop it here at any time.
desk-claims-notify-on = Notify me on this device
desk-claims-notify-is-on = This device is told when a supplier has answered and when a deadline is near.
desk-claims-notify-off = Stop notifications on this device
desk-claims-notify-none = This browser cannot get notifications here: it needs HTTPS and a browser with a push service; on some phones the app must first be put on the home screen. Nothing is lost: mails go out as before, and the claims are all on this page.
desk-claims-notify-denied = Notifications are turned off for this page in the browser's settings. Nothing is lost. Allow them there, then come back.
desk-claims-notify-not-now = No permission was given, so nothing was changed. You can ask for it again here.
desk-claims-notify-failed = The browser's push service did not answer, so nothing was changed. Claims and mails are not affected. Try again later, or in another browser.
