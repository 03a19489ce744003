"""Ids are made on devices, so any of them may be somebody else's: no row of another delivery is touched by one."""
import copy
from uuid import uuid4

import pytest

from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal
from inspections.evidence.seals import seals_of
from inspections.people.models import Device
from inspections.records.models import Carton, Delivery, DocketLine, PhotoUse
from inspections.sync.models import Document
from tests.inspections.receiving import DEVICE, Phone, decide, document, photo_entry, picture, put_away

PHOTO = picture("teal")


@pytest.fixture
def stranger(kitchen) -> Phone:
    """Somebody of the hill kitchen."""
    return Phone(kitchen.stranger)


@pytest.fixture
def sealed(kitchen, phone) -> dict:
    """A sealed delivery of the harbour kitchen with one photo."""
    draft = document(kitchen)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(PHOTO, line_id=line["id"], carton_id=line["cartons"][0]["id"], purpose="top")]
    final = decide(draft)
    phone.send_photo(PHOTO)
    assert phone.sign(final).status_code == 200
    return final


def at_the_hill(kitchen, **changes) -> dict:
    """A new delivery of the other kitchen."""
    other = document(kitchen, docket="H-1", device=str(uuid4()))
    return {**other, "site_id": str(kitchen.other_site.pk), "order_id": None, **changes}


def rows() -> list:
    return [*DocketLine.objects.values(), *Carton.objects.values(), *PhotoUse.objects.values()]


def with_id_of(sealed: dict, draft: dict, kind: str) -> dict:
    """The draft, carrying one id of the sealed delivery."""
    lines, own = draft["lines"], sealed["lines"][0]
    match kind:
        case "line":
            lines[0]["id"] = own["id"]
        case "carton":
            lines[0]["cartons"][0]["id"] = own["cartons"][0]["id"]
        case "photo":
            draft["photos"] = [{**photo_entry(PHOTO), "id": sealed["photos"][0]["id"]}]
    return draft


KINDS = ["line", "carton", "photo"]


@pytest.mark.parametrize("kind", KINDS)
def test_an_id_of_a_sealed_delivery_is_refused_to_another_site(kitchen, stranger, sealed, kind):
    before = rows()
    draft = with_id_of(sealed, at_the_hill(kitchen), kind)
    stranger.send_photo(PHOTO)
    for answer in (stranger.put(draft), stranger.sign(decide(draft))):
        assert answer.status_code == 409
        assert answer.json()["code"] == "IDS-TAKEN"
        assert "Nothing was changed there" in answer.json()["sentence"]
    assert rows() == before
    assert not Document.objects.filter(pk=draft["id"]).exists()
    assert verify_chain(kitchen.site) == []


@pytest.mark.parametrize("kind", KINDS)
def test_an_id_of_a_sealed_delivery_is_refused_to_its_own_site_too(kitchen, phone, sealed, kind):
    before = rows()
    draft = with_id_of(sealed, document(kitchen, docket="DN-2"), kind)
    assert phone.put(draft).json()["code"] == "IDS-TAKEN"
    assert phone.sign(decide(draft), "another-key-01").json()["code"] == "IDS-TAKEN"
    assert rows() == before


def test_a_photo_of_an_open_delivery_is_not_taken_over_either(kitchen, phone, stranger):
    entry = photo_entry(PHOTO)
    mine = document(kitchen, photos=[entry])
    phone.put(mine)
    phone.send_photo(PHOTO)
    stranger.send_photo(PHOTO)
    assert stranger.put(at_the_hill(kitchen, photos=[entry])).json()["code"] == "IDS-TAKEN"
    assert str(PhotoUse.objects.get().delivery_id) == mine["id"]


def test_a_photo_that_comes_after_somebody_took_its_id_takes_nothing(kitchen, phone, stranger):
    """Both documents come before the photo: whose row is first keeps it, and the other's upload still ends well."""
    entry = photo_entry(PHOTO)
    assert phone.put(document(kitchen, photos=[entry])).status_code == 201
    assert stranger.put(at_the_hill(kitchen, photos=[entry])).status_code == 201
    phone.send_photo(PHOTO)
    first = PhotoUse.objects.get()
    stranger.send_photo(PHOTO)
    assert PhotoUse.objects.get().delivery_id == first.delivery_id


