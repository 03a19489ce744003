"""What came, how it was found, and what a sound kilogram cost: by supplier, site, specification, species or month.

Every share stands with what it was counted from and its 95 % interval (Wilson 1927), and is no share at all where
nothing was looked at. Money is told only where all of it is in one currency. Claims that were sent are counted with the
goods that they are about, by the day those came; they are few, so their own rows are added up.
"""
from collections import Counter, defaultdict
from collections.abc import Mapping
from typing import Any

from django.db.models import Count, F, Q, QuerySet, Sum

from inspections.claims import standing
from inspections.claims.models import Claim
from inspections.comparison.case_mix import is_too_few
from inspections.comparison.models import COUNTED
from inspections.comparison.period import Period
from inspections.comparison.selectors import added_up, as_text
from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import Specification, Supplier
from inspections.trade.intervals import wilson
from inspections.trade.species import BY_CODE

#: Part and whole of each share.
SHARES = {
    "late": ("late", "due"), "refused": ("refused", "delivered"), "looked_into": ("opened", "delivered"),
    "defective": ("defective", "opened"), "probed": ("with_product", "opened"), "weighed": ("with_sample", "opened"),
    "warm": ("warm", "warm_seen"), "short": ("short", "short_seen"), "off_count": ("off_count", "off_count_seen"),
    "spot": ("spot", "spot_seen"), "burn": ("burn", "burn_seen"), "soft": ("soft", "soft_seen"),
    "late_notice": ("claims_late", "claims"), "claims_agreed": ("claims_agreed", "claims"),
}
#: Claims sent; of those, after the time for notice; agreed; settled; and the seconds from sending to settling.
CLAIMS = {
    "claims": Count("pk"), "claims_late": Count("pk", filter=Q(sent_at__gt=F("notice_until"))),
    "claims_agreed": Count("pk", filter=Q(state__in=(standing.AGREED, standing.SETTLED))),
    "claims_settled": Count("pk", filter=Q(state=standing.SETTLED)),
    "settling": Sum(F("closed_at") - F("sent_at"), filter=Q(state=standing.SETTLED)),
}
#: What rows may be told apart by, and the key of the tallies that does.
BY = {"supplier": "supplier_id", "site": "site_id", "specification": "specification_id", "species": "species",
      "month": "month"}


def measures(sites: QuerySet[Site], period: Period, by: str, only: Mapping[str, Any]) -> dict[str, Any]:
    """Rows of measures.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see (or one of them).
    period : Period
    by : str
        One of ``BY``.
    only : mapping
        Of ``BY`` to the one value that is asked for; may be empty.

    Returns
    -------
    dict
        ``by``; ``period``; ``only``: what is asked for, by name; ``rows`` in the order of their names, and ``all``
        together: see ``row``.
    """
    keys = tuple(dict.fromkeys((BY[by], "site_id")))
    asked = tuple((BY[name], value) for name, value in only.items())
    sums = added_up(sites, keys, COUNTED, period, asked)
    claims = _claims(sites, keys, period, asked)
    currencies = {str(site): currency for site, currency in sites.order_by().values_list("pk", "currency")}
    parts: dict[Any, list] = defaultdict(list)
    for (key, *rest), counts in sums.items():
        parts[key].append((currencies[rest[0] if rest else key],
                           {**dict(zip(COUNTED, counts, strict=True)), **claims.get((key, *rest), {})}))
    names = _names(by, parts)
    return {
        "by": by, "period": {"from": period.first.isoformat(), "to": period.last.isoformat()},
        "only": {name: _names(name, [value]).get(as_text(value), "") for name, value in _and_site(sites, only).items()},
        "rows": [{"id": str(key), "name": name, **row(parts[key])}
                 for key, name in sorted(names.items(), key=lambda item: item[1])],
        "all": row([part for each in parts.values() for part in each]),
    }


def _claims(sites: QuerySet[Site], keys: tuple[str, ...], period: Period, only: tuple[tuple[str, Any], ...],
            ) -> dict[tuple, dict[str, int]]:
    """Claims that were sent, by what their goods are told apart by; one query."""
    goods = "line__tally__"
    asked = {f"{goods}day__range": (period.first, period.last), **{f"{goods}{key}": value for key, value in only}}
    if not are_all(sites):
        asked[f"{goods}site__in"] = list(sites.order_by().values_list("pk", flat=True))
    rows = Claim.objects.filter(sent_at__isnull=False, **asked).order_by().values_list(*(goods + key for key in keys))
    found = {}
    for row in rows.annotate(**CLAIMS):
        counts = dict(zip(CLAIMS, row[len(keys):], strict=True))
        settling = counts.pop("settling")
        key = tuple(map(as_text, row[: len(keys)]))
        found[key] = {**counts, "settling_s": round(settling.total_seconds()) if settling else 0}
    return found


