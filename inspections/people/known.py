"""Browsers and phones on which somebody has signed in before.

At a sign-in the browser gets a signed cookie with an id by chance. Wrong passwords from a browser that the
person is known on are counted apart, so that nobody elsewhere can use up the tries of a receiver at the dock.
The cookie opens nothing: a stolen one gives its thief the same few tries.

Source: OWASP, Slow Down Online Guessing Attacks with Device Cookies
(https://owasp.org/www-community/Slow_Down_Online_Guessing_Attacks_with_Device_Cookies).
"""
import hashlib
import secrets

from django.conf import settings
from django.core import signing
from django.http import HttpRequest, HttpResponse

COOKIE, SALT = "known_here", "people.known"
#: A phone at a dock passes through many hands; the longest unseen name goes first.
MOST_PEOPLE, LASTS_S = 40, 400 * 24 * 3600


def known_on(request: HttpRequest, username: str) -> str:
    """The id of the browser that ``username`` has signed in on before; empty for one where they never have."""
    browser = _read(request)
    return browser["id"] if _mark(username) in browser["people"] else ""


def remember(request: HttpRequest, response: HttpResponse, username: str) -> None:
    """Note in the browser's cookie that ``username`` has signed in on it."""
    browser, mark = _read(request), _mark(username)
    people = [*(one for one in browser["people"] if one != mark), mark][-MOST_PEOPLE:]
    response.set_cookie(
        COOKIE, signing.dumps({"id": browser["id"], "people": people}, salt=SALT), max_age=LASTS_S, httponly=True,
        secure=settings.BEHIND_HTTPS, samesite="Lax",
    )


def _read(request: HttpRequest) -> dict:
    try:
        return signing.loads(request.COOKIES.get(COOKIE, ""), salt=SALT, max_age=LASTS_S)
    except signing.BadSignature:
        return {"id": secrets.token_hex(8), "people": []}


def _mark(username: str) -> str:
    """Ten bytes of a hash: who works with this phone is not written on it in plain words."""
    return hashlib.sha256(username.encode("utf-8", "surrogatepass")).hexdigest()[:20]
