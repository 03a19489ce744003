"""Is the declared net weight there: on average, and in each unit?

Average by the United States test (mean error plus sample correction factor times spread) or the
European one (mean above nominal less t(0.995) s / root n); one unit by the tolerable deficiency T
of 76/211/EEC and OIML R 87 (T1 = T, T2 = 2 T), or by the maximum allowable variation of HB 133.
A kitchen weighs a few units where the law weighs dozens: this is screening, not a legal
net-contents test (CV-4-98). Tables: ``data/tolerances.json``, each with how surely it is known.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt
from typing import Any

from .answer import Beyond, CannotTell, Within, against_limit
from .glaze import SCREENING, TOLERANCES
from .quantities import UnusableReading
from .uniformity import check_weight

# Decimal weights carry a rounding of far less than this, and no scale shows so little.
ROUNDING_G = 1e-6


@dataclass(frozen=True, slots=True)
class Deficiency:
    """Tolerable deficiency of one unit, g, and the least net weights within T1 and T2, g."""

    tolerable_g: float
    least_t1_g: float
    least_t2_g: float
    known: str
    cv: str


@dataclass(frozen=True, slots=True)
class Spread:
    """Mean error (found less declared) and standard deviation of some units, g."""

    units: int
    mean_error_g: float
    deviation_g: float


def shortage_g(declared_g: float, found_g: float) -> float:
    """Declared less found, g; positive is short (CV-4-07). Errors: WEIGHT-01, WEIGHT-02."""
    check_weight(declared_g)
    check_weight(found_g)
    return declared_g - found_g


def tolerable_deficiency(nominal_g: float) -> Deficiency:
    """Tolerable deficiency of one unit by 76/211/EEC Annex I and OIML R 87 Table 1.

    Parameters
    ----------
    nominal_g : float
        Declared net weight, g, 5 or more. Above 10 kg only R 87 has a row (from memory).

    Returns
    -------
    Deficiency
        Percentages are turned to g and rounded up to the next 0.1 g (CV-4-79).

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; NET-01 below 5 g.

    Examples
    --------
    >>> tolerable_deficiency(2270.0).tolerable_g        # CV-4-88
    34.1
    """
    check_weight(nominal_g)
    if nominal_g < TOLERANCES["tolerable_over_g"]:
        raise UnusableReading("NET-01", {"declared_g": nominal_g})
    row = next(row for row in TOLERANCES["tolerable"] if row["to_g"] is None or nominal_g <= row["to_g"])
    tenths = row["value"]
    if row["kind"] == "tenths_of_percent":
        tenths = ceil(nominal_g * row["value"] / 100.0)
    tolerable = tenths / 10.0
    return Deficiency(tolerable, nominal_g - tolerable, nominal_g - 2.0 * tolerable, row["known"], row["cv"])


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How much one unit may be short by the table of a market: T of 76/211/EEC and OIML R 87, or MAV of HB 133."""

    table: str
    tolerable_g: float
    known: str
    cv: str


def tolerance_for(market: str, declared_g: float) -> Tolerance | None:
    """The published tolerance of one unit for a market.

    Parameters
    ----------
    market : {"EU", "US", "ANZ", "CODEX"}
        The United States use the maximum allowable variation, the others the tolerable deficiency. CXS 92
        gives no number of its own (CV-1-38).
    declared_g : float
        g, above 0.

    Returns
    -------
    Tolerance or None
        None where no row of the table is held here: below 5 g, or a gap of the MAV table.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02.

    Examples
    --------
    >>> tolerance_for("EU", 2000.0).tolerable_g, tolerance_for("US", 2000.0).tolerable_g      # CV-4-87, CV-4-53
    (30.0, 54.4)
    """
    check_weight(declared_g)
    if market == "US":
        allowed_g = maximum_allowable_variation(declared_g)
        return None if allowed_g is None else Tolerance("MAV", allowed_g, "from_memory", "CV-4-22")
    if declared_g < TOLERANCES["tolerable_over_g"]:
        return None
    deficiency = tolerable_deficiency(declared_g)
    return Tolerance("T", deficiency.tolerable_g, deficiency.known, deficiency.cv)


def short_percent(found_g: float, declared_g: float) -> float:
    """Shortage in percent of the declared weight; negative is over. Errors as ``shortage_g``.

    >>> short_percent(9620.0, 10000.0)
    3.8
    """
    return 100.0 * shortage_g(declared_g, found_g) / declared_g


def is_short_beyond(declared_g: float, found_g: float, tolerable_g: float) -> bool:
    """Whether one unit is short by more than the tolerance; the end point is fine.

    A shortage within ``ROUNDING_G`` of the tolerance is on it, so that 1945.6 g of 2000 g is short by 54.4 g and
    not by a rounding more.

    >>> is_short_beyond(2000.0, 1945.6, 54.4), is_short_beyond(2000.0, 1945.5, 54.4)       # CV-4-53
    (False, True)
    """
    return declared_g - found_g > tolerable_g + ROUNDING_G


