"""What a page was worked out to say, kept for as long as it holds: until something of its sites is counted anew.

Sums are kept for each site by itself (``of_each_site``): after a signing only that site's are added up again.

Question: the exact tests of a page take some tenths of a second of one core, and a month's end brings many to the same
page; may the answer be kept? Chosen: by the state of the tallies (how often each site's were changed, written in the
transaction that changes them) and by every name that the page shows, so that no answer outlives what it was made from,
on any number of web processes. Left: a time to live, which would show old figures.
"""
from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from threading import Lock
from typing import Any, TypeVar
from uuid import UUID

from django.db.models import QuerySet
from rest_framework.renderers import JSONRenderer

from inspections.comparison.models import TallyState
from inspections.people.models import Site
from inspections.records.models import Specification, Supplier

#: Answers kept in each web process; one of a large group is a few hundred kilobytes.
MOST_KEPT = 40
#: Sums of one site kept in each web process; some twenty kilobytes each.
MOST_SUMS = 2000

T = TypeVar("T")
_kept: OrderedDict[Hashable, bytes] = OrderedDict()
_sums: OrderedDict[Hashable, Any] = OrderedDict()
_lock = Lock()


def kept(work: Callable[[], Any], asked: Hashable, sites: QuerySet[Site]) -> bytes:
    """The answer to what is asked of some sites, as JSON: worked out, or the one that still holds.

    Kept as bytes: a hundred thousand small objects would make each of Python's sweeps for garbage slower.

    Parameters
    ----------
    work : callable
        Works it out; reads nothing but tallies of these sites and names.
    asked : hashable
        What else it depends on, the name of the page among it.
    """
    key = (asked, _state(sites))
    with _lock:
        if key in _kept:
            _kept.move_to_end(key)
            return _kept[key]
    answer = JSONRenderer().render(work())
    with _lock:
        _keep(_kept, {key: answer}, MOST_KEPT)
    return answer


def of_each_site(work: Callable[[list[UUID]], Mapping[UUID, T]], asked: Hashable, sites: QuerySet[Site]) -> list[T]:
    """The same of each site, worked out together for those of which it no longer holds. Not to be changed.

    Parameters
    ----------
    work : callable
        Works it out for some sites, and answers for each of them; reads nothing but their tallies.
    asked : hashable
        What else it depends on.
    """
    ids, changes = list(sites.order_by("pk").values_list("pk", flat=True)), dict(
        TallyState.objects.order_by().values_list("pk", "changes"))
    keys = {site: (asked, site, changes.get(site, 0)) for site in ids}
    with _lock:
        known = {site: _sums[key] for site, key in keys.items() if key in _sums}
    if missing := [site for site in ids if site not in known]:
        known |= work(missing)
    with _lock:
        _keep(_sums, {key: known[site] for site, key in keys.items()}, MOST_SUMS)
    return [known[site] for site in ids]


def _keep(store: OrderedDict[Hashable, Any], fresh: Mapping[Hashable, Any], most: int) -> None:
    for key, answer in fresh.items():
        store[key] = answer
        store.move_to_end(key)
    while len(store) > most:
        store.popitem(last=False)


def _state(sites: QuerySet[Site]) -> Hashable:
    """Read before the work: what is counted meanwhile is in the answer sooner than in its state, never later."""
    ids = sites.order_by().values("pk")
    return (
        tuple(TallyState.objects.filter(site__in=ids).order_by("pk").values_list("pk", "changes")),
        tuple(sites.order_by("pk").values_list("pk", "name", "code", "currency")),
        tuple(Supplier.objects.order_by("pk").values_list("pk", "name", "code")),
        tuple(Specification.objects.order_by("pk").values_list("pk", "name", "code")),
    )
