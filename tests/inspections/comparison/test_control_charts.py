"""Counts over time, one by one and added up: exact limits against SciPy, and cases told in advance."""
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inspections.comparison import control_charts
from inspections.comparison.case_mix import Tally
from inspections.comparison.control_charts import chart

#: Ten clean weeks, then one of three and three of six.
SHIFTED = [Tally(6, 0), Tally(5, 0), Tally(5, 0), Tally(6, 0), Tally(5, 0), Tally(6, 0), Tally(5, 0), Tally(5, 0),
           Tally(6, 0), Tally(5, 0), Tally(3, 1), Tally(6, 3)]
spans = st.lists(st.integers(1, 30).flatmap(lambda n: st.builds(Tally, st.just(n), st.integers(0, n))),
                 min_size=5, max_size=14)


def test_a_shift_that_no_single_week_shows_is_seen_by_the_running_total():
    """0 of 54, then 4 of 9: by luck 1 in 4,700 (C(9, 4) of C(63, 4)); allowed for eleven splits and both sides."""
    drawn = chart(SHIFTED)
    assert (drawn.shift.place, drawn.shift.before, drawn.shift.since) == (9, Tally(54, 0), Tally(9, 4))
    assert stats.hypergeom.cdf(0, 63, 4, 54) == pytest.approx(1 / 4727, rel=1e-3)
    assert drawn.shift.chance == pytest.approx(2 * 11 / 4727, rel=1e-3)
    assert drawn.points[9].is_total_out


def test_one_bad_week_is_out_by_itself():
    drawn = chart([Tally(20, 1)] * 9 + [Tally(20, 9)])
    assert [point.is_out for point in drawn.points] == [False] * 9 + [True]


def test_three_bad_of_three_is_out_and_two_of_three_after_sixteen_weeks_is_not():
    quiet = [Tally(3, 0)] * 14 + [Tally(3, 1)]
    assert not chart([*quiet, Tally(3, 2)]).points[-1].is_out
    assert chart([*[Tally(20, 1)] * 15, Tally(3, 3)]).points[-1].is_out


@given(spans)
def test_a_point_is_out_exactly_where_it_lies_outside_its_limits_and_the_law_says_so(tallies):
    drawn = chart(tallies)
    if drawn is None:
        return
    whole = list(accumulate(tallies))[-1]
    tail = stats.norm.sf(3 * max(1.0, drawn.wander))
    for point in drawn.points:
        law = stats.hypergeom(whole.opened, whole.defective, point.tally.opened)
        x = point.tally.defective
        is_rare = law.cdf(x) <= tail or law.sf(x - 1) <= tail
        assert point.is_out == is_rare
        assert point.low <= point.high


@given(spans)
def test_a_shift_is_told_exactly_where_the_running_total_is_drawn_outside(tallies):
    drawn = chart(tallies)
    if drawn is not None:
        assert (drawn.shift is not None) == any(point.is_total_out for point in drawn.points)
        assert not drawn.points[-1].is_total_out
        if drawn.shift:
            assert drawn.shift.chance <= control_charts.FALSE_SHIFT * 1.001


def test_points_that_wander_move_the_limits_out():
    steady, wild = [Tally(40, 4)] * 10, [Tally(40, 0), Tally(40, 12)] * 5
    assert not chart(steady).is_widened
    assert chart(wild).is_widened
    assert chart(wild).points[0].high > chart([Tally(40, 6)] * 10).points[0].high


def test_a_chart_of_few_or_of_one_kind_of_points_says_nothing():
    assert chart([Tally(60, 3)] * 4) is None
    assert chart([Tally(20, 0)] * 9) is None
    assert chart([Tally(2, 2)] * 9) is None
