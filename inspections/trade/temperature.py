"""How cold is the product, which limit does that meet, and can the thermometer be trusted?

Product readings fall into four bands of the quick-frozen regime: within (-18 °C or colder), inside
the transport tolerance (to -15 °C), outside it (to -12 °C), reject or hold (warmer). End points belong
to the colder band (CV-5-30 to CV-5-34). Air and surface readings prompt, they never decide
(CV-5-40, CV-5-51). A reading nearer to a limit than the thermometer's accuracy is said to be so
(CV-5-35). A thermometer stands by its last ice-point check and its due date.
Does not hold for chilled or thawed goods. Logger files and exposure: ``loggers``, ``exposure``.
"""

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from .answer import Beyond, CannotTell, Within, against_limit
from .basis import load_table
from .quantities import MAX_PRODUCT_C, MIN_PRODUCT_C, UnusableReading

TOLERANCES: dict[str, Any] = load_table("tolerances")
NUMBERS: dict[str, float] = TOLERANCES["temperature"]
METHODS = ("between_packs", "core", "surface")
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})\Z")


@dataclass(frozen=True, slots=True)
class Regime:
    """Bounds of the three limits between the four bands, °C, each end point in the colder band."""

    within_c: float
    tolerance_c: float
    reject_c: float


QUICK_FROZEN = Regime(NUMBERS["within_c"], NUMBERS["tolerance_c"], NUMBERS["reject_c"])


@dataclass(frozen=True, slots=True)
class ProductReading:
    """A product temperature and what it means.

    Attributes
    ----------
    product_c : float
        °C.
    band : {"within", "tolerance", "outside", "reject"}
        Band of the reading as it stands.
    coldest_band, warmest_band : same words
        Bands at reading less and plus the accuracy.
    straddles : tuple of float
        Limits that lie closer than the accuracy, °C, coldest first.
    decides : bool
        False for a surface reading, which only prompts.
    """

    product_c: float
    band: str
    coldest_band: str
    warmest_band: str
    straddles: tuple[float, ...]
    decides: bool


def band_of(product_c: float, regime: Regime = QUICK_FROZEN) -> str:
    """The band of an unrounded reading.

    >>> [band_of(c) for c in (-18.0, -17.9, -15.0, -14.9, -12.0, -11.9)]       # CV-5-34
    ['within', 'tolerance', 'tolerance', 'outside', 'outside', 'reject']
    """
    if product_c <= regime.within_c:
        return "within"
    if product_c <= regime.tolerance_c:
        return "tolerance"
    return "outside" if product_c <= regime.reject_c else "reject"


def read_product(
    product_c: float,
    method: str = "between_packs",
    accuracy_c: float = NUMBERS["accuracy_c"],
    regime: Regime = QUICK_FROZEN,
) -> ProductReading:
    """What a product temperature means.

    Parameters
    ----------
    product_c : float
        °C, -90 to +60.
    method : {"between_packs", "core", "surface"}
        How it was probed; the allowance for a between-pack reading is taken off in ``probing``.
    accuracy_c : float
        Stated accuracy of the thermometer, plus or minus, °C, 0 or more.
    regime : Regime
        Bounds; quick-frozen by default.

    Returns
    -------
    ProductReading
        A limit straddles when it lies strictly closer to the reading than the accuracy.

    Raises
    ------
    UnusableReading
        TEMP-01 colder than -90 °C; TEMP-02 warmer than +60 °C; TEMP-03 no such method or accuracy.

    Examples
    --------
    >>> reading = read_product(-14.6)           # CV-5-35
    >>> reading.band, reading.straddles
    ('outside', (-15.0,))
    """
    _check_celsius(product_c)
    if method not in METHODS or not accuracy_c >= 0.0:
        raise UnusableReading("TEMP-03", {"method": method})
    straddles = tuple(
        bound
        for bound in (regime.within_c, regime.tolerance_c, regime.reject_c)
        if product_c - accuracy_c < bound < product_c + accuracy_c
    )
    return ProductReading(
        product_c,
        band_of(product_c, regime),
        band_of(product_c - accuracy_c, regime),
        band_of(product_c + accuracy_c, regime),
        straddles,
        method != "surface",
    )


