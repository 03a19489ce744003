"""One kitchen's receiving, in rows and documents, for tests of what happens between phone and seal.

All of it is invented: a harbour kitchen and a hill kitchen of one group, a receiver in each, a manager, a
supplier, two products. ``document`` writes a delivery as a phone would; ``decide`` signs it off by the
server's own suggestion, so that tests need not know the limits.
"""
import base64
import copy
import hashlib
import io
import json
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from django.test import Client
from PIL import Image

from inspections.people.models import Person, Role, Site
from inspections.records.advising import advice_contexts
from inspections.records.judging import judge
from inspections.records.models import (
    Freezer,
    LimitSet,
    Order,
    OrderLine,
    Specification,
    SpecificationVersion,
    Supplier,
)
from inspections.records.services.photo import receive_photos, store_photo

LIMITS = Path(__file__).resolve().parents[2] / "inspections" / "trade" / "data" / "limits.json"
DEVICE = "018f0000-0000-7000-8000-0000000000d1"
OTHER_DEVICE = "018f0000-0000-7000-8000-0000000000d2"
STROKES = [[[0.1, 0.6, 0], [0.3, 0.2, 40], [0.5, 0.7, 80]], [[0.6, 0.5, 120], [0.9, 0.4, 160]]]


@dataclass
class Kitchen:
    """The rows that a delivery needs, and the people around it."""

    site: Site
    other_site: Site
    receiver: Person
    other_receiver: Person
    manager: Person
    stranger: Person
    supplier: Supplier
    limits: LimitSet
    whiteleg: SpecificationVersion
    tiger: SpecificationVersion
    order: Order
    freezer: Freezer


def make_kitchen() -> Kitchen:
    """Write the rows."""
    harbour = Site.objects.create(name="Harbour kitchen", code="HAR", timezone="Australia/Sydney", currency="AUD")
    hill = Site.objects.create(name="Hill kitchen", code="HIL", timezone="Europe/Lisbon")
    receiver = _person("mia", "Mia Castel", Role.RECEIVER, harbour)
    supplier = Supplier.objects.create(
        name="Cold Reach Seafood", code="CRS", contact_name="Ade Winter", contact_email="ade@coldreach.example"
    )
    data = json.loads(LIMITS.read_text(encoding="utf-8"))
    limits = LimitSet.objects.create(
        name="Documented default", version=1, is_current=True,
        data={"default_plan": data["default_plan"], "limits": data["limits"]},
    )
    whiteleg = _product("VAN-HLSO-1620", "Whiteleg, headless shell-on 16/20", "PNV", "16/20")
    order = Order.objects.create(number="PO-88", supplier=supplier, site=harbour, expected_on="2026-11-25")
    OrderLine.objects.create(order=order, specification_version=whiteleg, cartons=20, price_per_kg="14.50")
    return Kitchen(
        site=harbour, other_site=hill, receiver=receiver,
        other_receiver=_person("tom", "Tom Arden", Role.RECEIVER, harbour),
        manager=_person("ines", "Ines Moor", Role.SITE_MANAGER, harbour),
        stranger=_person("olaf", "Olaf Brandt", Role.SITE_MANAGER, hill),
        supplier=supplier, limits=limits, whiteleg=whiteleg,
        tiger=_product("MON-HLSO-1315", "Giant tiger, headless shell-on 13/15", "GIT", "13/15"),
        order=order, freezer=Freezer.objects.create(site=harbour, name="Freezer 2"),
    )


def _person(username: str, name: str, role: str, site: Site) -> Person:
    # Nobody signs in by password here, so none is hashed.
    person = Person.objects.create(
        username=username, email=f"{username}@kitchen.example", password="!", name=name, role=role
    )
    person.sites.add(site)
    return person


def _product(code: str, name: str, species: str, grade: str) -> SpecificationVersion:
    data = {
        "species_code": species, "presentation": "HLSO", "state": "raw", "grade": grade, "carton_net_g": 10000,
        "units_per_carton": 5, "declared_glaze_percent": 10, "origin": ["EC"], "method": "farmed", "market": "ANZ",
        "min_life_share": None, "advisory": True, "overrides": {},
    }
    specification = Specification.objects.create(code=code, name=name)
    return SpecificationVersion.objects.create(specification=specification, version=1, data=data)


def picture(colour: str = "coral", *, size: tuple[int, int] = (64, 48), **saved) -> bytes:
    """A small JPEG of one colour."""
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, "JPEG", **saved)
    return out.getvalue()


