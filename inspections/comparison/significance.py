"""Worse than the others, or bad luck? One supplier against all the others, like with like, by an exact test.

Within each stratum (a kind of goods at a site) the defective cartons fall on the supplier's cartons and the
others' as if drawn at random, if the supplier is no different: the hypergeometric law, with nothing estimated. The
strata are added up exactly (``stratified``). "Worse" and "better" are asked apart. Where cartons of one delivery
resemble each other, luck goes further than that law says, so the chance is made larger by ``design_effect``; and the
chances of all suppliers looked at together are held against each other (false discovery rate).

Does not hold where nobody else brought these goods to that site: such strata are left out and their share is told.
Pure: no Django, no rows. Sources: Cochran 1954 and Mantel and Haenszel 1959 (strata), Mehta, Patel and Gray 1985
(exact limits of a common odds ratio), Kish 1965 (design effect), Benjamini and Hochberg 1995; from memory.
"""
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from typing import Protocol

import numpy as np
from scipy.special import ndtr, ndtri
from scipy.stats import false_discovery_control

from inspections.comparison.case_mix import MIN_CARTONS, Tally
from inspections.comparison.stratified import Margins, judged

MORE, FEWER, WITHIN = "more", "fewer", "within"
#: Tail on each side of a 95 % interval.
TAIL = 0.025
#: Share of marked suppliers that may be marked by luck alone.
FALSE_SHARE = 0.05


class Opened(Protocol):
    """Cartons opened, and how many of them were defective."""

    @property
    def opened(self) -> int: ...
    @property
    def defective(self) -> int: ...


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
    margins: Margins
    effect: float

    @property
    def is_possible(self) -> bool:
        """Whether both sides have enough cartons for a comparison."""
        return min(self.own.opened, self.others.opened) >= MIN_CARTONS

    @property
    def worse(self) -> float:
        """Chance (0 to 1) that luck alone gives as many."""
        return self._widened(self._judged[0][0])

    @property
    def better(self) -> float:
        """Chance (0 to 1) that luck alone gives as few."""
        return self._widened(self._judged[0][1])

    @cached_property
    def _judged(self) -> tuple[tuple[float, float], tuple[float, float | None]]:
        # only when asked for: a page lists far more comparisons than it puts to the test
        return judged(self.margins, self._outside)

    @property
    def _outside(self) -> float:
        """Tail of the exact law beyond which ``TAIL`` lies, as luck goes further where cartons are alike."""
        return float(ndtr(float(ndtri(TAIL)) * sqrt(self.effect)))

    def _widened(self, tail: float) -> float:
        """A tail as if luck went so much further."""
        return float(ndtr(float(ndtri(min(max(tail, 1e-300), 1.0))) / sqrt(self.effect)))

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
        return tuple(self._ratio_at(psi) for psi in self._judged[1])

    def _ratio_at(self, psi: float | None) -> float | None:
        """Found over expected, were the supplier's odds ``psi`` times the others' in every stratum."""
        if psi is None or not self.expected:
            return None
        rate = self.margins.others_bad / self.margins.others
        # 1 stays where it is, whatever its odds are multiplied by
        moved = np.where(rate == 1, 1.0, psi * rate / np.where(rate == 1, 1.0, 1 - rate + psi * rate))
        return float((self.margins.own * moved).sum()) / self.expected


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
    rows = [(tally.opened, tally.defective, both.opened - tally.opened, both.defective - tally.defective)
            for key, tally in own.items() if (both := everybody[key]).opened > tally.opened > 0]
    margins = Margins(*np.array(rows, dtype=int).reshape(-1, 4).T)
    mine, others = (Tally(int(opened.sum()), int(bad.sum())) for opened, bad in (
        (margins.own, margins.own_bad), (margins.others, margins.others_bad)))
    expected = float((margins.own * margins.others_bad / margins.others).sum())
    return AgainstOthers(mine, others, expected, margins, effect)


def design_effect(deliveries: Sequence[Hashable], cells: Sequence[Hashable], tallies: Sequence[Opened]) -> float:
    """By how much cartons of one delivery resemble each other: the factor on the variance, 1 at least.

    Parameters
    ----------
    deliveries, cells : sequences of the same length
        For opened cartons of one kind of goods in one delivery: which delivery, and which supplier, site and goods.
    tallies : sequence of Tally, or of anything with ``opened`` and ``defective``
        The cartons.

    Returns
    -------
    float
        1 where luck alone explains the spread, or where no cell has two deliveries to tell.

    Notes
    -----
    Each delivery is held against its own cell, so that a supplier who truly is worse does not widen the limits for
    itself. With n of a cell's N cartons in a delivery and a share p defective in the cell, luck alone gives a square of
    n (1 - n/N) p (1 - p) N/(N - 1), without bias however small the cell; all squares over all of those is the factor.

    References
    ----------
    Design effect: Kish 1965, CV-9-93 (computed); the sum is that of the hypergeometric variance, no more.
    """
    opened, bad = (np.array([getattr(each, name) for each in tallies], dtype=float) for name in ("opened", "defective"))
    at, which = _numbered(cells), _numbered(deliveries)
    if not len(opened):
        return 1.0
    size, found = np.bincount(at, opened)[at], np.bincount(at, bad)[at]
    share = found / size
    strays = np.bincount(which, bad - opened * share)
    luck = opened * (1 - opened / size) * share * (1 - share) * size / np.maximum(1, size - 1)
    return max(1.0, float((strays**2).sum() / luck.sum())) if luck.sum() > 0 else 1.0


def _numbered(names: Sequence[Hashable]) -> np.ndarray:
    known: dict[Hashable, int] = {}
    return np.array([known.setdefault(name, len(known)) for name in names], dtype=int)


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
