"""Who gets what, as a table: address x person. A delivery, photo and order of the quay are there.

An address of records or people without a row fails, so a new view cannot be forgotten here.
"""
import pytest
from django.utils import timezone

from inspections.people import urls as people_urls
from inspections.records import urls as records_urls
from inspections.records.acts.photo import use_photos
from inspections.records.models import IcePointCheck, Thermometer
from tests.factories import a_document, a_jpeg, a_line, an_order, photo_entry
from tests.inspections.records.test_api import sign
from tests.inspections.records.test_photos import store

#: Everybody in the order of the columns.
PEOPLE = ("nobody", "stranger", "other_receiver", "receiver", "other_manager", "manager", "group", "administrator")
TABLE = "code;name\nA;One\n"
ORDER = "number;supplier;site;expected_on;specification;cartons\nO-9;REEF;QUAY;2026-11-25;VAN-1620;4\n"
#: Reference data are told to everybody who is signed in; the list of deliveries is 200 and empty for strangers.
SIGNED_IN = (401, 200, 200, 200, 200, 200, 200, 200)
OF_THE_QUAY = (401, 404, 404, 200, 404, 200, 200, 200)
ROWS = [
    ("session", "get", "/api/session", None, (200, 200, 200, 200, 200, 200, 200, 200)),
    ("deliveries", "get", "/api/deliveries", None, SIGNED_IN),
    ("delivery", "get", "/api/deliveries/{delivery}", None, OF_THE_QUAY),
    ("photo", "get", "/api/photos/{photo}/original", None, OF_THE_QUAY),
    ("photo", "get", "/api/photos/{photo}/thumb", None, OF_THE_QUAY),
    ("orders", "get", "/api/orders", None, SIGNED_IN),
    ("limits", "get", "/api/limits", None, SIGNED_IN),
    ("limits", "post", "/api/limits", {"name": "x"}, (401, 403, 403, 403, 403, 403, 422, 422)),
    ("specifications", "get", "/api/specifications", None, SIGNED_IN),
    ("specifications", "post", "/api/specifications", {"code": "X", "name": "X", "data": {"grade": "x"}},
     (401, 403, 403, 403, 403, 403, 422, 422)),
    ("advice-switch", "post", "/api/specifications/{specification}/advice", {"is_on": False},
     (401, 403, 403, 403, 403, 403, 200, 200)),
    ("reference-card", "get", "/api/reference-card.pdf", None, SIGNED_IN),
    ("suppliers", "get", "/api/suppliers", None, SIGNED_IN),
    ("thermometers", "get", "/api/thermometers", None, SIGNED_IN),
    ("imports", "post", "/api/imports/suppliers?dry_run=1", TABLE, (401, 403, 403, 403, 403, 403, 200, 200)),
    ("imports", "post", "/api/imports/specifications?dry_run=1", TABLE, (401, 403, 403, 403, 403, 403, 422, 422)),
    ("imports", "post", "/api/imports/thermometers?dry_run=1", TABLE, (401, 403, 403, 403, 422, 422, 422, 422)),
    # The other manager may import orders, but not for this site: the line is refused, see the next test.
    ("imports", "post", "/api/imports/orders", ORDER, (401, 403, 403, 403, 422, 200, 200, 200)),
]  # fmt: skip
#: What a phone sends about a thermometer of the quay; who may is the same as for all of a site's records.
CHECK_ID, PROBE_ID = "018f0000-0000-7000-8000-0000000000c1", "018f0000-0000-7000-8000-0000000000c2"
FILED = {"id": CHECK_ID, "thermometer_id": PROBE_ID, "reading": {"entered": "0.2", "unit": "C"},
         "person": {"person_id": 1, "name": "Mia"}, "device_id": "018f0000-0000-7000-8000-0000000000d1"}
ROWS_OF_SYNC = [
    ("put", f"/sync/thermometers/{PROBE_ID}/checks/{CHECK_ID}", FILED, (401, 403, 403, 200, 403, 200, 200, 200)),
]
CASES = [
    pytest.param(method, address, body, person, status, id=f"{method} {address} {person}")
    for _, method, address, body, statuses in ROWS
    for person, status in zip(PEOPLE, statuses, strict=True)
]
SYNC_CASES = [
    pytest.param(method, address, body, person, status, id=f"{method} {address} {person}")
    for method, address, body, statuses in ROWS_OF_SYNC
    for person, status in zip(PEOPLE, statuses, strict=True)
]


