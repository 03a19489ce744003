"""What may be said of each supplier beside the others, and how each has done over time, as rows that may be shown."""
from collections import defaultdict
from collections.abc import Hashable, Mapping
from datetime import date, timedelta
from typing import Any
from uuid import UUID

from inspections.comparison import case_mix, control_charts, significance
from inspections.comparison.case_mix import NOTHING, Tally
from inspections.comparison.lookups import Counted, Seen
from inspections.comparison.significance import AgainstOthers

Strata = Mapping[Hashable, Tally]
#: Deliveries over fewer days than this are charted week by week, over more month by month.
DAYS_FOR_MONTHS = 150


def design_effect_of(found: Counted) -> float:
    """The factor on the variance by which cartons of one delivery resemble each other, over everything counted."""
    own: dict[tuple, Tally] = defaultdict(lambda: NOTHING)
    for each in found.seen:
        own[each.supplier, each.site, each.form] += each.tally
    # rates of nothing and of everything leave their deliveries no room to stray: neither score nor rate counts
    cells = sum(1 for tally in own.values() if 0 < tally.defective < tally.opened)
    return significance.design_effect(_deliveries(found.seen, own), cells)


def luck_rows(
    found: Counted, against: Mapping[UUID, AgainstOthers], effect: float
) -> dict[UUID, dict[str, Any]]:
    """What luck explains of each supplier of whom enough was seen, beside others of whom enough was seen.

    Parameters
    ----------
    found : Counted
    against : mapping of supplier to its comparison with the others
    effect : float
        As ``design_effect_of`` gives it.

    Returns
    -------
    dict of supplier to dict
        ``says`` more, fewer or within; ``chance`` and ``among`` (0 to 1); ``one_in`` N of "1 chance in N" or
        None; ``compared`` suppliers looked at together; ``design_effect`` factor on the variance.
    """
    enough = {}
    for supplier, each in against.items():
        visits = sum(visits.opened_in for (who, _), visits in found.visits.items() if who == supplier)
        if each.is_possible and not case_mix.is_too_few(each.own.opened, visits):
            enough[supplier] = each
    return {
        supplier: _luck_row(says, min(enough[supplier].worse, enough[supplier].better), among, len(enough), effect)
        for supplier, (says, among) in significance.marks(enough).items()
    }


def _luck_row(says: str, chance: float, among: float, compared: int, effect: float) -> dict[str, Any]:
    return {"says": says, "chance": chance, "among": among, "one_in": significance.one_chance_in(chance),
            "compared": compared, "design_effect": effect}


def span_of(seen: list[Seen]) -> str:
    """Month or week: what one point of everybody's charts stands for, so that they can be read side by side."""
    days = [each.day for each in seen]
    return "month" if days and (max(days) - min(days)).days >= DAYS_FOR_MONTHS else "week"


def time_row(seen: list[Seen], by: str) -> dict[str, Any]:
    """One supplier's rate over time with the limits it wanders in.

    Parameters
    ----------
    seen : list of Seen
        Of this supplier.
    by : {"month", "week"}
        As ``span_of`` gives it for everybody.

    Returns
    -------
    dict
        ``by`` month or week; ``centre`` and ``is_widened`` (None where too few points say anything); ``needed``
        points for limits; ``points`` in the order of time, each with ``from`` (first day), cartons ``opened``,
        ``defective``, ``low`` and ``high`` counts of defective ones (None without limits, ends in), ``is_out``, and
        the same of the running total (``total``); ``shift`` or None: ``from`` (first day since), ``before``,
        ``since`` and ``one_in``.
    """
    spans: dict[date, Tally] = defaultdict(lambda: NOTHING)
    for each in seen:
        spans[_first_day(each.day, by)] += each.tally
    days = sorted(day for day, tally in spans.items() if tally.opened)
    drawn = control_charts.chart([spans[day] for day in days])
    known: dict[str, Any] = {"by": by, "needed": control_charts.MIN_POINTS}
    if drawn is None:
        bare = [{"from": day.isoformat(), **_count(spans[day])} for day in days]
        return {**known, "centre": None, "is_widened": None, "points": bare, "shift": None}
    points = [_point(day, point) for day, point in zip(days, drawn.points, strict=True)]
    return {**known, "centre": drawn.centre, "is_widened": drawn.is_widened, "points": points,
            "shift": _shift(drawn.shift, days)}


def _point(day: date, point: control_charts.Point) -> dict[str, Any]:
    return {
        "from": day.isoformat(), **_count(point.tally, point.low, point.high, is_out=point.is_out),
        "total": _count(point.total, point.total_low, point.total_high, is_out=point.is_total_out),
    }


def _count(tally: Tally, low: int | None = None, high: int | None = None, *, is_out: bool = False) -> dict[str, Any]:
    return {"opened": tally.opened, "defective": tally.defective, "low": low, "high": high, "is_out": is_out}


def _shift(shift: control_charts.Shift | None, days: list[date]) -> dict[str, Any] | None:
    if shift is None:
        return None
    return {
        "from": days[shift.place + 1].isoformat(), "before": _count(shift.before), "since": _count(shift.since),
        "one_in": significance.one_chance_in(shift.chance),
    }


def _first_day(day: date, by: str) -> date:
    return day.replace(day=1) if by == "month" else day - timedelta(days=day.weekday())


def _deliveries(seen: list[Seen], own: Mapping[tuple, Tally]) -> list[tuple[Tally, float]]:
    """Each delivery with the share to be expected from its own supplier's rates in the same goods there."""
    parts: dict[UUID, list[tuple[Tally, float]]] = defaultdict(list)
    for each in seen:
        cell = own[each.supplier, each.site, each.form]
        if 0 < cell.defective < cell.opened:
            parts[each.delivery].append((each.tally, cell.rate))
    return [_together(lines) for lines in parts.values()]


def _together(lines: list[tuple[Tally, float]]) -> tuple[Tally, float]:
    tally = sum((each for each, _ in lines), NOTHING)
    share = sum(each.opened * rate for each, rate in lines) / tally.opened if tally.opened else 0.0
    return tally, share
