"""Cartons opened, defective and refused, added up in SQL: six questions, however many deliveries."""
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Count, Exists, F, OuterRef, Q, QuerySet, Sum

from inspections.comparison.case_mix import NOTHING, Tally
from inspections.comparison.period import Period
from inspections.people.models import Site
from inspections.records.models import Carton, Delivery, DocketLine, Reading, SpecificationVersion, Supplier


@dataclass(frozen=True)
class Form:
    """A kind of goods that may be compared: presentation and state as specified."""

    presentation: str
    state: str


@dataclass(frozen=True)
class Amount:
    """Cartons that came, and how many of those were refused or held."""

    delivered: int = 0
    refused: int = 0
    held: int = 0

    def __add__(self, other: "Amount") -> "Amount":
        return Amount(self.delivered + other.delivered, self.refused + other.refused, self.held + other.held)


@dataclass(frozen=True)
class Visits:
    """Deliveries, and how many of those had at least one carton opened."""

    deliveries: int = 0
    opened_in: int = 0

    def __add__(self, other: "Visits") -> "Visits":
        return Visits(self.deliveries + other.deliveries, self.opened_in + other.opened_in)


@dataclass(frozen=True)
class Looks:
    """Opened cartons with a product temperature, and those with a weighed sample: missing is not "sound" (CV-0-06)."""

    product: int = 0
    sample: int = 0

    def __add__(self, other: "Looks") -> "Looks":
        return Looks(self.product + other.product, self.sample + other.sample)


@dataclass(frozen=True)
class Seen:
    """Opened cartons of one kind of goods in one delivery, and the day it came by the site's own clock."""

    delivery: UUID
    supplier: UUID
    site: UUID
    form: Form
    day: date
    tally: Tally


@dataclass(frozen=True)
class Handed:
    """What one delivery brought, and the moment it came."""

    supplier: UUID
    arrived_at: datetime
    amount: Amount


@dataclass
class Counted:
    """All counts of a period. Keys: (supplier, site) for visits, and the form of goods with them for the rest.

    ``seen`` holds the same opened cartons as ``tallies``, delivery by delivery.
    """

    sites: list[Site]
    suppliers: list[Supplier] = field(default_factory=list)
    visits: dict[tuple[UUID, UUID], Visits] = field(default_factory=dict)
    amounts: dict[tuple[UUID, UUID, Form], Amount] = field(default_factory=dict)
    tallies: dict[tuple[UUID, UUID, Form], Tally] = field(default_factory=dict)
    looks: dict[tuple[UUID, UUID, Form], Looks] = field(default_factory=dict)
    seen: list[Seen] = field(default_factory=list)
    handed: list[Handed] = field(default_factory=list)


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
    Reads only; six queries, whatever the number of deliveries.
    """
    found = Counted(list(sites))
    deliveries = Delivery.objects.filter(period.covers(found.sites, ""))
    found.suppliers = list(Supplier.objects.filter(pk__in=deliveries.order_by().values("supplier_id")))
    found.visits = _visits(deliveries)
    lines, cartons = _by_version(period, found.sites)
    forms = _forms({row["version"] for row in [*lines, *cartons]})
    amounts, tallies, looks = defaultdict(Amount), defaultdict(lambda: NOTHING), defaultdict(Looks)
    handed: dict[tuple, Amount] = defaultdict(Amount)
    for row in lines:
        amount = Amount(row["delivered"], row["refused_cartons"], row["held_cartons"])
        amounts[_key(row, forms)] += amount
        handed[row["supplier"], row["arrived_at"], row["delivery"]] += amount
    found.handed = [Handed(supplier, at, amount) for (supplier, at, _), amount in handed.items()]
    clocks = {site.id: ZoneInfo(site.timezone) for site in found.sites}
    for row in cartons:
        tally = Tally(row["opened"], row["defective"])
        tallies[_key(row, forms)] += tally
        looks[_key(row, forms)] += Looks(row["product"], row["sample"])
        day = row["arrived_at"].astimezone(clocks[row["site"]]).date()
        found.seen.append(Seen(row["delivery"], *_key(row, forms), day, tally))
    found.amounts, found.tallies, found.looks = dict(amounts), dict(tallies), dict(looks)
    return found


def _visits(deliveries: QuerySet[Delivery]) -> dict[tuple[UUID, UUID], Visits]:
    rows = deliveries.order_by().values("supplier_id", "site_id").annotate(
        all=Count("id", distinct=True), opened_in=Count("id", distinct=True, filter=Q(lines__cartons__isnull=False))
    )
    return {(row["supplier_id"], row["site_id"]): Visits(row["all"], row["opened_in"]) for row in rows}


def _by_version(period: Period, sites: list[Site]) -> tuple[list[dict], list[dict]]:
    """Lines, and opened cartons, of each delivery, by supplier, site and version of the specification."""
    lines = DocketLine.objects.filter(period.covers(sites, "delivery__")).order_by().values(
        "delivery", supplier=F("delivery__supplier_id"), site=F("delivery__site_id"),
        version=F("specification_version_id"), arrived_at=F("delivery__arrived_at"),
    ).annotate(delivered=Sum("cartons_counted"), refused_cartons=Sum("refused"), held_cartons=Sum("held"))
    cartons = Carton.objects.filter(period.covers(sites, "line__delivery__")).order_by().values(
        supplier=F("line__delivery__supplier_id"), site=F("line__delivery__site_id"),
        version=F("line__specification_version_id"), delivery=F("line__delivery_id"),
        arrived_at=F("line__delivery__arrived_at"),
    ).annotate(
        opened=Count("id"), defective=Count("id", filter=Q(is_defective=True)),
        product=Count("id", filter=_has("product")), sample=Count("id", filter=_has("sample")),
    )
    return list(lines), list(cartons)


def _has(kind: str) -> Exists:
    """Whether a carton has a reading of that kind."""
    return Exists(Reading.objects.filter(carton=OuterRef("pk"), kind=kind))


def _forms(versions: set[UUID]) -> dict[UUID, Form]:
    rows = SpecificationVersion.objects.filter(pk__in=versions).order_by().values_list("id", "data")
    return {version: Form(data.get("presentation", ""), data.get("state", "")) for version, data in rows}


def _key(row: dict, forms: dict[UUID, Form]) -> tuple[UUID, UUID, Form]:
    return row["supplier"], row["site"], forms[row["version"]]
