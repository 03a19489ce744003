"""Photos and what is derived from them, as files that are there once they are said to be there.

A photo lies under the hash of its bytes, so writing it twice is writing it once. Names:
``<sha[:2]>/<sha>`` for the photo as taken, ``derived/<sha[:2]>/<sha>/<name>`` for thumbnails and overlays.
"""
import contextlib
import os
import tempfile
import time
from pathlib import Path

from django.core.files.base import ContentFile, File
from django.core.files.storage import FileSystemStorage, Storage, storages
from django.utils.deconstruct import deconstructible

#: Folder of files that are being written; a kill leaves them there, and after so long nobody is at one any more.
COMING, HALF_WRITTEN_S = ".coming", 24 * 3600


@deconstructible(path="inspections.records.storage.DurableFiles")
class DurableFiles(FileSystemStorage):
    """Files on disk that survive a power cut once ``save`` has returned.

    Written under a temporary name in a folder for such, flushed, renamed, and the target's folder flushed: a reader
    sees the whole file or none. An existing name is replaced, never renamed aside.
    """

    def get_available_name(self, name: str, max_length: int | None = None) -> str:
        return name

    def _save(self, name: str, content: File) -> str:
        target = Path(self.path(name))
        self._make_folder(target.parent)
        coming = Path(self.path(COMING))
        coming.mkdir(exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=coming)
        try:
            with os.fdopen(handle, "wb") as file:
                for piece in content.chunks():
                    file.write(piece)
                file.flush()
                os.fsync(file.fileno())
            os.replace(temporary, target)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise
        _flush_folder(target.parent)
        return name

    def adopt(self, name: str, file: Path) -> None:
        """Let a whole file lie under ``name`` as well, flushed; returns when it is kept.

        One flush for the bytes and, as the name is there by then, nothing left to do for the folder's. Where something
        lies under the name (a kill may have left it), or the disks differ, the bytes are copied.
        """
        target = Path(self.path(name))
        self._make_folder(target.parent)
        try:
            os.link(file, target)
        except OSError:
            self.save(name, File(file.open("rb")))
            return
        with target.open("rb") as linked:
            os.fsync(linked.fileno())
        _flush_folder(target.parent)

    def clear_half_written(self, older_than_s: float = HALF_WRITTEN_S) -> int:
        """Remove what a kill left of files that were being written; how many."""
        before, removed = time.time() - older_than_s, 0
        for file in Path(self.path(COMING)).glob("*"):
            with contextlib.suppress(FileNotFoundError):  # it got its name, or somebody else removed it
                if file.stat().st_mtime < before:
                    file.unlink()
                    removed += 1
        return removed

    def _make_folder(self, folder: Path) -> None:
        """Make missing folders from the top down, flushing each parent so that the new entry is kept."""
        missing = [part for part in (folder, *folder.parents) if not part.exists()]
        for part in reversed(missing):
            part.mkdir(exist_ok=True)
            _flush_folder(part.parent)


def _flush_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def photos() -> Storage:
    """The storage of photos, on disk or S3-compatible as configured."""
    return storages["photos"]


def clear_half_written() -> int:
    """Remove what kills left of files that were being written on disk; how many."""
    files = photos()
    return files.clear_half_written() if isinstance(files, DurableFiles) else 0


def photo_name(sha256: str) -> str:
    """Where the photo with that hash lies."""
    return f"{sha256[:2]}/{sha256}"


def derived_name(sha256: str, name: str) -> str:
    """Where a picture made from that photo lies; ``name``: thumb, screen, overlay-<job id>, histogram-<job id>."""
    return f"derived/{sha256[:2]}/{sha256}/{name}"


def logger_file_name(sha256: str) -> str:
    """Where the logger file with that hash lies, byte for byte as it came."""
    return f"logger-files/{sha256[:2]}/{sha256}"


def claim_file_name(sha256: str) -> str:
    """Where a file sent with an entry of a claim lies, byte for byte as it came."""
    return f"claim-files/{sha256[:2]}/{sha256}"


def put(name: str, content: bytes) -> None:
    """Write a whole file under ``name``; returns when it is kept."""
    photos().save(name, ContentFile(content))


def put_file(name: str, file: Path) -> None:
    """The same for a whole file on this machine, which stays where it is; its bytes need not be flushed."""
    files = photos()
    if isinstance(files, DurableFiles):
        files.adopt(name, file)
    else:
        with file.open("rb") as opened:
            files.save(name, File(opened))


def read(name: str) -> bytes:
    """The whole file.

    Raises
    ------
    FileNotFoundError
        Nothing lies under that name.
    """
    with photos().open(name, "rb") as file:
        return file.read()


def drop(name: str) -> None:
    """Take a derived picture away again; nothing happens where none lies under that name."""
    if name:
        photos().delete(name)


def kind_of(file) -> str:
    """Content type of a derived picture, from its first bytes; the file is left at its start."""
    head = file.read(12)
    file.seek(0)
    if head.startswith(b"\x89PNG"):
        return "image/png"
    return "image/webp" if head[8:12] == b"WEBP" else "image/jpeg"
