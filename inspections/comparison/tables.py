"""Every table that may be taken away, with one description of each column: files, paging API and dictionary read it.

A row belongs to a site and a day of arrival by its clock. Rows come as their deliveries arrived, those of one delivery
in the order of their ids: a page goes on where the last one ended, whatever is signed meanwhile, and reads little more
than it shows.
"""
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Model, Q, QuerySet

from inspections.comparison.models import Counts, MonthTally
from inspections.comparison.period import Period
from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import Carton, Delivery, DocketLine, Finding, LineLot, PutAway, Reading

TEXT, WHOLE, NUMBER, DAY, MOMENT, YES_NO = "text", "whole number", "number", "day", "moment", "yes or no"
#: Rows of one page, at most and unless asked otherwise.
PAGE = 1000
CHUNK = 2000
#: Deliveries that are read together: the first part of them, and at most.
PART, MOST_PARTS = 250, 4000


@dataclass(frozen=True)
class Column:
    """``path`` is where the value stands, from the table's own row; empty: under the column's name."""

    name: str
    kind: str
    meaning: str
    path: str = ""


@dataclass(frozen=True)
class Table:
    """``delivery`` is the path from a row to its delivery, "" for deliveries themselves; None: of months, not days."""

    name: str
    meaning: str
    model: type[Model]
    delivery: str | None
    columns: tuple[Column, ...]


def _delivery(path: str) -> tuple[Column, ...]:
    return (
        Column("delivery_id", TEXT, "The delivery, as the phone named it (UUID).", f"{path}id"),
        Column("docket_number", TEXT, "Number of the docket, as entered.", f"{path}docket_number"),
        Column("arrived_at", MOMENT, "When it arrived (UTC).", f"{path}arrived_at"),
        Column("site", TEXT, "Code of the site.", f"{path}site__code"),
        Column("supplier", TEXT, "Code of the supplier.", f"{path}supplier__code"),
    )


def _line(path: str) -> tuple[Column, ...]:
    return (
        Column("line_id", TEXT, "The docket line (UUID).", f"{path}id"),
        Column("line", WHOLE, "Its number on the docket, from 1.", f"{path}number"),
        Column("specification", TEXT, "Code of the specification.",
               f"{path}specification_version__specification__code"),
        Column("version", WHOLE, "Version of the specification that it was judged by.",
               f"{path}specification_version__version"),
    )


_COUNT_MEANINGS = {
    "lines": "Docket lines.", "deliveries": "Deliveries, each on its first line.",
    "deliveries_opened": "Deliveries with an opened carton.", "delivered": "Cartons counted.",
    "refused": "Cartons refused, held ones that were refused later among them.",
    "held": "Cartons held on which nothing is decided yet.", "opened": "Cartons opened.",
    "defective": "Opened cartons with a major or critical fault.",
    "with_product": "Opened cartons with a product temperature.",
    "with_sample": "Opened cartons with a sample weighed.",
    "warm": "Product temperature beyond its limit.", "short": "Net weight short beyond its limit.",
    "off_count": "Count outside the grade.", "spot": "Black spot beyond its limit.",
    "burn": "Freezer burn or frost beyond its limit.", "soft": "Soft or broken pieces beyond the limit.",
}


def _counts() -> tuple[Column, ...]:
    keys = {"supplier": "supplier__code", "site": "site__code", "specification": "specification__code"}
    made = []
    for field in Counts._meta.local_fields:
        kind = DAY if field.name == "month" else WHOLE if field.get_internal_type().endswith("IntegerField") else TEXT
        meaning = _COUNT_MEANINGS.get(field.name) or str(field.help_text)
        if field.name.endswith("_seen"):
            meaning = f"Opened cartons looked at for: {_COUNT_MEANINGS[field.name.removesuffix('_seen')]}"
        made.append(Column(field.name, kind, meaning or f"{field.name.capitalize()} (code).",
                           keys.get(field.name, field.name)))
    return tuple(made)


