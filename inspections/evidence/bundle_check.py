"""Does an evidence bundle hold? Answered from the file alone, without any database."""
import base64
import hashlib
import json
import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rfc3161_client import decode_timestamp_response

from inspections.evidence import keys
from inspections.evidence.anchors import Anchor
from inspections.evidence.bundle import KEY, RECORD, SIGNATURE, STAMP, STAMP_FOLDER, STATEMENT
from inspections.evidence.bundle_advice import ANSWERS, FOLDER
from inspections.evidence.canonical import sha256_hex
from inspections.evidence.statement import signature_holds, utc_text

MOST_BYTES = 2 * 1024**3
ADDENDUM = re.compile(r"(addendum-[1-9][0-9]*/)" + re.escape(STATEMENT), re.ASCII)
LOGGER = re.compile(r"logger-files/([0-9a-f]{64})\.csv", re.ASCII)
CLAIM_FILE = re.compile(r"claim-files/([0-9a-f]{64})\.[a-z]+", re.ASCII)
STATED = re.compile(re.escape(STAMP_FOLDER) + r"seal-[0-9]{7,}\.json", re.ASCII)
PHOTO = re.compile(r"photos/([0-9a-f]{64})\.[a-z]+", re.ASCII)
ADVICE_PICTURE = re.compile(re.escape(FOLDER) + r"([0-9a-f]{64})\.(?:jpg|png)", re.ASCII)


class NotABundle(Exception):
    """The file is no evidence bundle; the message says why."""


@dataclass(frozen=True)
class Checked:
    """One thing that was checked, and whether it holds; ``is_sealed`` is False of what no seal covers."""

    what: str
    holds: bool
    is_sealed: bool = True


def check_bundle(path: Path, *, expected_key_id: str = "") -> list[Checked]:
    """Check signatures, hashes, photos and logger files of a bundle, and that the photo advice beside them is whole.

    Parameters
    ----------
    path : Path
    expected_key_id : str
        The key's number as known from elsewhere; without it nothing is said about who sealed.

    Returns
    -------
    list of Checked
        In the order of the README; what no seal covers comes last.

    Raises
    ------
    NotABundle
        Not a zip file, a part is missing or unreadable, or it unpacks to more than 2 GB.
    """
    try:
        with zipfile.ZipFile(path) as bundle:
            names = set(bundle.namelist())
            if sum(entry.file_size for entry in bundle.infolist()) > MOST_BYTES:
                raise NotABundle("it unpacks to more than 2 GB")
            folders = ["", *sorted((found[1] for name in names if (found := ADDENDUM.fullmatch(name))), key=_number)]
            return [
                *_seals(bundle, folders, expected_key_id), *_photos(bundle, names), *_loggers(bundle, names, folders),
                *_claim_files(bundle, names, folders), *_stamp(bundle, names), *_advice(bundle, names),
            ]  # fmt: skip
    except (OSError, zipfile.BadZipFile) as trouble:
        raise NotABundle(f"it cannot be read as a zip file ({trouble})") from trouble
    except KeyError as trouble:
        raise NotABundle(f"a part is missing: {trouble.args[0]}") from trouble
    except (ValueError, TypeError) as trouble:
        raise NotABundle(f"a part cannot be read: {trouble}") from trouble


def check_anchor(path: Path, anchor: Anchor) -> bool | None:
    """Whether the seals of a bundle that was checked have the one that somebody noted; None: they do not reach it."""
    with zipfile.ZipFile(path) as bundle:
        stated = [bundle.read(name) for name in bundle.namelist() if name.rpartition("/")[2] == STATEMENT]
    said = [(json.loads(statement), sha256_hex(statement)) for statement in stated]
    return anchor.agrees((one["number"], sha256, one["previous_sha256"]) for one, sha256 in said)


def _json(bundle: zipfile.ZipFile, name: str) -> Any:
    """A part that is JSON; one that is no more was altered, and is named."""
    try:
        return json.loads(bundle.read(name))
    except ValueError as trouble:
        raise NotABundle(f"{name} was altered: it cannot be read ({trouble})") from trouble


def _seals(bundle: zipfile.ZipFile, folders: list[str], expected_key_id: str) -> Iterator[Checked]:
    main = bundle.read(STATEMENT)
    for folder in folders:
        statement, pem = bundle.read(folder + STATEMENT), bundle.read(folder + KEY).decode("ascii")
        said, record = _json(bundle, folder + STATEMENT), bundle.read(folder + RECORD)
        signature = base64.b64encode(bundle.read(folder + SIGNATURE)).decode("ascii")
        name = f"seal {said['number']} ({said['kind']})"
        yield Checked(f"{folder}{STATEMENT}: {name} is signed by the holder of the key",
                      signature_holds(signed=statement, signature=signature, pem=pem))
        yield Checked(f"{folder}{RECORD}: is the record that {name} names",
                      sha256_hex(record) == said["content_sha256"])
        yield Checked(f"{folder}{KEY}: is the key that {name} names", keys.key_id(pem) == said["public_key_id"])
        if folder:
            yield Checked(f"{folder}{RECORD}: {name} adds to this delivery",
                          _json(bundle, folder + RECORD)["delivery_seal_sha256"] == sha256_hex(main))
        if expected_key_id:
            yield Checked(f"{folder}{KEY}: the key of {name} is the one expected",
                          keys.key_id(pem) == expected_key_id.strip().lower())


