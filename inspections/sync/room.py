"""Room for photos on their way: how many one person or one device may have under way, and what gives way to what.

Nothing here loses a photo: the phone holds it until the server has it, and begins anew what was dropped. So an
upload that never got a byte costs a row and is dropped as soon as its place is wanted. Bytes that lie here are
dropped for age, or for a photo that a delivery needs to be signed; such a one is turned away last of all.
"""
import contextlib
import fcntl
import shutil
import time
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from uuid import UUID

from django.conf import settings
from django.utils import timezone

from inspections.errors import ApiProblem, Unprocessable
from inspections.people.access import sites_for
from inspections.people.models import Person
from inspections.records import storage
from inspections.records.shape.delivery import MOST_PHOTOS
from inspections.sync.models import DocumentState, NamedPhoto, Upload

#: One delivery has 500 photos at most, and a person's phone sends them one after another.
MOST_OF_PERSON, MOST_OF_DEVICE = 300, 150
MOST_BYTES_OF_PERSON = 2 * 1024**3
#: What a delivery needs may go beyond that: two of them, each with as many photos as one may name.
MOST_AT_ALL = 2 * MOST_PHOTOS
#: Disk that only photos of open deliveries may still use.
ROOM_KEPT = 512 * 1024**2
#: Parts that nobody went on with, and uploads that never got a byte, are removed after so long.
STALE_S, NEVER_FED_S = 30 * 24 * 3600, 24 * 3600
CLEARED_EVERY_S = 60
_cleared_at = float("-inf")


@dataclass(frozen=True)
class _UnderWay:
    upload: Upload
    arrived: int
    is_needed: bool


def need_room(*, person: Person, device_id: UUID | None, sha256: str, length: int) -> None:
    """Nothing, when one more photo may be begun; what stands in its way and may give way is dropped first.

    Raises
    ------
    ApiProblem
        429 UPLOAD-TOO-MANY.
    Unprocessable
        507 UPLOAD-NO-ROOM.
    """
    rows = list(Upload.objects.filter(person=person, is_stored=False).order_by("created_at"))
    room = shutil.disk_usage(folder()).free - length
    if room >= ROOM_KEPT and len(rows) < MOST_OF_DEVICE and sum(row.length for row in rows) < MOST_BYTES_OF_PERSON:
        return  # nearly always
    is_needed = bool(_needed(person, [sha256]))
    if room < (0 if is_needed else ROOM_KEPT):
        raise Unprocessable("UPLOAD-NO-ROOM", status=507)
    under_way = _under_way(person, rows)
    for of, most in ((under_way, MOST_OF_PERSON),
                     ([one for one in under_way if device_id and one.upload.device_id == device_id], MOST_OF_DEVICE)):
        left = len(of) - _made_way(of, len(of) - most + 1, for_needed=is_needed)
        if left >= (MOST_AT_ALL if is_needed else most):
            raise ApiProblem("UPLOAD-TOO-MANY", status=429, most=most)
    if not is_needed and sum(one.arrived for one in under_way) >= MOST_BYTES_OF_PERSON:
        raise ApiProblem("UPLOAD-TOO-MANY", status=429, most=MOST_OF_PERSON)


def clear_now_and_then() -> None:
    """``clear_stale``, where this process has not done it for ``CLEARED_EVERY_S``."""
    global _cleared_at
    if time.monotonic() - _cleared_at > CLEARED_EVERY_S:
        _cleared_at = time.monotonic()
        clear_stale()


def clear_stale() -> int:
    """Remove what nobody went on with, by age: parts after 30 days, uploads without a byte after one; how many.

    Files that a kill left half-written go too, after a day.
    """
    now, removed = time.time(), storage.clear_half_written()
    begun_before = timezone.now() - timedelta(seconds=NEVER_FED_S)
    for upload in Upload.objects.filter(is_stored=False, created_at__lt=begun_before):
        if not part_of(upload).exists():
            removed += drop(upload)
    for part in folder().glob("*.part"):
        with contextlib.suppress(FileNotFoundError):
            is_known = Upload.objects.filter(pk=part.stem, is_stored=False).exists()
            if part.stat().st_mtime < now - (STALE_S if is_known else NEVER_FED_S):
                removed += drop(Upload(pk=UUID(part.stem)))
    return removed


def drop(upload: Upload) -> bool:
    """Forget an upload and its bytes, unless some request is at it just now; a stored photo stays."""
    try:
        with open(part_of(upload), "rb") as part:
            fcntl.flock(part, fcntl.LOCK_EX | fcntl.LOCK_NB)
            part_of(upload).unlink()
    except BlockingIOError:
        return False
    except FileNotFoundError:
        pass
    Upload.objects.filter(pk=upload.pk, is_stored=False).delete()
    return True


def arrived(upload: Upload) -> int:
    """How much of a photo has come, in bytes."""
    try:
        return part_of(upload).stat().st_size
    except FileNotFoundError:
        return 0


def part_of(upload: Upload) -> Path:
    """The file that an upload's bytes are appended to."""
    return folder() / f"{upload.pk}.part"


def folder() -> Path:
    """Where the parts lie."""
    found = Path(settings.DATA) / "uploads"
    found.mkdir(parents=True, exist_ok=True)
    return found


def _under_way(person: Person, rows: list[Upload]) -> list[_UnderWay]:
    needed = _needed(person, [row.sha256 for row in rows])
    return [_UnderWay(row, arrived(row), row.sha256 in needed) for row in rows]


def _needed(person: Person, hashes: list[str]) -> set[str]:
    """Those of the photos that an open delivery of the person's sites names."""
    rows = NamedPhoto.objects.filter(
        sha256__in=hashes, document__state=DocumentState.OPEN, document__site__in=sites_for(person)
    )
    return set(rows.values_list("sha256", flat=True))


def _made_way(under_way: list[_UnderWay], wanted: int, *, for_needed: bool) -> int:
    """Drop up to so many, those without a byte first, then (for a needed one) those that nothing needs; how many."""
    never_fed = [one for one in under_way if not one.arrived]
    unneeded = [one for one in under_way if one.arrived and not one.is_needed] if for_needed else []
    dropped = 0
    for one in (*never_fed, *unneeded):
        if dropped >= wanted:
            break
        dropped += drop(one.upload)
    return dropped
