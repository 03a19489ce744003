"""The chances of a sample: what is met, what is missed, how many bad cartons may be left.

Hypergeometric law (a finite lot, cartons not put back), as products taken factor by factor and summed from
none upward, so both runtimes agree to the last bit. Plans and what is said of a sample: ``sampling``.
Does not hold where cartons of one delivery resemble each other: m of them at a correlation r tell as little as
m / (1 + (m - 1) r) (CV-9-93).
"""

from .basis import load_table
from .quantities import UnusablePlan

MISS_CHANCE: float = load_table("plans")["statement"]["miss_chance_at_most"]


def chance_of_exactly(lot: int, bad: int, opened: int, found: int) -> float:
    """Hypergeometric chance of ``found`` bad cartons among ``opened`` of a lot with ``bad`` bad ones."""
    if found > bad or opened - found > lot - bad:
        return 0.0
    term = 1.0
    for i in range(opened):
        if i < found:
            term = term * ((bad - i) / (lot - i) * ((opened - i) / (i + 1)))
        else:
            term = term * ((lot - bad - (i - found)) / (lot - i))
    return term


def chance_of_acceptance(lot: int, bad: int, opened: int, acceptance: int) -> float:
    """Chance that a lot passes: at most ``acceptance`` bad cartons are met (hypergeometric).

    Parameters
    ----------
    lot, bad, opened, acceptance : int
        0 <= bad <= lot, 0 <= opened <= lot.

    Returns
    -------
    float
        0 to 1.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 numbers that don't fit together.

    Examples
    --------
    >>> round(chance_of_acceptance(40, 8, 13, 2), 4)        # CV-2-62
    0.4792
    """
    _check(lot, bad, opened)
    total = 0.0
    for found in range(min(acceptance, opened) + 1):
        total = total + chance_of_exactly(lot, bad, opened, found)
    return total if total < 1.0 else 1.0


def chance_of_double(lot: int, bad: int, first: tuple[int, int, int], then: tuple[int, int]) -> float:
    """Chance that a lot passes a plan of two stages (hypergeometric).

    Parameters
    ----------
    lot, bad : int
        As ``chance_of_acceptance``.
    first : tuple of int
        Cartons opened, acceptance number, rejection number.
    then : tuple of int
        Further cartons opened, acceptance number of both stages together.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 numbers that don't fit together.

    Examples
    --------
    >>> round(chance_of_double(20, 4, (3, 0, 2), (3, 1)), 4)
    0.7166
    """
    (opened, acceptance, rejection), (more, last) = first, then
    _check(lot, bad, opened + more)
    total = chance_of_acceptance(lot, bad, opened, acceptance)
    for found in range(acceptance + 1, min(rejection, last + 1)):
        met = chance_of_exactly(lot, bad, opened, found)
        if met > 0.0:
            total = total + met * chance_of_acceptance(lot - opened, bad - found, more, last - found)
    return total if total < 1.0 else 1.0


def chance_of_seeing_one(lot: int, bad: int, opened: int) -> float:
    """Chance that at least one bad carton is opened; errors as ``chance_of_acceptance``.

    >>> round(chance_of_seeing_one(40, 4, 8), 4)        # CV-9-86
    0.6065
    """
    return 1.0 - chance_of_acceptance(lot, bad, opened, 0)


def cartons_to_see_one(lot: int, bad: int, chance: float = 0.95) -> int | None:
    """Fewest cartons to open for that chance of meeting a bad one; None when none is bad (CV-9-92)."""
    _check(lot, bad, 0)
    if bad == 0:
        return None
    miss, opened = 1.0, 0
    while 1.0 - miss < chance and opened < lot:
        miss = miss * ((lot - bad - opened) / (lot - opened))
        opened = opened + 1
    return opened


def most_bad_left(lot: int, opened: int, found: int, miss_chance: float = MISS_CHANCE) -> int:
    """Upper limit on bad cartons: the most that would show ``found`` or fewer with that chance.

    Where a number would show it with just that chance, it is counted in or not as the last bit falls, alike on phone
    and server.

    Parameters
    ----------
    lot, opened, found : int
        0 <= found <= opened <= lot.
    miss_chance : float
        0.05 for an exact one-sided 95 % limit.

    Returns
    -------
    int
        Bad cartons in the whole lot, those found counted in.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 numbers that don't fit together.

    Examples
    --------
    >>> most_bad_left(20, 3, 0)
    11
    """
    _check(lot, found, opened)
    if found > opened:
        raise UnusablePlan("SAMPLE-04", {"lot": lot, "bad": found, "opened": opened})
    low, high = found, lot - (opened - found)
    while low < high:
        middle = (low + high + 1) // 2
        if chance_of_acceptance(lot, middle, opened, found) >= miss_chance:
            low = middle
        else:
            high = middle - 1
    return low


def one_in_five(lot: int) -> int:
    """Bad cartons if one in five were bad: rounded half up, at least one."""
    return max(1, (2 * lot + 5) // 10)


def cartons_worth(opened: int, correlation: float) -> float:
    """How many unrelated cartons so many of one delivery are worth (CV-9-93).

    Parameters
    ----------
    opened : int
        Cartons opened, 1 or more.
    correlation : float
        Likeness of cartons of one delivery (intraclass correlation), 0 to 1.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 no carton, or a correlation outside 0 to 1.

    Examples
    --------
    >>> cartons_worth(13, 0.05)
    8.125
    """
    if opened < 1 or not 0.0 <= correlation <= 1.0:
        raise UnusablePlan("SAMPLE-04", {"lot": opened, "bad": 0, "opened": opened})
    return opened / (1.0 + (opened - 1) * correlation)


def _check(lot: int, bad: int, opened: int) -> None:
    if lot < 1 or not 0 <= bad <= lot or not 0 <= opened <= lot:
        raise UnusablePlan("SAMPLE-04", {"lot": lot, "bad": bad, "opened": opened})
