"""A backup of an installation while it runs, and its restoring.

A plain copy of a running data folder can be malformed. Here the database comes first, by its own means (SQLite's
online backup, ``pg_dump``), each at one moment; then the files. A file is written before the row that names it and
never changed afterwards, so every file that the database of that moment names is there to be copied. Files that the
last backup in the same folder holds already are linked, not copied again. Photos in a bucket are the bucket's own to
back up, and so are settings that came by the environment.

A backup is a folder: ``database.sqlite3`` or ``database.dump``, ``files/`` as they lie below ``photos/``, ``keys/``,
and ``manifest.json`` with the hash of the database and the name and size of each file. It holds the sealing key.
"""
import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.db import connection, connections
from psycopg.conninfo import make_conninfo

MANIFEST = "manifest.json"
LAST = "last-backup.json"
NAME = "underlid-%Y%m%d-%H%M%S-%f"


class CannotBackUp(Exception):
    """No backup was made, or none restored; the message says why, what is safe and what to do."""


def back_up(into: Path) -> Path:
    """Write a backup below ``into``; the folder it lies in, named only when it is whole.

    Raises
    ------
    CannotBackUp
        The disk is full or not writable, or PostgreSQL's programs are missing or failed.
    """
    now = datetime.now(UTC)
    coming = into / f".coming-{now.strftime(NAME)}"
    try:
        coming.mkdir(parents=True, mode=0o700)
        database = _dump(coming)
        earlier = max((path for path in into.glob("underlid-*") if (path / MANIFEST).exists()), default=None)
        files = {} if settings.S3_BUCKET else _copy_files(Path(settings.PHOTO_ROOT), coming / "files", earlier)
        _copy_files(Path(settings.KEY_ROOT), coming / "keys", None)
        told = {"made_at": now.isoformat(), "database": database.name, "sha256": _hash(database), "files": files}
        _write(coming / MANIFEST, told)
        done = coming.rename(into / now.strftime(NAME))
        _write(settings.DATA / LAST, {"made_at": now.isoformat(), "at": str(done)})
    except OSError as trouble:
        shutil.rmtree(coming, ignore_errors=True)
        raise CannotBackUp(f"The backup could not be written to {into} ({trouble.strerror}). Nothing was changed, and "
                           "earlier backups stand. Free some room there or name another folder.") from trouble
    except BaseException:
        shutil.rmtree(coming, ignore_errors=True)
        raise
    return done


def last_backup() -> str | None:
    """When the last backup of this installation was made, ISO 8601; None when none was."""
    try:
        return json.loads((settings.DATA / LAST).read_text("utf-8"))["made_at"]
    except (FileNotFoundError, ValueError, KeyError):
        return None


def restore(backup: Path) -> None:
    """Put a backup in place of nothing: the data folder must hold no database, PostgreSQL's must be empty.

    Raises
    ------
    CannotBackUp
        Something is there already, or the backup is not whole: nothing was changed then.
    """
    told = _checked(backup)
    is_sqlite = connection.vendor == "sqlite"
    if is_sqlite != (told["database"] == "database.sqlite3"):
        raise CannotBackUp(f"The backup holds {told['database']}, which is not of the kind that DATABASE_URL names. "
                           "Nothing was changed. Set DATABASE_URL as it was when the backup was made.")
    if connection.introspection.table_names():
        raise CannotBackUp("There is a database already. Nothing was changed. Restore into an empty data folder (and "
                           "an empty PostgreSQL database), and keep the old one until the new one is checked.")
    connections.close_all()
    try:
        if told["files"]:
            shutil.copytree(backup / "files", settings.PHOTO_ROOT, dirs_exist_ok=True)
        shutil.copytree(backup / "keys", settings.KEY_ROOT, dirs_exist_ok=True)
        if is_sqlite:
            _put_database(backup / told["database"], Path(connection.settings_dict["NAME"]))
    except OSError as trouble:
        raise CannotBackUp(f"The backup could not be copied to {settings.DATA} ({trouble.strerror}). The backup is as "
                           "it was, and no database was put there. Free some room and run the same again.") from trouble
    if not is_sqlite:
        _postgresql("pg_restore", "--no-owner", "--exit-on-error", "--dbname", _address(),
                    str(backup / told["database"]))


