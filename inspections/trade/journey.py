"""What did the goods go through on the way, by the logger's file?

The journey ends when the goods arrived at the dock and begins when they left, where that was told, else with
the first reading. Only the journey is counted: a logger is often started in a warm office and read out hours
after it was taken from the load. Between readings the temperature runs straight, a gap says nothing
(``exposure``). What is odd about the file is said (``logger_remarks``), what is drawn is laid out once
(``logger_plot``). A logger tells of the air or the carton where it lay: it prompts, it never sets a verdict.
The words and the whole result: ``logger_reading``. Not mirrored in TypeScript: the server alone reads files.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from .exposure import (
    ACTIVATION_K,
    GAP_FACTOR,
    LIFE,
    Course,
    Logged,
    excursions,
    gap_minutes,
    life_used_of,
    mean_kinetic_of,
    minutes_above,
    storage_life_months,
    usual_interval_s,
)
from .loggers import LoggerFile, on_clock
from .quantities import UnusableReading
from .thermometer import NUMBERS, TOLERANCES
from .wording import WORDS, filled

#: Changes when the same file would be read or reckoned otherwise; kept with every reading.
METHOD = "logger-1"
SHELL_ON = ("HOSO", "HLSO", "EZP")
R_J = 8.3144
WORDS_OF_A_LOG: dict[str, str] = WORDS["logger"]


@dataclass(frozen=True, slots=True)
class Journey:
    """When the goods arrived and, if it was told, when they left: seconds since 1970."""

    arrived_s: float
    left_s: float | None = None


@dataclass(frozen=True, slots=True)
class LogLimit:
    """A limit that a log is held against: °C, what it is called, and where each name comes from."""

    limit_c: float
    names: tuple[str, ...]
    basis: tuple[Mapping[str, Any], ...]


#: Limits of a set that speak of the cold of a load, warmest last.
HOUSE_LIMITS = ("product_c.within", "product_c.tolerance", "vehicle_air_c", "product_c.reject")


def log_limits(limits: Iterable[Mapping[str, Any]]) -> list[LogLimit]:
    """The limits for a log, coldest first: -18 °C, the transport tolerance of -15 °C, and the house's own.

    Parameters
    ----------
    limits : iterable of mapping
        The limits of the delivery's set, as ``limits.json`` writes them.

    Examples
    --------
    >>> from inspections.trade.limits import DEFAULT_LIMITS
    >>> [(one.limit_c, one.names[0]) for one in log_limits(DEFAULT_LIMITS["limits"])]
    [(-18.0, 'quick-frozen'), (-15.0, 'transport tolerance'), (-12.0, 'house: reject or hold')]
    """
    basis = TOLERANCES["basis"]
    named = [
        (NUMBERS["within_c"], WORDS_OF_A_LOG["limit_quick_frozen"], basis["product"]),
        (NUMBERS["tolerance_c"], WORDS_OF_A_LOG["limit_transport"], basis["transport"]),
    ]
    by_code = {limit["code"]: limit for limit in limits}
    for code in HOUSE_LIMITS:
        limit = by_code.get(code)
        if limit is not None and limit.get("unit") == "C" and isinstance(limit.get("bound"), (int, float)):
            named.append((float(limit["bound"]), WORDS_OF_A_LOG["limit_" + code.replace(".", "_")], limit["basis"]))
    merged: dict[float, list[tuple[str, Mapping[str, Any]]]] = {}
    for limit_c, name, source in named:
        merged.setdefault(limit_c, []).append((name, source))
    return [
        LogLimit(limit_c, tuple(name for name, _ in told), tuple(source for _, source in told))
        for limit_c, told in sorted(merged.items())
    ]


@dataclass(frozen=True, slots=True)
class Goods:
    """Goods on the journey: their row of the storage-life table, their name, and whether they are cooked."""

    product: str
    name: str
    is_cooked: bool


def life_product(presentation: str) -> str:
    """The row of the storage-life table that is nearest to goods of this presentation.

    The table has prawns in shell and peeled, both cooked; it has no row for raw ones (CV-5-80, CV-5-81).
    """
    return "shell_on_cooked" if presentation in SHELL_ON else "peeled_cooked"


def need_clock(log: LoggerFile, zone_minutes: int | None) -> LoggerFile:
    """The file on a clock with a zone.

    Raises
    ------
    UnusableReading
        LOG-07 its times have no zone and none was told.
    """
    if log.has_zone:
        return log
    if zone_minutes is None:
        raise UnusableReading("LOG-07", {"readings": len(log.readings)})
    return on_clock(log, zone_minutes)


def between(logged: Sequence[Logged], from_s: float, to_s: float) -> list[Logged]:
    """The readings from one moment to another, with the ends drawn straight; a gap is not bridged.

    ``logged`` is one reading or more, in time order.

    Examples
    --------
    >>> between([Logged(0.0, -20.0), Logged(600.0, -10.0)], 300.0, 900.0)
    [Logged(at_s=300.0, celsius=-15.0), Logged(at_s=600.0, celsius=-10.0)]
    """
    kept = list(logged[bisect_left(logged, from_s, key=_at_s) : bisect_right(logged, to_s, key=_at_s)])
    for at_s in (from_s, to_s):
        place = bisect_left(logged, at_s, key=_at_s)
        before, after = logged[max(place - 1, 0)], logged[min(place, len(logged) - 1)]
        is_unbroken = after.at_s - before.at_s <= usual_interval_s(logged) * GAP_FACTOR
        if before.at_s < at_s < after.at_s and is_unbroken:
            share = (at_s - before.at_s) / (after.at_s - before.at_s)
            kept.append(Logged(at_s, before.celsius + (after.celsius - before.celsius) * share))
    return sorted(kept, key=_at_s)


def _at_s(each: Logged) -> float:
    return each.at_s


def gaps_of(logged: Sequence[Logged]) -> list[tuple[float, float]]:
    """Beginning and end of each stretch without a reading that is longer than four usual intervals."""
    longest = usual_interval_s(logged) * GAP_FACTOR
    return [(a.at_s, b.at_s) for a, b in pairwise(logged) if b.at_s - a.at_s > longest]


def journey_of(log: LoggerFile, journey: Journey) -> Course:
    """The readings that are counted: from leaving (or the first reading) to arrival."""
    from_s = log.readings[0].at_s if journey.left_s is None else journey.left_s
    return Course(between(log.readings, from_s, journey.arrived_s))


def figures_of(counted_log: Sequence[Logged], limits: Sequence[LogLimit], products: Iterable[str]) -> dict[str, Any]:
    """What a stretch of readings amounts to, numbers only; nothing is rounded.

    Parameters
    ----------
    counted_log : sequence of Logged
        Two or more, on a clock.
    limits : sequence of LogLimit
    products : iterable of str
        Rows of the storage-life table.

    Returns
    -------
    dict
        ``from_s to_s minutes coldest_c warmest_c mean_kinetic_c gap_minutes``, ``limits`` (limit_c, minutes,
        count, excursions) and ``life`` (product, share, days_at_18).
    """
    celsius = [each.celsius for each in counted_log]
    return {
        "from_s": counted_log[0].at_s,
        "to_s": counted_log[-1].at_s,
        "minutes": (counted_log[-1].at_s - counted_log[0].at_s) / 60.0,
        "coldest_c": min(celsius),
        "warmest_c": max(celsius),
        "mean_kinetic_c": mean_kinetic_of(counted_log),
        "gap_minutes": gap_minutes(counted_log),
        "limits": [_against(counted_log, one) for one in limits],
        "life": [_life(counted_log, product) for product in dict.fromkeys(products)],
    }


def _against(logged: Sequence[Logged], limit: LogLimit) -> dict[str, Any]:
    found = excursions(logged, limit.limit_c)
    return {
        "limit_c": limit.limit_c,
        "minutes": minutes_above(logged, limit.limit_c),
        "count": len(found),
        "excursions": [
            {"from_s": one.from_s, "to_s": one.to_s, "minutes": one.minutes, "warmest_c": one.warmest_c}
            for one in found
        ],
    }


def _life(logged: Sequence[Logged], product: str) -> dict[str, Any]:
    share = life_used_of(logged, product)
    months = storage_life_months(NUMBERS["within_c"], LIFE["products"][product]["points"])
    return {"product": product, "share": share, "days_at_18": share * months * LIFE["days_per_month"]}


def explain_log() -> dict[str, Any]:
    """Formulas, constants and sources of a log's figures, as JSON, for whoever wants to recompute them."""
    basis = TOLERANCES["basis"]
    return {
        "method": METHOD,
        "mean_kinetic": filled(
            WORDS_OF_A_LOG["explain_mkt"], {"kj": f"{ACTIVATION_K * R_J / 1000:.3f}", "r": f"{R_J:.4f}"}
        ),
        "mean_kinetic_basis": basis["mkt"],
        "life": WORDS_OF_A_LOG["explain_life"],
        "life_basis": basis["life"],
        "caution": WORDS_OF_A_LOG["caution"],
    }
