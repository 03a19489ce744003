"""Who gets what, as one table: every method of every address x everybody, of the site and of another.

What is asked for belongs to the harbour kitchen. An address or method without a row fails, so a new view cannot
be forgotten here; so does a row whose address is gone. The operator's own pages (/admin/) have a test of their
own below, which walks them too.
"""
import json
from dataclasses import dataclass
from uuid import uuid4

import pytest
from django.contrib import admin
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import transaction
from django.test import Client
from django.urls import URLPattern, reverse
from django.utils import timezone

from inspections.claims import push
from inspections.claims.files import read_files
from inspections.claims.models import Claim, Message
from inspections.claims.services import Said, draft_claim, say
from inspections.claims.supplier_people import invite
from inspections.claims.urls import FILE as CLAIM_FILES
from inspections.claims.urls import OWN as SUPPLIERS_OWN
from inspections.evidence.links import make_link
from inspections.openapi import addresses
from inspections.people.models import Device, Person, Role
from inspections.records.models import Delivery, Job, LoggerFile, Supplier, Thermometer
from tests.inspections.claims.conftest import send_claim
from tests.inspections.described import need_described
from tests.inspections.file_fixtures import apart  # noqa: F401
from tests.inspections.logs import a_log
from tests.inspections.receiving import Phone, decide, document, make_kitchen, photo_entry, picture, put_away, sha256_of

#: Everybody in the order of the columns: nobody signed in; somebody without a site; receivers and managers of the
#: hill kitchen and of the harbour kitchen; group operations; an administrator. Then two people of suppliers: of the one
#: that delivered, and of another. But for the pages of their own they are nobody, and rows say no more of them.
HOUSE = ("nobody", "stranger", "hill_receiver", "receiver", "hill_manager", "manager", "group", "administrator")
PEOPLE = (*HOUSE, "supplier", "other_supplier")
ALL = (200,) * 8
SIGNED_IN = (401,) + (200,) * 7
OF_THE_SITE = (401, 404, 404, 200, 404, 200, 200, 200)
OF_THE_SITE_BY_PHONE = (401, 403, 403, 200, 403, 200, 200, 200)
MANAGERS = (401, 403, 403, 403, 200, 200, 200, 200)
MANAGERS_OF_THE_SITE = (401, 403, 403, 403, 404, 200, 200, 200)
GROUP = (401, 403, 403, 403, 403, 403, 200, 200)
JSON, CSV, PIECE = "application/json", "text/csv", "application/offset+octet-stream"
TUS = {"Tus-Resumable": "1.0.0"}
SUPPLIERS = "code;name\nA;One\n"
ORDER = "number;supplier;site;expected_on;specification;cartons\nO-9;CRS;HAR;2026-11-25;VAN-HLSO-1620;4\n"
THERMOMETER = "name;site\nProbe 9;HAR\n"


@dataclass(frozen=True)
class Row:
    """A method of an address, what is sent, and the status that each of PEOPLE gets; suppliers' what nobody gets."""

    method: str
    route: str
    address: str
    statuses: tuple[int, ...]
    body: str = ""
    kind: str = JSON
    headers: tuple[tuple[str, str], ...] = ()

    @property
    def all_statuses(self) -> tuple[int, ...]:
        missing = len(PEOPLE) - len(self.statuses)
        return self.statuses + self.statuses[:1] * missing


def put(ok: int, statuses: tuple[int, ...]) -> tuple[int, ...]:
    """The same rights, with another status for “done”."""
    return tuple(ok if status == 200 else status for status in statuses)


LINK = r"^e/(?P<token>[^/]+)/"
OWN = f"^{SUPPLIERS_OWN}/"
EVIDENCE_PHOTO = r"photos/(?P<sha256>[0-9a-f]{64})/(?P<kind>thumb|original|overlay|histogram)$"
EVIDENCE_LOG = r"logger-files/(?P<file_id>[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})$"
#: What goes with the page of a delivery's evidence, by link and by account -> what is asked for.
EVIDENCE = {r"worksheet$": "worksheet", r"evidence\.pdf$": "evidence.pdf", r"bundle\.zip$": "bundle.zip",
            EVIDENCE_PHOTO: "photos/{photo}/original", EVIDENCE_LOG: "logger-files/{log}"}
