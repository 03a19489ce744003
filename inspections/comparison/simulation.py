"""Groups whose truth is known, so that what the comparison claims can be held against it.

Each delivery has its own chance of defective cartons (a Beta law round the supplier's true rate, so that cartons of
one delivery resemble each other), and a strict site finds more in the same goods. What comes out is what the database
would have counted. Pure but for the model classes, of which nothing is saved.
"""
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from uuid import UUID

import numpy as np
from scipy.stats import betabinom

from inspections.comparison.case_mix import NOTHING, Tally
from inspections.comparison.selectors import DAYS_FOR_MONTHS, Count, Counted, Form, Seen, together
from inspections.people.models import Site
from inspections.records.models import Supplier

LAST = date(2026, 6, 30)
FORMS = {Form("HLSO", "raw"): 1.0, Form("PUD", "raw"): 1.4, Form("HLSO", "cooked"): 0.8}


@dataclass(frozen=True)
class Truth:
    """What is true of a group.

    Attributes
    ----------
    rates : mapping of supplier to its true share of defective cartons (0 to 1), in usual goods at a usual site
    strictness : mapping of site to how many times as many it finds
    weights : mapping of site to how often each supplier delivers there; all alike where a site is missing
    months, cartons_a_month, opened_a_delivery : int
        ``cartons_a_month`` are opened ones, of each supplier.
    since : mapping of supplier to the months that it has been bringing goods; all ``months`` where it is missing
    likeness : float
        Correlation (0 to 1) of cartons of one delivery.
    """

    rates: Mapping[str, float]
    strictness: Mapping[str, float]
    weights: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    months: int = 12
    cartons_a_month: int = 60
    opened_a_delivery: int = 3
    likeness: float = 0.05
    since: Mapping[str, int] = field(default_factory=dict)

    def deliveries_of(self, supplier: str) -> int:
        return self.since.get(supplier, self.months) * self.cartons_a_month // self.opened_a_delivery


def counted_of(truth: Truth, seed: int, *, until: date = LAST) -> Counted:
    """The counts of a made-up group up to a day, the same for the same seed; all ends with ``LAST``."""
    random = np.random.default_rng(seed)
    suppliers = {name: Supplier(id=_id(1, place), name=name, code=name) for place, name in enumerate(truth.rates)}
    sites = {name: Site(id=_id(2, place), name=name, code=name) for place, name in enumerate(truth.strictness)}
    found = Counted(list(sites.values()), list(suppliers.values()))
    counts, spans = defaultdict(Count), defaultdict(lambda: defaultdict(lambda: NOTHING))
    found.by = "month" if truth.months * 30 > DAYS_FOR_MONTHS else "week"
    forms, factors = list(FORMS), list(FORMS.values())
    names = list(sites)
    for name, supplier in suppliers.items():
        weights = np.array([truth.weights.get(at, {}).get(name, 1.0) for at in names])
        days = truth.since.get(name, truth.months) * 30
        for _ in range(truth.deliveries_of(name)):
            at = names[random.choice(len(names), p=weights / weights.sum())]
            kind = int(random.integers(len(forms)))
            share = min(0.9, truth.rates[name] * factors[kind] * truth.strictness[at])
            tally = _delivery(random, truth, share)
            day = LAST - timedelta(days=int(random.integers(days)))
            if day > until:
                continue
            key = (str(supplier.id), str(sites[at].id), forms[kind])
            more = Count(1, 1, 10, 0, 0, tally.opened, tally.defective, tally.opened, tally.opened)
            counts[key] = together((counts[key], more))
            first = day.replace(day=1) if found.by == "month" else day - timedelta(days=day.weekday())
            spans[str(supplier.id)][first] += tally
            found.seen.append(Seen(len(found.seen), key, tally.opened, tally.defective))
    found.counts, found.spans = dict(counts), dict(spans)
    return found


def power_at_best(truth: Truth, times: float, share: float = 0.05, groups: int = 20_000, *,
                  is_told: bool = True) -> float:
    """How often the best possible test finds the first supplier, with so many times the others' rate.

    Parameters
    ----------
    truth : Truth
        Equal suppliers at usual sites.
    times : float
        Its rate over theirs.
    share : float
        Groups of equal suppliers in which any may be marked (0 to 1).
    is_told : bool
        Whether it is told the others' rate, or must learn it from the others' cartons of the same months.

    Returns
    -------
    float
        Share of made-up groups, 0 to 1.

    Notes
    -----
    It knows what no real test can: which goods are how hard, how alike cartons are, and how bad the bad one is. By
    Neyman and Pearson's lemma (1933) none does better than the likelihood ratio. A test that is not told the others'
    rate must hold its error at every rate that all may have in common: also at the one that most resembles one bad
    supplier among good ones, everybody's cartons together (a least favourable null; Lehmann and Romano 2005, 3.8).
    """
    random = np.random.default_rng(1)
    usual, opened = float(np.mean(list(truth.rates.values()))), truth.opened_a_delivery
    own, *others = (truth.deliveries_of(name) for name in truth.rates)
    rest = sum(others)
    level = 1.0 if is_told else (times * own + rest) / (own + rest)
    sides = [(own, times)] if is_told else [(own, times), (rest, 1.0)]
    # as good as not alike, where they are not
    weight, factors = 1 / max(truth.likeness, 1e-6) - 1, usual * np.array(list(FORMS.values()))

    def logs(by: float) -> np.ndarray:
        share = by * factors[:, None]
        return betabinom.logpmf(np.arange(opened + 1), opened, share * weight, (1 - share) * weight)

    def scores(is_bad: bool) -> np.ndarray:
        total = np.zeros(groups)
        for deliveries, by in sides:
            tells = logs(by) - logs(level)
            for _ in range(deliveries):
                kinds = random.integers(len(factors), size=groups)
                share = (by if is_bad else level) * factors[kinds]
                found = random.binomial(opened, random.beta(share * weight, (1 - share) * weight))
                total += tells[kinds, found]
        return total

    # each of the suppliers may be marked
    luck = np.quantile(scores(is_bad=False), (1 - share) ** (1 / len(truth.rates)))
    return float((scores(is_bad=True) > luck).mean())


def _delivery(random: np.random.Generator, truth: Truth, share: float) -> Tally:
    if truth.likeness:
        weight = 1 / truth.likeness - 1
        share = float(random.beta(share * weight, (1 - share) * weight))
    return Tally(truth.opened_a_delivery, int(random.binomial(truth.opened_a_delivery, share)))


def _id(kind: int, place: int) -> UUID:
    return UUID(int=(kind << 64) + place)