def with_place(colour: str = "coral", *, turn: int = 6) -> bytes:
    """A JPEG whose EXIF holds a position (33° S, 151° E) and a turn."""
    exif = Image.Exif()
    exif[0x0112] = turn
    exif[0x8825] = {1: "S", 2: (33.0, 51.0, 31.0), 3: "E", 4: (151.0, 12.0, 51.0)}
    return picture(colour, exif=exif)


def sha256_of(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def photo_entry(
    content: bytes, *, line_id: str | None = None, carton_id: str | None = None, purpose: str = "load"
) -> dict:
    """A photo as a document names it."""
    return {
        "id": str(uuid4()), "sha256": sha256_of(content), "bytes": len(content), "type": "image/jpeg",
        "purpose": purpose, "line_id": line_id, "carton_id": carton_id, "taken_at": "2026-11-25T06:14:00+11:00",
        "gate": {"sharpness": 0.8, "exposure": 0.5, "glare": 0.0, "verdict": "usable"},
    }


def document(kitchen: Kitchen, *, docket: str = "DN-5530", device: str = DEVICE, photos: list[dict] | None = None,
             bad: bool = False) -> dict:
    """A delivery of one line, three cartons opened; ``bad`` has black spot and a warm carton in it."""
    cartons = [_carton(position) for position in (3, 11, 17)]
    if bad:
        cartons[0]["temperature"]["product"]["entered"] = "-9,5"
        cartons[1]["pieces"]["black_spot"] = 12
    return {
        "schema": 1, "id": str(uuid4()), "site_id": str(kitchen.site.pk), "supplier_id": str(kitchen.supplier.pk),
        "order_id": str(kitchen.order.pk), "limits_id": str(kitchen.limits.pk), "docket_number": docket,
        "arrived_at": "2026-11-25T06:10:00+11:00", "receiver": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"},
        "device_id": device, "separate_from": None,
        "vehicle": {"air": {"entered": "-19", "unit": "C"}, "load": "sound", "seal_number": "S-20417", "note": ""},
        "lines": [{
            "id": str(uuid4()), "order_line_id": None, "specification_id": str(kitchen.whiteleg.pk),
            "cartons_on_docket": 20, "cartons_counted": 20, "lot": "L2608",
            "sampling": {"plan": "house", "layers": 1, "seed": "tide", "n": 3, "acceptance": 0,
                         "positions": [3, 11, 17]},
            "cartons": cartons, "suggested": None, "decision": None,
        }],
        "photos": photos or [], "wording": None, "signatures": None, "notes": "",
    }


def _carton(position: int) -> dict:
    return {
        "id": str(uuid4()), "position": position, "opened_at": "2026-11-25T06:13:00+11:00",
        "label": {
            "source": "typed", "scan": "", "species_code": "PNV", "scientific_name": "Penaeus vannamei",
            "presentation": "HLSO", "state": "raw", "grade": "16/20", "net": {"entered": "2", "unit": "kg"},
            "lot": "L2608", "production_date": "2026-06-02", "frozen_on": "2026-06-02", "best_before": "2028-06-01",
            "origin": "EC", "catch_area": "", "method": "farmed",
            "shows": ["name", "scientific_name", "method", "area", "gear", "state", "net_weight", "lot", "date",
                      "storage", "crustacean", "sulphites", "producer", "approval", "origin"],
        },
        "liner": "closed", "frost": "none", "refreezing": [],
        "temperature": {"product": {"entered": "-19,4", "unit": "C"}, "method": "between_packs",
                        "thermometer_id": None},
        "looked_at": 20, "pieces": {"black_spot": 0, "dehydrated": 0, "broken": 0, "soft": 0},
        "black_spot_score": None, "odour": "sound", "foreign_matter": "none", "foreign_note": "",
        "weights": {"gross": None, "tare": None, "glazed": None, "deglazed": {"entered": "2010", "unit": "g"}},
        "sample": {"pieces": 36, "weight": {"entered": "907", "unit": "g"}, "weight_is": "deglazed",
                   "largest": None, "smallest": None},
        "marks": {"answer": "agree", "seen": {}}, "note": "",
    }


def decide(draft: dict, *, kind: str = "", reason: str = "") -> dict:
    """The document as it is signed: decided as the server suggests (or by ``kind``), both signatures on it."""
    final = copy.deepcopy(draft)
    judged = judge(final)
    for line, verdict in zip(final["lines"], judged["lines"], strict=True):
        is_open = not kind and verdict["suggestion"] == "not_yet"
        chosen, why = ("hold", "Driver could not wait.") if is_open else (kind or verdict["suggestion"], reason)
        counted = line["cartons_counted"]
        split = verdict["suggested_split"] or {"accepted": counted, "refused": 0, "held": 0}
        if chosen != verdict["suggestion"]:
            split = {"accept": {"accepted": counted, "refused": 0, "held": 0},
                     "reject": {"accepted": 0, "refused": counted, "held": 0},
                     "hold": {"accepted": 0, "refused": 0, "held": counted}}[chosen]
        line["decision"] = {"kind": chosen, **split, "reason": why, "decided_at": "2026-11-25T06:20:00+11:00"}
    judged = judge(final)
    for line, verdict in zip(final["lines"], judged["lines"], strict=True):
        line["suggested"] = verdict
    final["wording"] = {"text": judged["wording"], "copied_at": "2026-11-25T06:21:00+11:00"}
    final["signatures"] = {
        "receiver": {"name": "Mia Castel", "strokes": STROKES, "at": "2026-11-25T06:22:00+11:00"},
        "driver": {"name": "D. Roe", "strokes": STROKES, "at": "2026-11-25T06:23:00+11:00"},
    }
    return final


def put_away(kitchen: Kitchen, signed: dict, **changed) -> dict:
    """A put-away of everything accepted."""
    entries = [{
        "line_id": line["id"], "count": line["decision"]["accepted"] + line["decision"]["held"],
        "freezer_id": str(kitchen.freezer.pk), "position": "shelf 2 left", "liner_closed": True,
        "out_at": "2026-11-25T06:10:00+11:00", "in_at": "2026-11-25T06:31:00+11:00",
    } for line in signed["lines"]]
    return {
        "id": str(uuid4()), "delivery_id": signed["id"], "kind": "put_away", "at": "2026-11-25T06:33:00+11:00",
        "person": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"}, "device_id": DEVICE,
        "body": {"cartons": entries, "freezer_air": {"entered": "-21", "unit": "C"}}, **changed,
    }


def keep(content: bytes) -> str:
    """Store a photo as if it had arrived, from every site; its hash."""
    photo = store_photo(sha256=sha256_of(content), path_or_bytes=content)
    receive_photos(hashes=[photo.pk], sites=Site.objects.all())
    return photo.pk


class Phone:
    """A signed-in browser that speaks the device protocol."""

    def __init__(self, person: Person):
        self.client = Client(raise_request_exception=True)
        self.client.force_login(person)

    def put(self, draft: dict, base: int = 0, **headers):
        guard = {"If-None-Match": "*"} if base == 0 else {"If-Match": f'"{base}"'}
        return self.client.put(
            f"/sync/documents/{draft['id']}", json.dumps(draft), content_type="application/json",
            headers={**guard, **headers},
        )

    def sign(self, final: dict, key: str = "key-for-signing-0001"):
        return self.client.post(
            f"/sync/documents/{final['id']}/signature", json.dumps({"document": final}),
            content_type="application/json", headers={"Idempotency-Key": key},
        )

    def add(self, addendum: dict):
        return self.client.put(
            f"/sync/deliveries/{addendum['delivery_id']}/addenda/{addendum['id']}", json.dumps(addendum),
            content_type="application/json",
        )

    def begin(self, content: bytes, *, sha256: str = "", length: int | None = None, **headers):
        told = base64.b64encode((sha256 or sha256_of(content)).encode()).decode()
        return self.client.post("/sync/uploads/", b"", content_type="application/offset+octet-stream", headers={
            "Tus-Resumable": "1.0.0", "Upload-Length": str(len(content) if length is None else length),
            "Upload-Metadata": f"sha256 {told},type aW1hZ2UvanBlZw==", **headers,
        })

    def piece(self, at: str, content: bytes, offset: int, **headers):
        return self.client.patch(
            at, content, content_type="application/offset+octet-stream",
            headers={"Tus-Resumable": "1.0.0", "Upload-Offset": str(offset), **headers},
        )

    def ask(self, at: str):
        return self.client.head(at, headers={"Tus-Resumable": "1.0.0"})

    def send_photo(self, content: bytes) -> str:
        begun = self.begin(content)
        if begun["Upload-Offset"] != str(len(content)):
            assert self.piece(begun["Location"], content, 0).status_code == 204
        return sha256_of(content)


def advice_context(document: dict, entry: dict) -> dict | None:
    """What the worker is told of one photo, which the document need not name; None where advice is switched off."""
    return advice_contexts({**document, "photos": [entry]})[0][1]
