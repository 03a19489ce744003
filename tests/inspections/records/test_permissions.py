"""What lists hold for whom, and what cannot be guessed; who may ask for what is in ``test_rights``."""
import pytest

from inspections.records.models import Thermometer
from inspections.records.services.photo import use_photos
from tests.factories import a_document, a_jpeg, a_line, an_order, photo_entry
from tests.inspections.records.test_api import sign
from tests.inspections.records.test_photos import store


@pytest.fixture
def things(cast) -> dict:
    photo = store(a_jpeg())
    line = a_line(cast.version)
    an_order(cast.quay, cast.supplier, cast.version, "2026-11-25")
    return {"delivery": sign(cast, lines=[line], photos=[photo_entry(a_jpeg(), line_id=line["id"])]).pk,
            "photo": photo.sha256, "specification": cast.version.specification_id}  # fmt: skip


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


def test_a_decided_document_of_another_site_is_not_told_by_guessing_its_id(cast, signed_in, things):
    answer = signed_in(cast.other_manager).get(f"/api/deliveries/{things['delivery']}")
    guessed = signed_in(cast.other_manager).get("/api/deliveries/00000000-0000-7000-8000-0000000000ff")
    assert answer.json() == guessed.json()
