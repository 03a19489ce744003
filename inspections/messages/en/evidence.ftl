### The supplier's page of a delivery's evidence, and the check of an evidence file.

## page.html
evidence-title = Docket { $docket }: evidence of a delivery
evidence-demo = Invented for demonstration. No such delivery took place.
evidence-over = Evidence of a delivery
evidence-docket = Docket { $docket }
evidence-order = Order
evidence-order-none = none named at receiving
evidence-from = From
evidence-to = To
evidence-arrived = Arrived
evidence-judged-by = Judged by
evidence-ways = On this page
evidence-way-line = Line { $line }: { $decided }
evidence-way-claim = Claim { $number }: read and answer
evidence-way-words = Docket words
evidence-way-worksheet = Recompute it by hand
evidence-way-logger = Logger
evidence-later = Added later
evidence-way-seal = Seal
evidence-vehicle = Vehicle
evidence-line-of = Line { $line } of { $lines }
evidence-departs = The limits suggested: { $suggested }. The receiver decided otherwise: “{ $reason }”
evidence-as-suggested = As the limits suggest.
evidence-by-hand = Recompute line { $line } by hand
evidence-by-hand-what = every number, limit and step, to print.
evidence-ordered = What was ordered
evidence-ordered-at = Cartons ordered and price are those of order { $order }. They are not part of the sealed record.
evidence-wrong = What was wrong, strongest first
evidence-clear = Nothing was found past a limit.
evidence-noted = Also noted
evidence-photos-other = Other photos of this line
evidence-photos-line = Photos of this line
evidence-cartons = Cartons opened
evidence-carton = Carton { $position }
evidence-carton-nowhere = Carton without a position
evidence-defective = defective
evidence-checked = Checked
evidence-found = Found
evidence-limit = Limit
evidence-outcome = Outcome
evidence-cannot-tell = could not be told, so it counts neither for nor against the carton
evidence-within = Within the limits: { $count ->
        [one] { $count } check
       *[other] { $count } checks
    }
evidence-not-checked = Not checked: { $what }.
evidence-note = Note: { $note }
evidence-none-opened = No carton of this line was opened.
evidence-photos = Photos of the delivery
evidence-wording = Words for the docket
evidence-signature-of = Signature of { $name }
evidence-declined = Did not sign: { $reason }
evidence-drivers-words = Written above the signature: “{ $words }”
evidence-noticed = Noticed when the record was sealed: { $text }
evidence-differs = The phone and the server judged some entries differently; both are kept in the record, under “difference”. The findings above are the server’s.
evidence-loggers = Data logger
evidence-added-by = { $at }, { $by }. Seal { $seal }.
evidence-added = { $at }. Seal { $seal }.
evidence-put-at = { $count } of line { $line } in { $freezer }, { $position }: { $liner }, { $minutes }.
evidence-put = { $count } of line { $line } in { $freezer }: { $liner }, { $minutes }.
evidence-put-nothing = Nothing went into the freezer: all cartons were refused.
evidence-thawed-photo = Photo { $number } of what was found on thawing
evidence-reason = Reason: { $reason }
evidence-seal = Seal { $number }
evidence-sealed-on = This record was sealed on { $at } ({ $zone }).
evidence-proves = What the seal proves
evidence-proves-bytes = The record and its photos are, to the last byte, those that were sealed under this hash.
evidence-proves-key = Whoever made the seal had the private key that belongs to the public key below.
evidence-proves-chain = This seal follows on the one before it at this site: leaving out or altering an earlier one breaks every later one.
evidence-proves-not = What it does not prove
evidence-not-right = That what was entered is right. A seal keeps what was said; it does not look into the carton.
evidence-not-day-stamped = That it was sealed on that day rather than before. The time is from the kitchen’s own clock. It had been sealed by { $at } ({ $zone }), when an outside authority ({ $authority }) stamped seal { $number } of this site.
evidence-not-day = That it was sealed on that day. The time is from the kitchen’s own clock, and no outside authority has stamped it.
evidence-not-other = That no other record was made. The kitchen that receives the goods holds the key, and this page, the key and the hash come from the same server. Somebody with the key and the database could write all of it anew, and could cut off the latest seals.
evidence-against = What stands against that
evidence-against-copies = Only copies outside that server. Compare the hash of this seal with each that you have:
evidence-against-message = the message that this link came with, where it was written by the program: it names the delivery’s latest seal at that time and its hash;
evidence-against-link = the link itself: behind #seal- it names the number of this site’s latest seal on the day the link was made, and the first 16 digits of its hash. So does its QR code;
evidence-against-file = the evidence file, where you downloaded it before: seal.json in it;
evidence-against-phone = the receiver’s phone, which keeps number and hash of the seal with the delivery;
evidence-against-later = evidence of later deliveries to this site: each seal names the one before it.
evidence-latest = The latest seal of this delivery is number { $number }:
evidence-latest-site = The latest seal of this site is number { $number }:
evidence-latest-note = Note both, or keep this page as a file: from today on they are anchors of your own.
evidence-download = Download everything as one file
evidence-download-what = Record, { $photos ->
        [one] { $photos } photo
       *[other] { $photos } photos
    }, seal, key, and how to check them.
