"""What the comparison claims, held against made-up groups whose truth is known (fewer than ``manage.py simulate``)."""
from inspections.comparison.simulation import Truth, counted_of
from inspections.development.management.commands.simulate import SITES, SUPPLIERS, rows_of

ALIKE = dict.fromkeys(SUPPLIERS, 0.08)


def worse(rows):
    return {name for name, row in rows.items() if row["luck"] and row["luck"]["says"] == "more"}


def test_equal_suppliers_are_seldom_called_worse():
    """At one group in twenty, five of thirty or more would come up less than once in fifty runs."""
    assert sum(bool(worse(rows_of(Truth(ALIKE, SITES, months=4), seed))) for seed in range(30)) < 5


def test_a_supplier_with_three_times_the_rate_is_found():
    truth = Truth(ALIKE | {"S1": 0.24}, SITES, months=3)
    assert sum("S1" in worse(rows_of(truth, seed)) for seed in range(10)) >= 9


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
