"""Has a supplier changed? Week by week, and all weeks added up, against what its own total would give by luck.

Two views of one row of counts, both exact given the totals: if nothing changed, the defective cartons fall on the
weeks as if drawn at random (hypergeometric law), so neither small numbers nor the supplier's own rate is guessed at.
The weekly view sees one bad week; the running total sees a shift that no single week shows. A point is out exactly
where it is drawn outside its limits: words and drawing read the same numbers. Where points wander from one to the
next more than luck makes them (cartons of one delivery are alike), limits are moved out by that much (Laney).

Does not hold over goods that change from month to month, and says nothing with few points. Pure: no Django, no rows.
Sources: Shewhart's three-sigma tails; Laney 2002, Quality Engineering 14:531 (from memory); CV-9-50 to 52. The shift is
the exact form of a cumulative sum over a fixed total (Page 1955 gave the idea), each split by Fisher's exact test.
"""
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise
from math import sqrt

import numpy as np
from scipy.stats import norm

from inspections.comparison.case_mix import NOTHING, Tally
from inspections.comparison.hypergeometric import chances

#: The conventional rounding of 2 / sqrt(pi) = 1.128379 (CV-9-52): mean range of two normal values.
MEAN_RANGE_OF_TWO = 1.128
SIGMAS = 3.0
#: Chance that the running total leaves its limits anywhere by luck, at most (common practice, no source).
FALSE_SHIFT = 0.01
#: Below this many points a chart says nothing (common practice, no source).
MIN_POINTS = 5


@dataclass(frozen=True)
class Point:
    """One span of time with its own limits, and the running total with its own.

    ``low`` and ``high`` are the counts of defective cartons that luck alone still gives in this span, ``total_low``
    and ``total_high`` those up to and with it; ends are in.
    """

    tally: Tally
    low: int
    high: int
    total: Tally
    total_low: int
    total_high: int

    @property
    def is_out(self) -> bool:
        return not self.low <= self.tally.defective <= self.high

    @property
    def is_total_out(self) -> bool:
        return not self.total_low <= self.total.defective <= self.total_high


@dataclass(frozen=True)
class Shift:
    """The likeliest moment of a change: after point ``place`` (from 0), before and since, and the chance of such a
    split by luck, both sides, allowed for the number of splits looked at."""

    place: int
    before: Tally
    since: Tally
    chance: float


@dataclass(frozen=True)
class Chart:
    """``centre`` is the supplier's own rate; ``wander`` how far points stray against luck alone (1)."""

    centre: float
    wander: float
    points: tuple[Point, ...]
    shift: Shift | None

    @property
    def is_widened(self) -> bool:
        return self.wander > 1


def chart(tallies: Sequence[Tally]) -> Chart | None:
    """The spans of time with their limits, one by one and added up.

    Parameters
    ----------
    tallies : sequence of Tally
        In the order of time; each with at least one carton opened.

    Returns
    -------
    Chart or None
        None with fewer than ``MIN_POINTS`` points, or where nothing, or everything, was defective.

    Examples
    --------
    >>> clean_then_bad = [Tally(6, 0)] * 9 + [Tally(3, 1), Tally(6, 3)]
    >>> drawn = chart(clean_then_bad)
    >>> [point.is_out for point in drawn.points[-2:]], drawn.shift.before, drawn.shift.since
    ([False, False], Tally(opened=54, defective=0), Tally(opened=9, defective=4))
    """
    return _chart(tuple(tallies))


@lru_cache(maxsize=500)
def _chart(tallies: tuple[Tally, ...]) -> Chart | None:
    """Kept, since a signing leaves most suppliers as they were."""
    whole = sum(tallies, NOTHING)
    if len(tallies) < MIN_POINTS or whole.defective in (0, whole.opened):
        return None
    wandering = wander(tallies, whole.rate)
    root, totals = max(1.0, wandering), list(accumulate(tallies))
    tail, total_tail = float(norm.sf(SIGMAS * root)), _moved_out(FALSE_SHIFT / 2 / (len(tallies) - 1), root)
    points = tuple(
        Point(each, *_limits(each.opened, whole, tail), total, *_limits(total.opened, whole, total_tail))
        for each, total in zip(tallies, totals, strict=True)
    )
    return Chart(whole.rate, wandering, points, _shift(points, whole, root))


def wander(tallies: Sequence[Tally], centre: float) -> float:
    """Laney's sigma-z: mean step from point to point, in standard scores, over ``MEAN_RANGE_OF_TWO``.

    About 1 where luck alone moves the points. Needs two points or more, and a centre strictly inside 0 to 1.

    Examples
    --------
    >>> bad, opened = [3, 5, 2, 9, 4, 6, 1, 12, 5, 3], [60, 80, 50, 120, 75, 90, 40, 130, 85, 70]
    >>> round(wander([Tally(n, x) for n, x in zip(opened, bad)], 0.0625), 5)        # CV-9-50
    0.91361
    """
    scores = [(each.rate - centre) / sqrt(centre * (1 - centre) / each.opened) for each in tallies]
    steps = [abs(after - before) for before, after in pairwise(scores)]
    return sum(steps) / len(steps) / MEAN_RANGE_OF_TWO


def _limits(opened: int, whole: Tally, tail: float) -> tuple[int, int]:
    """Counts that so many of the whole's cartons can have by luck, with no more than ``tail`` outside on each side."""
    counts, likely = chances(opened, whole.opened - opened, whole.defective)
    # added up from each end by itself, so that tails far beyond one in 10^16 keep their digits
    below, above = np.cumsum(likely), np.cumsum(likely[::-1])
    low, high = counts[np.searchsorted(below, tail, side="right")], counts[::-1][np.searchsorted(above, tail, "right")]
    return int(low), int(high)


def _moved_out(tail: float, root: float) -> float:
    """The tail that lies ``root`` times as many standard deviations out."""
    return float(norm.sf(float(norm.isf(tail)) * root))


def _shift(points: Sequence[Point], whole: Tally, root: float) -> Shift | None:
    """The split furthest outside its limits, None where the running total stays within them."""
    out = [(_chance(point.total, whole), place) for place, point in enumerate(points[:-1]) if point.is_total_out]
    if not out:
        return None
    tail, place = min(out)
    before = points[place].total
    chance = 2 * float(norm.sf(float(norm.isf(tail)) / root)) * (len(points) - 1)
    return Shift(place, before, whole - before, min(1.0, chance))


def _chance(total: Tally, whole: Tally) -> float:
    counts, likely = chances(total.opened, whole.opened - total.opened, whole.defective)
    return float(min(likely[counts <= total.defective].sum(), likely[counts >= total.defective].sum()))
