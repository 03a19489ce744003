"""Section 9 of the published rows: funnels, charts over time, many comparisons, luck; against SciPy and statsmodels."""
import doctest
import importlib
from math import sqrt

import numpy as np
import pytest
from scipy import stats
from scipy.stats import mstats
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import confint_proportions_2indep, proportions_ztest

from inspections.comparison import control_charts, funnel, significance
from inspections.comparison.case_mix import Tally
from inspections.trade.chances import cartons_to_see_one, cartons_worth, chance_of_seeing_one
from inspections.trade.intervals import chance_at_most, clopper_pearson, difference
from tests.published import HOUSE, ledger, published

ROWS = ledger()
# The 15 chances of Benjamini and Hochberg 1995 (from memory).
FIFTEEN = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528,
           0.7590, 1.0]
TEN = [Tally(n, x) for x, n in zip([3, 5, 2, 9, 4, 6, 1, 12, 5, 3], [60, 80, 50, 120, 75, 90, 40, 130, 85, 70],
                                   strict=True)]
WANDERING = [Tally(n, x) for x, n in zip([210, 340, 150, 520, 260, 410], [4000, 5200, 3100, 6000, 4500, 5100],
                                         strict=True)]


def half_digit(printed: str) -> float:
    """Half of the last printed digit."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


@published("CV-9-15", source="1 - 0.05^(1/n)", known="computed")
@pytest.mark.parametrize(("n", "limit", "rule_of_three"),
                         [(10, "0.2589", "0.3000"), (13, "0.2058", "0.2308"), (20, "0.1391", "0.1500"),
                          (30, "0.0950", "0.1000"), (60, "0.0487", "0.0500")])
def test_upper_bound_when_none_was_seen(n, limit, rule_of_three):
    upper = clopper_pearson(0, n, outside=0.10)[1]
    assert upper == pytest.approx(float(limit), abs=half_digit(limit))
    assert stats.beta.ppf(0.95, 1, n) == pytest.approx(upper, abs=1e-12)
    assert 3 / n == pytest.approx(float(rule_of_three), abs=half_digit(rule_of_three))
    assert upper < 3 / n


@published("CV-9-16", source="Newcombe's method 10; statsmodels", known="from memory; computed")
@pytest.mark.parametrize(("counts", "printed"), [((56, 70, 48, 80), ("0.2000", "0.0524", "0.3339")),
                                                 ((9, 60, 3, 80), ("0.1125", "0.0163", "0.2263"))])
def test_difference_of_two_shares(counts, printed):
    for found, text in zip(difference(*counts), printed, strict=True):
        assert found == pytest.approx(float(text), abs=half_digit(text))
    assert difference(*counts)[1:] == pytest.approx(
        confint_proportions_2indep(*counts, method="newcomb", compare="diff"), abs=1e-8)


@published("CV-9-40 to 44", source="Spiegelhalter 2005, formula", known="computed")
@pytest.mark.parametrize("cv", [f"CV-9-{place}" for place in range(40, 45)])
def test_funnel_limits_of_a_rate_of_4_5_percent(cv):
    n = int(ROWS[cv].says)
    printed = ROWS[cv].value.split("; ")
    law = stats.binom(n, 0.045)
    found = [funnel._interpolated(law.cdf, int(law.ppf(side)), side) / n for side in (0.025, 0.975, 0.001, 0.999)]
    half = sqrt(0.045 * 0.955 / n)  # the normal limits printed beside the exact ones
    found += [max(0.0, 0.045 - 1.96 * half), 0.045 + 1.96 * half, 0.045 + 3.09 * half]
    for ours, text in zip(found, printed, strict=True):
        # the printed normal limits use z = 1.96 and 3.09
        assert ours == pytest.approx(float(text), abs=max(half_digit(text), 0.00002))


def test_the_working_of_a_funnel_limit__CV_9_42():
    below, at = stats.binom.cdf(8, 100, 0.045), stats.binom.cdf(9, 100, 0.045)
    assert (below, at) == pytest.approx((0.963425, 0.985227), abs=5e-7)
    alpha = (at - 0.975) / (at - below)
    assert alpha == pytest.approx(0.46908, abs=5e-6)
    law = stats.binom(100, 0.045)
    assert funnel._interpolated(law.cdf, 9, 0.975) == pytest.approx(9 - alpha, abs=1e-12)


@published("CV-9-45", source="Spiegelhalter 2005, SciPy's winsorising beside it", known="computed")
def test_overdispersion_raw_and_drawn_in():
    strays = [-2.6, -1.9, -1.2, -0.7, -0.4, -0.1, 0.2, 0.5, 0.9, 1.4, 2.2, 4.8]
    assert funnel.overdispersion(strays) == pytest.approx(3.61750, abs=5e-6)
    assert funnel.overdispersion(strays, 0.1) == pytest.approx(1.73722, abs=5e-6)
    low, high = np.percentile(strays, [10, 90])
    assert (low, high) == pytest.approx((-1.83, 2.12))
    assert funnel.overdispersion(strays, 0.1) == pytest.approx(np.mean(np.clip(strays, low, high) ** 2), abs=1e-12)
    # SciPy draws in whole values, not percentiles: near, not the same
    assert mstats.winsorize(np.array(strays), (0.1, 0.1)).data.max() == 2.2
    assert funnel.overdispersion([]) is None


@published("CV-9-46", source="Spiegelhalter 2005, Poisson's law", known="computed")
def test_funnel_of_found_over_expected():
    assert (*funnel.expected_counts(10, 0.025), *funnel.expected_counts(10, 0.001)) == (4, 17, 2, 21)


@published("CV-9-50", source="p-chart; Laney 2002", known="computed")
def test_a_p_chart_and_laneys_of_ten_spans():
    drawn = control_charts.chart(TEN)
    assert drawn.centre == 0.0625
    assert drawn.wander == pytest.approx(0.91361, abs=5e-6)
    assert drawn.wander * control_charts.MEAN_RANGE_OF_TWO == pytest.approx(1.03055, abs=5e-6)
    assert not any(point.is_out or point.is_total_out for point in drawn.points)
    assert not drawn.is_widened


@published("CV-9-51", source="p-chart; Laney 2002", known="computed")
def test_a_chart_whose_points_wander_more_than_luck_is_widened():
    drawn = control_charts.chart(WANDERING)
    assert drawn.centre == pytest.approx(0.067742, abs=5e-7)
    assert drawn.wander == pytest.approx(5.61000, abs=5e-6)
    assert drawn.wander * control_charts.MEAN_RANGE_OF_TWO == pytest.approx(6.32808, abs=5e-6)
    assert drawn.is_widened
    assert not any(point.is_out for point in drawn.points)
    # Laney's limits of n 6000 are 0.01314 and 0.12234; the exact law of the total gives near ones
    low, high = drawn.points[3].low / 6000, drawn.points[3].high / 6000
    assert (low, high) == pytest.approx((0.01314, 0.12234), abs=0.012)


@published("CV-9-52", source="Laney 2002, conventional rounding", known="computed")
def test_the_mean_range_of_two_is_the_rounded_one():
    assert control_charts.MEAN_RANGE_OF_TWO == 1.128
    assert 2 / sqrt(np.pi) == pytest.approx(1.128379, abs=5e-7)


@published("CV-9-70 to 72", source="Benjamini and Hochberg 1995; statsmodels", known="from memory; computed")
def test_fifteen_chances_of_the_paper():
    printed = [0.00150, 0.00300, 0.00950, 0.03562, 0.06030, 0.06386, 0.06386, 0.06450, 0.07650, 0.48600, 0.58118,
               0.71487, 0.75323, 0.81321, 1.0]
    ours = list(stats.false_discovery_control(FIFTEEN))
    # 0.035625 is printed cut off, not rounded
    assert ours == pytest.approx(printed, abs=5.1e-6)
    assert sum(each <= significance.FALSE_SHARE for each in ours) == 4
    assert ours == pytest.approx(multipletests(FIFTEEN, method="fdr_bh")[1])
    bonferroni, holm = (multipletests(FIFTEEN, method=method) for method in ("bonferroni", "holm"))
    assert bonferroni[1][:4] == pytest.approx([0.00150, 0.00600, 0.02850, 0.14250])
    assert holm[1][:10] == pytest.approx([0.00150, 0.00560, 0.02470, 0.11400, 0.22110, 0.27800, 0.27800, 0.27800,
                                          0.32130, 1.0])
    assert bonferroni[0].sum() == holm[0].sum() == 3  # both are stricter: one finding fewer


@published("CV-9-80 to 91", source="hypergeometric law, SciPy", known="computed")
@pytest.mark.parametrize("cv", [f"CV-9-{place}" for place in range(80, 92)])
def test_chance_that_a_bad_carton_is_seen_by_both_laws(cv):
    lot, bad, opened = (int(each) for each in ROWS[cv].says.split(", "))
    finite, large = ROWS[cv].value.split("; ")
    assert chance_of_seeing_one(lot, bad, opened) == pytest.approx(float(finite), abs=half_digit(finite))
    assert stats.hypergeom.sf(0, lot, bad, opened) == pytest.approx(chance_of_seeing_one(lot, bad, opened))
    assert 1 - chance_at_most(0, opened, bad / lot) == pytest.approx(float(large), abs=half_digit(large))


@published("CV-9-92", source="hypergeometric law", known="computed")
@pytest.mark.parametrize(("lot", "bad", "needed"), [
    (20, 1, 19), (20, 2, 16), (40, 2, 31), (40, 4, 21), (60, 3, 38), (60, 6, 23), (100, 5, 45), (100, 10, 25),
    (200, 10, 51), (500, 25, 56), (1000, 50, 57), (1_000_000, 50_000, 59), (1_000_000, 100_000, 29)])
def test_cartons_needed_for_95_percent(lot, bad, needed):
    assert cartons_to_see_one(lot, bad) == needed


@published("CV-9-93", source="design effect", known="computed")
def test_thirteen_cartons_of_one_delivery_count_as_eight():
    assert 13 / cartons_worth(13, 0.05) == pytest.approx(1.6)
    assert cartons_worth(13, 0.05) == pytest.approx(8.125)


@published("CV-9-94", source="normal and binomial law, SciPy", known="computed")
def test_an_alarm_for_nine_of_sixty_against_5_percent():
    z, _ = proportions_ztest(9, 60, value=0.05, prop_var=0.05)
    assert z == pytest.approx(3.5541, abs=5e-5)
    assert 1 - chance_at_most(8, 60, 0.05) == pytest.approx(0.00285, abs=5e-6)


@pytest.mark.parametrize("name", ["funnel", "control_charts", "significance", "case_mix"])
def test_the_examples_of_a_module(name):
    result = doctest.testmod(importlib.import_module(f"inspections.comparison.{name}"))
    assert result.attempted > 0
    assert result.failed == 0


def test_the_examples_of_the_page():
    page = HOUSE / "inspections" / "comparison" / "docs" / "comparing-suppliers.md"
    result = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert result.attempted > 5
    assert result.failed == 0
