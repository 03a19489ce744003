"""Worse than the others, or bad luck? One supplier against all the others, like with like, by an exact test.

Within each stratum (a kind of goods at a site) the defective cartons fall on the supplier's cartons and the
others' as if drawn at random, if the supplier is no different: the hypergeometric law, with nothing estimated. The
strata are added up exactly. "Worse" and "better" are asked apart. Where cartons of one delivery resemble each other,
luck goes further than that law says, so the chance is made larger by ``design_effect``; and the chances of all
suppliers looked at together are held against each other (false discovery rate).

Does not hold where nobody else brought these goods to that site: such strata are left out and their share is told.
Pure: no Django, no rows. Sources: Cochran 1954 and Mantel and Haenszel 1959 (strata), Mehta, Patel and Gray 1985
(exact limits of a common odds ratio), Kish 1965 (design effect), Benjamini and Hochberg 1995; from memory.
"""
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import exp, log, sqrt

import numpy as np
from scipy.optimize import brentq
from scipy.stats import false_discovery_control, norm

from inspections.comparison import funnel
from inspections.comparison.case_mix import MIN_CARTONS, NOTHING, Tally
from inspections.comparison.hypergeometric import log_chances

MORE, FEWER, WITHIN = "more", "fewer", "within"
#: Tail on each side of a 95 % interval.
TAIL = 0.025
#: Share of marked suppliers that may be marked by luck alone.
FALSE_SHARE = 0.05
#: Beyond so many possible counts the exact law is replaced by its normal form (common practice, no source).
MOST_COUNTS = 4000
#: Odds ratios are looked for between e^-20 and e^20.
_FAR = 20.0


@dataclass(frozen=True)
class Stratum:
    """One kind of goods at one site: the supplier's cartons, and everybody else's."""

    own: Tally
    others: Tally


@dataclass(frozen=True)
class AgainstOthers:
    """One supplier beside all the others, in the strata where others were.

    Attributes
    ----------
    own, others : Tally
        Cartons in those strata.
    expected : float
        Defective cartons that the others' rates would give in the supplier's own goods.
    """

    own: Tally
    others: Tally
    expected: float
    strata: tuple[Stratum, ...]
    effect: float

    @property
    def is_possible(self) -> bool:
        """Whether both sides have enough cartons for a comparison."""
        return min(self.own.opened, self.others.opened) >= MIN_CARTONS

    @property
    def worse(self) -> float:
        """Chance (0 to 1) that luck alone gives as many."""
        return self._tails[0]

    @property
    def better(self) -> float:
        """Chance (0 to 1) that luck alone gives as few."""
        return self._tails[1]

    @cached_property
    def _law(self) -> "_Exact | _Normal":
        # only when asked for: a page lists far more comparisons than it puts to the test
        return _law_of(self.strata)

    @cached_property
    def _tails(self) -> tuple[float, float]:
        worse, better = self._law.tails(self.own.defective)
        return _stretched(worse, sqrt(self.effect)), _stretched(better, sqrt(self.effect))

    @property
    def is_apart(self) -> bool:
        """Whether chance alone, looked at by itself, is a poor explanation."""
        return min(self.worse, self.better) <= TAIL

    @property
    def ratio(self) -> float | None:
        """Found over expected; None where the others had nothing defective."""
        return self.own.defective / self.expected if self.expected else None

    def limits(self) -> tuple[float | None, float | None]:
        """95 % limits of the ratio, widened by the design effect; the upper one is None where there is none."""
        odds = self._law.limits(self.own.defective, TAIL, sqrt(self.effect))
        return tuple(_ratio_at(self.strata, self.expected, psi) for psi in odds)


