# Refusals: what happened, what is safe, what to do. The id is the code that programs compare.

## errors
SIGN-IN-FIRST = You are not signed in. What is on this phone is safe and stays here. Sign in to carry on.
SIGN-IN-WRONG = That user name and password do not match. Nothing was changed. Check both and try again.
SIGN-IN-LOCKED = Too many wrong passwords from here. Nothing was lost. Wait ten minutes, or ask your administrator.
PAGE-STALE = This page has been open too long to accept a change. What you entered is still here. Reload the page and send it again.
NOT-YOURS = This belongs to a site that you do not look after. Nothing was changed. Ask your administrator if you should see it.
NOT-FOUND = There is nothing at this address. Nothing was changed. Go back and choose from the list.
NOT-JSON = What was sent could not be read. Nothing was changed on the server, and what is on the phone stays there. Send it again.
HOST-UNKNOWN = This server does not answer to that address. Nothing was changed. Use the address it printed when it started; its administrator can add a name in UNDERLID_HOSTS.
NOT-ALLOWED = That address does not accept this kind of request. Nothing was changed. Update the app and try again.
TOO-LARGE = That was larger than the server accepts ({ $most_mb } MB). Nothing was changed. Send less at once.
TOO-SLOW = What was sent came in too slowly and was cut off. Nothing was changed, and what is on the phone stays there. It will be sent again automatically.
TOO-OFTEN = Too many requests at once. Nothing was lost. Try again in { $wait_s } seconds.
FIELDS = Some entries could not be used: { $fields }. Nothing was saved. Correct them and send again.
NO-ROOM = The server's disk is full. What you sent was not kept there; it is safe on the phone, which will send it again automatically. Tell your administrator.
DATABASE-AWAY = The server's database is not answering right now. What is stored is safe, and what is on the phone stays there. It will be sent again automatically.
TROUBLE = Something went wrong on the server. What you sent may not have been saved; what is on the phone is safe. Try again in a minute. If it happens again, give your administrator the code { $trace }.

## records.models.written_once
WRITTEN-ONCE = This version has been used to judge deliveries and cannot be altered. Nothing was changed. Publish a new version instead.
SIGNED-ONCE = This belongs to a signed record and cannot be altered. Nothing was changed. Add a correction to the delivery instead.

## evidence.canonical
RECORD-NOT-EXACT = The record holds a number or a character that cannot be written exactly ({ $what }). Nothing was changed, and everything is still on the phone. Correct that entry and send it again.

## people.access
ROLE-NEEDED = This is for { $needed }. Nothing was changed. Ask one of them, or your administrator.

## people.devices
CODE-WRONG = That code does not work: it is mistyped, already used, or older than { $minutes } minutes. Nothing was changed. Ask your manager for a new one.
DEVICE-REVOKED = This device was taken out of use by { $by } on { $on }. Everything on it is kept and nothing is lost. Ask your manager to put it back into use; then it will be sent.
DEVICE-NOT-SHARED = This device is not shared at a site, so nobody can sign in on it with a PIN. Nothing was changed. Sign in with your user name and password.
DEVICE-LABEL = A shared device needs a name, such as Dock tablet. No code was made. Give it one.

## records.services.reference
LIMITS-01 = The limits could not be read. The limits in use are unchanged. Check the file.
LIMITS-02 = “{ $limit }” is not a known limit. The limits in use are unchanged. Remove it.
LIMITS-03 = “{ $limit }” cannot have this bound. The limits in use are unchanged. Enter another bound.
LIMITS-04 = “{ $limit }” cannot have this severity. The limits in use are unchanged. A hazard stays critical, and weak evidence is never critical.
LIMITS-05 = “{ $limit }” and “{ $other }” contradict each other. The limits in use are unchanged. Correct one of the two.
LIMITS-06 = “{ $limit }” appears twice or is missing. The limits in use are unchanged. Keep it once.
LIMITS-07 = “{ $limit }” has no source. The limits in use are unchanged. Say where the number comes from, or that it is common practice.
LIMITS-PLAN = “{ $plan }” is not a known sampling plan. The version in use is unchanged. Choose one of: { $known }.
LIMITS-NAME = The set of limits has no name. The version in use is unchanged. Give it one.
SPEC-SPECIES = “{ $value }” is not a known species code. The version in use is unchanged. Use the three-letter FAO code, such as PNV.
SPEC-GRADE = “{ $value }” could not be read as a size grade. The version in use is unchanged. Write it like 16/20, U/10 or 30/40 per kg.
SPEC-FIELD = “{ $value }” cannot be used for { $field }. The version in use is unchanged. { $hint }
SPEC-NO-VERSION = Specification { $specification } is still empty, so there is nothing to switch. Nothing was changed. Enter what is bought first.
SPEC-LIMITS = The specification's own limits cannot be used: { $why } The version in use is unchanged.

