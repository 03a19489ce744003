"""The evidence as a file that a supplier can keep: records, photos, seals, public keys, and how to check them.

::

    README.txt
    record.json  seal.json  seal.sig  public-key.pem      the delivery
    addendum-1/  the same four                            each addendum, in the order sealed
    photos/<SHA-256 of the file>.jpg                      what may be shown outside
    photos.txt                                            which photo in the record is which file
    logger-files/<SHA-256 of the file>.csv                data-logger files as they came, where there are any
    logger-files.txt                                      what each was called
    claim-files/<SHA-256 of the file>.jpg                 what either side attached to a claim, as it came
    time-stamp/                                           the stamp of an outside authority, where one speaks for the
                                                          delivery's seal, and the statements from it to the stamped
                                                          one
    photo-advice/                                         what a machine made of the photos (``bundle_advice``);
                                                          not sealed, and only where a photo was answered

``seal.json`` is the signed statement; its SHA-256 is the seal's hash. Nothing of the sealed parts is pretty
printed: a byte changed for the eye would break the hash.
"""
import base64
import zipfile
from typing import IO, Any

from inspections.evidence.bundle_advice import AdvicePart, advice_part
from inspections.evidence.models import Seal, SealKind, SharedCopy
from inspections.evidence.seals import content_of, seals_of
from inspections.evidence.sharing import read_shared
from inspections.evidence.stamps import stamp_after
from inspections.evidence.statement import utc_text
from inspections.records import storage
from inspections.records.models import Delivery

RECORD, STATEMENT, SIGNATURE, KEY = "record.json", "seal.json", "seal.sig", "public-key.pem"
ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/heic": "heic"}

ADDED: dict[str, str] = {
    SealKind.ADDENDUM: "what was added later",
    SealKind.LOGGER: "a data-logger file added later: what it was read to say",
    SealKind.CLAIM: "what one side said about a claim",
}
LOGGERS = """  logger-files/    data-logger files as they came, each named by its own SHA-256; added after signing, each
                   sealed in an addendum folder whose record.json names that hash
                   (openssl dgst -sha256 logger-files/*)
  logger-files.txt what each was called
"""
CLAIMS = """  claim-files/     what was attached to a claim, each file named by its own SHA-256; the addendum folder
                   whose record.json names that hash seals it (openssl dgst -sha256 claim-files/*)
"""

STAMP_FOLDER = "time-stamp/"
STAMP = f"{STAMP_FOLDER}stamp.tsr"
STAMPED = """  time-stamp/      an outside authority's word that seal number {number} was there by {at}, and the
                   statements of all seals of the site from this one to that one
"""
STAMP_STEPS = """
6. The seal is no younger than its time stamp (RFC 3161). Get the root certificate of the authority
   ({authority}) from the authority itself, save it as roots.pem, then:
     openssl ts -verify -in time-stamp/stamp.tsr -data time-stamp/seal-{number:07}.json -CAfile roots.pem
   It must say: Verification: OK. The time that the authority gave:
     openssl ts -reply -in time-stamp/stamp.tsr -text
   The statement that was stamped follows on seal.json: the first file below is seal.json itself, and each of the
   others names in "previous_sha256" the hash of the one before it.
     openssl dgst -sha256 time-stamp/seal-*.json
"""

ADVICE = """
Beside the seal: what a machine made of the photos
  photo-advice/    advice, with pictures and a README of its own. No seal covers it, so nothing here can show whether
                   it was altered. It is no finding and decided nothing.
"""