@pytest.mark.parametrize("kind", ["lines", "cartons", "photos"])
@pytest.mark.parametrize(("spelled", "code"), [(str, "IDS-TWICE"), (str.upper, "DOC-SHAPE")])
def test_an_id_that_stands_twice_in_one_delivery_is_refused(kitchen, phone, kind, spelled, code):
    """In capitals it is refused at the door: an id has one spelling, so that texts can be compared."""
    draft = document(kitchen, photos=[photo_entry(PHOTO), photo_entry(PHOTO)])
    entries = {"lines": draft["lines"], "cartons": draft["lines"][0]["cartons"], "photos": draft["photos"]}[kind]
    entries += [copy.deepcopy(entries[0])] if kind == "lines" else []
    entries[1]["id"] = spelled(entries[0]["id"])
    phone.send_photo(PHOTO)
    for answer in (phone.put(draft), phone.sign(decide(draft))):
        assert answer.status_code == 422
        assert answer.json()["code"] == code
    assert not Delivery.objects.exists()


def test_a_photo_shows_no_line_or_carton_of_another_delivery(kitchen, stranger, sealed):
    """Comparison counts advice by the carton of a photo's use, so such a use would be counted at the other site."""
    line = sealed["lines"][0]
    entry = photo_entry(PHOTO, line_id=line["id"], carton_id=line["cartons"][0]["id"])
    draft = at_the_hill(kitchen, photos=[entry])
    stranger.send_photo(PHOTO)
    assert stranger.put(draft).status_code == 201
    use = PhotoUse.objects.get(delivery_id=draft["id"])
    assert (use.line_id, use.carton_id) == (None, None)


def test_a_photo_that_the_document_no_longer_names_is_no_longer_its_own(kitchen, phone):
    draft = document(kitchen, photos=[photo_entry(PHOTO)])
    phone.put(draft)
    phone.send_photo(PHOTO)
    assert phone.put({**draft, "photos": []}, base=1).status_code == 200
    assert not PhotoUse.objects.exists()


def test_an_addendum_with_the_id_of_a_delivery_gets_in_nobodys_way(kitchen, phone, stranger, sealed):
    theirs = decide(at_the_hill(kitchen))
    assert stranger.sign(theirs).status_code == 200
    added = {**put_away(kitchen, theirs), "id": sealed["id"]}
    assert stranger.add(added).status_code == 200
    assert phone.add(put_away(kitchen, sealed)).status_code == 200
    assert phone.sign(sealed).status_code == 200
    told = seals_of(Delivery.objects.get(pk=sealed["id"]))
    assert [(seal.site, seal.kind) for seal in told] == [(kitchen.site, "delivery"), (kitchen.site, "addendum")]
    assert verify_chain(kitchen.site) == verify_chain(kitchen.other_site) == []


def test_an_addendum_of_another_delivery_is_not_altered(kitchen, phone, stranger, sealed):
    added = put_away(kitchen, sealed)
    assert phone.add(added).status_code == 200
    theirs = decide(at_the_hill(kitchen))
    stranger.sign(theirs)
    answer = stranger.add({**put_away(kitchen, theirs), "id": added["id"]})
    assert (answer.status_code, answer.json()["code"]) == (409, "ADDENDUM-OTHER")
    assert Seal.objects.filter(kind="addendum").count() == 1


def test_a_sealed_delivery_without_its_document_takes_no_open_one(kitchen, phone, stranger, sealed):
    Document.objects.get().revisions.all().delete()
    Document.objects.get().named_photos.all().delete()
    Document.objects.all().delete()
    for somebody, site in ((phone, kitchen.site), (stranger, kitchen.other_site)):
        draft = {**sealed, "site_id": str(site.pk), "order_id": None, "notes": "taken over"}
        assert somebody.put(draft).json()["code"] == "DOC-SIGNED"
    assert PhotoUse.objects.get().site == kitchen.site


def test_a_device_stays_with_its_site(kitchen, phone, other_phone, stranger):
    phone.put(document(kitchen), **{"X-Underlid-Device": "dock phone"})
    stranger.put({**at_the_hill(kitchen), "device_id": DEVICE}, **{"X-Underlid-Device": "mine now"})
    device = Device.objects.get(pk=DEVICE)
    assert (device.person, device.label) == (kitchen.receiver, "dock phone")
    other_phone.put(document(kitchen, docket="DN-3"))
    assert Device.objects.get(pk=DEVICE).person == kitchen.other_receiver
