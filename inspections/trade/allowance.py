"""What would the trade take off, when the food is sound but less than was paid for?

Four grounds, each with its sum: cartons that did not come, net weight under the declared (CV-4-09; where only single
units are short beyond their tolerance, what those are short), prawns smaller than the grade, and broken over the
limit in cartons kept. Quantities only; the price is the order's.
Does not hold: for a line that is refused or held, nor as a legal net-contents test (CV-4-98).
"""

from __future__ import annotations

from typing import Any

from .carton import CartonJudged
from .facts import LineFacts
from .findings import Finding
from .specification import Ordered
from .wording import WORDS, counted, filled, shown_measure


def _allowance(
    basis: str, quantity: float, unit: str, places: dict[str, str], words: str | None = None
) -> dict[str, Any]:
    formula = filled(WORDS["allowance"][words or basis], places)
    return {"basis": basis, "quantity": quantity, "unit": unit, "formula": formula}


def _short_cartons(line: LineFacts) -> dict[str, Any] | None:
    docket, found = line.cartons_on_docket, line.cartons_counted
    if docket is None or found is None or found >= docket:
        return None
    places = {"docket": str(docket), "counted": str(found), "quantity": counted(docket - found, "carton")}
    return _allowance("short_cartons", docket - found, "cartons", places)


def _short_weight(
    ordered_by: Ordered, cartons: list[CartonJudged], line_findings: list[Finding], kept: int
) -> dict[str, Any] | None:
    """The mean shortage over all cartons kept, or else what the units beyond their tolerance are short."""
    for finding in line_findings:
        if finding.code == "NET-MEAN":
            return _short_mean(finding, ordered_by, kept)
    short_g, units = 0.0, 0
    for carton in cartons:
        for finding in carton.judged.findings:
            if finding.code == "NET-UNIT" and finding.measured is not None:
                short_g, units = short_g + finding.measured, units + 1
    if units == 0:
        return None
    places = {"units": counted(units, "unit"), "quantity": shown_measure(short_g / 1000.0, "kg")}
    return _allowance("short_weight", short_g / 1000.0, "kg", places, "short_units")


def _short_mean(finding: Finding, ordered_by: Ordered, kept: int) -> dict[str, Any]:
    quantity = (finding.measured or 0.0) * ordered_by.units_per_carton * kept / 1000.0
    places = {
        "declared_g": shown_measure(finding.facts["declared_g"], "g"),
        "mean_g": shown_measure(finding.facts["mean_g"], "g"),
        "units": str(ordered_by.units_per_carton),
        "cartons": counted(kept, "carton"),
        "quantity": shown_measure(quantity, "kg"),
    }
    return _allowance("short_weight", quantity, "kg", places)


def _smaller_grade(cartons: list[CartonJudged]) -> dict[str, Any] | None:
    total, cartons_beyond, bound, unit = 0.0, 0, 0.0, "per_lb"
    for carton in cartons:
        for finding in carton.judged.findings:
            if finding.code == "COUNT-BEYOND" and finding.sense != "at_least" and finding.bound is not None:
                total = total + (finding.measured or 0.0)
                cartons_beyond = cartons_beyond + 1
                bound, unit = finding.bound, finding.unit or unit
    if cartons_beyond == 0:
        return None
    mean = total / cartons_beyond
    percent = 100.0 * (mean - bound) / bound
    places = {
        "count": shown_measure(mean, unit),
        "bound": shown_measure(bound, unit),
        "quantity": shown_measure(percent, "percent"),
    }
    return _allowance("grade", percent, "percent", places)


def _broken(cartons: list[CartonJudged]) -> dict[str, Any] | None:
    for carton in cartons:
        for finding in carton.judged.findings:
            if finding.code == "BROKEN-NOTE" and finding.measured is not None and finding.bound is not None:
                points = 100.0 * finding.measured - 100.0 * finding.bound
                places = {
                    "share": shown_measure(finding.measured, "share"),
                    "bound": shown_measure(finding.bound, "share"),
                    "quantity": shown_measure(points, "points"),
                }
                return _allowance("broken", points, "percent", places)
    return None


def allowances_for(
    line: LineFacts, ordered_by: Ordered, cartons: list[CartonJudged], line_findings: list[Finding], kept: int
) -> list[dict[str, Any]]:
    """Allowances that the findings of a line would give, cartons first, then weight, grade, broken.

    Parameters
    ----------
    line : LineFacts
    ordered_by : Ordered
    cartons : list of CartonJudged
    line_findings : list of Finding
        Findings of the line as a whole; NET-MEAN among them gives the short weight.
    kept : int
        Cartons that stay.

    Returns
    -------
    list of dict
        ``basis``, ``quantity``, ``unit`` (cartons, kg or percent), ``formula`` in words with its numbers.
    """
    found = (
        _short_cartons(line),
        _short_weight(ordered_by, cartons, line_findings, kept),
        _smaller_grade(cartons),
        _broken(cartons),
    )
    return [allowance for allowance in found if allowance is not None]
