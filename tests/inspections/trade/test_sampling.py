"""Sampling plans against the published tables, chances against SciPy, draws that anyone can repeat."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy import stats

from inspections.trade.chances import (
    cartons_to_see_one,
    chance_of_acceptance,
    chance_of_exactly,
    chance_of_seeing_one,
    most_bad_left,
    one_in_five,
)
from inspections.trade.drawing import draw_positions, fnv1a, layer_sizes, random_below, random_words
from inspections.trade.quantities import Unusable, UnusablePlan
from inspections.trade.sampling import (
    INSPECTIONS,
    PLAN_NAMES,
    PLANS,
    explain_sample,
    is_accepted,
    operating_characteristic,
    plan_for,
    sampling_shown,
    what_a_sample_shows,
)
from tests.published import published

from .calls import attempt
from .printed import agrees, table

SEEN = table("chance_of_seeing_a_bad_carton")


@published("CV-2-10 to 16", source="CXS 233-1969, AQL 6.5; 21 CFR 158.3(f)", known="read; from memory")
@pytest.mark.parametrize(
    "row", table("codex_cxs_233")["rows"], ids=lambda row: f"{row['cv']}-{row['unit_at_most_g']}-{row['level']}"
)
def test_every_row_of_codex_cxs_233(row):
    unit_g = row["unit_at_most_g"] or 10_000
    for lot in (row["lot_from"], row["lot_to"] or row["lot_from"]):
        plan = plan_for(f"codex_{row['level']}", lot, unit_g)
        assert (plan.n, plan.acceptance) == (min(row["n"], lot), row["c"])
        assert plan.basis["known"] == row["known"]


@published("CV-2.2-01", source="CXS 233-1969, AQL 6.5", known="computed")
def test_the_weight_class_holds_its_end_point():
    """Worked choices of CV-2: a 1.000 kg bag is in the first class, 1.001 kg in the second, and so on."""
    assert plan_for("codex_1", 4800, 1000).n == 6
    assert plan_for("codex_1", 4800, 1001).n == 13
    assert plan_for("codex_1", 2400, 4500).n == 6
    assert plan_for("codex_1", 2400, 4501).n == 21
    assert (plan_for("codex_1", 40, 10_000).n, plan_for("codex_2", 40, 10_000).n) == (6, 13)
    assert (plan_for("codex_1", 700, 10_000).acceptance, plan_for("codex_2", 700, 10_000).acceptance) == (2, 3)


@published("CV-2-30", source="CXS 233-1969, AQL 6.5", known="computed")
@published("CV-2-09", source="CXS 233; 21 CFR 158.3(g)", known="read")
@pytest.mark.parametrize("row", table("codex_cxs_233")["rows"][:14], ids=lambda row: f"{row['cv']}-{row['level']}")
def test_codex_plans_pass_6_5_percent_about_95_times_in_100__CV_2_30(row):
    assert 0.945 <= stats.binom.cdf(row["c"], row["n"], 0.065) <= 0.966


@published("CV-2-58", "CV-2.5-01 to 09", "CV-2-51", source="ISO 2859-1 / MIL-STD-105E (Z1.4)", known="read")
@pytest.mark.parametrize(
    "row", table("iso_2859_1_small_lots")["rows"], ids=lambda row: f"{row['lot_from']}-{row['plan']}-{row['aql']}"
)
def test_every_small_lot_of_iso_2859_1__CV_2_58(row):
    for lot in (row["lot_from"], row["lot_to"]):
        plan = plan_for(row["plan"], lot, aql=row["aql"])
        assert (plan.letter, plan.n, plan.acceptance) == (row["letter"], min(row["n"], lot), row["ac"])
        assert plan.rejection == plan.acceptance + 1
        assert plan.is_every_carton == (row["n"] >= lot)


@published("CV-2.4-01 to 10", source="ISO 2859-1 / MIL-STD-105E", known="read")
def test_every_cell_of_the_normal_table():
    for row in table("iso_2859_1_normal")["rows"]:
        cells = PLANS["iso"]["normal"][row["letter"]]
        assert cells["own_n"] == row["own_n"]
        assert cells["cells"][PLANS["iso"]["aql"].index(row["aql"])] == [row["n"], row["ac"], row["re"]]


@published("CV-2.4-11 to 20", source="ISO 2859-1 / MIL-STD-105E", known="read")
def test_every_cell_of_the_tightened_and_reduced_tables():
    for row in table("iso_2859_1_tightened_reduced")["rows"]:
        place = PLANS["iso"]["aql"].index(row["aql"])
        for kind in ("tightened", "reduced"):
            assert PLANS["iso"][kind][row["letter"]]["cells"][place] == row[kind]


@published("CV-2-50", source="MIL-STD-105E 4.9.3 / ISO 2859-1", known="read")
def test_an_arrow_leads_to_the_nearest_plan_of_its_column__CV_2_50():
    """Independent of how the cells were typed: a cell reached by an arrow is the next one above or below."""
    rows = table("iso_2859_1_normal")["rows"]
    for aql in PLANS["iso"]["aql"]:
        column = [row for row in rows if row["aql"] == aql]
        for place, row in enumerate(column):
            assert row["by_arrow"] == (row["n"] != row["own_n"])
            above = [each for each in column[:place] if not each["by_arrow"]]
            below = [each for each in column[place:] if not each["by_arrow"]]
            nearest = [(each["n"], each["ac"], each["re"]) for each in (above[-1:] + below[:1])]
            assert (row["n"], row["ac"], row["re"]) in nearest


def test_tightened_inspection_never_passes_more_bad_lots_than_normal():
    for letter, cells in PLANS["iso"]["normal"].items():
        tightened = PLANS["iso"]["tightened"][letter]["cells"]
        for normal, tight in zip(cells["cells"], tightened, strict=True):
            assert stats.binom.cdf(tight[1], tight[0], 0.10) <= stats.binom.cdf(normal[1], normal[0], 0.10) + 1e-12


def test_reduced_inspection_accepts_in_the_gap_between_ac_and_re():
    plan = plan_for("iso_2", 200, aql="10", inspection="reduced")
    assert plan.rejection > plan.acceptance + 1
    assert is_accepted(plan, plan.rejection - 1)
    assert not is_accepted(plan, plan.rejection)


@pytest.mark.parametrize(
    ("lot", "n", "name"),
    [
        (1, 1, "house"),
        (2, 2, "house"),
        (8, 2, "house"),
        (9, 3, "house"),
        (25, 3, "house"),
        (26, 5, "house"),
        (50, 5, "house"),
        (51, 6, "codex_1"),
    ],
)
def test_the_house_plan_opens_a_few_and_ends_at_50(lot, n, name):
    """Common practice, no source; above 50 cartons Codex level I takes over."""
    plan = plan_for("house", lot)
    assert (plan.n, plan.name) == (n, name)
    assert plan.acceptance == (0 if name == "house" else 1)


@published("CV-1-59", source="CXS 92-1981 §9; CXS 233", known="computed")
@published("CV-2-05", "CV-2-06", source="CXS 233 procedures g and h", known="read")
@pytest.mark.parametrize(("bad", "passes"), [(2, True), (3, False)])
def test_accept_at_c_and_reject_above_it__CV_1_59(bad, passes):
    assert is_accepted(plan_for("codex_2", 40, 10_000), bad) is passes


@pytest.mark.parametrize(
    ("args", "code"),
    [
        (("other", 5), "SAMPLE-01"),
        (("iso_2", 5, None, "3"), "SAMPLE-01"),
        (("iso_2", 5, None, "4.0", "odd"), "SAMPLE-01"),
        (("house", 0), "SAMPLE-02"),
        (("house", 2.5), "SAMPLE-02"),
        (("iso_2", 1_000_001), "SAMPLE-03"),
        (("house", 1_000_001), "SAMPLE-03"),
    ],
)
def test_a_plan_that_does_not_exist_is_refused(args, code):
    with pytest.raises(UnusablePlan) as refused:
        plan_for(*args)
    assert refused.value.code == code


@published("CV-2-60 to 69", source="hypergeometric law, SciPy", known="computed")
@pytest.mark.parametrize("row", table("acceptance_finite_lots")["rows"], ids=lambda row: f"{row['cv']}-{row['bad']}")
def test_chance_of_acceptance_of_a_finite_lot(row):
    assert agrees(chance_of_acceptance(row["lot"], row["bad"], row["n"], row["c"]), row["chance"])


@published("CV-9-80 to 91", source="hypergeometric law", known="computed")
@pytest.mark.parametrize("row", SEEN["rows"], ids=lambda row: row["cv"])
def test_chance_that_a_bad_carton_is_seen(row):
    assert agrees(chance_of_seeing_one(row["lot"], row["bad"], row["opened"]), row["chance"])


@pytest.mark.parametrize(("lot", "bad", "needed"), SEEN["cartons_for_95_percent"])
def test_cartons_needed_to_see_one__CV_9_92(lot, bad, needed):
    assert cartons_to_see_one(lot, bad) == needed
    assert chance_of_seeing_one(lot, bad, needed) >= 0.95 > chance_of_seeing_one(lot, bad, needed - 1)


@published("CV-2.6-01", source="binomial law", known="computed")
def test_a_quarter_bad_passes_half_the_time_with_six_and_one():
    assert agrees(stats.binom.cdf(1, 6, 0.25), "0.5339")
    assert chance_of_acceptance(100_000, 25_000, 6, 1) == pytest.approx(0.5339, abs=1e-4)


lots = st.integers(1, 3000).flatmap(
    lambda lot: st.tuples(st.just(lot), st.integers(0, lot), st.integers(0, min(lot, 200)), st.integers(0, 25))
)


@given(lots)
@settings(max_examples=300)
def test_chances_are_those_of_scipy(numbers):
    lot, bad, opened, acceptance = numbers
    assert chance_of_acceptance(lot, bad, opened, acceptance) == pytest.approx(
        stats.hypergeom.cdf(acceptance, lot, bad, opened), abs=1e-11
    )


@given(st.integers(1, 120).flatmap(lambda lot: st.tuples(st.just(lot), st.integers(0, lot), st.integers(0, lot))))
def test_the_chances_of_all_outcomes_sum_to_one(numbers):
    lot, bad, opened = numbers
    assert sum(chance_of_exactly(lot, bad, opened, found) for found in range(opened + 1)) == pytest.approx(1.0)


@given(
    st.integers(2, 300).flatmap(lambda lot: st.tuples(st.just(lot), st.integers(0, lot - 1), st.integers(0, lot))),
    st.integers(0, 5),
)
def test_one_more_bad_carton_never_helps_a_lot(numbers, acceptance):
    lot, bad, opened = numbers
    assert (
        chance_of_acceptance(lot, bad + 1, opened, acceptance)
        <= chance_of_acceptance(lot, bad, opened, acceptance) + 1e-12
    )


@st.composite
def samples(draw) -> tuple[int, int, int]:
    """A lot, how many of it were opened, and how many of these were bad."""
    lot = draw(st.integers(1, 400))
    opened = draw(st.integers(0, lot))
    return lot, opened, draw(st.integers(0, opened))


@given(samples())
@example((16, 14, 2))  # four bad: both that stay shut are bad, 6 in 120, the 5 % itself; it may fall either way
def test_the_upper_limit_is_the_largest_that_a_scan_finds(sample):
    lot, opened, found = sample
    limit = most_bad_left(lot, opened, found)
    surely, at_most = (
        max(
            bad
            for bad in range(found, lot - (opened - found) + 1)
            if stats.hypergeom.cdf(found, lot, bad, opened) >= 0.05 + tie
        )
        for tie in (1e-9, -1e-9)
    )
    assert surely <= limit <= at_most


def test_what_a_clean_sample_leaves_possible():
    facts = what_a_sample_shows(20, 3, 0)
    assert facts["upper_bad"] == 11
    assert stats.hypergeom.cdf(0, 20, 11, 3) >= 0.05 > stats.hypergeom.cdf(0, 20, 12, 3)
    assert facts["miss_chance"] == pytest.approx(stats.hypergeom.pmf(0, 20, 4, 3))  # 1 in 5 bad: missed half the time
    assert what_a_sample_shows(20, 20, 0)["upper_bad"] == 0
    assert what_a_sample_shows(20, 0, 0) | {"lot": 0} == {
        "lot": 0,
        "opened": 0,
        "defective": 0,
        "upper_bad": 20,
        "bad_if_one_in_five": 4,
        "miss_chance": 1.0,
    }
    assert [one_in_five(lot) for lot in (1, 2, 3, 7, 8, 20)] == [1, 1, 1, 1, 2, 4]


def test_a_verdict_gets_no_numbers_where_they_do_not_fit():
    assert sampling_shown(None, 3, 3, 0, 0).upper_bad is None
    assert sampling_shown(3, 5, None, 0, 0).miss_chance is None
    assert sampling_shown(20, 3, 3, 0, 0).to_json()["upper_bad"] == 11


def test_the_operating_characteristic_falls_from_one():
    curve = operating_characteristic(plan_for("codex_2", 40, 10_000))
    assert len(curve) == 41
    assert curve[0]["chance"] == 1.0
    assert all(after["chance"] <= before["chance"] + 1e-12 for before, after in pairwise(curve))
    assert len(operating_characteristic(plan_for("codex_2", 750, 10_000))) == 101


def test_why_of_a_sample():
    why = explain_sample(plan_for("house", 20), 3, 0)
    assert why["limit"] == {"acceptance": 0, "rejection": 1, "plan": "house", "letter": None}
    assert why["source"][0]["known"] == "common_practice"


@pytest.mark.parametrize(("text", "hashed"), [("", 0x811C9DC5), ("a", 0xE40C292C), ("foobar", 0xBF9CF968)])
def test_the_hash_is_fnv1a_as_its_authors_print_it(text, hashed):
    assert fnv1a(text.encode()) == hashed


def test_the_words_look_random():
    """Chi-square over bytes of 40 000 words, against SciPy; the seed is fixed, so this never flickers."""
    words = random_words("a seed")
    drawn = np.array([next(words) for _ in range(40_000)])
    for shift in (0, 8, 16, 24):
        counts = np.bincount((drawn >> shift) & 0xFF, minlength=256)
        assert stats.chisquare(counts).pvalue > 0.001


def test_every_carton_is_as_likely_as_another():
    counts = np.zeros(20)
    for seed in range(4000):
        for position in draw_positions(20, 3, f"seed {seed}", 4):
            counts[position - 1] += 1
    assert stats.chisquare(counts).pvalue > 0.001


def test_a_number_below_three_is_unbiased_at_the_end_of_the_words():
    assert random_below(iter([0xFFFFFFFF, 5]), 3) == 2  # 2^32 = 1 mod 3: the last word is passed over


def test_lone_surrogates_in_a_seed_do_no_harm():
    assert draw_positions(20, 3, "\ud83e") == draw_positions(20, 3, "\ud83e")


@given(
    st.integers(1, 300).flatmap(lambda lot: st.tuples(st.just(lot), st.integers(0, lot))),
    st.text(max_size=20),
    st.integers(1, 40),
)
def test_a_draw_is_spread_over_the_layers_and_repeats(numbers, seed, layers):
    lot, n = numbers
    drawn = draw_positions(lot, n, seed, layers)
    assert drawn == sorted(set(drawn)) == draw_positions(lot, n, seed, layers)
    assert len(drawn) == n
    assert all(1 <= position <= lot for position in drawn)
    edges = np.cumsum([0, *layer_sizes(lot, min(layers, lot))])
    shares = [sum(low < position <= high for position in drawn) for low, high in pairwise(edges)]
    assert max(shares) - min(shares) <= 1


@given(
    st.sampled_from([*PLAN_NAMES, "x"]),
    st.integers(-5, 2_000_000) | st.floats() | st.none() | st.text(),
    st.none() | st.floats(1, 1e5),
    st.sampled_from(["1.0", "6.5", "7"]),
    st.sampled_from(INSPECTIONS),
)
def test_nothing_but_the_documented_error_comes_out_of_a_plan(name, lot, unit_g, aql, inspection):
    plan = attempt(plan_for, name, lot, unit_g, aql, inspection)
    assert isinstance(plan, Unusable) or 1 <= plan.n <= plan.lot


@given(st.integers(-3, 50), st.integers(-3, 60), st.text(), st.integers(-2, 60))
def test_nothing_but_the_documented_error_comes_out_of_a_draw(lot, n, seed, layers):
    drawn = attempt(draw_positions, lot, n, seed, layers)
    assert isinstance(drawn, Unusable) or len(drawn) == n
