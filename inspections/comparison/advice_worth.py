"""The worth of the photo advice as the desk reads it: over all, by site, by specification and by species."""
from collections.abc import Iterable
from dataclasses import asdict
from typing import Any
from uuid import UUID

from inspections.comparison import agreement
from inspections.comparison.advised import Advised
from inspections.comparison.agreement import ANSWERS, Agreement, Checked, by_group
from inspections.comparison.period import Period
from inspections.records.feature_flags import advice_switches
from inspections.trade.species import BY_CODE

SHARES = ("agreeing", "right_flags", "flagged", "flagged_beyond", "wrong_flags", "untold")


def advice_worth(found: Advised, period: Period) -> dict[str, Any]:
    """What the advice said against what receivers found.

    Returns
    -------
    dict
        ``all``, ``blind`` (the first advice came after the receiver had signed) and ``maybe_read``; ``sites``,
        ``specifications`` (every one in use, with its switch) and ``species``, each with the same counts and
        shares. ``nothing_to_compare``: cartons with advice that were not looked at for black spot;
        ``unanswered``: photographed cartons without any answer. A share that cannot be said is None, never 0.
    """
    by_site = by_group(found.cartons, lambda carton: carton.site)
    return {
        "period": {"from": period.first.isoformat(), "to": period.last.isoformat()},
        "threshold": {"cartons": agreement.MIN_CARTONS, "deliveries": agreement.MIN_DELIVERIES},
        "all": _group(found.cartons),
        "blind": _counts(agreement.agreement(one for one in found.cartons if one.is_blind)),
        "maybe_read": _counts(agreement.agreement(one for one in found.cartons if not one.is_blind)),
        "unanswered": found.unanswered.total(),
        "methods": [{"version": version, "photos": photos} for version, photos in sorted(found.methods.items())],
        "sites": [
            {"id": str(site.pk), "name": site.name, "code": site.code,
             "unanswered": found.unanswered[site.pk], **_group(by_site.get(site.pk, []))}
            for site in found.sites
        ],
        "specifications": _specifications(found),
        "species": _species(found),
    }


def _specifications(found: Advised) -> list[dict]:
    groups = by_group(found.cartons, lambda carton: carton.specification)
    return [{**switch, **_group(groups.get(UUID(switch["specification_id"]), []))} for switch in advice_switches()]


def _species(found: Advised) -> list[dict]:
    groups = by_group(found.cartons, lambda carton: carton.species)
    return [
        {"code": code, "name": BY_CODE[code]["name"] if code in BY_CODE else code,
         **_counts(agreement.agreement(cartons))}
        for code, cartons in sorted(groups.items(), key=lambda item: str(item[0]))
    ]


def _group(cartons: Iterable[Checked]) -> dict:
    cartons = list(cartons)
    apart = sum(carton.found is None for carton in cartons)
    return {**_counts(agreement.agreement(cartons)), "nothing_to_compare": apart}


def _counts(counted: Agreement) -> dict:
    return {
        "cartons": counted.cartons,
        "deliveries": counted.deliveries,
        "table": {
            answer: {found: number for (said, found), number in counted.table.items() if said == answer}
            for answer in ANSWERS
        },
        **{name: asdict(getattr(counted, name)) for name in SHARES},
    }
