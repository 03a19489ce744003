"""Many suppliers, many chances of a false alarm: which findings stand when all are looked at together.

The false discovery rate: of the suppliers that are marked, on average no more than one in twenty is marked by luck
alone. Pure: no Django, no rows. Source: Benjamini and Hochberg 1995, J. R. Statist. Soc. B 57:289; CV-9-70.
"""
from collections.abc import Sequence

#: Share of marked suppliers that may be marked by luck alone.
FALSE_SHARE = 0.05


def adjusted(chances: Sequence[float]) -> list[float]:
    """Each chance as it stands among the others; compare with the false share that is borne.

    Parameters
    ----------
    chances : sequence of float
        Chances that luck alone goes as far, 0 to 1, in any order.

    Returns
    -------
    list of float
        Adjusted chances in the same order, 0 to 1; never smaller than what came in.

    References
    ----------
    Benjamini and Hochberg 1995: smallest m p / i from the largest down (CV-9-70, computed).

    Examples
    --------
    >>> [round(each, 3) for each in adjusted([0.01, 0.04, 0.03])]
    [0.03, 0.04, 0.04]
    """
    order = sorted(range(len(chances)), key=lambda place: chances[place], reverse=True)
    result, least = [0.0] * len(chances), 1.0
    for passed, place in enumerate(order):
        least = min(least, chances[place] * len(chances) / (len(chances) - passed))
        result[place] = least
    return result