def judge_product(
    product_c: float, bound_c: float, method: str = "between_packs", accuracy_c: float = NUMBERS["accuracy_c"]
) -> Within | Beyond | CannotTell:
    """One product temperature against one limit, end point in; cannot tell (TEMP-SURFACE) from a surface.

    Facts say whether the limit lies inside the accuracy. Errors as ``read_product``.
    """
    _check_celsius(product_c)
    if method not in METHODS or not accuracy_c >= 0.0:
        raise UnusableReading("TEMP-03", {"method": method})
    if method == "surface":
        return CannotTell(("TEMP-SURFACE",), {"product_c": product_c})
    is_near = product_c - accuracy_c < bound_c < product_c + accuracy_c
    return against_limit(product_c, "C", bound_c, "at_most", {"accuracy_c": accuracy_c, "is_near": is_near})


def warmest(readings_c: list[float]) -> float | None:
    """The warmest of some readings, °C, which is the one that counts; None of none."""
    best = None
    for celsius in readings_c:
        if best is None or celsius > best:
            best = celsius
    return best


def air_prompts(air_c: float, regime: Regime = QUICK_FROZEN) -> bool:
    """Whether vehicle air asks for more probing: warmer than the transport tolerance (never a verdict)."""
    _check_celsius(air_c)
    return air_c > regime.tolerance_c


def judge_storage_air(air_c: float, max_c: float = NUMBERS["storage_air_c"]) -> Within | Beyond:
    """Freezer air against the house limit of -20 °C, end point in (CV-5-22, common practice)."""
    _check_celsius(air_c)
    return against_limit(air_c, "C", max_c, "at_most")


def judge_ice_point(reading_c: float, allowed_c: float = NUMBERS["ice_point_c"]) -> Within | Beyond:
    """An ice-point check: how far from 0 °C, at most 1.0 °C (house strict: 0.5 °C), end point in (CV-5-56).

    >>> judge_ice_point(-1.0).kind, judge_ice_point(1.1).kind
    ('within', 'beyond')
    """
    _check_celsius(reading_c)
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
    is_stricter = own_c is not None and 0.0 < own_c < NUMBERS["ice_point_c"]
    return own_c if is_stricter else NUMBERS["ice_point_c"]


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


def explain_product(
    product_c: float,
    method: str = "between_packs",
    accuracy_c: float = NUMBERS["accuracy_c"],
    regime: Regime = QUICK_FROZEN,
) -> dict[str, Any]:
    """Why: formula, numbers, limits and sources of a product temperature, as JSON; errors as ``read_product``."""
    reading = read_product(product_c, method, accuracy_c, regime)
    basis = TOLERANCES["basis"]
    return {
        "formula": "°C = (°F - 32) x 5 / 9; compared unrounded, the end point belongs to the colder band",
        "numbers": {
            "product_c": product_c,
            "accuracy_c": accuracy_c,
            "method": method,
            "band": reading.band,
            "straddles": list(reading.straddles),
        },
        "limit": {"within_c": regime.within_c, "tolerance_c": regime.tolerance_c, "reject_c": regime.reject_c},
        "source": [basis["product"], basis["transport"], basis["outside"], basis["reject"], basis["straddle"]],
    }


def explain_thermometer(thermometer: Thermometer, last_check_c: float | None) -> dict[str, Any]:
    """Why: numbers, limits and sources of a thermometer's standing, as JSON."""
    return {
        "formula": "distance of the ice-point reading from 0 °C; overdue from the day after the due date",
        "numbers": {"last_check_c": last_check_c, "state": thermometer.state, "due_on": thermometer.due_on},
        "limit": {"bound": NUMBERS["ice_point_c"], "sense": "at_most"},
        "source": [TOLERANCES["basis"]["ice_point"], TOLERANCES["basis"]["ice_due"]],
    }


def _check_celsius(celsius: float) -> None:
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