TABLES = {table.name: table for table in (
    Table("deliveries", "One row for each signed delivery.", Delivery, "", (
        *_delivery(""),
        Column("order_number", TEXT, "Number of the order, empty without one.", "order__number"),
        Column("received_by", TEXT, "Name of the receiver.", "receiver__name"),
        Column("signed_at", MOMENT, "When it was signed (UTC)."),
        Column("state", TEXT, "signed or put_away."),
        Column("has_refused", YES_NO, "Whether cartons were refused or held."),
        Column("has_defective", YES_NO, "Whether an opened carton was defective."),
        Column("is_demo", YES_NO, "Whether it is invented, to show how the desk works."),
    )),
    Table("docket_lines", "One row for each line of a docket: what came and what was decided.", DocketLine,
          "delivery__", (
        *_line(""), *_delivery("delivery__"),
        Column("species", TEXT, "FAO code of the species, as specified.", "tally__species"),
        Column("presentation", TEXT, "As specified: HOSO head on, HLSO headless shell on, PUD peeled …",
               "tally__presentation"),
        Column("treatment", TEXT, "raw or cooked, as specified.", "tally__state"),
        Column("lot", TEXT, "Lot of the docket, or the one that all read labels agree on."),
        Column("cartons_on_docket", WHOLE, "Cartons that the docket names."),
        Column("cartons_counted", WHOLE, "Cartons that came."),
        Column("accepted", WHOLE, "Cartons accepted."),
        Column("refused", WHOLE, "Cartons refused."),
        Column("held", WHOLE, "Cartons held."),
        Column("suggested", TEXT, "What the limits suggested."),
        Column("decided", TEXT, "What the receiver decided."),
        Column("departed_because", TEXT, "Why it was decided otherwise than suggested."),
        Column("opened", WHOLE, "Cartons opened.", "tally__opened"),
        Column("defective", WHOLE, "Opened cartons with a major or critical fault.", "tally__defective"),
    )),
    Table("cartons", "One row for each opened carton.", Carton, "line__delivery__", (
        Column("carton_id", TEXT, "The carton (UUID).", "id"),
        Column("position", WHOLE, "Its place in the load, from 1; empty where not noted."),
        Column("is_defective", YES_NO, "Whether it has a major or critical fault."),
        Column("black_spot", TEXT, "beyond or within the limit, or none; empty where not looked at."),
        *_line("line__"), *_delivery("line__delivery__"),
    )),
    Table("readings", "One row for each measured value.", Reading, "delivery__", (
        Column("reading_id", WHOLE, "Running number.", "id"),
        Column("carton_id", TEXT, "The carton; empty for the vehicle."),
        Column("kind", TEXT, "What was measured."),
        Column("value", NUMBER, "In the unit beside it."),
        Column("unit", TEXT, "C for °C, g for grams."),
        Column("entered", TEXT, "As it was typed."),
        Column("entered_unit", TEXT, "In which unit it was typed."),
        Column("method", TEXT, "How it was measured, where that is noted."),
        *_delivery("delivery__"),
    )),
    Table("findings", "One row for each thing that went beyond a limit or should be known.", Finding, "delivery__", (
        Column("finding_id", WHOLE, "Running number.", "id"),
        Column("carton_id", TEXT, "The carton; empty for a line or the vehicle."),
        Column("line_id", TEXT, "The docket line; empty for the vehicle."),
        Column("kind", TEXT, "Code of the reason."),
        Column("severity", TEXT, "critical, major, minor or note."),
        Column("measured", NUMBER, "What was measured, where it is a number."),
        Column("unit", TEXT, "Its unit."),
        Column("limit", TEXT, "Code of the limit.", "limit_code"),
        Column("bound", NUMBER, "The limit itself, where it is a number."),
        Column("text", TEXT, "The finding in a sentence."),
        *_delivery("delivery__"),
    )),
    Table("put_aways", "One row for each part of a line that was put away.", PutAway, "line__delivery__", (
        Column("put_away_id", TEXT, "The put-away (UUID).", "id"),
        Column("cartons", WHOLE, "Cartons put away.", "count"),
        Column("freezer", TEXT, "Name of the freezer.", "freezer__name"),
        Column("position", TEXT, "Where in it."),
        Column("liner_closed", YES_NO, "Whether liners were closed; empty where not noted."),
        Column("out_at", MOMENT, "Out of the cold (UTC)."),
        Column("in_at", MOMENT, "Into the cold (UTC)."),
        *_line("line__"), *_delivery("line__delivery__"),
    )),
    Table("receiving", "The particulars of receiving that the US food traceability rule asks for (21 CFR 1.1345(a)), "
          "one row for each lot of a docket line. Of places only the names are known here; addresses and telephone "
          "numbers stand in your own list of suppliers and sites.", LineLot, "line__delivery__", (
        Column("traceability_lot_code", TEXT, "(a)(1) Lot, as on the docket or on labels of opened cartons.", "lot"),
        Column("quantity", WHOLE, "(a)(2) Cartons of the line; a lot that is one of several has part of them.",
               "line__cartons_counted"),
        Column("product_description", TEXT, "(a)(3) Name of the specification.",
               "line__specification_version__specification__name"),
        Column("previous_source", TEXT, "(a)(4) Name of the supplier.", "line__delivery__supplier__name"),
        Column("received_at", TEXT, "(a)(5) Name of the site.", "line__delivery__site__name"),
        Column("date_received", DAY, "(a)(6) Day of arrival, by the site's own clock.", "line__tally__day"),
        Column("lot_code_source", TEXT, "(a)(7) Where the lot code comes from: the supplier, unless its papers say "
               "otherwise.", "line__delivery__supplier__name"),
        Column("docket_number", TEXT, "(a)(8) Reference document: number of the docket.",
               "line__delivery__docket_number"),
        Column("order_number", TEXT, "(a)(8) Reference document: number of the order.",
               "line__delivery__order__number"),
        Column("is_on_docket", YES_NO, "Whether the docket names the lot; else only labels do."),
        Column("line_id", TEXT, "The docket line (UUID)."),
        Column("delivery_id", TEXT, "The delivery (UUID).", "line__delivery_id"),
    )),
    Table("months", "What pages add up: one row for each month, supplier, site and kind of goods.", MonthTally, None,
          _counts()),
)}


