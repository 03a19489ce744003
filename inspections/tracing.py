"""One id for what a phone's request sets off: in the answer, in every line of the log, in the worker's too.

The phone names it (``X-Request-ID``); where it does not, it is made here. A job keeps the id of the request that
caused it (``records/jobs.py``), and the worker writes its lines under that.
"""
import logging
import re
import secrets
import time
from collections.abc import Callable
from contextvars import ContextVar

from django.http import HttpRequest, HttpResponse
from prometheus_client import Histogram

HEADER = "X-Request-ID"
_ID = re.compile(r"[A-Za-z0-9-]{8,64}", re.ASCII)
#: What the token of a link or an invitation stands in; whoever reads a log must not be able to open anything.
_TOKEN = re.compile(r"(?<![^\s'\"])(/e/|/supplier/invitation/)[^/\s'\"]+")

request_id: ContextVar[str] = ContextVar("request_id", default="")
log = logging.getLogger("inspections.requests")
REQUESTS = Histogram("underlid_request_seconds", "How long requests took.", ["route", "method", "status"])


class WithRequestId(logging.Filter):
    """Puts the id on every line."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.request_id = request_id.get() or "-"
        return True


class WithoutTokens(logging.Filter):
    """Takes links' tokens out of what Django says of a request that it refused, and the request itself with them."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg, record.args = _TOKEN.sub(r"\1…", record.getMessage()), ()
        record.__dict__.pop("request", None)
        return True


class Traced:
    """Middleware, the outermost: gives each request its id and its line in the log (level INFO)."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]):
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        given = request.headers.get(HEADER, "")
        request_id.set(given if _ID.fullmatch(given) else secrets.token_hex(8))
        began = time.monotonic()
        response = self.get_response(request)
        seconds = time.monotonic() - began
        response.headers[HEADER] = request_id.get()
        log.info("%s %s %s in %.0f ms", request.method, _TOKEN.sub(r"\1…", request.path), response.status_code,
                 seconds * 1000)
        REQUESTS.labels(_route(request), request.method, response.status_code).observe(seconds)
        return response


def _route(request: HttpRequest) -> str:
    """The address with its parts named, so that a thousand deliveries are one route."""
    return request.resolver_match.route if request.resolver_match else "none"
