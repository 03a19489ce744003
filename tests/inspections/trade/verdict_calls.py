"""The verdict's small functions that vectors call by name, with JSON in and JSON out, as the TypeScript side."""

from typing import Any

from inspections.trade import condition, entries, gs1, labels, species, wording
from inspections.trade.freezer import judge_freezer
from inspections.trade.intervals import wilson
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.quantities import Unusable


def _asked(answers: dict[str, Any], presentation: str) -> str | None:
    row = species.next_question(answers, presentation)
    return None if row is None else row["trait"]


CALLS: dict[str, Any] = {
    "score_by_prevalence": condition.score_by_prevalence,
    "wilson": lambda affected, looked_at: list(wilson(affected, looked_at)),
    "species_code": species.species_code,
    "code_of_name": species.code_of_name,
    "candidates": species.candidates,
    "next_question": _asked,
    "marks_to_check": species.marks_to_check,
    "full_year": gs1.full_year,
    "gs1_date": gs1.gs1_date,
    "gs1_check_digit": gs1.gs1_check_digit,
    "has_swallowed_date": gs1.has_swallowed_date,
    "missing_particulars": lambda shows, market, method: labels.missing_particulars(tuple(shows), market, method),
    "day_number": entries.day_number,
    "shown": wording.shown,
    "shown_measure": wording.shown_measure,
    "typeset": wording.typeset,
    "typeset_sum": wording.typeset_sum,
    "listed": wording.listed,
    "filled": wording.filled,
    "counted": wording.counted,
    "judge_freezer": lambda air_c: judge_freezer(air_c, limits_from_json(DEFAULT_LIMITS)),
}


def outcome(call: str, args: list[Any]) -> dict[str, Any]:
    """``{"out": …}`` or ``{"error": code}``."""
    try:
        return {"out": CALLS[call](*args)}
    except Unusable as problem:
        return {"error": problem.code}
