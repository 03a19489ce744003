"""The outline of an inspection document: just enough to keep it in its place. Entries are judged elsewhere.

A document is kept while it is being written, so almost everything may still be missing or wrong in it.
What must be right is what the server files it by: ids, site, supplier, and the photos that it names.
"""
import re
import unicodedata
from dataclasses import dataclass
from uuid import UUID

from inspections.errors import CannotUse, add_sentences
from inspections.records.acts.signable import moment

add_sentences({
    "DOC-SHAPE": "This delivery did not arrive in a shape that the server can keep ({what}). It is safe on the phone. "
    "Update the app and send it again.",
    "DOC-SCHEMA": "This phone's app writes deliveries in a way that this server does not know. They are safe on the "
    "phone. Update the app, or ask your administrator to update the server.",
    "DOC-ID-DIFFERS": "The delivery was sent to the address of another one. Nothing was changed, and it is safe on the "
    "phone. Send it again.",
})

SCHEMA = 1
SHA256 = re.compile(r"[0-9a-f]{64}", re.ASCII)
PURPOSES = frozenset(
    {"load", "docket", "label", "top", "under_liner", "sample", "defect", "temperature", "signature"}
)
MOST_PHOTOS = 500
#: Unicode categories of dashes, blanks and signs that do not show.
PASSED_OVER = frozenset({"Pd", "Zs", "Cc", "Cf"})


@dataclass(frozen=True)
class Outline:
    """What a document is filed by."""

    id: UUID
    site_id: UUID
    supplier_id: UUID
    device_id: UUID
    separate_from: UUID | None
    docket_key: str
    photos: tuple[str, ...]


def outline_of(document: dict, document_id: UUID) -> Outline:
    """Read the outline.

    Raises
    ------
    CannotUse
        DOC-SCHEMA, DOC-ID-DIFFERS, or DOC-SHAPE with the name of the part.
    """
    if not isinstance(document, dict):
        raise CannotUse("DOC-SHAPE", what="no document")
    if document.get("schema") != SCHEMA:
        raise CannotUse("DOC-SCHEMA")
    if _id(document, "id") != document_id:
        raise CannotUse("DOC-ID-DIFFERS")
    if not isinstance(document.get("lines"), list):
        raise CannotUse("DOC-SHAPE", what="lines")
    separate = document.get("separate_from")
    return Outline(
        id=document_id, site_id=_id(document, "site_id"), supplier_id=_id(document, "supplier_id"),
        device_id=_id(document, "device_id"), separate_from=_id(document, "separate_from") if separate else None,
        docket_key=docket_key(_docket(document)), photos=_photos(document),
    )


def docket_key(number: str) -> str:
    """A docket number as two people would agree it is the same: without case, blanks and dashes.

    Examples
    --------
    >>> docket_key(" dn–55 30 ") == docket_key("DN-5530")
    True
    """
    folded = unicodedata.normalize("NFKC", number).casefold()
    kept = (sign for sign in folded if unicodedata.category(sign) not in PASSED_OVER and sign != "−")
    return "".join(kept)[:200]


def _docket(document: dict) -> str:
    number = document.get("docket_number")
    if number is None:
        return ""
    if not isinstance(number, str) or len(number) > 60:
        raise CannotUse("DOC-SHAPE", what="docket number longer than 60 signs")
    return number


def _id(part: dict, name: str) -> UUID:
    value = part.get(name)
    try:
        return UUID(value) if isinstance(value, str) else _no_id(name)
    except ValueError:
        return _no_id(name)


def _no_id(name: str):
    raise CannotUse("DOC-SHAPE", what=name.removesuffix("_id").replace("_", " "))


def _photos(document: dict) -> tuple[str, ...]:
    entries = document.get("photos")
    if not isinstance(entries, list) or len(entries) > MOST_PHOTOS:
        raise CannotUse("DOC-SHAPE", what="photos")
    for entry in entries:
        _check_photo(entry)
    return tuple(dict.fromkeys(entry["sha256"] for entry in entries))


def _check_photo(entry: dict) -> None:
    if not isinstance(entry, dict) or not SHA256.fullmatch(str(entry.get("sha256"))):
        raise CannotUse("DOC-SHAPE", what="hash of a photo")
    _id(entry, "id")
    for name in ("line_id", "carton_id"):
        if entry.get(name):
            _id(entry, name)
    if str(entry.get("purpose")) not in PURPOSES:
        raise CannotUse("DOC-SHAPE", what="purpose of a photo")
    if entry.get("taken_at") and moment(entry["taken_at"]) is None:
        raise CannotUse("DOC-SHAPE", what="time of a photo")