evidence-download-what-logs = Record, { $photos ->
        [one] { $photos } photo
       *[other] { $photos } photos
    }, logger’s file, seal, key, and how to check them.
evidence-download-advice = Also every answer of the machine to the photos with its pictures, not sealed.
evidence-papers = To print or to file:
evidence-pdf-a4 = PDF, A4
evidence-pdf-letter = PDF, Letter
evidence-code-seal = Hash of this seal (SHA-256)
evidence-code-record = Hash of the sealed record
evidence-code-before = Hash of the seal before it
evidence-code-signature = Signature (Ed25519)
evidence-code-key = Number of the key
evidence-keys = every key of this kitchen
evidence-check = Check it yourself
evidence-check-browser = In your browser, without anything being sent:
evidence-check-file = check an evidence file
evidence-check-program = With the program:
evidence-check-by-hand = Or by hand: unpack the file that you downloaded. In that folder, with OpenSSL 3.0 or newer:
evidence-step-key = The seal is by the holder of the key. The answer must be “Signature Verified Successfully”.
evidence-step-record = The record is the one that was sealed. The answer must be the hash of the sealed record, above.
evidence-step-seal = The seal is the one shown here. The answer must be the hash of this seal, above.
evidence-step-photos = Each photo is one of the record: the answers must be the files’ own names.
evidence-step-logs = Each logger’s file is the one that was sealed: the answers must be the files’ own names.
evidence-footer = { $installation }. This page tells what was seen and measured when the goods came in. It is no certificate that food is safe to eat; local food law and its inspectors come first.

## docket.html, and the code itself
evidence-code-title = The code on a docket
evidence-code-about = It stands for one delivery to this kitchen. What was seen, measured and signed is not open to everybody who holds the code.
evidence-code-link = The supplier gets the evidence by a link from the kitchen: ask for it, and name the docket.
evidence-code-account = Where a claim was sent, it also stands in the supplier’s own account:
evidence-code-sign-in = open it with the account
evidence-code-holds = What else the code holds
evidence-code-anchor = Behind #seal- its address names the latest seal of this site that was known when the code was shown or printed: the seal’s number and the first 16 digits of its hash. Browsers do not send that part.
evidence-code-keep = Keep the photo of the code, or the whole address. Had the records been sealed anew since, that seal would be another one. Evidence that was sealed near it tells:
evidence-code-alt = QR code of docket { $docket }
evidence-code-what = Leads the supplier to the evidence of this delivery, by a link from the kitchen or with its account. It carries seal { $number } of this site.

evidence-anchor-of = Seal { $number } stands as noted in the chain of: { $sites }
evidence-anchor-of-none = No chain has a seal { $number } that begins with { $digits }: it was sealed anew or cut off since that was noted, or it is another installation’s.

## found.html
evidence-also-above = Also shown above:
evidence-above = Shown above:
evidence-above-photo = photo { $number }
evidence-no-photo = No photo was taken of this.

## photo.html
evidence-photo-of = Photo { $number }: { $purpose }
evidence-photo-of-carton = Photo { $number }: { $purpose }, carton { $carton }
evidence-place-removed = Shown without the place it was taken at; the picture itself is untouched.
evidence-place-rewritten = Shown as a copy without the place it was taken at.
evidence-place-withheld = Kept by the kitchen, and not given out: a place in it could not be taken out.
evidence-advice = Advice by machine, no finding
evidence-overlay-alt = The same photo with the parts marked that the advice is about
evidence-histogram-alt = How light the prawns’ surface is, from black at the left to white at the right, with the part marked that looked dark
evidence-advice-by = Made by { $by }. A program looked at the colours of this photo. It decided nothing and is not part of the sealed record.
evidence-advice-worth = How far the advice on photos can be relied on
evidence-earlier =
    { $count ->
        [one] { $count } other answer by machine, kept
       *[other] { $count } other answers by machine, kept
    }
