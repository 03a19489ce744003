"""Both forms of an installation as running processes on this machine, to be killed, measured and started again.

``Embedded`` is ``manage.py start``: SQLite, a broker of files, one web process, one worker. ``Production`` is what
the compose file runs: PostgreSQL, Redis, several web processes and workers, each started again when it ends.
Both serve on the loopback address only, from a data folder that is thrown away.
"""
import contextlib
import http.client
import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import psutil

from inspections.deployment import frontend
from inspections.deployment.start import web_server, worker
from inspections.deployment.supervisor import Supervisor
from inspections.development import services

BASE = Path(__file__).resolve().parents[2]


class DidNotComeUp(Exception):
    """The form does not answer; the message says where its log lies."""


class Form:
    """What both forms have in common.

    Parameters
    ----------
    folder : Path
        Gets the data folder and the log; must exist.
    port : int
    web_processes : int, optional
        From 1.
    """

    name = ""
    #: What can be killed, each as often as its weight says.
    roles: dict[str, int] = {}

    def __init__(self, folder: Path, port: int, web_processes: int = 1):
        self.folder, self.port = folder, port
        self.log = folder / "server.log"
        clean = {name: value for name, value in os.environ.items()
                 if not name.startswith("UNDERLID_") and name not in {"DATABASE_URL", "REDIS_URL"}}
        self.environment = clean | {
            "UNDERLID_DATA": str(folder / "data"), "UNDERLID_SWEEP_SECONDS": "2",
            "UNDERLID_WEB_PROCESSES": str(web_processes), "DJANGO_SETTINGS_MODULE": "inspections.settings"}
        self._top: subprocess.Popen | None = None

    def run(self, *words: str, given: str = "") -> str:
        """A Python command in the form's own environment; its output."""
        done = subprocess.run([sys.executable, *words], cwd=BASE, env=self.environment, input=given, text=True,
                              capture_output=True)
        if done.returncode:
            raise DidNotComeUp(f"{' '.join(words)}: {done.stdout[-2000:]}{done.stderr[-2000:]}")
        return done.stdout

    def start(self) -> None:
        """Start it, or start it again; returns at once."""
        with open(self.log, "ab") as log:
            self._top = subprocess.Popen(self._command(), cwd=BASE, env=self.environment, stdin=subprocess.DEVNULL,
                                         stdout=log, stderr=log, start_new_session=True)

    def keep_up(self) -> None:
        """Start again what nobody else does."""
        if self._top is not None and self._top.poll() is not None:
            self.start()

    def stop(self) -> None:
        """End it politely, then for good."""
        if self._top is not None and self._top.poll() is None:
            self._top.terminate()
            with contextlib.suppress(subprocess.TimeoutExpired):
                self._top.wait(timeout=40)
        for process in self.processes().get("all", []):
            _kill(process)

    def processes(self) -> dict[str, list[psutil.Process]]:
        """Running processes by role."""
        found: dict[str, list[psutil.Process]] = {"all": []}
        if self._top is None:
            return found
        for process in _family(self._top.pid):
            found["all"].append(process)
            found.setdefault(_role(process, self._top.pid), []).append(process)
        return found

    def kill(self, role: str, chosen: float) -> bool:
        """SIGKILL one process of a role (``chosen`` from 0 to 1 says which), or all for ``all``; whether one was there.
        """
        there = self.processes().get(role, [])
        if not there:
            return False
        for process in there if role == "all" else [there[int(chosen * len(there))]]:
            _kill(process)
        return True

    def wait_until_ready(self, seconds: float) -> None:
        """Return when requests can be taken.

        Raises
        ------
        DidNotComeUp
            Not within so many seconds.
        """
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            self.keep_up()
            with contextlib.suppress(OSError, http.client.HTTPException):
                if self.ask("/health/ready")[0] == 200:
                    return
            time.sleep(0.3)
        raise DidNotComeUp(f"The server did not answer within {seconds:.0f} s. Its log: {self.log}")

    def ask(self, path: str) -> tuple[int, dict]:
        """Status and JSON of an address that needs no sign-in."""
        with contextlib.closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=10)) as connection:
            connection.request("GET", path)
            answer = connection.getresponse()
            return answer.status, json.loads(answer.read() or b"{}")

    def _command(self) -> list[str]:
        raise NotImplementedError


