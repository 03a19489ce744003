"""Cartons opened, defective and refused, added up in SQL from the tallies of months: no raw row is read.

What is asked grows with suppliers, sites, kinds of goods and months, not with cartons; lines are read only of days that
cut a month, and for weekly charts of at most five months. How alike cartons of one
delivery are is told from the newest deliveries of the period (``MOST_SEEN`` docket lines): 3,000 give that factor to
about 4 % (the square root of 2 over deliveries), and more would move nothing that is said.
"""
from collections.abc import Hashable, Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from operator import add
from typing import Any, NamedTuple
from uuid import UUID

from django.db import models
from django.db.models import CharField, F, Min, OuterRef, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Cast

from inspections.comparison.case_mix import Tally
from inspections.comparison.kept import of_each_site
from inspections.comparison.models import LineTally, MonthTally
from inspections.comparison.period import Period
from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import Supplier

#: Docket lines with opened cartons that the likeness of cartons is told from, the newest first.
MOST_SEEN = 3000
#: Where the months with opened cartons begin less than so many days apart, charts are week by week, else by month.
DAYS_FOR_MONTHS = 150
#: An id as text: what stands in a hundred thousand keys of a page should be quick to look up.
Id = str
#: Suppliers asked about in one question: databases bound the number of conditions.
AT_ONCE = 100
DAY = timedelta(days=1)


class Form(NamedTuple):
    """A kind of goods that may be compared: presentation and state as specified."""

    presentation: str
    state: str


class Count(NamedTuple):
    """Sums over docket lines: deliveries, those with a carton opened, and cartons.

    ``with_product`` and ``with_sample`` are opened cartons with a product temperature or a weighed sample: missing is
    not "sound" (CV-0-06).
    """

    deliveries: int = 0
    deliveries_opened: int = 0
    delivered: int = 0
    refused: int = 0
    held: int = 0
    opened: int = 0
    defective: int = 0
    with_product: int = 0
    with_sample: int = 0
    thawed_faults: int = 0

    @property
    def tally(self) -> Tally:
        return Tally(self.opened, self.defective)


def together(counts: Iterable[Count]) -> Count:
    """All of them added up."""
    return Count(*map(sum, zip(*counts, strict=True)))


class Seen(NamedTuple):
    """Opened cartons of one kind of goods in one delivery; ``cell`` is its supplier, site and goods, by any names."""

    delivery: Hashable
    cell: Hashable
    opened: int
    defective: int


@dataclass(frozen=True)
class Run:
    """The latest deliveries of a supplier, of which every carton was refused."""

    deliveries: int
    cartons: int
    since: datetime


@dataclass
class Counted:
    """All counts of a period.

    Attributes
    ----------
    counts : dict of (supplier, site, form) to Count; ids as text, here and below
    by : {"month", "week"}
        What one point of everybody's charts stands for, so that they can be read side by side.
    spans : dict of supplier to dict of first day to Tally
        Opened cartons over time.
    seen : list of Seen
        The newest opened cartons, delivery by delivery.
    runs : dict of supplier to Run
    """

    sites: list[Site]
    suppliers: list[Supplier] = field(default_factory=list)
    counts: dict[tuple[Id, Id, Form], Count] = field(default_factory=dict)
    by: str = "week"
    spans: dict[Id, dict[date, Tally]] = field(default_factory=dict)
    seen: list[Seen] = field(default_factory=list)
    runs: dict[Id, Run] = field(default_factory=dict)


def counted(sites: QuerySet[Site], period: Period) -> Counted:
    """Everything that the comparison of suppliers needs, of the given sites and period.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see (or one of them).
    period : Period
        By each site's own clock, both ends in.

    Notes
    -----
    Reads only; seven queries, whatever the number of deliveries, and one more for each hundred suppliers whose
    latest delivery was refused whole.
    """
    found = Counted(list(sites))
    where = Q() if are_all(sites) else Q(site__in=sites.order_by().values("pk"))
    found.counts = counts_of(sites, period)
    found.suppliers = list(Supplier.objects.filter(pk__in={supplier for supplier, *_ in found.counts}))
    _add_spans(found, sites, period, where)
    tallies = LineTally.objects.filter(where, day__range=(period.first, period.last)).order_by()
    found.seen = _seen(tallies)
    found.runs = _runs(tallies, found.suppliers)
    return found


def counts_of(sites: QuerySet[Site], period: Period) -> dict[tuple[Id, Id, Form], Count]:
    """Counts by supplier, site and kind of goods."""
    sums = added_up(sites, ("supplier_id", "site_id", "presentation", "state"), Count._fields, period)
    return {(supplier, site, Form(presentation, state)): Count(*row)
            for (supplier, site, presentation, state), row in sums.items()}


