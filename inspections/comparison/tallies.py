"""Tallies kept equal to the rows that they count: written at signing, made again, and held against a fresh count.

A delivery is counted when it is signed and again when something is added to it: a put-away tells its minutes out of the
cold, a fault found on thawing is one more, and held cartons that were refused or released later are refused, or held
no longer. Other addenda change nothing that is counted.
"""
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import F, Sum

from inspections.comparison.models import COUNTED, FAULTS, KEYS, LineTally, MonthTally, TallyState
from inspections.people.models import Site
from inspections.records.models import (
    Addendum,
    AddendumKind,
    Carton,
    Delivery,
    DocketLine,
    OrderLine,
    PutAway,
    Reading,
)
from inspections.records.services.set_apart import DECIDED

BATCH = 500
_LOOKED = {"within", "beyond"}


def tally_delivery(delivery: Delivery) -> None:
    """Count a delivery that was just signed or added to.

    Notes
    -----
    Belongs into the transaction that wrote its rows, and holds the site's row to its end, as sealing does: so
    months are added to one after the other. A second call writes nothing.
    """
    with transaction.atomic():
        Site.objects.select_for_update().get(pk=delivery.site_id)
        _replace([delivery.pk])


def rebuild() -> int:
    """Make every tally that is missing or wrong again; how many deliveries and months had one.

    Notes
    -----
    A transaction for each batch of deliveries and each site: it may be stopped and begun again, and signing goes on
    beside it.
    """
    mended = 0
    for ids in _batches():
        with transaction.atomic():
            list(Site.objects.select_for_update().order_by("pk"))
            if wrong := wrong_among(ids):
                _replace(wrong)
                mended += len(wrong)
    for site in Site.objects.order_by("pk"):
        with transaction.atomic():
            Site.objects.select_for_update().get(pk=site.pk)
            wrong_months = _wrong_months(site)
            _add(wrong_months)
            mended += len(wrong_months)
    return mended


def wrong_deliveries() -> Iterator[UUID]:
    """Deliveries whose tallies are not what a fresh count of their rows gives."""
    for ids in _batches():
        yield from wrong_among(ids)


def wrong_months() -> Iterator[tuple[Site, date]]:
    """Sites and months whose sums are not those of their lines."""
    for site in Site.objects.order_by("pk"):
        yield from sorted({(site, key[-1]) for key in _wrong_months(site)}, key=lambda each: each[1])


def fresh_tallies(delivery_ids: Iterable[UUID]) -> list[LineTally]:
    """Tallies of some deliveries (a few hundred at most), counted from their rows; nothing is written."""
    lines = DocketLine.objects.filter(delivery__in=delivery_ids).select_related("delivery__site", "delivery__order")
    lines = list(lines.select_related("specification_version").defer("delivery__document", "delivery__judgement")
                 .order_by("delivery", "number"))
    cartons, away = _cartons([line.pk for line in lines]), _put_away([line.pk for line in lines])
    thawed, decided = _added_later({line.delivery_id for line in lines})
    prices = _prices({line.delivery.order_id for line in lines if line.delivery.order_id})
    known, opened = set(), set()
    made = []
    for line in lines:
        found = cartons[line.pk]
        own = _of_delivery(line) if line.delivery_id not in known else {}
        later, released = decided[str(line.pk), "refused"], decided[str(line.pk), "released"]
        refused, held = line.refused + later, line.held - later - released
        made.append(LineTally(
            line=line, **_place(line), delivered=line.cartons_counted, refused=refused, held=held, **own,
            deliveries_opened=int(bool(found["opened"]) and line.delivery_id not in opened), **found,
            **away[line.pk], **_money(line, prices, refused), thawed_faults=thawed[str(line.pk)],
        ))
        known.add(line.delivery_id)
        if found["opened"]:
            opened.add(line.delivery_id)
    return made


def _place(line: DocketLine) -> dict:
    delivery, goods = line.delivery, line.specification_version.data
    day = _day(line)
    return {
        "delivery_id": delivery.pk, "supplier_id": delivery.supplier_id, "site_id": delivery.site_id,
        "specification_id": line.specification_version.specification_id,
        "species": (goods.get("species_code") or "")[:20], "presentation": (goods.get("presentation") or "")[:20],
        "state": (goods.get("state") or "")[:20], "arrived_at": delivery.arrived_at, "day": day,
        "week": day - timedelta(days=day.weekday()), "month": day.replace(day=1),
    }


def _day(line: DocketLine) -> date:
    return line.delivery.arrived_at.astimezone(ZoneInfo(line.delivery.site.timezone)).date()


def _of_delivery(line: DocketLine) -> dict[str, int]:
    """What counts once a delivery."""
    order = line.delivery.order
    return {"deliveries": 1, "due": int(order is not None),
            "late": int(order is not None and _day(line) > order.expected_on)}


def _cartons(lines: list[UUID]) -> dict[UUID, Counter]:
    """Opened cartons of each line, counted by what was found in them."""
    counts: dict[UUID, Counter] = defaultdict(Counter)
    rows = Carton.objects.filter(line__in=lines).order_by().values_list("pk", "line_id", "is_defective", "derived")
    line_of = {}
    for carton, line, is_defective, derived in rows:
        line_of[carton] = line
        counts[line].update(_of_carton(is_defective, derived or {}))
    readings = Reading.objects.filter(carton__line__in=lines, kind__in=("product", "sample")).order_by()
    seen = set()
    for carton, kind, value in readings.values_list("carton_id", "kind", "value"):
        if (carton, kind) not in seen:
            counts[line_of[carton]]["with_" + kind] += 1
            counts[line_of[carton]]["product_cc"] += round(100 * value) if kind == "product" else 0
            seen.add((carton, kind))
    return counts


