"""The read path: what happened, as the desk, the phone and the pages read it.

Lookups take the sites that a person may see; none of them asks who the person is. Seals and links of a
delivery are told by ``evidence``, which stands above.
"""
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, Q, QuerySet
from django.utils import timezone

from inspections.errors import NotFound
from inspections.people.access import are_all
from inspections.people.models import Site
from inspections.records.models import (
    Delivery,
    DocketLine,
    LimitSet,
    Order,
    OrderLine,
    PhotoUse,
    SearchWord,
    Specification,
    SpecificationVersion,
    Supplier,
)
from inspections.records.photo_answers import photos_in
from inspections.records.search_words import begins

PAGE = 50
#: So many suppliers at most are looked for by one part of their names.
MOST_SUPPLIERS = 200


# ---- deliveries -------------------------------------------------------------------------------------------
def deliveries_at(
    sites: QuerySet[Site], *, site_id=None, supplier_id=None, state: str = "", words: str = "",
    first_day: date | None = None, last_day: date | None = None, has_refused: bool = False,
    has_defective: bool = False,
) -> QuerySet[Delivery]:
    """Signed deliveries of those sites, newest arrival first.

    Parameters
    ----------
    words : str
        The beginning or end of a docket number or lot (see ``search_words``), or part of a supplier's name.
    first_day, last_day : date, optional
        Days of arrival, both in, each counted in the time zone of the site.
    has_refused : bool
        Only those of which cartons were refused or held.
    has_defective : bool
        Only those of which an opened carton was defective.
    """
    wanted = Q() if are_all(sites) else Q(site__in=sites)
    if site_id:
        wanted &= Q(site_id=site_id)
    if supplier_id:
        wanted &= Q(supplier_id=supplier_id)
    if state:
        wanted &= Q(state=state)
    if words:
        wanted &= _found_by(words)
    if has_refused:
        wanted &= Q(has_refused=True)
    if has_defective:
        wanted &= Q(has_defective=True)
    if first_day or last_day:
        wanted &= _arrived(sites, first_day, last_day)
    return Delivery.objects.filter(wanted).select_related("site", "supplier", "order", "receiver")


def _found_by(words: str) -> Q:
    found = Q(pk__in=SearchWord.objects.filter(begins(words)).order_by().values("delivery_id"))
    suppliers = list(Supplier.objects.filter(name__icontains=words).values_list("pk", flat=True)[:MOST_SUPPLIERS])
    # asked for only where one fits: an "or" makes the database go through all deliveries by arrival
    return found | Q(supplier__in=suppliers) if suppliers else found


def delivery_at(sites: QuerySet[Site], delivery_id) -> Delivery:
    """The delivery of that id.

    Raises
    ------
    NotFound
        None of that id, or of another site: the same answer, so that nothing can be guessed.
    """
    found = deliveries_at(sites).select_related("limit_set").filter(pk=delivery_id).first()
    if found is None:
        raise NotFound()
    return found


def _arrived(sites: QuerySet[Site], first_day: date | None, last_day: date | None) -> Q:
    """The same days begin at another moment in each time zone."""
    wanted = Q(pk__in=[])
    for name in set(sites.order_by().values_list("timezone", flat=True)):
        zone = ZoneInfo(name)
        there = Q(site__timezone=name)
        if first_day:
            there &= Q(arrived_at__gte=datetime.combine(first_day, time.min, zone))
        if last_day:
            there &= Q(arrived_at__lte=datetime.combine(last_day, time.max, zone))
        wanted |= there
    return wanted


