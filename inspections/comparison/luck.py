"""Luck or more? What may be said of a supplier whose count is far from the expected one.

The chance that luck alone carries a count as far from the expected one (Poisson, both sides), made larger where
cartons of one delivery resemble each other, and then held against the chances of all the suppliers that are looked
at together. A supplier is marked only when it stands out after all that; the others are "within what luck
explains", which is no proof that they are alike.

Pure: no Django, no rows. Sources: Spiegelhalter 2005 (funnel, over-dispersion), Benjamini and Hochberg 1995.
"""
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import sqrt

from scipy.stats import norm, poisson

from inspections.comparison import funnel, many
from inspections.comparison.fair import Tally

MORE, FEWER, WITHIN = "more", "fewer", "within"


@dataclass(frozen=True)
class Luck:
    """What luck explains of one supplier.

    Attributes
    ----------
    says : {"more", "fewer", "within"}
        Defective cartons beyond, below or within what luck explains.
    chance : float
        Chance (0 to 1) that luck alone goes as far, either way.
    among : float
        The same as it stands among all the suppliers looked at.
    limits, far_limits : tuple of float
        Counts between which 95 %, and 99.8 %, of lucky and unlucky suppliers lie.
    """

    says: str
    chance: float
    among: float
    limits: tuple[float, float]
    far_limits: tuple[float, float]


def likeness(deliveries: Iterable[tuple[Tally, float]], suppliers: int) -> float:
    """By how much cartons of one delivery resemble each other: the factor on the variance, 1 at least.

    Parameters
    ----------
    deliveries : iterable of (Tally, float)
        Cartons of one delivery, and the share to be expected of its own supplier in these goods (0 to 1).
    suppliers : int
        How many suppliers' own rates went into those shares.

    Returns
    -------
    float
        1 where luck alone explains the spread, or where too few deliveries tell.

    References
    ----------
    Design effect, CV-9-93; over-dispersion, CV-9-45 (computed). Each delivery is held against its own
    supplier's rate, so that a supplier who truly is worse does not widen the limits for itself.
    """
    scores = [
        (tally.defective - tally.opened * share) / sqrt(tally.opened * share * (1 - share))
        for tally, share in deliveries
        if tally.opened and 0 < share < 1
    ]
    if len(scores) <= suppliers:
        return 1.0
    phi = funnel.overdispersion(scores) or 0.0
    return max(1.0, phi * len(scores) / (len(scores) - suppliers))


def chance_of_so_far(observed: int, expected: float, factor: float = 1.0) -> float:
    """Chance that luck alone goes as far from the expected count, either way.

    Parameters
    ----------
    observed : int
        Defective cartons found.
    expected : float
        Over 0.
    factor : float
        As ``likeness`` gives it; 1 is Poisson's law itself.

    Returns
    -------
    float
        0 to 1: twice the smaller tail; with a factor over 1, the tail of a normal score drawn in by its root.

    Examples
    --------
    >>> round(chance_of_so_far(9, 3.0), 5)        # 9 bad of 60 against 5 %
    0.00761
    """
    below, above = float(poisson.cdf(observed, expected)), float(poisson.sf(observed - 1, expected))
    tail = min(below, above, 0.5)
    return min(1.0, 2 * float(norm.sf(float(norm.isf(tail)) / sqrt(factor))))


def luck_of(counts: Mapping[str, tuple[int, float]], factor: float = 1.0) -> dict[str, Luck]:
    """What luck explains of each supplier, all looked at together.

    Parameters
    ----------
    counts : mapping of name to (observed, expected)
        Suppliers of whom enough was seen; every expected count over 0.
    factor : float
        As ``likeness`` gives it.

    Returns
    -------
    dict of name to Luck
    """
    chances = {name: chance_of_so_far(observed, expected, factor) for name, (observed, expected) in counts.items()}
    among = dict(zip(chances, many.adjusted(list(chances.values())), strict=True))
    return {
        name: Luck(
            _says(observed, expected, among[name]), chances[name], among[name],
            _widened(expected, funnel.WARNING, factor), _widened(expected, funnel.ALARM, factor),
        )
        for name, (observed, expected) in counts.items()
    }


def _says(observed: int, expected: float, among: float) -> str:
    if among > many.FALSE_SHARE:
        return WITHIN
    return MORE if observed > expected else FEWER


def _widened(expected: float, tail: float, factor: float) -> tuple[float, float]:
    """Limits of the count, drawn away from the expected one by the root of the factor."""
    low, high = funnel.expected_limits(expected, tail)
    root = sqrt(factor)
    return max(0.0, expected - (expected - low) * root), expected + (high - expected) * root


def one_chance_in(chance: float) -> int | None:
    """N of "1 chance in N", to two figures; None where there is nothing far to say (more than 1 in 2).

    >>> one_chance_in(0.00143), one_chance_in(0.04), one_chance_in(0.7)
    (700, 25, None)
    """
    if chance > 0.5:
        return None
    exact = min(1 / chance, 1e9) if chance > 0 else 1e9
    step = 10 ** max(0, len(str(int(exact))) - 2)
    return round(exact / step) * step


