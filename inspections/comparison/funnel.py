"""How far from the common rate may luck alone carry a supplier? Funnel limits, and luck that is wider than pure.

Few cartons may stray far, many may not: drawn over the number of cartons the limits make a funnel. The exact
limits go by the binomial law (a rate) or Poisson's (a count against the expected one), interpolated between
counts so that they do not jump. Where cartons of one delivery resemble each other, counts stray further than
these laws say; ``overdispersion`` measures by how much.

A drawing to look at: whether a supplier is marked is told by the exact test (``significance``).
Pure: no Django, no rows.
Sources: Spiegelhalter 2005, Statist. Med. 24:1185 (from memory); worked rows CV-9-40 to 46.
"""
from collections.abc import Callable, Sequence
from math import ceil, floor

from scipy.special import pdtr, pdtrik

#: Tails of the usual two funnels: 95 % and 99.8 % between the limits.
WARNING = 0.025
ALARM = 0.001
#: Share at each end that is drawn in before the spread of suppliers is told (Spiegelhalter 2005).
DRAWN_IN = 0.1
#: Points that a curve of limits is drawn through.
CURVE = 24


def places(least: float, most: float) -> list[float]:
    """Expected counts to draw limits at, from below the least to above the most, closer where the funnel bends."""
    low, high = max(0.25, 0.8 * least), 1.1 * most
    return [low * (high / low) ** (step / (CURVE - 1)) for step in range(CURVE)]


def expected_limits(expected: float, tail: float) -> tuple[float, float]:
    """Limits of a count by Poisson's law, interpolated between counts.

    Parameters
    ----------
    expected : float
        Defective cartons expected from the same goods, over 0.
    tail : float
        Share outside on each side.

    Returns
    -------
    tuple of float
        Lower and upper count, the lower 0 at least.
    """
    low, high = (
        _interpolated(lambda count: float(pdtr(count, expected)), count, side)
        for side, count in zip((tail, 1 - tail), expected_counts(expected, tail), strict=True)
    )
    return low, high


def expected_counts(expected: float, tail: float) -> tuple[int, int]:
    """Smallest whole counts that reach the tail, and all but the tail, of Poisson's law (CV-9-46).

    >>> expected_counts(10, 0.025), expected_counts(10, 0.001)
    ((4, 17), (2, 21))
    """
    return _least_count(tail, expected), _least_count(1 - tail, expected)


def _least_count(share: float, expected: float) -> int:
    """As scipy.stats.poisson.ppf (tested), without what that does around it: a page asks a hundred times."""
    count = ceil(pdtrik(share, expected))
    return count - 1 if count > 0 and pdtr(count - 1, expected) >= share else max(0, count)


def _interpolated(chance_up_to: Callable[[int], float], count: int, side: float) -> float:
    """A limit between two counts, by how far the chance of the larger one overshoots; 0 at least."""
    at, before = chance_up_to(count), chance_up_to(count - 1) if count else 0.0
    overshoot = (at - side) / (at - before) if at > before else 0.0
    return max(0.0, count - overshoot)


def overdispersion(strays: Sequence[float], trimmed: float = 0.0) -> float | None:
    """How much wider than luck alone counts stray: the mean square of their standard scores; 1 is luck alone.

    Parameters
    ----------
    strays : sequence of float
        (found - expected) / standard deviation, one a unit.
    trimmed : float
        Share at each end that is drawn in to the value there (winsorised), so that the very suppliers who are
        looked for do not hide themselves; 0 where each unit is held against its own supplier.

    Returns
    -------
    float or None
        None without a unit.

    References
    ----------
    Spiegelhalter 2005, with 10 % at each end; CV-9-45 (computed, linear interpolation of the percentiles).

    Examples
    --------
    >>> strays = [-2.6, -1.9, -1.2, -0.7, -0.4, -0.1, 0.2, 0.5, 0.9, 1.4, 2.2, 4.8]
    >>> round(overdispersion(strays), 5), round(overdispersion(strays, 0.1), 5)
    (3.6175, 1.73722)
    """
    if not strays:
        return None
    ordered = sorted(strays)
    low, high = _percentile(ordered, trimmed), _percentile(ordered, 1 - trimmed)
    return sum(min(max(stray, low), high) ** 2 for stray in ordered) / len(ordered)


def _percentile(ordered: Sequence[float], share: float) -> float:
    place = share * (len(ordered) - 1)
    below = min(floor(place), len(ordered) - 1)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (place - below) * (ordered[above] - ordered[below])
