"""Can this thermometer be trusted on this day?

It stands by its last check in crushed ice, which reads 0 °C, and by the day on which the next check is due. What it
measured is judged in ``temperature``.
"""

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from .answer import Beyond, Within, against_limit
from .basis import load_table
from .quantities import MAX_PRODUCT_C, MIN_PRODUCT_C, UnusableReading

TOLERANCES: dict[str, Any] = load_table("tolerances")
NUMBERS: dict[str, float] = TOLERANCES["temperature"]
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})\Z")


def judge_ice_point(reading_c: float, allowed_c: float = NUMBERS["ice_point_c"]) -> Within | Beyond:
    """An ice-point check: how far from 0 °C, at most 1.0 °C (house strict: 0.5 °C), end point in (CV-5-56).

    >>> judge_ice_point(-1.0).kind, judge_ice_point(1.1).kind
    ('within', 'beyond')
    """
    check_celsius(reading_c)
    return against_limit(abs(reading_c), "C", allowed_c, "at_most", {"reading_c": reading_c})


def ice_point_allowed_c(own_c: float | None) -> float:
    """How far from 0 °C a check in ice may read: the documented 1.0 °C, or a group's own limit where that is stricter.

    Parameters
    ----------
    own_c : float or None
        The group's limit, °C; None where it has none. 0 or less could never be kept to and counts as none.

    >>> ice_point_allowed_c(0.5), ice_point_allowed_c(2.0), ice_point_allowed_c(None)
    (0.5, 1.0, 1.0)
    """
    documented_c: float = NUMBERS["ice_point_c"]
    return own_c if own_c is not None and 0.0 < own_c < documented_c else documented_c


@dataclass(frozen=True, slots=True)
class Thermometer:
    """A thermometer's standing on a day.

    Attributes
    ----------
    state : {"passed", "failed", "overdue", "unchecked"}
        Failed beats overdue; unchecked = no ice-point check on record.
    due_on : str or None
        ISO date on which the next check is due; overdue from the day after.
    is_trusted : bool
        True only for "passed".
    """

    state: str
    due_on: str | None
    is_trusted: bool


def thermometer_on(
    day: str,
    last_checked_on: str | None,
    last_check_c: float | None,
    check_due_on: str | None = None,
    allowed_c: float = NUMBERS["ice_point_c"],
) -> Thermometer:
    """Whether a thermometer can be trusted on a day.

    Parameters
    ----------
    day, last_checked_on, check_due_on : str
        ISO dates, ``2026-11-25``. Without a due date the check holds 30 days (common practice).
    last_check_c : float
        What it read in crushed ice, °C.
    allowed_c : float
        Distance from 0 °C that still passes, end point in.

    Raises
    ------
    UnusableReading
        DATE-01 not a date of the calendar.

    Examples
    --------
    >>> thermometer_on("2026-11-25", "2026-11-01", 0.4).state
    'passed'
    >>> thermometer_on("2026-12-02", "2026-11-01", 0.4).state
    'overdue'
    """
    today = _ordinal(day)
    if last_checked_on is None or last_check_c is None:
        return Thermometer("unchecked", check_due_on, False)
    checked = _ordinal(last_checked_on)
    due = _ordinal(check_due_on) if check_due_on is not None else checked + int(NUMBERS["ice_point_due_days"])
    due_on = date.fromordinal(min(due, date.max.toordinal())).isoformat()
    if abs(last_check_c) > allowed_c:
        return Thermometer("failed", due_on, False)
    state = "overdue" if today > due else "passed"
    return Thermometer(state, due_on, state == "passed")


def check_celsius(celsius: float) -> None:
    """Refuse what no thermometer shows: TEMP-01, TEMP-02."""
    if celsius < MIN_PRODUCT_C:
        raise UnusableReading("TEMP-01", {"entered": celsius, "unit": "C", "min_c": MIN_PRODUCT_C})
    if not celsius <= MAX_PRODUCT_C:
        raise UnusableReading("TEMP-02", {"entered": celsius, "unit": "C", "max_c": MAX_PRODUCT_C})


def _ordinal(day: str) -> int:
    match = _DAY.match(day) if isinstance(day, str) else None
    if match is None:
        raise UnusableReading("DATE-01", {"entered": day})
    try:
        return date(*map(int, match.groups())).toordinal()
    except ValueError as odd:
        raise UnusableReading("DATE-01", {"entered": day}) from odd