def rows_of(table: Table, sites: QuerySet[Site], period: Period, *, after: str = "", limit: int | None = None,
            ) -> Iterator[tuple[str, tuple]]:
    """Rows with their ids: months by id, all others as they arrived.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see (or one of them).
    after : str
        Id of the last row that is known already, as this gave it.
    limit : int, optional
        All of them, a part at a time, unless it says otherwise.

    Raises
    ------
    ValueError
        ``after`` is no id of this table.
    """
    of = table.delivery
    values = table.model._default_manager.order_by("pk").values_list(
        "pk", "pk" if of is None else f"{of}pk", *(column.path or column.name for column in table.columns))
    known = table.model._meta.pk.to_python(after) if after else None
    parts = _months(values, sites, period, known) if of is None else _as_they_came(
        values, of, sites, period, known)
    for place, (pk, _, *row) in enumerate(parts):
        if limit is not None and place == limit:
            return
        yield str(pk), tuple(str(value) if isinstance(value, UUID) else value for value in row)


def _months(values: QuerySet, sites: QuerySet[Site], period: Period, after: Any) -> Iterator[tuple]:
    rows = values.filter(site__in=sites, month__range=(period.first.replace(day=1), period.last))
    return (rows if after is None else rows.filter(pk__gt=after)).iterator(chunk_size=CHUNK)


class _Place(NamedTuple):
    arrived_at: datetime
    delivery: UUID


def _as_they_came(values: QuerySet, of: str, sites: QuerySet[Site], period: Period, after: Any) -> Iterator[tuple]:
    """Rows of each delivery, the deliveries in the order of arrival; ``of`` is the path to them."""
    last = None
    if after is not None:
        last = values.filter(pk=after, **{f"{of}site__in": sites}).values_list(f"{of}arrived_at", f"{of}pk").first()
        if last is None:
            raise ValueError(after)
        last = _Place(*last)
        yield from values.filter(pk__gt=after, **{f"{of}pk": last.delivery})
    for ids in _arrived(sites, period, last):
        place = {delivery: number for number, delivery in enumerate(ids)}
        yield from sorted(values.filter(**{f"{of}pk__in": ids}), key=lambda row: place[row[1]])


def _arrived(sites: QuerySet[Site], period: Period, last: _Place | None) -> Iterator[list[UUID]]:
    """Deliveries of the period after a place, in the order of arrival, a part at a time."""
    clocks = {site.pk: ZoneInfo(site.timezone) for site in sites}
    # for those who see all no condition on the site, which would only keep the index on arrivals from use
    there = Delivery.objects.filter(period.about("arrived_at"), Q() if are_all(sites) else Q(site__in=clocks))
    found, part = there.order_by("arrived_at", "pk").values_list("arrived_at", "pk", "site_id"), PART
    while True:
        later = Q() if last is None else Q(arrived_at__gte=last.arrived_at) & (
            Q(arrived_at__gt=last.arrived_at) | Q(pk__gt=last.delivery))
        rows = list(found.filter(later)[:part])
        yield [pk for at, pk, site in rows if period.first <= at.astimezone(clocks[site]).date() <= period.last]
        if len(rows) < part:
            return
        last, part = _Place(*rows[-1][:2]), min(2 * part, MOST_PARTS)


def dictionary() -> list[dict[str, Any]]:
    """Every table and column in words."""
    as_json: Callable[[Column], dict] = lambda column: {  # noqa: E731
        "name": column.name, "kind": column.kind, "meaning": column.meaning}
    return [{"name": table.name, "meaning": table.meaning, "columns": [as_json(column) for column in table.columns]}
            for table in TABLES.values()]