#: Nobody is led to the sign-in; the house has its desk; a supplier's person opens own deliveries with a claim alone.
OF_OWN_DELIVERY = (302, *(403,) * 7, 200, 404)
PHOTO = r"api/^photos/(?P<sha256>[0-9a-f]{64})/(?P<size>thumb|screen|original|overlay|histogram)$"
CLAIM_FILE = r"^api/claims/" + CLAIM_FILES
LINK_CLAIM_FILE, OWN_CLAIM_FILE = LINK + "claims/" + CLAIM_FILES, OWN + "claims/" + CLAIM_FILES
OWN_CLAIM = "supplier/deliveries/<uuid:delivery_id>/claims/<uuid:claim_id>"
CLAIMED = "/supplier/deliveries/{claimed}/"
FORM = "application/x-www-form-urlencoded"
KEPT, KEPT_ROW = "api/kept/<slug:kind>", "api/kept/<slug:kind>/<str:row_id>"
APP = r"^(?:|(?:walk|desk|how|waiting|sign-in)(?:/.*)?)$"
ROWS = [
    # ---- people
    Row("get", "api/session", "/api/session", ALL),
    Row("post", "api/session", "/api/session", (401,) * 8, '{"username": "x", "password": "y"}'),
    Row("delete", "api/session", "/api/session", (204,) * 8),
    Row("put", "api/pin", "/api/pin", (401,) + (422,) * 7, '{"password": "x", "pin": "7294"}'),
    Row("get", "api/passkeys", "/api/passkeys", SIGNED_IN),
    Row("post", "api/passkeys", "/api/passkeys", (401,) + (422,) * 7, '{"credential": {}, "label": "x"}'),
    Row("post", "api/passkeys/options", "/api/passkeys/options", (401,) + (422,) * 7, '{"password": "x"}'),
    Row("delete", "api/passkeys/<int:passkey_id>", "/api/passkeys/1", (401,) + (404,) * 7),
    Row("post", "api/session/passkey/options", "/api/session/passkey/options", ALL),
    Row("post", "api/session/passkey", "/api/session/passkey", (422,) * 8, '{"credential": {}}'),
    Row("get", "api/device", "/api/device", ALL),
    Row("post", "api/device", "/api/device", (422,) * 8, "{code_body}"),
    Row("post", "api/device/session", "/api/device/session", (403,) * 8, '{"person_id": 1, "pin": "7294"}'),
    Row("get", "api/devices", "/api/devices", MANAGERS),
    Row("post", "api/devices", "/api/devices", (401, 403, 403, 403, 403, 201, 201, 201), "{device_body}"),
    Row("put", "api/devices/<uuid:device_id>", "/api/devices/{device}", MANAGERS_OF_THE_SITE, '{"is_revoked": true}'),
    Row("get", "api/trail", "/api/trail", MANAGERS),
    Row("get", "api/trail", "/api/trail?site={site}", (401, 403, 403, 403, 403, 200, 200, 200)),
    # ---- the desk
    Row("get", "api/deliveries", "/api/deliveries", SIGNED_IN),
    Row("get", "api/deliveries/<uuid:delivery_id>", "/api/deliveries/{delivery}", OF_THE_SITE),
    Row("get", "api/lots", "/api/lots?q=L42", SIGNED_IN),
    Row("get", PHOTO, "/api/photos/{photo}/original", OF_THE_SITE),
    Row("get", PHOTO, "/api/photos/{photo}/thumb", OF_THE_SITE),
    Row("get", "api/parked", "/api/parked", MANAGERS),
    Row("post", "api/parked/<uuid:job_id>", "/api/parked/{parked}", put(204, MANAGERS_OF_THE_SITE)),
    Row("get", "api/orders", "/api/orders", SIGNED_IN),
    Row("get", "api/limits", "/api/limits", SIGNED_IN),
    Row("post", "api/limits", "/api/limits", put(422, GROUP), '{"name": "x", "limits": []}'),
    Row("post", "api/limits/trials", "/api/limits/trials", GROUP, '{"plan": "house"}'),
    Row("get", "api/specifications", "/api/specifications", SIGNED_IN),
    Row("post", "api/specifications", "/api/specifications", put(422, GROUP),
        '{"code": "X", "name": "X", "data": {"grade": "x"}}'),
    Row("post", "api/specifications/<uuid:specification_id>/advice", "/api/specifications/{specification}/advice",
        GROUP, '{"is_on": false}'),
    Row("get", "api/reference-card.pdf", "/api/reference-card.pdf", SIGNED_IN),
    *(Row("get", KEPT, f"/api/kept/{kind}", MANAGERS)
      for kind in ("people", "sites", "suppliers", "specifications", "thermometers", "freezers")),
    Row("get", KEPT, "/api/kept/nothing", (401,) + (404,) * 7),
    # A site manager keeps receivers of own sites; nobody gives a role that is not below their own.
    Row("post", KEPT, "/api/kept/people", (401, 403, 403, 403, 422, 201, 201, 201), "{receiver_body}"),
    Row("post", KEPT, "/api/kept/people", (401, 403, 403, 403, 403, 403, 201, 201), "{manager_body}"),
    Row("post", KEPT, "/api/kept/people", (401, 403, 403, 403, 403, 403, 403, 201), "{administrator_body}"),
    Row("put", KEPT_ROW, "/api/kept/people/{receiver}", MANAGERS_OF_THE_SITE, '{"name": "Mia"}'),
    Row("put", KEPT_ROW, "/api/kept/people/{manager}", (401, 403, 403, 403, 404, 404, 200, 200), '{"name": "Ines"}'),
    Row("put", KEPT_ROW, "/api/kept/people/{administrator}", (401, 403, 403, 403, 404, 404, 404, 200),
        '{"password": "taken-over-9"}'),
    Row("post", KEPT, "/api/kept/sites", put(201, GROUP), '{"name": "Mill", "code": "MIL"}'),
    Row("put", KEPT_ROW, "/api/kept/sites/{site}", GROUP, '{"name": "Harbour"}'),
    Row("post", KEPT, "/api/kept/suppliers", put(201, GROUP), '{"name": "New", "code": "NEW"}'),
    Row("put", KEPT_ROW, "/api/kept/suppliers/{supplier}", GROUP, '{"is_active": false}'),
    Row("post", KEPT, "/api/kept/specifications", put(422, GROUP), '{"name": "New", "code": "NEW"}'),
    Row("put", KEPT_ROW, "/api/kept/specifications/{specification}", GROUP, '{"grade": "21/25"}'),
    Row("post", KEPT, "/api/kept/thermometers", (401, 403, 403, 403, 404, 201, 201, 201), "{site_body}"),
    Row("put", KEPT_ROW, "/api/kept/thermometers/{probe}", MANAGERS_OF_THE_SITE, '{"in_use": false}'),
    Row("post", KEPT, "/api/kept/freezers", (401, 403, 403, 403, 404, 201, 201, 201), "{site_body}"),
    Row("put", KEPT_ROW, "/api/kept/freezers/{freezer}", MANAGERS_OF_THE_SITE, '{"in_use": false}'),
    Row("get", "api/thermometers", "/api/thermometers", SIGNED_IN),
    Row("post", "api/imports/<slug:kind>", "/api/imports/suppliers", GROUP, SUPPLIERS, CSV),
    Row("post", "api/imports/<slug:kind>", "/api/imports/specifications", put(422, GROUP), SUPPLIERS, CSV),
    # A manager of another site may import orders and thermometers, but not for this one: the line is refused.
    Row("post", "api/imports/<slug:kind>", "/api/imports/orders", (401, 403, 403, 403, 422, 200, 200, 200), ORDER, CSV),
    Row("post", "api/imports/<slug:kind>", "/api/imports/thermometers", (401, 403, 403, 403, 422, 200, 200, 200),
        THERMOMETER, CSV),
    # ---- the comparison
    Row("get", "api/comparison", "/api/comparison", MANAGERS),
    Row("get", "api/comparison", "/api/comparison?site={site}", (401, 403, 403, 403, 403, 200, 200, 200)),
    Row("get", "api/comparison/suppliers/<uuid:supplier_id>", "/api/comparison/suppliers/{supplier}", MANAGERS),
    Row("get", "api/measures", "/api/measures?by=month", MANAGERS),
    Row("get", "api/summary", "/api/summary?month=2026-11", MANAGERS),
    Row("get", "api/summary.pdf", "/api/summary.pdf?month=2026-11", MANAGERS),
    Row("get", "api/summary/mail", "/api/summary/mail", MANAGERS),
    Row("put", "api/summary/mail", "/api/summary/mail", MANAGERS, '{"wanted": false}'),
    Row("get", "api/measures", "/api/measures?site={site}", (401, 403, 403, 403, 403, 200, 200, 200)),
    Row("get", "api/tables", "/api/tables", MANAGERS),
    Row("get", "api/tables/<slug:name>", "/api/tables/docket_lines", MANAGERS),
    Row("get", "api/tables/<slug:name>", "/api/tables/cartons?site={site}", (401, 403, 403, 403, 403, 200, 200, 200)),
    Row("get", "api/tables/<slug:name>.<slug:kind>", "/api/tables/receiving.csv", MANAGERS),
    Row("get", "api/agreement", "/api/agreement", MANAGERS),
    Row("get", "api/agreement", "/api/agreement?site={site}", (401, 403, 403, 403, 403, 200, 200, 200)),
    # ---- evidence, the desk's side
    Row("get", "api/deliveries/<uuid:delivery_id>/logger-files", "/api/deliveries/{delivery}/logger-files",
        OF_THE_SITE),
    Row("post", "api/deliveries/<uuid:delivery_id>/logger-files", "/api/deliveries/{delivery}/logger-files",
        put(201, OF_THE_SITE), "another log", "multipart"),
    Row("get", "api/logger-files/<uuid:file_id>", "/api/logger-files/{log}", OF_THE_SITE),
    Row("get", "api/logger-files/<uuid:file_id>/file", "/api/logger-files/{log}/file", OF_THE_SITE),
    Row("get", "api/deliveries/<uuid:delivery_id>/evidence-links", "/api/deliveries/{delivery}/evidence-links",
        MANAGERS_OF_THE_SITE),
    Row("post", "api/deliveries/<uuid:delivery_id>/evidence-links", "/api/deliveries/{delivery}/evidence-links",
        put(201, MANAGERS_OF_THE_SITE), "{}"),
    Row("delete", "api/evidence-links/<uuid:link_id>", "/api/evidence-links/{link}", put(204, MANAGERS_OF_THE_SITE)),
    Row("get", "api/deliveries/<uuid:delivery_id>/worksheet", "/api/deliveries/{delivery}/worksheet", OF_THE_SITE),
    Row("get", "api/deliveries/<uuid:delivery_id>/epcis", "/api/deliveries/{delivery}/epcis", OF_THE_SITE),
    Row("get", "api/deliveries/<uuid:delivery_id>/seals", "/api/deliveries/{delivery}/seals", OF_THE_SITE),
    Row("get", "e/keys", "/e/keys", ALL),
    # says the same to everybody of every delivery and of none; the kitchen's people are led on to the desk
    Row("get", "e/docket/<uuid:delivery_id>", "/e/docket/{delivery}", (200,) + (302,) * 7),
    Row("get", "e/docket/<uuid:delivery_id>", "/e/docket/" + "0" * 8 + "-0000-4000-8000-" + "0" * 12,
        (200,) + (302,) * 7),
    # ---- evidence by link: whoever holds the link, and nobody by another
    Row("get", "e/<str:token>", "/e/{token}", ALL),
    Row("get", "e/<str:token>", "/e/" + "x" * 43, (404,) * 8),
    Row("get", "verify", "/verify", ALL),
    *(Row("get", LINK + part, "/e/{token}/" + asked, ALL) for part, asked in EVIDENCE.items()),
    Row("get", LINK + EVIDENCE_PHOTO, "/e/{token}/photos/{other_photo}/original", (404,) * 8),
    Row("get", LINK + EVIDENCE_LOG, "/e/{token}/logger-files/{other_log}", (404,) * 8),
    # ---- claims, the desk's side; then by link
    Row("get", "api/claims", "/api/claims", MANAGERS),
    Row("post", "api/claims", "/api/claims", put(201, MANAGERS_OF_THE_SITE), "{line_body}"),
    Row("get", "api/claims/figures", "/api/claims/figures", MANAGERS),
    Row("get", r"^api/claims\.(?P<ending>csv|xlsx)$", "/api/claims.csv", MANAGERS),
    Row("get", r"^api/claims\.(?P<ending>csv|xlsx)$", "/api/claims.xlsx", MANAGERS),
    Row("get", "api/deliveries/<uuid:delivery_id>/claims", "/api/deliveries/{delivery}/claims", MANAGERS),
    Row("get", "api/claims/<uuid:claim_id>", "/api/claims/{claim}", MANAGERS_OF_THE_SITE),
    Row("put", "api/claims/<uuid:claim_id>", "/api/claims/{draft}", MANAGERS_OF_THE_SITE, "{items_body}"),
    Row("delete", "api/claims/<uuid:claim_id>", "/api/claims/{draft}", put(204, MANAGERS_OF_THE_SITE)),
    Row("post", "api/claims/<uuid:claim_id>/entries", "/api/claims/{claim}/entries", put(201, MANAGERS_OF_THE_SITE),
        "{entry_body}", "multipart"),
    Row("post", "api/claims/<uuid:claim_id>/mails/<uuid:mail_id>", "/api/claims/{claim}/mails/{mail}",
        MANAGERS_OF_THE_SITE),
    Row("get", CLAIM_FILE, "/api/claims/{claim}/files/{claim_file}/original", MANAGERS_OF_THE_SITE),
    Row("get", "api/suppliers/<uuid:supplier_id>/claim-terms", "/api/suppliers/{supplier}/claim-terms", MANAGERS),
    Row("put", "api/suppliers/<uuid:supplier_id>/claim-terms", "/api/suppliers/{supplier}/claim-terms", GROUP,
        '{"currency": "EUR", "notice_hours": 24, "answer_hours": 48}'),
    Row("get", "api/notifications", "/api/notifications", MANAGERS),
    Row("post", "api/notifications", "/api/notifications", put(201, MANAGERS), "{browser_body}"),
    Row("delete", "api/notifications/<uuid:subscription_id>", "/api/notifications/{browser}",
        (401, 403, 403, 403, 404, 204, 404, 404)),
    Row("get", "e/<str:token>/claims/<uuid:claim_id>", "/e/{claim_token}/claims/{claim}", ALL),
    Row("get", "e/<str:token>/claims/<uuid:claim_id>", "/e/{claim_token}/claims/{draft}", (404,) * 8),
    Row("get", "e/<str:token>/claims/<uuid:claim_id>", "/e/{token}/claims/{claim}", (404,) * 8),
    Row("post", "e/<str:token>/claims/<uuid:claim_id>", "/e/{claim_token}/claims/{claim}", (302,) * 8,
        "kind=agree&by=Ade", FORM),
    Row("post", "e/<str:token>/claims/<uuid:claim_id>", "/e/{token}/claims/{claim}", (404,) * 8,
        "kind=agree&by=Ade", FORM),
    Row("get", LINK_CLAIM_FILE, "/e/{claim_token}/claims/{claim}/files/{claim_file}/thumb", ALL),
    Row("get", LINK_CLAIM_FILE, "/e/{token}/claims/{claim}/files/{claim_file}/thumb", (404,) * 8),
    # ---- a supplier's own pages
    Row("get", "supplier", "/supplier", (302, *(403,) * 7, 200, 200)),
    Row("get", "supplier/sign-in", "/supplier/sign-in", ALL),
    Row("post", "supplier/sign-in", "/supplier/sign-in", (422,) * 8, "username=x&password=y", FORM),
    Row("post", "supplier/sign-out", "/supplier/sign-out", (302,) * 8),
    Row("get", "supplier/invitation/<str:token>", "/supplier/invitation/{invitation}", ALL),
    Row("get", "supplier/invitation/<str:token>", "/supplier/invitation/{receiver}.x-y", (410,) * 8),
    Row("post", "supplier/invitation/<str:token>", "/supplier/invitation/{invitation}", (302,) * 8,
        "new_password1=lantern-quay&new_password2=lantern-quay", FORM),
    Row("get", "supplier/deliveries/<uuid:delivery_id>", "/supplier/deliveries/{claimed}", OF_OWN_DELIVERY),
    # One that no claim was sent on is not theirs to open without a link.
    Row("get", "supplier/deliveries/<uuid:delivery_id>", "/supplier/deliveries/{delivery}", put(404, OF_OWN_DELIVERY)),
    *(Row("get", OWN + part, CLAIMED + asked.format(photo="{claimed_photo}", log="{claimed_log}"), OF_OWN_DELIVERY)
      for part, asked in EVIDENCE.items()),
    Row("get", OWN + EVIDENCE_PHOTO, CLAIMED + "photos/{photo}/original", put(404, OF_OWN_DELIVERY)),
    Row("get", OWN_CLAIM, CLAIMED + "claims/{claim}", OF_OWN_DELIVERY),
    Row("get", OWN_CLAIM, CLAIMED + "claims/{draft}", put(404, OF_OWN_DELIVERY)),
    Row("post", OWN_CLAIM, CLAIMED + "claims/{claim}", (302, *(403,) * 7, 302, 404),
        "kind=agree", FORM),
    Row("get", OWN_CLAIM_FILE, CLAIMED + "claims/{claim}/files/{claim_file}/thumb", OF_OWN_DELIVERY),
    Row("get", "api/suppliers/<uuid:supplier_id>/people", "/api/suppliers/{supplier}/people", MANAGERS),
    Row("post", "api/suppliers/<uuid:supplier_id>/people", "/api/suppliers/{supplier}/people", put(201, GROUP),
        '{"name": "Bo", "email": "bo@creek.example"}'),
    Row("put", "api/suppliers/<uuid:supplier_id>/people/<int:person_id>", "/api/suppliers/{supplier}/people/{ade}",
        GROUP, '{"is_active": false}'),
    # ---- the device protocol
    Row("get", "sync/reference", "/sync/reference", SIGNED_IN),
    Row("get", "sync/documents/<uuid:document_id>", "/sync/documents/{open}", OF_THE_SITE_BY_PHONE),
    Row("put", "sync/documents/<uuid:document_id>", "/sync/documents/{open}", OF_THE_SITE_BY_PHONE, "{open_body}",
        headers=(("If-Match", '"1"'),)),
    Row("put", "sync/documents/<uuid:document_id>", "/sync/documents/{new}", put(201, OF_THE_SITE_BY_PHONE),
        "{new_body}", headers=(("If-None-Match", "*"),)),
    Row("post", "sync/documents/<uuid:document_id>/signature", "/sync/documents/{open}/signature",
        OF_THE_SITE_BY_PHONE, "{final}", headers=(("Idempotency-Key", "a-key-of-the-table"),)),
    Row("put", "sync/deliveries/<uuid:delivery_id>/addenda/<uuid:addendum_id>",
        "/sync/deliveries/{delivery}/addenda/{addendum}", OF_THE_SITE_BY_PHONE, "{addendum_body}"),
    Row("put", "sync/thermometers/<uuid:thermometer_id>/checks/<uuid:check_id>",
        "/sync/thermometers/{probe}/checks/{check}", OF_THE_SITE_BY_PHONE, "{check_body}"),
    Row("post", "sync/handed-in", "/sync/handed-in", (401, 403, 403, 403, 403, 200, 200, 200), "{handed_in_body}"),
    Row("get", "sync/advisories", "/sync/advisories?delivery={delivery}", OF_THE_SITE_BY_PHONE),
    Row("head", "sync/photos/<str:sha256>", "/sync/photos/{photo}", OF_THE_SITE),
    Row("post", "sync/uploads/", "/sync/uploads/", put(201, SIGNED_IN), "", PIECE,
        (*TUS.items(), ("Upload-Length", "9"), ("Upload-Metadata", "sha256 " + "YWFh" * 21 + "YQ=="))),
    Row("head", "sync/uploads/<uuid:upload_id>", "/sync/uploads/{upload}", (401, 404, 404, 200, 404, 404, 404, 404),
        headers=tuple(TUS.items())),
    Row("patch", "sync/uploads/<uuid:upload_id>", "/sync/uploads/{upload}", (401, 404, 404, 204, 404, 404, 404, 404),
        "abc", PIECE, (*TUS.items(), ("Upload-Offset", "0"))),
    Row("delete", "sync/uploads/<uuid:upload_id>", "/sync/uploads/{upload}", (401, 404, 404, 204, 404, 404, 404, 404),
        headers=tuple(TUS.items())),
    # ---- for everybody
    Row("get", "api/openapi.json", "/api/openapi.json", ALL),
    Row("get", "health", "/health", ALL),
    Row("get", "health/live", "/health/live", ALL),
    Row("get", "health/ready", "/health/ready", ALL),
    # By a token of its own, whoever is signed in; without one it is as if it were not there.
    Row("get", "metrics", "/metrics", (404,) * 8),
    Row("get", APP, "/desk", ALL),
]  # fmt: skip


