"""What a receiver enters: read by one pattern, in g, °C, pieces or percent."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.quantities import (
    GRAMS_PER_LB,
    MAX_MASS_G,
    Unusable,
    UnusableReading,
    celsius_from_fahrenheit,
    parse_decimal,
    to_celsius,
    to_grams,
    to_grams_or_zero,
    to_percent,
    to_pieces,
)
from inspections.trade.wording import WORDS, filled
from tests.published import published

from .calls import attempt
from .printed import agrees, table

ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["entered", "unit", "x"]), inner),
    max_leaves=5,
)


@published("CV-5.3-01", source="definition of the degree Fahrenheit", known="computed")
@pytest.mark.parametrize("row", table("fahrenheit")["rows"], ids=lambda row: row["fahrenheit"])
def test_fahrenheit_is_the_printed_celsius(row):
    assert agrees(to_celsius({"entered": row["fahrenheit"], "unit": "F"}), row["celsius"])


@pytest.mark.parametrize(("fahrenheit", "celsius"), [("-0.4", -18.0), ("5", -15.0), ("10.4", -12.0), ("-4", -20.0)])
def test_limits_in_fahrenheit_meet_the_limits_in_celsius_exactly(fahrenheit, celsius):
    assert to_celsius({"entered": fahrenheit, "unit": "F"}) == celsius


def test_zero_fahrenheit_is_warmer_than_minus_18__CV_5_31():
    assert -18.0 < to_celsius({"entered": "0", "unit": "F"}) <= -15.0


@published("CV-0-04", source="common practice; the pound is 0.45359237 kg", known="common practice")
def test_the_pound_is_the_international_one__CV_0_04():
    assert to_grams({"entered": "1", "unit": "lb"}) == 453.59237
    assert to_grams({"entered": "16", "unit": "oz"}) == pytest.approx(453.59237, abs=1e-9)


def test_minus_zero_is_zero():
    assert math.copysign(1.0, parse_decimal("-0")) == 1.0


def test_end_points_of_what_can_be_measured():
    assert to_grams({"entered": "100", "unit": "kg"}) == MAX_MASS_G
    assert to_celsius({"entered": "-90", "unit": "C"}) == -90.0
    assert to_celsius({"entered": "60", "unit": "C"}) == 60.0
    assert (to_pieces(1), to_pieces(2000)) == (1, 2000)
    assert [to_percent({"entered": entered, "unit": "percent"}) for entered in ("0", "0,5", "100")] == [0.0, 0.5, 100.0]
    assert math.copysign(1.0, celsius_from_fahrenheit(32.0)) == 1.0


def test_a_number_of_prawns_is_read_as_digits_and_as_a_reading():
    assert (to_pieces("88"), to_pieces({"entered": "88", "unit": "pieces"})) == (88, 88)


@pytest.mark.parametrize(
    ("read", "entry", "code"),
    [
        (to_grams, {"entered": "2,185", "unit": "g"}, "READ-05"),
        (to_grams, {"entered": "", "unit": "g"}, "READ-01"),
        (to_grams, {"entered": "ten", "unit": "kg"}, "READ-02"),
        (to_grams, {"entered": "1", "unit": "stone"}, "READ-03"),
        (to_grams, {"entered": "1", "unit": "C"}, "READ-04"),
        (to_grams, {"entered": "0", "unit": "g"}, "WEIGHT-01"),
        (to_grams, {"entered": "100.1", "unit": "kg"}, "WEIGHT-02"),
        (to_celsius, {"entered": "-90.1", "unit": "C"}, "TEMP-01"),
        (to_celsius, {"entered": "60.1", "unit": "C"}, "TEMP-02"),
        (to_percent, {"entered": "100.1", "unit": "percent"}, "PERCENT-01"),
        (to_pieces, True, "COUNT-01"),
        (to_pieces, 2.5, "COUNT-01"),
        (to_pieces, float("nan"), "COUNT-01"),
        (to_pieces, -1, "COUNT-01"),
        (to_pieces, {"entered": "88", "unit": "g"}, "READ-04"),
        (to_celsius, "-18 C", "READ-01"),
        (to_celsius, {"entered": -18, "unit": "C"}, "READ-01"),
        (parse_decimal, " \t", "READ-01"),
        (parse_decimal, "\n", "READ-02"),
    ],
)
def test_what_no_scale_shows_is_refused_with_its_code(read, entry, code):
    with pytest.raises(UnusableReading) as refused:
        read(entry)
    assert refused.value.code == code


@given(st.decimals(min_value=-9_999_999, max_value=9_999_999, places=6, allow_nan=False), st.sampled_from(".,"))
def test_every_decimal_reads_as_python_reads_it(number, mark):
    assert parse_decimal(f"{number:f}".replace(".", mark)) == float(number)


@given(st.floats(min_value=0.001, max_value=200))
def test_pounds_and_back_keep_the_weight(pounds):
    text = f"{pounds:.6f}"
    if float(text) > 0:
        assert to_grams({"entered": text, "unit": "lb"}) / GRAMS_PER_LB == pytest.approx(float(text), rel=1e-15)


@given(st.floats(min_value=-90, max_value=60))
def test_celsius_and_fahrenheit_round_trip(celsius):
    assert celsius_from_fahrenheit(celsius * 9.0 / 5.0 + 32.0) == pytest.approx(celsius, abs=1e-12)


@given(st.sampled_from([to_grams, to_celsius, to_percent, to_pieces, parse_decimal]), ANYTHING)
def test_nothing_but_the_documented_error_comes_out(read, entry):
    value = attempt(read, entry)
    assert isinstance(value, Unusable) or math.isfinite(value)


@pytest.mark.parametrize("minus", ["-", "\u2212"])
def test_both_signs_for_minus_read_below_zero(minus):
    """A phone's keyboard gives the hyphen, text copied from a page the true minus sign (U+2212)."""
    assert to_celsius({"entered": f"{minus}17,5", "unit": "C"}) == -17.5


