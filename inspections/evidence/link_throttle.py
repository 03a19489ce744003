"""Who tries links that open nothing? After some wrong ones an address waits, whatever it asks for.

A token has 32 bytes of chance, so nobody guesses one; the limit keeps a machine that tries from costing the
kitchen its server. Counted in Django's cache: in each web process apart where none is set, so with several
processes an address gets as many times the number. A link that is right is not counted.
"""
from django.core.cache import cache
from django.http import HttpRequest

from inspections.errors import ApiProblem
from inspections.people.address import client_address

MOST_WRONG, WAIT_MIN = 30, 10


def need_few_wrong(request: HttpRequest) -> None:
    """Nothing, while the address has tried few wrong links.

    Raises
    ------
    ApiProblem
        429 LINK-TOO-OFTEN.
    """
    if cache.get(_key(request), 0) >= MOST_WRONG:
        raise ApiProblem("LINK-TOO-OFTEN", status=429, wait_min=WAIT_MIN)


def note_wrong(request: HttpRequest) -> None:
    """Count a wrong link; the count is forgotten ten minutes after the first."""
    key = _key(request)
    cache.add(key, 0, timeout=WAIT_MIN * 60)
    try:
        cache.incr(key)
    except ValueError:
        # It ran out between the two lines: a new count begins with the next one.
        return


def _key(request: HttpRequest) -> str:
    return f"wrong-links-{client_address(request)}"