README = """EVIDENCE OF ONE DELIVERY
Docket {docket}, {supplier} to {site}. Seal number {number} of that site.

What is here
  record.json      what was ordered, measured, photographed, decided and signed; sealed as it is
  seal.json        the statement that was signed: it names the SHA-256 of record.json
  seal.sig         the Ed25519 signature over seal.json (64 bytes)
  public-key.pem   the public key of the installation that sealed it
  photos/          the photos; each file is named by its own SHA-256
  photos.txt       which photo of the record is which file
{loggers}{claims}{stamped}{addenda}{advice}
How to check it by hand, in a folder where this file was unpacked (OpenSSL 3.0 or newer)

1. The seal is by the holder of the key:
     openssl pkeyutl -verify -pubin -inkey public-key.pem -rawin -in seal.json -sigfile seal.sig
   It must say: Signature Verified Successfully

2. The record is the one that was sealed:
     openssl dgst -sha256 record.json
   It must give the value of "content_sha256" in seal.json:
     {content_sha256}

3. The seal is the one that you were told of (on the web page, or in a message you kept):
     openssl dgst -sha256 seal.json
   It must give:
     {sha256}

4. The photos are those of the record:
     openssl dgst -sha256 photos/*
   Each must give its own file name, and stand in record.json as "shared_sha256".

5. The key is the one that you know:
     openssl pkey -pubin -in public-key.pem -outform DER | openssl dgst -sha256
   It must give the value of "public_key_id" in seal.json:
     {public_key_id}
   A key proves who sealed only if you had it, or this number, from somewhere other than this file.
{stamp_steps}
The same steps hold in each addendum folder. "previous_sha256" in a seal.json is the hash of the seal made
before it at the same site: a record that was taken out or altered later leaves a gap there.

The project's own command does all of this: python3 manage.py verify_bundle FILE
So does a page of the server, /verify, in your own browser and without sending anything.

Photos without a place
A photo that told where it was taken is given here as a copy without that. Its "sha256" in record.json is
the hash of the photo as taken, which the kitchen keeps; its "shared_sha256" is the hash of this copy. Both
were sealed when the delivery was signed. "place_removed" means that the picture itself is untouched, byte
for byte; "rewritten" means that it was saved anew. A photo that cannot be read is "withheld", and has no file here:
a place in it could not be taken out. The kitchen keeps it as it came.

What this does not show
The seal shows that nothing was altered after sealing. It does not show that what was entered is right.
Advice that a machine gave on photos is not part of the record{beside}. Limits whose source says "from memory" or
"common practice" are to be looked up before anybody relies on them. Food law of the place comes first.
"""


def bundle_name(delivery: Delivery) -> str:
    """A file name for the bundle: docket and site, in plain letters."""
    kept = "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in delivery.docket_number)
    return f"evidence-{delivery.site.code}-{kept}.zip"


def write_bundle(delivery: Delivery, out: IO[bytes]) -> None:
    """Write the bundle of a sealed delivery.

    Parameters
    ----------
    delivery : Delivery
    out : file
        Opened for writing bytes, seekable.

    Raises
    ------
    Seal.DoesNotExist
        The delivery has no seal.
    FileNotFoundError
        A photo's or logger's file is gone.
    """
    seals = seals_of(delivery)
    main = next((seal for seal in seals if seal.kind == SealKind.DELIVERY), None)
    if main is None:
        raise Seal.DoesNotExist(f"delivery {delivery.pk} has no seal")
    record = content_of(main)
    addenda = [seal for seal in seals if seal.kind != SealKind.DELIVERY]
    loggers = [content_of(seal)["logger_file"] for seal in addenda if seal.kind == SealKind.LOGGER]
    entries = [content_of(seal)["entry"] for seal in addenda if seal.kind == SealKind.CLAIM]
    attached = {file["sha256"]: file for entry in entries for file in entry["files"]}
    advice = advice_part(record)
    with zipfile.ZipFile(out, "w") as bundle:
        _put(bundle, main, "README.txt", _readme(main, record, addenda, advice, has_loggers=bool(loggers),
                                                 has_attached=bool(attached)).encode())
        _put_seal(bundle, main, "")
        for number, seal in enumerate(addenda, start=1):
            _put_seal(bundle, seal, f"addendum-{number}/")
        later = [entry for seal in addenda for entry in content_of(seal).get("photos", ())]
        _put_photos(bundle, main, [*record["photos"], *later])
        _put_loggers(bundle, main, loggers)
        _put_stamp(bundle, main)
        for sha256, file in attached.items():
            name = f"claim-files/{sha256}.{ENDINGS.get(file['type'], 'csv')}"
            _put(bundle, main, name, storage.read(storage.claim_file_name(sha256)), how=zipfile.ZIP_STORED)
        for name, content in advice.files():
            how = zipfile.ZIP_STORED if name in advice.pictures else zipfile.ZIP_DEFLATED
            _put(bundle, main, name, content, how=how)


