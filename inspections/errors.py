"""Every refusal a person can meet, as one sentence each.

::

    ApiProblem                    carries code, facts, HTTP status; its sentence is the message of that code
    ├── Forbidden      403        the person may not see or do this
    ├── NotFound       404
    ├── Conflict       409, 412   somebody or something was there first
    └── Unprocessable  400, 422   what was sent cannot be used

A sentence says what happened, what is safe, and what to do; it stands in ``messages/en/errors.ftl`` under its code.
Tests compare codes; people read sentences.
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

from inspections.messages import message

log = logging.getLogger(__name__)
#: Media type of an answer that is a refusal (RFC 9457).
PROBLEM = "application/problem+json"


class ApiProblem(Exception):
    """A refusal with its code, facts and HTTP status; ``str()`` is the sentence."""

    status = status.HTTP_400_BAD_REQUEST

    def __init__(self, code: str, *, status: int | None = None, extra: Mapping | None = None, **facts):
        self.code, self.facts, self.extra = code, facts, dict(extra or {})
        if status is not None:
            self.status = status
        super().__init__(message(code, **{
            name: fact if isinstance(fact, int) else str(fact) for name, fact in facts.items()}))

    def to_json(self) -> dict:
        """Problem details (RFC 9457): the sentence is the detail, and the code tells more than the status does."""
        return {
            "type": "about:blank", "title": responses.get(self.status, "Refused"), "status": int(self.status),
            "detail": str(self), "code": self.code, "sentence": str(self), "facts": self.facts, **self.extra,
        }


class Forbidden(ApiProblem):
    status = status.HTTP_403_FORBIDDEN

    def __init__(self, code: str = "NOT-YOURS", **facts):
        super().__init__(code, **facts)


class NotFound(ApiProblem):
    status = status.HTTP_404_NOT_FOUND

    def __init__(self, code: str = "NOT-FOUND", **facts):
        super().__init__(code, **facts)


class Conflict(ApiProblem):
    status = status.HTTP_409_CONFLICT


class Unprocessable(ApiProblem):
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


def database_away() -> ApiProblem:
    """The refusal for that moment: to be sent again."""
    return ApiProblem("DATABASE-AWAY", status=status.HTTP_503_SERVICE_UNAVAILABLE, retry_after_s=3)


PROBLEM_CODE = "X-Underlid-Problem"


def answer(trouble: Exception, context: dict) -> Response | None:
    """DRF exception handler: every exception as problem details with ``code``, ``sentence`` and ``facts``."""
    # Here, because the views name their parsers at import, and those raise refusals.
    from rest_framework.views import exception_handler

    refusal = _as_refusal(trouble)
    if refusal is None:
        return None
    response = Response(refusal.to_json(), status=refusal.status, content_type=PROBLEM)
    # The answer to a HEAD has no body to say it in.
    response[PROBLEM_CODE] = refusal.code
    # DRF sets these headers (Retry-After, WWW-Authenticate) itself; keep them.
    plain = exception_handler(trouble, context)
    if plain is not None:
        for name in ("Retry-After", "WWW-Authenticate", "Allow"):
            if name in plain.headers:
                response[name] = plain[name]
    if "retry_after_s" in refusal.facts:
        response["Retry-After"] = str(refusal.facts["retry_after_s"])
    return response


def _as_refusal(trouble: Exception) -> ApiProblem | None:  # noqa: C901 - one case for each exception of the frameworks
    match trouble:
        case ApiProblem():
            return trouble
        case DatabaseError() | OSError() if is_disk_full(trouble):
            return ApiProblem("NO-ROOM", status=507)
        case _ if is_database_away(trouble):
            return database_away()
        case exceptions.NotAuthenticated() | exceptions.AuthenticationFailed():
            return ApiProblem("SIGN-IN-FIRST", status=401)
        case exceptions.PermissionDenied() | PermissionDenied():
            stale = "CSRF" in str(trouble)
            return ApiProblem("PAGE-STALE", status=403) if stale else Forbidden()
        case exceptions.NotFound() | Http404():
            return NotFound()
        case exceptions.ParseError() | exceptions.UnsupportedMediaType():
            return ApiProblem("NOT-JSON", status=400)
        case RequestDataTooBig():
            return ApiProblem("TOO-LARGE", status=413, most_mb=settings.DATA_UPLOAD_MAX_MEMORY_SIZE // 1048576)
        case exceptions.MethodNotAllowed():
            return ApiProblem("NOT-ALLOWED", status=405)
        case exceptions.Throttled():
            return ApiProblem("TOO-OFTEN", status=429, wait_s=int(trouble.wait or 1))
        case exceptions.ValidationError():
            return ApiProblem("FIELDS", status=400, fields=_fields(trouble.detail), extra={"fields": trouble.detail})
    return None


def _fields(detail) -> str:
    if isinstance(detail, dict):
        return "; ".join(f"{name}: {_fields(value)}" for name, value in detail.items())
    if isinstance(detail, list):
        return " ".join(_fields(part) for part in detail)
    return str(detail)
