"""Two stages: the house plan and the published double plans, by an independent hypergeometric law."""

import pytest
from scipy.stats import binom, hypergeom

from inspections.trade.drawing import draw_more, draw_positions
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.sampling import chance_of_passing, plan_for, second_stage
from inspections.trade.verdict import judge_document

from .deliveries import SPECIFICATION, carton, delivery
from .printed import rows_of

# MIL-STD-105E Table III-A, normal inspection, AQL 6.5 (from memory): letter, first n, Ac 1, Re 1, Ac 2.
DOUBLE_AT_6_5 = [
    (40, "iso_2_double", "D", 5, 0, 2, 1),
    (60, "iso_2_double", "E", 8, 0, 3, 3),
    (120, "iso_2_double", "F", 13, 1, 4, 4),
    (200, "iso_2_double", "G", 20, 2, 5, 6),
    (400, "iso_2_double", "H", 32, 3, 7, 8),
    (1000, "iso_2_double", "J", 50, 5, 9, 12),
    (3000, "iso_2_double", "K", 80, 7, 11, 18),
]


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


@pytest.mark.parametrize(("lot", "name", "letter", "first_n", "accepts", "refuses", "last"), DOUBLE_AT_6_5)
def test_the_double_plans_are_those_of_the_standard(lot, name, letter, first_n, accepts, refuses, last):
    plan = plan_for(name, lot)
    second = second_stage(plan)
    assert (plan.letter, plan.n, plan.acceptance) == (letter, first_n, accepts)
    assert (second.rejection, second.total, second.acceptance) == (refuses, 2 * first_n, last)


@pytest.mark.parametrize(("lot", "name", "letter", "first_n", "accepts", "refuses", "last"), DOUBLE_AT_6_5)
def test_a_double_plan_has_the_operating_characteristic_of_its_single_plan(
    lot, name, letter, first_n, accepts, refuses, last
):
    """The standard matches them, letters E and H least, which later editions changed (binomial, from memory)."""
    single = plan_for(name.removesuffix("_double"), lot)

    def double(share: float) -> float:
        told = binom.cdf(accepts, first_n, share)
        for found in range(accepts + 1, refuses):
            if found <= last:
                told += binom.pmf(found, first_n, share) * binom.cdf(last - found, first_n, share)
        return told

    for share in (0.065, 0.1, 0.15, 0.2):
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
