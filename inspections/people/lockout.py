"""How guessing passwords is slowed, and what somebody reads who has to wait.

Three counts over ten minutes, each with its own end: wrong passwords for one name from one address, for any
names from one address, and for one name from everywhere. None of them holds up a browser on which the person
has signed in before (``known``): its wrong passwords are counted apart, so a stranger who keeps guessing
somebody's name keeps only strangers out. PINs are counted for each person on each shared device.
"""
from axes.handlers.database import AxesDatabaseHandler
from django.db.models import QuerySet, Sum
from django.http import HttpRequest, HttpResponse, JsonResponse

from inspections.errors import PROBLEM, ApiProblem
from inspections.messages import message
from inspections.people.known import known_on

#: Wrong passwords in ten minutes; then no more are tried until ten minutes after the last one that was.
MOST_OF_NAME_AND_ADDRESS, MOST_OF_ADDRESS, MOST_OF_NAME, MOST_PINS = 10, 30, 100, 5
WAIT_S = 600
#: A user name holds no blank, so nobody's name can end like this.
KNOWN = " known on "


def counted_as(request: HttpRequest, credentials: dict | None) -> str | None:
    """The name that a wrong password is counted under: for a known browser, of the name on that browser."""
    given = credentials or {}
    username = given.get("username")
    if not isinstance(username, str):
        return None
    username = username.replace("\0", "")[:150]
    device = given.get("device")
    browser = str(device.pk) if device else known_on(request, username)
    return f"{username}{KNOWN}{browser}" if browser else username


class Slowed(AxesDatabaseHandler):
    """Counts wrong passwords; the library asks it before every sign-in and tells it of every failure."""

    def get_failures(self, request: HttpRequest, credentials: dict | None = None) -> int:
        """The fullest of the counts, as wrong passwords out of ``MOST_OF_NAME_AND_ADDRESS``."""
        of_name, of_address, of_both = (_wrong(rows) for rows in self.get_user_attempts(request, credentials))
        if (credentials or {}).get("device"):
            return of_name * MOST_OF_NAME_AND_ADDRESS // MOST_PINS
        if KNOWN in (counted_as(request, credentials) or ""):
            return of_name
        full = MOST_OF_NAME_AND_ADDRESS
        return max(of_both, of_address * full // MOST_OF_ADDRESS, of_name * full // MOST_OF_NAME)

    def filter_user_attempts(self, request: HttpRequest, credentials: dict | None = None) -> list[QuerySet]:
        of_name, of_address, of_both = super().filter_user_attempts(request, credentials)
        return [of_name, of_address.exclude(username__contains=KNOWN), of_both]


def _wrong(rows: QuerySet) -> int:
    return rows.aggregate(all=Sum("failures_since_start"))["all"] or 0


def answer(request: HttpRequest, response: HttpResponse | None, credentials: dict | None = None) -> HttpResponse:
    """Called by the lockout in place of ``response``: the sentence, as JSON or as plain text."""
    headers = {"Retry-After": str(WAIT_S)}
    if request.path.startswith(("/api/", "/sync/")):
        told = ApiProblem("SIGN-IN-LOCKED", status=429).to_json()
        return JsonResponse(told, status=429, content_type=PROBLEM, headers=headers)
    return HttpResponse(
        message("SIGN-IN-LOCKED"), status=429, content_type="text/plain; charset=utf-8", headers=headers
    )
