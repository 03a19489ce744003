"""The functions that vectors call by name, with JSON in and JSON out; the TypeScript side has the same list."""

from dataclasses import asdict, is_dataclass
from typing import Any

from inspections.trade import (
    chances,
    counts,
    drawing,
    exponentials,
    exposure,
    glaze,
    grades,
    intervals,
    net_lots,
    quantities,
    sampling,
    shortage,
    switching,
    temperature,
    uniformity,
)

GRADE = grades.parse_grade


def sample(entry: dict) -> uniformity.Sample:
    """A sample from its JSON object."""
    return uniformity.Sample(**entry)


def log(rows: list) -> list[exposure.Logged]:
    """Readings from [seconds, °C] pairs."""
    return [exposure.Logged(*row) for row in rows]


CALLS: dict[str, Any] = {
    **{
        name: getattr(quantities, name)
        for name in (
            "parse_decimal",
            "to_grams",
            "to_celsius",
            "to_percent",
            "to_pieces",
            "to_pieces_or_none_found",
            "to_grams_or_zero",
        )
    },
    **{name: getattr(counts, name) for name in ("count_per_lb", "count_per_kg")},
    **{name: getattr(uniformity, name) for name in ("tenth_of", "uniformity_ratio", "uniformity_of")},
    "parse_grade": GRADE,
    "customary_per": grades.customary_per,
    "edges_of": lambda text, rule: grades.edges_of(GRADE(text), rule),
    "nearest_grade": grades.nearest_grade,
    "grade_met": grades.grade_met,
    "price_effect": lambda text, count, prices: grades.price_effect(GRADE(text), count, prices),
    "judge_uniformity": lambda entry, limit: uniformity.judge_uniformity(sample(entry), limit),
    "spread_of": lambda entry: uniformity.spread_of(sample(entry)),
    "explain_uniformity": lambda entry: uniformity.explain_uniformity(sample(entry)),
    "count_sample": lambda entry, per: counts.count_sample(sample(entry), per),
    "judge_count": lambda entry, text, rule: counts.judge_count(sample(entry), GRADE(text), rule),
    "explain_count": lambda entry, text: counts.explain_count(sample(entry), GRADE(text)),
    **{
        name: getattr(glaze, name)
        for name in ("glazed_g", "deglazed_g", "glaze_percent", "glaze_percent_of_net", "judge_glaze", "explain_glaze")
    },
    **{
        name: getattr(shortage, name)
        for name in (
            "shortage_g",
            "tolerable_deficiency",
            "judge_unit_eu",
            "judge_unit_us",
            "maximum_allowable_variation",
            "sample_correction_factor",
            "judge_average_us",
            "judge_average_eu",
            "claim_amount",
            "tolerance_for",
            "short_percent",
            "explain_shortage",
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
    "plans_for_classes": lambda name, lot, aqls, *rest: sampling.plans_for_classes(name, lot, tuple(aqls), *rest),
    "run_of_lots": switching.run_of_lots,
    **{
        name: getattr(net_lots, name)
        for name in ("net_plan", "most_beyond_t1", "is_scale_fine_enough", "is_division_fine_enough")
    },
    "judge_net_lot": lambda scheme, lot, *rest: net_lots.judge_net_lot(net_lots.net_plan(scheme, lot), *rest),
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
        name: getattr(temperature, name)
        for name in (
            "band_of",
            "read_product",
            "judge_product",
            "warmest",
            "air_prompts",
            "judge_storage_air",
            "judge_ice_point",
            "ice_point_allowed_c",
            "thermometer_on",
            "explain_product",
        )
    },
    "mean_kinetic_c": exposure.mean_kinetic_c,
    "storage_life_months": exposure.storage_life_months,
    "life_used": exposure.life_used,
    "life_used_of": lambda rows, product: exposure.life_used_of(log(rows), product),
    "minutes_above": lambda rows, limit: exposure.minutes_above(log(rows), limit),
    "gap_minutes": lambda rows: exposure.gap_minutes(log(rows)),
    "excursions": lambda rows, limit: exposure.excursions(log(rows), limit),
    "mean_kinetic_of": lambda rows: exposure.mean_kinetic_of(log(rows)),
    "explain_exposure": lambda rows, limits, product: exposure.explain_exposure(log(rows), limits, product),
    "wilson": intervals.wilson,
    "chance_at_most": intervals.chance_at_most,
    "natural_exp": exponentials.natural_exp,
    "natural_log": exponentials.natural_log,
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
