"""Lot plans for net contents: how many packs, how many may be short, and a scale fine enough."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inspections.trade.net_lots import (
    NET_PLANS,
    is_division_fine_enough,
    is_scale_fine_enough,
    judge_net_lot,
    most_beyond_t1,
    net_plan,
)
from inspections.trade.quantities import Unusable, UnusablePlan
from inspections.trade.shortage import maximum_allowable_variation, tolerable_deficiency
from tests.published import published

from .calls import attempt

TWELVE = [905, 911, 900, 898, 909, 903, 907, 912, 896, 904, 901, 908]


@published("CV-4-27", source="HB 133 Table 2-1", known="from memory")
@pytest.mark.parametrize(
    ("lot", "n"), [(1, 1), (11, 11), (12, 12), (250, 12), (251, 24), (3200, 24), (3201, 48), (1_000_000, 48)]
)
def test_packs_to_weigh_by_plan_a(lot, n):
    assert net_plan("us", lot).n == n


@published("CV-4-28", source="HB 133 Table 2-1", known="from memory")
@pytest.mark.parametrize(("lot", "allowed"), [(5, 0), (100, 0), (1000, 0), (5000, 1)])
def test_packs_allowed_beyond_the_variation(lot, allowed):
    assert net_plan("us", lot).beyond_allowed == allowed


@published("CV-4-94", source="R 87 §4 (2004)", known="from memory")
@pytest.mark.parametrize(
    ("lot", "n", "allowed"), [(100, 50, 3), (500, 50, 3), (501, 80, 5), (3200, 80, 5), (3201, 125, 7)]
)
def test_packs_to_weigh_by_r_87(lot, n, allowed):
    plan = net_plan("oiml", lot)
    assert (plan.n, plan.beyond_allowed) == (n, allowed)
    # of a lot with 2.5 % beyond T1, the share the rules bear, at least nine in ten pass
    assert stats.binom.cdf(allowed, n, 0.025) > 0.9


@published("CV-4-93", source="76/211 Annex II", known="from memory")
def test_twenty_opened_packs_one_beyond_t1_accepts_two_reject():
    plan = net_plan("eu_destructive", 100)
    assert plan.n == 20
    one, two = [1003.0] * 19 + [984.0], [1003.0] * 18 + [984.0] * 2
    assert judge_net_lot(plan, 1000.0, one).passes is True
    assert judge_net_lot(plan, 1000.0, two).passes is False


@published("CV-4-08", source="HB 133 §1.2; R 87; 76/211", known="read")
@published("CV-4-22", source="NIST page on packaging", known="read")
def test_both_requirements_must_hold():
    plan = net_plan("us", 40)
    sound = judge_net_lot(plan, 907.0, TWELVE)
    assert (sound.average, sound.beyond, sound.passes) == ("within", 0, True)
    one_far_short = judge_net_lot(plan, 907.0, [912.0] * 11 + [870.0])  # mean is over, one is 37 g short
    assert (one_far_short.average, one_far_short.beyond, one_far_short.passes) == ("within", 1, False)
    all_a_little = judge_net_lot(plan, 907.0, [900.0] * 6 + [901.0] * 6)  # no single pack beyond 31.7 g
    assert (all_a_little.average, all_a_little.beyond, all_a_little.passes) == ("beyond", 0, False)


def test_a_pack_beyond_t2_fails_any_lot():
    plan = net_plan("oiml", 200)
    assert judge_net_lot(plan, 1000.0, [1003.0] * 49 + [971.0]).passes is True
    assert judge_net_lot(plan, 1000.0, [1003.0] * 49 + [969.0]).passes is False


def test_too_few_weighed_passes_nothing_but_a_found_fault_counts():
    plan = net_plan("us", 40)
    assert judge_net_lot(plan, 907.0, [907.0] * 11).passes is None
    assert judge_net_lot(plan, 907.0, [907.0, 860.0]).passes is False
    assert judge_net_lot(net_plan("us", 8), 300.0, [300.0] * 8).passes in (True, None)


@published("CV-4-81", source="FPackV §9(3); average-weight guide", known="read")
@pytest.mark.parametrize(("packs", "germany", "uk"), [(39, 0, 0), (40, 0, 1), (50, 1, 1), (400, 8, 10), (1000, 20, 25)])
def test_share_that_may_be_beyond_t1(packs, germany, uk):
    assert (most_beyond_t1(packs, "DE"), most_beyond_t1(packs, "UK")) == (germany, uk)


@published("CV-4-20", source="HB 133 §2.2", known="read")
def test_a_scale_has_a_hundred_divisions_of_a_sixth_of_the_variation():
    assert maximum_allowable_variation(1000.0) == 35.3
    assert is_scale_fine_enough(5.0, 6000.0, 1000.0)
    assert not is_scale_fine_enough(6.0, 6000.0, 1000.0)
    assert not is_scale_fine_enough(5.0, 499.0, 1000.0)


@published("CV-4-21", source="HB 133 §2.2", known="read")
def test_a_gram_is_fine_for_113_g():
    assert pytest.approx(1.2) == 7.2 / 6
    assert is_division_fine_enough(1.0, 2000.0, 7.2)
    assert not is_division_fine_enough(1.3, 2000.0, 7.2)


@published("CV-4.2-01", source="NIST HB 133 Table 2-5", known="from memory")
def test_454_g_may_be_19_9_g_short_and_not_9():
    assert maximum_allowable_variation(454.0) == 19.9


@published("CV-4-70 to 76", source="76/211 Annex I; R 87 Table 1; FPackV §9(3)", known="read")
@published("CV-4-77 to 78", source="R 87 Table 1 only", known="from memory")
@pytest.mark.parametrize(
    ("nominal_g", "tolerable_g", "cv"),
    [
        (5, 0.5, "CV-4-70"),
        (50, 4.5, "CV-4-70"),
        (75, 4.5, "CV-4-71"),
        (150, 6.8, "CV-4-72"),
        (200, 9.0, "CV-4-72"),
        (250, 9.0, "CV-4-73"),
        (450, 13.5, "CV-4-74"),
        (750, 15.0, "CV-4-75"),
        (3000, 45.0, "CV-4-76"),
        (12_000, 150.0, "CV-4-77"),
        (20_000, 200.0, "CV-4-78"),
    ],
)
def test_every_row_of_the_tolerable_deficiency(nominal_g, tolerable_g, cv):
    found = tolerable_deficiency(float(nominal_g))
    assert (found.tolerable_g, found.cv) == (tolerable_g, cv)
    assert found.known == ("from_memory" if cv in ("CV-4-77", "CV-4-78") else "read")


@pytest.mark.parametrize(
    ("call", "args", "code"),
    [
        (net_plan, ("other", 5), "SAMPLE-01"),
        (net_plan, ("us", 0), "SAMPLE-02"),
        (net_plan, ("us", 2.5), "SAMPLE-02"),
        (net_plan, ("us", 1_000_001), "SAMPLE-03"),
        (net_plan, ("oiml", 99), "SAMPLE-07"),
        (net_plan, ("eu_destructive", 99), "SAMPLE-07"),
        (most_beyond_t1, (5, "basis"), "SAMPLE-01"),
        (most_beyond_t1, (0, "DE"), "SAMPLE-02"),
    ],
)
def test_what_cannot_be_is_refused_with_its_code(call, args, code):
    with pytest.raises(UnusablePlan) as refused:
        call(*args)
    assert refused.value.code == code


def test_every_plan_says_how_surely_it_is_known():
    for scheme in ("us", "oiml", "eu_destructive"):
        assert net_plan(scheme, 100).basis["known"] == "from_memory"
    assert NET_PLANS["scale"]["basis"]["known"] == "read"


@given(st.sampled_from(["us", "oiml"]), st.lists(st.floats(850, 960), min_size=1, max_size=60), st.floats(0, 20))
def test_more_in_one_pack_never_fails_a_pack_for_it(scheme, found, more):
    plan = net_plan(scheme, 200)
    before = judge_net_lot(plan, 907.0, found)
    after = judge_net_lot(plan, 907.0, [found[0] + more, *found[1:]])
    assert after.beyond <= before.beyond
    assert after.beyond_t2 <= before.beyond_t2


@given(st.text(max_size=4) | st.sampled_from(["us", "oiml"]), st.integers(-3, 2_000_000) | st.floats() | st.none())
def test_nothing_but_the_documented_error_comes_out(scheme, lot):
    plan = attempt(net_plan, scheme, lot)
    assert isinstance(plan, Unusable) or 1 <= plan.n <= max(lot, 125)
