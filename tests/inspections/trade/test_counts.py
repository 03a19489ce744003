"""Size grades, counts on deglazed weight, and how even the prawns are."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, special, stats

from inspections.trade.counts import (
    Count,
    count_per_kg,
    count_per_lb,
    count_sample,
    explain_count,
    judge_count,
    pieces_to_weigh_more,
)
from inspections.trade.grades import (
    GAP_RULES,
    LADDER,
    SIZES,
    edges_of,
    grade_met,
    holds,
    nearest_grade,
    parse_grade,
    price_effect,
)
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.quantities import GRAMS_PER_LB, Unusable, UnusableGrade, UnusableReading
from inspections.trade.uniformity import (
    DEFAULT_SPREAD,
    Sample,
    spread_of,
    tenth_of,
    uniformity_ratio,
)
from tests.published import published

from .calls import attempt
from .printed import agrees, table

WHOLE_PRAWNS = [30.1, 29.5, 28.8, 28.0, 27.6, 27.4, 27.0, 26.9, 26.5, 26.2]
WHOLE_PRAWNS += [26.0, 25.8, 25.5, 25.2, 25.0, 24.6, 24.2, 23.8, 23.1, 22.0]


def weighed(count: float, pieces: int = 400, **more) -> Sample:
    """A whole unit with this count, so that nothing is left to chance."""
    weight_g = pieces * GRAMS_PER_LB / count
    return Sample(pieces, weight_g, "unglazed", unit_g=weight_g, **more)


@published("CV-3-01 to 14", source="trade count-size lists", known="read; computed")
@pytest.mark.parametrize("row", table("size_grades_per_lb")["rows"], ids=lambda row: row["cv"])
def test_the_printed_size_list_follows_from_the_grade(row):
    grade = parse_grade(row["text"])
    bounds = [each for each in (grade.low, grade.high) if each is not None]
    for bound, per_kg, grams in zip(bounds, row["per_kg"], row["grams"], strict=True):
        # printed list figures are rounded to the digit shown; grams are 453.59237 / count
        assert agrees(bound * 1000.0 / GRAMS_PER_LB, per_kg)
        assert agrees(GRAMS_PER_LB / bound, grams)


@published("CV-1-57", "CV-1-58", source="CXS 92-1981 §7.4", known="computed")
@published("CV-1-26", source="CXS 92 §7.4", known="from memory")
def test_a_block_counts_on_its_deglazed_weight__CV_1_57():
    assert agrees(count_per_lb(88, 1760), "22.68")
    assert agrees(count_per_lb(88, 2000), "19.96")
    assert count_per_kg(88, 1760) == 50.0  # CV-1-58
    answer = judge_count(Sample(88, 1760, "deglazed"), parse_grade("16/20"))
    assert answer.kind == "beyond"
    assert answer.facts["nearest"] == "21/25"


def test_worked_counts__CV_3_22_to_25():
    assert agrees(count_per_lb(41, 36 * GRAMS_PER_LB / 16), "18.222")
    assert agrees(count_per_kg(41, 1020.58), "40.17")
    assert agrees(count_per_lb(205, 2267.96), "41.0")
    assert agrees((78 / 5 + 84 / 5 + 81 / 5) / 3, "16.2")
    assert [5 * bound for bound in (31, 35)] == [155, 175]


@pytest.mark.parametrize(
    ("text", "low", "high", "per", "kind"),
    [
        ("16/20", 16, 20, "lb", "range"),
        ("16-20", 16, 20, "lb", "range"),
        ("U10", None, 10, "lb", "under"),
        ("u/10", None, 10, "lb", "under"),
        ("21/25 lb", 21, 25, "lb", "range"),
        ("30/40 per kg", 30, 40, "kg", "range"),
        ("6-10 to the pound", 6, 10, "lb", "range"),
        ("70/OV", 70, None, "lb", "over"),
        ("Soft & broken", None, None, "lb", "broken"),
        ("  26 – 30  ct ", 26, 30, "lb", "range"),
    ],
)
def test_a_grade_is_read_as_people_write_it(text, low, high, per, kind):
    grade = parse_grade(text)
    assert (grade.low, grade.high, grade.per, grade.kind) == (low, high, per, kind)


def test_the_one_spelling_reads_as_itself():
    for ladder in LADDER.values():
        for grade in ladder:
            again = parse_grade(grade.text)
            assert (again.low, again.high, again.per, again.kind) == (grade.low, grade.high, grade.per, grade.kind)


@pytest.mark.parametrize(
    ("text", "code"),
    [("", "GRADE-01"), (None, "GRADE-01"), ("jumbo", "GRADE-02"), ("20/16", "GRADE-03"), ("U1", "GRADE-03")],
)
def test_a_grade_that_cannot_be_read_is_refused(text, code):
    with pytest.raises(UnusableGrade) as refused:
        parse_grade(text)
    assert refused.value.code == code


@published("CV-3-19", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(
    ("count", "whole_prawn", "literal"),
    [
        (15.4, False, False),
        (15.5, True, False),
        (16.0, True, True),
        (20.0, True, True),
        (20.4, True, False),
        (20.5, False, False),
    ],
)
def test_the_gap_between_20_and_21_follows_the_rule__CV_3_19(count, whole_prawn, literal):
    grade = parse_grade("16/20")
    assert [holds(edges_of(grade, rule), count) for rule in GAP_RULES] == [whole_prawn, literal]
    for rule, expected in zip(GAP_RULES, (whole_prawn, literal), strict=True):
        # rounding in floats can move a count by an ulp across an edge; the edge itself is tested above
        if count not in (15.5, 20.5, 16.0, 20.0):
            assert judge_count(weighed(count), grade, rule).kind == ("within" if expected else "beyond")


def test_under_ten_is_fewer_than_ten():
    grade = parse_grade("U/10")
    assert not holds(edges_of(grade, "literal"), 10.0)
    assert holds(edges_of(grade, "literal"), 9.999)
    assert holds(edges_of(grade), 9.49)
    assert not holds(edges_of(grade), 9.5)


def test_every_count_meets_a_grade_of_the_pound_ladder_under_the_whole_prawn_rule():
    for tenths in range(10, 4000):
        count = tenths / 10.0
        assert grade_met(count, "lb") is not None, count


def test_a_gap_of_the_literal_rule_gives_the_nearest_grade():
    assert grade_met(20.4, "lb", "literal") is None
    assert nearest_grade(20.4, "lb", "literal").text == "16/20"
    assert nearest_grade(20.6, "lb", "literal").text == "21/25"


def test_glazed_weight_without_a_stated_glaze_cannot_tell():
    answer = judge_count(Sample(88, 2000, "glazed"), parse_grade("21/25"))
    assert answer.kind == "cannot_tell"
    assert answer.reasons == ("COUNT-GLAZED",)
    told = judge_count(Sample(88, 2000, "glazed", glaze_percent=12.0), parse_grade("21/25"))
    assert told.measured == pytest.approx(count_per_lb(88, 1760))


@pytest.mark.parametrize(
    ("text", "reason"), [("soft and broken", "COUNT-BROKEN"), ("16/20 peeled from", "COUNT-PEELED-FROM")]
)
def test_a_grade_without_a_count_to_meet_cannot_tell(text, reason):
    assert judge_count(Sample(40, 900, "deglazed"), parse_grade(text)).reasons == (reason,)


def test_a_borderline_count_says_how_many_more_to_weigh():
    grade = parse_grade("16/20")
    sample = Sample(41, 41 * GRAMS_PER_LB / 20.2, "deglazed")
    answer = judge_count(sample, grade)
    assert answer.reasons == ("COUNT-UNSURE",)
    assert answer.facts["point"] == "within"
    more = answer.facts["weigh_more"]
    enough = Sample(41 + more, (41 + more) * GRAMS_PER_LB / 20.2, "deglazed")
    assert judge_count(enough, grade).kind == "within"
    short = Sample(40 + more, (40 + more) * GRAMS_PER_LB / 20.2, "deglazed")
    assert judge_count(short, grade).kind == "cannot_tell"


def test_a_count_on_the_edge_asks_for_the_whole_unit():
    count = Count(20.5, 20.0, 21.0, "lb", 0.12, "default", 40, 900.0)
    assert pieces_to_weigh_more(count, edges_of(parse_grade("16/20"))) is None


def test_the_range_covers_the_true_count_about_95_times_in_100():
    """Independent check: simulated cartons of normal piece weights with the default spread."""
    draw = np.random.default_rng(5).normal(24.0, 24.0 * DEFAULT_SPREAD, (4000, 40)).sum(axis=1)
    true_count = GRAMS_PER_LB / 24.0
    hits = 0
    for weight_g in draw:
        count = count_sample(Sample(40, float(weight_g), "deglazed"))
        hits += count.low <= true_count <= count.high
    assert 0.935 <= hits / 4000 <= 0.965


def test_the_whole_unit_weighed_leaves_nothing_to_chance():
    count = count_sample(Sample(88, 1760, "deglazed", unit_g=1760.0))
    assert count.low == count.value == count.high
    part = count_sample(Sample(88, 1760, "deglazed", unit_g=3520.0))
    free = count_sample(Sample(88, 1760, "deglazed"))
    assert count.value < part.high < free.high


@published("CV-3-70", "CV-3-71", source="worked by hand", known="computed")
@published("CV-3-53", source="US shrimp grade standard, NOAA", known="from memory")
def test_uniformity_worked_example__CV_3_70():
    ordered, tenth = sorted(WHOLE_PRAWNS), tenth_of(len(WHOLE_PRAWNS))
    assert agrees(uniformity_ratio(sum(ordered[-tenth:]), sum(ordered[:tenth])), "1.3215")
    assert agrees(count_per_lb(20, sum(WHOLE_PRAWNS)), "17.339")  # CV-3-71


@published("CV-3-72", source="worked by hand", known="computed")
def test_a_tenth_is_rounded_half_up__CV_3_72():
    assert [tenth_of(n) for n in (1, 14, 15, 24, 25, 26)] == [1, 1, 2, 2, 3, 3]


@published("CV-3-54", source="one published trade specification", known="read; common practice")
def test_the_common_purchase_limit_holds_its_end_point__CV_3_54():
    limit = limits_from_json(DEFAULT_LIMITS)["uniformity"]
    assert limit.is_fine(uniformity_ratio(60.0, 40.0))
    assert not limit.is_fine(uniformity_ratio(60.1, 40.0))


def test_a_largest_tenth_lighter_than_the_smallest_is_refused():
    with pytest.raises(UnusableReading) as refused:
        uniformity_ratio(40.0, 41.0)
    assert refused.value.code == "COUNT-02"


def test_the_default_spread_is_a_uniformity_of_one_and_a_half():
    """1.5 in a large carton is (1.5 - 1) / (1.755 x 2.5) = 0.114; 0.12 is that with a margin."""
    tail = stats.norm.pdf(stats.norm.ppf(0.9)) / 0.1
    assert agrees(tail, "1.755")
    assert 0.5 / (tail * 2.5) <= DEFAULT_SPREAD < 0.13


@pytest.mark.parametrize("pieces", [10, 14, 15, 20, 41, 60, 100])
def test_the_tail_means_are_those_of_normal_order_statistics(pieces):
    """Independent check with SciPy: mean of the expected largest values of a normal sample."""
    tenth = tenth_of(pieces)

    def expected(place: int) -> float:
        scale = special.gammaln(pieces + 1) - special.gammaln(pieces - place + 1) - special.gammaln(place)
        return integrate.quad(
            lambda x: (
                x
                * np.exp(
                    scale
                    + stats.norm.logpdf(x)
                    + (pieces - place) * stats.norm.logcdf(x)
                    + (place - 1) * stats.norm.logsf(x)
                )
            ),
            -8,
            8,
            limit=1000,
            points=[0, 1, 2, 3],
        )[0]

    mean = sum(expected(place) for place in range(1, tenth + 1)) / tenth
    assert SIZES["tail_means_from_10"][pieces - 10] == pytest.approx(mean, abs=6e-5)


@pytest.mark.parametrize("spread", [0.08, 0.18])
def test_tenths_estimate_the_spread_they_came_from(spread):
    """Independent check: simulated samples of 60 with a known spread, which is not the one assumed without tenths."""
    chance, estimates = np.random.default_rng(7), []
    for _ in range(400):
        ordered = np.sort(chance.normal(20.0, 20.0 * spread, 60))
        sample = Sample(60, float(ordered.sum()), "deglazed", float(ordered[-6:].sum()), float(ordered[:6].sum()))
        estimates.append(spread_of(sample)[0])
    assert np.mean(estimates) == pytest.approx(spread, abs=0.004)


def test_two_tenths_that_agree_by_chance_are_not_believed():
    assert spread_of(Sample(60, 1200.0, "deglazed", 120.0, 120.0)) == (0.05, "tenths")
    assert spread_of(Sample(9, 180.0, "deglazed", 30.0, 10.0)) == (DEFAULT_SPREAD, "default")


def test_price_effect_by_price_and_by_count():
    grade = parse_grade("16/20")
    assert price_effect(grade, 22.68, {"16/20": 18.0, "21/25": 15.5}) == {
        "basis": "prices",
        "found": "21/25",
        "per_kg": 2.5,
        "percent": pytest.approx(13.8889, abs=1e-4),
    }
    by_count = price_effect(grade, 22.68)
    assert by_count["percent"] == pytest.approx(13.4)
    assert price_effect(grade, 18.0)["percent"] is None


def test_why_names_formula_numbers_limit_and_source():
    why = explain_count(Sample(88, 1760, "deglazed"), parse_grade("16/20"))
    assert agrees(why["numbers"]["count"], "22.68")
    assert why["limit"]["gap_rule"] == "whole_prawn"
    assert {source["known"] for source in why["source"]} == {"from_memory", "common_practice", "computed"}


samples = st.builds(
    Sample,
    pieces=st.integers(-1, 2100),
    weight_g=st.floats(allow_nan=True, allow_infinity=True),
    weight_is=st.sampled_from(["deglazed", "glazed", "unglazed", "wet"]),
    largest_g=st.none() | st.floats(),
    smallest_g=st.none() | st.floats(),
    glaze_percent=st.none() | st.floats(),
)


@given(samples, st.sampled_from(["16/20", "U/15", "70/OV", "30/40 per kg"]), st.sampled_from(GAP_RULES))
def test_nothing_but_the_documented_error_comes_out_of_a_count(sample, text, rule):
    answer = attempt(judge_count, sample, parse_grade(text), rule)
    assert isinstance(answer, Unusable) or answer.kind in ("within", "beyond", "cannot_tell")


@given(st.text() | st.from_regex(r"[uU]?[ /]?[0-9]{1,4}[-/ ][0-9]{0,4}( ?(lb|kg|per kg))?", fullmatch=True))
def test_nothing_but_the_documented_error_comes_out_of_a_grade(text):
    grade = attempt(parse_grade, text)
    assert isinstance(grade, UnusableGrade) or parse_grade(grade.text).text == grade.text


@given(st.integers(1, 2000), st.floats(1, 90_000), st.floats(1.0001, 1.1))
def test_more_weight_for_as_many_prawns_is_a_smaller_count(pieces, weight_g, factor):
    assert count_per_lb(pieces, weight_g * factor) < count_per_lb(pieces, weight_g)


@given(st.integers(10, 400), st.floats(4, 60))
def test_the_range_holds_the_count_and_narrows_with_more_pieces(pieces, piece_g):
    count = count_sample(Sample(pieces, pieces * piece_g, "deglazed"))
    more = count_sample(Sample(4 * pieces, 4 * pieces * piece_g, "deglazed"))
    assert count.low < count.value < count.high
    assert more.high - more.low < count.high - count.low
    assert math.isfinite(count.high)