@pytest.fixture
def kitchen(db, apart):  # noqa: F811
    return make_kitchen()


@pytest.fixture
def people(kitchen) -> dict[str, Person]:
    made = {
        name: Person.objects.create(username=name, name=name, role=role, password="!")
        for name, role in (("stranger", Role.RECEIVER), ("hill_receiver", Role.RECEIVER),
                           ("group", Role.GROUP_OPERATIONS), ("administrator", Role.ADMINISTRATOR))
    }
    made["hill_receiver"].sites.add(kitchen.other_site)
    other = Supplier.objects.create(code="OTH", name="Other Prawns")
    for name, supplier in (("supplier", kitchen.supplier), ("other_supplier", other)):
        row, _ = invite(supplier=supplier, name=name, email=f"{name}@b.example", by=made["group"])
        made[name] = row.person
    return {**made, "receiver": kitchen.receiver, "manager": kitchen.manager, "hill_manager": kitchen.stranger}


@pytest.fixture
def things(kitchen, people) -> dict[str, str]:
    """A signed delivery with a photo, a logger file and a link; an open one; a check, an addendum and an upload."""
    phone, content, other = Phone(kitchen.receiver), picture("coral"), picture("teal")
    phone.send_photo(content)
    phone.send_photo(other)
    signed = decide(document(kitchen, photos=[photo_entry(content)]))
    second = decide(document(kitchen, docket="DN-2", photos=[photo_entry(other)]))
    for number, one in enumerate((signed, second)):
        assert phone.sign(one, key=f"key-for-signing-000{number}").status_code == 200
    logs = [_log(phone, one["id"], name) for one, name in ((signed, "a.csv"), (second, "b.csv"))]
    still_open, new = document(kitchen, docket="DN-3"), document(kitchen, docket="DN-4")
    assert phone.put(still_open).status_code == 201
    link, token = make_link(delivery=Delivery.objects.get(pk=signed["id"]), person=kitchen.manager)
    addendum, check_id = put_away(kitchen, signed), str(uuid4())
    probe = Thermometer.objects.create(site=kitchen.site, name="Probe")
    check = {"id": check_id, "thermometer_id": str(probe.pk), "reading": {"entered": "0.2", "unit": "C"},
             "at": timezone.now().isoformat(), "person": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"},
             "device_id": signed["device_id"]}
    device = Device.objects.create(person=kitchen.receiver, site=kitchen.site, label="Dock", last_seen=timezone.now())
    told = {
        **_accounts(kitchen), "supplier": kitchen.supplier.pk, "freezer": kitchen.freezer.pk,
        "site_body": json.dumps({"name": "New one", "site": str(kitchen.site.pk)}),
        "device": device.pk, "device_body": json.dumps({"site": str(kitchen.site.pk), "label": "Dock 2"}),
        "code_body": json.dumps({"code": "x", "device_id": str(device.pk)}),
        "site": kitchen.site.pk, "delivery": signed["id"], "photo": sha256_of(content), "other_photo": sha256_of(other),
        "specification": kitchen.whiteleg.specification_id, "log": logs[0], "other_log": logs[1], "link": link.pk,
        "token": token, "open": still_open["id"], "open_body": json.dumps({**still_open, "notes": "more"}),
        "new": new["id"], "new_body": json.dumps(new), "final": json.dumps({"document": decide(still_open)}),
        "addendum": addendum["id"], "addendum_body": json.dumps(addendum), "probe": probe.pk, "check": check_id,
        "handed_in_body": json.dumps({"kind": "check", "body": check}),
        "check_body": json.dumps(check), "upload": phone.begin(b"abc" * 3)["Location"].rpartition("/")[2],
    }
    told["parked"] = Job.objects.create(
        kind="small_pictures", key="parked", subject={"sha256": sha256_of(content)}, state="parked",
        not_before=timezone.now(), finished_at=timezone.now(), sentence="The photo could not be decoded.").pk
    told |= _claims(kitchen, phone)
    row, told["invitation"] = invite(supplier=kitchen.supplier, name="Ade", email="ade@b.example", by=people["group"])
    told["ade"] = row.person.pk
    browser = {"endpoint": "https://push.example/1", "p256dh": push.public_key(), "auth": "A" * 22}
    told["browser"] = push.subscribe(person=kitchen.manager, device_id=None, **browser).pk
    told["browser_body"] = json.dumps(browser | {"endpoint": "https://push.example/2"})
    return {name: str(value) for name, value in told.items()}


