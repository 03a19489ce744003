"""Builds the app in ``frontend/dist`` when its sources have changed.

Node of a fitting version from the machine if there is one, else from a Python wheel in ``.venv``.
"""
import hashlib
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from shutil import which

from inspections.deployment import pins

BASE = Path(__file__).resolve().parents[2]
FRONTEND = BASE / "frontend"
DIST = FRONTEND / "dist"
NODE_LOCK = FRONTEND / "node-requirements.txt"


class CannotBuild(Exception):
    """The app could not be built; the message says what to do."""


def built() -> Path:
    """The folder of the built app, built now if the sources are newer than it.

    Raises
    ------
    CannotBuild
        npm or the build failed; the message carries its last lines.
    """
    wanted = f"{_hash(_sources())} compressed"
    stamp = DIST / ".built-from"
    if stamp.exists() and stamp.read_text(encoding="ascii") == wanted:
        return DIST
    print("Building the app …", flush=True)
    install_packages()
    run_npm("run", "build")
    _compress()
    stamp.write_text(wanted, encoding="ascii")
    return DIST


def _compress() -> None:
    """A Brotli and a gzip file beside each file of the built app, which WhiteNoise serves in its place."""
    done = subprocess.run([sys.executable, "-m", "whitenoise.compress", "--quiet", str(DIST)], text=True,
                          capture_output=True)
    if done.returncode:
        raise CannotBuild("The built app could not be compressed. Records are not touched by this. Free some room on "
                          f"the disk and start again.\n  {done.stderr.strip()[-600:]}")


def install_packages() -> None:
    """``npm ci`` once for each lock file."""
    stamp = FRONTEND / "node_modules" / ".installed-from"
    wanted = _hash([FRONTEND / "package-lock.json"])
    if stamp.exists() and stamp.read_text(encoding="ascii") == wanted:
        return
    print("Installing the app's build packages …", flush=True)
    run_npm("ci", "--no-audit", "--no-fund")
    stamp.write_text(wanted, encoding="ascii")


def run_npm(*arguments: str) -> str:
    """Run npm in ``frontend/``; its output, or ``CannotBuild`` with the last lines of it."""
    done = subprocess.run(["npm", *arguments], cwd=FRONTEND, env=node_environment(), text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        raise CannotBuild(
            f"The app could not be built: “npm {' '.join(arguments)}” failed. Records are not touched by this. "
            "Mend what it names below, or start again if it was the network.\n  "
            + "\n  ".join(done.stdout.splitlines()[-30:]))
    return done.stdout


def node_environment() -> dict[str, str]:
    """The environment with a fitting node and npm first on the PATH."""
    path = os.environ["PATH"]
    if not _fits(which("node")) or not which("npm"):
        path = f"{_wheel_bin()}{os.pathsep}{path}"
    return os.environ | {"PATH": path}


def _fits(node: str | None) -> bool:
    """Vite 8 asks for Node 20.19 and up, or 22.12 and up."""
    if node is None:
        return False
    try:
        said = subprocess.run([node, "--version"], capture_output=True, text=True, timeout=20).stdout
    except (OSError, subprocess.TimeoutExpired):
        return False
    version = re.match(r"v(\d+)\.(\d+)", said)
    if version is None:
        return False
    major, minor = int(version[1]), int(version[2])
    return (major == 20 and minor >= 19) or (major == 22 and minor >= 12) or major > 22


def _wheel_bin() -> Path:
    bin_folder = Path(sys.executable).parent
    if not (bin_folder / "node").exists():
        pins.install(Path(sys.executable), ["--require-hashes", "-r", str(NODE_LOCK)], total=2, what="Node")
    return bin_folder


def _sources() -> Iterator[Path]:
    """Every file that the build reads: the app's own, and the data and pages it shares with the server."""
    for folder in (FRONTEND / "src", FRONTEND / "public", BASE / "inspections" / "messages" / "en",
                   BASE / "inspections" / "trade" / "data",
                   BASE / "inspections" / "trade" / "docs", BASE / "imaging" / "docs"):
        yield from sorted(file for file in folder.rglob("*") if file.is_file())
    yield from sorted(file for file in FRONTEND.iterdir() if file.is_file())


def _hash(files) -> str:
    digest = hashlib.sha256()
    for file in files:
        digest.update(str(file.relative_to(BASE)).encode())
        digest.update(hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()
