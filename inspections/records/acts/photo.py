"""A photo has arrived; a photo belongs to a delivery."""
import hashlib
import io
import warnings
from pathlib import Path
from uuid import UUID

import pillow_heif
from django.conf import settings
from django.db import transaction
from PIL import Image, UnidentifiedImageError

from inspections.errors import CannotUse, add_sentences
from inspections.records import jobs, storage
from inspections.records.acts.signable import moment
from inspections.records.advising import advice_contexts, version_named
from inspections.records.models import Photo, PhotoUse

add_sentences({
    "PHOTO-NOT-A-PICTURE": "The photo could not be read as a picture. Your other entries are saved. Take it again.",
    "PHOTO-TOO-MANY-PIXELS": "The photo has {megapixels} million pixels; at most {most} million can be looked at. "
    "Your other entries are saved. Take it again with the phone's own camera.",
    "PHOTO-TOO-LARGE": "The photo is {mb} MB; at most {most_mb} MB can be kept. Your other entries are saved. "
    "Take it again with the phone's own camera.",
    "PHOTO-OTHER-BYTES": "The photo did not arrive as it was sent. It is still on the phone. Send it again.",
})

MOST_MEGAPIXELS = 100
KINDS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp", "HEIF": "image/heic", "MPO": "image/jpeg"}
#: Tried in this order; a phone's MPO (several pictures in one file) opens as JPEG.
OPENED_AS = ("JPEG", "PNG", "WEBP", "HEIF")
pillow_heif.register_heif_opener()


def store_photo(*, sha256: str, path_or_bytes: Path | str | bytes, content_type: str = "") -> Photo:
    """Keep a photo for good, under the hash of its bytes.

    Parameters
    ----------
    sha256 : str
        What the sender says; compared with the bytes.
    path_or_bytes : Path, str or bytes
        The whole photo, or the file that holds it.
    content_type : str
        What the sender says; the kind found in the bytes is what is kept.

    Raises
    ------
    CannotUse
        PHOTO-OTHER-BYTES, PHOTO-TOO-LARGE, PHOTO-NOT-A-PICTURE, PHOTO-TOO-MANY-PIXELS.

    Notes
    -----
    Returns after the bytes are on disk and flushed; then writes the row. A second call writes nothing.
    """
    known = Photo.objects.filter(pk=sha256).first()
    if known is not None:
        return known
    content = path_or_bytes if isinstance(path_or_bytes, bytes) else Path(path_or_bytes).read_bytes()
    if hashlib.sha256(content).hexdigest() != sha256:
        raise CannotUse("PHOTO-OTHER-BYTES")
    kind, width, height = _look(content)
    name = storage.photo_name(sha256)
    storage.put(name, content)
    photo, _ = Photo.objects.get_or_create(
        sha256=sha256,
        defaults={"bytes": len(content), "content_type": kind, "width": width, "height": height, "stored_name": name},
    )
    return photo


def use_photos(*, document: dict) -> list[PhotoUse]:
    """Note where the photos of a document belong, and ask for advice on each that has arrived.

    Parameters
    ----------
    document : dict
        An inspection document, open or final. Photos that have not arrived yet are passed over.

    Notes
    -----
    One transaction: the uses and their jobs. A second call moves a use whose line or carton has changed
    and writes no second job for the same photo and context. Where the specification's advice is switched
    off, no advice is asked for and only the small pictures are made.
    """
    entries = [entry for entry in document.get("photos") or [] if isinstance(entry, dict)]
    arrived = set(
        Photo.objects.filter(pk__in=[str(e.get("sha256")) for e in entries]).values_list("pk", flat=True)
    )
    with transaction.atomic():
        return [
            _use(document, entry, context) for entry, context in advice_contexts(document)
            if entry.get("sha256") in arrived
        ]


def _use(document: dict, entry: dict, context: dict | None) -> PhotoUse:
    use, _ = PhotoUse.objects.update_or_create(
        id=UUID(str(entry["id"])),
        defaults={
            "photo_id": entry["sha256"],
            "delivery_id": UUID(str(document["id"])),
            "site_id": UUID(str(document["site_id"])),
            "line_id": entry.get("line_id") or None,
            "carton_id": entry.get("carton_id") or None,
            "purpose": str(entry.get("purpose") or "load"),
            "taken_at": moment(entry.get("taken_at")),
            "gate": entry.get("gate"),
        },
    )
    _write_work(entry["sha256"], context, version_named(document, entry))
    return use


def _write_work(sha256: str, context: dict | None, version: str) -> None:
    if context is None:
        # Nobody wants advice on it; the desk and the supplier still want to see it small.
        jobs.write_job(jobs.SMALL_PICTURES, {"sha256": sha256})
    else:
        jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": context}, version=version)


def _look(content: bytes) -> tuple[str, int, int]:
    """Kind and size from the file's head; nothing is decoded, so a huge picture costs nothing."""
    if len(content) > settings.MAX_PHOTO_BYTES:
        raise CannotUse(
            "PHOTO-TOO-LARGE", mb=len(content) // 1048576 + 1, most_mb=settings.MAX_PHOTO_BYTES // 1048576
        )
    kind, width, height = _open(content)
    if width * height > MOST_MEGAPIXELS * 1_000_000:
        raise CannotUse("PHOTO-TOO-MANY-PIXELS", megapixels=round(width * height / 1e6), most=MOST_MEGAPIXELS)
    return kind, width, height


def _open(content: bytes) -> tuple[str, int, int]:
    try:
        with warnings.catch_warnings():
            # Pillow warns of, and above twice that refuses, very large pictures; the size is judged by the caller.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content), formats=OPENED_AS) as picture:
                return KINDS[picture.format], picture.width, picture.height
    except Image.DecompressionBombError as trouble:
        raise CannotUse("PHOTO-TOO-MANY-PIXELS", megapixels="over 170", most=MOST_MEGAPIXELS) from trouble
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError) as trouble:
        raise CannotUse("PHOTO-NOT-A-PICTURE") from trouble