def _claims(kitchen, phone: Phone) -> dict:
    """A delivery of three refused lines: with no claim, a drafted one, and one sent and answered with a file."""
    content = picture("olive")
    phone.send_photo(content)
    draft = document(kitchen, docket="DN-6", bad=True, photos=[photo_entry(content)])
    draft["lines"] += [{**line, "id": str(uuid4()), "cartons": [
        {**carton, "id": str(uuid4())} for carton in line["cartons"]]} for line in draft["lines"] * 2]
    final = decide(draft, kind="reject", reason="Too warm.")
    assert phone.sign(final, key="key-for-claims-0001").status_code == 200
    delivery = Delivery.objects.get(pk=final["id"])
    line, second, third = delivery.lines.all()
    drafted, sent = (draft_claim(line=one, person=kitchen.manager) for one in (second, third))
    send_claim(claim=sent, person=kitchen.manager)
    photo = SimpleUploadedFile("a.jpg", picture("navy"))
    said = Said("note", "supplier", "Ade", files=read_files(delivery, [photo], {}))
    say(claim=Claim.objects.get(pk=sent.pk), said=said)
    mail = Message.objects.create(claim=sent, kind="send", key="k", side="supplier", to="a@b.example",
                                  state="unsure", not_before=timezone.now())
    return {
        "claimed": delivery.pk, "claimed_photo": sha256_of(content), "claimed_log": _log(phone, delivery.pk, "d.csv"),
        "line_body": json.dumps({"line": str(line.pk)}), "draft": drafted.pk, "claim": sent.pk, "mail": mail.pk,
        "items_body": json.dumps({"items": drafted.items}), "claim_file": sha256_of(picture("navy")),
        "entry_body": json.dumps({"id": str(uuid4()), "kind": "note", "text": "Any news?"}),
        "claim_token": make_link(delivery=delivery, person=kitchen.manager)[1],
    }


