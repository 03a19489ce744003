"""Typed readers of the environment.

Every setting comes from an environment variable whose name starts with ``UNDERLID_`` (or one of the
three usual ones: ``DATABASE_URL``, ``REDIS_URL``, ``PORT``). A value that cannot be used stops the start
with one sentence that names the variable and what it may be; nothing is guessed.
"""
import os
from pathlib import Path


class UnusableSetting(Exception):
    """A setting has a value that cannot be used; the message says which and what is allowed."""


def text(name: str, default: str = "") -> str:
    """The variable as it stands, without surrounding blanks."""
    return os.environ.get(name, default).strip()


def yes_no(name: str, default: bool) -> bool:
    """``yes``/``no`` (also 1/0, true/false, on/off).

    Raises
    ------
    UnusableSetting
        Any other word.
    """
    word = text(name).lower()
    if not word:
        return default
    if word in {"yes", "1", "true", "on"}:
        return True
    if word in {"no", "0", "false", "off"}:
        return False
    raise UnusableSetting(f"{name} is “{word}”. Set it to yes or no, or leave it out.")


def whole_number(name: str, default: int, *, least: int, most: int) -> int:
    """A whole number from ``least`` to ``most``, both ends in.

    Raises
    ------
    UnusableSetting
        Not a whole number, or outside the range.
    """
    word = text(name)
    if not word:
        return default
    if not word.isascii() or not word.isdigit() or not least <= int(word) <= most:
        raise UnusableSetting(f"{name} is “{word}”. Set it to a whole number from {least} to {most}.")
    return int(word)


def one_of(name: str, allowed: tuple[str, ...]) -> str:
    """One of the words; the first when the variable is not set.

    Raises
    ------
    UnusableSetting
        Any other word.
    """
    word = text(name, allowed[0])
    if word in allowed:
        return word
    raise UnusableSetting(f"{name} is “{word}”. Set it to {' or '.join(allowed)}, or leave it out.")


def words(name: str, default: list[str]) -> list[str]:
    """Words separated by commas; blanks around them do not count."""
    given = text(name)
    return [word.strip() for word in given.split(",") if word.strip()] if given else default


def folder(name: str, default: Path) -> Path:
    """An absolute folder; it is made on first use by whoever writes there."""
    given = text(name)
    return Path(given).expanduser().resolve() if given else default


def private_folder(name: str, default: Path) -> Path:
    """A folder that only its owner may enter, made if need be and tried by writing into it.

    Raises
    ------
    UnusableSetting
        It cannot be made or written.
    """
    import tempfile

    at = folder(name, default)
    try:
        at.mkdir(parents=True, exist_ok=True, mode=0o700)
        if at.stat().st_mode & 0o077 and at.stat().st_uid == os.geteuid():
            at.chmod(0o700)
        with tempfile.TemporaryFile(dir=at):
            return at
    except OSError as trouble:
        raise UnusableSetting(
            f"The data folder {at} cannot be written ({trouble.strerror}). Nothing was changed. Give this user the "
            f"right to write there, or name another folder in {name}.") from trouble


def secret(name: str, *, kept_at: Path, length: int = 64) -> str:
    """The variable, or the file named by ``<name>_FILE``, or a value made once and kept in ``kept_at``.

    The kept file is readable by its owner only. Nothing secret has a default in the code.
    """
    if given := text(name):
        return given
    if at := text(f"{name}_FILE"):
        try:
            return Path(at).read_text(encoding="ascii").strip()
        except OSError as trouble:
            raise UnusableSetting(f"{name}_FILE names {at}, which could not be read ({trouble.strerror}).") from trouble
    return _made_once(kept_at, length)


def _made_once(kept_at: Path, length: int) -> str:
    import secrets
    import tempfile

    if not kept_at.exists():
        kept_at.parent.mkdir(parents=True, exist_ok=True)
        # Whole before it has its name, and never over another: two processes that start together read the same.
        try:
            with tempfile.NamedTemporaryFile("w", dir=kept_at.parent, encoding="ascii") as file:
                file.write(secrets.token_urlsafe(length))
                file.flush()
                os.fsync(file.fileno())
                os.link(file.name, kept_at)
        except FileExistsError:
            pass
        except OSError as trouble:
            raise UnusableSetting(
                f"The key could not be kept in {kept_at.parent} ({trouble.strerror}). Nothing was changed. Free some "
                "room there and start again.") from trouble
    return kept_at.read_text(encoding="ascii").strip()