def test_nothing_found_to_weigh_is_zero_and_anything_else_a_weight():
    assert to_grams_or_zero({"entered": "0,0", "unit": "kg"}) == 0.0
    assert to_grams_or_zero({"entered": "2", "unit": "kg"}) == 2000.0
    for entered, code in (("-1", "WEIGHT-01"), ("101", "WEIGHT-02")):
        with pytest.raises(UnusableReading) as refused:
            to_grams_or_zero({"entered": entered, "unit": "kg"})
        assert refused.value.code == code


@pytest.mark.parametrize(("read", "entry", "facts"), [
    (to_grams, {"entered": "ten", "unit": "kg"}, {"entered": "ten"}),
    (to_grams, {"entered": "1,500", "unit": "g"}, {"entered": "1,500"}),
    (to_grams, {"entered": "1", "unit": "stone"}, {"entered": "1"}),
    (to_grams, {"entered": "1", "unit": "C"}, {"entered": "1", "unit": "C"}),
    (to_grams, {"entered": "0", "unit": "kg"}, {"entered": "0", "unit": "kg"}),
    (to_grams, {"entered": "101", "unit": "kg"}, {"entered": "101", "unit": "kg", "max_g": MAX_MASS_G}),
    (to_celsius, {"entered": "-91", "unit": "C"}, {"entered": "-91", "unit": "C", "min_c": -90.0}),
    (to_celsius, {"entered": "90", "unit": "C"}, {"entered": "90", "unit": "C", "max_c": 60.0}),
    (to_percent, {"entered": "101", "unit": "percent"}, {"entered": "101"}),
    (to_pieces, "2001", {"max_pieces": 2000}),
    (to_pieces, None, {"max_pieces": 2000}),
])
def test_a_refusal_carries_what_its_sentence_quotes(read, entry, facts):
    with pytest.raises(UnusableReading) as refused:
        read(entry)
    assert refused.value.facts == facts
    assert str(refused.value) == refused.value.code
    assert "{" not in filled(WORDS["unusable"][refused.value.code], {name: str(fact) for name, fact in facts.items()})