def _accounts(kitchen) -> dict:
    """Accounts to change, and three to add."""
    told = {"receiver": kitchen.receiver.pk, "manager": kitchen.manager.pk,
            "administrator": Person.objects.get(username="administrator").pk}
    for role in ("receiver", "manager", "administrator"):
        body = {"username": f"new-{role}", "name": "New", "password": "lantern-quay", "sites": [str(kitchen.site.pk)],
                "role": {"manager": "site_manager"}.get(role, role)}
        told[f"{role}_body"] = json.dumps(body)
    return told


def _log(phone: Phone, delivery_id: str, name: str) -> str:
    file = SimpleUploadedFile(name, a_log(heading=f"Date/Time;{name} Temp (°C)"))
    sent = phone.client.post(f"/api/deliveries/{delivery_id}/logger-files", {"file": file, "zone": "UTC"})
    assert sent.status_code in (200, 201), sent.content
    return str(LoggerFile.objects.get(delivery_id=delivery_id).pk)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.method} {row.address}")
def test_everybody_gets_what_is_theirs(people, things, row):
    assert {name: _status(people.get(name), things, row) for name in PEOPLE} == dict(
        zip(PEOPLE, row.all_statuses, strict=True)
    )


class _Undone(Exception):
    """Takes back what one person did before the next one tries."""


