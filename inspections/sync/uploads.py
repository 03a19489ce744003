"""Photos on their way, in pieces: the server side of tus 1.0 (core, creation, termination).

How much of a photo has arrived is the length of its part file, and nothing else: no row says it, so no
kill can make the two differ. A piece is acknowledged after it is flushed to disk; the last one after the
whole has the promised hash and is kept by records, whether it can be read as a picture or not. A process
killed anywhere leaves a part file that the next request goes on from.

With several web machines, ``DATA/uploads`` must be a folder that they share, or a phone must stay with one.

Sources: tus resumable upload protocol 1.0.0 (https://tus.io/protocols/resumable-upload).
"""
import base64
import binascii
import contextlib
import fcntl
import os
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO
from uuid import UUID

from django.conf import settings
from django.db import IntegrityError, transaction
from django.http import UnreadablePostError

from inspections.errors import Conflict, NotFound, Unprocessable
from inspections.evidence.models import SharedCopy
from inspections.evidence.sharing import made_copy, shared_copy
from inspections.flushing import unflushed
from inspections.people.models import Person
from inspections.records.models import Photo
from inspections.records.services.photo import keep_bytes, receive_photos, use_photos
from inspections.records.shape.parts import SHA256
from inspections.sync.models import Upload
from inspections.sync.possession import held_by, waiting_for
from inspections.sync.room import arrived, clear_now_and_then, need_room, part_of

OTHER_HASH = 460
READ_AT_ONCE = 1024 * 1024


@dataclass(frozen=True)
class Progress:
    """Where an upload stands: bytes that are on disk, and whether the photo is stored for good."""

    upload: Upload
    offset: int


