"""One supplier against all the others: the exact law in strata, its limits, what is said of many."""
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.contingency_tables import StratifiedTable
from statsmodels.stats.multitest import multipletests

from inspections.comparison import case_mix, significance, stratified
from inspections.comparison.case_mix import Tally
from inspections.comparison.significance import against_others
from inspections.comparison.stratified import MOST_SPREAD, ExactLaw, Margins, NormalLaw
from tests.published import published

# CV-9-32, computed: cartons opened and defective by kind of goods.
THREE = {
    "A": {"shell-on": Tally(120, 5), "peeled": Tally(40, 3), "cooked": Tally(40, 1)},
    "B": {"shell-on": Tally(30, 1), "peeled": Tally(150, 14), "cooked": Tally(20, 0)},
    "C": {"shell-on": Tally(60, 1), "peeled": Tally(60, 1), "cooked": Tally(80, 1)},
}
ALL = case_mix.pooled(THREE.values())
tallies = st.integers(1, 40).flatmap(lambda opened: st.builds(Tally, st.just(opened), st.integers(0, opened)))
# own and others of one to four strata
groups = st.lists(st.tuples(tallies, tallies), min_size=1, max_size=4)


def both(pairs):
    own = {place: mine for place, (mine, _) in enumerate(pairs)}
    return own, {place: mine + others for place, (mine, others) in enumerate(pairs)}


@published("CV-9-32", "CV-9.2-01 to 03", source="Breslow and Day 1987", known="computed")
@pytest.mark.parametrize(("supplier", "observed", "expected"), [("A", 9, 7.4514), ("B", 15, 12.0857), ("C", 3, 7.4629)])
def test_the_exact_law_of_a_supplier_no_different_has_the_pooled_expectation__CV_9_32(supplier, observed, expected):
    found = against_others(THREE[supplier], ALL)
    law = [stats.hypergeom(ALL[goods].opened, ALL[goods].defective, own.opened)
           for goods, own in THREE[supplier].items()]
    assert found.own.defective == observed
    assert sum(each.mean() for each in law) == pytest.approx(expected, abs=0.00005 + 1e-12)
    # and the chance of as many is the tail of just that law, added up by hand in every order of the strata
    weights = np.ones(1)
    for each in reversed(law):
        weights = np.convolve(weights, each.pmf(np.arange(0, 201)))
    assert found.worse == pytest.approx(weights[observed:].sum(), rel=1e-9)


def test_what_is_expected_comes_from_the_others_alone():
    """By hand: 120 x 2/90 + 40 x 15/210 + 40 x 1/100."""
    found = against_others(THREE["A"], ALL)
    assert found.expected == pytest.approx(120 * 2 / 90 + 40 * 15 / 210 + 40 * 1 / 100)
    assert found.ratio == pytest.approx(9 / found.expected)
    worse = {"shell-on": Tally(120, 60)}
    assert against_others(worse, {"shell-on": Tally(210, 62)}).expected == pytest.approx(120 * 2 / 90)


