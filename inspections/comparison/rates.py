"""From counts to rows that may be shown: each rate with its interval, the mix allowed for, too few said so.

Suppliers are compared like with like: a stratum is one kind of goods at one site, so neither a hard
product nor a strict site counts against the supplier who has more of it. Sites are compared the same way
the other round (one kind of goods of one supplier), which shows the site that finds more in the same goods.
"""
from collections import defaultdict
from collections.abc import Hashable, Mapping
from itertools import takewhile
from typing import Any
from uuid import UUID

from inspections.comparison import case_mix
from inspections.comparison.case_mix import NOTHING, Prior, Tally
from inspections.comparison.lookups import Amount, Counted, Form, Looks, Visits
from inspections.comparison.over_time import design_effect_of, luck_rows, span_of, time_row
from inspections.comparison.period import Period
from inspections.comparison.significance import AgainstOthers, against_others
from inspections.people.models import Site
from inspections.records.models import Supplier
from inspections.trade.intervals import difference, wilson

Strata = Mapping[Hashable, Tally]


def comparison(found: Counted, period: Period) -> dict[str, Any]:
    """The whole comparison as the desk reads it.

    Parameters
    ----------
    found : Counted
        Counts of the sites and the period.
    period : Period
        The period that was counted; told back.

    Returns
    -------
    dict
        ``sites``, ``period``, ``threshold``, ``common`` (everybody's cartons together) and ``rows``, one a
        supplier in the order of their names: no league table. Rates are shares, 0 to 1; a rate, limit or
        ratio that cannot be said is None, never 0.
    """
    by_supplier = _grouped(found.tallies, lambda key: key[0], lambda key: key[1:])
    everybody = case_mix.pooled(by_supplier.values())
    common = _total(everybody)
    prior = case_mix.fit_prior(_total(strata) for strata in by_supplier.values())
    effect = design_effect_of(found)
    against = {supplier: against_others(own, everybody, effect) for supplier, own in by_supplier.items()}
    luck = luck_rows(found, against, effect)
    by, seen = span_of(found.seen), defaultdict(list)
    for each in found.seen:
        seen[each.supplier].append(each)
    return {
        "period": {"from": period.first.isoformat(), "to": period.last.isoformat()},
        "threshold": {"cartons": case_mix.MIN_CARTONS, "deliveries": case_mix.MIN_DELIVERIES},
        "common": _rate(common),
        "over_time": time_row(found.seen, by),
        "sites": _site_rows(found, effect),
        "rows": [
            {
                **_supplier_row(found, supplier, by_supplier.get(supplier.id, {}), everybody, prior),
                **_beside_others(against.get(supplier.id), common),
                "luck": luck.get(supplier.id),
                "over_time": time_row(seen[supplier.id], by),
            }
            for supplier in found.suppliers
        ],
    }


def _supplier_row(found: Counted, supplier: Supplier, own: Strata, everybody: Strata, prior: Prior | None) -> dict:
    """One supplier over all sites that were asked for."""
    visits = sum((v for (who, _), v in found.visits.items() if who == supplier.id), Visits())
    amount = sum((a for (who, *_), a in found.amounts.items() if who == supplier.id), Amount())
    tally, common = _total(own), _total(everybody)
    return {
        "supplier": {"id": str(supplier.id), "name": supplier.name, "code": supplier.code},
        **_how_many(visits, amount),
        **_looks(found, lambda key: key[0] == supplier.id),
        **_rate(tally),
        **_pulled(tally, prior, common),
        "difference": _difference(tally, common),
        "alone_share": case_mix.alone_share(own, everybody),
        "too_few": case_mix.is_too_few(tally.opened, visits.opened_in),
        "refused_run": _refused_run(found, supplier),
        "by_site": _by_site(found, supplier, own, everybody),
        "mix": _mix(own, everybody),
    }


def _refused_run(found: Counted, supplier: Supplier) -> dict[str, Any] | None:
    """The latest deliveries of which every carton was refused; None where the last one was not."""
    latest = sorted((h for h in found.handed if h.supplier == supplier.id), key=lambda h: h.arrived_at, reverse=True)
    run = list(takewhile(lambda h: 0 < h.amount.delivered == h.amount.refused, latest))
    if not run:
        return None
    return {"deliveries": len(run), "cartons": sum(h.amount.delivered for h in run),
            "since": run[-1].arrived_at.isoformat()}


def _how_many(visits: Visits, amount: Amount) -> dict[str, int]:
    return {
        "deliveries": visits.deliveries,
        "deliveries_opened": visits.opened_in,
        "delivered_cartons": amount.delivered,
        "refused_cartons": amount.refused,
        "held_cartons": amount.held,
    }


def _looks(found: Counted, is_wanted) -> dict[str, int]:
    """How closely was looked: quick inspections make good-looking suppliers (CV-0-06)."""
    looks = sum((looks for key, looks in found.looks.items() if is_wanted(key)), Looks())
    return {"cartons_with_product": looks.product, "cartons_with_sample": looks.sample}


def _rate(tally: Tally) -> dict[str, float | int | None]:
    """Share of defective cartons with its Wilson interval; None where no carton was opened (CV-9-14)."""
    known = {"cartons_opened": tally.opened, "defective": tally.defective}
    if not tally.opened:
        return {**known, "rate": None, "low": None, "high": None}
    low, high = wilson(tally.defective, tally.opened)
    return {**known, "rate": tally.defective / tally.opened, "low": low, "high": high}


