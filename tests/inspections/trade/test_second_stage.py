"""Two stages: the house plan and the published double plans, by an independent hypergeometric law."""

import pytest
from scipy.stats import binom, hypergeom

from inspections.trade.drawing import draw_more, draw_positions
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.sampling import chance_of_passing, plan_for, second_stage
from inspections.trade.verdict import judge_document

from .deliveries import SPECIFICATION, carton, delivery
from .printed import rows_of, table

DOUBLE = [tuple(row) for row in table("mil_std_105e_double")["rows"]]
# Level II: a lot of each letter (MIL-STD-105E Table I).
LOT_OF = {"B": 12, "C": 20, "D": 40, "E": 60, "F": 120, "G": 200, "H": 400, "J": 1000, "K": 3000, "L": 9000, "M": 30000}


def by_scipy(lot: int, bad: int, first: tuple[int, int, int], then: tuple[int, int]) -> float:
    (n, acceptance, rejection), (more, last) = first, then
    passed = hypergeom.cdf(acceptance, lot, bad, n)
    for found in range(acceptance + 1, rejection):
        if found <= last and found <= bad:
            met = hypergeom.pmf(found, lot, bad, n)
            if met > 0.0:
                passed += met * hypergeom.cdf(last - found, lot - n, bad - found, more)
    return passed


@pytest.mark.parametrize("lot", [3, 4, 5, 8, 9, 12, 20, 25, 26, 40, 50])
def test_the_house_plan_passes_as_often_as_scipy_says(lot):
    plan = plan_for("house", lot)
    second = second_stage(plan)
    stages = (plan.n, plan.acceptance, second.rejection), (second.total - plan.n, second.acceptance)
    for bad in range(lot + 1):
        assert chance_of_passing(plan, bad, second) == pytest.approx(by_scipy(lot, bad, *stages), abs=1e-9)


@pytest.mark.parametrize("lot", [8, 20, 50])
def test_a_second_stage_passes_a_lot_no_less_often_and_hides_a_bad_one_little_more(lot):
    plan = plan_for("house", lot)
    second = second_stage(plan)
    for bad in range(lot + 1):
        assert chance_of_passing(plan, bad, second) >= chance_of_passing(plan, bad) - 1e-12
    # Half of it bad: both plans turn it away about nine times in ten.
    assert chance_of_passing(plan, lot // 2, second) < 0.35


@pytest.mark.parametrize(("letter", "aql", "n", "accepts", "refuses", "last", "last_refuses"), DOUBLE)
def test_the_double_plans_are_those_of_the_standard(letter, aql, n, accepts, refuses, last, last_refuses):
    """MIL-STD-105E Table III-A, every cell of letters B to M at AQL 1.0 to 10 (read in an open package)."""
    plan = plan_for("iso_2_double", LOT_OF[letter], aql=aql)
    second = second_stage(plan, aql=aql)
    assert (plan.n, plan.acceptance, plan.basis["known"]) == (n, accepts, "read")
    assert (second.rejection, second.total, second.acceptance) == (refuses, 2 * n, last)
    # After the second stage there is no gap: one more than is accepted refuses.
    assert last_refuses == last + 1


@pytest.mark.parametrize("aql", ["1.0", "1.5", "2.5", "4.0", "6.5", "10"])
def test_there_is_a_double_plan_where_the_standard_has_one_and_nowhere_else(aql):
    has = {letter for letter, lot in LOT_OF.items() if second_stage(plan_for("iso_2_double", lot, aql=aql), aql=aql)}
    assert has == {row[0] for row in DOUBLE if row[1] == aql}


@pytest.mark.parametrize(("letter", "aql", "n", "accepts", "refuses", "last", "last_refuses"), DOUBLE)
def test_a_double_plan_has_the_operating_characteristic_of_its_single_plan(
    letter, aql, n, accepts, refuses, last, last_refuses
):
    """The standard matches them, letters E and H least, which later editions changed (binomial, by SciPy)."""
    single = plan_for("iso_2", LOT_OF[letter], aql=aql)

    def double(share: float) -> float:
        told = binom.cdf(accepts, n, share)
        for found in range(accepts + 1, refuses):
            if found <= last:
                told += binom.pmf(found, n, share) * binom.cdf(last - found, n, share)
        return told

    for share in (float(aql) / 100.0, 1.5 * float(aql) / 100.0, 3.0 * float(aql) / 100.0):
        assert double(share) == pytest.approx(binom.cdf(single.acceptance, single.n, share), abs=0.09)


def test_a_single_plan_that_accepts_none_has_no_double_one():
    assert second_stage(plan_for("iso_2_double", 8)) is None
    assert second_stage(plan_for("iso_2", 40)) is None
    assert second_stage(plan_for("codex_2", 40)) is None


def test_codex_level_1_goes_on_to_level_2_which_decides():
    # CXS 233 procedure a: level II for disputes (CV-2-02, read).
    plan = plan_for("codex_1", 200, 10_000)
    second = second_stage(plan, 10_000)
    assert (plan.n, plan.acceptance) == (6, 1)
    assert (second.rejection, second.total, second.acceptance) == (3, 13, 2)


def test_the_cartons_of_a_second_stage_come_of_the_same_seed_and_none_twice():
    first = draw_positions(20, 3, "DN-5530/1", layers=4)
    more = draw_more(20, first, 3, "DN-5530/1")
    assert more == draw_more(20, first, 3, "DN-5530/1")
    assert len({*first, *more}) == 6
    assert draw_more(4, [1, 2], 5, "x") == [3, 4]


def test_the_page_prints_both_operating_characteristics():
    for row in rows_of("sampling", "| bad of 8 | single |"):
        for lot, (bad, single, double) in zip((8, 20, 40), (row[:3], row[3:6], row[6:9]), strict=True):
            plan = plan_for("house", lot)
            told = chance_of_passing(plan, int(bad)), chance_of_passing(plan, int(bad), second_stage(plan))
            assert (single, double) == tuple(f"{100 * chance:.1f}" for chance in told), (lot, bad)


def test_a_plan_eased_by_hand_is_held_to_its_table():
    """Of 20 cartons the house plan opens 3 and accepts none bad; a document that claims less is not believed."""
    document = delivery(carton(3))
    document["lines"][0]["sampling"] |= {"n": 1, "acceptance": 1}
    sampling = judge_document(document, [SPECIFICATION], DEFAULT_LIMITS)["lines"][0]["sampling"]
    assert (sampling["planned"], sampling["acceptance"]) == (3, 0)
    document["lines"][0]["sampling"] |= {"n": 5}
    assert judge_document(document, [SPECIFICATION], DEFAULT_LIMITS)["lines"][0]["sampling"]["planned"] == 5