@given(tallies, tallies)
def test_in_one_stratum_it_is_fishers_exact_test(own, others):
    found = against_others(*both([(own, others)]))
    table = [[own.defective, own.opened - own.defective], [others.defective, others.opened - others.defective]]
    assert found.worse == pytest.approx(stats.fisher_exact(table, alternative="greater").pvalue, rel=1e-6, abs=1e-12)
    assert found.better == pytest.approx(stats.fisher_exact(table, alternative="less").pvalue, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize(("own", "others"), [(Tally(53, 15), Tally(273, 16)), (Tally(40, 1), Tally(90, 12))])
def test_in_one_stratum_its_limits_are_scipys_exact_ones(own, others):
    """Conditional limits of the odds ratio (SciPy), told as found over expected."""
    table = [[own.defective, own.opened - own.defective], [others.defective, others.opened - others.defective]]
    odds = stats.contingency.odds_ratio(table, kind="conditional").confidence_interval(0.95)
    rate = others.rate
    expected = [psi * rate / (1 - rate + psi * rate) / rate for psi in odds]
    assert against_others(*both([(own, others)])).limits() == pytest.approx(expected, rel=1e-4)


@settings(deadline=None)
@given(groups)
def test_the_limits_leave_out_one_exactly_where_the_chance_is_small(pairs):
    found = against_others(*both(pairs))
    low, high = found.limits()
    # where none or every one of the others' cartons is defective, any odds leave the ratio where it is
    if (any(0 < others.defective < others.opened for _, others in pairs)
            and abs(min(found.worse, found.better) - significance.TAIL) > 1e-4):
        assert (low > 1 + 1e-9) <= (found.worse <= significance.TAIL)
        assert (high is not None and high < 1 - 1e-9) <= (found.better <= significance.TAIL)


def margins(pairs):
    return Margins(*np.array([(own.opened, own.defective, others.opened, others.defective)
                              for own, others in pairs]).T)


def test_very_many_cartons_are_judged_by_mantel_and_haenszel():
    """The normal form against statsmodels' StratifiedTable."""
    pairs = [(Tally(900, 80), Tally(4000, 300)), (Tally(500, 30), Tally(700, 35)), (Tally(300, 40), Tally(2500, 250))]
    normal = NormalLaw(margins(pairs))
    tables = [np.array([[own.defective, own.opened - own.defective],
                        [others.defective, others.opened - others.defective]]) for own, others in pairs]
    theirs = StratifiedTable(tables)
    assert normal.tails()[0] == pytest.approx(theirs.test_null_odds(correction=True).pvalue / 2, rel=1e-6)
    assert normal.limits(0.025) == pytest.approx(theirs.oddsratio_pooled_confint(), rel=1e-6)


@pytest.mark.parametrize("more", [-350, -250, -100, 0, 100, 200, 250, 300])
def test_where_the_normal_form_takes_over_it_is_the_exact_law(more):
    """Down to 1 in 1,000 within 3 % of itself; limits within 0.3 %."""
    pairs = [(Tally(18_000, 1_440 + more // 2), Tally(70_000, 5_600)), (Tally(8_000, 640 + more // 2),
                                                                         Tally(9_000, 720))]
    each = margins(pairs)
    assert 0.35 * MOST_SPREAD < each.spread < MOST_SPREAD
    exact, normal = ExactLaw(each, 0.025), NormalLaw(each)
    for mine, theirs in zip(exact.tails(), normal.tails(), strict=True):
        assert mine < 0.001 or theirs == pytest.approx(mine, rel=0.03)
    assert normal.limits(0.025) == pytest.approx(exact.limits(0.025), rel=0.003)


@given(groups)
def test_the_tilted_law_is_the_plain_convolution_of_scipys(pairs):
    weights = np.ones(1)
    for own, others in pairs:
        law = stats.hypergeom(own.opened + others.opened, own.defective + others.defective, own.opened)
        weights = np.convolve(weights, law.pmf(np.arange(own.opened + 1)))
    found = sum(own.defective for own, _ in pairs)
    expected = (weights[found:].sum(), weights[: found + 1].sum())
    assert ExactLaw(margins(pairs), 0.025).tails() == pytest.approx(expected, rel=1e-7, abs=1e-13)


def test_many_small_and_large_strata_together_are_added_up_exactly():
    """Sixty strata, three and a half standard deviations out, against the convolution of SciPy's laws."""
    random = np.random.default_rng(5)
    opened, rest = random.integers(1, 300, 60), random.integers(1, 4000, 60)
    pairs = [(Tally(int(n), int(random.binomial(n, 0.1))), Tally(int(m), int(random.binomial(m, 0.08))))
             for n, m in zip(opened, rest, strict=True)]
    weights = np.ones(1)
    for own, others in pairs:
        law = stats.hypergeom(own.opened + others.opened, own.defective + others.defective, own.opened)
        weights = np.convolve(weights, law.pmf(np.arange(own.opened + 1)))
    found = sum(own.defective for own, _ in pairs)
    assert ExactLaw(margins(pairs), 0.025).tails()[0] == pytest.approx(weights[found:].sum(), rel=1e-8)


def test_one_more_carton_leaves_most_of_the_law_where_it_was():
    """What is kept of the other strata gives the same as all made afresh."""
    pairs = [(Tally(60 + place, place % 9), Tally(400, 30 + place)) for place in range(40)]
    ExactLaw(margins(pairs), 0.025)
    pairs[21] = (Tally(82, 4), pairs[21][1])
    made = stratified._part.cache_info().misses
    kept = ExactLaw(margins(pairs), 0.025)
    assert stratified._part.cache_info().misses == made + 1
    stratified._part.cache_clear()
    fresh = ExactLaw(margins(pairs), 0.025)
    assert (kept.tails(), kept.limits(0.025)) == (fresh.tails(), fresh.limits(0.025))


def test_goods_that_nobody_else_brings_are_left_out():
    own = {"shell-on": Tally(30, 2), "peeled": Tally(10, 9)}
    found = against_others(own, case_mix.pooled([own, {"shell-on": Tally(50, 1)}]))
    assert (found.own, found.others) == (Tally(30, 2), Tally(50, 1))
    alone = against_others(own, case_mix.pooled([own]))
    assert not alone.is_possible
    assert alone.worse == alone.better == 1.0


def test_too_little_of_the_others_makes_no_comparison():
    own = {"shell-on": Tally(60, 9)}
    assert not against_others(own, case_mix.pooled([own, {"shell-on": Tally(19, 0)}])).is_possible
    assert against_others(own, case_mix.pooled([own, {"shell-on": Tally(20, 0)}])).is_possible


def test_no_ratio_is_said_where_the_others_found_nothing_yet_the_chance_is():
    own = {"shell-on": Tally(30, 8)}
    found = against_others(own, case_mix.pooled([own, {"shell-on": Tally(90, 0)}]))
    assert (found.ratio, *found.limits()) == (None, None, None)
    assert found.worse == pytest.approx(stats.hypergeom.sf(7, 120, 8, 30))


def test_a_limit_too_far_out_to_be_found_is_none():
    """One defective carton less than all, and an allowance for likeness so wide that its limit lies past e^20."""
    own = {"raw": Tally(2, 1)}
    found = against_others(own, case_mix.pooled([own, {"raw": Tally(40, 39)}]), 9.0)
    assert found.limits()[0] == 0.0
    assert 0 < found.worse <= 1


@given(groups, st.floats(1, 9))
def test_alike_cartons_never_make_a_count_stand_out_more(pairs, effect):
    plain, widened = against_others(*both(pairs)), against_others(*both(pairs), effect)
    assert min(widened.worse, widened.better, 0.5) >= min(plain.worse, plain.better, 0.5) - 1e-9


def effect_of(tallies, cells=None):
    return significance.design_effect(list(range(len(tallies))), cells or ["one"] * len(tallies), tallies)


def test_cartons_that_resemble_each_other_have_a_design_effect():
    """Deliveries of ten that are either all bad or all sound: a design effect of ten (of 2,000 cartons: 1,999/199)."""
    assert effect_of([Tally(10, 10 if place % 5 == 0 else 0) for place in range(200)]) == pytest.approx(
        10 * 1999 / 1990)
    assert effect_of([Tally(10, 2)] * 200) == 1.0
    assert effect_of([Tally(10, 2)]) == effect_of([]) == effect_of([Tally(5, 0)] * 3) == 1.0


@pytest.mark.parametrize("deliveries", [2, 3, 40])
def test_the_design_effect_is_not_made_up_by_small_cells(deliveries):
    """Independent cartons, three a delivery, in cells of two deliveries: it once came out at 1.9."""
    random = np.random.default_rng(2)
    number = 3000 // deliveries * deliveries
    tallies = [Tally(3, int(bad)) for bad in random.binomial(3, 0.08, number)]
    assert effect_of(tallies, [place // deliveries for place in range(number)]) < 1.1


def test_the_design_effect_is_that_of_the_likeness_that_was_made():
    """Beta-binomial deliveries of six, alike by 0.2: 1 + 5 x 0.2 = 2 (Kish 1965)."""
    random = np.random.default_rng(3)
    tallies = [Tally(6, int(random.binomial(6, share))) for share in random.beta(0.1 * 4, 0.9 * 4, 4000)]
    assert effect_of(tallies, [place // 5 for place in range(4000)]) == pytest.approx(2.0, rel=0.06)


def test_two_lines_of_a_delivery_that_are_bad_together_count_together():
    lines = [(place // 2, place % 2, Tally(5, 5 if place % 20 < 2 else 0)) for place in range(200)]
    together = significance.design_effect(*map(list, zip(*lines, strict=True)))
    apart = effect_of([tally for *_, tally in lines], [cell for _, cell, _ in lines])
    assert together == pytest.approx(2 * apart, rel=0.01)


def test_of_many_suppliers_one_far_out_is_marked_and_a_lucky_one_is_not():
    usual = {f"s{place}": {"raw": Tally(100, 5)} for place in range(19)}
    group = usual | {"far": {"raw": Tally(100, 20)}, "near": {"raw": Tally(100, 10)}, "good": {"raw": Tally(400, 2)}}
    everybody = case_mix.pooled(group.values())
    against = {name: against_others(own, everybody) for name, own in group.items()}
    marks = significance.marks(against)
    assert marks["far"][0] == significance.MORE
    assert marks["good"][0] == significance.FEWER
    assert marks["near"][0] == significance.WITHIN
    assert against["near"].worse < 0.05 < marks["near"][1]
    assert {marks[name][0] for name in usual} == {significance.WITHIN}
    assert marks["far"][1] == pytest.approx(multipletests([each.worse for each in against.values()],
                                                          method="fdr_bh")[1][list(against).index("far")])
    assert significance.marks({}) == {}


@pytest.mark.parametrize(("chance", "n"), [(0.00143, 700), (0.05, 20), (0.0009, 1100), (0.51, None), (0.5, 2),
                                           (0.0, 1_000_000_000), (1.2e-6, 830_000)])
def test_one_chance_in_so_many(chance, n):
    assert significance.one_chance_in(chance) == n


def test_limits_hold_where_the_count_found_is_all_but_impossible_by_luck():
    """0 of 3000 beside half of 3000, and the other way round: tails of e^-2000 once were 0 and gave no limit."""
    for mine, rest in ((0, 1500), (3000, 1500)):
        strata = {"raw": Tally(3000, mine)}, {"raw": Tally(6000, mine + rest)}
        low, high = against_others(*strata).limits()
        assert (low == 0.0 and 0 < high < 0.01) if mine == 0 else (1.9 < low <= 2.0 and high is None)