## records.tried_limits
TRIAL-NOTHING = There is nothing to try. Nothing was judged. Choose a file of limits, or a sampling plan.
TRIAL-MANY = { $count } deliveries arrived in these days; at most { $most } are judged at once. Nothing was judged. Choose fewer days or one site, or ask your administrator to run try_limits.

## bodies
NAMED-TWICE = What was sent names “{ $name }” twice, so it is not clear which one counts. Nothing was changed on the server, and what is on the phone stays there. Update the app and send it again.

## comparison.period
PERIOD-DATE = “{ $entry }” could not be read as a date. Nothing was changed. Write it as year-month-day, for example 2026-03-31.
SUMMARY-MONTH = “{ $entry }” is not a month written as year-month, like 2026-03. Nothing was changed. Choose the month again.
SUMMARY-NO-MAIL = This server cannot send you mail: it has no mail server, or your account has no e-mail address. Nothing was changed. Ask your administrator.
PERIOD-ORDER = The period ends ({ $last }) before it begins ({ $first }). Nothing was changed. Swap the two dates.

## records.judging
SPECIFICATION-UNKNOWN = Line { $line } names a specification that this server does not have. Your entries are saved. Choose the specification again, or ask your site manager.
LIMITS-UNKNOWN = The delivery was judged by a set of limits that this server does not have. Your entries are saved. Reload the reference data on the phone and look at the verdict again.

## records.services.signable
SIGN-NO-SUPPLIER = No supplier that this server knows is chosen. Your entries are saved. Choose the supplier and sign again.
SIGN-NO-ORDER = The order named here is not one of this site's orders with this supplier. Your entries are saved. Choose the order again, or go on without one.
SIGN-NO-DOCKET = The docket number is missing. Your entries are saved. Enter it as it stands on the paper.
SIGN-NO-ARRIVAL = The time of arrival is missing or cannot be read. Your entries are saved. Enter when the goods arrived.
SIGN-NO-LINES = This delivery has no lines. Your entries are saved. Add what is on the docket.
SIGN-LONG-LOT = A lot number of line { $line } is longer than { $most } characters. Your entries are saved. Enter the lot number only.
SIGN-UNUSABLE =
    { $count ->
        [one] One entry cannot be used.
       *[other] { $count } entries cannot be used.
    } Your entries are saved. Go to { $path }: { $why }
SIGN-NO-DECISION = Line { $line } has no decision yet. Your entries are saved. Decide it and sign again.
SIGN-NOT-COUNTED = The cartons of line { $line } have not been counted. Your entries are saved. Count them and enter the number.
SIGN-NO-REASON = Line { $line } was decided against the suggestion without a reason. Your entries are saved. Enter the reason.
SIGN-NOT-BALANCED = Line { $line }: { $accepted } accepted, { $refused } refused and { $held } held add up to { $sum }, but { $counted } cartons were counted. Your entries are saved. Correct the numbers.
SIGN-CONTRADICTS = Line { $line } is decided as “{ $decision }”, but its numbers say otherwise. Your entries are saved. Correct the numbers or the decision.
SIGN-NO-RECEIVER = The receiver's signature is missing. Your entries are saved. Sign, then send again.
SIGN-NO-DRIVER = The driver's signature is missing. Your entries are saved. Let the driver sign, or note why not.

## evidence.links
LINK-WRONG = This link does not open a record. Nothing is lost. Check that the whole link was copied, or ask the kitchen that sent it for a new one.
LINK-OVER = This link expired on { $ended }. The record itself is kept. Ask the kitchen that sent it for a new one.
LINK-DAYS = A link can last from 1 to { $most } days. No link was made. Choose a number of days in that range.
LINK-WHOM = The note on who the link is for is longer than { $most } characters. No link was made. Shorten it.
LINK-NO-SEAL = This delivery has no seal, so there is nothing to show as evidence. The record is kept. Tell your administrator.

