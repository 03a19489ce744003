"""Things to test with, made from a counter so that every run makes the same ones, but for their ids.

``document`` builds without a database row where the ids are given; ``decided`` asks the server's judgement
and decides every line as suggested, which is what a receiver in a hurry does.
"""
import hashlib
import io
import itertools
import os
from copy import deepcopy

from django.db import transaction
from PIL import Image

from fixtures.demo.chance import made_id
from inspections.people.access import need_site
from inspections.people.models import Person, Site
from inspections.records.judging import judge
from inspections.records.models import (
    Addendum,
    Delivery,
    IcePointCheck,
    LimitSet,
    Order,
    OrderLine,
    SpecificationVersion,
    Supplier,
    Thermometer,
)
from inspections.records.services import addendum as addenda
from inspections.records.services import delivery as deliveries
from inspections.records.services import ice_point
from inspections.records.services.reference import publish_limits, publish_specification
from inspections.records.shape.door import read_addendum, read_delivery, read_ice_check
from inspections.trade.limits import DEFAULT_LIMITS

_numbers = itertools.count(1)

SPECIFICATION = {
    "species_code": "PNV", "presentation": "HLSO", "state": "raw", "grade": "16/20", "carton_net_g": 10000,
    "units_per_carton": 5, "declared_glaze_percent": 10, "origin": ["EC"], "method": "farmed", "market": "EU",
    "min_life_share": 0.5,
}  # fmt: skip
SHOWS = [
    "name", "scientific_name", "method", "area", "state", "net_weight", "lot", "date", "storage", "crustacean",
    "sulphites", "producer", "approval", "origin",
]  # fmt: skip


def fresh_id() -> str:
    """A UUID that no other call of this run gives, nor another process on the same database."""
    return made_id("test", os.getpid(), next(_numbers))


def a_site(code: str, **more) -> Site:
    known = {"name": f"Kitchen {code}", "timezone": "Europe/Lisbon", "market": "EU"}
    return Site.objects.create(code=code, **{**known, **more})


def a_person(username: str, role: str, *sites: Site, password: str | None = None) -> Person:
    person = Person.objects.create_user(username, password=password, name=username.title(), role=role)
    person.sites.set(sites)
    return person


def a_supplier(code: str = "REEF", **more) -> Supplier:
    return Supplier.objects.create(code=code, **{"name": f"Supplier {code} (invented)", **more})


def a_specification(code: str = "VAN-1620", **changes) -> SpecificationVersion:
    return publish_specification(code=code, name=f"Prawns {code}", data={**SPECIFICATION, **changes}, person=None)


def current_limits() -> LimitSet:
    return publish_limits(data=deepcopy(DEFAULT_LIMITS), person=None)


def an_order(site: Site, supplier: Supplier, version: SpecificationVersion, day: str, number: str = "O-1") -> Order:
    order = Order.objects.create(number=number, supplier=supplier, site=site, expected_on=day)
    OrderLine.objects.create(order=order, specification_version=version, cartons=10)
    return order


def reading(entered, unit: str) -> dict:
    return {"entered": str(entered), "unit": unit}


def a_carton(position: int = 1, **changes) -> dict:
    """A sound carton, everything checked."""
    label = {
        "source": "typed", "scan": "", "species_code": "PNV", "scientific_name": "Penaeus vannamei",
        "presentation": "HLSO", "state": "raw", "grade": "16/20", "net": None, "lot": "L42",
        "production_date": "2026-06-01", "frozen_on": "2026-06-01", "best_before": "2028-05-31", "origin": "EC",
        "catch_area": "", "method": "farmed", "shows": SHOWS,
    }  # fmt: skip
    whole = {
        "id": fresh_id(), "position": position, "opened_at": "2026-11-25T06:15:00+00:00", "label": label,
        "liner": "closed", "frost": "none", "refreezing": [],
        "temperature": {"product": reading("-19,0", "C"), "method": "between_packs", "thermometer_id": None},
        "looked_at": 20,
        "pieces": dict.fromkeys(("black_spot", "black_spot_meat", "dehydrated", "broken", "soft", "heads", "legs"), 0),
        "black_spot_score": 0, "odour": "sound", "foreign_matter": "none", "foreign_note": "",
        "weights": {"gross": None, "tare": None, "glazed": reading(2235, "g"), "deglazed": reading(2010, "g")},
        "sample": {"pieces": 40, "weight": reading(1010, "g"), "weight_is": "deglazed",
                   "largest": reading(112, "g"), "smallest": reading(90, "g")},
        "marks": {"answer": "agree", "seen": {}}, "note": "",
    }  # fmt: skip
    return {**whole, **changes}


def a_line(version: SpecificationVersion, *cartons: dict, counted: int = 3, **changes) -> dict:
    """A docket line of ``counted`` cartons; with no cartons given, three sound ones are open."""
    opened = list(cartons) or [a_carton(position) for position in (1, 2, 3)]
    whole = {
        "id": fresh_id(), "order_line_id": None, "specification_id": str(version.pk), "cartons_on_docket": counted,
        "cartons_counted": counted, "lot": "L42",
        "sampling": {"plan": "house", "layers": 1, "seed": "test", "n": len(opened), "acceptance": 0,
                     "positions": [one["position"] for one in opened]},
        "cartons": opened, "suggested": None, "decision": None,
    }  # fmt: skip
    return {**whole, **changes}


