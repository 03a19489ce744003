"""A Python that has the pinned packages: this one if it has them, else ``.venv``.

Standard library only. Locks carry hashes, so pip refuses a file that is not the one we tested.
"""
import hashlib
import re
import subprocess
import sys
import venv
from importlib import metadata
from pathlib import Path
from shutil import which

BASE = Path(__file__).resolve().parents[2]
VENV = BASE / ".venv"
_PIN = re.compile(r"^([A-Za-z0-9._-]+)(?:\[[a-z0-9,]+\])?==([^\s;\\]+)(\s*;.*)?")


class CannotInstall(Exception):
    """The packages could not be installed; the message says what to do."""


def python_with(locks: list[Path]) -> Path:
    """The interpreter that has every pin of ``locks``.

    Returns
    -------
    Path
        ``sys.executable`` where this interpreter has the pins, else ``.venv``'s, made and filled if need be.

    Raises
    ------
    CannotInstall
        No virtual environment can be made, or pip could not get a package.
    """
    ours = VENV / "bin" / "python"
    if Path(sys.executable) != ours and all(_stands(lock) for lock in locks):
        return Path(sys.executable)
    if not ours.exists():
        _make_venv()
    for lock in locks:
        _fill(ours, lock)
    return ours


def _stands(lock: Path) -> bool:
    return all(_has(name, version) for name, version, marker in _pins(lock) if not marker)


def _has(name: str, version: str) -> bool:
    try:
        return metadata.version(name) == version
    except metadata.PackageNotFoundError:
        return False


def _pins(lock: Path) -> list[tuple[str, str, str | None]]:
    found = (_PIN.match(line) for line in lock.read_text(encoding="utf-8").splitlines())
    return [(pin[1], pin[2], pin[3]) for pin in found if pin]


def _make_venv() -> None:
    print("Making .venv …", flush=True)
    try:
        venv.create(VENV, with_pip=True, symlinks=True)
    except (subprocess.CalledProcessError, OSError) as trouble:
        raise CannotInstall(
            "This Python cannot make a virtual environment. Nothing else was changed. Install its venv "
            f"package (on Debian: apt install python3-venv) and start again. ({trouble})") from trouble


def _fill(python: Path, lock: Path) -> None:
    """Install a lock once; the hash of the file, kept in the venv, says that it was done."""
    stamp = VENV / f"installed-{lock.parent.name}"
    wanted = hashlib.sha256(lock.read_bytes()).hexdigest()
    if stamp.exists() and stamp.read_text(encoding="ascii") == wanted:
        return
    install(python, ["--require-hashes", "-r", str(lock)], total=len(_pins(lock)), what=str(lock.relative_to(BASE)))
    stamp.write_text(wanted, encoding="ascii")


def install(python: Path, arguments: list[str], *, total: int, what: str) -> None:
    """Run pip (or uv where it is on the PATH) and show how far it is on one line.

    Raises
    ------
    CannotInstall
        With the last lines that the installer printed.
    """
    if uv := which("uv"):
        command = [uv, "pip", "install", "--python", str(python), *arguments]
    else:
        command = [str(python), "-m", "pip", "install", "--disable-pip-version-check", "--progress-bar", "off",
                   *arguments]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=BASE)
    lines, fetched = [], 0
    for line in process.stdout:
        lines.append(line.rstrip())
        if line.lstrip().startswith("Collecting "):
            fetched += 1
            name = line.split()[1].split("=")[0]
            _show(f"Installing {what}: {min(fetched, total)} of {total} ({name})")
        elif line.startswith("Installing collected"):
            _show(f"Installing {what}: unpacking {total} packages")
    _show(f"Installing {what}: done", end=True)
    if process.wait():
        raise CannotInstall(
            f"The packages of {what} could not be installed. What was installed before still stands. Check the "
            "network and start again. The installer said:\n  " + "\n  ".join(lines[-6:]))


def _show(words: str, *, end: bool = False) -> None:
    if sys.stdout.isatty():
        print(f"\r\033[K{words}", end="\n" if end else "", flush=True)
    else:
        print(words, flush=True)
