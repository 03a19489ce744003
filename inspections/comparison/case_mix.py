"""Who is really worse? Counts of defective cartons, what may be compared, and the best guess where numbers are few.

Suppliers are compared within strata, a kind of goods at one site, so that neither difficult goods nor a strict
site counts against anybody (``significance``). Here stand the counts themselves, the stated number below which nothing
is said, how much of a supplier's goods has nobody to be compared with, and the rate pulled towards the common one by
as much as the suppliers' own spread says (beta-binomial, empirical Bayes).

Pure: no Django, no rows. Worked rows CV-9-60 to 66.
"""
from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from math import exp, isfinite, log

import numpy as np
from scipy.optimize import minimize
from scipy.special import betaincc, betaincinv, betaln

#: CV-12-81: below either of these a rate is shown grey as "too few to say" (common practice, no source).
MIN_CARTONS = 20
MIN_DELIVERIES = 5
#: Beyond this many cartons' worth of agreement the fitted suppliers are as good as alike.
_MOST_WEIGHT = 1e4


@dataclass(frozen=True)
class Tally:
    """Cartons opened, and how many of those were defective; ``0 <= defective <= opened``."""

    opened: int
    defective: int

    def __post_init__(self) -> None:
        if not 0 <= self.defective <= self.opened:
            raise ValueError(f"{self.defective} defective of {self.opened} opened")

    def __add__(self, other: "Tally") -> "Tally":
        return Tally(self.opened + other.opened, self.defective + other.defective)

    def __sub__(self, other: "Tally") -> "Tally":
        return Tally(self.opened - other.opened, self.defective - other.defective)

    @property
    def rate(self) -> float:
        """Share of defective ones; needs a carton."""
        return self.defective / self.opened


NOTHING = Tally(0, 0)


@dataclass(frozen=True)
class EvenTally:
    """Cartons as if their goods and sites were everybody's: no whole numbers; ``0 <= defective <= opened``."""

    opened: float
    defective: float


@dataclass(frozen=True)
class Prior:
    """What is known of a supplier before its first carton: Beta(a, b), worth ``a + b`` cartons."""

    a: float
    b: float

    @property
    def mean(self) -> float:
        return self.a / (self.a + self.b)


@dataclass(frozen=True)
class Shrunk:
    """A rate pulled towards the common one, its 95 % interval, and the chance of being over a target."""

    rate: float
    low: float
    high: float


def is_too_few(opened: int, deliveries: int, *, min_cartons: int = MIN_CARTONS,
               min_deliveries: int = MIN_DELIVERIES) -> bool:
    """Whether the numbers are too small to say anything; exactly the stated number is enough.

    Parameters
    ----------
    opened, deliveries : int
        Cartons opened, and the deliveries that they came from; both >= 0.

    References
    ----------
    CV-12-81 (common practice, no source). Both count, since cartons of one delivery are alike (CV-9-93).
    """
    return opened < min_cartons or deliveries < min_deliveries


def pooled(groups: Iterable[Mapping[Hashable, Tally]]) -> dict[Hashable, Tally]:
    """Everybody's cartons together, by stratum (kind of goods and site)."""
    opened: dict[Hashable, int] = defaultdict(int)
    defective: dict[Hashable, int] = defaultdict(int)
    for strata in groups:
        for stratum, tally in strata.items():
            opened[stratum] += tally.opened
            defective[stratum] += tally.defective
    return {stratum: Tally(number, defective[stratum]) for stratum, number in opened.items()}


def alone_share(own: Mapping[Hashable, Tally], everybody: Mapping[Hashable, Tally]) -> float | None:
    """Share (0 to 1) of the opened cartons whose kind of goods nobody else brought to that site.

    None when nothing was opened.
    """
    opened = sum(tally.opened for tally in own.values())
    if not opened:
        return None
    alone = sum(tally.opened for stratum, tally in own.items() if everybody[stratum].opened == tally.opened)
    return alone / opened


def fit_prior(tallies: Iterable[Tally | EvenTally]) -> Prior | None:
    """How much the suppliers truly differ, from all of them: Beta(a, b) by maximum likelihood.

    Returns
    -------
    Prior or None
        None when that cannot be told: fewer than three suppliers with cartons opened, or no defective
        carton at all, or nothing but defective ones. Where the spread is no more than chance would make,
        the prior is very heavy (a + b up to 10 000) and every shrunk rate is nearly the common one.

    References
    ----------
    Beta-binomial likelihood; eight suppliers worked in CV-9-66 (computed).
    """
    known = [tally for tally in tallies if tally.opened]
    opened, defective = sum(each.opened for each in known), sum(each.defective for each in known)
    if len(known) < 3 or defective in (0, opened):
        return None
    start = defective / opened
    bad, sound = (np.array(each) for each in zip(*((t.defective, t.opened - t.defective) for t in known), strict=True))

    def against(place) -> float:
        prior = _prior_at(place)
        return float((betaln(prior.a, prior.b) - betaln(prior.a + bad, prior.b + sound)).sum())

    found = minimize(
        against, [log(start / (1 - start)), log(30.0)], method="Nelder-Mead",
        bounds=[(-12, 12), (log(0.5), log(_MOST_WEIGHT))], options={"xatol": 1e-6, "fatol": 1e-8, "maxiter": 500},
    )
    prior = _prior_at(found.x)
    return prior if isfinite(prior.a) and isfinite(prior.b) else None


def _prior_at(place) -> Prior:
    """Beta(a, b) from the log odds of its mean and the log of its weight: always above 0."""
    mean, weight = 1 / (1 + exp(-float(place[0]))), exp(float(place[1]))
    return Prior(mean * weight, (1 - mean) * weight)


def shrunk_rate(tally: Tally, prior: Prior) -> Shrunk:
    """The rate that betting on the next carton should use: own cartons and the common rate together.

    Parameters
    ----------
    tally : Tally
        May be of nothing: the answer is then the prior itself.
    prior : Prior
        As fitted, ``a`` and ``b`` > 0.

    Returns
    -------
    Shrunk
        Mean of Beta(a + x, b + n - x) and its 2.5 % and 97.5 % points, all 0 to 1.

    References
    ----------
    CV-9-60 to 65 (computed).

    Examples
    --------
    >>> round(shrunk_rate(Tally(60, 12), Prior(2, 38)).rate, 5)        # CV-9-63
    0.14
    """
    a, b = prior.a + tally.defective, prior.b + tally.opened - tally.defective
    return Shrunk(a / (a + b), float(betaincinv(a, b, 0.025)), float(betaincinv(a, b, 0.975)))


def chance_over(tally: Tally, prior: Prior, target: float) -> float:
    """Chance (0 to 1) that a supplier's true rate lies over the target, itself 0 to 1 (CV-9-66)."""
    return float(betaincc(prior.a + tally.defective, prior.b + tally.opened - tally.defective, target))
