"""Counts that may be compared: the plain rate, the pull to the common rate, too few to say."""
import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from inspections.comparison import case_mix
from inspections.comparison.case_mix import Prior, Tally
from inspections.trade.intervals import wilson
from tests.published import published

HALF_OF_LAST_DIGIT = 0.00005 + 1e-12

# CV-9-01 to 13, computed by two programs; the first four also Newcombe 1998, Statist. Med. 17:857 (from memory).
WILSON = [
    (81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718),
    (0, 10, 0.0, 0.2775), (1, 10, 0.0179, 0.4042), (2, 13, 0.0433, 0.4223), (3, 40, 0.0258, 0.1986),
    (7, 60, 0.0577, 0.2218), (12, 240, 0.0288, 0.0853), (4, 25, 0.0640, 0.3465), (5, 5, 0.5655, 1.0),
    (0, 1, 0.0, 0.7935), (1, 1, 0.2065, 1.0),
]
# CV-9-66, computed: eight suppliers, their shrunk rates, limits and chance of being over 10 %.
EIGHT = [
    (0, 12, 0.0606, 0.0136, 0.1391, 0.1204), (1, 30, 0.0593, 0.0171, 0.1250, 0.0874),
    (6, 40, 0.1145, 0.0548, 0.1924, 0.6295), (2, 55, 0.0542, 0.0184, 0.1076, 0.0411),
    (9, 60, 0.1216, 0.0654, 0.1921, 0.7319), (3, 80, 0.0512, 0.0195, 0.0971, 0.0198),
    (4, 110, 0.0477, 0.0197, 0.0869, 0.0070), (20, 150, 0.1219, 0.0794, 0.1719, 0.8207),
]

tallies = st.integers(0, 400).flatmap(lambda opened: st.builds(Tally, st.just(opened), st.integers(0, opened)))


@pytest.mark.parametrize(("bad", "opened", "low", "high"), WILSON)
def test_wilson_interval_is_the_published_one__CV_9_01_to_13(bad, opened, low, high):
    interval = wilson(bad, opened)
    assert interval == pytest.approx((low, high), abs=HALF_OF_LAST_DIGIT)


@given(st.integers(1, 500).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_wilson_interval_is_that_of_statsmodels(counts):
    assert wilson(*counts) == pytest.approx(proportion_confint(*counts, method="wilson"), abs=1e-9)


def test_goods_that_nobody_else_brings_are_counted_as_alone():
    own = {"shell-on": Tally(30, 2), "peeled": Tally(10, 1)}
    everybody = case_mix.pooled([own, {"shell-on": Tally(50, 1)}])
    assert case_mix.alone_share(own, everybody) == 0.25
    assert case_mix.alone_share({}, everybody) is None


@published("CV-9-66", source="beta-binomial, empirical Bayes", known="computed")
def test_the_fitted_spread_of_eight_suppliers_is_the_worked_one__CV_9_66():
    prior = case_mix.fit_prior(Tally(opened, bad) for bad, opened, *_ in EIGHT)
    assert prior.a == pytest.approx(3.1394, abs=0.01)
    assert prior.b == pytest.approx(36.6767, abs=0.05)
    assert prior.mean == pytest.approx(0.07885, abs=0.00005)


@published("CV-9.5-01 to 08", source="beta-binomial, empirical Bayes", known="computed")
@pytest.mark.parametrize(("bad", "opened", "rate", "low", "high", "over"), EIGHT)
def test_shrunk_rates_of_eight_suppliers_are_the_worked_ones__CV_9_66(bad, opened, rate, low, high, over):
    prior = Prior(3.1394, 36.6767)
    found = case_mix.shrunk_rate(Tally(opened, bad), prior)
    assert (found.rate, found.low, found.high) == pytest.approx((rate, low, high), abs=HALF_OF_LAST_DIGIT)
    assert case_mix.chance_over(Tally(opened, bad), prior, 0.10) == pytest.approx(over, abs=HALF_OF_LAST_DIGIT)


@published("CV-9-60 to 65", source="beta-binomial, empirical Bayes", known="computed")
@pytest.mark.parametrize(
    ("prior", "bad", "opened", "rate", "low", "high"),
    [(Prior(2, 38), 0, 5, 0.04444, 0.00555, 0.12024), (Prior(2, 38), 1, 5, 0.06667, 0.01429, 0.15473),
     (Prior(2, 38), 3, 40, 0.06250, 0.02087, 0.12459), (Prior(2, 38), 12, 60, 0.14000, 0.07952, 0.21408),
     (Prior(1, 19), 0, 10, 0.03333, 0.00087, 0.11944), (Prior(0.5, 0.5), 0, 10, 0.04545, 0.00005, 0.21720)],
)
def test_a_known_prior_gives_the_worked_rates__CV_9_60_to_65(prior, bad, opened, rate, low, high):
    found = case_mix.shrunk_rate(Tally(opened, bad), prior)
    assert (found.rate, found.low, found.high) == pytest.approx((rate, low, high), abs=0.000005 + 1e-12)


def test_no_spread_is_fitted_where_it_cannot_be_told():
    assert case_mix.fit_prior([Tally(20, 1), Tally(40, 3)]) is None
    assert case_mix.fit_prior([Tally(20, 0), Tally(40, 0), Tally(30, 0)]) is None
    assert case_mix.fit_prior([Tally(2, 2), Tally(3, 3), Tally(4, 4)]) is None


def test_suppliers_as_alike_as_chance_makes_them_are_pulled_nearly_together():
    alike = [Tally(100, 5), Tally(200, 10), Tally(60, 3), Tally(140, 7)]
    prior = case_mix.fit_prior(alike)
    assert [case_mix.shrunk_rate(tally, prior).rate for tally in alike] == pytest.approx([0.05] * 4, abs=0.0005)


@given(st.lists(tallies, min_size=3, max_size=8))
def test_a_shrunk_rate_lies_between_its_own_and_the_common_one(counts):
    prior = case_mix.fit_prior(counts)
    for tally in counts if prior else []:
        if tally.opened:
            ends = sorted([tally.defective / tally.opened, prior.mean])
            found = case_mix.shrunk_rate(tally, prior)
            assert ends[0] - 1e-9 <= found.rate <= ends[1] + 1e-9
            assert 0 <= found.low <= found.high <= 1


@published("CV-12-81", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(
    ("opened", "deliveries", "few"),
    [(20, 5, False), (19, 5, True), (20, 4, True), (0, 0, True), (400, 4, True), (19, 40, True), (21, 6, False)],
)
def test_exactly_the_stated_number_is_enough__CV_9_14_and_CV_12_81(opened, deliveries, few):
    assert case_mix.is_too_few(opened, deliveries) is few


@pytest.mark.parametrize(("opened", "defective"), [(3, 4), (-1, 0), (5, -1)])
def test_more_defective_than_opened_is_refused(opened, defective):
    with pytest.raises(ValueError, match="defective of"):
        Tally(opened, defective)


@given(st.dictionaries(st.sampled_from("abc"), tallies, min_size=1), st.dictionaries(st.sampled_from("abc"), tallies))
def test_the_order_of_suppliers_changes_nothing(first, second):
    for order in itertools.permutations([first, second]):
        everybody = case_mix.pooled(order)
        assert sum(everybody.values(), case_mix.NOTHING) == sum([*first.values(), *second.values()], case_mix.NOTHING)
