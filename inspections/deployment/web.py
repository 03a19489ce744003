"""The web server: uvicorn around ``inspections.asgi``, with a deadline for what it does not bound itself.

``python -m inspections.deployment.web --host 0.0.0.0 --port 8000``; both forms start it this way.
"""
import argparse
import faulthandler
import os
import resource
import tempfile

import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from inspections import env

HEADER_S = 20
MOST_CONNECTIONS = 2000
GRACE_S = 10
#: A process that is silent for so long is replaced. uvicorn's own 5 s are reached by every process of a machine that
#: is busy with something else, and killing them all at once makes it busier.
SILENT_S = 60


class Protocol(H11Protocol):
    """A connection whose next request's headers must be whole within ``HEADER_S`` of their first byte.

    uvicorn bounds the rest between two requests, and the size of headers; ``inspections.front`` bounds the body.
    """

    _late = None

    def connection_made(self, transport) -> None:
        super().connection_made(transport)
        self._watch()

    def data_received(self, data: bytes) -> None:
        super().data_received(data)
        self._watch()

    def connection_lost(self, exc) -> None:
        self._unwatch()
        super().connection_lost(exc)

    def _watch(self) -> None:
        is_waiting = self.cycle is None or self.cycle.response_complete
        if not is_waiting:
            self._unwatch()
        elif self._late is None and not self.transport.is_closing():
            self._late = self.loop.call_later(HEADER_S, self.transport.abort)

    def _unwatch(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None


def main() -> None:
    """Serve until told to stop; requests under way are finished first."""
    parser = argparse.ArgumentParser(prog="inspections.deployment.web")
    parser.add_argument("--host", default="0.0.0.0")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--application", default="inspections.asgi:application", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    # A process that dies of a fault in a library says where; its successor would hide it.
    faulthandler.enable()
    os.environ["PYTHONFAULTHANDLER"] = "1"
    processes = env.whole_number("UNDERLID_WEB_PROCESSES", 1, least=1, most=64)
    if processes > 1:
        os.environ["PROMETHEUS_MULTIPROC_DIR"] = tempfile.mkdtemp(prefix="underlid-metrics-")
    _allow_many_files()
    uvicorn.run(
        asked.application, host=asked.host, port=asked.port, workers=processes, http=Protocol,
        ws="none", lifespan="off", log_config=None, access_log=False, server_header=False, proxy_headers=False,
        timeout_worker_healthcheck=SILENT_S, limit_concurrency=MOST_CONNECTIONS, backlog=512, timeout_keep_alive=15,
        timeout_graceful_shutdown=GRACE_S)


def _allow_many_files() -> None:
    """Each connection is an open file, and systems begin with as few as 256."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = MOST_CONNECTIONS * 2 + 500
    most = wanted if hard == resource.RLIM_INFINITY else min(wanted, hard)
    if soft != resource.RLIM_INFINITY and soft < most:
        resource.setrlimit(resource.RLIMIT_NOFILE, (most, hard))


if __name__ == "__main__":
    main()
