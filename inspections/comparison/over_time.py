"""What may be said of each supplier beside the others, and how each has done over time, as rows that may be shown."""
from collections import defaultdict
from collections.abc import Mapping
from datetime import date
from typing import Any

from inspections.comparison import case_mix, control_charts, significance
from inspections.comparison.case_mix import Tally
from inspections.comparison.selectors import Counted, Id
from inspections.comparison.significance import AgainstOthers


def design_effect_of(found: Counted) -> float:
    """The factor on the variance by which cartons of one delivery resemble each other.

    Told from the newest deliveries (``found.seen``), each held against others of its own supplier, site and goods. To
    two places: it is known to four in a hundred at best, and what does not move with every signing can be kept.
    """
    return round(significance.design_effect(
        [each.delivery for each in found.seen], [each.cell for each in found.seen], found.seen), 2)


def luck_rows(
    found: Counted, against: Mapping[Id, AgainstOthers], effect: float
) -> dict[Id, dict[str, Any]]:
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
    opened_in: dict[Id, int] = defaultdict(int)
    for (supplier, *_), count in found.counts.items():
        opened_in[supplier] += count.deliveries_opened
    enough = {}
    for supplier, each in against.items():
        if each.is_possible and not case_mix.is_too_few(each.own.opened, opened_in[supplier]):
            enough[supplier] = each
    return {
        supplier: _luck_row(says, min(enough[supplier].worse, enough[supplier].better), among, len(enough), effect)
        for supplier, (says, among) in significance.marks(enough).items()
    }


def _luck_row(says: str, chance: float, among: float, compared: int, effect: float) -> dict[str, Any]:
    return {"says": says, "chance": chance, "among": among, "one_in": significance.one_chance_in(chance),
            "compared": compared, "design_effect": effect}


def time_row(spans: Mapping[date, Tally], by: str) -> dict[str, Any]:
    """One supplier's rate over time with the limits it wanders in.

    Parameters
    ----------
    spans : mapping of first day to Tally
        Cartons opened in each span, of this supplier; each with one at least.
    by : {"month", "week"}
        What a span is.

    Returns
    -------
    dict
        ``by`` month or week; ``centre`` and ``is_widened`` (None where too few points say anything); ``needed``
        points for limits; ``points`` in the order of time, each with ``from`` (first day), cartons ``opened``,
        ``defective``, ``low`` and ``high`` counts of defective ones (None without limits, ends in), ``is_out``, and
        the same of the running total (``total``); ``shift`` or None: ``from`` (first day since), ``before``,
        ``since`` and ``one_in``.
    """
    days = sorted(spans)
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