## records.services.set_apart
APART-LINE = Cartons were entered for a line that this delivery does not have. The signed record is safe. Choose the line again.
APART-COUNT =
    { $count ->
        [one] One { $part } carton of line { $line } was entered,
       *[other] { $count } { $part } cartons of line { $line } were entered,
    } but there { $there ->
        [one] is only one.
       *[other] are only { $there }.
    } The signed record is safe. Correct the number.
APART-WHERE = Where the cartons are has not been entered. The signed record is safe. Enter the place.
APART-BY = Who collected the cartons has not been entered. The signed record is safe. Enter the name of the carrier or the person.
APART-WHEN = When this was has not been entered. The signed record is safe. Enter the date and time.
APART-DECIDED = Who decided about the held cartons, or why, has not been entered. The signed record is safe. Enter the name and the reason.
APART-HELD = Only held cartons can be released or refused later. The signed record is safe. Enter held cartons.

## records.services.thawed
THAWED-LINE = The lot does not belong to a line that this delivery kept. The signed record is safe. Choose the lot again.
THAWED-WHEN = The goods were thawed before they arrived, or the date and time are missing. The signed record is safe. Correct the date and time.

## records.shape.door
DOC-SHAPE = This delivery arrived in a form that the server cannot keep ({ $what }). It is safe on the phone. Update the app and send it again.
DOC-SCHEMA = The app on this phone writes deliveries in a form that this server does not know. They are safe on the phone. Update the app, or ask your administrator to update the server.
DOC-TEXT = An entry of this delivery holds a character that cannot be stored ({ $where }). The delivery is safe on the phone. Clear that entry and type it again.
ADDENDUM-SHAPE = What was to be added could not be read ({ $what }). The signed record is safe. Update the app and send it again.
CHECK-SHAPE = The check of the thermometer could not be read ({ $what }). What was filed before is safe, and this check is still on the phone. Update the app and send it again.

## records.services.addendum
ADDENDUM-EMPTY = There is nothing to add yet. The signed record is safe. Enter what is to be added.
ADDENDUM-OTHER = Something else was added under this number already. The signed record is safe. Enter it again.
PUT-AWAY-LINE = Cartons were put away for a line that this delivery does not have. The signed record is safe. Choose the line again.
PUT-AWAY-COUNT = { $count } cartons of line { $line } were put away, but only { $kept } were kept. The signed record is safe. Correct the number.
PUT-AWAY-TIME = The cartons of line { $line } went in before they came out. The signed record is safe. Correct the times.

## records.services.ids
IDS-TAKEN = { $what } of this delivery has the id of one in another delivery. Nothing was changed there, and this delivery is safe on the phone. Start it afresh on the phone and tell your administrator.
IDS-TWICE = { $what } of this delivery has the same id as another one in it, so the two cannot be told apart. Your entries are saved. Tell your administrator; the app needs an update.

## records.services.photo
PHOTO-TOO-LARGE = The photo is { $mb } MB; the most that can be kept is { $most_mb } MB. Your other entries are saved. Take it again with the phone's own camera.
PHOTO-OTHER-BYTES = The photo was damaged on its way. It is still on the phone. Send it again.

## records.services.delivery
ALREADY-SIGNED = This delivery has already been signed, with other entries. The signed record is safe. Add a correction to it instead.