class Embedded(Form):
    """One machine with nothing but Python, as ``manage.py start`` runs it."""

    name = "embedded (SQLite, broker of files)"
    roles = {"web": 4, "worker": 4, "supervisor": 1, "all": 1}

    def start(self) -> None:
        # ``start`` would build the app too, but within the time that it has to come up
        frontend.built()
        super().start()

    def _command(self) -> list[str]:
        return [sys.executable, "manage.py", "start", "--no-demo", "--host", "127.0.0.1", "--port", str(self.port),
                "--data", self.environment["UNDERLID_DATA"]]


class Production(Form):
    """PostgreSQL, Redis, web processes and workers, as the compose file runs them; needs the tests' packages."""

    name = "production (PostgreSQL, Redis)"
    roles = {"web": 3, "web process": 3, "worker": 4, "postgresql": 3, "redis": 3, "supervisor": 1, "all": 1}

    def __init__(self, folder: Path, port: int, web_processes: int = 2):
        super().__init__(folder, port, web_processes)
        self._services: dict[str, services.PostgreSQL | services.Redis] = {}
        for name, kind in (("postgresql", services.PostgreSQL), ("redis", services.Redis)):
            (folder / name).mkdir()
            self._services[name] = kind(folder / name)
        self.environment |= {"DATABASE_URL": self._services["postgresql"].url, "REDIS_URL": self._services["redis"].url}

    def processes(self) -> dict[str, list[psutil.Process]]:
        found = super().processes()
        for name, service in self._services.items():
            found[name] = _family(service.pid)
            found["all"] += found[name]
        return found

    def kill(self, role: str, chosen: float) -> bool:
        # a PostgreSQL without its first process must be gone whole before it can come up again
        if role in self._services:
            there = self.processes()[role]
            for process in there:
                _kill(process)
            return bool(there)
        return super().kill(role, chosen)

    def keep_up(self) -> None:
        for service in self._services.values():
            if not _family(service.pid):
                with contextlib.suppress(Exception):  # it is tried again a moment later, and the run's end tells
                    service.start_again()
        super().keep_up()

    def stop(self) -> None:
        super().stop()
        for service in self._services.values():
            with contextlib.suppress(Exception):
                service.stop()

    def _command(self) -> list[str]:
        return [sys.executable, "-m", "inspections.development.forms", str(self.port)]


FORMS: dict[str, type[Form]] = {"embedded": Embedded, "production": Production}


def _family(pid: int | None) -> list[psutil.Process]:
    """A process and all below it, those that have ended left out."""
    try:
        top = psutil.Process(pid) if pid else None
        return [one for one in [top, *top.children(recursive=True)] if _is_alive(one)] if top else []
    except psutil.NoSuchProcess:
        return []


def _is_alive(process: psutil.Process) -> bool:
    with contextlib.suppress(psutil.NoSuchProcess):
        return process.status() != psutil.STATUS_ZOMBIE
    return False


def _role(process: psutil.Process, top: int) -> str:
    try:
        words, above = " ".join(process.cmdline()), process.ppid()
    except psutil.NoSuchProcess:
        return "ended"
    if process.pid == top:
        return "supervisor"
    if "celery" in words:
        return "worker"
    if "inspections.deployment.web" in words:
        return "web"
    return "web process" if above != top and "spawn_main" in words else "other"


def _kill(process: psutil.Process) -> None:
    with contextlib.suppress(psutil.NoSuchProcess):
        process.kill()


@contextlib.contextmanager
def running(kind: type[Form], folder: Path, port: int, **options) -> Iterator[Form]:
    """A form with an empty database, to be started; whatever is running of it is ended at the end."""
    form = kind(folder, port, **options)
    try:
        form.run("manage.py", "migrate", "--no-input", "--verbosity", "0")
        form.run("manage.py", "collectstatic", "--no-input", "--verbosity", "0")
        yield form
    finally:
        form.stop()


def _run_as_compose_does(port: int) -> int:
    """Web server and two workers, each started again when it ends, as restart rules of containers do."""
    import django

    django.setup()
    return Supervisor([web_server("127.0.0.1", port), worker("worker 1"), worker("worker 2")]).run()


if __name__ == "__main__":
    sys.exit(_run_as_compose_does(int(sys.argv[1])))
