"""HTTP as a phone on bad wireless speaks it: requests that break in the middle, or whose answer never comes."""
import contextlib
import http.client
import json
import socket
import time
from collections.abc import Mapping
from dataclasses import dataclass, field

#: Less than the server keeps a connection open between two requests.
KEPT_OPEN_S = 10.0
TUS = {"Tus-Resumable": "1.0.0"}


class NoAnswer(Exception):
    """The connection broke before an answer came; whether the request counted is not known."""


@dataclass(frozen=True)
class Answer:
    """What came back."""

    status: int
    headers: Mapping[str, str]
    body: bytes

    def json(self) -> dict:
        """The body as JSON; empty where it holds none."""
        try:
            return json.loads(self.body)
        except ValueError:
            return {}

    @property
    def code(self) -> str:
        """The code of a refusal."""
        return self.json().get("code", "")


@dataclass(frozen=True)
class Asked:
    """A request that can be sent again as it was."""

    method: str
    path: str
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes = b""


class Wire:
    """One phone's connection to a server on this machine, kept open between requests; it keeps its cookies."""

    def __init__(self, port: int, timeout_s: float = 40.0):
        self._port, self._timeout_s = port, timeout_s
        self._connection: http.client.HTTPConnection | None = None
        self._used_at = 0.0
        self.cookies: dict[str, str] = {}

    def ask(self, asked: Asked) -> Answer:
        """Send a request and wait for its answer.

        Raises
        ------
        NoAnswer
        """
        if time.monotonic() - self._used_at > KEPT_OPEN_S:
            self.hang_up()
        self._used_at = time.monotonic()
        try:
            if self._connection is None:
                self._connection = http.client.HTTPConnection("127.0.0.1", self._port, timeout=self._timeout_s)
            self._connection.request(asked.method, asked.path, asked.body, self._headers(asked))
            came = self._connection.getresponse()
            answer = Answer(came.status, {key.lower(): value for key, value in came.headers.items()}, came.read())
        except (OSError, http.client.HTTPException) as trouble:
            self.hang_up()
            raise NoAnswer(str(trouble)) from trouble
        for line in came.headers.get_all("Set-Cookie") or []:
            name, _, value = line.partition(";")[0].partition("=")
            self.cookies[name] = value
        if came.will_close:
            self.hang_up()
        return answer

    def cut(self, asked: Asked, after: float) -> None:
        """Send the headers and only so much of the body (0 to 1), or all of it, and hang up without listening."""
        self.hang_up()
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", self._port), 5) as line:
            head = f"{asked.method} {asked.path} HTTP/1.1\r\nHost: 127.0.0.1:{self._port}\r\n"
            head += "".join(f"{name}: {value}\r\n" for name, value in self._headers(asked).items())
            line.sendall(f"{head}Content-Length: {len(asked.body)}\r\n\r\n".encode())
            line.sendall(asked.body[: int(len(asked.body) * after)])

    def hang_up(self) -> None:
        if self._connection is not None:
            self._connection.close()
            self._connection = None

    def _headers(self, asked: Asked) -> dict[str, str]:
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        return {"Cookie": cookies, "X-CSRFToken": self.cookies.get("csrftoken", ""), **asked.headers}