evidence-earlier-one = { $at }, method { $method }: { $words }
evidence-overlay = Marked photo

## logger.html
evidence-log-added = Added after signing, { $at }, by { $person }. Seal { $seal }; the seal of the delivery is unchanged.
evidence-log-anew = The same file was read anew later, with other answers: see below.
evidence-log-drawing = Drawing of the log.
evidence-log-axes = Temperature in °C by the logger, time by the clock of { $zone }.
evidence-log-shaded = Shaded: warmer than { $limit }.
evidence-log-dotted = Dotted frame: no reading.
evidence-log-grey = Grey: not in transit, not counted.
evidence-log-cut = Where the line leaves the scale it runs along its edge.
evidence-log-warmer = Warmer than { $limit }: { $minutes }
evidence-log-unlisted = The longest are listed; { $count } shorter ones are counted but not listed.
evidence-log-life = Storage life used
evidence-log-read-but = { $readings } readings from the column “{ $column }”; rows left out: { $unread }. Method { $method }.
evidence-log-read = { $readings } readings from the column “{ $column }”. Method { $method }.
evidence-log-row = Line { $line }: { $text }
evidence-log-download = Download the logger’s file
evidence-log-bytes = { $bytes } bytes, as it came

## worksheet.html, checks.html, entries.html
evidence-sheet-title = Docket { $docket }: worksheet
evidence-sheet-over = Worksheet: recompute it by hand
evidence-sheet-limits = Limits
evidence-sheet-back = Back to the evidence
evidence-sheet-read = How to read it
evidence-sheet-read-how = Pencil, paper and a pocket calculator are enough. Each line goes the same way: what was typed; the sums; each check against its limit; whether the carton is defective; the tally; the steps to the suggestion; what the person decided.
evidence-sheet-read-unrounded = Numbers are compared unrounded. They are written with four decimals, or with more where four would hide on which side of a limit they lie.
evidence-sheet-read-ends = “At most” and “at least” hold their end point. “Below” and “above” do not.
evidence-sheet-read-unchecked = What was not checked counts as neither good nor bad.
evidence-sheet-read-defective-once = A carton with a critical or a major fault is defective, once. Short value and doubts do not make it defective: they lead to an allowance, or to a hold.
evidence-sheet-read-advice = A photo’s advice is no input.
evidence-sheet-read-whole = The whole procedure, with every limit and a worked example:
evidence-sheet-read-verdict = how a verdict is made
evidence-sheet-read-sealed = Everything here comes out of the sealed record (record.json in the file to download).
evidence-sheet-unknown = Without a known specification
evidence-sheet-typed = What was typed for the line
evidence-sheet-sound = not defective
evidence-sheet-as-typed = As typed
evidence-sheet-worked-out = Worked out
evidence-sheet-against = Against the limits
evidence-sheet-noted = Noted, without weight in the verdict:
evidence-sheet-because = Defective, because of: { $because }.
evidence-sheet-sound-because = Not defective: no critical fault, and no major one that is neither short value nor a doubt.
evidence-sheet-whole = The line as a whole
evidence-sheet-tally = Tally
evidence-sheet-plan = Plan
evidence-sheet-open = Open
evidence-sheet-accept = Accept with
evidence-sheet-tally-how = To open: the larger of what was drawn and the smaller of the tables, at least 1, at most the cartons counted. Accept with: the smaller of what was drawn and the larger of the tables.
evidence-sheet-tallied = { $opened } opened, { $planned } asked. { $defective } with a fault, { $bad } of them bad ({ $shown } beyond chance);
evidence-sheet-accepts = the plan accepts at most { $acceptance }:
evidence-sheet-accepts-twice = the plan accepts at most { $acceptance }, refuses at { $rejection }, opens { $total } in all and accepts then at most { $last }:
evidence-sheet-must = What had to be checked
evidence-sheet-check = Check
evidence-sheet-answer = Answer
evidence-sheet-steps = Steps: the first “yes” decides
evidence-sheet-suggested = Suggested
evidence-sheet-differs = The steps above give another answer than the sealed record.
evidence-sheet-differs-why = It was judged by another edition of these rules. The sealed reasons, on the evidence page, are what counted.
evidence-sheet-decided = Decided by the receiver
evidence-sheet-departs = Otherwise than suggested, because: “{ $reason }”
evidence-sheet-footer = { $installation }. This page shows how the numbers lead to the suggestion. It does not show that what was entered is right, and it is no certificate that food is safe to eat; the food law of the place and its inspectors come first.
evidence-sheet-number = Number
evidence-sheet-fine = Fine is
evidence-sheet-nothing = Nothing was typed.