@pytest.fixture
def things(cast) -> dict:
    photo = store(a_jpeg())
    line = a_line(cast.version)
    an_order(cast.quay, cast.supplier, cast.version, "2026-11-25")
    return {"delivery": sign(cast, lines=[line], photos=[photo_entry(a_jpeg(), line_id=line["id"])]).pk,
            "photo": photo.sha256, "specification": cast.version.specification_id}  # fmt: skip


def ask(client, method: str, address: str, body):
    if isinstance(body, str):
        return client.post(address, body, content_type="text/csv")
    return getattr(client, method)(address, body, format="json") if body else getattr(client, method)(address)


@pytest.mark.parametrize(("method", "address", "body", "person", "status"), CASES)
def test_everybody_gets_what_is_theirs(cast, signed_in, things, method, address, body, person, status):
    answer = ask(signed_in(cast.people.get(person)), method, address.format(**things), body)
    # Without a sign-in DRF may answer 403 where no challenge is known; the code tells which it is.
    if status == 401:
        assert answer.json()["code"] == "SIGN-IN-FIRST"
        assert answer.status_code in (401, 403)
    else:
        assert answer.status_code == status


@pytest.mark.parametrize(("method", "address", "body", "person", "status"), SYNC_CASES)
def test_a_phone_files_checks_of_its_own_sites_only(cast, signed_in, method, address, body, person, status):
    Thermometer.objects.create(id=PROBE_ID, site=cast.quay, name="Probe")
    answer = ask(signed_in(cast.people.get(person)), method, address, {**body, "at": timezone.now().isoformat()})
    if status == 401:
        assert answer.json()["code"] == "SIGN-IN-FIRST"
    else:
        assert answer.status_code == status
    assert IcePointCheck.objects.count() == (1 if status == 200 else 0)


@pytest.mark.parametrize(
    ("person", "count"),
    [("stranger", 0), ("other_receiver", 0), ("receiver", 1), ("other_manager", 0), ("manager", 1), ("group", 1)],
)
@pytest.mark.parametrize("address", ["/api/deliveries", "/api/orders", "/api/thermometers"])
def test_lists_hold_only_rows_of_own_sites(cast, signed_in, things, address, person, count):
    Thermometer.objects.create(site=cast.quay, name="Probe")
    assert len(signed_in(cast.people[person]).get(address).json()["rows"]) == count


@pytest.mark.parametrize("person", ["other_manager", "stranger"])
def test_asking_for_another_site_by_its_id_tells_nothing(cast, signed_in, things, person):
    Thermometer.objects.create(site=cast.quay, name="Probe")
    client = signed_in(cast.people[person])
    for address in ("/api/deliveries", "/api/orders", "/api/thermometers"):
        assert client.get(f"{address}?site={cast.quay.pk}").json()["rows"] == []


def test_a_photo_of_an_open_delivery_is_told_to_its_site_only(cast, signed_in):
    photo = store(a_jpeg())
    document = a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, photos=[photo_entry(a_jpeg())])
    use_photos(document=document)
    address = f"/api/photos/{photo.sha256}/original"
    assert signed_in(cast.receiver).get(address).status_code == 200
    assert signed_in(cast.other_receiver).get(address).status_code == 404


def test_a_photo_that_belongs_nowhere_is_told_to_nobody(cast, signed_in):
    photo = store(a_jpeg())
    assert signed_in(cast.administrator).get(f"/api/photos/{photo.sha256}/original").status_code == 404


def test_every_address_has_a_row():
    named = {pattern.name for pattern in [*people_urls.urlpatterns, *records_urls.urlpatterns]}
    assert named == {name for name, *_ in ROWS}


def test_every_method_of_an_address_has_a_row():
    told = {(name, method) for name, method, *_ in ROWS}
    for pattern in records_urls.urlpatterns:
        view = pattern.callback.view_class
        for method in ("get", "post", "put", "patch", "delete"):
            assert not hasattr(view, method) or (pattern.name, method) in told


def test_a_decided_document_of_another_site_is_not_told_by_guessing_its_id(cast, signed_in, things):
    answer = signed_in(cast.other_manager).get(f"/api/deliveries/{things['delivery']}")
    guessed = signed_in(cast.other_manager).get("/api/deliveries/00000000-0000-7000-8000-0000000000ff")
    assert answer.json() == guessed.json()