def _and_site(sites: QuerySet[Site], only: Mapping[str, Any]) -> dict[str, Any]:
    ids = [] if are_all(sites) else list(sites.order_by().values_list("pk", flat=True)[:2])
    return {**only, **({"site": ids[0]} if len(ids) == 1 else {})}


def row(parts: list[tuple[str, Mapping[str, int]]]) -> dict[str, Any]:
    """Counts of some months and sites added up, with what follows from them.

    Parameters
    ----------
    parts : list of (currency, counts)
        ``counts`` by the names of ``models.COUNTED``, and of claims where there are any.

    Returns
    -------
    dict
        ``counts``; ``shares``: by name ``count``, ``of``, ``share``, ``low``, ``high`` (0 to 1 or None);
        ``too_few``; ``mean_product_c``, ``net_share`` (net weight found over declared), ``out_minutes``,
        ``settle_days`` from sending a claim to its settling, and ``cost`` (``of_cost``), each None where nothing tells
        it.
    """
    counts: Counter[str] = Counter()
    for _, part in parts:
        counts.update(part)
    return {
        "counts": {name: counts[name] for name in (*COUNTED, "claims", "claims_settled")},
        "shares": {name: _share(counts[part], counts[whole]) for name, (part, whole) in SHARES.items()},
        "too_few": is_too_few(counts["opened"], counts["deliveries_opened"]),
        "mean_product_c": _ratio(counts["product_cc"] / 100, counts["with_product"]),
        "net_share": _ratio(counts["net_g"], counts["declared_g"]),
        "out_minutes": _ratio(counts["out_seconds"] / 60, counts["put_aways"]),
        "settle_days": _ratio(counts["settling_s"] / 86_400, counts["claims_settled"]),
        "cost": of_cost({currency for currency, part in parts if part["priced_g"]}, counts),
    }


def of_cost(currencies: set[str], counts: Mapping[str, int]) -> dict[str, Any] | None:
    """What a sound kilogram cost, with its parts; None without a price, or with prices in several currencies.

    Parameters
    ----------
    currencies : set of str
        ISO 4217, of the sites with a price.
    counts : mapping
        ``priced_g``, ``price_cents``, ``net_g``, ``declared_g``, ``opened``, ``defective``.

    Returns
    -------
    dict or None
        ``currency``; ``paid``, a declared kilogram of kept cartons; ``net_share`` and ``sound_share``, taken as 1 and
        told as None where nothing was weighed or opened; ``sound``, a kilogram that is there and sound.

    Examples
    --------
    >>> counts = {"priced_g": 200_000, "price_cents": 290_000, "net_g": 9_500, "declared_g": 10_000, "opened": 20,
    ...           "defective": 1}
    >>> cost = of_cost({"EUR"}, counts)                     # 14.50 / 0.95 / 0.95
    >>> cost["paid"], round(cost["sound"], 4)
    (14.5, 16.0665)
    """
    if len(currencies) != 1 or not counts["priced_g"]:
        return None
    paid = counts["price_cents"] / 100 / (counts["priced_g"] / 1000)
    net, bad = _ratio(counts["net_g"], counts["declared_g"]), _ratio(counts["defective"], counts["opened"])
    sound = (1.0 if net is None else net) * (1.0 if bad is None else 1 - bad)
    return {"currency": next(iter(currencies)), "paid": paid, "net_share": net,
            "sound_share": None if bad is None else 1 - bad, "sound": paid / sound if sound > 0 else None}


def _ratio(part: float, whole: float) -> float | None:
    return part / whole if whole else None


def _share(count: int, of: int) -> dict[str, float | int | None]:
    low, high = wilson(count, of) if of else (None, None)
    return {"count": count, "of": of, "share": _ratio(count, of), "low": low, "high": high}


def _names(by: str, keys) -> dict[Any, str]:
    rows = {"supplier": Supplier.objects, "site": Site.objects, "specification": Specification.objects}
    if by in rows:
        return {str(key): name for key, name in rows[by].filter(pk__in=list(keys)).values_list("pk", "name")}
    if by == "species":
        return {code: BY_CODE[code]["name"] if code in BY_CODE else code or "not told" for code in keys}
    return {month: f"{month:%Y-%m}" for month in keys}