def against_others(
    own: Mapping[Hashable, Tally], everybody: Mapping[Hashable, Tally], effect: float = 1.0
) -> AgainstOthers:
    """One supplier against all the others in the same goods at the same sites.

    Parameters
    ----------
    own, everybody : mapping of stratum to Tally
        ``everybody`` holds ``own`` too and every stratum of it.
    effect : float
        As ``design_effect`` gives it; 1 where cartons of one delivery are no more alike than others.

    Examples
    --------
    >>> own, all_of_it = {"raw": Tally(9, 4)}, {"raw": Tally(63, 4)}
    >>> one_chance_in(against_others(own, all_of_it).worse)      # C(9, 4) of C(63, 4), by Fisher's exact test
    4700
    """
    pairs = (Stratum(tally, everybody[key] - tally) for key, tally in own.items())
    strata = tuple(each for each in pairs if each.own.opened and each.others.opened)
    mine, others = sum((s.own for s in strata), NOTHING), sum((s.others for s in strata), NOTHING)
    return AgainstOthers(mine, others, sum(s.own.opened * s.others.rate for s in strata), strata, effect)


def _ratio_at(strata: Sequence[Stratum], expected: float, psi: float | None) -> float | None:
    """Found over expected, were the supplier's odds ``psi`` times the others' in every stratum."""
    if psi is None or not expected:
        return None
    return sum(s.own.opened * _moved(s.others.rate, psi) for s in strata) / expected


def _moved(rate: float, psi: float) -> float:
    """A share with its odds multiplied; 0 and 1 stay where they are."""
    return rate if rate in (0.0, 1.0) else psi * rate / (1 - rate + psi * rate)


def _stretched(tail: float, root: float) -> float:
    """A tail as if luck went ``root`` times as far."""
    return float(norm.sf(float(norm.isf(min(max(tail, 1e-300), 1.0))) / root))


class _Exact:
    """The exact law of the supplier's defective cartons: a sum of (non-central) hypergeometric counts.

    At odds ratio psi each count k is psi^k times as likely as at 1, in a stratum and in their sum alike. So the strata
    are added up once, and the sum is tilted.
    """

    def __init__(self, strata: Sequence[Stratum]):
        parts = [_support(each) for each in strata]
        self._least = sum(least for least, _ in parts)
        self._parts = [weights for _, weights in parts if len(weights) > 1]
        self._about = log((_agreeing(strata) + 0.5) / (_crossing(strata) + 0.5))

    def tails(self, found: int) -> tuple[float, float]:
        """Chance of as many, and of as few, at odds ratio 1."""
        weights, at = np.exp(self._log_weights(0.0)), found - self._least
        total = weights.sum()
        return float(weights[at:].sum() / total), float(weights[: at + 1].sum() / total)

    def limits(self, found: int, tail: float, root: float) -> tuple[float | None, float | None]:
        """Exact limits of the common odds ratio; the upper one is None where every count below is as likely."""
        outside, at = float(norm.sf(float(norm.isf(tail)) * root)), found - self._least
        # added up where the count that was found is likely, so that nothing near it is too small to be held
        about = self._about
        logs = self._log_weights(about)
        places = np.arange(len(logs))

        def share(log_psi: float, part: slice) -> float:
            tilted = logs + places * (log_psi - about)
            weights = np.exp(tilted - tilted.max())
            return float(weights[part].sum() / weights.sum())

        low = 0.0 if at == 0 else _solved(lambda psi: share(psi, slice(at, None)) - outside)
        high = None if at == len(logs) - 1 else _solved(lambda psi: share(psi, slice(at + 1)) - outside)
        return low, high

    def _log_weights(self, log_psi: float) -> np.ndarray:
        """Log chances of each count from the least one up, at an odds ratio; not adding up to 1."""
        total = np.ones(1)
        for part in self._parts:
            total = np.convolve(total, _tilted(part, log_psi))
        with np.errstate(divide="ignore"):
            return np.log(total)


