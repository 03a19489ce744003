"""Which bytes of a photo a supplier gets."""
import logging
from typing import Any

from inspections.evidence.canonical import sha256_hex
from inspections.evidence.models import SharedCopy
from inspections.evidence.strip_location import tells_place, without_place
from inspections.records import storage
from inspections.records.models import Photo

log = logging.getLogger(__name__)
WITHHELD = {"how": SharedCopy.How.WITHHELD, "sha256": "", "content_type": "", "bytes": 0, "stored_name": ""}


def shared_copy(photo: Photo) -> SharedCopy:
    """The copy of a photo that may leave the house; made on the first call, outside of any long lock.

    Notes
    -----
    Writes the copy's file, then its row. A second call writes nothing.
    """
    known = SharedCopy.objects.filter(pk=photo.pk).first()
    if known is None:
        known = made_copy(photo)
        SharedCopy.objects.bulk_create([known], ignore_conflicts=True)
    return known


def made_copy(photo: Photo) -> SharedCopy:
    """The copy with its file, and its row to be written."""
    return SharedCopy(photo=photo, **_make(photo))


def read_shared(copy: SharedCopy) -> bytes:
    """The bytes of the copy.

    Raises
    ------
    FileNotFoundError
        The file is gone from the storage, or the photo is withheld.
    """
    if copy.how == SharedCopy.How.WITHHELD:
        raise FileNotFoundError(f"photo {copy.photo_id} is withheld")
    return storage.read(copy.stored_name)


def _make(photo: Photo) -> dict[str, Any]:
    if photo.unreadable:
        return WITHHELD
    content = storage.read(photo.stored_name)
    if not tells_place(content):
        return {"how": SharedCopy.How.AS_TAKEN, "sha256": photo.sha256, "content_type": photo.content_type,
                "bytes": photo.bytes, "stored_name": photo.stored_name}
    try:
        copy, content_type, is_untouched = without_place(content)
    except Exception as trouble:  # its head was sound; what a decoder meets further in may be anything
        log.warning("photo %s cannot be copied without its place: %s", photo.sha256, trouble)
        return WITHHELD
    name = storage.derived_name(photo.sha256, "shared")
    storage.put(name, copy)
    how = SharedCopy.How.PLACE_REMOVED if is_untouched else SharedCopy.How.REWRITTEN
    return {"how": how, "sha256": sha256_hex(copy), "content_type": content_type, "bytes": len(copy),
            "stored_name": name}