def _status(person: Person | None, things: dict[str, str], row: Row) -> int:
    client = Client()
    if person is not None:
        client.force_login(person)
    try:
        with transaction.atomic():
            answer = _ask(client, things, row)
            need_described(row.method, row.address.format(**things), answer)
            raise _Undone
    except _Undone:
        if answer.status_code == 401:
            # A wrong password reads the same to everybody; all else that is 401 asks for signing in.
            expected = "SIGN-IN-WRONG" if (row.method, row.route) == ("post", "api/session") else "SIGN-IN-FIRST"
            assert row.method == "head" or answer.json()["code"] == expected
        return answer.status_code


def _ask(client: Client, things: dict[str, str], row: Row):
    address = row.address.format(**things)
    body = things.get(row.body[1:-1], row.body)
    if row.kind == "multipart":
        told = json.loads(body) if body.startswith("{") else {
            "file": SimpleUploadedFile("c.csv", a_log(heading="Date/Time;C Temp (°C)")), "zone": "UTC"}
        return client.post(address, told)
    return client.generic(row.method.upper(), address, body, content_type=row.kind, headers=dict(row.headers))


def _operators_pages() -> list[str]:
    parts = [part for one in admin.site.get_urls() for part in getattr(one, "url_patterns", [one])]
    # Signing in and out there is for everybody, or nobody could begin.
    named = [part for part in parts if part.name and part.name not in ("login", "logout")]
    keys = [{key: "people" if key == "app_label" else "1" for key in part.pattern.regex.groupindex} for part in named]
    return [reverse(f"admin:{part.name}", kwargs=given) for part, given in zip(named, keys, strict=True)]


@pytest.mark.parametrize("address", _operators_pages())
def test_the_operators_own_pages_open_for_administrators_alone(people, address):
    for name in PEOPLE:
        client = Client()
        if name in people:
            client.force_login(people[name])
        answer = client.get(address)
        is_at_the_door = answer.status_code == 302 and answer["Location"].startswith("/admin/login/")
        assert is_at_the_door == (name != "administrator"), name


def test_every_method_of_every_address_has_a_row():
    walked = {(method, route) for route, pattern in addresses() for method in _methods(pattern)}
    assert walked == {(row.method, row.route) for row in ROWS}


def _methods(pattern: URLPattern) -> list[str]:
    """The methods that a view takes; a plain function is asked by GET, and refuses what it does not take."""
    view = getattr(pattern.callback, "view_class", None) or getattr(pattern.callback, "cls", None)
    if view is None:
        return list(getattr(pattern.callback, "methods", ["get"]))
    named = [name for name in ("get", "head", "post", "put", "patch", "delete") if hasattr(view, name)]
    return [name for name in named if name != "head" or "get" not in named]
