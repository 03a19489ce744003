"""Every refusal a person can meet, as one sentence each.

::

    Refusal                     carries code, facts, HTTP status; its sentence comes from SENTENCES
    ├── NotYours    403         the person may not see or do this
    ├── NotFound    404
    ├── Conflict    409, 412    somebody or something was there first
    └── CannotUse   400, 422    what was sent cannot be used

A sentence says what happened, what is safe, and what to do. Tests compare codes; people read sentences.
``answer`` is the one place that turns any exception of the API into JSON.
"""
import errno
import logging
import shutil
from collections.abc import Mapping
from http.client import responses

from django.conf import settings
from django.core.exceptions import PermissionDenied, RequestDataTooBig
from django.db import DatabaseError, InterfaceError, OperationalError
from django.http import Http404
from rest_framework import exceptions, status
from rest_framework.response import Response

log = logging.getLogger(__name__)
#: Media type of an answer that is a refusal (RFC 9457).
PROBLEM = "application/problem+json"

#: code -> sentence with {named} facts. Other modules add theirs at import with ``add_sentences``.
SENTENCES: dict[str, str] = {
    "SIGN-IN-FIRST": "You are not signed in. What is on this phone is safe and stays here. Sign in, and it goes on.",
    "SIGN-IN-WRONG": "That name and password do not go together. Nothing was changed. Check both and try again.",
    "SIGN-IN-LOCKED": "Too many wrong passwords from here. Nothing was lost. Wait ten minutes, or ask your administrator.",
    "PAGE-STALE": "This page was open too long to be trusted with a change. What you entered is still here. Reload the page and send it again.",
    "NOT-YOURS": "This belongs to a site that you do not look after. Nothing was changed. Ask your administrator if you should see it.",
    "NOT-FOUND": "There is nothing here under that address. Nothing was changed. Go back and choose from the list.",
    "NOT-JSON": "What was sent could not be read. Nothing was changed on the server, and what is on the phone stays there. Send it again.",
    "HOST-UNKNOWN": "This server does not answer to that address. Nothing was changed. Open it by the address that it printed when it started; its administrator can add a name in UNDERLID_HOSTS.",
    "NOT-ALLOWED": "That address does not take this kind of request. Nothing was changed. Update the app and try again.",
    "TOO-LARGE": "That was larger than the server takes ({most_mb} MB). Nothing was changed. Send less at once.",
    "TOO-SLOW": "Too little of what was sent arrived in time. Nothing was changed, and what is on the phone stays there. It is sent again by itself.",
    "TOO-OFTEN": "Too many requests at once. Nothing was lost. Try again in {wait_s} seconds.",
    "FIELDS": "Some entries could not be used: {fields}. Nothing was saved. Correct them and send again.",
    "NO-ROOM": "The server's disk is full. What you sent was not kept there; it is safe on the phone, which sends it again by itself. Tell your administrator.",
    "DATABASE-AWAY": "The server's database does not answer at this moment. What is stored is safe, and what is on the phone stays there. It is sent again by itself.",
    "TROUBLE": "The server met a fault of its own. What you sent may not be saved; what is on the phone is. Try again in a minute; if it stays, tell your administrator the code {trace}.",
}


def add_sentences(more: Mapping[str, str]) -> None:
    """Add a module's own codes; a code that is taken with another sentence is a mistake in the code.

    Raises
    ------
    ValueError
        The code already has another sentence.
    """
    for code, sentence in more.items():
        if SENTENCES.setdefault(code, sentence) != sentence:
            raise ValueError(f"two sentences for {code}")


class Refusal(Exception):
    """A refusal with its code, facts and HTTP status; ``str()`` is the sentence."""

    status = status.HTTP_400_BAD_REQUEST

    def __init__(self, code: str, *, status: int | None = None, extra: Mapping | None = None, **facts):
        self.code, self.facts, self.extra = code, facts, dict(extra or {})
        if status is not None:
            self.status = status
        super().__init__(SENTENCES[code].format(**facts))

    def to_json(self) -> dict:
        """Problem details (RFC 9457): the sentence is the detail, and the code tells more than the status does."""
        return {
            "type": "about:blank", "title": responses.get(self.status, "Refused"), "status": int(self.status),
            "detail": str(self), "code": self.code, "sentence": str(self), "facts": self.facts, **self.extra,
        }


