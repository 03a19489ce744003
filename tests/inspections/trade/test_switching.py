"""Normal, tightened and reduced inspection over a run of lots, and when the scheme stops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inspections.trade.quantities import UnusablePlan
from inspections.trade.sampling import ISO_NAMES, plan_for
from inspections.trade.switching import Standing, after_lot, run_of_lots
from tests.published import published


def told(word: str, start: Standing | None = None, edition: str = "iso") -> Standing:
    """Where a run of lots leads: "+" accepted, "-" rejected."""
    standing = start or Standing()
    for sign in word:
        standing = after_lot(standing, sign == "+", edition=edition)
    return standing


TIGHTENED = told("--")


@published("CV-2-54", source="ISO 2859-1 §9.3", known="from memory")
@pytest.mark.parametrize(
    ("word", "inspection"),
    [
        ("-", "normal"),
        ("--", "tightened"),
        ("-+++-", "tightened"),
        ("-++++-", "normal"),
        ("-++++-+++-", "tightened"),
        ("+++++-+-", "tightened"),
    ],
)
def test_two_rejected_of_five_or_fewer_tighten(word, inspection):
    assert told(word).inspection == inspection


@published("CV-2-55", source="ISO 2859-1 §9.3", known="from memory")
@pytest.mark.parametrize(
    ("word", "inspection"),
    [("++++", "tightened"), ("+++++", "normal"), ("++++-++++", "tightened"), ("++++-+++++", "normal")],
)
def test_five_accepted_in_a_row_bring_normal_inspection_back(word, inspection):
    assert told(word, TIGHTENED).inspection == inspection


@published("CV-2-56", source="ISO 2859-1 / MIL-STD-105E", known="from memory")
def test_five_rejected_on_tightened_stop_the_scheme_by_iso_and_ten_lots_by_105e():
    assert not told("-+-+-+-", TIGHTENED).is_stopped
    assert told("-+-+-+-+-", TIGHTENED).is_stopped
    slow = "++++-++++"
    assert not told(slow, TIGHTENED, "mil_105e").is_stopped
    assert told(slow + "-", TIGHTENED, "mil_105e").is_stopped
    assert not told(slow + "-", TIGHTENED, "iso").is_stopped
    assert not told("--------", TIGHTENED, "mil_105e").is_stopped


def test_after_a_stop_nothing_is_judged_until_it_is_begun_again():
    stopped = told("-----", TIGHTENED)
    with pytest.raises(UnusablePlan) as refused:
        after_lot(stopped, True)
    assert refused.value.code == "SAMPLE-06"
    assert len(run_of_lots("iso_2", "6.5", [(200, 32)] * 12)) == 7
    assert after_lot(Standing(inspection="tightened"), True).inspection == "tightened"


def test_ten_clean_lots_reduce_where_the_acceptance_number_is_two_or_more():
    """ISO 2859-1 §9.3.3, from memory: three points a lot that passes one AQL tighter; thirty reduce."""
    seen = run_of_lots("iso_2", "6.5", [(200, 0)] * 10)
    assert [each.next.score for each in seen[:9]] == [3, 6, 9, 12, 15, 18, 21, 24, 27]
    assert seen[-1].next.inspection == "reduced"
    # 4 of 32 passes at 6.5 (Ac 5) and not one tighter (4.0: Ac 3): the score begins again
    assert run_of_lots("iso_2", "6.5", [(200, 0)] * 9 + [(200, 4)])[-1].next.score == 0


def test_fifteen_clean_small_lots_reduce():
    seen = run_of_lots("iso_2", "6.5", [(30, 0)] * 15)
    assert seen[0].plan.acceptance == 1
    assert [each.next.inspection for each in seen][-2:] == ["normal", "reduced"]


def test_reduced_inspection_ends_with_a_reject_a_number_in_the_gap_or_uneven_production():
    start = Standing(inspection="reduced")
    assert after_lot(start, True).inspection == "reduced"
    assert after_lot(start, False).inspection == "normal"
    assert after_lot(start, True, in_gap=True).inspection == "normal"
    assert after_lot(start, True, is_steady=False).inspection == "normal"
    run = run_of_lots("iso_2", "6.5", [(200, 0)] * 10 + [(200, 3), (200, 0)])
    assert run[10].plan.n == 13
    assert (run[10].accepted, run[10].next.inspection) == (True, "normal")
    assert run[11].plan.n == 32


def test_without_steady_production_nothing_is_reduced():
    assert {each.next.inspection for each in run_of_lots("iso_2", "6.5", [(200, 0)] * 20, is_steady=False)} == {
        "normal"
    }


@pytest.mark.parametrize(
    ("args", "code"),
    [
        (("house", "6.5", []), "SAMPLE-01"),
        (("iso_2", "6.5", [(200, 0)], True, "other"), "SAMPLE-01"),
        (("iso_2", "3", [(200, 0)]), "SAMPLE-01"),
        (("iso_2", "6.5", [(0, 0)]), "SAMPLE-02"),
    ],
)
def test_what_cannot_be_is_refused_with_its_code(args, code):
    with pytest.raises(UnusablePlan) as refused:
        run_of_lots(*args)
    assert refused.value.code == code


@given(st.sampled_from(ISO_NAMES), st.lists(st.tuples(st.integers(2, 3000), st.integers(0, 60)), max_size=40))
def test_a_run_is_inspected_as_the_lots_before_ask(name, lots):
    seen = run_of_lots(name, "4.0", lots)
    inspection = "normal"
    for (lot, _), each in zip(lots, seen, strict=False):
        assert each.plan == plan_for(name, lot, aql="4.0", inspection=inspection)
        inspection = each.next.inspection
    assert len(seen) == len(lots) or seen[-1].next.is_stopped


@given(st.lists(st.booleans(), max_size=30))
def test_tightened_means_two_of_the_last_five_were_rejected(history):
    standing = Standing()
    for place, accepted in enumerate(history):
        before = standing
        standing = after_lot(standing, accepted)
        if before.inspection == "normal" and standing.inspection == "tightened":
            assert history[max(0, place - 4) : place + 1].count(False) >= 2
        if standing.is_stopped:
            break


def test_tightened_plans_protect_the_buyer_more():
    """Independent check with SciPy: at 10 % bad, level II of 200 cartons."""
    normal, tight = (plan_for("iso_2", 200, inspection=kind) for kind in ("normal", "tightened"))
    assert stats.binom.cdf(tight.acceptance, tight.n, 0.1) < stats.binom.cdf(normal.acceptance, normal.n, 0.1)