def _of_carton(is_defective: bool, derived: dict) -> dict[str, int]:
    checks, net_g, short_g = (derived.get(name) for name in ("checks", "net_g", "net_short_g"))
    found = {"opened": 1, "defective": int(is_defective)}
    if net_g is not None and short_g is not None:
        found |= {"net_g": round(net_g), "declared_g": round(net_g + short_g)}
    for fault, names in FAULTS.items():
        answers = {(checks or {}).get(name) for name in names}
        found |= {f"{fault}_seen": int(bool(answers & _LOOKED)), fault: int("beyond" in answers)}
    return found


def _put_away(lines: list[UUID]) -> dict[UUID, Counter]:
    away: dict[UUID, Counter] = defaultdict(Counter)
    rows = PutAway.objects.filter(line__in=lines, out_at__isnull=False, in_at__isnull=False).order_by()
    for line, out_at, in_at in rows.values_list("line_id", "out_at", "in_at"):
        away[line].update(put_aways=1, out_seconds=round((in_at - out_at).total_seconds()))
    return away


def _added_later(deliveries: set[UUID]) -> tuple[Counter, Counter]:
    """Faults found on thawing by line, and held cartons that were decided on later by line and event."""
    thawed: Counter = Counter()
    decided: Counter = Counter()
    told = Addendum.objects.filter(delivery__in=deliveries, kind__in=(AddendumKind.THAWED, AddendumKind.SET_APART))
    for kind, body in told.values_list("kind", "body"):
        if kind == AddendumKind.THAWED:
            thawed[body["line_id"]] += 1
        elif body["event"] in DECIDED:
            for entry in body["cartons"]:
                decided[entry["line_id"], body["event"]] += entry["count"]
    return thawed, decided


def _prices(orders: set[UUID]) -> dict[tuple[UUID, UUID], int]:
    """Price of a kilogram in ten-thousandths, by order and specification."""
    rows = OrderLine.objects.filter(order__in=orders, price_per_kg__isnull=False).order_by("pk")
    return {(order, goods): int(price * 10_000) for order, goods, price in rows.values_list(
        "order_id", "specification_version__specification_id", "price_per_kg")}


def _money(line: DocketLine, prices: dict[tuple[UUID, UUID], int], refused: int) -> dict[str, int]:
    version = line.specification_version
    price, net_g = prices.get((line.delivery.order_id, version.specification_id)), version.data.get("carton_net_g")
    if price is None or not net_g:
        return {}
    grams = round(net_g) * (line.cartons_counted - refused)
    return {"priced_g": grams, "price_cents": (price * grams + 50_000) // 100_000}


def _batches() -> Iterator[list[UUID]]:
    # read up front: a cursor kept open while rows are written shows them twice or not at all
    ids = list(Delivery.objects.order_by("pk").values_list("pk", flat=True))
    return (ids[start : start + BATCH] for start in range(0, len(ids), BATCH))


def _told(rows: Iterable[LineTally]) -> dict[UUID, tuple]:
    fields = [field.attname for field in LineTally._meta.concrete_fields]
    return {row.pk: tuple(getattr(row, name) for name in fields) for row in rows}


def wrong_among(ids: list[UUID]) -> list[UUID]:
    """Those of some deliveries whose tallies are not what a fresh count gives."""
    kept_rows, fresh_rows = list(LineTally.objects.filter(delivery__in=ids)), fresh_tallies(ids)
    kept, fresh = _told(kept_rows), _told(fresh_rows)
    delivery_of = {row.pk: row.delivery_id for row in (*kept_rows, *fresh_rows)}
    return list({delivery_of[line] for line in kept.keys() | fresh.keys() if kept.get(line) != fresh.get(line)})


def _replace(ids: list[UUID]) -> None:
    """Tallies of some deliveries made again, lines and months."""
    kept, fresh = list(LineTally.objects.filter(delivery__in=ids)), fresh_tallies(ids)
    if _told(kept) == _told(fresh):
        return
    if kept:
        LineTally.objects.filter(delivery__in=ids).delete()
    LineTally.objects.bulk_create(fresh)
    sums: dict[tuple, Counter] = defaultdict(Counter)
    for sign, rows in ((-1, kept), (1, fresh)):
        for row in rows:
            sums[tuple(getattr(row, name) for name in KEYS)].update(
                {name: sign * getattr(row, name) for name in COUNTED})
    _add(sums)


def _add(sums: dict[tuple, Counter]) -> None:
    """Add to the months; their sites' rows are held."""
    for key, more in sums.items():
        place, more = dict(zip(KEYS, key, strict=True)), {name: count for name, count in more.items() if count}
        if more and not MonthTally.objects.filter(**place).update(**{name: F(name) + more[name] for name in more}):
            MonthTally.objects.create(**place, **{"lines": 0, **more})
        if more.get("lines", 0) < 0:
            MonthTally.objects.filter(**place, lines=0).delete()
    for site in {key[1] for key in sums}:
        if not TallyState.objects.filter(pk=site).update(changes=F("changes") + 1):
            TallyState.objects.create(pk=site, changes=1)


def _wrong_months(site: Site) -> dict[tuple, Counter]:
    """What is missing from the sums of a site's months, against its lines."""
    missing: dict[tuple, Counter] = defaultdict(Counter)
    for sign, model in ((1, LineTally), (-1, MonthTally)):
        rows = model.objects.filter(site=site).order_by().values_list(*KEYS).annotate(
            *(Sum(name, default=0) for name in COUNTED))
        for row in rows:
            for name, count in zip(COUNTED, row[len(KEYS):], strict=True):
                missing[row[: len(KEYS)]][name] += sign * count
    return {key: counts for key, counts in missing.items() if any(counts.values())}
