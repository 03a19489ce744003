"""Figures that say how far an advisory can be trusted, each with its interval.

Method: area under the ROC curve as the share of (dark, clean) pairs in the right order, ties half, with the variance
of DeLong, DeLong and Clarke-Pearson 1988 and a normal interval on the logit scale; shares with the Wilson interval.

Doesn't hold for pictures that belong together (several of one carton): they are counted as independent.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

Z_95 = 1.959963984540054


@dataclass(frozen=True, slots=True)
class Rate:
    """A count of a total with its 95 % Wilson interval; with no total nothing is known."""

    hits: int
    total: int

    @property
    def share(self) -> float | None:
        """Share, 0 to 1, or None with no total."""
        return self.hits / self.total if self.total else None

    @property
    def interval(self) -> tuple[float, float]:
        """Wilson 1927, 95 %; (0, 1) with no total.

        Examples
        --------
        >>> tuple(round(end, 4) for end in Rate(0, 10).interval)
        (0.0, 0.2775)
        """
        if not self.total:
            return 0.0, 1.0
        n, p, z2 = self.total, self.hits / self.total, Z_95**2
        middle = (p + z2 / (2 * n)) / (1 + z2 / n)
        half = Z_95 * math.sqrt(p * (1 - p) / n + z2 / (4 * n * n)) / (1 + z2 / n)
        return max(0.0, middle - half), min(1.0, middle + half)


@dataclass(frozen=True, slots=True)
class Auc:
    """Area under the ROC curve with a 95 % interval (DeLong, logit scale)."""

    area: float
    low: float
    high: float
    positives: int
    negatives: int


def _midranks(values: np.ndarray) -> np.ndarray:
    """Ranks from 1, equal values sharing their mean."""
    _, inverse, counts = np.unique(values, return_inverse=True, return_counts=True)
    last = np.cumsum(counts)
    return (last - (counts - 1) / 2)[inverse]


def auc(positive: Sequence[float], negative: Sequence[float]) -> Auc | None:
    """How well scores put positives above negatives.

    Parameters
    ----------
    positive, negative : sequence of float
        Scores of the photos that are dark, and of those that aren't.

    Returns
    -------
    Auc or None
        None when there are not at least two of each.

    References
    ----------
    DeLong, DeLong, Clarke-Pearson 1988, Biometrics 44:837; midranks after Sun and Xu 2014.

    Examples
    --------
    >>> round(auc([0.9, 0.8, 0.4], [0.5, 0.1, 0.2]).area, 4)
    0.8889
    """
    high, low = np.asarray(positive, float), np.asarray(negative, float)
    m, n = len(high), len(low)
    if m < 2 or n < 2:
        return None
    among_all = _midranks(np.concatenate([high, low]))
    of_positive = (among_all[:m] - _midranks(high)) / n
    of_negative = 1 - (among_all[m:] - _midranks(low)) / m
    area = float(of_positive.mean())
    variance = float(of_positive.var(ddof=1) / m + of_negative.var(ddof=1) / n)
    bottom, top = _logit_interval(area, variance, m, n)
    return Auc(area, bottom, top, m, n)


def _logit_interval(area: float, variance: float, m: int, n: int) -> tuple[float, float]:
    """Interval of an area; at 0 and 1, where DeLong's variance is nil, the exact one of no misordered pair."""
    if variance <= 0 or not 0 < area < 1:
        # Rule of three on the smaller group: 0 of n seen leaves up to about 3 in n (common practice).
        slack = min(1.0, 3.0 / min(m, n))
        return max(0.0, area - slack), min(1.0, area + slack)
    logit = math.log(area / (1 - area))
    half = Z_95 * math.sqrt(variance) / (area * (1 - area))
    low, high = (1 / (1 + math.exp(-(logit + side * half))) for side in (-1, 1))
    return low, high
