"""The exact law of a supplier's defective cartons over many strata, at any odds ratio common to all of them.

In a stratum with its margins given the count is (non-central) hypergeometric; the sum over strata is their
convolution. It is made once, at the odds ratio near which the count was found (a tilt: at odds ratio psi each count k
is psi^k times as likely as at 1), so that no chance near it is too small to be held, and tilted back for every other
question. All terms are positive, so nothing cancels; counts that have less than ``FAINT`` of the likeliest one's
chance are dropped, which keeps the work of a stratum in proportion to its standard deviation and not to its cartons.

Pure: no Django, no rows. Sources: Mehta, Patel and Gray 1985 (exact limits of a common odds ratio); the tilt is
Esscher's, 1932; mode of the non-central law: Fog 2008; from memory.
"""
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import exp, log, sqrt

import numpy as np
from scipy.optimize import brentq
from scipy.special import gammaln, logsumexp
from scipy.stats import norm

#: Chances smaller than this beside the likeliest are dropped (and much smaller ones for limits far out).
FAINT = 1e-30
#: Odds ratios are looked for between e^-20 and e^20.
_FAR = 20.0
#: The tilt goes in such steps of the log odds: one more defective carton leaves most of them where they were.
_TILT_STEP = 0.05
#: Strata that are added up and kept as one: a signing changes one of them, and the other parts still hold.
_BLOCK = 8
#: Beyond this standard deviation, in cartons, the exact law is replaced by its normal form, which then gives chances
#: down to 1 in 1,000 within 3 % of themselves (tested; common practice, no source).
MOST_SPREAD = 100.0


@dataclass(frozen=True)
class Margins:
    """What is given of each stratum: cartons opened and defective of one side, and of all the others.

    Attributes
    ----------
    own, own_bad, others, others_bad : ndarray of shape (strata,), int
        In every stratum ``own`` and ``others`` are at least 1.
    """

    own: np.ndarray
    own_bad: np.ndarray
    others: np.ndarray
    others_bad: np.ndarray

    @property
    def rows(self) -> np.ndarray:
        """All four, of shape (4, strata)."""
        return np.stack([self.own, self.own_bad, self.others, self.others_bad]).astype(np.int64)

    @property
    def bad(self) -> np.ndarray:
        return self.own_bad + self.others_bad

    @property
    def found(self) -> int:
        return int(self.own_bad.sum())

    @property
    def log_odds(self) -> float:
        """Log of Mantel and Haenszel's odds ratio, half a carton added to either side so that it exists."""
        size = self.own + self.others
        agreeing = float((self.own_bad * (self.others - self.others_bad) / size).sum())
        crossing = float((self.others_bad * (self.own - self.own_bad) / size).sum())
        return log((agreeing + 0.5) / (crossing + 0.5))

    @property
    def spread(self) -> float:
        """Standard deviation of the count at odds ratio 1."""
        size = self.own + self.others
        share = self.bad / size
        return sqrt(float((self.own * share * (1 - share) * self.others / np.maximum(1, size - 1)).sum()))


def judged(margins: Margins, outside: float) -> tuple[tuple[float, float], tuple[float, float | None]]:
    """Chances of as many and of as few, and limits of the odds ratio: by the exact law, or its normal form if as good.

    Parameters
    ----------
    margins : Margins
    outside : float
        Share outside the limits on each side.
    """
    return _judged(margins.rows.tobytes(), outside)


@lru_cache(maxsize=1000)
def _judged(rows: bytes, outside: float) -> tuple[tuple[float, float], tuple[float, float | None]]:
    """Kept, since a signing leaves most suppliers and sites as they were."""
    margins = _margins(rows)
    law = NormalLaw(margins) if margins.spread > MOST_SPREAD else ExactLaw(margins, outside)
    return law.tails(), law.limits(outside)


@lru_cache(maxsize=4000)
def _part(rows: bytes, about: float, faint: float) -> tuple[float, int, np.ndarray]:
    """The tilted law of some strata: log of the mean tilt, least count, and weights from there up; kept likewise."""
    counts, logs = _log_chances(_margins(rows), about, faint)
    tilted = logs + counts * about
    least, weights = _added_up(counts[:, 0], np.exp(tilted - tilted.max(axis=1, keepdims=True)), faint)
    return float(logsumexp(tilted, axis=1).sum()), least, weights


def _margins(rows: bytes) -> Margins:
    return Margins(*np.frombuffer(rows, dtype=np.int64).reshape(4, -1))


class ExactLaw:
    """Counts of one side's defective cartons, were they dealt out at random in every stratum."""

    def __init__(self, margins: Margins, outside: float):
        self._found, self._about = margins.found, round(margins.log_odds / _TILT_STEP) * _TILT_STEP
        faint, rows = FAINT * outside**2, margins.rows
        parts = [_part(rows[:, at : at + _BLOCK].tobytes(), self._about, faint)
                 for at in range(0, rows.shape[1], _BLOCK)]
        self._log_mean = sum(log_mean for log_mean, *_ in parts)
        self._least, weights = _added_up([least for _, least, _ in parts], [each for *_, each in parts], faint)
        self._weights = weights / weights.sum()
        self._range = (int(np.maximum(0, margins.bad - margins.others).sum()),
                       int(np.minimum(margins.own, margins.bad).sum()))

    def tails(self) -> tuple[float, float]:
        """Chance of as many, and of as few, at odds ratio 1."""
        counts = self._least + np.arange(len(self._weights))
        with np.errstate(divide="ignore"):
            plain = np.exp(np.minimum(0.0, np.log(self._weights) + self._log_mean - counts * self._about))
        at = self._found - self._least
        many, few, here = float(plain[at:].sum()), float(plain[: at + 1].sum()), float(plain[at])
        # the far side is summed; the near one, part of which may have been dropped, is the rest
        return (many, 1 - many + here) if self._about > 0 else (1 - few + here, few)

    def limits(self, outside: float) -> tuple[float, float | None]:
        """Limits of the odds ratio with so much outside on each side; None where every count above is as likely."""
        at, places = self._found - self._least, np.arange(len(self._weights))
        with np.errstate(divide="ignore"):
            logs = np.log(self._weights)

        def beyond(part: slice) -> Callable[[float], float]:
            def share(log_psi: float) -> float:
                tilted = logs + places * (log_psi - self._about)
                weights = np.exp(tilted - tilted.max())
                return float(weights[part].sum() / weights.sum()) - outside

            return share

        least, most = self._range
        low = None if self._found == least else _odds_where_zero(beyond(slice(at, None)))
        high = None if self._found == most else _odds_where_zero(beyond(slice(at + 1)))
        return low or 0.0, high


