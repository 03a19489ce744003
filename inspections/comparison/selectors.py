"""Cartons opened, defective and refused, added up in SQL from the tallies of docket lines: no raw row is read.

What is asked grows with suppliers, sites, kinds of goods and spans of time, not with cartons. How alike cartons of one
delivery are is told from the newest deliveries of the period (``MOST_SEEN`` docket lines): 3,000 give that factor to
about 4 % (the square root of 2 over deliveries), and more would move nothing that is said.
"""
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from uuid import UUID

from django.db import models
from django.db.models import F, Max, Min, Q, QuerySet, Sum

from inspections.comparison.case_mix import Tally
from inspections.comparison.models import LineTally
from inspections.comparison.period import Period
from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import Supplier

#: Docket lines with opened cartons that the likeness of cartons is told from, the newest first.
MOST_SEEN = 3000
#: Periods with cartons opened over fewer days than this are charted week by week, over more month by month.
DAYS_FOR_MONTHS = 150
#: Suppliers asked about in one question: databases bound the number of conditions.
AT_ONCE = 100


@dataclass(frozen=True, order=True)
class Form:
    """A kind of goods that may be compared: presentation and state as specified."""

    presentation: str
    state: str


@dataclass(frozen=True)
class Count:
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

    def __add__(self, other: "Count") -> "Count":
        return Count(*(getattr(self, name) + getattr(other, name) for name in COUNTED))

    @property
    def tally(self) -> Tally:
        return Tally(self.opened, self.defective)


COUNTED = tuple(each.name for each in fields(Count))


@dataclass(frozen=True)
class Seen:
    """Opened cartons of one kind of goods in one delivery."""

    delivery: UUID
    supplier: UUID
    site: UUID
    form: Form
    tally: Tally


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
    counts : dict of (supplier, site, form) to Count
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
    counts: dict[tuple[UUID, UUID, Form], Count] = field(default_factory=dict)
    by: str = "week"
    spans: dict[UUID, dict[date, Tally]] = field(default_factory=dict)
    seen: list[Seen] = field(default_factory=list)
    runs: dict[UUID, Run] = field(default_factory=dict)


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
    Reads only; five queries, whatever the number of deliveries, and one more for each hundred suppliers whose
    latest delivery was refused whole.
    """
    found = Counted(list(sites))
    tallies = LineTally.objects.filter(day__range=(period.first, period.last)).order_by()
    if not are_all(sites):
        tallies = tallies.filter(site__in=sites.order_by().values("pk"))
    latest = _add_counts(found, tallies)
    found.suppliers = list(Supplier.objects.filter(pk__in={supplier for supplier, *_ in found.counts}))
    _add_spans(found, tallies)
    found.seen = _seen(tallies)
    found.runs = _runs(tallies, latest)
    return found


def _add_counts(found: Counted, tallies: QuerySet[LineTally]) -> dict[UUID, tuple]:
    """The counts; gives for each supplier when cartons last came, and when some were last not refused."""
    came, kept = Q(delivered__gt=0), Q(refused__lt=F("delivered"))
    rows = tallies.values_list("supplier_id", "site_id", "presentation", "state").annotate(
        *(Sum(name) for name in COUNTED),
        came=Max("arrived_at", filter=came), kept=Max("arrived_at", filter=kept),
        first=Min("day", filter=Q(opened__gt=0)), last=Max("day", filter=Q(opened__gt=0)),
    )
    latest: dict[UUID, tuple] = {}
    days = []
    for supplier, site, presentation, state, *sums, came_at, kept_at, first, last in rows:
        found.counts[supplier, site, Form(presentation, state)] = Count(*sums)
        days += [day for day in (first, last) if day]
        known = latest.get(supplier, (None, None))
        latest[supplier] = _later(known[0], came_at), _later(known[1], kept_at)
    if days and (max(days) - min(days)).days >= DAYS_FOR_MONTHS:
        found.by = "month"
    return latest


def _later(one: datetime | None, other: datetime | None) -> datetime | None:
    return max(filter(None, (one, other)), default=None)


def _add_spans(found: Counted, tallies: QuerySet[LineTally]) -> None:
    rows = tallies.filter(opened__gt=0).values_list("supplier_id", found.by).annotate(Sum("opened"), Sum("defective"))
    for supplier, first, opened, defective in rows:
        found.spans.setdefault(supplier, {})[first] = Tally(opened, defective)


def _seen(tallies: QuerySet[LineTally]) -> list[Seen]:
    rows = tallies.filter(opened__gt=0).order_by("-day", "-delivery").values_list(
        "delivery_id", "supplier_id", "site_id", "presentation", "state", "opened", "defective")[:MOST_SEEN]
    seen = [Seen(delivery, supplier, site, Form(presentation, state), Tally(opened, defective))
            for delivery, supplier, site, presentation, state, opened, defective in rows]
    # the last delivery may be cut in two
    return seen if len(seen) < MOST_SEEN else [each for each in seen if each.delivery != seen[-1].delivery]


def _runs(tallies: QuerySet[LineTally], latest: dict[UUID, tuple]) -> dict[UUID, Run]:
    runs: dict[UUID, Run] = {}
    refused = [(who, kept) for who, (came, kept) in latest.items() if came and (kept is None or came > kept)]
    for start in range(0, len(refused), AT_ONCE):
        wanted = Q(pk__in=[])
        for supplier, kept in refused[start : start + AT_ONCE]:
            wanted |= Q(supplier=supplier, arrived_at__gt=kept) if kept else Q(supplier=supplier)
        rows = tallies.filter(wanted, delivered__gt=0).values_list("supplier_id")
        for supplier, deliveries, cartons, since in rows.annotate(
            models.Count("delivery", distinct=True), Sum("delivered"), Min("arrived_at"),
        ):
            runs[supplier] = Run(deliveries, cartons, since)
    return runs
