"""What luck explains of each supplier, and how each has done over time, as rows that may be shown."""
from collections import defaultdict
from collections.abc import Hashable, Mapping
from datetime import date, timedelta
from typing import Any
from uuid import UUID

from inspections.comparison import charts, fair, luck
from inspections.comparison.fair import NOTHING, Tally
from inspections.comparison.lookups import Counted, Seen

Strata = Mapping[Hashable, Tally]
#: Deliveries over fewer days than this are charted week by week, over more month by month.
DAYS_FOR_MONTHS = 150


def luck_rows(found: Counted, by_supplier: Mapping[UUID, Strata], everybody: Strata) -> dict[UUID, dict[str, Any]]:
    """What luck explains of each supplier of whom enough was seen and something is to be expected.

    Parameters
    ----------
    found : Counted
    by_supplier : mapping of supplier to its strata (site and form of goods)
    everybody : mapping of stratum to Tally

    Returns
    -------
    dict of supplier to dict
        ``says`` more, fewer or within; ``chance`` and ``among`` (0 to 1); ``one_in`` N of "1 chance in N" or
        None; ``compared`` suppliers looked at together; ``likeness`` factor on the variance; ``low``, ``high``,
        ``far_low``, ``far_high`` counts of defective cartons within which luck leaves a supplier.
    """
    factor = luck.likeness(_deliveries(found.seen), len(by_supplier))
    counts = {}
    for supplier, own in by_supplier.items():
        opened = sum(own.values(), NOTHING).opened
        visits = sum(visits.opened_in for (who, _), visits in found.visits.items() if who == supplier)
        ratio = fair.observed_over_expected(own, everybody)
        if ratio is not None and not fair.is_too_few(opened, visits):
            counts[supplier] = (ratio.observed, ratio.expected)
    return {
        supplier: {
            "says": each.says, "chance": each.chance, "among": each.among, "one_in": luck.one_chance_in(each.chance),
            "compared": len(counts), "likeness": factor, "low": each.limits[0], "high": each.limits[1],
            "far_low": each.far_limits[0], "far_high": each.far_limits[1],
        }
        for supplier, each in luck.luck_of(counts, factor).items()
    }


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
        ``by`` month or week; ``centre``, ``wander`` and ``is_widened`` (None where too few points say
        anything); ``needed`` points for limits; ``points`` in the order of time, each with ``from`` (first
        day), cartons ``opened``, ``defective``, ``rate``, ``low``, ``high`` (None without limits), ``is_out``.
    """
    spans: dict[date, Tally] = defaultdict(lambda: NOTHING)
    for each in seen:
        spans[_first_day(each.day, by)] += each.tally
    days = sorted(day for day, tally in spans.items() if tally.opened)
    drawn = charts.chart([spans[day] for day in days])
    return {
        "by": by, "needed": charts.MIN_POINTS,
        "centre": drawn.centre if drawn else None, "wander": drawn.wander if drawn else None,
        "is_widened": drawn.is_widened if drawn else None,
        "points": [_point(day, spans[day], drawn.points[place] if drawn else None) for place, day in enumerate(days)],
    }


def _point(day: date, tally: Tally, drawn: charts.Point | None) -> dict[str, Any]:
    return {
        "from": day.isoformat(), "opened": tally.opened, "defective": tally.defective,
        "rate": tally.defective / tally.opened, "low": drawn.low if drawn else None,
        "high": drawn.high if drawn else None, "is_out": drawn.is_out if drawn else False,
    }


def _first_day(day: date, by: str) -> date:
    return day.replace(day=1) if by == "month" else day - timedelta(days=day.weekday())


def _deliveries(seen: list[Seen]) -> list[tuple[Tally, float]]:
    """Each delivery with the share to be expected from its own supplier's rates in the same goods there."""
    own: dict[tuple, Tally] = defaultdict(lambda: NOTHING)
    for each in seen:
        own[each.supplier, each.site, each.form] += each.tally
    parts: dict[UUID, list[tuple[Tally, float]]] = defaultdict(list)
    for each in seen:
        rate = own[each.supplier, each.site, each.form]
        parts[each.delivery].append((each.tally, rate.defective / rate.opened if rate.opened else 0.0))
    return [_together(lines) for lines in parts.values()]


def _together(lines: list[tuple[Tally, float]]) -> tuple[Tally, float]:
    tally = sum((each for each, _ in lines), NOTHING)
    share = sum(each.opened * rate for each, rate in lines) / tally.opened if tally.opened else 0.0
    return tally, share