class _Normal:
    """The same for very many cartons: Mantel and Haenszel's test, limits by Robins, Breslow and Greenland 1986."""

    def __init__(self, strata: Sequence[Stratum]):
        counts = [(s.own.opened, s.own.defective, s.others.opened, s.others.defective) for s in strata]
        self._opened, self._bad, self._others, self._others_bad = np.array(counts, dtype=float).reshape(-1, 4).T

    def tails(self, found: int) -> tuple[float, float]:
        n = self._opened + self._others
        bad = (self._bad + self._others_bad) / n
        spread = sqrt(float((self._opened * bad * (1 - bad) * self._others / (n - 1)).sum()))
        score = (found - float((self._opened * bad).sum())) / spread if spread else 0.0
        return float(norm.sf(score)), float(norm.cdf(score))

    def limits(self, _found: int, tail: float, root: float) -> tuple[float | None, float | None]:
        n = self._opened + self._others
        a, b, c, d = self._bad, self._opened - self._bad, self._others_bad, self._others - self._others_bad
        p, q, r, s = (a + d) / n, (b + c) / n, a * d / n, b * c / n
        total_r, total_s = float(r.sum()), float(s.sum())
        if not total_r or not total_s:
            return (0.0, None)
        pr, mixed, qs = (float(each.sum()) for each in (p * r, p * s + q * r, q * s))
        half = float(norm.isf(tail)) * root * sqrt(
            pr / (2 * total_r**2) + mixed / (2 * total_r * total_s) + qs / (2 * total_s**2))
        return exp(log(total_r / total_s) - half), exp(log(total_r / total_s) + half)


def _law_of(strata: Sequence[Stratum]) -> _Exact | _Normal:
    counts = sum(min(s.own.opened, s.own.defective + s.others.defective) for s in strata)
    return _Exact(strata) if counts <= MOST_COUNTS else _Normal(strata)


def _agreeing(strata: Iterable[Stratum]) -> float:
    """Mantel and Haenszel's odds ratio is this over ``_crossing``."""
    return sum(s.own.defective * (s.others.opened - s.others.defective) / (s.own.opened + s.others.opened)
               for s in strata)


def _crossing(strata: Iterable[Stratum]) -> float:
    return _agreeing(Stratum(s.others, s.own) for s in strata)


def _support(stratum: Stratum) -> tuple[int, np.ndarray]:
    """The least count a supplier can have in a stratum with its margins; log chances from it up at odds ratio 1."""
    bad = stratum.own.defective + stratum.others.defective
    counts, logs = log_chances(stratum.own.opened, stratum.others.opened, bad)
    return int(counts[0]), logs


def _tilted(logs: np.ndarray, log_psi: float) -> np.ndarray:
    """Chances of the counts of a stratum at an odds ratio."""
    tilted = logs + np.arange(len(logs)) * log_psi
    weights = np.exp(tilted - tilted.max())
    return weights / weights.sum()


def _solved(beyond: Callable[[float], float]) -> float:
    return exp(brentq(beyond, -_FAR, _FAR, xtol=1e-6))


def design_effect(deliveries: Iterable[tuple[Tally, float]], cells: float) -> float:
    """By how much cartons of one delivery resemble each other: the factor on the variance, 1 at least.

    Parameters
    ----------
    deliveries : iterable of (Tally, float)
        Cartons of one delivery, and the share to be expected of its own supplier in these goods (0 to 1).
    cells : float
        How many rates (a supplier's in one kind of goods at one site) went into those shares; one that came from
        other deliveries too counts by the part of it that came from these.

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
    if len(scores) <= cells:
        return 1.0
    return max(1.0, (funnel.overdispersion(scores) or 0.0) * len(scores) / (len(scores) - cells))


def marks(against: Mapping[Hashable, AgainstOthers]) -> dict[Hashable, tuple[str, float]]:
    """What is said of each supplier, all looked at together: more, fewer or within, and its chance among them.

    Parameters
    ----------
    against : mapping of name to AgainstOthers
        Suppliers of whom enough was seen.

    References
    ----------
    Benjamini and Hochberg 1995, J. R. Statist. Soc. B 57:289 (CV-9-70, computed), by SciPy; each side by itself.
    """
    if not against:
        return {}
    worse = false_discovery_control([each.worse for each in against.values()])
    better = false_discovery_control([each.better for each in against.values()])
    return {
        name: (MORE if more <= FALSE_SHARE else FEWER if fewer <= FALSE_SHARE else WITHIN, float(min(more, fewer)))
        for name, more, fewer in zip(against, worse, better, strict=True)
    }


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