def maximum_allowable_variation(label_g: float) -> float | None:
    """HB 133 Table 2-5: how much one pack may be short, g; None where the table's row is not held here.

    Every row is from memory (CV-4-40 to CV-4-65); above 24.67 kg 2 % of the label.

    >>> maximum_allowable_variation(907.0)      # CV-4-31
    31.7
    """
    check_weight(label_g)
    for row in TOLERANCES["mav"]:
        if label_g > row["over_g"] and (row["to_g"] is None or label_g <= row["to_g"]):
            allowed_g: float = label_g * TOLERANCES["mav_share_above"] if row["mav_g"] is None else row["mav_g"]
            return allowed_g
    return None


def spread_of_units(declared_g: float, found_g: Sequence[float]) -> Spread:
    """Mean error and standard deviation (n - 1) of weighed units, summed in the order given.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02; NET-02 no unit weighed.
    """
    errors = [-shortage_g(declared_g, weight_g) for weight_g in found_g]
    if not errors:
        raise UnusableReading("NET-02")
    total = 0.0
    for error in errors:
        total = total + error
    mean = total / len(errors)
    squares = 0.0
    for error in errors:
        squares = squares + (error - mean) * (error - mean)
    return Spread(len(errors), mean, sqrt(squares / (len(errors) - 1)) if len(errors) > 1 else 0.0)


def sample_correction_factor(units: int) -> float:
    """t(0.975, n - 1) / root n of HB 133 Table 2-1, for 2 units or more (CV-4-29)."""
    return _t("t975", units) / sqrt(units)


def judge_average_us(declared_g: float, found_g: Sequence[float]) -> Within | Beyond | CannotTell:
    """Average requirement of HB 133: mean error plus SCF times spread is not below zero (CV-4-30).

    Returns
    -------
    Within, Beyond or CannotTell
        Measured is the mean error plus the allowance, g, fine at zero or above (the mean error
        itself where that is not negative). Cannot tell NET-ONE-UNIT: one unit, and it is short.

    Raises
    ------
    UnusableReading
        As ``spread_of_units``.
    """
    spread = spread_of_units(declared_g, found_g)
    facts = _average_facts(spread)
    if spread.mean_error_g >= 0.0:
        return Within(spread.mean_error_g, "g", facts)
    if spread.units < 2:
        return CannotTell(("NET-ONE-UNIT",), facts)
    factor = sample_correction_factor(spread.units)
    allowance_g = factor * spread.deviation_g
    facts |= {"factor": factor, "allowance_g": allowance_g}
    return against_limit(spread.mean_error_g + allowance_g, "g", 0.0, "at_least", facts)


def judge_average_eu(declared_g: float, found_g: Sequence[float]) -> Within | Beyond | CannotTell:
    """Mean test of 76/211/EEC: mean above nominal less t(0.995) s / root n, strictly (CV-4-91).

    Units that all weigh exactly the nominal are within. Returns and errors as
    ``judge_average_us``; measured is the mean error, g.
    """
    spread = spread_of_units(declared_g, found_g)
    facts = _average_facts(spread)
    if spread.mean_error_g >= 0.0:
        return Within(spread.mean_error_g, "g", facts)
    if spread.units < 2:
        return CannotTell(("NET-ONE-UNIT",), facts)
    factor = _t("t995", spread.units) / sqrt(spread.units)
    allowance_g = factor * spread.deviation_g
    facts |= {"factor": factor, "allowance_g": allowance_g}
    return against_limit(spread.mean_error_g, "g", -allowance_g, "above", facts)


def claim_amount(cartons: int, declared_g: float, mean_found_g: float, price_per_kg: float) -> float:
    """Cartons x mean shortage x price, in the money of the price, unrounded; 0 where nothing is short.

    >>> round(claim_amount(40, 10000.0, 9620.0, 14.50), 2)      # CV-4-09
    220.4
    """
    short_g = shortage_g(declared_g, mean_found_g)
    return cartons * short_g / 1000.0 * price_per_kg if short_g > 0.0 else 0.0


def _average_facts(spread: Spread) -> dict[str, Any]:
    return {
        "units": spread.units,
        "mean_error_g": spread.mean_error_g,
        "deviation_g": spread.deviation_g,
        "screening": SCREENING,
    }


def _t(table: str, units: int) -> float:
    """Student's t for n units; between rows the next smaller n is taken, which accuses less."""
    if units < 2:
        raise UnusableReading("NET-02")
    best: float = TOLERANCES[table][0][1]
    for row_units, value in TOLERANCES[table]:
        if row_units <= units:
            best = value
    return best
