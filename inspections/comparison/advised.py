"""Opened cartons with the advice on their photos: six questions, however many deliveries."""
from collections import Counter
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from uuid import UUID

from django.db.models import QuerySet
from django.utils.dateparse import parse_datetime

from inspections.comparison.agreement import Checked, answer_of, found_of
from inspections.comparison.period import Period
from inspections.people.models import Site
from inspections.records.advising import GOODS, PRAWN_PURPOSES
from inspections.records.models import Advisory, Carton, Delivery, PhotoUse, SpecificationVersion

#: A phone's clock may be wrong by so much before "after the receiver had signed" is doubted.
CLOCK_DOUBT = timedelta(minutes=10)


@dataclass(frozen=True)
class Answer:
    """The newest advice on one photo, and when the first one came."""

    answer: str
    method: str
    first_at: datetime


@dataclass
class Advised:
    """Cartons of a period whose prawns were photographed.

    ``unanswered`` are the sites of cartons none of whose photos has an answer; ``methods`` counts photos by the
    version of the method that their newest answer is from.
    """

    sites: list[Site]
    cartons: list[Checked] = field(default_factory=list)
    unanswered: list[UUID] = field(default_factory=list)
    methods: Counter = field(default_factory=Counter)


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
    opened = Carton.objects.filter(period.covers(found.sites, "line__delivery__")).order_by()
    uses = PhotoUse.objects.filter(purpose__in=PRAWN_PURPOSES, carton_id__in=opened.values("pk")).order_by()
    shots, answers = _shots(uses), _answers(uses)
    rows = _cartons(opened.filter(pk__in=uses.values("carton_id")))
    versions = _versions({row["version"] for row in rows})
    moments = _signed(Delivery.objects.filter(pk__in=opened.values("line__delivery_id")).order_by())
    for row in rows:
        version = versions[row["version"]]
        told = _told(shots.get(row["id"], []), version, answers)
        if not told:
            found.unanswered.append(row["site"])
            continue
        found.methods.update(one.method for one in told)
        found.cartons.append(_checked(row, version, told, moments[row["delivery"]]))
    return found


def _cartons(opened: QuerySet[Carton]) -> list[dict]:
    rows = opened.values_list(
        "id", "line__delivery_id", "line__delivery__site_id", "line__specification_version_id", "data__pieces",
        "data__looked_at", "derived__checks",
    )
    names = ("id", "delivery", "site", "version", "pieces", "looked_at", "checks")
    return [dict(zip(names, row, strict=True)) for row in rows]


def _versions(ids: set[UUID]) -> dict[UUID, SpecificationVersion]:
    return {row.pk: row for row in SpecificationVersion.objects.filter(pk__in=ids)}


def _signed(deliveries: QuerySet[Delivery]) -> dict[UUID, datetime]:
    """When the receiver had surely signed: by the server's clock, or by the phone's with some doubt."""
    rows = deliveries.values_list("pk", "signed_at", "document__signatures__receiver__at")
    return {pk: _earlier(signed_at, at) for pk, signed_at, at in rows}


def _earlier(signed_at: datetime, phone: str | None) -> datetime:
    try:
        told = parse_datetime(phone or "")
    except ValueError:
        told = None
    return min(signed_at, told + CLOCK_DOUBT) if told and told.tzinfo else signed_at


def _shots(uses: QuerySet[PhotoUse]) -> dict[UUID, list[tuple[str, str]]]:
    """Photos of each carton: hash and purpose."""
    shots: dict[UUID, list[tuple[str, str]]] = {}
    for carton_id, sha256, purpose in uses.values_list("carton_id", "photo_id", "purpose"):
        shots.setdefault(carton_id, []).append((sha256, purpose))
    return shots


def _answers(uses: QuerySet[PhotoUse]) -> dict[tuple, Answer]:
    """The newest answer by photo and by what the method was told of it."""
    answers: dict[tuple, Answer] = {}
    rows = Advisory.objects.filter(photo__in=uses.values("photo_id")).order_by("created_at", "id")
    for sha256, context, answer, method, at in rows.values_list(
        "photo_id", "context", "answer", "method_version", "created_at"
    ):
        key = (sha256, *(context.get(name) for name in (*GOODS, "purpose")))
        answers[key] = Answer(answer, method, answers[key].first_at if key in answers else at)
    return answers


def _told(shots: list[tuple[str, str]], version: SpecificationVersion, answers: dict[tuple, Answer]) -> list[Answer]:
    goods = tuple(version.data.get(name) for name in GOODS)
    found = (answers.get((sha256, *goods, purpose)) for sha256, purpose in shots)
    return [one for one in found if one is not None]


def _checked(row: dict, version: SpecificationVersion, told: list[Answer], signed: datetime) -> Checked:
    return Checked(
        site=row["site"], specification=version.specification_id, species=version.data.get("species_code"),
        delivery=row["delivery"], answer=answer_of(one.answer for one in told),
        found=found_of(row["pieces"] or {}, row["looked_at"], row["checks"] or {}),
        is_blind=min(one.first_at for one in told) > signed,
    )