class NotYours(Refusal):
    status = status.HTTP_403_FORBIDDEN

    def __init__(self, code: str = "NOT-YOURS", **facts):
        super().__init__(code, **facts)


class NotFound(Refusal):
    status = status.HTTP_404_NOT_FOUND

    def __init__(self, code: str = "NOT-FOUND", **facts):
        super().__init__(code, **facts)


class Conflict(Refusal):
    status = status.HTTP_409_CONFLICT


class CannotUse(Refusal):
    status = status.HTTP_422_UNPROCESSABLE_ENTITY


def is_disk_full(trouble: BaseException | None) -> bool:
    """Whether the file system or the database (SQLite in words, PostgreSQL by SQLSTATE 53100) found no room."""
    if isinstance(trouble, OSError):
        return trouble.errno in {errno.ENOSPC, errno.EDQUOT}
    if isinstance(trouble, DatabaseError):
        told = str(trouble)
        # SQLite's log of changes meets a full disk as a failed write.
        is_failed_write = "disk I/O" in told and shutil.disk_usage(settings.DATA).free < 4 * 1024 * 1024
        return getattr(trouble.__cause__, "sqlstate", "") == "53100" or "disk is full" in told or is_failed_write
    return False


def is_database_away(trouble: BaseException | None) -> bool:
    """Whether the database did not answer, or went away while it was asked; nothing says whether it then did it."""
    return isinstance(trouble, OperationalError | InterfaceError)


def database_away() -> Refusal:
    """The refusal for that moment: to be sent again."""
    return Refusal("DATABASE-AWAY", status=status.HTTP_503_SERVICE_UNAVAILABLE, retry_after_s=3)


def answer(trouble: Exception, context: dict) -> Response | None:
    """DRF exception handler: every exception as problem details with ``code``, ``sentence`` and ``facts``."""
    # Here, because the views name their parsers at import, and those raise refusals.
    from rest_framework.views import exception_handler

    refusal = _as_refusal(trouble)
    if refusal is None:
        return None
    response = Response(refusal.to_json(), status=refusal.status, content_type=PROBLEM)
    # DRF sets these headers (Retry-After, WWW-Authenticate) itself; keep them.
    plain = exception_handler(trouble, context)
    if plain is not None:
        for name in ("Retry-After", "WWW-Authenticate", "Allow"):
            if name in plain.headers:
                response[name] = plain[name]
    if "retry_after_s" in refusal.facts:
        response["Retry-After"] = str(refusal.facts["retry_after_s"])
    return response


def _as_refusal(trouble: Exception) -> Refusal | None:  # noqa: C901 - one case for each exception of the frameworks
    match trouble:
        case Refusal():
            return trouble
        case DatabaseError() | OSError() if is_disk_full(trouble):
            return Refusal("NO-ROOM", status=507)
        case _ if is_database_away(trouble):
            return database_away()
        case exceptions.NotAuthenticated() | exceptions.AuthenticationFailed():
            return Refusal("SIGN-IN-FIRST", status=401)
        case exceptions.PermissionDenied() | PermissionDenied():
            stale = "CSRF" in str(trouble)
            return Refusal("PAGE-STALE", status=403) if stale else NotYours()
        case exceptions.NotFound() | Http404():
            return NotFound()
        case exceptions.ParseError() | exceptions.UnsupportedMediaType():
            return Refusal("NOT-JSON", status=400)
        case RequestDataTooBig():
            return Refusal("TOO-LARGE", status=413, most_mb=settings.DATA_UPLOAD_MAX_MEMORY_SIZE // 1048576)
        case exceptions.MethodNotAllowed():
            return Refusal("NOT-ALLOWED", status=405)
        case exceptions.Throttled():
            return Refusal("TOO-OFTEN", status=429, wait_s=int(trouble.wait or 1))
        case exceptions.ValidationError():
            return Refusal("FIELDS", status=400, fields=_fields(trouble.detail), extra={"fields": trouble.detail})
    return None


def _fields(detail) -> str:
    if isinstance(detail, dict):
        return "; ".join(f"{name}: {_fields(value)}" for name, value in detail.items())
    if isinstance(detail, list):
        return " ".join(_fields(part) for part in detail)
    return str(detail)
