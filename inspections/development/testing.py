"""``manage.py test``: every check of the house, in both forms, and a plain account at the end.

``manage.py test`` runs all stages; ``manage.py test WORDS…`` hands the words to pytest (SQLite form only).
What a stage had to leave out is listed at the end with its reason; ``UNDERLID_STRICT=yes`` (set in CI) turns
each leave-out into a failure.
"""
import contextlib
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

from inspections.deployment import frontend
from inspections.development import dead_code, services

BASE = Path(__file__).resolve().parents[2]
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
#: What touches the database or the broker, and so runs again on PostgreSQL and Redis.
NEAR_THE_DATABASE = ("people", "records", "sync", "evidence", "comparison", "claims")


#: The last slow tests go to whichever core is idle.
BOTH_CORES = ("-n", "2", "--dist", "worksteal")


@dataclass
class Account:
    """What ran, what failed, what was left out."""

    strict: bool
    rows: list[tuple[str, str, float]] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    failed: bool = False

    def run(self, name: str, work: Callable[[], bool]) -> None:
        """Run one stage and note its time."""
        print(f"\n=== {name}", flush=True)
        began = time.monotonic()
        good = work()
        self.failed |= not good
        self.rows.append((name, "passed" if good else "FAILED", time.monotonic() - began))

    def leave_out(self, what: str) -> None:
        """Something could not be run here; say so at the end."""
        self.left_out.append(what)

    def close(self) -> int:
        """Print the account; the exit code."""
        print("\n=== In short")
        for name, how, seconds in self.rows:
            print(f"{how:<7} {seconds:6.1f} s  {name}")
        for line in self.left_out:
            print(f"left out: {line}")
        bad = self.failed or (self.strict and bool(self.left_out))
        if self.strict and self.left_out:
            print("Strict: what was left out counts as failed.")
        print("All of it passed." if not bad else "Not all of it passed.", flush=True)
        return 1 if bad else 0


def main(arguments: list[str]) -> int:
    """Run the tests; 0 when all passed (and, when strict, nothing was left out)."""
    from inspections import env

    if arguments:
        return _pytest(arguments, _small_form())
    account = Account(strict=env.yes_no("UNDERLID_STRICT", False))
    account.run("code style (ruff)", lambda: _call([sys.executable, "-m", "ruff", "check", "."]))
    account.run("types (mypy)", lambda: _call([sys.executable, "-m", "mypy"]))
    account.run("code that nothing reaches (vulture)", dead_code.check)
    account.run("the app: style (Prettier, ESLint), types, code that nothing reaches (knip), unit tests", _frontend)
    account.run("the app: build", _build)
    with tempfile.TemporaryDirectory() as folder:
        notes = Path(folder) / "left-out.txt"
        os.environ["UNDERLID_LEFT_OUT_FILE"] = str(notes)
        account.run("Python tests (SQLite, broker of files)",
                    lambda: _pytest([*BOTH_CORES, "-m", "not browser", "tests"], _small_form()) == 0)
        _production_form(account)
        _browser(account)
        if notes.exists():
            for line in sorted(set(notes.read_text("utf-8").splitlines())):
                account.leave_out(line)
    return account.close()


def _frontend() -> bool:
    try:
        frontend.install_packages()
    except frontend.CannotBuild as trouble:
        print(trouble)
        return False
    env = frontend.node_environment()

    def script(name: str) -> subprocess.CompletedProcess:
        return subprocess.run(["npm", "run", "--silent", name], cwd=frontend.FRONTEND, env=env,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace")

    with ThreadPoolExecutor() as both_cores:
        done = list(both_cores.map(script, ("test", "lint", "check", "reached")))
    for one in done:
        print(one.stdout, flush=True)
    return all(one.returncode == 0 for one in done)


def _build() -> bool:
    try:
        frontend.built()
    except frontend.CannotBuild as trouble:
        print(trouble)
        return False
    return True


def _small_form() -> dict[str, str]:
    """The environment without a database or broker of the machine's."""
    return {key: value for key, value in os.environ.items() if key not in {"DATABASE_URL", "REDIS_URL"}}


def _production_form(account: Account) -> None:
    """The tests near the database again on PostgreSQL and Redis: the given ones, else ours."""
    name = "Python tests near the database (PostgreSQL, Redis)"
    folders = [str(Path("tests") / "inspections" / part) for part in NEAR_THE_DATABASE] + ["tests/faults"]
    with contextlib.ExitStack() as stack:
        try:
            given = {"DATABASE_URL": os.environ.get("DATABASE_URL") or _url(stack, services.PostgreSQL),
                     "REDIS_URL": os.environ.get("REDIS_URL") or _url(stack, services.Redis)}
        except services.NoService as trouble:
            account.leave_out(f"{name}: {trouble}")
            return
        # The fault run starts both forms by itself, and ran before.
        words = [*BOTH_CORES, "-m", "not browser", *folders, "--deselect", "tests/faults/test_fault_run.py"]
        account.run(name, lambda: _pytest(words, os.environ | given) == 0)


def _url(stack: contextlib.ExitStack, kind) -> str:
    return stack.enter_context(services.brought_up(kind)).url


def _browser(account: Account) -> None:
    """The journeys in a real browser."""
    if (browser := browser_path()) is None:
        account.leave_out(f"browser journeys: no Chromium here (looked for {', '.join(BROWSERS)})")
        return
    given = _small_form() | {"UNDERLID_BROWSER": browser}
    # A file's journeys share one server, and some lean on the one before.
    words = ["-n", "2", "--dist", "loadfile", "-m", "browser", "tests"]
    account.run("journeys in Chromium", lambda: _pytest(words, given) == 0)


def browser_path() -> str | None:
    """The Chromium named by ``UNDERLID_BROWSER``, or the first on the PATH."""
    return os.environ.get("UNDERLID_BROWSER") or next(filter(None, map(shutil.which, BROWSERS)), None)


def _pytest(arguments: list[str], environment: dict[str, str]) -> int:
    # tests/conftest.py must name a data folder before Django reads its settings.
    clean = {key: value for key, value in environment.items() if key != "DJANGO_SETTINGS_MODULE"}
    return subprocess.run([sys.executable, "-m", "pytest", *arguments], cwd=BASE, env=clean).returncode


def _call(command: list[str], *, cwd: Path = BASE, env: dict[str, str] | None = None) -> bool:
    return subprocess.run(command, cwd=cwd, env=env).returncode == 0