def _photos(bundle: zipfile.ZipFile, names: set[str]) -> Iterator[Checked]:
    sealed = {entry["shared_sha256"] for entry in _json(bundle, RECORD)["photos"]} - {None}
    found = {}
    for name in sorted(names):
        if name.startswith("photos/") and not name.endswith("/"):
            match = PHOTO.fullmatch(name)
            actual = sha256_hex(bundle.read(name))
            yield Checked(f"{name}: is the photo that its name says", match is not None and match[1] == actual)
            yield Checked(f"{name}: was sealed with the record", actual in sealed)
            found[actual] = name
    for missing in sorted(sealed - set(found)):
        yield Checked(f"photo {missing}: is in the bundle", False)


def _claim_files(bundle: zipfile.ZipFile, names: set[str], folders: list[str]) -> Iterator[Checked]:
    records = (_json(bundle, folder + RECORD) for folder in folders if folder)
    sealed = {file["sha256"] for record in records for file in record.get("entry", {}).get("files", [])}
    found = set()
    for name in sorted(names):
        if name.startswith("claim-files/") and not name.endswith("/"):
            match = CLAIM_FILE.fullmatch(name)
            actual = sha256_hex(bundle.read(name))
            yield Checked(f"{name}: is the file that its name says", match is not None and match[1] == actual)
            yield Checked(f"{name}: was sealed with an entry of a claim", actual in sealed)
            found.add(actual)
    for missing in sorted(sealed - found):
        yield Checked(f"file {missing} of a claim: is in the bundle", False)


def _loggers(bundle: zipfile.ZipFile, names: set[str], folders: list[str]) -> Iterator[Checked]:
    records = (_json(bundle, folder + RECORD) for folder in folders if folder)
    sealed = {record["logger_file"]["sha256"] for record in records if "logger_file" in record}
    found = set()
    for name in sorted(names):
        if name.startswith("logger-files/") and not name.endswith("/"):
            match = LOGGER.fullmatch(name)
            actual = sha256_hex(bundle.read(name))
            yield Checked(f"{name}: is the logger file that its name says", match is not None and match[1] == actual)
            yield Checked(f"{name}: was sealed with what it was read to say", actual in sealed)
            found.add(actual)
    for missing in sorted(sealed - found):
        yield Checked(f"logger file {missing}: is in the bundle", False)


def _stamp(bundle: zipfile.ZipFile, names: set[str]) -> Iterator[Checked]:
    """That the stamp is of a seal that follows on this one. Whose stamp it is only the authority's root can tell."""
    if STAMP not in names:
        return
    chain = [bundle.read(name) for name in sorted(names) if STATED.fullmatch(name)]
    before = [sha256_hex(statement) for statement in chain]
    named = [json.loads(statement)["previous_sha256"] for statement in chain]
    told = decode_timestamp_response(bundle.read(STAMP)).tst_info
    is_of_last = bool(chain) and told.message_imprint.message == hashlib.sha256(chain[-1]).digest()
    yield Checked(f"{STAMP}: is of a seal that follows on this one, at {utc_text(told.gen_time)} (whose stamp it is, "
                  "step 6 of the README tells)",
                  is_of_last and chain[0] == bundle.read(STATEMENT) and named[1:] == before[:-1])


def _advice(bundle: zipfile.ZipFile, names: set[str]) -> Iterator[Checked]:
    """Nothing seals the advice: all that can be told is that its pictures are whole and its photos the record's."""
    here = {name for name in names if name.startswith(FOLDER) and not name.endswith(("/", "README.txt"))}
    if not here:
        return
    photos = json.loads(bundle.read(ANSWERS))["photos"]
    answers = [answer for photo in photos for answer in photo["answers"]]
    of_record = {entry["sha256"] for entry in _json(bundle, RECORD)["photos"]}
    told = f"answers given: {len(answers)}, photos answered: {sum(bool(photo['answers']) for photo in photos)}"
    yield Checked(f"{ANSWERS}: its photos are of this record ({told})",
                  {photo["sha256"] for photo in photos} <= of_record, is_sealed=False)
    named = {picture["file"] for answer in answers for kind in ("overlay", "histogram")
             if (picture := answer[kind]) and picture["file"]}
    for name in sorted((here | named) - {ANSWERS}):
        match = ADVICE_PICTURE.fullmatch(name)
        is_whole = name in here and match is not None and sha256_hex(bundle.read(name)) == match[1]
        yield Checked(f"{name}: belongs to an answer and is whole", is_whole and name in named, is_sealed=False)


def _number(folder: str) -> int:
    return int(folder.removeprefix("addendum-").removesuffix("/"))
