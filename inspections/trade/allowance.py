"""What would the trade take off, when the food is sound but less than was paid for?

Each ground with its sum: cartons that did not come, net weight under the declared (CV-4-09; where only single units are
short beyond their tolerance, what those are short) or under the ordered on every label, prawns smaller than the grade,
pieces of lower quality past their limit over the opened cartons together, and uneven sizes. Quantities only; the price
is the order's. The percentages for quality are a start for talking, not a scale (common practice, no source).
Does not hold: for a line that is refused or held, nor as a legal net-contents test (CV-4-98).
"""

from __future__ import annotations

from typing import Any

from .carton import CartonJudged
from .facts import LineFacts
from .findings import Finding
from .limits import Limit
from .outcome import LineJudged
from .pooled import KIND_OF, pooled_of
from .severity_ranking import effect, is_serious
from .specification import Ordered
from .wording import WORDS, counted, filled, shown_measure, word


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
            if finding.code == "COUNT-BEYOND" and finding.bound is not None:
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


def _less_on_the_label(line: LineJudged, kept: int) -> dict[str, Any] | None:
    """Cartons labelled with less net weight than ordered, where every label read says so."""
    stated = [
        finding.facts
        for carton in line.cartons
        for finding in carton.judged.findings
        if finding.code == "LABEL-NET" and is_serious(finding)
    ]
    if not stated or len(stated) < len(line.cartons):
        return None
    short_g = 0.0
    for facts in stated:
        short_g = short_g + (facts["ordered_g"] - facts["found_g"])
    mean_g = short_g / len(stated)
    quantity = mean_g * kept / 1000.0
    places = {
        "mean_g": shown_measure(mean_g, "g"),
        "cartons": counted(kept, "carton"),
        "quantity": shown_measure(quantity, "kg"),
    }
    return _allowance("label_weight", quantity, "kg", places)


def _quality(line: LineJudged) -> list[dict[str, Any]]:
    """Pieces of lower quality past a limit, where the opened cartons together show it; each kind once."""
    given: list[dict[str, Any]] = []
    for kind, limit, is_low in _kinds(line):
        together = pooled_of(line.cartons, kind)
        if together is None or limit.bound is None or limit.is_fine(together.share):
            continue
        if not is_low and limit.is_fine(together.low):
            continue
        points = 100.0 * together.share - 100.0 * limit.bound
        places = {
            "what": word("not_checked", kind),
            "share": shown_measure(together.share, "share"),
            "bound": shown_measure(limit.bound, "share"),
            "quantity": shown_measure(points, "points"),
        }
        given.append(_allowance("quality", points, "percent", places))
    return given


def _kinds(line: LineJudged) -> list[tuple[str, Limit, bool]]:
    """Kinds of pieces that are a matter of price, with the limit; and whether each carton is a little over."""
    found: dict[str, tuple[Limit, bool]] = {}
    for carton in line.cartons:
        for finding in carton.judged.findings:
            kind = KIND_OF.get(finding.code)
            is_low = line.is_low_throughout and effect(finding) == "defect"
            if kind is not None and kind not in found and (effect(finding) == "quality" or is_low):
                found[kind] = (finding.limit, is_low)
    return [(kind, limit, is_low) for kind, (limit, is_low) in found.items()]


def _uneven(line: LineJudged) -> dict[str, Any] | None:
    """Uneven sizes, where more than half of the cartons measured for it are past the limit."""
    ratios = [ratio for carton in line.cartons if (ratio := carton.judged.derived.get("uniformity")) is not None]
    past = [finding for carton in line.cartons for finding in carton.judged.findings if finding.code == "UNIFORMITY"]
    past = [finding for finding in past if effect(finding) == "quality"]
    if not past or 2 * len(past) <= len(ratios):
        return None
    total, bound = 0.0, past[0].bound or 1.0
    for ratio in ratios:
        total = total + ratio
    mean = total / len(ratios)
    percent = 100.0 * (mean - bound) / bound
    places = {"ratio": shown_measure(mean, "ratio"), "bound": shown_measure(bound, "ratio"),
              "quantity": shown_measure(percent, "percent")}  # fmt: skip
    return _allowance("uniformity", percent, "percent", places) if percent > 0.0 else None


def allowances_for(line: LineJudged, ordered_by: Ordered, kept: int) -> list[dict[str, Any]]:
    """Allowances that the findings of a line would give: cartons, weight, grade, then lower quality.

    Parameters
    ----------
    line : LineJudged
        Its finding NET-MEAN gives the short weight.
    ordered_by : Ordered
    kept : int
        Cartons that stay.

    Returns
    -------
    list of dict
        ``basis``, ``quantity``, ``unit`` (cartons, kg or percent), ``formula`` in words with its numbers.
    """
    found = (
        _short_cartons(line.facts),
        _short_weight(ordered_by, line.cartons, line.line_findings, kept),
        _less_on_the_label(line, kept),
        _smaller_grade(line.cartons),
        *_quality(line),
        _uneven(line),
    )
    return [allowance for allowance in found if allowance is not None]