def a_document(site: Site, supplier: Supplier, limits: LimitSet, person: Person, *lines: dict, **changes) -> dict:
    """An inspection document with both signatures, not decided yet (see ``decided``)."""
    at = "2026-11-25T06:30:00+00:00"
    strokes = [[[0.1, 0.5, 0], [0.4, 0.3, 20], [0.8, 0.6, 40]]]
    whole = {
        "schema": 1, "id": fresh_id(), "site_id": str(site.pk), "supplier_id": str(supplier.pk), "order_id": None,
        "limits_id": str(limits.pk), "docket_number": f"DN-{next(_numbers)}", "arrived_at": "2026-11-25T06:10:00+00:00",
        "receiver": {"person_id": person.pk, "name": person.name}, "device_id": fresh_id(), "separate_from": None,
        "vehicle": {"air": reading("-18,5", "C"), "load": "sound", "seal_number": "", "note": ""},
        "lines": list(lines), "photos": [], "wording": None, "notes": "",
        "signatures": {"receiver": {"name": person.name, "strokes": strokes, "at": at},
                       "driver": {"name": "Driver", "strokes": strokes, "at": at}},
    }  # fmt: skip
    return {**whole, **changes}


def decided(document: dict) -> dict:
    """The document with every line decided as the server suggests, and the wording copied."""
    document = deepcopy(document)
    judgement = judge(document)
    for line, judged in zip(document["lines"], judgement["lines"], strict=True):
        whole = {"accepted": 0, "refused": 0, "held": line["cartons_counted"]}
        is_open = judged["suggestion"] == "not_yet"
        line["decision"] = {
            "kind": "hold" if is_open else judged["suggestion"], **(judged["suggested_split"] or whole),
            "reason": "Driver could not wait." if is_open else "", "decided_at": "2026-11-25T06:29:00+00:00",
        }  # fmt: skip
    judgement = judge(document)
    for line, judged in zip(document["lines"], judgement["lines"], strict=True):
        line["suggested"] = judged
    document["wording"] = {"text": judgement["wording"], "copied_at": "2026-11-25T06:29:30+00:00"}
    return document


def a_put_away(document: dict, count: int | None = None, **changes) -> dict:
    """A put-away of the first line of a decided document; everything that was kept, unless a count is given."""
    line = document["lines"][0]
    kept = line["decision"]["accepted"] + line["decision"]["held"]
    body = {
        "cartons": [{
            "line_id": line["id"], "count": kept if count is None else count, "freezer_id": None,
            "position": "shelf 2 left", "liner_closed": True, "out_at": "2026-11-25T06:31:00+00:00",
            "in_at": "2026-11-25T06:39:00+00:00",
        }],
        "freezer_air": reading("-21", "C"),
    }  # fmt: skip
    whole = {
        "id": fresh_id(), "delivery_id": document["id"], "kind": "put_away", "at": "2026-11-25T06:40:00+00:00",
        "person": document["receiver"], "device_id": document["device_id"], "body": body,
    }  # fmt: skip
    return {**whole, **changes}


def a_jpeg(shade: int = 120, width: int = 64, height: int = 48) -> bytes:
    """A small plain JPEG; another shade is another photo."""
    file = io.BytesIO()
    Image.new("RGB", (width, height), (shade, shade // 2, 90)).save(file, "JPEG")
    return file.getvalue()


def photo_entry(content: bytes, **changes) -> dict:
    """A photo as the document names it."""
    whole = {
        "id": fresh_id(), "sha256": hashlib.sha256(content).hexdigest(), "bytes": len(content), "type": "image/jpeg",
        "purpose": "under_liner", "line_id": None, "carton_id": None, "taken_at": "2026-11-25T06:16:00+00:00",
        "gate": {"sharpness": 0.8, "exposure": 0.5, "glare": 0.0, "texture": 0.2, "verdict": "usable"},
    }  # fmt: skip
    return {**whole, **changes}


# ---- acts, as the addresses call them: checked at the door, the site asked for, then done -----------------
def sign_delivery(*, document: dict, person: Person) -> Delivery:
    """The record alone, without its seal: prepared and written in one transaction."""
    sent = read_delivery(document)
    site = need_site(person, sent.entered.site_id)
    with transaction.atomic():
        return deliveries.write_delivery(deliveries.prepare_delivery(sent=sent, site=site, person=person))


def add_addendum(*, delivery: Delivery, addendum: dict, person: Person) -> Addendum:
    need_site(person, delivery.site_id)
    return addenda.add_addendum(delivery=delivery, sent=read_addendum(addendum), person=person)


def file_ice_point(*, thermometer: Thermometer, check: dict, person: Person) -> IcePointCheck:
    need_site(person, thermometer.site_id)
    return ice_point.file_ice_point(thermometer=thermometer, check=read_ice_check(check).entered, person=person)