## records.services.logger_file
EXPO-01 = The log has no stretch of time that can be added up. The file is kept. Check that it is the right one.
EXPO-02 = There is no storage-life table for this product. The file is kept. Choose a product from the list.
LOG-01 = The logger file is empty. Everything else is kept. Send the file from the logger again.
LOG-02 = No column heading for the time was found in the logger file. Your entries are kept. Export it as CSV with its headings.
LOG-03 = No temperature column was found in the logger file. Your entries are kept. Export it as CSV with its headings.
LOG-04 = The logger file does not say whether it is in °C or °F. Your entries are kept. Choose the unit.
LOG-05 = The logger file has { $rows } rows; the most that can be read is { $max_rows }. Your entries are kept. Export only the days of this delivery.
LOG-06 = No row of the logger file could be read ({ $unread } tried). Your entries are kept. Check that it is the right file.
LOG-07 = The times in the logger file have no time zone ({ $readings } readings). Everything else is kept. Say which clock the logger kept.
LOG-08 = “{ $entered }” in the logger file can be read in two ways. Everything else is kept. Say whether the day or the month comes first.
LOG-09 = The logger file is not a table of text. Everything else is kept. Export it from the logger as CSV.
LOG-10 = The logger file has { $number } temperature columns. Everything else is kept. Choose the one for the probe that lay with the goods.
LOG-11 = Row left out: it has { $fields } fields where the heading has { $expected }. The other rows are kept. Export with another separator.
LOG-12 = Row left out: “{ $entered }” is not a time that can be read in one way only. The other rows are kept. Export with the year first, in four digits.
LOG-13 = Row left out: its time has no time zone while others have one. The other rows are kept. State the zone.
LOG-14 = Row left out: “{ $entered }” is not a temperature. The other rows are kept. Look at the row in the file.
LOG-15 = Row left out: a second reading for the same moment. The first one is kept. Nothing needs to be done.
LOGGER-ANSWER = “{ $value }” is not one of the answers to this. The delivery's record is safe. Choose one from the list.
LOGGER-LEFT = The goods must have left before they arrived, and not more than a year before. The delivery's record is safe. Correct the time or leave it out.

## evidence.link_throttle
LINK-TOO-OFTEN = Too many links that do not work were tried from this network. Nothing is lost, and your link still works. Wait { $wait_min } minutes, then open the link from the message again.

## evidence.logger_files
LOGGER-NO-SEAL = This delivery has no seal that a logger file could be added to. The record is kept; the file was not. Tell your administrator.

## evidence.logger_api
LOGGER-NO-FILE = No file was sent. Nothing was changed. Choose the logger's file and send it again.

## people.pins
PIN-SHAPE = A PIN is four to eight digits, not all the same and not in sequence like 1234. Nothing was changed. Choose another.
PIN-WRONG = That PIN is not right. Nothing was changed. Try again, or sign in with your user name and password.
PIN-OFF = This PIN was mistyped too often and is switched off. What is on this device is safe. Sign in once with your user name and password, and it will work again.

## people.passkeys
PASSKEY-ADDRESS = Passkeys work where this server is reached by a name, not by a number. Nothing was changed. Sign in with your user name and password.
PASSKEY-LATE = That took more than five minutes, or was tried twice. Nothing was changed. Begin again.
PASSKEY-UNUSABLE = The passkey could not be checked. Nothing was changed. Begin again, or use another device.
PASSKEY-TOO-MANY = You have { $most } passkeys, which is the most. Nothing was changed. Take one away that you no longer use.
PASSKEY-WRONG = That passkey does not open an account here. Nothing was changed. Sign in with your user name and password.

## people.keeping
PERSON-ABOVE = You can manage the accounts of { $whom } only. Nothing was changed. Ask somebody with wider rights.
PERSON-SITES = Choose at least one site, and only sites that you look after. Nothing was changed.
PERSON-PASSWORD = A new person needs a first password. Nothing was changed. Choose one and tell them.
PERSON-ONESELF = You cannot close your own account or take away your own role. Nothing was changed. Ask another administrator.

## records.tables
IMPORT-ENCODING = The characters in the file could not be read. Nothing was changed. Save it as “CSV UTF-8” or as an .xlsx workbook and send it again.
IMPORT-OLD-WORKBOOK = This is an old-style workbook (.xls). Nothing was changed. Save it as .xlsx or as “CSV UTF-8” and send it again.
IMPORT-NOT-A-TABLE = The file is not a table: neither CSV nor an .xlsx workbook that could be opened. Nothing was changed. Save the table as “CSV UTF-8” or as .xlsx, without a password, and send it again.
IMPORT-EMPTY = The file has no rows below its headings. Nothing was changed. Choose another file.
IMPORT-TOO-LONG = The file has more than { $most } rows. Nothing was changed. Send it in parts.

## records.imports
IMPORT-KIND = There is no import of “{ $kind }”. Nothing was changed. Choose one of: { $known }.
IMPORT-HEADINGS = The headings do not match: { $what }. Nothing was changed. Use these headings: { $known }.

