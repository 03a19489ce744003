"""Whatever numbers and words are given: the answer or the documented error, nothing else (as properties.test.ts)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade import species
from inspections.trade.entries import Reader
from inspections.trade.limits import DEFAULT_LIMITS, UnusableLimits, limits_for, limits_from_json
from inspections.trade.quantities import Unusable
from inspections.trade.specification import specifications_from_json

from . import verdict_calls
from .calls import outcome
from .test_verdict import JSON

NUMBER = st.floats() | st.integers(-5, 3000)
FEW = st.lists(NUMBER, max_size=5)
LOT = st.integers(-2, 60)
MARKET = st.sampled_from(["EU", "US", "ANZ", "CODEX"])
PRESENTATION = st.sampled_from(["HOSO", "HLSO", "PUD"])
CALLS = {
    "count_per_lb": (NUMBER, NUMBER),
    "count_per_kg": (NUMBER, NUMBER),
    "tenth_of": (NUMBER,),
    "uniformity_ratio": (NUMBER, NUMBER),
    "glazed_g": (NUMBER, NUMBER),
    "deglazed_g": (NUMBER, NUMBER),
    "glaze_percent": (NUMBER, NUMBER),
    "judge_glaze": (NUMBER, NUMBER, NUMBER, NUMBER),
    "shortage_g": (NUMBER, NUMBER),
    "short_percent": (NUMBER, NUMBER),
    "tolerable_deficiency": (NUMBER,),
    "tolerance_for": (MARKET, NUMBER),
    "maximum_allowable_variation": (NUMBER,),
    "judge_average_eu": (NUMBER, FEW),
    "judge_average_us": (NUMBER, FEW),
    "claim_amount": (st.integers(0, 5000), NUMBER, NUMBER, NUMBER),
    "judge_ice_point": (NUMBER,),
    "ice_point_allowed_c": (st.none() | NUMBER,),
    "thermometer_on": (st.text(), st.none() | st.text(), st.none() | NUMBER, st.none() | st.text()),
    "wilson": (NUMBER, NUMBER),
    "chance_of_acceptance": (LOT, LOT, LOT, LOT),
    "chance_of_seeing_one": (LOT, LOT, LOT),
    "most_bad_left": (LOT, LOT, LOT),
    "what_a_sample_shows": (LOT, LOT, LOT),
    "plan_for": (st.sampled_from(["house", "codex_1", "iso_s2", "iso_2"]) | st.text(), NUMBER),
}
WORDS = {
    "score_by_prevalence": (NUMBER, NUMBER, NUMBER, NUMBER),
    "day_number": (st.text(),),
    "species_code": (st.text(),),
    "code_of_name": (st.text(),),
    "marks_to_check": (st.text(), PRESENTATION),
    "gs1_date": (st.sampled_from(["11", "15", "17", "7006"]), st.text(), st.integers(1990, 2090)),
    "has_swallowed_date": (st.text(),),
    "gs1_check_digit": (st.from_regex("[0-9]{0,30}", fullmatch=True),),
}


@pytest.mark.parametrize("call", CALLS)
@given(data=st.data())
def test_numbers_are_answered_or_refused(call, data):
    answer = outcome(call, [data.draw(each) for each in CALLS[call]])
    assert set(answer) <= {"out", "error"}


@pytest.mark.parametrize("call", WORDS)
@given(data=st.data())
def test_words_are_answered_or_refused(call, data):
    answer = verdict_calls.outcome(call, [data.draw(each) for each in WORDS[call]])
    assert set(answer) <= {"out", "error"}


TRAITS = st.sampled_from(["bands", "side_spot", "caridean", "lower_teeth", "red_raw"]) | st.text(max_size=6)


@given(st.dictionaries(TRAITS, st.booleans() | st.text(max_size=6), max_size=4))
def test_answers_of_the_key_narrow_or_are_refused(answers):
    try:
        found = species.candidates(answers)
    except Unusable as refused:
        found = refused.code
    assert found == "KEY-01" or set(found) <= set(species.BY_CODE)


@given(JSON)
def test_specifications_are_read_or_listed(values):
    by_id, unusable = specifications_from_json(values)
    assert all(entry.path.startswith("specifications") for entry in unusable)
    assert all(ordered.unit_net_g > 0 for ordered in by_id.values())


@given(JSON)
def test_overrides_are_laid_over_or_refused(overrides):
    shipped = limits_from_json(DEFAULT_LIMITS)
    try:
        laid = set(limits_for(shipped, overrides).by_code)
    except UnusableLimits as refused:
        laid = refused.code
    assert laid == set(shipped.by_code) or laid.startswith("LIMITS-")


@given(JSON, st.sampled_from(["mass", "mass_or_zero", "product", "air", "ice", "percent"]))
def test_a_reading_is_a_number_or_listed(value, kind):
    reader = Reader()
    number = reader.reading(value, "here", kind)
    assert number is None or isinstance(number, float)
    assert [entry.path for entry in reader.unusable] in ([], ["here"])
