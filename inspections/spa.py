"""The app's one HTML page, the health answer, and the plain pages for a wrong address or a fault."""
import logging
import sys
from collections.abc import Callable

from django.conf import settings
from django.core.exceptions import DisallowedHost
from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render
from django.views.decorators.csrf import ensure_csrf_cookie

from inspections.describe import describe
from inspections.errors import PROBLEM, ApiProblem, database_away, is_database_away, is_disk_full
from inspections.health import Health, HealthAnswer, Live
from inspections.health import health as how_it_stands
from inspections.tracing import request_id

log = logging.getLogger(__name__)


@ensure_csrf_cookie
def app(request: HttpRequest) -> HttpResponse:
    """The built app; never cached by the browser, because it names the hashed files."""
    page = settings.FRONTEND_DIST / "index.html"
    try:
        body = page.read_bytes()
    except FileNotFoundError:
        return render(request, "plain.html", {"sentence": (
            "The app has not been built yet. No record is touched by this. "
            "Stop the server and run “python3 manage.py start”, which builds it.")}, status=503)
    return HttpResponse(body, headers={"Cache-Control": "no-cache"})


@describe(Live, is_open=True)
def live(request: HttpRequest) -> JsonResponse:
    """200 while the program runs at all: whoever gets no answer starts it again."""
    return JsonResponse({"alive": True})


@describe(HealthAnswer, 200, 503, is_open=True)
def ready(request: HttpRequest) -> JsonResponse:
    """200 when requests can be taken, 503 with the reason when not: whoever balances the load goes by it."""
    return _told(lambda found: found.is_ready)


@describe(HealthAnswer, 200, 503, is_open=True)
def health(request: HttpRequest) -> JsonResponse:
    """200 when the database answers, with how worker, disk and backups stand; for whoever watches the server."""
    return _told(lambda found: True)


def _told(is_well: Callable[[Health], bool]) -> JsonResponse:
    try:
        found = how_it_stands()
    except DatabaseError as trouble:
        log.error("the database does not answer: %s", trouble)
        answer = {"database": "does not answer", "sentences": ["The database does not answer. What is stored is safe."]}
        return JsonResponse(answer, status=503)
    return JsonResponse(found.to_json(), status=200 if is_well(found) else 503, headers={"Cache-Control": "no-store"})


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """A host that is not ours, or a request that is none."""
    is_host = isinstance(exception, DisallowedHost)
    return _plain(request, ApiProblem("HOST-UNKNOWN" if is_host else "NOT-JSON", status=400))


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """A wrong address, in a sentence."""
    return _plain(request, ApiProblem("NOT-FOUND", status=404))


def stale(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form without the page's token, such as one that was open for too long."""
    return _plain(request, ApiProblem("PAGE-STALE", status=403))


def trouble(request: HttpRequest) -> HttpResponse:
    """A fault of ours: its id for the person, the same id in the log beside the traceback."""
    if is_disk_full(sys.exc_info()[1]):
        return _plain(request, ApiProblem("NO-ROOM", status=507))
    if is_database_away(sys.exc_info()[1]):
        return _plain(request, database_away())
    trace = request_id.get()
    log.error("fault %s at %s %s", trace, request.method, request.path)
    return _plain(request, ApiProblem("TROUBLE", status=500, trace=trace))


def _plain(request: HttpRequest, refusal: ApiProblem) -> HttpResponse:
    if request.path.startswith(("/api/", "/sync/")):
        response: HttpResponse = JsonResponse(refusal.to_json(), status=refusal.status, content_type=PROBLEM)
    else:
        response = render(request, "plain.html", {"sentence": str(refusal)}, status=refusal.status)
    if "retry_after_s" in refusal.facts:
        response["Retry-After"] = str(refusal.facts["retry_after_s"])
    return response
