"""Accept, accept with allowance, hold, reject, or not ready: what do the findings of a delivery mean?

Method: each opened carton is judged (``carton``), a carton with a critical or major fault counts as defective
once (CV-1-34), the defective ones are held against the acceptance number of the plan (CV-2-05, CV-2-06), and
the line gets a suggestion. The receiver decides; the photo advisory is not an input (CV-0-03).

The order of the reasons, and why. What can hurt somebody comes first and is never weighed against a number
of cartons: foreign matter that can cut or poison and a chemical smell hold everything (CV-1-39, CV-11-18).
Next comes what makes food unfit or has no cure: product warmer than -12 °C, signs of refreezing,
decomposition, a passed date. Then other goods than ordered (species), then the count of defective cartons
over the plan, then what somebody must settle (temperature outside the tolerance, marks that disagree), then
allergen and foreign matter, wrapping, black spot from meat to shell, drying, soft, broken, and labels. Value
follows: cartons short, weight, size, glaze. They come after condition because money can be put right
afterwards and food cannot. Minor findings and notes close the list. Severity is compared first, then this
order, then the order in which the cartons were opened.

What each leads to, heaviest first: a hazard holds the line; a critical finding, another species on the label
or more defective cartons than the plan accepts rejects it; a doubt holds it; a missing check leaves it not
ready; defective cartons within the plan, and short value, give acceptance with allowance; else accept.
Does not hold: as a legal test of a lot. Three cartons of twenty show what they show (see ``sampling``).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .allowance import allowances_for
from .carton import CartonJudged, carton_json, judge_carton
from .delivered import carton_count_findings, vehicle_findings
from .docket import delivery_wording, line_wording
from .entries import Unusable
from .facts import DeliveryFacts, LineFacts, facts_from_document
from .findings import Finding
from .limits import Limits, UnusableLimits, limits_for, limits_from_json
from .opened import opened_shown, planned_and_acceptance
from .readiness import has_enough_readings, needed_for, not_checked_in
from .reasons import reason_json
from .specification import Ordered, specifications_from_json
from .temperature import unknown_thermometers
from .weighing import DOUBTS, HAZARDS, SHORT_VALUE, SUBSTITUTIONS, is_serious, weight_key
from .weight import mean_findings

# 2: net weight by the tables of the market, an allowance between packs, the standing of the thermometer.
JUDGEMENT_VERSION = 2


@dataclass(frozen=True)
class LineJudged:
    """A line with everything found in it; reasons are in the order of weight."""

    facts: LineFacts
    cartons: list[CartonJudged]
    line_findings: list[Finding]
    needed: list[str]
    planned: int
    acceptance: int

    @property
    def findings(self) -> list[Finding]:
        """Findings of the line and of all its cartons."""
        return [*self.line_findings, *(one for carton in self.cartons for one in carton.judged.findings)]

    @property
    def defective(self) -> int:
        """Opened cartons that are defective."""
        return sum(1 for carton in self.cartons if carton.is_defective)


def suggestion_for(line: LineJudged, has_allowance: bool) -> str:
    """The suggestion, heaviest consequence first; see the module's own words."""
    findings = line.findings
    serious = [finding for finding in findings if is_serious(finding)]
    if any(finding.code in HAZARDS for finding in findings):
        return "hold"
    if any(finding.severity == "critical" or finding.code in SUBSTITUTIONS for finding in serious):
        return "reject"
    if line.defective > line.acceptance:
        return "reject"
    if any(finding.code in DOUBTS for finding in serious):
        return "hold"
    if line.needed:
        return "not_yet"
    has_short_value = any(finding.code in SHORT_VALUE for finding in serious)
    if line.defective > 0 or has_allowance or has_short_value:
        return "accept_with_allowance"
    return "accept"


def _tally(cartons: list[CartonJudged], acceptance: int, limits: Limits) -> list[Finding]:
    """Defective cartons over the acceptance number, as a finding of the line."""
    defective = sum(1 for carton in cartons if carton.is_defective)
    if defective <= acceptance:
        return []
    limit, facts = limits["defective_cartons"], {"opened": len(cartons)}
    return [Finding("DEFECTIVE-OVER", limit, defective + 0.0, limit.unit, acceptance + 0.0, limit.sense, facts)]


def _split(line: LineJudged, suggestion: str) -> dict[str, int] | None:
    """Cartons accepted, refused and held; they add up to the cartons counted (CV-12-42)."""
    counted = line.facts.cartons_counted
    if counted is None or suggestion == "not_yet":
        return None
    refused = min(line.defective, counted) if suggestion == "accept_with_allowance" else 0
    split = {"accepted": 0, "refused": 0, "held": 0}
    if suggestion == "hold":
        return {**split, "held": counted}
    if suggestion == "reject":
        return {**split, "refused": counted}
    return {**split, "accepted": counted - refused, "refused": refused}


Weighed = tuple[tuple[int, int, int], dict[str, Any]]


def _in_order(weighed: list[Weighed]) -> list[dict[str, Any]]:
    """Reasons by weight; equal ones stay in the order found."""
    return [reason for _, reason in sorted(weighed, key=lambda pair: pair[0])]


def _weighed(findings: list[Finding], position: int | None, place: int) -> list[Weighed]:
    """Findings of a carton (place 0 and up) or of the line or vehicle (place -1) as reasons with their weight."""
    is_of_carton = place >= 0
    return [
        (weight_key(finding, place), reason_json(finding, position, is_of_carton=is_of_carton)) for finding in findings
    ]


