"""What a phone takes along before it loses its signal: everything that the walk needs to know."""
from datetime import timedelta

from django.conf import settings
from django.db.models import OuterRef, Subquery
from django.utils import timezone

from inspections.evidence import keys
from inspections.evidence.anchors import latest_of
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.people.access import sites_for
from inspections.people.models import Device, Person
from inspections.records import stored
from inspections.records.models import (
    DocketLine,
    Freezer,
    LimitSet,
    Order,
    Specification,
    SpecificationVersion,
    Supplier,
)
from inspections.records.thermometers import thermometer_json, thermometers_at
from inspections.sync.models import Document, DocumentState

#: Orders are shown from so many days overdue to so many days ahead.
DAYS_OVERDUE, DAYS_AHEAD = 7, 14
#: Lots that came in so many days are at hand when something is thawed, the newest lines first, at most so many.
DAYS_OF_LOTS, MOST_LOTS = 120, 200


def reference_for(person: Person) -> dict:
    """The reference data for a person's sites.

    Returns
    -------
    dict
        As in the protocol, without ``server_time``; ``revision`` is a hash of all the rest, so it changes
        exactly when something does.
    """
    sites = list(sites_for(person))
    opened = list(Document.objects.filter(site__in=sites, state=DocumentState.OPEN).select_related("person"))
    expected = _expected(sites)
    told = {
        "installation": {"name": settings.INSTALLATION_NAME, "public_key": keys.public_pem()},
        "me": _me(person, sites),
        "suppliers": list(Supplier.objects.filter(is_active=True).values("id", "name", "code")),
        "specifications": _specifications(expected, opened),
        **_limits(opened),
        "expected": expected,
        "thermometers": [thermometer_json(row) for row in thermometers_at(sites).filter(in_use=True)],
        "freezers": list(Freezer.objects.filter(site__in=sites, in_use=True).values("id", "site_id", "name")),
        "open_documents": _open_documents(opened),
        "lots": _lots(sites),
        # what the phone puts into the QR code of a docket, as evidence.anchors.docket_address does
        "public_address": settings.PUBLIC_ADDRESS,
        "latest_seals": [{"site_id": site.pk, "number": newest.number, "sha256": newest.sha256}
                         for site in sites if (newest := latest_of(site))],
    }
    told = _as_text(told)
    return {"revision": sha256_hex(canonical_bytes(told))[:32], **told}


def _me(person: Person, sites: list) -> dict:
    return {
        "id": person.pk, "name": person.name, "role": person.role,
        "sites": [{"id": site.pk, "name": site.name, "code": site.code, "timezone": site.timezone,
                   "currency": site.currency, "market": site.market} for site in sites],
    }


def _expected(sites: list) -> list[dict]:
    today = timezone.now().date()
    orders = Order.objects.filter(
        site__in=sites, deliveries__isnull=True,
        expected_on__range=(today - timedelta(days=DAYS_OVERDUE), today + timedelta(days=DAYS_AHEAD)),
    )
    return [
        {"id": order.pk, "number": order.number, "site_id": order.site_id, "supplier_id": order.supplier_id,
         "expected_on": order.expected_on,
         "lines": [{"id": line.pk, "specification_id": line.specification_version_id, "cartons": line.cartons,
                    "price_per_kg": None if line.price_per_kg is None else format(line.price_per_kg.normalize(), "f")}
                   for line in order.lines.all()]}
        for order in orders.prefetch_related("lines")
    ]


def _specifications(expected: list[dict], opened: list[Document]) -> list[dict]:
    """The newest version of each specification in use, and whatever older one an order or open document names."""
    newest = SpecificationVersion.objects.filter(specification=OuterRef("pk")).order_by("-version").values("pk")[:1]
    in_use = Specification.objects.filter(is_active=True).annotate(newest=Subquery(newest))
    wanted = in_use.values_list("newest", flat=True)
    named = [line["specification_id"] for order in expected for line in order["lines"]]
    written = stored.ids([line for one in opened for line in stored.entries(one.body, "lines")], "specification_id")
    ids = {str(one) for one in [*wanted, *named] if one} | written
    rows = SpecificationVersion.objects.filter(pk__in=ids).select_related("specification")
    return [row.to_json() for row in rows.order_by("specification__code", "-version")]


def _limits(opened: list[Document]) -> dict:
    current = LimitSet.objects.filter(is_current=True).first()
    named = stored.ids([stored.head(one.body) for one in opened], "limits_id")
    ids = named | ({str(current.pk)} if current else set())
    rows = LimitSet.objects.filter(pk__in=ids).order_by("name", "-version")
    return {"limit_sets": [row.to_json() for row in rows], "current_limits_id": current.pk if current else None}


def _open_documents(opened: list[Document]) -> list[dict]:
    labels = dict(Device.objects.filter(pk__in=[one.device_id for one in opened]).values_list("pk", "label"))
    return [
        {"id": one.pk, "site_id": one.site_id, "supplier_id": one.supplier_id,
         "docket_number": stored.text(one.body, "docket_number"), "person_name": one.person.name,
         "device_id": one.device_id, "device_label": labels.get(one.device_id, ""), "revision": one.revision,
         "updated_at": one.updated_at.isoformat()}
        for one in opened
    ]


def _lots(sites: list) -> list[dict]:
    """Lots of docket lines that were kept, as docket and labels name them; a line without one is there with ""."""
    since = timezone.now() - timedelta(days=DAYS_OF_LOTS)
    kept = DocketLine.objects.filter(delivery__site__in=sites, delivery__arrived_at__gte=since)
    lines = kept.exclude(accepted=0, held=0).select_related("delivery", "specification_version__specification")
    lines = lines.prefetch_related("lots").defer("delivery__document", "delivery__judgement")
    return [
        {"delivery_id": line.delivery_id, "line_id": line.pk, "site_id": line.delivery.site_id, "lot": lot,
         "supplier_id": line.delivery.supplier_id, "docket_number": line.delivery.docket_number,
         "name": line.specification_version.specification.name, "arrived_at": line.delivery.arrived_at}
        for line in lines.order_by("-delivery__arrived_at", "number")[:MOST_LOTS]
        for lot in [one.lot for one in line.lots.all()] or [""]
    ]


def _as_text(part):
    """The same with ids and dates as text, as JSON has neither."""
    match part:
        case dict():
            return {key: _as_text(value) for key, value in part.items()}
        case list():
            return [_as_text(value) for value in part]
        case None | bool() | int() | float() | str():
            return part
    return part.isoformat() if hasattr(part, "isoformat") else str(part)
