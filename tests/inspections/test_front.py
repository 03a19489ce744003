"""Bodies are whole before a thread works on them; slow is served, stalled is given up."""
import asyncio
import json
import os
import subprocess
import sys
import time

import pytest

from inspections import front
from inspections.errors import ApiProblem

JSON = [(b"content-type", b"application/json")]
PIECE = [(b"content-type", front.PIECE), (b"content-length", b"900")]


def wsgi(environ, start_response):
    """Answers with what came."""
    start_response("200 OK", [("Content-Type", "application/octet-stream")])
    return [environ["wsgi.input"].read()]


def served(comes, headers=JSON, *, app=wsgi, most_bytes=1000) -> list[dict]:
    """What is sent on a request whose body comes as ``comes``: bytes, or seconds of silence; None breaks off."""
    left, sent = list(comes), []

    async def receive():
        while isinstance(left[0], float):
            await asyncio.sleep(left.pop(0))
        if left[0] is None:
            return {"type": "http.disconnect"}
        return {"type": "http.request", "body": left.pop(0), "more_body": bool(left)}

    async def send(message):
        sent.append(message)

    whole = front.Front(app, threads=1, most_bytes=most_bytes,
                        sentence=lambda code, **facts: ApiProblem(code, **facts).to_json())
    asyncio.run(whole({"type": "http", "method": "PUT", "path": "/", "query_string": b"", "http_version": "1.1",
                       "headers": headers}, receive, send))
    return sent


def told(sent) -> tuple[int, bytes]:
    return sent[0]["status"], b"".join(message.get("body", b"") for message in sent[1:])


@pytest.fixture
def hasty(monkeypatch):
    """Half a second counts as the thirty of real life."""
    monkeypatch.setattr(front, "STALL_S", 0.5)


def test_a_slow_phone_that_keeps_sending_is_served_however_long_it_takes(hasty):
    pieces = [b"x" * 90] * 9
    began = time.monotonic()
    sent = served([part for piece in pieces for part in (0.1, piece)])
    assert told(sent) == (200, b"x" * 810)
    assert time.monotonic() - began > front.STALL_S


def test_a_body_that_stops_coming_is_given_up_with_a_sentence(hasty):
    status, body = told(served([b"half", 5.0, b"rest"]))
    assert (status, json.loads(body)["code"]) == (408, "TOO-SLOW")


def test_a_body_that_only_drips_is_given_up(hasty):
    status, body = told(served([part for _ in range(40) for part in (0.1, b"x")]))
    assert (status, json.loads(body)["code"]) == (408, "TOO-SLOW")


@pytest.mark.parametrize("ending", [None, 5.0])
def test_what_has_come_of_a_photo_s_piece_is_handed_on(hasty, ending):
    assert told(served([b"x" * 300, ending, b""], PIECE)) == (200, b"x" * 300)


def test_a_cut_document_reaches_no_thread():
    assert served([b"half", None], app=None) == []


@pytest.mark.parametrize("headers", [JSON, [*JSON, (b"content-length", b"1100")]])
def test_a_body_over_the_limit_is_refused_and_read_to_its_end(headers):
    pieces = [b"x" * 300] * 4
    sent = served(pieces, headers)
    assert sent[0]["status"] == 413
    assert json.loads(sent[1]["body"])["code"] == "TOO-LARGE"


def test_somebody_who_reads_slowly_holds_no_thread():
    def long_answer(environ, start_response):
        start_response("200 OK", [])
        return iter([b"x" * front.PART_BYTES] * 3)

    whole = front.Front(long_answer, threads=1, most_bytes=1000, sentence=None)
    scope = {"type": "http", "method": "GET", "path": "/", "query_string": b"", "http_version": "1.1", "headers": []}

    async def nothing_more():
        return {"type": "http.request"}

    async def both() -> int:
        read, sent = asyncio.Event(), []

        async def slow(message):
            await read.wait()

        async def quick(message):
            sent.append(message)

        waiting = asyncio.create_task(whole(scope, nothing_more, slow))
        await asyncio.wait_for(whole(scope, nothing_more, quick), 2)
        read.set()
        await waiting
        return len(sent)

    assert asyncio.run(both()) == 5


def test_what_was_loaded_at_the_start_is_left_out_of_sweeps_for_garbage():
    """Else each sweep holds up a request by a tenth of a second; in a process of its own, as a web server starts."""
    code = "import inspections.asgi, gc; print(gc.get_freeze_count() > 10 * len(gc.get_objects()))"
    started = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True,
                             env=os.environ | {"DJANGO_SETTINGS_MODULE": "inspections.settings"})
    assert started.stdout == "True\n", started.stderr