def _beside_others(against: AgainstOthers | None, common: Tally) -> dict[str, Any]:
    """Found over what the others' rates would give; the same as a rate, the ratio times the others' own, at most 1.

    ``comparable`` is None where the others have too little in these goods at these sites.
    """
    names = ("comparable", "expected", "ratio", "ratio_low", "ratio_high", "allowed_rate", "allowed_low",
             "allowed_high")
    if against is None or not against.is_possible:
        return {**dict.fromkeys(names), "apart": False}
    rest = common - against.own
    level = rest.rate if rest.opened else None
    sides = (against.ratio, *against.limits())
    allowed = (None if side is None or level is None else min(1.0, side * level) for side in sides)
    comparable = {"own": _count(against.own), "others": _count(against.others)}
    values = (comparable, against.expected, *sides, *allowed)
    return {**dict(zip(names, values, strict=True)), "apart": against.is_apart}


def _count(tally: Tally) -> dict[str, int]:
    return {"cartons_opened": tally.opened, "defective": tally.defective}


def _pulled(tally: Tally, prior: Prior | None, common: Tally) -> dict[str, float | None]:
    """The shrunken rate and the chance that the true one lies over the common rate."""
    if prior is None or not tally.opened:
        return dict.fromkeys(("shrunk", "shrunk_low", "shrunk_high", "chance_over"))
    shrunk = case_mix.shrunk_rate(tally, prior)
    over = case_mix.chance_over(tally, prior, common.defective / common.opened)
    return {"shrunk": shrunk.rate, "shrunk_low": shrunk.low, "shrunk_high": shrunk.high, "chance_over": over}


def _difference(tally: Tally, common: Tally) -> dict[str, float] | None:
    """Own rate less that of all the others, as counted (CV-9-16); None where either opened nothing."""
    others = Tally(common.opened - tally.opened, common.defective - tally.defective)
    if not tally.opened or not others.opened:
        return None
    names = ("share", "low", "high")
    return dict(zip(names, difference(tally.defective, tally.opened, others.defective, others.opened), strict=True))


def _by_site(found: Counted, supplier: Supplier, own: Strata, everybody: Strata) -> list[dict]:
    rows = []
    for site in found.sites:
        visits = found.visits.get((supplier.id, site.id))
        if visits is None:
            continue
        here = {key: tally for key, tally in own.items() if key[0] == site.id}
        amount = sum((a for (who, at, _), a in found.amounts.items() if (who, at) == (supplier.id, site.id)), Amount())
        tally = _total(here)
        ratio = against_others(here, everybody)
        rows.append({
            "site_id": str(site.id), "name": site.name, **_how_many(visits, amount), **_rate(tally),
            "expected": ratio.expected, "ratio": ratio.ratio if ratio.is_possible else None,
            "too_few": case_mix.is_too_few(tally.opened, visits.opened_in),
        })
    return rows


def _mix(own: Strata, everybody: Strata) -> list[dict]:
    """What kinds of goods the supplier brings, beside everybody's rate in the same kind."""
    mine = _total_by(own, lambda key: key[1])
    all_of_it = _total_by(everybody, lambda key: key[1])
    opened = _total(own).opened
    return [
        {
            "presentation": form.presentation, "state": form.state, **_rate(tally),
            "share": tally.opened / opened if opened else None, "everybody": _rate(all_of_it[form]),
        }
        for form, tally in sorted(mine.items(), key=lambda item: (-item[1].opened, item[0].presentation, item[0].state))
    ]


def _site_rows(found: Counted, effect: float) -> list[dict]:
    """Each site beside what the other sites find in the same goods of the same suppliers."""
    by_site = _grouped(found.tallies, lambda key: key[1], lambda key: (key[0], key[2]))
    everybody = case_mix.pooled(by_site.values())
    return [_site_row(found, site, by_site.get(site.id, {}), everybody, effect) for site in found.sites]


def _site_row(found: Counted, site: Site, own: Strata, everybody: Strata, effect: float) -> dict:
    visits = sum((v for (_, at), v in found.visits.items() if at == site.id), Visits())
    tally = _total(own)
    return {
        "id": str(site.id), "name": site.name, "code": site.code,
        "deliveries": visits.deliveries, **_looks(found, lambda key: key[1] == site.id), **_rate(tally),
        **_beside_others(against_others(own, everybody, effect), _total(everybody)),
        "too_few": case_mix.is_too_few(tally.opened, visits.opened_in),
    }


def _grouped(tallies: Mapping[tuple[UUID, UUID, Form], Tally], group, stratum) -> dict[Hashable, dict]:
    """The tallies split by one part of their key, the rest of it being the stratum."""
    groups: dict[Hashable, dict] = defaultdict(dict)
    for key, tally in tallies.items():
        groups[group(key)][stratum(key)] = tally
    return groups


def _total(strata: Strata) -> Tally:
    return sum(strata.values(), NOTHING)


def _total_by(strata: Strata, part) -> dict[Any, Tally]:
    return case_mix.pooled({part(key): tally} for key, tally in strata.items())
