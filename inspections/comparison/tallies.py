"""Tallies kept equal to the rows that they count: written at signing, made again, and held against a fresh count.

Addenda never alter what was signed: a put-away has rows of its own and a correction is words, so neither changes a
tally.
"""
from collections.abc import Iterable, Iterator
from datetime import timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import Count, Exists, OuterRef, Q
from django.forms.models import model_to_dict

from inspections.comparison.models import LineTally
from inspections.records.models import Carton, Delivery, DocketLine, Reading

BATCH = 500


def tally_delivery(delivery: Delivery) -> None:
    """Count a delivery that was just signed.

    Notes
    -----
    Belongs into the transaction that wrote its rows. A second call writes nothing.
    """
    LineTally.objects.bulk_create(fresh_tallies([delivery.pk]), ignore_conflicts=True)


def rebuild() -> int:
    """Make every tally that is missing or wrong again; how many deliveries had one.

    Notes
    -----
    A transaction for each batch of deliveries: it may be stopped and begun again, and signing goes on beside it.
    """
    mended = 0
    for ids in _batches():
        with transaction.atomic():
            if wrong := _wrong(ids):
                LineTally.objects.filter(delivery__in=wrong).delete()
                LineTally.objects.bulk_create(fresh_tallies(wrong))
                mended += len(wrong)
    return mended


def wrong_deliveries() -> Iterator[UUID]:
    """Deliveries whose tallies are not what a fresh count of their rows gives."""
    for ids in _batches():
        yield from _wrong(ids)


def fresh_tallies(delivery_ids: Iterable[UUID]) -> list[LineTally]:
    """Tallies of some deliveries (a few hundred at most), counted from their rows; nothing is written."""
    lines = DocketLine.objects.filter(delivery__in=delivery_ids).select_related("delivery__site")
    lines = list(lines.select_related("specification_version").defer("delivery__document", "delivery__judgement")
                 .order_by("delivery", "number"))
    cartons = _cartons([line.pk for line in lines])
    known, opened = set(), set()
    made = []
    for line in lines:
        found = cartons.get(line.pk, {"opened": 0, "defective": 0, "with_product": 0, "with_sample": 0})
        made.append(LineTally(
            line=line, **_of_delivery(line), delivered=line.cartons_counted, refused=line.refused, held=line.held,
            deliveries=int(line.delivery_id not in known),
            deliveries_opened=int(bool(found["opened"]) and line.delivery_id not in opened), **found,
        ))
        known.add(line.delivery_id)
        if found["opened"]:
            opened.add(line.delivery_id)
    return made


def _of_delivery(line: DocketLine) -> dict:
    delivery, goods = line.delivery, line.specification_version.data
    day = delivery.arrived_at.astimezone(ZoneInfo(delivery.site.timezone)).date()
    return {
        "delivery_id": delivery.pk, "supplier_id": delivery.supplier_id, "site_id": delivery.site_id,
        "presentation": (goods.get("presentation") or "")[:20], "state": (goods.get("state") or "")[:20],
        "arrived_at": delivery.arrived_at, "day": day, "week": day - timedelta(days=day.weekday()),
        "month": day.replace(day=1),
    }


def _cartons(lines: list[UUID]) -> dict[UUID, dict[str, int]]:
    rows = Carton.objects.filter(line__in=lines).order_by().values("line_id").annotate(
        opened=Count("id"), defective=Count("id", filter=Q(is_defective=True)),
        with_product=Count("id", filter=_has("product")), with_sample=Count("id", filter=_has("sample")),
    )
    return {row.pop("line_id"): row for row in rows}


def _has(kind: str) -> Exists:
    """Whether a carton has a reading of that kind."""
    return Exists(Reading.objects.filter(carton=OuterRef("pk"), kind=kind))


def _batches() -> Iterator[list[UUID]]:
    # read up front: a cursor kept open while rows are written shows them twice or not at all
    ids = list(Delivery.objects.order_by("pk").values_list("pk", flat=True))
    return (ids[start : start + BATCH] for start in range(0, len(ids), BATCH))


def _wrong(ids: list[UUID]) -> list[UUID]:
    kept, fresh = (
        {row.pk: (row.delivery_id, model_to_dict(row), row.arrived_at) for row in rows}
        for rows in (LineTally.objects.filter(delivery__in=ids), fresh_tallies(ids))
    )
    return list({(kept.get(line) or fresh[line])[0] for line in kept.keys() | fresh.keys()
                 if kept.get(line) != fresh.get(line)})