def page_of_deliveries(deliveries: QuerySet[Delivery], page: int) -> dict:
    """One page as JSON: page, pages, count, rows. A page past the end is the last one."""
    count = deliveries.count()
    pages = max(1, -(-count // PAGE))
    page = min(max(1, page), pages)
    lines = DocketLine.objects.select_related("specification_version__specification").order_by("number")
    rows = deliveries.defer("document", "judgement").prefetch_related(Prefetch("lines", queryset=lines))
    rows = rows[(page - 1) * PAGE : page * PAGE]
    return {"page": page, "pages": pages, "count": count, "rows": [delivery_row(row) for row in rows]}


def delivery_row(delivery: Delivery) -> dict:
    """A delivery in a list."""
    return {
        "id": str(delivery.pk),
        "site": _named(delivery.site),
        "supplier": _named(delivery.supplier),
        "docket_number": delivery.docket_number,
        "arrived_at": delivery.arrived_at.isoformat(),
        "signed_at": delivery.signed_at.isoformat(),
        "receiver": str(delivery.receiver),
        "state": delivery.state,
        "is_demo": delivery.is_demo,
        "differs": delivery.difference is not None,
        "lines": [line_row(line) for line in delivery.lines.all()],
    }


def line_row(line: DocketLine) -> dict:
    """A docket line in a list."""
    return {
        "number": line.number,
        "specification": line.specification_version.specification.name,
        "suggested": line.suggested,
        "decided": line.decided,
        "departed_because": line.departed_because,
        "accepted": line.accepted,
        "refused": line.refused,
        "held": line.held,
    }


def delivery_json(delivery: Delivery) -> dict:
    """Everything about one delivery but its seals and links."""
    return {
        **delivery_row(delivery),
        "site": {**_named(delivery.site), "timezone": delivery.site.timezone},
        "order": {"id": str(delivery.order_id), "number": delivery.order.number} if delivery.order else None,
        "document": delivery.document,
        "judgement": delivery.judgement,
        "difference": delivery.difference,
        "noticed": delivery.noticed,
        "specifications": [version.to_json() for version in versions_in(delivery.document)],
        "limit_set": delivery.limit_set.to_json(),
        "photos": photos_in(delivery.document),
        "addenda": [_addendum_json(row) for row in delivery.addenda.select_related("person")],
    }


def versions_in(document: dict) -> QuerySet[SpecificationVersion]:
    """The specification versions that a document's lines name."""
    ids = {line["specification_id"] for line in document["lines"]}
    return SpecificationVersion.objects.filter(pk__in=ids).select_related("specification")


def _addendum_json(row) -> dict:
    return {"id": str(row.pk), "kind": row.kind, "at": row.at.isoformat(), "person": str(row.person), "body": row.body}


# ---- photos -----------------------------------------------------------------------------------------------
def has_photo(sites: QuerySet[Site], sha256: str) -> bool:
    """Whether a photo belongs to a delivery of one of those sites."""
    return PhotoUse.objects.filter(photo_id=sha256, site__in=sites).exists()


# ---- orders and reference data ----------------------------------------------------------------------------
def orders_at(sites: QuerySet[Site], *, site_id=None, first_day=None, last_day=None) -> QuerySet[Order]:
    """Orders of those sites, by expected day."""
    wanted = Q(site__in=sites)
    if site_id:
        wanted &= Q(site_id=site_id)
    if first_day:
        wanted &= Q(expected_on__gte=first_day)
    if last_day:
        wanted &= Q(expected_on__lte=last_day)
    lines = OrderLine.objects.select_related("specification_version__specification")
    deliveries = Delivery.objects.only("id", "docket_number", "order_id")
    return Order.objects.filter(wanted).select_related("site", "supplier").prefetch_related(
        Prefetch("lines", queryset=lines), Prefetch("deliveries", queryset=deliveries)
    )


def today_at(site: Site) -> date:
    """Today by the site's own clock."""
    return timezone.now().astimezone(ZoneInfo(site.timezone)).date()


def order_json(order: Order) -> dict:
    """An order with its lines and what has come of it."""
    return {
        "id": str(order.pk),
        "number": order.number,
        "site": _named(order.site),
        "supplier": _named(order.supplier),
        "currency": order.site.currency,
        "expected_on": order.expected_on.isoformat(),
        "source": order.source,
        "is_demo": order.is_demo,
        "lines": [
            {
                "id": str(line.pk),
                "specification": line.specification_version.specification.name,
                "specification_id": str(line.specification_version_id),
                "cartons": line.cartons,
                "price_per_kg": None if line.price_per_kg is None else str(line.price_per_kg),
            }
            for line in order.lines.all()
        ],
        "deliveries": [{"id": str(one.pk), "docket_number": one.docket_number} for one in order.deliveries.all()],
    }


def limits_json() -> dict:
    """The current limit set, and every version with who published it."""
    rows = LimitSet.objects.select_related("created_by").order_by("-created_at")
    current = next((row for row in rows if row.is_current), None)
    return {
        "current": current.to_json() if current else None,
        "versions": [
            {
                "id": str(row.pk), "name": row.name, "version": row.version, "created_at": row.created_at.isoformat(),
                "created_by": str(row.created_by) if row.created_by else None, "is_current": row.is_current,
            }
            for row in rows
        ],
    }


def newest_versions() -> list[SpecificationVersion]:
    """The newest version of every specification in use, by code."""
    return [versions[0] for versions in versions_in_use()]


def versions_in_use() -> list[list[SpecificationVersion]]:
    """All versions of every specification in use, each newest first."""
    versions = SpecificationVersion.objects.select_related("specification", "created_by").order_by("-version")
    rows = Specification.objects.filter(is_active=True).prefetch_related(Prefetch("versions", queryset=versions))
    return [list(row.versions.all()) for row in rows if row.versions.all()]


def _named(row) -> dict:
    return {"id": str(row.pk), "name": row.name, "code": row.code}