def _put_database(source: Path, target: Path) -> None:
    coming = target.with_name(f".coming-{target.name}")
    shutil.copyfile(source, coming)
    for ending in ("", "-wal", "-shm"):
        target.with_name(target.name + ending).unlink(missing_ok=True)
    coming.rename(target)


def _checked(backup: Path) -> dict:
    """The manifest of a backup whose every part is as it was written."""
    try:
        told = json.loads((backup / MANIFEST).read_text("utf-8"))
        wrong = [name for name, size in told["files"].items() if _size(backup / "files" / name) != size]
        if _hash(backup / told["database"]) != told["sha256"]:
            wrong.insert(0, told["database"])
    except (OSError, ValueError, KeyError) as trouble:
        raise CannotBackUp(f"{backup} is not a whole backup ({trouble}). Nothing was changed. Name the folder whose "
                           "name begins with “underlid-”.") from trouble
    if wrong:
        raise CannotBackUp(f"{len(wrong)} files of the backup are missing or altered, the first is {wrong[0]}. Nothing "
                           "was changed. Take an earlier backup.")
    return told


def _dump(into: Path) -> Path:
    if connection.vendor != "sqlite":
        _postgresql("pg_dump", "--format=custom", "--no-owner", "--dbname", _address(), "--file",
                    str(into / "database.dump"))
        return into / "database.dump"
    at = into / "database.sqlite3"
    with closing(sqlite3.connect(connection.settings_dict["NAME"], timeout=20)) as source, \
            closing(sqlite3.connect(at)) as copy:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
        if (found := copy.execute("PRAGMA integrity_check").fetchone()[0]) != "ok":
            raise CannotBackUp(f"The database is damaged ({found}). No backup was made; earlier ones stand. Stop the "
                               "server, keep the data folder as it is, and restore the last good backup.")
    return at


def _postgresql(program: str, *arguments: str) -> None:
    found = shutil.which(program)
    if found is None:
        raise CannotBackUp(f"{program} is not on this machine. Nothing was changed. Install PostgreSQL's client "
                           "programs (on Debian: apt install postgresql-client), at least as new as the server.")
    password = connection.settings_dict["PASSWORD"]
    environment = os.environ | ({"PGPASSWORD": password} if password else {})
    done = subprocess.run([found, *arguments], capture_output=True, text=True, env=environment)
    if done.returncode:
        raise CannotBackUp(f"{program} failed, so nothing was made. What is stored is safe. It said: "
                           f"{done.stderr.strip()[-600:]}")


def _address() -> str:
    """The database as libpq's programs read it; without the password, which goes by the environment."""
    told = connection.get_connection_params()
    return make_conninfo(**{name: told[name] for name in ("dbname", "user", "host", "port") if told.get(name)})


def _copy_files(root: Path, into: Path, earlier: Path | None) -> dict[str, int]:
    """Copy or link every file below ``root``; name and size of each."""
    found = {}
    for place, _, names in os.walk(root):
        folder = Path(place).relative_to(root)
        (into / folder).mkdir(parents=True, exist_ok=True)
        for name in names:
            if name.startswith(".coming-"):
                continue
            at = folder / name
            try:
                found[str(at)] = _copy(root / at, into / at, earlier and earlier / "files" / at)
            except FileNotFoundError:  # a picture of an advice that was dropped meanwhile
                continue
    return found


def _copy(source: Path, target: Path, known: Path | None) -> int:
    size = source.stat().st_size
    if known is not None and _size(known) == size:
        os.link(known, target)
    else:
        shutil.copyfile(source, target)
    return size


def _size(path: Path) -> int | None:
    try:
        return path.stat().st_size
    except FileNotFoundError:
        return None


def _hash(path: Path) -> str:
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _write(path: Path, told: dict) -> None:
    with open(path, "w", encoding="utf-8") as file:
        json.dump(told, file)
        file.flush()
        os.fsync(file.fileno())