def _line_json(line: LineJudged, ordered_by: Ordered) -> dict[str, Any]:
    kept = max(0, (line.facts.cartons_counted or 0) - line.defective)
    allowances = allowances_for(line.facts, ordered_by, line.cartons, line.line_findings, kept)
    suggestion = suggestion_for(line, any(allowance["basis"] != "broken" for allowance in allowances))
    weighed = [
        _weighed(carton.judged.findings, carton.facts.position, place) for place, carton in enumerate(line.cartons)
    ]
    of_line = _weighed(line.line_findings, None, -1)
    verdict = {
        "line_id": line.facts.id,
        "suggestion": suggestion,
        "reasons": _in_order([*of_line, *(one for carton in weighed for one in carton)]),
        "needed": line.needed,
        "not_checked": not_checked_in(line.needed, line.cartons),
        "cartons": [carton_json(carton, _in_order(own)) for carton, own in zip(line.cartons, weighed, strict=True)],
        "sampling": opened_shown(line.facts, line.planned, line.acceptance, line.defective),
        **_allowances_shown(allowances, suggestion),
        "suggested_split": _split(line, suggestion),
    }
    return {**verdict, "wording": line_wording(verdict, line.facts, ordered_by.name)}


def _allowances_shown(allowances: list[dict[str, Any]], suggestion: str) -> dict[str, Any]:
    """Allowances belong to goods that are kept; a refused or held line has none yet."""
    shown = allowances if suggestion == "accept_with_allowance" else []
    return {"allowance": shown[0] if shown else None, "allowances": shown}


def _judge_line(
    line: LineFacts, ordered_by: Ordered, delivery: DeliveryFacts, limits: Limits, has_readings: bool
) -> dict[str, Any]:
    cartons = [judge_carton(carton, ordered_by, line.lot, delivery.arrived_day, limits) for carton in line.cartons]
    planned, acceptance = planned_and_acceptance(line, ordered_by)
    findings = [
        *_tally(cartons, acceptance, limits),
        *carton_count_findings(line, limits),
        *mean_findings(line, ordered_by, limits),
        *unknown_thermometers(line.cartons, limits),
    ]
    needed = needed_for(line, cartons, planned, has_readings)
    return _line_json(LineJudged(line, cartons, findings, needed, planned, acceptance), ordered_by)


def _unspecified_line(line: LineFacts) -> dict[str, Any]:
    """A line whose specification is not known waits; nothing is judged against a guess."""
    verdict = {
        "line_id": line.id,
        "suggestion": "not_yet",
        "reasons": [],
        "needed": ["specification"],
        "not_checked": ["specification"],
        "cartons": [],
        "sampling": opened_shown(line, line.planned, line.acceptance or 0, 0),
        "allowance": None,
        "allowances": [],
        "suggested_split": None,
    }
    return {**verdict, "wording": line_wording(verdict, line, "")}


def _limits_of(ordered_by: Ordered, limits: Limits, unusable: list[Unusable]) -> Limits:
    """The group's limits with the specification's laid over; its own are left out when they cannot be used."""
    overrides = dict(ordered_by.overrides)
    if ordered_by.min_life_share is not None and "life_share" not in overrides:
        overrides["life_share"] = ordered_by.min_life_share
    try:
        return limits_for(limits, overrides)
    except UnusableLimits as problem:
        entry = Unusable(f"specifications.{ordered_by.id}.overrides", "SPEC-01", {"limits_code": problem.code})
        if entry not in unusable:
            unusable.append(entry)
        return limits


def judge_document(
    document: dict[str, Any], specifications: list[dict[str, Any]], limits: dict[str, Any]
) -> dict[str, Any]:
    """Judge one delivery: the one entrance that everybody else uses.

    Parameters
    ----------
    document : dict
        Inspection document, schema 1. What cannot be used of it is listed, never raised.
    specifications : list of dict
        The specification versions that its lines name.
    limits : dict
        Limit set.

    Returns
    -------
    dict
        JSON values: ``judgement_version``, ``limits_id``, ``unusable``, ``vehicle``, ``lines``, ``wording``.

    Raises
    ------
    UnusableLimits
        LIMITS-01 to LIMITS-07: the limit set cannot be judged by.
    """
    return judge_facts(facts_from_document(document), specifications, limits)


def judge_facts(
    delivery: DeliveryFacts, specifications: list[dict[str, Any]], limits: dict[str, Any]
) -> dict[str, Any]:
    """The same for a document that was read already (``facts_from_document``)."""
    read_limits = limits_from_json(limits)
    by_id, unusable_specifications = specifications_from_json(specifications)
    unusable = [*delivery.unusable, *unusable_specifications]
    has_readings = has_enough_readings(delivery, read_limits)
    lines = []
    for line in delivery.lines:
        ordered_by = by_id.get(line.specification_id)
        if ordered_by is None:
            lines.append(_unspecified_line(line))
        else:
            own_limits = _limits_of(ordered_by, read_limits, unusable)
            lines.append(_judge_line(line, ordered_by, delivery, own_limits, has_readings))
    vehicle = _in_order(_weighed(vehicle_findings(delivery, read_limits), None, -1))
    return {
        "judgement_version": JUDGEMENT_VERSION,
        "limits_id": read_limits.id,
        "unusable": [entry.to_json() for entry in unusable],
        "vehicle": {"reasons": vehicle},
        "lines": lines,
        "wording": delivery_wording(delivery.docket_number, lines, vehicle),
    }
