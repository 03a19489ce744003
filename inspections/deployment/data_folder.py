"""The data folder: one supervisor at a time, nobody else's eyes, room to write."""
import contextlib
import errno
import fcntl
import os
import shutil
import stat
from collections.abc import Iterator
from pathlib import Path

LEAST_FREE_BYTES = 32 * 1024 * 1024
LOCK_FILE = "in-use-by.txt"


class CannotUseFolder(Exception):
    """The data folder cannot be used now; the message says why and what to do."""


@contextlib.contextmanager
def held(folder: Path, what: str) -> Iterator[None]:
    """Keep the folder for this process; the kernel gives it back whenever and however the process ends.

    Parameters
    ----------
    folder : Path
    what : str
        What this process does, for whoever comes second: "the server on port 8000".

    Raises
    ------
    CannotUseFolder
        Another process has it, it cannot be written, or hardly any room is left.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        file = open(folder / LOCK_FILE, "a+", encoding="utf-8")  # noqa: SIM115 (closed below, at the very end)
    except OSError as trouble:
        raise CannotUseFolder(sentence_of(trouble, folder)) from trouble
    with file:
        _lock(file, folder, what)
        need_room(folder)
        close_to_others(folder)
        yield


def _lock(file, folder: Path, what: str) -> None:
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        file.truncate(0)
        file.write(f"{what} (process {os.getpid()})")
        file.flush()
    except BlockingIOError as trouble:
        file.seek(0)
        raise CannotUseFolder(
            f"The data folder {folder} is in use by {file.read() or 'another process'}. Nothing was changed. "
            "Stop that one first, or choose another folder with --data FOLDER.") from trouble
    except OSError as trouble:
        raise CannotUseFolder(sentence_of(trouble, folder)) from trouble


def need_room(folder: Path) -> None:
    """Refuse to begin where a few photos more would fill the disk.

    Raises
    ------
    CannotUseFolder
        Less than ``LEAST_FREE_BYTES`` are free.
    """
    free = shutil.disk_usage(folder).free
    if free < LEAST_FREE_BYTES:
        raise CannotUseFolder(
            f"The disk of the data folder {folder} is full ({free // 1048576} MB free). What is stored is safe, and "
            f"what phones hold stays there. Free at least {LEAST_FREE_BYTES // 1048576} MB and start again.")


def close_to_others(folder: Path) -> int:
    """Take every right on the folder and what is in it from group and others; how many entries had one."""
    changed = int(_close(folder))
    for place, folders, files in os.walk(folder):
        changed += sum(_close(Path(place) / name) for name in [*folders, *files])
    return changed


def _close(path: Path) -> bool:
    try:
        found = path.lstat()
        is_open = not stat.S_ISLNK(found.st_mode) and bool(found.st_mode & 0o077)
        if is_open:
            path.chmod(stat.S_IMODE(found.st_mode) & 0o700)
    except FileNotFoundError:  # a broker's message or a part file that went meanwhile
        return False
    return is_open


def sentence_of(trouble: OSError, folder: Path) -> str:
    """What an error of the file system means for whoever starts the server."""
    if trouble.errno in {errno.ENOSPC, errno.EDQUOT}:
        return (f"The disk of the data folder {folder} is full. What is stored is safe, and what phones hold stays "
                "there. Free some room and start again.")
    return (f"The data folder {folder} cannot be written ({trouble.strerror}). Nothing was changed. Give this user "
            "the right to write there, or choose another folder with --data FOLDER.")
