"""Do the prawns of a carton have the size that was ordered?

The counted and weighed sample goes to ``counts`` and ``uniformity``; here its answer becomes a check and a
finding against the group's limits. A sample weighed with its glaze is counted on the glaze measured in the
same carton, never on the declared one.
"""

from __future__ import annotations

from .answer import Beyond, CannotTell, Within
from .carton_facts import CartonFacts
from .counts import count_per_kg, count_per_lb, deglazed_weight_g, judge_count
from .findings import BEYOND, CANNOT_TELL, WITHIN, Finding, Judged
from .grades import Grade, customary_per, parse_grade
from .limits import Limits
from .quantities import MAX_MASS_G, UnusableGrade
from .specification import Ordered
from .uniformity import LEAST_PIECES_FOR_TENTHS, Sample, tenth_of, uniformity_ratio
from .weight import glaze_share_percent


def sample_of(carton: CartonFacts) -> Sample | None:
    """The carton's sample as ``counts`` takes it, or None when pieces, weight or its kind is missing."""
    entered = carton.sample
    if entered is None or entered.pieces is None or entered.weight_g is None or entered.weight_is is None:
        return None
    glaze = glaze_share_percent(carton) if entered.weight_is == "glazed" else None
    return Sample(
        pieces=entered.pieces,
        weight_g=entered.weight_g,
        weight_is=entered.weight_is,
        largest_g=entered.largest_g,
        smallest_g=entered.smallest_g,
        glaze_percent=None if glaze is not None and glaze >= 100.0 else glaze,
    )


def ordered_grade(ordered_by: Ordered) -> Grade | None:
    """The grade that was ordered; None when it cannot be read."""
    try:
        return parse_grade(ordered_by.grade, customary_per(ordered_by.presentation))
    except UnusableGrade:
        return None


def judge_size(carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> Judged:
    """Count and uniformity of the carton's sample.

    Returns
    -------
    Judged
        Checks ``count`` and ``uniformity``; derived ``count_per_lb``, ``count_per_kg``, ``uniformity``.
    """
    judged = Judged()
    sample = sample_of(carton)
    for name in ("count_per_lb", "count_per_kg", "uniformity"):
        judged.derived[name] = None
    if sample is None:
        judged.leave("count", "uniformity")
        return judged
    _add_counts(judged, sample)
    _judge_count(judged, sample, ordered_grade(ordered_by), limits)
    if not ordered_by.is_soft_and_broken:
        _judge_uniformity(judged, sample, limits)
    return judged


def _add_counts(judged: Judged, sample: Sample) -> None:
    deglazed_g = deglazed_weight_g(sample)
    if deglazed_g is not None and 0.0 < deglazed_g <= MAX_MASS_G:
        judged.derived["count_per_lb"] = count_per_lb(sample.pieces, deglazed_g)
        judged.derived["count_per_kg"] = count_per_kg(sample.pieces, deglazed_g)


def _judge_count(judged: Judged, sample: Sample, grade: Grade | None, limits: Limits) -> None:
    answer = None if grade is None or judged.derived["count_per_lb"] is None else judge_count(sample, grade)
    match answer:
        case Within():
            judged.checks["count"] = WITHIN
        case Beyond(measured, unit, bound, sense, facts):
            judged.checks["count"] = BEYOND
            code, name = ("COUNT-LARGER", "count_larger") if sense == "at_least" else ("COUNT-BEYOND", "count")
            judged.findings.append(Finding(code, limits[name], measured, unit, bound, sense, dict(facts)))
        case CannotTell(reasons, facts) if reasons[0] == "COUNT-UNSURE" and grade is not None:
            judged.checks["count"] = CANNOT_TELL
            found = judged.derived["count_per_" + grade.per]
            limit = limits["count_unsure"]
            judged.findings.append(Finding("COUNT-UNSURE", limit, found, grade.unit, facts=dict(facts)))
        case _:
            judged.checks["count"] = CANNOT_TELL
            if judged.derived["count_per_lb"] is None:
                judged.findings.append(Finding("COUNT-GLAZED", limits["count_unsure"]))


def _judge_uniformity(judged: Judged, sample: Sample, limits: Limits) -> None:
    if sample.largest_g is None or sample.smallest_g is None:
        judged.leave("uniformity")
    elif sample.pieces < LEAST_PIECES_FOR_TENTHS:
        judged.checks["uniformity"] = CANNOT_TELL
    else:
        ratio = uniformity_ratio(sample.largest_g, sample.smallest_g)
        judged.derived["uniformity"] = ratio
        judged.measure("uniformity", ratio, "UNIFORMITY", limits["uniformity"], {"tenth": tenth_of(sample.pieces)})
