"""From counts to rows that may be shown: each rate with its interval, the mix allowed for, too few said so.

Suppliers are compared like with like: a stratum is one kind of goods at one site, so neither a hard
product nor a strict site counts against the supplier who has more of it. Sites are compared the same way
the other round (one kind of goods of one supplier), which shows the site that finds more in the same goods.
"""
from collections import defaultdict
from collections.abc import Hashable, Mapping
from dataclasses import asdict
from math import sqrt
from typing import Any

from inspections.comparison import case_mix, funnel, ranking
from inspections.comparison.case_mix import NOTHING, Prior, Tally
from inspections.comparison.over_time import design_effect_of, luck_rows, time_row
from inspections.comparison.period import Period
from inspections.comparison.selectors import Count, Counted, Form, Id, Run, together
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
    by_supplier, strata, everybody = _like_with_like(found)
    common = _total(everybody)
    prior = case_mix.fit_prior(_total(own) for own in strata.values())
    effect = design_effect_of(found)
    against = {supplier: against_others(own, everybody, effect) for supplier, own in strata.items()}
    luck = luck_rows(found, against, effect)
    places = _places(against, common)
    return {
        "period": {"from": period.first.isoformat(), "to": period.last.isoformat()},
        "threshold": {"cartons": case_mix.MIN_CARTONS, "deliveries": case_mix.MIN_DELIVERIES},
        "common": _rate(common),
        "over_time": time_row(case_mix.pooled(found.spans.values()), found.by),
        "funnel": _funnel(against, effect),
        "sites": _site_rows(found, effect),
        "rows": [
            {
                **_supplier_row(found, supplier, by_supplier[known], everybody, common, prior),
                **_beside_others(against[known], common),
                "luck": luck.get(known),
                "rank": places.get(known),
                "over_time": time_row(found.spans.get(known, {}), found.by),
            }
            for known, supplier in ((str(each.id), each) for each in found.suppliers)
        ],
    }


def luck_of(found: Counted) -> dict[Id, dict[str, Any]]:
    """What luck explains of each supplier, and nothing else of the comparison."""
    _, strata, everybody = _like_with_like(found)
    effect = design_effect_of(found)
    against = {supplier: against_others(own, everybody, effect) for supplier, own in strata.items()}
    return luck_rows(found, against, effect)


def _like_with_like(found: Counted) -> tuple[dict[Hashable, dict], dict[Hashable, dict[Hashable, Tally]], Strata]:
    """Each supplier's counts by site and goods, the opened cartons among them, and everybody's."""
    by_supplier = _grouped(found.counts, lambda key: key[0], lambda key: key[1:])
    strata = {supplier: _strata(counts) for supplier, counts in by_supplier.items()}
    return by_supplier, strata, case_mix.pooled(strata.values())


def _supplier_row(
    found: Counted, supplier: Supplier, counts: Mapping[tuple[Id, Form], Count], everybody: Strata, common: Tally,
    prior: Prior | None,
) -> dict:
    """One supplier over all sites that were asked for."""
    own, count = _strata(counts), together(counts.values())
    return {
        "supplier": {"id": str(supplier.id), "name": supplier.name, "code": supplier.code},
        **_how_many(count),
        **_looks(count),
        **_rate(count.tally),
        **_pulled(count.tally, prior, common),
        "difference": _difference(count.tally, common),
        "alone_share": case_mix.alone_share(own, everybody),
        "too_few": case_mix.is_too_few(count.opened, count.deliveries_opened),
        "refused_run": _refused_run(found.runs.get(str(supplier.id))),
    }


def parts_of(sites: list[Site], counted: Mapping[tuple[Id, Id, Form], Count], supplier_id: Id,
             ) -> dict[str, list[dict]]:
    """What one supplier's rate is made of: ``by_site``, and ``mix`` of goods beside everybody's rate in the same."""
    by_supplier = _grouped(counted, lambda key: key[0], lambda key: key[1:])
    everybody = case_mix.pooled(_strata(counts) for counts in by_supplier.values())
    counts = by_supplier.get(supplier_id, {})
    return {"by_site": _by_site(sites, counts, everybody), "mix": _mix(_strata(counts), everybody)}


def _refused_run(run: Run | None) -> dict[str, Any] | None:
    """The latest deliveries of which every carton was refused; None where the last one was not."""
    if run is None:
        return None
    return {"deliveries": run.deliveries, "cartons": run.cartons, "since": run.since.isoformat()}


def _how_many(count: Count) -> dict[str, int]:
    return {
        "deliveries": count.deliveries,
        "deliveries_opened": count.deliveries_opened,
        "delivered_cartons": count.delivered,
        "refused_cartons": count.refused,
        "held_cartons": count.held,
        "thawed_faults": count.thawed_faults,
    }


def _looks(count: Count) -> dict[str, int]:
    """How closely was looked: quick inspections make good-looking suppliers (CV-0-06)."""
    return {"cartons_with_product": count.with_product, "cartons_with_sample": count.with_sample}