## records.api
NO-OVERLAY = There is no marked picture for this photo. The photo itself is safe. Look at the photo as it was taken.
NO-HISTOGRAM = There is no brightness chart for this photo. The photo itself is safe. Look at the photo as it was taken.
PHOTO-UNREADABLE = { $why } Save the file itself if you need it.
PHOTO-GONE = The photo's file is missing from the server. The record is safe. Tell your administrator.
IMPORT-NO-FILE = No file was sent. Nothing was changed. Choose the file and send it again.
IMPORT-LINES =
    { $count ->
        [one] One cell cannot be used.
       *[other] { $count } cells cannot be used.
    } Nothing was changed. Correct the rows listed and send it again.

## records.services.ice_point
CHECK-READING = The reading in ice cannot be used: { $why } What was filed before is safe, and this check is still on the phone. Delete the check from the phone and do it again.
CHECK-TIME = The check is dated { $day }, which cannot be right by the server's clock. What was filed before is safe, and this check is still on the phone. Set the phone's clock, delete the check from the phone and do it again.
CHECK-OTHER = Another check was filed under this number already. What was filed before is safe, and this check is still on the phone. Delete the check from the phone and do it again.

## sync.document
DOC-OTHER-REVISION = { $person_name } has saved this delivery from another device in the meantime. Both versions are kept. Compare them and choose which one to go on with.
DOC-NOT-HERE = The server does not have this delivery. It is safe on the phone. Send it as it is.
DOC-SIGNED = This delivery is signed and sealed. The signed record is safe. Add a correction to it instead.
DOC-BUSY = The same delivery is being saved right now. Nothing was lost. It will be sent again automatically.
DOCKET-OPEN-ELSEWHERE = { $person_name } already has a delivery with this docket number ({ $other_state }). Both are kept. Go on with that one, or keep this one separate.
DOC-SUPPLIER = The server does not know the supplier of this delivery. The delivery is safe on the phone. Choose the supplier again.

## sync.room
UPLOAD-TOO-MANY = Too many photos are on their way from you at once ({ $most }). All are safe on the phone. The rest will follow automatically.
UPLOAD-NO-ROOM = The server's disk is full. The photo is safe on the phone. Tell your administrator.

## sync.uploads
UPLOAD-HEADERS = A piece of a photo came without what is needed to keep it ({ $what }). The photo is safe on the phone. Update the app and send it again.
UPLOAD-OFFSET = A piece of a photo came out of order. What has arrived is kept. The phone will carry on from there automatically.
UPLOAD-BUSY = This photo is being received right now. Nothing was lost. It will carry on automatically.
UPLOAD-TOO-LONG = More arrived than the photo holds. What has arrived is kept. The phone will carry on from there automatically.
UPLOAD-TOO-LARGE = A photo can have at most { $most_mb } MB. Your other entries are saved. Take it again with the phone's own camera.

## sync.idempotency
KEY-MISSING = The request came without the key that keeps it from counting twice. Nothing was changed, and everything is safe on the phone. Update the app and send it again.
KEY-OTHER-BODY = Something else was sent under the same key before. What was sent first stands, and everything is safe on the phone. Sign again; the app will use a new key.
STILL-BUSY = This is already being done for you. Nothing was lost. It will be sent again automatically.

## sync.signing
PHOTOS-MISSING =
    { $count ->
        [one] One photo of this delivery has not arrived yet.
       *[other] { $count } photos of this delivery have not arrived yet.
    } Everything is safe on the phone. The photos will be sent first, then the signature, automatically.

## sync.api
DOC-NO-PRECONDITION = The delivery came without saying which version it builds on. Nothing was changed, and it is safe on the phone. Update the app and send it again.
DOC-ID-DIFFERS = The delivery was sent to the address of another one. Nothing was changed, and it is safe on the phone. Send it again.
TUS-VERSION = The app sends photos in a way that this server does not know. The photos are safe on the phone. Update the app.

