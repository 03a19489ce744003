"""How cold is the product in an opened carton, by this probe, laid in this way, with this thermometer? And the freezer?

Method. The reading is held against three bounds, warmest first, unrounded (CV-5-30 to CV-5-34). A surface reading
never decides (CV-5-51). A reading between packs shows the product through its packing, so the trade agrees an
allowance for it, often 2 °C (CV-5-41, from memory): the two bounds that lead to a hold or a rejection are met
when the reading less the allowance meets them. Every reason says so when it was applied. The colder bound,
which only asks for a note, has no allowance.

The thermometer stands by its last check in crushed ice, as it was on the day of the reading. Overdue, failed,
unchecked or unknown weakens the evidence and is said in a note. It never makes a warm reading pass and never
rejects by itself. Where the error in ice is known, the reading less that error is looked at too: when the two
lie on different sides of a bound, the reading is called doubtful, and a carton that was within becomes "cannot
tell". Beyond stays beyond.
A reading far above zero whose minus sign would make it frozen is a slip of the thumb until the receiver says it is
none. Does not hold: that the error at 0 °C is the error at -18 °C is taken, not known; a laboratory's certificate over
the range is better evidence.
"""

from __future__ import annotations

from typing import Any

from .carton_facts import CartonFacts, ThermometerFacts
from .entries import day_text
from .findings import BEYOND, CANNOT_TELL, WITHIN, Finding, Judged
from .limits import Limit, Limits
from .thermometer import Thermometer, thermometer_on

BETWEEN_PACKS = "between_packs"
# Warmest first: the first bound that a reading is past gives the finding.
_EASED = (("product_c.reject", "TEMP-REJECT"), ("product_c.tolerance", "TEMP-OUTSIDE"))
_STANDING = {
    "overdue": ("TEMP-PROBE-OVERDUE", "thermometer.overdue", BEYOND),
    "failed": ("TEMP-PROBE-FAILED", "thermometer.ice_point", BEYOND),
    "unchecked": ("TEMP-PROBE-UNCHECKED", "thermometer.unknown", CANNOT_TELL),
}


def allowance_c(probe: str | None, limits: Limits) -> float:
    """What is allowed for the way of probing, °C: none but between packs (CV-5-41)."""
    return (limits["product_c.between_packs"].bound or 0.0) if probe == BETWEEN_PACKS else 0.0


def is_sign_doubtful(carton: CartonFacts, limits: Limits) -> bool:
    """Whether a reading above zero looks like a minus left out: with it, the goods would not be refused (CV-12-14)."""
    measured, reject = carton.product_c, limits["product_c.reject"]
    return measured is not None and measured > 0.0 and not carton.is_sign_sure and reject.is_fine(-measured)


def counts_as_reading(carton: CartonFacts, limits: Limits) -> bool:
    """Whether a carton has a product temperature that can decide: not of a surface, its sign not in doubt."""
    return carton.product_c is not None and carton.probe != "surface" and not is_sign_doubtful(carton, limits)


def judge_probe(carton: CartonFacts, arrived_day: int | None, limits: Limits) -> Judged:
    """The product reading of a carton against the three bounds, and the thermometer that gave it.

    Parameters
    ----------
    carton : CartonFacts
    arrived_day : int or None
        Day of the reading, as a day number.
    limits : Limits

    Returns
    -------
    Judged
        Checks ``product_c`` and ``thermometer``; derived ``product_c`` (°C, as read, or None).
    """
    judged = Judged()
    measured = carton.product_c
    judged.derived["product_c"] = measured
    if measured is None:
        judged.leave("product_c", "thermometer")
        return judged
    typed = {"typed": list(carton.product_typed)}
    if is_sign_doubtful(carton, limits):
        judged.checks["product_c"] = CANNOT_TELL
        facts = {**typed, "meant_c": -measured}
        judged.findings.append(Finding("TEMP-SIGN", limits["product_c.sign"], measured, "C", facts=facts))
    elif carton.probe == "surface":
        judged.checks["product_c"] = CANNOT_TELL
        judged.findings.append(Finding("TEMP-SURFACE", limits["product_c.surface"], measured, "C", facts=typed))
    else:
        _judge_reading(judged, measured, allowance_c(carton.probe, limits), typed, limits)
        _note_near_bound(judged, measured, allowance_c(carton.probe, limits), limits)
    judge_thermometer(judged, carton.thermometer, arrived_day, limits, "product")
    if counts_as_reading(carton, limits) and carton.thermometer is not None:
        _note_doubt(judged, measured, carton.thermometer, allowance_c(carton.probe, limits), limits)
    return judged


def _judge_reading(
    judged: Judged, measured: float, allowed_c: float, typed: dict[str, list[str]], limits: Limits
) -> None:
    judged.checks["product_c"] = WITHIN
    for code, finding in _EASED:
        limit = limits[code]
        if limit.is_fine(measured - allowed_c):
            continue
        facts = {"allowance_c": allowed_c, **typed}
        judged.checks["product_c"] = BEYOND
        judged.findings.append(Finding(finding, limit, measured, "C", limit.bound, limit.sense, facts))
        return
    _note_allowance(judged, measured, allowed_c, typed, limits)
    within, tolerance = limits["product_c.within"], limits["product_c.tolerance"]
    if tolerance.is_fine(measured) and not within.is_fine(measured):
        facts = {"allowance_c": 0.0, **typed}
        judged.findings.append(Finding("TEMP-TOLERANCE", within, measured, "C", within.bound, within.sense, facts))


