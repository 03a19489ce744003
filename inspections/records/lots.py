"""Where is this lot? One step back, and one step forward: the freezer, or where refused and held cartons stand.

A lot is found on the docket and on the label of every opened carton; cartons that stayed closed are known by the
docket alone, so a lot that only labels showed may stand in others of the same line: that is told. What is not
recorded here: whom it was served to.

"One step back, one step forward": Regulation (EC) No 178/2002, Article 18, and Codex CXG 60-2006; from memory.
"""
from django.db.models import Prefetch, Q, QuerySet

from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import Addendum, AddendumKind, Carton, LineLot, PutAway, SearchWord
from inspections.records.search_words import begins, key_of

#: So many docket lines are shown, the newest arrivals first; how many there are is told.
MOST_LINES = 200


def lots_found(sites: QuerySet[Site], words: str) -> dict:
    """Docket lines whose docket or labels name a lot.

    Parameters
    ----------
    sites : QuerySet of Site
        Those that the person may see.
    words : str
        The lot, its beginning or its end; capitals, blanks and strokes make no difference.

    Returns
    -------
    dict
        ``count`` lines found, ``most`` that are shown, ``rows``.
    """
    ids = SearchWord.objects.filter(begins(words), lot__isnull=False).order_by().values("lot_id")
    found = LineLot.objects.filter(Q() if are_all(sites) else Q(line__delivery__site__in=sites), pk__in=ids)
    order = ("-line__delivery__arrived_at", "key")
    # which ones first: PostgreSQL takes more than eight tables as they are written, and would read all lots
    newest = list(found.order_by(*order).values_list("pk", flat=True)[:MOST_LINES])
    put_away = PutAway.objects.select_related("freezer", "addendum__person").order_by("in_at", "id")
    rows = LineLot.objects.filter(pk__in=newest).select_related(
        "line__delivery__site", "line__delivery__supplier", "line__delivery__order", "line__delivery__receiver",
        "line__specification_version__specification",
    ).prefetch_related(
        Prefetch("line__put_aways", queryset=put_away),
        Prefetch("line__delivery__addenda", queryset=Addendum.objects.filter(kind=AddendumKind.SET_APART)),
        Prefetch("line__cartons", queryset=Carton.objects.order_by("position", "id")),
    ).defer("line__delivery__document", "line__delivery__judgement").order_by(*order)
    return {"count": found.count(), "most": MOST_LINES, "rows": [_row(lot) for lot in rows]}


def _row(lot: LineLot) -> dict:
    line, delivery = lot.line, lot.line.delivery
    away = [_put_away(row) for row in line.put_aways.all()]
    kept = line.accepted + line.held
    return {
        "lot": lot.lot, "is_on_docket": lot.is_on_docket,
        "site": {"id": str(delivery.site_id), "name": delivery.site.name, "code": delivery.site.code},
        "supplier": {"id": str(delivery.supplier_id), "name": delivery.supplier.name, "code": delivery.supplier.code},
        "delivery_id": str(delivery.pk), "docket_number": delivery.docket_number, "line": line.number,
        "order": delivery.order.number if delivery.order else None, "arrived_at": delivery.arrived_at.isoformat(),
        "timezone": delivery.site.timezone, "specification": line.specification_version.specification.name,
        "decided": line.decided, "cartons": line.cartons_counted, "accepted": line.accepted, "refused": line.refused,
        "held": line.held, "opened": len(line.cartons.all()), "labels": _labels(lot),
        "signed_by": str(delivery.receiver), "signed_at": delivery.signed_at.isoformat(),
        "put_away": away, "not_put_away": kept - sum(row["count"] for row in away),
        "set_apart": _set_apart(lot), "is_demo": delivery.is_demo,
    }


def _labels(lot: LineLot) -> list[dict]:
    """Opened cartons whose label shows the lot."""
    return [
        {"position": carton.position, "best_before": str(label.get("best_before") or ""),
         "production_date": str(label.get("production_date") or "")}
        for carton in lot.line.cartons.all()
        if key_of(str((label := carton.data.get("label") or {}).get("lot") or "")) == lot.key
    ]


def _set_apart(lot: LineLot) -> list[dict]:
    """Where refused and held cartons of the line stand, or who fetched them; the oldest first."""
    return [
        {"count": entry["count"], "part": entry["part"], "event": addendum.body["event"],
         "where": addendum.body.get("where") or "", "by": addendum.body.get("by") or "",
         "at": addendum.body["happened_at"]}
        for addendum in lot.line.delivery.addenda.all() for entry in addendum.body["cartons"]
        if entry["line_id"] == str(lot.line_id)
    ]


def _put_away(row: PutAway) -> dict:
    return {
        "count": row.count, "freezer": row.freezer.name if row.freezer else "", "position": row.position,
        "in_at": row.in_at.isoformat() if row.in_at else None, "by": str(row.addendum.person),
    }
