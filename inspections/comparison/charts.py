"""Has a supplier changed? Its rate over time, with the limits within which it only wanders.

A p-chart: the supplier's own mean, and three standard deviations of a share on each side, wider where fewer
cartons were opened. Cartons of one delivery resemble each other, so a plain p-chart calls too many times; Laney's
chart widens the limits by how far the points truly wander from one to the next, and is used where that is more
than luck alone makes. With few cartons a share jumps by thirds and halves, which three standard deviations of a
smooth law do not foresee: a point is called out only where the exact binomial chance is as small too.

Does not hold over goods that change from month to month (a supplier who begins with peeled prawns), and says
little with few points. Pure: no Django, no rows.
Sources: Shewhart's p-chart; Laney 2002, Quality Engineering 14:531 (from memory); worked rows CV-9-50 to 52.
"""
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from scipy.stats import binom

from inspections.comparison.fair import Tally

#: The conventional rounding of 2 / sqrt(pi) = 1.128379 (CV-9-52): mean range of two normal values.
MEAN_RANGE_OF_TWO = 1.128
SIGMAS = 3.0
#: Chance of going beyond three standard deviations on one side.
FAR = 0.00135
#: Below this many points a chart says nothing (common practice, no source).
MIN_POINTS = 5


@dataclass(frozen=True)
class Point:
    """One span of time: its cartons, its rate and its limits (0 to 1).

    ``chance`` is the binomial chance at the centre of so many, or so few; ``is_out`` is beyond the limits with a
    chance no larger than ``FAR``.
    """

    tally: Tally
    rate: float
    low: float
    high: float
    chance: float

    @property
    def is_out(self) -> bool:
        return (self.rate > self.high or self.rate < self.low) and self.chance <= FAR


@dataclass(frozen=True)
class Chart:
    """``centre`` is the supplier's own rate; ``wander`` how far points stray against luck alone (1)."""

    centre: float
    wander: float
    is_widened: bool
    points: tuple[Point, ...]


def chart(tallies: Sequence[Tally]) -> Chart | None:
    """A p-chart of the spans of time, or Laney's where the points wander more than luck makes them.

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
    >>> bad, opened = [3, 5, 2, 9, 4, 6, 1, 12, 5, 3], [60, 80, 50, 120, 75, 90, 40, 130, 85, 70]
    >>> drawn = chart([Tally(n, x) for n, x in zip(opened, bad)])        # CV-9-50
    >>> round(drawn.wander, 5), drawn.is_widened, round(drawn.points[0].high, 5)
    (0.91361, False, 0.15625)
    """
    total = sum(tallies, Tally(0, 0))
    if len(tallies) < MIN_POINTS or total.defective in (0, total.opened):
        return None
    centre = total.defective / total.opened
    wandering = wander(tallies, centre)
    is_widened = wandering > 1
    points = limits(tallies, centre, wandering if is_widened else 1.0)
    return Chart(centre, wandering, is_widened, points)


def strays(tallies: Sequence[Tally], centre: float) -> list[float]:
    """Standard score of each point against the centre."""
    return [(each.defective / each.opened - centre) / _sigma(each, centre) for each in tallies]


def wander(tallies: Sequence[Tally], centre: float) -> float:
    """Laney's sigma-z: mean step from point to point, in standard scores, over ``MEAN_RANGE_OF_TWO``.

    About 1 where luck alone moves the points. Needs two points or more, and a centre strictly inside 0 to 1.
    """
    steps = [abs(after - before) for before, after in pairwise(strays(tallies, centre))]
    return sum(steps) / len(steps) / MEAN_RANGE_OF_TWO


def limits(tallies: Sequence[Tally], centre: float, widened: float = 1.0) -> tuple[Point, ...]:
    """Each point with its limits, centre -/+ 3 sigma x ``widened``, cut at 0 and 1."""
    points = []
    for each in tallies:
        half = SIGMAS * _sigma(each, centre) * widened
        low, high = max(0.0, centre - half), min(1.0, centre + half)
        points.append(Point(each, each.defective / each.opened, low, high, _chance(each, centre)))
    return tuple(points)


def _chance(tally: Tally, centre: float) -> float:
    """Chance of so many or more above the centre, of so few or fewer below it."""
    if tally.defective > tally.opened * centre:
        return float(binom.sf(tally.defective - 1, tally.opened, centre))
    return float(binom.cdf(tally.defective, tally.opened, centre))


def _sigma(tally: Tally, centre: float) -> float:
    return sqrt(centre * (1 - centre) / tally.opened)
