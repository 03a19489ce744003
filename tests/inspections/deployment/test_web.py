"""The real web server under phones that stall: everybody else is served meanwhile."""
import http.client
import json
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest

BASE = Path(__file__).resolve().parents[3]
HASTY = "import inspections.deployment.web as web; web.HEADER_S = 1; web.main()"
HALF_A_BODY = (b"PUT /sync/documents/1 HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
               b"Content-Length: 4000\r\n\r\n{")
HALF_OF_THE_HEADERS = b"GET /health HTTP/1.1\r\nHost: local"


@pytest.fixture(scope="module")
def port(tmp_path_factory):
    """Where a web server of one process and eight threads answers."""
    data = tmp_path_factory.mktemp("web")
    (data / "static").mkdir()
    process, free = serve(data)
    yield free
    process.terminate()
    assert process.wait(timeout=30) in {0, -signal.SIGTERM}


def serve(data: Path) -> tuple[subprocess.Popen, int]:
    """A web server that answers, and its port."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        free = trial.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, "-c", HASTY, "--host", "127.0.0.1", "--port", str(free)], cwd=BASE,
        env=os.environ | {"UNDERLID_DATA": str(data), "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    for _ in range(150):
        try:
            ask(free)
            break
        except OSError:
            time.sleep(0.2)
    return process, free


def ask(port: int, method: str = "GET", path: str = "/health", body=None) -> tuple[int, dict, float]:
    """Status, answer and seconds."""
    began = time.monotonic()
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request(method, path, body, {"Content-Type": "application/json"})
    answer = connection.getresponse()
    told = json.loads(answer.read())
    connection.close()
    return answer.status, told, time.monotonic() - began


def stall(port: int, sent: bytes, count: int) -> list[socket.socket]:
    held = [socket.create_connection(("127.0.0.1", port), timeout=10) for _ in range(count)]
    for one in held:
        one.sendall(sent)
    return held


def test_two_hundred_phones_that_hold_back_half_a_body_stop_nobody(port):
    held = stall(port, HALF_A_BODY, 200)
    time.sleep(1)
    answers = [ask(port) for _ in range(5)]
    for one in held:
        one.close()
    assert [status for status, _, _ in answers] == [200] * 5
    assert max(seconds for _, _, seconds in answers) < 1.0


def test_two_hundred_half_headers_stop_nobody_and_are_closed_at_their_deadline(port):
    held = stall(port, HALF_OF_THE_HEADERS, 200)
    status, _, seconds = ask(port)
    assert (status, seconds < 1.0) == (200, True)
    for one in held:
        one.settimeout(5)
        assert one.recv(1) == b""  # the server closed it
        one.close()


def test_the_app_s_page_comes_with_its_cookie(port):
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request("GET", "/")
    answer = connection.getresponse()
    assert answer.headers["Set-Cookie"].startswith("csrftoken=")
    connection.close()


def test_a_body_over_the_limit_gets_a_sentence_and_no_broken_pipe(port):
    status, told, _ = ask(port, "PUT", "/sync/documents/1", b"x" * (20 * 1024 * 1024))
    assert (status, told["code"]) == (413, "TOO-LARGE")
    assert "(8 MB). Nothing was changed." in told["sentence"]
    assert ask(port)[0] == 200


def test_a_request_under_way_is_finished_before_the_server_stops(tmp_path):
    (tmp_path / "static").mkdir()
    process, free = serve(tmp_path)
    sock = socket.create_connection(("127.0.0.1", free), timeout=20)
    sock.sendall(b"PUT /sync/documents/1 HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
                 b"Content-Length: 2\r\n\r\n{")
    time.sleep(0.3)
    process.terminate()
    time.sleep(0.5)
    sock.sendall(b"}")
    answer = sock.recv(200)
    sock.close()
    assert answer.startswith(b"HTTP/1.1 4")
    assert process.wait(timeout=20) in {0, -signal.SIGTERM}


def test_a_busy_machine_is_no_reason_to_kill_a_web_process(monkeypatch):
    """uvicorn kills a process that says nothing for 5 s; under a load of ten that is every one of them."""
    from inspections.deployment import web

    asked = {}
    monkeypatch.setattr(web.uvicorn, "run", lambda application, **more: asked.update(more))
    monkeypatch.setattr("sys.argv", ["web", "--port", "1"])
    web.main()
    assert asked["timeout_worker_healthcheck"] >= 60
