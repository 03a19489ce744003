"""What stands between the network and Django: a request has all its bytes before a thread works on it.

A thread that reads from a socket waits as long as a phone at the end of a cold room likes, and eight such phones
stop a server of eight threads. So the event loop reads, as many bodies at once as there are connections, into
memory or a temporary file, and only a whole body meets one of the few threads. A body is given up when it is longer
than the server takes, when nothing of it has come for ``STALL_S``, or when it has come slower than
``LEAST_BYTES_S`` for longer than that; a long body that keeps coming is never given up for its length. What has come
of a photo's piece when its connection breaks is handed on: the piece is kept and the phone goes on from there.

Answers go out the same way: a thread makes the next part only when the last one has left.

Sources: ASGI 3.0 HTTP protocol 2.4 (https://asgi.readthedocs.io), PEP 3333.
"""
import asyncio
import json
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from tempfile import SpooledTemporaryFile
from typing import Any

from asgiref.wsgi import WsgiToAsgiInstance

STALL_S = 30.0
LEAST_BYTES_S = 400
IN_MEMORY_BYTES = 64 * 1024
PART_BYTES = 256 * 1024
#: A body that is refused is still read to its end, up to this much: a client that is cut off reads no sentence.
MOST_DRAINED_BYTES = 64 * 1024 * 1024
#: How long one thread may compute while others wait, in seconds. Who comes back from a flush holds the database, and
#: with Python's own 5 ms everybody behind would wait that long after each of its statements.
SWITCH_S = 0.0005
PIECE = b"application/offset+octet-stream"


class _NotWhole(Exception):
    """The body did not come whole; ``code`` says why in the catalogue, empty when nobody is left to be told.

    ``is_coming`` says that the client still sends.
    """

    def __init__(self, code: str, status: int, *, is_coming: bool = False):
        self.code, self.status, self.is_coming = code, status, is_coming


class Front:
    """An ASGI application around a WSGI one.

    Parameters
    ----------
    wsgi : callable
        The WSGI application.
    threads : int
        How many requests are worked on at once, >= 1.
    most_bytes : int
        The longest body that is taken.
    sentence : callable
        Code and facts to the JSON of a refusal, ``inspections.errors.ApiProblem`` behind it.
    """

    def __init__(self, wsgi: Callable, *, threads: int, most_bytes: int, sentence: Callable[..., dict]):
        self.wsgi, self.most_bytes, self.sentence = wsgi, most_bytes, sentence
        sys.setswitchinterval(SWITCH_S)
        self.pool = ThreadPoolExecutor(threads, thread_name_prefix="request")

    async def __call__(self, scope: dict, receive: Callable, send: Callable) -> None:
        if scope["type"] != "http":
            return
        with SpooledTemporaryFile(max_size=IN_MEMORY_BYTES) as body:
            try:
                await self._read(scope, receive, body)
            except _NotWhole as trouble:
                if not (body.tell() and _header(scope, b"content-type") == PIECE and trouble.status in {0, 408}):
                    await self._refuse(trouble, receive, send)
                    return
            body.seek(0)
            await self._answer(scope, body, send)

    async def _read(self, scope: dict, receive: Callable, body: SpooledTemporaryFile) -> None:
        length = _header(scope, b"content-length")
        if length.isdigit() and int(length) > self.most_bytes:
            # Who asks first ("Expect: 100-continue") has sent nothing yet.
            raise _NotWhole("TOO-LARGE", 413, is_coming=not _header(scope, b"expect"))
        began, is_more = time.monotonic(), True
        while is_more:
            try:
                message = await asyncio.wait_for(receive(), STALL_S)
            except TimeoutError as trouble:
                raise _NotWhole("TOO-SLOW", 408) from trouble
            if message["type"] == "http.disconnect":
                raise _NotWhole("", 0)
            try:
                body.write(message.get("body", b""))
            except OSError as trouble:
                raise _NotWhole("NO-ROOM", 507, is_coming=message.get("more_body", False)) from trouble
            is_more = message.get("more_body", False)
            if body.tell() > self.most_bytes:
                raise _NotWhole("TOO-LARGE", 413, is_coming=is_more)
            past = time.monotonic() - began
            if is_more and past > STALL_S and body.tell() < past * LEAST_BYTES_S:
                raise _NotWhole("TOO-SLOW", 408)

    async def _refuse(self, trouble: _NotWhole, receive: Callable, send: Callable) -> None:
        if not trouble.code:
            return
        facts = {"status": trouble.status, "most_mb": self.most_bytes // 1048576}
        told = json.dumps(self.sentence(trouble.code, **facts)).encode()
        headers = [(b"content-type", b"application/problem+json"), (b"content-length", str(len(told)).encode()),
                   (b"connection", b"close"), (b"cache-control", b"no-store")]
        await send({"type": "http.response.start", "status": trouble.status, "headers": headers})
        await send({"type": "http.response.body", "body": told, "more_body": True})
        if trouble.is_coming:
            await _drain(receive)
        await send({"type": "http.response.body", "body": b""})

    async def _answer(self, scope: dict, body: SpooledTemporaryFile, send: Callable) -> None:
        loop = asyncio.get_running_loop()
        start, parts, close = await loop.run_in_executor(self.pool, self._work, scope, body)
        try:
            await _soon(send({"type": "http.response.start", **start}))
            while part := await loop.run_in_executor(self.pool, _next_part, parts):
                await _soon(send({"type": "http.response.body", "body": part, "more_body": True}))
            await _soon(send({"type": "http.response.body", "body": b""}))
        except TimeoutError:
            return  # nobody reads the answer any more; the server closes an answer that was not finished
        finally:
            await loop.run_in_executor(self.pool, close)

    def _work(self, scope: dict, body: SpooledTemporaryFile) -> tuple[dict, Iterator[bytes], Callable]:
        start: dict[str, Any] = {}

        def start_response(status: str, headers: list[tuple[str, str]], exc_info=None) -> None:
            start.update(status=int(status[:3]), headers=[
                # Django writes a cookie with a blank before it.
                (name.lower().encode("latin-1"), value.strip().encode("latin-1")) for name, value in headers])

        bridge = WsgiToAsgiInstance(self.wsgi)
        bridge.scope = scope
        answer = self.wsgi(bridge.build_environ(scope, body), start_response)
        return start, iter(answer), getattr(answer, "close", lambda: None)


def _next_part(parts: Iterator[bytes]) -> bytes:
    """Some of the answer, b"" at its end: joined, since a file comes in pieces of 4 kB."""
    found, size = [], 0
    for piece in parts:
        found.append(piece)
        size += len(piece)
        if size >= PART_BYTES:
            break
    return b"".join(found)


async def _soon(sending) -> None:
    await asyncio.wait_for(sending, STALL_S * 2)


async def _drain(receive: Callable) -> None:
    drained = 0
    while drained < MOST_DRAINED_BYTES:
        try:
            message = await asyncio.wait_for(receive(), 5)
        except TimeoutError:
            return
        drained += len(message.get("body", b""))
        if message["type"] == "http.disconnect" or not message.get("more_body"):
            return


def _header(scope: dict, name: bytes) -> bytes:
    return next((value for key, value in scope["headers"] if key == name), b"")
