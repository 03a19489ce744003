"""Accept, accept with allowance, hold, reject, or not ready: what do the findings of a delivery mean?

Method: each opened carton is judged (``carton``), each finding acts where it belongs (``weighing``), the bad cartons
are held against the plan in one stage or two (``opened``, CV-2-05, CV-2-06), and the line gets a suggestion
(``outcome``) and its next step (``following``). The receiver decides; the photo advisory is not an input (CV-0-03).

The order of the reasons, and why. What can hurt somebody comes first: foreign matter that can cut or poison and a
chemical smell (CV-1-39, CV-11-18). Next comes what makes food unfit or has no cure: product warmer than -12 °C, signs
of refreezing, decomposition, a passed date. Then other goods than ordered, then what somebody must settle, then what is
wrong with the prawns themselves, labels, and value, because money can be put right afterwards and food cannot. The
tally comes last among the serious ones: a driver asks what is wrong before how often. Minor findings and notes close
the list. Severity is compared first, then this order, then the order in which the cartons were opened.
Does not hold: as a legal test of a lot. Three cartons of twenty show what they show (see ``sampling``).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from .allowance import allowances_for
from .carton import carton_json, judge_carton
from .delivered import carton_count_findings, vehicle_findings
from .docket import delivery_wording, line_wording
from .entries import Unusable
from .facts import DeliveryFacts, LineFacts, facts_from_document
from .findings import Finding
from .following import next_step
from .limits import Limits, UnusableLimits, limits_for, limits_from_json
from .opened import Stages, opened_shown, stages_of
from .outcome import LineJudged, split_for, step_of, suggestion_of
from .readiness import has_enough_readings, left_out_of, needed_for, not_checked_in, settled_words
from .reasons import reason_json
from .severity_ranking import weight_key
from .specification import Ordered, specifications_from_json
from .temperature import unknown_thermometers
from .weight import mean_findings

# 2: net weight by the tables of the market, an allowance between packs, the standing of the thermometer.
# 3: a finding acts where it belongs, a second stage, unchecked is not a pass.
# 4: what settles a carton or a line ends its questions.
# 5: a load may show several signs; tails left on are not tails missing; what was not asked is not among what was
#    not checked.
JUDGEMENT_VERSION = 5


def _tally(line: LineJudged, limits: Limits) -> list[Finding]:
    """Bad cartons that refuse the line by the plan that was used, as a finding of the line with that plan's source."""
    if line.is_whole or not (line.is_over(line.bad) and line.is_over(line.shown_bad)):
        return []
    limit, stages = limits["defective_cartons"], line.stages
    if stages.basis is not None:
        limit = replace(limit, basis=stages.basis)
    is_last = len(line.cartons) >= stages.total
    bound = (stages.last_acceptance if is_last else stages.rejection - 1) + 0.0
    facts = {"opened": len(line.cartons)}
    return [Finding("DEFECTIVE-OVER", limit, line.bad + 0.0, limit.unit, bound, limit.sense, facts)]


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


def _line_json(line: LineJudged, ordered_by: Ordered, unchecked: list[str]) -> dict[str, Any]:
    step, suggestion, allowances = _suggested(line, ordered_by)
    weighed = [
        _weighed(carton.judged.findings, carton.facts.position, place) for place, carton in enumerate(line.cartons)
    ]
    of_line = _weighed(line.line_findings, None, -1)
    settled = settled_words(step)
    needed = line.needed if settled == "" else []
    left_out = left_out_of(line.facts, unchecked)
    told = [one["check"] for one in left_out]
    asked_of = [carton for carton in line.cartons if not carton.settled_by] if settled == "" else []
    verdict = {
        "line_id": line.facts.id,
        "suggestion": suggestion,
        "step": step,
        "reasons": _in_order([*of_line, *(one for carton in weighed for one in carton)]),
        "needed": needed,
        "settled": settled,
        "unasked": [name for name in unchecked if name not in (*needed, *told)],
        "left_out": left_out,
        "not_checked": not_checked_in(list(dict.fromkeys([*needed, *told])), asked_of, ordered_by),
        "next": next_step(line, suggestion),
        "cartons": [carton_json(carton, _in_order(own)) for carton, own in zip(line.cartons, weighed, strict=True)],
        "sampling": opened_shown(line.facts, line.stages, line.defective),
        "allowance": allowances[0] if allowances else None,
        "allowances": allowances,
        "suggested_split": split_for(line, suggestion),
    }
    return {**verdict, "wording": line_wording(verdict, line.facts, ordered_by.name)}


def _suggested(line: LineJudged, ordered_by: Ordered) -> tuple[str, str, list[dict[str, Any]]]:
    """The step that decides, its suggestion, and the allowances that go with what is decided, or else with it.

    Quantities and money follow the decision: taking what was to be refused keeps the allowances, for the cartons that
    stay; taking it outright, or none of it, has none.
    """
    decided = line.facts.decision
    split = split_for(line, "accept_with_allowance")
    kept = decided.accepted if decided is not None else 0 if split is None else split["accepted"]
    allowances = allowances_for(line, ordered_by, kept)
    step = step_of(line, has_allowance=bool(allowances))
    suggestion = suggestion_of(step, line)
    kind = suggestion if decided is None else decided.kind
    return step, suggestion, allowances if kind == "accept_with_allowance" else []


def _judge_line(
    line: LineFacts, ordered_by: Ordered, delivery: DeliveryFacts, limits: Limits, has_readings: bool
) -> dict[str, Any]:
    cartons = [judge_carton(carton, ordered_by, line.lot, delivery.arrived_day, limits) for carton in line.cartons]
    stages = stages_of(line, ordered_by)
    findings = [
        *carton_count_findings(line, limits),
        *mean_findings(line, ordered_by, limits),
        *unknown_thermometers(line.cartons, limits),
    ]
    unchecked, needed = (
        needed_for(line, ordered_by, cartons, stages.planned, limits, has_readings=has_readings, about=about)
        for about in (cartons, [carton for carton in cartons if not carton.settled_by])
    )
    left_out = [one["check"] for one in left_out_of(line, unchecked)]
    open_checks = [name for name in needed if name not in left_out]
    judged = LineJudged(line, cartons, findings, open_checks, stages)
    tallied = replace(judged, line_findings=[*findings, *_tally(judged, limits)])
    return _line_json(tallied, ordered_by, unchecked)


def _unspecified_line(line: LineFacts) -> dict[str, Any]:
    """A line whose specification is not known waits; nothing is judged against a guess."""
    acceptance = line.acceptance or 0
    planned = line.planned or 0
    verdict = {
        "line_id": line.id,
        "suggestion": "not_yet",
        "step": "e",
        "reasons": [],
        "needed": ["specification"],
        "settled": "",
        "unasked": [],
        "left_out": [],
        "not_checked": ["specification"],
        "next": None,
        "cartons": [],
        "sampling": opened_shown(line, Stages(planned, acceptance, acceptance + 1, planned, acceptance, None), 0),
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
