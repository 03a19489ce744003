"""The functions that vectors call by name, with JSON in and JSON out; the TypeScript side has the same list."""

from dataclasses import asdict, is_dataclass
from typing import Any

from inspections.trade import (
    chances,
    counts,
    drawing,
    glaze,
    grades,
    intervals,
    quantities,
    sampling,
    shortage,
    thermometer,
    uniformity,
)

GRADE = grades.parse_grade


def sample(entry: dict) -> uniformity.Sample:
    """A sample from its JSON object."""
    return uniformity.Sample(**entry)


CALLS: dict[str, Any] = {
    **{
        name: getattr(quantities, name)
        for name in (
            "parse_decimal",
            "to_grams",
            "to_celsius",
            "to_percent",
            "to_pieces",
            "to_grams_or_zero",
        )
    },
    **{name: getattr(counts, name) for name in ("count_per_lb", "count_per_kg")},
    **{name: getattr(uniformity, name) for name in ("tenth_of", "uniformity_ratio")},
    "parse_grade": GRADE,
    "customary_per": grades.customary_per,
    "edges_of": lambda text, rule: grades.edges_of(GRADE(text), rule),
    "nearest_grade": grades.nearest_grade,
    "grade_met": grades.grade_met,
    "price_effect": lambda text, count, prices: grades.price_effect(GRADE(text), count, prices),
    "spread_of": lambda entry: uniformity.spread_of(sample(entry)),
    "count_sample": lambda entry, per: counts.count_sample(sample(entry), per),
    "judge_count": lambda entry, text, rule: counts.judge_count(sample(entry), GRADE(text), rule),
    "explain_count": lambda entry, text: counts.explain_count(sample(entry), GRADE(text)),
    **{
        name: getattr(glaze, name) for name in ("glazed_g", "deglazed_g", "glaze_percent", "judge_glaze")
    },
    **{
        name: getattr(shortage, name)
        for name in (
            "shortage_g",
            "tolerable_deficiency",
            "maximum_allowable_variation",
            "sample_correction_factor",
            "judge_average_us",
            "judge_average_eu",
            "claim_amount",
            "tolerance_for",
            "short_percent",
        )
    },
    **{
        name: getattr(chances, name)
        for name in (
            "chance_of_exactly",
            "chance_of_acceptance",
            "chance_of_seeing_one",
            "cartons_to_see_one",
            "most_bad_left",
            "cartons_worth",
        )
    },
    **{name: getattr(sampling, name) for name in ("plan_for", "what_a_sample_shows", "sampling_shown")},
    "is_accepted": lambda asked, bad: sampling.is_accepted(sampling.plan_for(*asked), bad),
    "operating_characteristic": lambda asked: sampling.operating_characteristic(sampling.plan_for(*asked)),
    "explain_sample": lambda asked, *rest: sampling.explain_sample(sampling.plan_for(*asked), *rest),
    "fnv1a": lambda data: drawing.fnv1a(bytes(data)),
    "first_words": lambda seed, number: [
        word for word, _ in zip(drawing.random_words(seed), range(number), strict=False)
    ],
    "layer_sizes": drawing.layer_sizes,
    "draw_positions": drawing.draw_positions,
    **{
        name: getattr(thermometer, name) for name in ("judge_ice_point", "ice_point_allowed_c", "thermometer_on")
    },
    "wilson": intervals.wilson,
}


def plain(value: Any) -> Any:
    """A result as JSON; answers carry their kind."""
    if is_dataclass(value):
        kind = getattr(value, "kind", None)
        fields = asdict(value)
        return plain({"kind": kind, **fields} if type(value).__name__ in ANSWERS else fields)
    if isinstance(value, dict):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(each) for each in value]
    return value


ANSWERS = ("NotChecked", "Within", "Beyond", "CannotTell")


def outcome(call: str, args: list) -> dict[str, Any]:
    """``{"out": …}`` or ``{"error": code}`` of a call."""
    try:
        return {"out": plain(CALLS[call](*args))}
    except quantities.Unusable as refused:
        return {"error": refused.code}


def attempt(call: Any, *args: Any) -> Any:
    """The result of a call, or the documented error that it raised; any other error passes through."""
    try:
        return call(*args)
    except quantities.Unusable as refused:
        return refused