def _rate(tally: Tally) -> dict[str, float | int | None]:
    """Share of defective cartons with its Wilson interval; None where no carton was opened (CV-9-14)."""
    known = {"cartons_opened": tally.opened, "defective": tally.defective}
    if not tally.opened:
        return {**known, "rate": None, "low": None, "high": None}
    low, high = wilson(tally.defective, tally.opened)
    return {**known, "rate": tally.defective / tally.opened, "low": low, "high": high}


def _beside_others(against: AgainstOthers, common: Tally) -> dict[str, Any]:
    """Found over what the others' rates would give; the same as a rate, the ratio times the others' own, at most 1.

    ``comparable`` is None where the others have too little in these goods at these sites.
    """
    names = ("comparable", "expected", "ratio", "ratio_low", "ratio_high", "allowed_rate", "allowed_low",
             "allowed_high")
    if not against.is_possible:
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


def _places(against: Mapping[Id, AgainstOthers], common: Tally) -> dict[Id, dict[str, Any]]:
    """Each supplier's rank with its interval, where at least three can be told apart from chance."""
    even = {supplier: ranking.even_tally(each, common) for supplier, each in against.items()}
    known = {supplier: tally for supplier, tally in even.items() if tally}
    prior = case_mix.fit_prior(known.values())
    return {} if prior is None else {
        supplier: {**asdict(rank), "of": len(known)} for supplier, rank in ranking.ranks(known, prior).items()}


def _funnel(against: Mapping[Id, AgainstOthers], effect: float) -> dict[str, Any] | None:
    """Limits of found over expected by the number expected, widened by the likeness of cartons of one delivery."""
    expected = sorted(each.expected for each in against.values() if each.is_possible and each.expected)
    if not expected:
        return None
    strays = [(each.own.defective - each.expected) / sqrt(each.expected * effect)
              for each in against.values() if each.is_possible and each.expected]
    return {"effect": effect, "spread": funnel.overdispersion(strays, funnel.DRAWN_IN),
            "limits": [_limits_at(at, effect) for at in funnel.places(expected[0], expected[-1])]}


def _limits_at(expected: float, effect: float) -> dict[str, float]:
    # cartons that are alike tell as little as fewer that are not
    even = expected / effect
    pairs = (("warn", funnel.WARNING), ("alarm", funnel.ALARM))
    limits = {name: [side / even for side in funnel.expected_limits(even, tail)] for name, tail in pairs}
    return {"expected": expected, **{f"{name}_{side}": limit for name, both in limits.items()
                                     for side, limit in zip(("low", "high"), both, strict=True)}}


def _difference(tally: Tally, common: Tally) -> dict[str, float] | None:
    """Own rate less that of all the others, as counted (CV-9-16); None where either opened nothing."""
    others = Tally(common.opened - tally.opened, common.defective - tally.defective)
    if not tally.opened or not others.opened:
        return None
    names = ("share", "low", "high")
    return dict(zip(names, difference(tally.defective, tally.opened, others.defective, others.opened), strict=True))


def _by_site(sites: list[Site], counts: Mapping[tuple[Id, Form], Count], everybody: Strata) -> list[dict]:
    by_site = _grouped(counts, lambda key: key[0], lambda key: key)
    return [_at_site(site, by_site[str(site.id)], everybody) for site in sites if str(site.id) in by_site]


def _at_site(site: Site, counts: Mapping[tuple[Id, Form], Count], everybody: Strata) -> dict:
    count = together(counts.values())
    ratio = against_others(_strata(counts), everybody)
    return {
        "site_id": str(site.id), "name": site.name, **_how_many(count), **_rate(count.tally),
        "expected": ratio.expected, "ratio": ratio.ratio if ratio.is_possible else None,
        "too_few": case_mix.is_too_few(count.opened, count.deliveries_opened),
    }


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
    by_site = _grouped(found.counts, lambda key: key[1], lambda key: (key[0], key[2]))
    everybody = case_mix.pooled(_strata(counts) for counts in by_site.values())
    return [_site_row(site, by_site.get(str(site.id), {}), everybody, effect) for site in found.sites]


def _site_row(site: Site, counts: Mapping[tuple[Id, Form], Count], everybody: Strata, effect: float) -> dict:
    count = together(counts.values())
    return {
        "id": str(site.id), "name": site.name, "code": site.code,
        "deliveries": count.deliveries, **_looks(count), **_rate(count.tally),
        **_beside_others(against_others(_strata(counts), everybody, effect), _total(everybody)),
        "too_few": case_mix.is_too_few(count.opened, count.deliveries_opened),
    }


def _grouped(counts: Mapping[tuple, Count], group, stratum) -> dict[Hashable, dict]:
    """The counts split by one part of their key, the rest of it being the stratum."""
    groups: dict[Hashable, dict] = defaultdict(dict)
    for key, count in counts.items():
        groups[group(key)][stratum(key)] = count
    return groups


def _strata(counts: Mapping[Hashable, Count]) -> dict[Hashable, Tally]:
    """Opened cartons by stratum; strata of which nothing was opened tell nothing."""
    return {key: count.tally for key, count in counts.items() if count.opened}


def _total(strata: Strata) -> Tally:
    return sum(strata.values(), NOTHING)


def _total_by(strata: Strata, part) -> dict[Any, Tally]:
    return case_mix.pooled({part(key): tally} for key, tally in strata.items())