def _odds_where_zero(share: Callable[[float], float]) -> float | None:
    """The odds ratio at which a share crosses zero; None where it lies so far out that no rate would show it."""
    for far in (1.5, _FAR):
        if share(-far) * share(far) <= 0:
            return exp(brentq(share, -far, far, xtol=1e-6))
    return None


class NormalLaw:
    """The same for very many cartons: Mantel and Haenszel's test, corrected for whole counts.

    Limits by Robins, Breslow and Greenland 1986.
    """

    def __init__(self, margins: Margins):
        self._margins = margins

    def tails(self) -> tuple[float, float]:
        m = self._margins
        more = m.found - float((m.own * m.bad / (m.own + m.others)).sum())
        return float(norm.sf((more - 0.5) / m.spread)), float(norm.cdf((more + 0.5) / m.spread))

    def limits(self, outside: float) -> tuple[float, float | None]:
        m = self._margins
        n = m.own + m.others
        a, b, c, d = m.own_bad, m.own - m.own_bad, m.others_bad, m.others - m.others_bad
        p, q, r, s = (a + d) / n, (b + c) / n, a * d / n, b * c / n
        total_r, total_s = float(r.sum()), float(s.sum())
        if not total_r or not total_s:
            return 0.0, None
        pr, mixed, qs = (float(each.sum()) for each in (p * r, p * s + q * r, q * s))
        half = float(norm.isf(outside)) * sqrt(
            pr / (2 * total_r**2) + mixed / (2 * total_r * total_s) + qs / (2 * total_s**2))
        return exp(log(total_r / total_s) - half), exp(log(total_r / total_s) + half)


def _log_chances(margins: Margins, log_odds: float, faint: float) -> tuple[np.ndarray, np.ndarray]:
    """Counts (strata, width) that matter at an odds ratio, and their log chances at 1; -inf beyond the last one."""
    own, others, bad = margins.own, margins.others, margins.bad
    mode = _mode(own, others, bad, exp(log_odds))
    rest = (mode, own - mode, bad - mode, others - bad + mode)
    spread = 1 / np.sqrt(sum(1 / (each + 0.5) for each in rest))
    reach = sqrt(-2 * log(faint)) * (spread + 1)
    first = np.maximum(np.maximum(0, bad - others), np.floor(mode - reach)).astype(int)
    last = np.minimum(np.minimum(own, bad), np.ceil(mode + reach)).astype(int)
    counts = first[:, None] + np.arange(int((last - first).max(initial=0)) + 1)
    held = np.minimum(counts, last[:, None])
    own, others, bad = own[:, None], others[:, None], bad[:, None]
    ways = (gammaln(own + 1) + gammaln(others + 1) + gammaln(bad + 1) + gammaln(own + others - bad + 1)
            - gammaln(own + others + 1))
    logs = ways - (gammaln(held + 1) + gammaln(own - held + 1) + gammaln(bad - held + 1)
                   + gammaln(others - bad + held + 1))
    return counts, np.where(counts > last[:, None], -np.inf, logs)


def _mode(own: np.ndarray, others: np.ndarray, bad: np.ndarray, psi: float) -> np.ndarray:
    """About the likeliest count: where one more is psi times the odds against it, as a real number."""
    a, b, c = 1 - psi, others - bad + psi * (own + bad), psi * own * bad
    root = np.sqrt(np.maximum(0.0, b * b + 4 * a * c))
    with np.errstate(divide="ignore", invalid="ignore"):
        mode = np.where(b > 0, 2 * c / (b + root), (root - b) / (2 * a))
    return np.clip(np.nan_to_num(mode), np.maximum(0, bad - others), np.minimum(own, bad))


def _added_up(first: Sequence[int] | np.ndarray, weights: Sequence[np.ndarray] | np.ndarray, faint: float,
              ) -> tuple[int, np.ndarray]:
    """The law of the sum, from its least count up; neighbours in pairs, so that short laws meet short ones."""
    least, parts = int(sum(first)), list(weights)
    while len(parts) > 1:
        joined = []
        for place in range(0, len(parts) - 1, 2):
            begun, part = _trimmed(np.convolve(parts[place], parts[place + 1]), faint)
            least += begun
            joined.append(part)
        parts = joined + parts[len(joined) * 2 :]
    return least, parts[0] if parts else np.ones(1)


def _trimmed(weights: np.ndarray, faint: float) -> tuple[int, np.ndarray]:
    matter = np.flatnonzero(weights > weights.max() * faint)
    return int(matter[0]), weights[matter[0] : matter[-1] + 1]