def _put_seal(bundle: zipfile.ZipFile, seal: Seal, folder: str) -> None:
    _put(bundle, seal, f"{folder}{RECORD}", bytes(seal.content))
    _put(bundle, seal, f"{folder}{STATEMENT}", seal.statement().to_bytes())
    _put(bundle, seal, f"{folder}{SIGNATURE}", base64.b64decode(seal.signature))
    _put(bundle, seal, f"{folder}{KEY}", seal.public_key.pem.encode("ascii"))


def _put_photos(bundle: zipfile.ZipFile, seal: Seal, entries: list[dict[str, Any]]) -> None:
    listed, written = [], set()
    for entry in entries:
        if entry["shared_sha256"] is None:
            listed.append(f"{entry['sha256']}  {entry['shared_how']}  -\n")
            continue
        name = f"photos/{entry['shared_sha256']}.{ENDINGS.get(entry['shared_type'], 'bin')}"
        listed.append(f"{entry['sha256']}  {entry['shared_how']}  {name}\n")
        if name not in written:
            copy = SharedCopy.objects.get(pk=entry["sha256"])
            _put(bundle, seal, name, read_shared(copy), how=zipfile.ZIP_STORED)
            written.add(name)
    _put(bundle, seal, "photos.txt", "".join(listed).encode())


def _put_stamp(bundle: zipfile.ZipFile, main: Seal) -> None:
    """The stamp that speaks for the seal, and the chain from it to the stamped one: statements, no records."""
    stamp = stamp_after(main)
    if stamp is None:
        return
    _put(bundle, main, STAMP, bytes(stamp.token))
    chain = Seal.objects.filter(site=main.site_id, number__range=(main.number, stamp.seal.number)).defer("content")
    for seal in chain.order_by("number"):
        _put(bundle, main, f"{STAMP_FOLDER}seal-{seal.number:07}.json", seal.statement().to_bytes())


def _put_loggers(bundle: zipfile.ZipFile, seal: Seal, loggers: list[dict[str, Any]]) -> None:
    """The files as they came; one that was read twice is there once."""
    for sha256 in dict.fromkeys(file["sha256"] for file in loggers):
        content = storage.read(storage.logger_file_name(sha256))
        _put(bundle, seal, f"logger-files/{sha256}.csv", content)
    if loggers:
        listed = dict.fromkeys(f"{file['sha256']}  {file['file_name']}\n" for file in loggers)
        _put(bundle, seal, "logger-files.txt", "".join(listed).encode())


def _put(bundle: zipfile.ZipFile, seal: Seal, name: str, content: bytes, how: int = zipfile.ZIP_DEFLATED) -> None:
    """One entry; its date is the seal's, so that the same delivery gives the same file."""
    at = seal.sealed_at
    entry = zipfile.ZipInfo(name, (max(at.year, 1980), at.month, at.day, at.hour, at.minute, at.second))
    entry.external_attr = 0o644 << 16
    bundle.writestr(entry, content, compress_type=how)


def _readme(seal: Seal, record: dict[str, Any], addenda: list[Seal], advice: AdvicePart, *, has_loggers: bool,
            has_attached: bool) -> str:
    added = "".join(f"  addendum-{number}/      {ADDED[one.kind]}, sealed on its own\n"
                    for number, one in enumerate(addenda, start=1))
    stamp = stamp_after(seal)
    at = f"{utc_text(stamp.at)[:19].replace('T', ' ')} UTC" if stamp else ""
    return README.format(
        stamped=STAMPED.format(number=stamp.seal.number, at=at) if stamp else "",
        stamp_steps=STAMP_STEPS.format(number=stamp.seal.number, authority=stamp.authority) if stamp else "",
        docket=record["document"]["docket_number"], supplier=record["supplier"]["name"], site=record["site"]["name"],
        number=seal.number, addenda=added, loggers=LOGGERS if has_loggers else "",
        claims=CLAIMS if has_attached else "",
        advice=ADVICE if advice.has_answers else "", beside=" (it lies in photo-advice/)" if advice.has_answers else "",
        content_sha256=seal.content_sha256, sha256=seal.sha256, public_key_id=seal.public_key_id,
    )
