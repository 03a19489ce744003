"""How far can a share be trusted that was counted on a few?

Wilson's interval is used on screens (short, never outside 0 to 1); Clopper and Pearson's exact
one is kept for desk work, found by bisection of the exact binomial law. Neither holds for
pieces that resemble each other (one carton): the true range is wider then (CV-9-93).
Sources: Wilson 1927; Clopper and Pearson 1934; Newcombe 1998 (difference of two shares); CV-9.1.
"""

from collections.abc import Callable
from math import sqrt

from .quantities import UnusableReading

Z_95 = 1.959963985
_HALVINGS = 60


def wilson(affected: int, looked_at: int, z: float = Z_95) -> tuple[float, float]:
    """Wilson's interval for a share.

    Parameters
    ----------
    affected, looked_at : int
        0 <= affected <= looked_at, looked_at >= 1.
    z : float
        Normal quantile, 1.959963985 for 95 %.

    Returns
    -------
    tuple of float
        Lower and upper share, 0 to 1, unrounded.

    Raises
    ------
    UnusableReading
        SHARE-01: nothing was looked at, or more affected than looked at (CV-9-14).

    Examples
    --------
    >>> [round(share, 4) for share in wilson(3, 40)]        # CV-9-08
    [0.0258, 0.1986]
    """
    _check(affected, looked_at)
    share = affected / looked_at
    z2 = z * z
    scale = 1.0 + z2 / looked_at
    centre = (share + z2 / (2.0 * looked_at)) / scale
    half = z * sqrt(share * (1.0 - share) / looked_at + z2 / (4.0 * looked_at * looked_at)) / scale
    low = 0.0 if affected == 0 or centre < half else centre - half
    high = 1.0 if affected == looked_at or centre + half > 1.0 else centre + half
    return low, high


def clopper_pearson(affected: int, looked_at: int, outside: float = 0.05) -> tuple[float, float]:
    """The exact interval for a share, by bisection of the binomial law (desk only, no mirror).

    Parameters
    ----------
    affected, looked_at : int
        0 <= affected <= looked_at, looked_at >= 1.
    outside : float
        Share of trials outside, both sides together; 0.05 for 95 %.

    Returns
    -------
    tuple of float
        Lower and upper share, 0 to 1, unrounded.

    Raises
    ------
    UnusableReading
        SHARE-01 as for ``wilson``.

    Examples
    --------
    >>> [round(share, 4) for share in clopper_pearson(3, 40)]       # CV-9-08
    [0.0157, 0.2039]
    """
    _check(affected, looked_at)
    tail = outside / 2.0
    low, high = 0.0, 1.0
    if affected > 0:
        low = _bisect(lambda share: 1.0 - chance_at_most(affected - 1, looked_at, share) < tail)
    if affected < looked_at:
        high = _bisect(lambda share: chance_at_most(affected, looked_at, share) >= tail)
    return low, high


def chance_at_most(found: int, drawn: int, share: float) -> float:
    """Binomial chance of at most ``found`` bad ones among ``drawn``, each bad with ``share``.

    Terms are products taken factor by factor and summed from none upward.

    >>> round(chance_at_most(1, 6, 0.25), 4)        # CV-2-75
    0.5339
    """
    total = 0.0
    for number in range(found + 1):
        total = total + _chance_of_exactly(number, drawn, share)
    return total if total < 1.0 else 1.0


def difference(affected: int, looked_at: int, other_affected: int, other_looked_at: int) -> tuple[float, float, float]:
    """Difference of two shares with its 95 % interval (Newcombe's method 10; desk only, no mirror).

    Parameters
    ----------
    affected, looked_at, other_affected, other_looked_at : int
        Two counts as for ``wilson``, which do not overlap.

    Returns
    -------
    tuple of float
        First share less the second, its lower and upper limit, -1 to 1.

    Raises
    ------
    UnusableReading
        SHARE-01 as for ``wilson``.

    References
    ----------
    Newcombe 1998, Statist. Med. 17:873 (from memory); CV-9-16.

    Examples
    --------
    >>> [round(each, 4) for each in difference(56, 70, 48, 80)]
    [0.2, 0.0524, 0.3339]
    """
    low, high = wilson(affected, looked_at)
    other_low, other_high = wilson(other_affected, other_looked_at)
    share, other = affected / looked_at, other_affected / other_looked_at
    down = sqrt((share - low) * (share - low) + (other_high - other) * (other_high - other))
    up = sqrt((high - share) * (high - share) + (other - other_low) * (other - other_low))
    return share - other, share - other - down, share - other + up


def _chance_of_exactly(found: int, drawn: int, share: float) -> float:
    term = 1.0
    for i in range(drawn):
        term = term * ((drawn - i) / (i + 1) * share) if i < found else term * (1.0 - share)
    return term


def _bisect(is_below: Callable[[float], bool]) -> float:
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if is_below(middle):
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _check(affected: int, looked_at: int) -> None:
    if looked_at < 1 or not 0 <= affected <= looked_at:
        raise UnusableReading("SHARE-01", {"affected": affected, "looked_at": looked_at})