def added_up(sites: QuerySet[Site], keys: tuple[str, ...], counted: tuple[str, ...], period: Period,
             only: tuple[tuple[str, Any], ...] = ()) -> dict[tuple, tuple[int, ...]]:
    """Sums of a period by some of what tallies are told apart by.

    Parameters
    ----------
    keys, counted : tuple of str
        Of ``models.KEYS`` and ``models.COUNTED``.
    only : tuple of (key, value)
        Of ``models.KEYS``; the value that is asked for.

    Returns
    -------
    dict of keys (ids as text) to sums

    Notes
    -----
    The months of the period, less the days of its first and last month that lie outside it: two queries for all sites
    of which something was counted since they were last asked about. Groups of which nothing is left are left out.
    """
    found: dict[tuple, tuple[int, ...]] = {}
    at_sites = of_each_site(lambda ids: _at_sites(ids, keys, counted, period, Q(**dict(only))),
                            ("sums", keys, counted, period, only), sites)
    for key, row in (each for at_site in at_sites for each in at_site.items()):
        known = found.get(key)
        found[key] = row if known is None else tuple(map(add, known, row))
    return {key: row[:-1] for key, row in found.items() if row[-1]}


def _at_sites(ids: list[UUID], keys: tuple[str, ...], counted: tuple[str, ...], period: Period, only: Q,
              ) -> dict[UUID, dict[tuple, tuple[int, ...]]]:
    """Sums of some sites, each with the number of its lines at its end."""
    where = only if len(ids) == Site.objects.count() else only & Q(site__in=ids)
    months = MonthTally.objects.filter(where, month__range=(period.first.replace(day=1), period.last))
    outside = Q(day__range=(period.first.replace(day=1), period.first - DAY))
    outside |= Q(day__range=(period.last + DAY, _month_end(period.last)))
    found: dict[UUID, dict[tuple, tuple[int, ...]]] = {site: {} for site in ids}
    names = [f"sum_{name}" for name in (*counted, "lines")]
    wanted = {name: Sum(name.removeprefix("sum_")) for name in names}
    for sign, rows in ((1, months), (-1, LineTally.objects.filter(where, outside))):
        for site, *row in rows.order_by().values("site_id", *keys).annotate(**wanted).values_list(
                "site_id", *keys, *names):
            key, more = tuple(as_text(part) for part in row[: len(keys)]), row[len(keys):]
            known = found[site].get(key, (0,) * len(more))
            found[site][key] = tuple(one + sign * other for one, other in zip(known, more, strict=True))
    # always in the same order, whatever the database gives: exact laws are kept by neighbours
    return {site: dict(sorted(rows.items())) for site, rows in found.items()}


def as_text(part: Any) -> Any:
    """A part of a key as sums are told apart by: an id as text, all else as it is."""
    return str(part) if isinstance(part, UUID) else part


def _month_end(day: date) -> date:
    return (day.replace(day=28) + 4 * DAY).replace(day=1) - DAY


def _add_spans(found: Counted, sites: QuerySet[Site], period: Period, where: Q) -> None:
    sums = added_up(sites, ("supplier_id", "month"), ("opened", "defective"), period)
    months = {key: row for key, row in sums.items() if row[0]}
    ends = sorted({month for _, month in months})
    if ends and (ends[-1] - ends[0]).days >= DAYS_FOR_MONTHS:
        found.by, spans = "month", months
    else:
        lines = LineTally.objects.filter(where, day__range=(period.first, period.last), opened__gt=0)
        rows = lines.order_by().values_list("supplier_id", "week").annotate(Sum("opened"), Sum("defective"))
        spans = {(str(supplier), week): (opened, defective) for supplier, week, opened, defective in rows}
    for (supplier, first), row in spans.items():
        found.spans.setdefault(supplier, {})[first] = Tally(*row)


def _seen(tallies: QuerySet[LineTally]) -> list[Seen]:
    # ids as text: to make so many UUIDs would take longer than to ask for them
    ids = (Cast(name, CharField()) for name in ("delivery_id", "supplier_id", "site_id"))
    rows = tallies.filter(opened__gt=0).order_by("-day", "-delivery_id").values_list(
        *ids, "presentation", "state", "opened", "defective")[:MOST_SEEN]
    seen = [Seen(delivery, tuple(cell), opened, defective) for delivery, *cell, opened, defective in rows]
    # the last delivery may be cut in two
    return seen if len(seen) < MOST_SEEN else [each for each in seen if each.delivery != seen[-1].delivery]


def _runs(tallies: QuerySet[LineTally], suppliers: list[Supplier]) -> dict[Id, Run]:
    """Suppliers whose latest deliveries were refused whole, each asked for by the index on their arrivals."""
    theirs = tallies.filter(supplier=OuterRef("pk"), delivered__gt=0).order_by("-arrived_at").values("arrived_at")
    latest = Supplier.objects.filter(pk__in=[each.pk for each in suppliers]).order_by().values_list(
        "pk", Subquery(theirs[:1]), Subquery(theirs.filter(refused__lt=F("delivered"))[:1]))
    refused = [(who, kept) for who, came, kept in latest if came and (kept is None or came > kept)]
    runs: dict[Id, Run] = {}
    for start in range(0, len(refused), AT_ONCE):
        wanted = Q(pk__in=[])
        for supplier, kept in refused[start : start + AT_ONCE]:
            wanted |= Q(supplier=supplier, arrived_at__gt=kept) if kept else Q(supplier=supplier)
        rows = tallies.filter(wanted, delivered__gt=0).values_list("supplier_id")
        for supplier, deliveries, cartons, since in rows.annotate(
            models.Count("delivery", distinct=True), Sum("delivered"), Min("arrived_at"),
        ):
            runs[str(supplier)] = Run(deliveries, cartons, since)
    return runs
