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
from scipy.stats import false_discovery_control, hypergeom, norm

from inspections.comparison import funnel
from inspections.comparison.case_mix import MIN_CARTONS, NOTHING, Tally

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
    worse, better : float
        Chance (0 to 1) that luck alone gives as many, or as few.
    """

    own: Tally
    others: Tally
    expected: float
    worse: float
    better: float
    strata: tuple[Stratum, ...]
    effect: float

    @property
    def is_possible(self) -> bool:
        """Whether both sides have enough cartons for a comparison."""
        return min(self.own.opened, self.others.opened) >= MIN_CARTONS

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
        odds = _law_of(self.strata).limits(self.own.defective, TAIL, sqrt(self.effect))
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
    worse, better = (_stretched(tail, sqrt(effect)) for tail in _law_of(strata).tails(mine.defective))
    return AgainstOthers(mine, others, sum(s.own.opened * s.others.rate for s in strata), worse, better, strata, effect)


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
    """The exact law of the supplier's defective cartons: a sum of (non-central) hypergeometric counts."""

    def __init__(self, strata: Sequence[Stratum]):
        self._parts = [_support(each) for each in strata]
        self._least = sum(int(counts[0]) for counts, _ in self._parts)

    def tails(self, found: int) -> tuple[float, float]:
        """Chance of as many, and of as few, at odds ratio 1."""
        weights, at = self._weights(0.0), found - self._least
        return _sum_from(weights, at), _sum_up_to(weights, at)

    def limits(self, found: int, tail: float, root: float) -> tuple[float | None, float | None]:
        """Exact limits of the common odds ratio; the upper one is None where every count below is as likely."""
        outside, at = float(norm.sf(float(norm.isf(tail)) * root)), found - self._least
        low = 0.0 if at == 0 else self._solved(lambda w: _sum_from(w, at), outside)
        high = None if at == self._length - 1 else self._solved(lambda w: _sum_up_to(w, at), outside)
        return low, high

    @cached_property
    def _length(self) -> int:
        return sum(len(counts) - 1 for counts, _ in self._parts) + 1

    def _weights(self, log_psi: float) -> np.ndarray:
        """Chances of each count from the least one up, at an odds ratio."""
        total = np.ones(1)
        for counts, log_chance in self._parts:
            tilted = log_chance + counts * log_psi
            part = np.exp(tilted - tilted.max())
            total = np.convolve(total, part / part.sum())
        return total

    def _solved(self, side: Callable[[np.ndarray], float], outside: float) -> float:
        return exp(brentq(lambda log_psi: side(self._weights(log_psi)) - outside, -_FAR, _FAR, xtol=1e-6))


class _Normal:
    """The same for very many cartons: Mantel and Haenszel's test, limits by Robins, Breslow and Greenland 1986."""

    def __init__(self, strata: Sequence[Stratum]):
        self._strata = strata

    def tails(self, found: int) -> tuple[float, float]:
        laws = [hypergeom(s.own.opened + s.others.opened, s.own.defective + s.others.defective, s.own.opened)
                for s in self._strata]
        spread = sqrt(sum(float(law.var()) for law in laws))
        score = (found - sum(float(law.mean()) for law in laws)) / spread if spread else 0.0
        return float(norm.sf(score)), float(norm.cdf(score))

    def limits(self, _found: int, tail: float, root: float) -> tuple[float | None, float | None]:
        r = s = pr = ps_qr = qs = 0.0
        for each in self._strata:
            n = each.own.opened + each.others.opened
            a, d = each.own.defective, each.others.opened - each.others.defective
            b, c = each.own.opened - each.own.defective, each.others.defective
            p, q, ri, si = (a + d) / n, (b + c) / n, a * d / n, b * c / n
            r, s, pr, ps_qr, qs = r + ri, s + si, pr + p * ri, ps_qr + p * si + q * ri, qs + q * si
        if not r or not s:
            return (0.0, None)
        half = float(norm.isf(tail)) * root * sqrt(pr / (2 * r * r) + ps_qr / (2 * r * s) + qs / (2 * s * s))
        return exp(log(r / s) - half), exp(log(r / s) + half)


def _law_of(strata: Sequence[Stratum]) -> _Exact | _Normal:
    counts = sum(min(s.own.opened, s.own.defective + s.others.defective) for s in strata)
    return _Exact(strata) if counts <= MOST_COUNTS else _Normal(strata)


def _support(stratum: Stratum) -> tuple[np.ndarray, np.ndarray]:
    """Counts that the supplier can have in a stratum with its margins, and their log chances at odds ratio 1."""
    bad, n, others = stratum.own.defective + stratum.others.defective, stratum.own.opened, stratum.others.opened
    counts = np.arange(max(0, bad - others), min(n, bad) + 1)
    return counts, hypergeom.logpmf(counts, n + others, bad, n)


def _sum_up_to(weights: np.ndarray, place: int) -> float:
    return float(weights[: place + 1].sum())


def _sum_from(weights: np.ndarray, place: int) -> float:
    return float(weights[place:].sum())


def design_effect(deliveries: Iterable[tuple[Tally, float]], cells: int) -> float:
    """By how much cartons of one delivery resemble each other: the factor on the variance, 1 at least.

    Parameters
    ----------
    deliveries : iterable of (Tally, float)
        Cartons of one delivery, and the share to be expected of its own supplier in these goods (0 to 1).
    cells : int
        How many rates (a supplier's in one kind of goods at one site) went into those shares.

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
