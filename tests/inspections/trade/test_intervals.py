"""Intervals of a share, against the printed ones, SciPy and statsmodels."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from inspections.trade.exponentials import natural_exp, natural_log
from inspections.trade.intervals import (
    chance_at_most,
    clopper_pearson,
    wilson,
)
from inspections.trade.quantities import UnusableReading
from tests.published import published

from .printed import agrees, table

PRINTED = table("proportion_intervals")
pairs = st.integers(1, 2000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@published("CV-9-01 to 04", source="Wilson 1927; Newcombe 1998", known="from memory; computed")
@published("CV-9-05 to 13", source="Wilson 1927; Clopper and Pearson 1934", known="computed")
@pytest.mark.parametrize("row", PRINTED["rows"], ids=lambda row: f"{row['affected']}/{row['looked_at']}")
def test_printed_intervals(row):
    for found, printed in zip(wilson(row["affected"], row["looked_at"]), row["wilson"], strict=True):
        assert agrees(found, printed)
    for found, printed in zip(clopper_pearson(row["affected"], row["looked_at"]), row["exact"], strict=True):
        assert agrees(found, printed)


@pytest.mark.parametrize(("looked_at", "printed"), PRINTED["upper_when_none_found"])
def test_upper_limit_when_none_was_found__CV_9_15(looked_at, printed):
    assert agrees(clopper_pearson(0, looked_at, outside=0.10)[1], printed)


@pytest.mark.parametrize("row", table("acceptance_large_lots")["rows"], ids=lambda row: f"{row['cv']}-{row['share']}")
def test_binomial_chances__CV_2_70_to_84(row):
    assert agrees(chance_at_most(row["c"], row["n"], row["share"]), row["chance"])


@given(pairs)
def test_wilson_is_that_of_statsmodels(pair):
    low, high = proportion_confint(*pair, method="wilson")
    assert wilson(*pair) == (pytest.approx(low, abs=1e-8), pytest.approx(high, abs=1e-8))


@given(st.integers(1, 60).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_the_exact_interval_is_that_of_statsmodels(pair):
    low, high = proportion_confint(*pair, method="beta")
    assert clopper_pearson(*pair) == (pytest.approx(low, abs=1e-9), pytest.approx(high, abs=1e-9))


@given(st.integers(1, 200), st.integers(0, 200), st.floats(0, 1))
def test_binomial_chances_are_those_of_scipy(drawn, found, share):
    assert chance_at_most(min(found, drawn), drawn, share) == pytest.approx(
        stats.binom.cdf(min(found, drawn), drawn, share), abs=1e-11
    )


@given(pairs)
def test_the_interval_holds_the_share_and_stays_in_bounds(pair):
    affected, looked_at = pair
    low, high = wilson(affected, looked_at)
    assert 0.0 <= low <= affected / looked_at + 1e-12
    assert affected / looked_at - 1e-12 <= high <= 1.0


@given(st.integers(1, 500).flatmap(lambda n: st.tuples(st.integers(0, n - 1), st.just(n))))
def test_one_more_affected_moves_both_ends_up(pair):
    affected, looked_at = pair
    before, after = wilson(affected, looked_at), wilson(affected + 1, looked_at)
    assert before[0] <= after[0]
    assert before[1] <= after[1]


@published("CV-9-14", source="common practice, rule of the house", known="common practice")
@pytest.mark.parametrize("pair", [(0, 0), (2, 1), (-1, 5)])
def test_nothing_looked_at_is_no_data_and_not_zero__CV_9_14(pair):
    for interval in (wilson, clopper_pearson):
        with pytest.raises(UnusableReading) as refused:
            interval(*pair)
        assert refused.value.code == "SHARE-01"


@given(st.floats(-90, 90))
def test_the_power_of_e_is_that_of_the_standard_library(x):
    assert abs(natural_exp(x) - math.exp(x)) <= 3 * math.ulp(math.exp(x))


@given(st.floats(1e-60, 1e60))
def test_the_logarithm_is_that_of_the_standard_library(x):
    assert abs(natural_log(x) - math.log(x)) <= 3 * math.ulp(math.log(x)) + 1e-16


@pytest.mark.parametrize(
    ("call", "x"), [(natural_exp, 701.0), (natural_exp, float("nan")), (natural_log, 0.0), (natural_log, -1.0)]
)
def test_outside_their_range_the_exponentials_refuse(call, x):
    with pytest.raises(ValueError):
        call(x)