def begin(
    *, person: Person, length: int, sha256: str, content_type: str = "", device_id: UUID | None = None
) -> Progress:
    """Start an upload, or find the one that this person has begun for the same photo.

    Raises
    ------
    Unprocessable
        413 UPLOAD-TOO-LARGE, 400 UPLOAD-HEADERS, 507 UPLOAD-NO-ROOM.
    ApiProblem
        429 UPLOAD-TOO-MANY.

    Notes
    -----
    A photo that the person holds already (``possession``) answers with its full length as offset; of any other
    the bytes are to be sent, whoever else has sent them. A second call answers with the same upload.
    """
    if not SHA256.fullmatch(sha256):
        raise Unprocessable("UPLOAD-HEADERS", status=400, what="its hash")
    if length > settings.MAX_PHOTO_BYTES:
        raise Unprocessable("UPLOAD-TOO-LARGE", status=413, most_mb=settings.MAX_PHOTO_BYTES // 1048576)
    clear_now_and_then()
    known = Upload.objects.filter(person=person, sha256=sha256).first()
    if known is None:
        need_room(person=person, device_id=device_id, sha256=sha256, length=length)
        known = _new(person, length, sha256, content_type, device_id)
    return progress(known)


def upload_of(person: Person, upload_id) -> Upload:
    """The person's upload.

    Raises
    ------
    NotFound
        There is none of that id, or it is somebody else's.
    """
    found = Upload.objects.filter(person=person, pk=upload_id).first()
    if found is None:
        raise NotFound()
    found.person = person
    return found


def progress(upload: Upload) -> Progress:
    """How much has arrived. All of it means stored for good: what a kill left unfinished is finished here.

    Raises
    ------
    Unprocessable
        460 PHOTO-OTHER-BYTES: the upload is gone then.
    """
    if upload.is_stored or held_by(upload.person, [upload.sha256]):
        return _finished(upload)
    here = arrived(upload)
    if here < upload.length:
        return Progress(upload, here)
    with _held(upload):
        return _finish(upload)


def receive(upload: Upload, *, offset: int, body: BinaryIO) -> Progress:
    """Append a piece.

    Parameters
    ----------
    upload : Upload
    offset : int
        Where the piece begins; must be where the part file ends.
    body : file
        The piece; read until it ends, at most to the photo's length.

    Raises
    ------
    Conflict
        409 UPLOAD-OFFSET with the offset to go on from; 409 UPLOAD-BUSY.
    Unprocessable
        413 UPLOAD-TOO-LONG, 507 UPLOAD-NO-ROOM; what ``progress`` raises.

    Notes
    -----
    Returns after the piece is flushed. When the connection breaks, what has come is kept.
    """
    if upload.is_stored:
        return _need_offset(_finished(upload), offset)
    with _held(upload) as part:
        _need_offset(Progress(upload, arrived(upload)), offset)
        _append(part, body, upload.length - offset)
        if arrived(upload) < upload.length:
            return Progress(upload, arrived(upload))
        return _finish(upload)


def give_up(upload: Upload) -> None:
    """Forget an upload and what of it has arrived; a stored photo stays."""
    part_of(upload).unlink(missing_ok=True)
    upload.delete()


def metadata(header: str) -> dict[str, str]:
    """The pairs of an ``Upload-Metadata`` header: key, blank, value in base64, separated by commas.

    Raises
    ------
    Unprocessable
        400 UPLOAD-HEADERS.

    Examples
    --------
    >>> metadata("type aW1hZ2UvanBlZw==,is_confidential")
    {'type': 'image/jpeg', 'is_confidential': ''}
    """
    pairs = {}
    for part in filter(None, (piece.strip() for piece in header.split(","))):
        key, _, value = part.partition(" ")
        try:
            pairs[key] = base64.b64decode(value.strip(), validate=True).decode("utf-8")
        except (binascii.Error, UnicodeDecodeError) as trouble:
            raise Unprocessable("UPLOAD-HEADERS", status=400, what="Upload-Metadata") from trouble
    return pairs


def _new(person: Person, length: int, sha256: str, content_type: str, device_id: UUID | None) -> Upload:
    try:
        # nothing is promised yet: a phone that finds its upload gone begins anew
        with unflushed():
            return Upload.objects.create(
                person=person, length=length, sha256=sha256, content_type=content_type[:40], device_id=device_id
            )
    except IntegrityError:
        return Upload.objects.get(person=person, sha256=sha256)


def _need_offset(at: Progress, offset: int) -> Progress:
    if at.offset != offset:
        raise Conflict("UPLOAD-OFFSET", offset=at.offset)
    return at


def _append(part: BinaryIO, body: BinaryIO, room: int) -> None:
    """Write what comes, at most ``room`` bytes, and flush it whatever happens; a whole photo is where it is kept."""
    is_whole = False
    try:
        while room and (piece := body.read(min(READ_AT_ONCE, room))):
            part.write(piece)
            room -= len(piece)
        if not room and body.read(1):
            raise Unprocessable("UPLOAD-TOO-LONG", status=413)
        is_whole = not room
    except UnreadablePostError:
        return
    except OSError as trouble:
        raise Unprocessable("UPLOAD-NO-ROOM", status=507) from trouble
    finally:
        part.flush()
        if not is_whole:
            os.fsync(part.fileno())


def _finish(upload: Upload) -> Progress:
    """Check the whole, let records keep it, tell the documents that name it. The part file goes last."""
    try:
        photo = keep_bytes(sha256=upload.sha256, path_or_bytes=part_of(upload))
    except Unprocessable as trouble:
        give_up(upload)
        if trouble.code == "PHOTO-OTHER-BYTES":
            raise Unprocessable("PHOTO-OTHER-BYTES", status=OTHER_HASH) from trouble
        raise
    if photo._state.adding:
        return _finished(upload, photo, made_copy(photo))
    shared_copy(photo)
    return _finished(upload)


def _finished(upload: Upload, *new: Photo | SharedCopy) -> Progress:
    """All that a stored photo sets off, in one transaction with the rows that it brings."""
    if not upload.is_stored:
        with transaction.atomic():
            for row in new:
                type(row).objects.bulk_create([row], ignore_conflicts=True)  # type: ignore[list-item]
            documents = waiting_for(upload)
            sites = {*upload.person.sites.all(), *(document.site for document in documents)}
            receive_photos(hashes=[upload.sha256], sites=sites, person=upload.person)
            for document in documents:
                use_photos(document=document.body)
            Upload.objects.filter(pk=upload.pk).update(is_stored=True)
        upload.is_stored = True
    part_of(upload).unlink(missing_ok=True)
    return Progress(upload, upload.length)


@contextlib.contextmanager
def _held(upload: Upload) -> Iterator[BinaryIO]:
    """The part file, for one request at a time. The lock is the kernel's, so it ends with its process."""
    with open(part_of(upload), "ab") as part:
        try:
            fcntl.flock(part, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as trouble:
            raise Conflict("UPLOAD-BUSY", retry_after_s=2) from trouble
        yield part
