"""Who comes before whom, and how sure is that? Ranks of suppliers with intervals, from rates pulled together.

A league table of few cartons orders luck. So each supplier's rate is held as what is known of it (beta-binomial: the
common spread of all suppliers and its own cartons, ``case_mix.fit_prior``), drawn many times, and put in order each
time: the rank that a supplier has in 95 of 100 orders is all that may be said of its place.

Allowing for goods and sites: a supplier counts with as many cartons as would give its expected number at the common
rate (``even_tally``), fewer where cartons of one delivery are alike. Pure: no Django, no rows.
Sources: Goldstein and Spiegelhalter 1996, J. R. Statist. Soc. A 159:385 (ranks with intervals); Marshall and
Spiegelhalter 1998, BMJ 316:1701; from memory.
"""
from collections.abc import Hashable, Mapping
from dataclasses import dataclass

import numpy as np

from inspections.comparison.case_mix import EvenTally, Prior, Tally
from inspections.comparison.significance import AgainstOthers

#: Orders drawn: a chance is then right within 1 in 100 (the square root of p (1 - p) over them).
DRAWS = 4000


@dataclass(frozen=True)
class Rank:
    """A supplier's place, 1 for the lowest rate: the middle one, those of 95 of 100 orders, chance of the highest."""

    middle: int
    low: int
    high: int
    is_last: float


def even_tally(against: AgainstOthers, common: Tally) -> EvenTally | None:
    """A supplier's cartons as if it had everybody's goods and sites; None where nobody can say.

    Its expected number stays what it is; opened are as many as give it at the common rate. Not whole numbers.

    Examples
    --------
    >>> from inspections.comparison.significance import against_others
    >>> own, everybody = {"peeled": Tally(100, 12)}, {"peeled": Tally(300, 36), "shell-on": Tally(300, 0)}
    >>> even = even_tally(against_others(own, everybody), Tally(600, 36))       # 12 expected, at 6 %
    >>> even.opened, even.defective
    (200.0, 12.0)
    """
    if not against.is_possible or not against.expected or not common.defective:
        return None
    opened = against.expected / common.rate / against.effect
    found = against.own.defective / against.effect
    return EvenTally(max(opened, found), found)


def ranks(tallies: Mapping[Hashable, Tally | EvenTally], prior: Prior) -> dict[Hashable, Rank]:
    """The place of each supplier among all.

    Parameters
    ----------
    tallies : mapping of name to Tally or EvenTally
        At least two.
    prior : Prior
    """
    random = np.random.default_rng(1)
    rates = np.stack([random.beta(prior.a + each.defective, prior.b + each.opened - each.defective, DRAWS)
                      for each in tallies.values()])
    places = rates.argsort(axis=0).argsort(axis=0) + 1
    low, middle, high = np.percentile(places, (2.5, 50, 97.5), axis=1, method="nearest").astype(int)
    last = (places == len(tallies)).mean(axis=1)
    return {name: Rank(int(middle[at]), int(low[at]), int(high[at]), float(last[at]))
            for at, name in enumerate(tallies)}
