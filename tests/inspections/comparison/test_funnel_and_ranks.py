"""The funnel's limits against exact laws and published rows; ranks with intervals against integrals by hand."""
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import quad

from inspections.comparison import case_mix, funnel, ranking
from inspections.comparison.case_mix import Prior, Tally
from inspections.comparison.significance import against_others
from inspections.people.models import Role
from tests.published import published


@published("CV-9-46", source="Spiegelhalter 2005", known="computed")
@pytest.mark.parametrize(("expected", "tail"), [(10, 0.025), (10, 0.001), (3.5, 0.025), (80, 0.001)])
def test_limits_lie_where_poissons_law_leaves_the_tail__CV_9_46(expected, tail):
    """Interpolated: at the whole counts on either side of a limit the exact tail is on either side of what is said."""
    low, high = funnel.expected_limits(expected, tail)
    assert stats.poisson.sf(int(high) + 1, expected) < tail <= stats.poisson.sf(int(high) - 1, expected)
    if low > 0:
        assert stats.poisson.cdf(int(low) - 1, expected) < tail <= stats.poisson.cdf(int(low) + 1, expected)
    assert low < expected < high


@given(st.floats(0.05, 2000), st.sampled_from([0.001, 0.025, 0.975, 0.999]))
def test_whole_counts_are_scipys(expected, share):
    assert funnel._least_count(share, expected) == stats.poisson.ppf(share, expected)


def test_limits_are_those_of_garwood_where_counts_are_many():
    """Garwood's limits of 100 are 81.4 and 121.6 (CV-9-31); the funnel at 100 is the same law asked forwards."""
    low, high = funnel.expected_limits(100.0, 0.025)
    assert (low, high) == pytest.approx((81, 119.6), abs=1.0)


def test_the_curve_reaches_beyond_the_points():
    at = funnel.places(2.0, 50.0)
    assert at[0] < 2.0 < 50.0 < at[-1]
    assert at == sorted(at)


def test_the_rank_of_two_is_the_chance_that_one_exceeds_the_other():
    """P(A < B) for two Beta laws, by numerical integration."""
    prior, a, b = Prior(2, 38), Tally(60, 9), Tally(60, 4)
    law_a, law_b = stats.beta(2 + 9, 38 + 51), stats.beta(2 + 4, 38 + 56)
    chance, _error = quad(lambda x: law_b.pdf(x) * law_a.sf(x), 0, 1)
    found = ranking.ranks({"a": a, "b": b}, prior)
    assert found["a"].is_last == pytest.approx(chance, abs=0.02)
    assert found["a"].is_last + found["b"].is_last == pytest.approx(1)


def test_equal_suppliers_may_have_any_place_and_a_far_one_only_the_last():
    prior = Prior(4, 46)
    alike = ranking.ranks({name: Tally(40, 3) for name in "abcdefgh"}, prior)
    assert all(rank.low == 1 and rank.high == 8 for rank in alike.values())
    far = ranking.ranks({**{name: Tally(400, 20) for name in "abcdefg"}, "far": Tally(400, 120)}, prior)["far"]
    assert (far.low, far.middle, far.high) == (8, 8, 8)
    assert far.is_last > 0.999


def test_hard_goods_are_allowed_for_before_anybody_is_ranked():
    """Two alike in every kind of goods, one of whom brings the hard ones: the same rate once made even."""
    groups = {"A": {"easy": Tally(300, 6), "hard": Tally(100, 20)},
              "B": {"easy": Tally(100, 2), "hard": Tally(300, 60)},
              "C": {"easy": Tally(200, 4), "hard": Tally(200, 40)}}
    everybody = case_mix.pooled(groups.values())
    common = sum(everybody.values(), case_mix.NOTHING)
    even = {name: ranking.even_tally(against_others(own, everybody), common) for name, own in groups.items()}
    assert {round(tally.defective / tally.opened, 4) for tally in even.values()} == {round(common.rate, 4)}


def test_the_desk_gets_the_funnel_and_the_ranks_and_says_none_where_none_can_be_told(dock, person, ask):
    year = {"from_": "2026-01-01", "to": "2026-12-31"}
    boss = person(Role.GROUP_OPERATIONS)
    dock.delivery("Only", "Harbour", ("HLSO raw", 100, 0, 60, 4))
    alone = ask(boss, **year).json()
    assert (alone["funnel"], alone["rows"][0]["rank"]) == (None, None)
    for name, bad in (("Abalone", 5), ("Bright", 6), ("Cold", 30)):
        dock.delivery(name, "Harbour", ("HLSO raw", 100, 0, 100, bad))
    told = ask(boss, **year).json()
    assert len(told["funnel"]["limits"]) == funnel.CURVE
    assert all(at["alarm_low"] <= at["warn_low"] < 1 < at["warn_high"] <= at["alarm_high"]
               for at in told["funnel"]["limits"])
    rank = {row["supplier"]["name"]: row["rank"] for row in told["rows"]}
    assert rank["Cold"]["low"] == rank["Cold"]["high"] == 4 == rank["Cold"]["of"]
    assert rank["Abalone"]["low"] == 1
