"""Groups whose truth is known, so that what the comparison claims can be held against it.

Each delivery has its own chance of defective cartons (a Beta law round the supplier's true rate, so that cartons of
one delivery resemble each other), and a strict site finds more in the same goods. What comes out is what the database
would have counted. Pure but for the model classes, of which nothing is saved.
"""
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from uuid import UUID

import numpy as np

from inspections.comparison.case_mix import NOTHING, Tally
from inspections.comparison.lookups import Amount, Counted, Form, Handed, Looks, Seen, Visits
from inspections.people.models import Site
from inspections.records.models import Supplier

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


def counted_of(truth: Truth, seed: int, *, last: date = date(2026, 6, 30)) -> Counted:
    """The counts of a made-up group, the same for the same seed."""
    random = np.random.default_rng(seed)
    suppliers = {name: Supplier(id=_id(1, place), name=name, code=name) for place, name in enumerate(truth.rates)}
    sites = {name: Site(id=_id(2, place), name=name, code=name) for place, name in enumerate(truth.strictness)}
    found = Counted(list(sites.values()), list(suppliers.values()))
    tallies, amounts, looks = defaultdict(lambda: NOTHING), defaultdict(Amount), defaultdict(Looks)
    visits = defaultdict(Visits)
    forms, factors = list(FORMS), list(FORMS.values())
    deliveries = truth.months * truth.cartons_a_month // truth.opened_a_delivery
    names = list(sites)
    for name, supplier in suppliers.items():
        weights = np.array([truth.weights.get(at, {}).get(name, 1.0) for at in names])
        for _ in range(deliveries):
            at = names[random.choice(len(names), p=weights / weights.sum())]
            kind = int(random.integers(len(forms)))
            share = min(0.9, truth.rates[name] * factors[kind] * truth.strictness[at])
            tally = _delivery(random, truth, share)
            day = last - timedelta(days=int(random.integers(truth.months * 30)))
            key = (supplier.id, sites[at].id, forms[kind])
            tallies[key] += tally
            amounts[key] += Amount(10)
            looks[key] += Looks(tally.opened, tally.opened)
            visits[key[:2]] += Visits(1, 1)
            found.seen.append(Seen(_id(3, len(found.seen)), *key, day, tally))
            found.handed.append(Handed(supplier.id, datetime.combine(day, time(6), UTC), Amount(10)))
    found.tallies, found.amounts, found.looks, found.visits = dict(tallies), dict(amounts), dict(looks), dict(visits)
    return found


def _delivery(random: np.random.Generator, truth: Truth, share: float) -> Tally:
    if truth.likeness:
        weight = 1 / truth.likeness - 1
        share = float(random.beta(share * weight, (1 - share) * weight))
    return Tally(truth.opened_a_delivery, int(random.binomial(truth.opened_a_delivery, share)))


def _id(kind: int, place: int) -> UUID:
    return UUID(int=(kind << 64) + place)
