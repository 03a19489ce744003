"""A photo has arrived; a photo belongs to a delivery."""
import hashlib
import io
import warnings
from collections.abc import Collection, Iterable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from uuid import UUID

import pillow_heif
from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet
from PIL import Image

from imaging.wholeness import why_unreadable
from inspections.errors import Unprocessable
from inspections.people.models import Person, Site
from inspections.records import jobs, storage, stored
from inspections.records.advising import advice_contexts, version_named
from inspections.records.models import Photo, PhotoReceipt, PhotoUse
from inspections.records.services.ids import as_id, ids_in
from inspections.records.services.signable import moment

KINDS = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp", "HEIF": "image/heic", "MPO": "image/jpeg"}
#: What no browser takes for anything that it may run or show.
NO_PICTURE = "application/octet-stream"
#: Tried in this order; a phone's MPO (several pictures in one file) opens as JPEG.
OPENED_AS = ("JPEG", "PNG", "WEBP", "HEIF")
#: What a second version of a document may change of a use.
COLUMNS = ("photo_id", "site_id", "line_id", "carton_id", "purpose", "taken_at", "gate")
pillow_heif.register_heif_opener()


def store_photo(*, sha256: str, path_or_bytes: Path | bytes) -> Photo:
    """``keep_bytes`` and the row, at once."""
    photo = keep_bytes(sha256=sha256, path_or_bytes=path_or_bytes)
    if photo._state.adding:
        Photo.objects.bulk_create([photo], ignore_conflicts=True)
    return photo


def keep_bytes(*, sha256: str, path_or_bytes: Path | bytes) -> Photo:
    """Keep a photo's bytes for good, under their hash.

    Parameters
    ----------
    sha256 : str
        What the sender says; compared with the bytes.
    path_or_bytes : Path or bytes
        The whole photo, or the file that holds it.

    Returns
    -------
    Photo
        Its row, or the one to be written.

    Raises
    ------
    Unprocessable
        PHOTO-OTHER-BYTES, PHOTO-TOO-LARGE.

    Notes
    -----
    Returns after the bytes are on disk and flushed. A second call writes nothing. A file that cannot be read as a
    picture is kept as it came too, and the row says why: its hash is in the document that is to be signed, and what a
    phone has taken is not to be thrown away. The kind is what is found in the bytes, whatever the sender says.
    """
    content = path_or_bytes if isinstance(path_or_bytes, bytes) else path_or_bytes.read_bytes()
    if hashlib.sha256(content).hexdigest() != sha256:
        raise Unprocessable("PHOTO-OTHER-BYTES")
    if known := Photo.objects.filter(pk=sha256).first():
        return known
    if len(content) > settings.MAX_PHOTO_BYTES:
        raise Unprocessable(
            "PHOTO-TOO-LARGE", mb=len(content) // 1048576 + 1, most_mb=settings.MAX_PHOTO_BYTES // 1048576
        )
    kind, width, height = kind_and_size(content)
    name = storage.photo_name(sha256)
    if isinstance(path_or_bytes, bytes):
        storage.put(name, content)
    else:
        storage.put_file(name, path_or_bytes)
    return Photo(sha256=sha256, bytes=len(content), content_type=kind, width=width, height=height, stored_name=name,
                 unreadable=why_unreadable(content))


def receive_photos(*, hashes: Collection[str], sites: Iterable[Site], person: Person | None = None) -> None:
    """Note that sites have the bytes of photos; the caller knows that they do.

    Parameters
    ----------
    hashes : collection of str
        Of photos that are stored.
    sites : iterable of Site
    person : Person, optional
        Who sent them, or could see them already.

    Notes
    -----
    One query, in the caller's transaction. A second call writes nothing.
    """
    PhotoReceipt.objects.bulk_create(
        [PhotoReceipt(photo_id=sha256, site=site, person=person) for site in sites for sha256 in hashes],
        ignore_conflicts=True,
    )


def received_at(sites: Iterable | QuerySet[Site], hashes: Iterable[str]) -> set[str]:
    """Those of the photos whose bytes one of the sites has."""
    rows = PhotoReceipt.objects.filter(site__in=sites, photo__in=set(hashes))
    return set(rows.values_list("photo_id", flat=True))


