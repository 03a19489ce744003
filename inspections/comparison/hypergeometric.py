"""The hypergeometric law, as the comparison asks it: which share of the bad cartons falls on some of all.

SciPy's own is the same to the last digits (tested) and ten times slower for the hundreds of short laws of a page.
Pure: no Django, no rows.
"""
from math import ceil, floor, sqrt

import numpy as np
from scipy.special import gammaln

#: Counts further than so many standard deviations (and as many cartons) from the mean have no chance that a double
#: could hold beside the others.
_FAR_OUT = 40


def chances(drawn: int, others: int, bad: int) -> tuple[np.ndarray, np.ndarray]:
    """Counts of bad ones that may be among the drawn, and their chances; counts without any chance are left out.

    Parameters
    ----------
    drawn, others : int
        Cartons drawn, and all the rest.
    bad : int
        Bad ones among both; at most ``drawn + others``.

    Examples
    --------

    >>> counts, likely = chances(9, 54, 4)
    >>> round(float(likely[counts == 4][0]) * 595665, 6)          # C(9, 4) = 126 ways of C(63, 4)
    126.0
    """
    mean = drawn * bad / max(1, drawn + others)
    spread = sqrt(mean * max(0, drawn + others - bad) * others) / max(1, drawn + others - 1)
    reach = _FAR_OUT * (spread + 1)
    least, most = max(0, bad - others, floor(mean - reach)), min(drawn, bad, ceil(mean + reach))
    counts = np.arange(least, most + 1)
    logs = -(gammaln(counts + 1) + gammaln(drawn - counts + 1) + gammaln(bad - counts + 1)
             + gammaln(others - bad + counts + 1))
    weights = np.exp(logs - logs.max())
    return counts, weights / weights.sum()