## verify.html
evidence-verify-title = Check an evidence file
evidence-verify-about = Choose the file that you downloaded from an evidence page (its name ends in .zip). It is checked here, in your browser: nothing of it is sent anywhere, and this page asks the server for nothing more.
evidence-verify-file = Evidence file
evidence-verify-key = Number of the key, if you know it from elsewhere
evidence-verify-key-without = without it, nothing is said about who sealed
evidence-verify-anchor = What a docket’s code or a link ended in, if you kept one
evidence-verify-anchor-as = as seal-12-9f86d081884c7d65, or the whole address
evidence-verify-noscript = This way needs scripts. The other two do not.
evidence-verify-found = What was found
evidence-verify-none = No file was chosen yet.
evidence-verify-ways = Two other ways
evidence-verify-by-hand = By hand with openssl: the steps are in README.txt in the file.
evidence-verify-command = Or with the program’s own command:
evidence-verify-lie = A page from the kitchen’s own server could be made to lie. Whoever wants to be sure takes one of those, on a computer of their own.

## verify.js and bundle.js: values in braces are put in by the script
evidence-says-checking = Checking …
evidence-says-every = Every check
evidence-says-altered = Altered: { $files }
evidence-says-all-hold = All { $count } checks hold: docket { $docket }
evidence-says-do-not-rely = Do not rely on this file. Ask for another copy, and compare the hash of the seal with one that you kept.
evidence-says-to-the-byte = The parts are, to the last byte, those that were sealed by the holder of the key. That does not show that what was entered is right.
evidence-says-hash = Hash of the delivery’s seal: { $hash }
evidence-says-key = Number of the key: { $hash }
evidence-says-none = This is no evidence file that could be checked
evidence-says-gone = The file was changed or moved since it was chosen. Choose it again.
evidence-says-no-https = This page was not opened over HTTPS, and browsers check no signatures then. Open it over HTTPS.
evidence-says-holds = { $file }: { $what }: holds
evidence-says-holds-not = { $file }: { $what }: does not hold
evidence-says-not-covered = { $file }: { $what }
evidence-says-anchor-unread = No seal stands in what you noted. It ends in #seal-, a number, and 16 digits; type all of that.
evidence-says-anchor-beyond = The seal that you noted is not one of this file’s, nor just before one. Evidence sealed nearer to it can tell; so can the kitchen, with verify_seals --anchor.
evidence-says-anchor-holds = The seal that you noted stands in this file’s chain as you noted it.
evidence-says-anchor-broken = The seal that you noted is not the one in this file’s chain: the records were sealed anew since. Do not rely on this file; keep it, and what you noted.
evidence-says-readable = is a statement that can be read
evidence-says-signed = seal { $number } ({ $kind }) is signed by the holder of the key
evidence-says-names-record = is the record that seal { $number } ({ $kind }) names
evidence-says-names-key = is the key that seal { $number } ({ $kind }) names
evidence-says-adds = seal { $number } ({ $kind }) adds to this delivery
evidence-says-key-expected = the key of seal { $number } ({ $kind }) is the one expected
evidence-says-its-name = is the file that its name says
evidence-says-sealed = was sealed
evidence-says-there = is in the bundle
evidence-says-beside = is beside the seal: whether it was altered cannot be told
evidence-says-part-missing = A part is missing: { $file }.
evidence-says-no-ed25519 = This browser cannot check Ed25519 signatures. Use a newer one, or one of the other two ways.
evidence-says-no-zip = It cannot be read as a zip file.
evidence-says-list-damaged = Its list of parts is damaged.
evidence-says-packed-otherwise = { $file } is packed in a way that is not read here.
evidence-says-too-large = It unpacks to more than 1 GB.
evidence-says-name-twice = Two parts have the name { $file }.
evidence-says-cut-off = { $file } is cut off.
evidence-says-larger = { $file } is larger than it says.
evidence-says-not-unpacked = { $file } cannot be unpacked.
