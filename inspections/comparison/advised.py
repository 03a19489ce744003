"""Opened cartons with the advice on their photos: three questions, however many deliveries.

Everything asked for stands in columns that are written once, with the row. No JSON is read.
"""
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from uuid import UUID

from django.db.models import QuerySet

from inspections.comparison.agreement import Checked, answer_of
from inspections.comparison.period import Period
from inspections.people.models import Site
from inspections.records.advising import GOODS, PRAWN_PURPOSES
from inspections.records.models import DocketLine, PhotoUse, SpecificationVersion
from inspections.records.services.advisory import TOLD

#: A phone's clock may be wrong by so much before "after the receiver had signed" is doubted.
CLOCK_DOUBT = timedelta(minutes=10)


@dataclass(frozen=True)
class Line:
    """What all cartons of a docket line have in common; ``goods`` is species, presentation and state."""

    site: UUID
    delivery: UUID
    specification: UUID
    goods: tuple[str, ...]
    signed: datetime


@dataclass
class Photographed:
    """One opened carton: by photo the newest answer with its method, and when the first of all answers came."""

    line: Line
    black_spot: str
    newest: dict[tuple, tuple[str, str]] = field(default_factory=dict)
    first_at: datetime | None = None

    def hear(self, photo: tuple, answer: str, method: str, at: datetime) -> None:
        """Take in an answer; they come oldest first."""
        self.newest[photo] = (answer, method)
        self.first_at = min(self.first_at or at, at)

    def checked(self) -> Checked:
        return Checked(
            site=self.line.site, specification=self.line.specification, species=self.line.goods[0] or None,
            delivery=self.line.delivery, answer=answer_of(answer for answer, _ in self.newest.values()),
            found=self.black_spot or None, is_blind=self.first_at > self.line.signed,
        )


@dataclass
class Advised:
    """Cartons of a period whose prawns were photographed.

    ``unanswered`` are the sites of cartons none of whose photos has an answer; ``methods`` counts photos by the
    version of the method that their newest answer is from.
    """

    sites: list[Site]
    cartons: list[Checked] = field(default_factory=list)
    unanswered: Counter[UUID] = field(default_factory=Counter)
    methods: Counter[str] = field(default_factory=Counter)


def advised(sites: QuerySet[Site], period: Period) -> Advised:
    """Everything that the worth of the advice is counted from.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see (or one of them).
    period : Period
        By each site's own clock, both ends in.
    """
    found = Advised(list(sites))
    for carton in _photographed(found.sites, period):
        if not carton.newest:
            found.unanswered[carton.line.site] += 1
            continue
        found.methods.update(method for _, method in carton.newest.values())
        found.cartons.append(carton.checked())
    return found


def _photographed(sites: list[Site], period: Period) -> list[Photographed]:
    """Each opened carton with photos of its prawns, and what was answered to them."""
    # The lines last: a delivery signed between the two questions must not have answers without its lines.
    rows = list(_answers(sites, period))
    lines = _lines(sites, period)
    cartons: dict[UUID, Photographed] = {}
    for carton_id, line_id, black_spot, photo, purpose, told, answer, method, at in rows:
        line = lines[line_id]
        carton = cartons.setdefault(carton_id, Photographed(line, black_spot))
        # Only what was answered for these goods and this purpose counts; of several answers, the newest.
        if told == (*line.goods, purpose):
            carton.hear((photo, purpose), answer, method, at)
    return list(cartons.values())


def _answers(sites: list[Site], period: Period) -> Iterator[tuple]:
    """A row for each answer to each photo, oldest first; one without an answer where a photo has none."""
    uses = PhotoUse.objects.filter(period.covers(sites, "carton__line__delivery__"), purpose__in=PRAWN_PURPOSES)
    rows = uses.order_by("photo__advisories__created_at", "photo__advisories__id").values_list(
        "carton_id", "carton__line_id", "carton__black_spot", "photo_id", "purpose",
        *(f"photo__advisories__{name}" for name in (*TOLD, "would_say", "method_version", "created_at")),
    )
    for carton_id, line_id, black_spot, photo, purpose, *told, answer, method, at in rows:
        yield carton_id, line_id, black_spot, photo, purpose, tuple(told), answer, method, at


def _lines(sites: list[Site], period: Period) -> dict[UUID, Line]:
    rows = list(DocketLine.objects.filter(period.covers(sites, "delivery__")).order_by().values_list(
        "id", "delivery_id", "delivery__site_id", "specification_version_id", "delivery__signed_at",
        "delivery__receiver_signed_at",
    ))
    versions = SpecificationVersion.objects.in_bulk({row[3] for row in rows})
    return {
        line_id: Line(site, delivery, versions[version].specification_id, _goods(versions[version]), _signed(at, phone))
        for line_id, delivery, site, version, at, phone in rows
    }


def _goods(version: SpecificationVersion) -> tuple[str, ...]:
    return tuple(version.data.get(name) or "" for name in GOODS)


def _signed(signed_at: datetime, phone: datetime | None) -> datetime:
    """When the receiver had surely signed: by the server's clock, or by the phone's with some doubt."""
    if phone is None or phone >= signed_at:
        return signed_at
    return min(signed_at, phone + CLOCK_DOUBT)
