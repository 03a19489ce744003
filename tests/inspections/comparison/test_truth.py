"""What the comparison claims, held against made-up groups whose truth is known (fewer than ``manage.py simulate``)."""
import pytest
from scipy.stats import norm

from inspections.comparison.simulation import FORMS, Truth, counted_of, power_at_best
from inspections.development.management.commands.simulate import SITES, SUPPLIERS, looks_at, rows_of, truth_of, worse_in

ALIKE = dict.fromkeys(SUPPLIERS, 0.08)


@pytest.mark.parametrize("likeness", [0.0, 0.05, 0.15])
def test_equal_suppliers_are_seldom_called_worse(likeness):
    """At one group in twenty, seven of forty or more would come up less than once in two hundred runs."""
    truth = Truth(ALIKE, SITES, months=3, likeness=likeness)
    assert sum(bool(worse_in(truth, seed)) for seed in range(40)) < 7


def test_a_supplier_with_three_times_the_rate_is_found():
    truth = Truth(ALIKE | {"S1": 0.24}, SITES, months=3)
    assert sum("S1" in worse_in(truth, seed) for seed in range(10)) >= 9


def test_a_new_supplier_of_twice_the_rate_is_found_within_three_months_by_a_group_that_knows_the_others():
    """In four of five (manage.py simulate); of thirty groups, 19 or fewer come up less than once in thirty runs.

    Looked at three times, one of the usual rate is called worse once in fifty groups.
    """
    bad, usual = (truth_of(ALIKE | {"S1": rate}, is_known=True) for rate in (0.16, 0.08))
    assert sum(any("S1" in look for look in looks_at(bad, seed)) for seed in range(30)) > 19
    assert sum(any("S1" in look for look in looks_at(usual, seed)) for seed in range(30)) < 4


def test_a_strict_site_makes_its_main_supplier_look_bad_only_as_counted():
    truth = Truth(ALIKE, SITES | {"A": 2.5}, weights={"A": {"S1": 6.0}})
    raw, compared = [], []
    for seed in range(12):
        rows = rows_of(truth, seed)
        others = [row for name, row in rows.items() if name != "S1"]
        rate = sum(row["defective"] for row in others) / sum(row["cartons_opened"] for row in others)
        raw.append(rows["S1"]["rate"] / rate)
        compared.append(rows["S1"]["ratio"])
    assert sum(raw) / 12 > 1.25
    assert 0.9 < sum(compared) / 12 < 1.1


def test_the_same_seed_makes_the_same_group():
    truth = Truth(ALIKE, SITES, months=1)
    assert counted_of(truth, 4).counts == counted_of(truth, 4).counts != counted_of(truth, 5).counts


def test_the_best_test_finds_what_theory_says():
    """Against the normal form for many cartons: 2,000 at 30 %, one and a tenth times; one supplier, 5 % one-sided.

    n times the log likelihood ratio is linear in the count, so the power is that of the one-sided z test.
    """
    truth = Truth({"S1": 0.3}, SITES, months=4, cartons_a_month=500, opened_a_delivery=1, likeness=0.0)
    rates = [0.3, 0.42, 0.24]
    mean, more = sum(rates) / 3, 1.1 * sum(rates) / 3
    spread, wider = ((2000 * each * (1 - each)) ** 0.5 for each in (mean, more))
    power = norm.sf((1.645 * spread - 2000 * (more - mean)) / wider)
    assert abs(power_at_best(truth, 1.1, groups=4000) - power) < 0.05


def test_a_test_that_must_learn_the_others_rate_finds_what_theory_says():
    """Five others with as many cartons each: the spread of a difference is the root of 1 + 1/5 of one's own.

    By the normal form: n cartons at a rate p, twice that; at the common rate of all under the null.
    """
    n, low = 2000, 0.05
    truth = Truth(dict.fromkeys(SUPPLIERS, low), SITES, months=4, cartons_a_month=500, opened_a_delivery=1,
                  likeness=0.0)
    # FORMS makes three kinds of goods; the spread is that of their mean, which differs little at such rates
    rate = low * sum(FORMS.values()) / len(FORMS)
    common = rate * (1.2 + 5) / 6
    spread = (n * common * (1 - common) * 1.2) ** 0.5
    wider = (n * (1.2 * rate * (1 - 1.2 * rate) + rate * (1 - rate) / 5)) ** 0.5
    power = norm.sf((norm.isf(1 - 0.95 ** (1 / 6)) * spread - n * 0.2 * rate) / wider)
    assert abs(power_at_best(truth, 1.2, groups=4000, is_told=False) - power) < 0.05


def test_no_test_can_beat_the_best_and_ours_comes_near_it():
    """Twice the rate, 60 cartons a month, three months, all begun together (manage.py simulate)."""
    truth = Truth(ALIKE, SITES, months=3)
    best = power_at_best(truth, 2.0, groups=4000)
    assert 0.74 < power_at_best(truth, 2.0, groups=4000, is_told=False) < 0.79
    found = sum("S1" in worse_in(Truth(ALIKE | {"S1": 0.16}, SITES, months=3), seed) for seed in range(40)) / 40
    assert 0.83 < best < 0.88
    assert best - 0.25 < found <= best + 0.1