def use_photos(*, document: dict) -> list[PhotoUse]:
    """Note where the photos of a document belong, and ask for advice on each that has arrived.

    Parameters
    ----------
    document : dict
        An inspection document, open or being signed. Photos that its site has not received are passed over.

    Notes
    -----
    One transaction: the uses and their jobs; a number of queries that does not grow with the photos. A second
    call moves a use whose line or carton has changed, takes away those that the document no longer names, and
    writes no second job for the same photo and context. Where the specification's advice is switched off, no
    advice is asked for and only the small pictures are made; of a file that cannot be read, nothing is. A use of
    another delivery is never touched, whatever its id.
    """
    if not stored.is_filed(document):
        return []
    told = list(_told(document))
    arrived = received_at([document["site_id"]], (use.photo_id for use, _, _ in told))
    with transaction.atomic():
        uses = _written(UUID(str(document["id"])), [use for use, _, _ in told if use.photo_id in arrived])
        unreadable = _unreadable(use.photo_id for use in uses)
        kept = {use.pk for use in uses if use.photo_id not in unreadable}
        jobs.write_jobs([
            _work(use.photo_id, context, version_named(document, entry)) for use, entry, context in told
            if use.pk in kept
        ])
    return uses


def are_in_place(document: dict) -> bool:
    """Whether every photo that the document names has its use as it should be, and there is none besides.

    One query. Their jobs are there then too: both are written in one transaction.
    """
    known = {row.pk: row for row in PhotoUse.objects.filter(delivery_id=document["id"])}
    told = {use.pk: use for use in uses_in(document)}
    return known.keys() == told.keys() and all(_columns(use) == _columns(known[pk]) for pk, use in told.items())


def uses_in(document: dict) -> list[PhotoUse]:
    """Unsaved rows for every photo that the document names, arrived or not; of an id that stands twice, the first."""
    lines, cartons = ids_in(document, "lines"), ids_in(document, "cartons")
    uses = [_use(document, entry, lines, cartons) for entry in document.get("photos") or []]
    return list({use.pk: use for use in reversed(uses)}.values())[::-1]


def _told(document: dict) -> Iterator[tuple[PhotoUse, dict, dict | None]]:
    contexts = {UUID(str(entry["id"])): (entry, context) for entry, context in reversed(advice_contexts(document))}
    for use in uses_in(document):
        yield use, *contexts[use.pk]


def _use(document: dict, entry: dict, lines: set[UUID], cartons: set[UUID]) -> PhotoUse:
    line, carton = as_id(entry.get("line_id")), as_id(entry.get("carton_id"))
    return PhotoUse(
        id=UUID(str(entry["id"])), photo_id=entry["sha256"], delivery_id=UUID(str(document["id"])),
        site_id=UUID(str(document["site_id"])),
        # A photo shows what its own delivery has: never a line or carton of another one.
        line_id=line if line in lines else None, carton_id=carton if carton in cartons else None,
        purpose=str(entry.get("purpose") or "load"), taken_at=utc_moment(entry.get("taken_at")),
        gate=entry.get("gate"),
    )


def _written(delivery_id: UUID, uses: list[PhotoUse]) -> list[PhotoUse]:
    """The uses as rows; those whose id belongs to another delivery are left out."""
    PhotoUse.objects.filter(delivery_id=delivery_id).exclude(pk__in=[use.pk for use in uses]).delete()
    known = PhotoUse.objects.in_bulk([use.pk for use in uses])
    own = [use for use in uses if use.pk not in known or known[use.pk].delivery_id == delivery_id]
    PhotoUse.objects.bulk_create(use for use in own if use.pk not in known)
    PhotoUse.objects.bulk_update(
        [use for use in own if use.pk in known and _columns(use) != _columns(known[use.pk])], COLUMNS)
    return own


def _columns(use: PhotoUse) -> tuple:
    return tuple(getattr(use, name) for name in COLUMNS)


def _unreadable(hashes: Iterable[str]) -> set[str]:
    return set(Photo.objects.filter(pk__in=set(hashes)).exclude(unreadable="").values_list("pk", flat=True))


def _work(sha256: str, context: dict | None, version: str) -> tuple[str, dict, str]:
    if context is None:
        # Nobody wants advice on it; the desk and the supplier still want to see it small.
        return jobs.SMALL_PICTURES, {"sha256": sha256}, ""
    return jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": context}, version


def utc_moment(text) -> datetime | None:
    """A moment that every database can keep, in UTC; None for anything else, a clock without its zone included."""
    told = moment(text)
    return told and told.astimezone(UTC)


def kind_and_size(content: bytes) -> tuple[str, int, int]:
    """Content type, width and height from the file's head; nothing is decoded, so a huge picture costs nothing."""
    try:
        with warnings.catch_warnings():
            # Pillow warns of very large pictures; whether they can be looked at is judged elsewhere.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content), formats=OPENED_AS) as picture:
                return KINDS[picture.format or ""], picture.width, picture.height
    except Exception:  # Pillow's plugins raise almost anything on damaged files
        return NO_PICTURE, 0, 0