## claims
SUPPLIER-SIGN-IN = This account is a supplier's. Nothing was changed. Sign in at { $address }.
SUPPLIER-ONLY = This is the suppliers' own page. Nothing was changed. If you work for the kitchen, sign in at the desk.
SUPPLIER-PERSON-THERE = There is already an account for { $email }. Nothing was changed. Use another address, or invite that person again in the list.
INVITATION-OVER = This invitation was used already, has ended, or is not complete. The claims and the evidence are kept. If you have set a password, sign in with it; else ask the kitchen for a new invitation.
PUSH-ADDRESS = This browser gave no address that notifications can be sent to. Nothing was changed. Look at the claims page, or use mail.
PUSH-KEY = This browser gave no key that notifications can be encrypted with. Nothing was changed. Look at the claims page, or use mail.
MAIL-NOT-AGAIN = This message cannot be sent again. Nothing was changed. Reload the page.
CLAIM-THERE = There is already a claim on this line: { $number }. Nothing was changed. Open that one.
CLAIM-NOTHING = The verdict on this line leaves nothing to claim: no carton was refused or missing, and none was taken with an allowance. No claim was drafted.
CLAIM-NO-SEAL = This delivery has no seal that a claim could rest on. The record is kept. Tell your administrator.
CLAIM-SENT = This claim has been sent, and what was sent is sealed. The claim is as it was. Offer another amount, or withdraw it.
CLAIM-REASON = “{ $ground }” was changed without a reason. The claim is as it was. Write why, so that the other side can follow.
CLAIM-OPEN-FIGURE = “{ $ground }” has no amount yet: a figure is not known. The claim is as it was. Enter it, or take the item out.
CLAIM-EMPTY = There is nothing in this claim. The claim is as it was. Add what fell short, or withdraw it.
CLAIM-NOT-NOW = This cannot be said at this point of the claim ({ $state }). The claim is as it was. Reload the page to see what was said last.
CLAIM-WORDS = Nothing is written in it. The claim is as it was. Write a reason or a question, or attach a file.
CLAIM-LONG = That is longer than { $most } characters. The claim is as it was. Shorten it, or send the rest in a further answer.
CLAIM-AMOUNT = No amount is given. The claim is as it was. Enter the amount in { $currency }.
CLAIM-ABOVE = { $amount } is more than the { $claimed } claimed. Nothing was sent, and the claim is as it was. Correct the amount, or confirm that you mean it.
CLAIM-CREDIT = The number of the credit note is missing. The claim is as it was. Enter it as it appears on the note.
CLAIM-CREDIT-OTHER = The credit is not the amount agreed ({ $agreed }), and no reason is given. The claim is as it was. Write why, or correct the amount.
CLAIM-MANY = This claim has as many entries as one can have ({ $most }). The claim is as it was. Settle the rest outside the system.
CLAIM-NUMBER = “{ $value }” is not a number that { $name } can have. Nothing was changed. Enter digits, with a point before decimals.
CLAIM-GROUND = “{ $value }” is not a ground for a claim. Nothing was changed. Choose one from the list.
CLAIM-FILES = At most { $most } files can go with one answer. Nothing was sent, and the claim is as it was. Send some of them with a further answer.
CLAIM-FILE-LARGE = “{ $name }” is larger than { $most_mb } MB. Nothing was sent, and the claim is as it was. Send a smaller one.
CLAIM-FILE-KIND = “{ $name }” is neither a photo that can be shown (JPEG, PNG, WebP) nor a data logger's table that can be read. Nothing was sent, and the claim is as it was. Photos: send a JPEG. Logger files: { $why }
CLAIM-FILE-PICTURE = “{ $name }” is damaged or has more pixels than can be shown. Nothing was sent, and the claim is as it was. Send the photo as the camera made it.

## comparison.api

## sync.api, sync.handed_in
APP-TOO-OLD = This app is older than the server can understand. Nothing is lost: what is waiting stays on the phone. Update the app; then everything will be sent automatically.
SERVER-TOO-OLD = This app is newer than the server. Nothing is lost: what is waiting stays on the phone and will be sent automatically once the server is updated. Tell your administrator.
FILE-ENTRY = An entry of this file could not be read ({ $what }). None of it was changed, and the file is as it was. Save the file again on the phone, or bring the phone to a network.

## comparison.tables_api
TABLE-AFTER = “{ $entry }” is no place in this table. Nothing was changed. Ask with what “next” said last.
TABLE-LIMIT = “{ $entry }” is not a number of rows. Nothing was changed. Ask for 1 to { $most }.

## comparison.table_files
TABLE-TOO-LONG = The table has more rows than a worksheet holds ({ $most }). Nothing was changed. Choose fewer days, or take it as CSV or Parquet.