def _note_allowance(
    judged: Judged, measured: float, allowed_c: float, typed: dict[str, list[str]], limits: Limits
) -> None:
    """Past a bound as read, not past it with the allowance: the warmest such bound is named."""
    for code, _ in _EASED:
        limit = limits[code]
        if limit.is_fine(measured) or not limit.is_fine(measured - allowed_c):
            continue
        judged.checks["product_c"] = CANNOT_TELL
        facts = {"allowance_c": allowed_c, **typed}
        own = limits["product_c.between_packs"]
        judged.findings.append(Finding("TEMP-BETWEEN", own, measured, "C", limit.bound, limit.sense, facts))
        return


def _note_near_bound(judged: Judged, measured: float, allowed_c: float, limits: Limits) -> None:
    """A reading closer to a bound than the thermometer can tell is said to be near it (CV-5-35)."""
    limit = limits["product_c.accuracy"]
    accuracy = limit.bound
    for code, _ in _EASED:
        bound = limits[code].bound
        if bound is None or accuracy is None or not abs(measured - (bound + allowed_c)) < accuracy:
            continue
        facts = {"accuracy_c": accuracy, "allowance_c": allowed_c}
        sense = limits[code].sense
        judged.findings.append(Finding("TEMP-NEAR", limit, measured, "C", bound + allowed_c, sense, facts))
        return


def judge_thermometer(
    judged: Judged, thermometer: ThermometerFacts | None, day: int | None, limits: Limits, what: str
) -> None:
    """Record how the thermometer of a reading stood.

    Parameters
    ----------
    judged : Judged
        Gets the check ``thermometer`` and at most one finding, of a code TEMP-PROBE-….
    thermometer : ThermometerFacts or None
        None is not checked: ``unknown_thermometers`` says so once for a line.
    day : int or None
        Day number of the reading; without it a check is not called overdue.
    limits : Limits
    what : {"product", "air"}
        What was measured, for the sentence.
    """
    if thermometer is None:
        judged.leave("thermometer")
        return
    limit = limits["thermometer.ice_point"]
    standing = standing_of(thermometer, day, limit)
    if standing.state == "passed":
        judged.checks["thermometer"] = WITHIN
        return
    code, limit_code, judged.checks["thermometer"] = _STANDING[standing.state]
    facts: dict[str, Any] = {"what": what, "thermometer": thermometer.name, "due_on": standing.due_on or ""}
    if standing.state == "failed":
        measured = abs(thermometer.ice_c or 0.0)
        facts["ice_c"] = thermometer.ice_c
        judged.findings.append(Finding(code, limit, measured, "degrees", limit.bound, limit.sense, facts))
    else:
        judged.findings.append(Finding(code, limits[limit_code], facts=facts))


def standing_of(thermometer: ThermometerFacts, day: int | None, limit: Limit) -> Thermometer:
    """The standing of a thermometer on a day, as ``thermometer.thermometer_on`` gives it."""
    checked = thermometer.checked_day
    today = day if day is not None else checked
    return thermometer_on(
        "0001-01-01" if today is None else day_text(today),
        None if checked is None else day_text(checked),
        thermometer.ice_c,
        None if thermometer.due_day is None else day_text(thermometer.due_day),
        limit.bound or 0.0,
    )


def _note_doubt(
    judged: Judged, measured: float, thermometer: ThermometerFacts, allowed_c: float, limits: Limits
) -> None:
    """The reading less the error in ice lies on the other side of a bound: it cannot tell."""
    if thermometer.ice_c is None:
        return
    corrected = measured - thermometer.ice_c
    for code, eased_c in (
        ("product_c.reject", allowed_c),
        ("product_c.tolerance", allowed_c),
        ("product_c.within", 0.0),
    ):
        bound = limits[code]
        if bound.is_fine(measured - eased_c) == bound.is_fine(corrected - eased_c):
            continue
        if judged.checks["product_c"] == WITHIN:
            judged.checks["product_c"] = CANNOT_TELL
        limit = limits["thermometer.doubt"]
        facts: dict[str, Any] = {"ice_c": thermometer.ice_c, "corrected_c": corrected, "allowance_c": eased_c}
        facts["thermometer"] = thermometer.name
        judged.findings.append(Finding("TEMP-PROBE-DOUBT", limit, measured, "C", bound.bound, bound.sense, facts))
        return


def unknown_thermometers(cartons: tuple[CartonFacts, ...], limits: Limits) -> list[Finding]:
    """One note for a line whose readings do not say with which thermometer, and how it stood."""
    readings = [carton for carton in cartons if carton.product_c is not None]
    unknown = sum(1 for carton in readings if carton.thermometer is None)
    if unknown == 0:
        return []
    facts = {"unknown": unknown, "readings": len(readings)}
    return [Finding("TEMP-PROBE-UNKNOWN", limits["thermometer.unknown"], facts=facts)]
