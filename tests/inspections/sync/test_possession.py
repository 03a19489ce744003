"""A photo's hash is told in bundles and on pages: knowing it opens nothing, only its bytes do."""
from uuid import uuid4

import pytest

from inspections.people.models import Person, Role
from inspections.records.models import Delivery, Photo, PhotoReceipt, PhotoUse
from inspections.records.services.advisory import record_advisory
from tests.inspections.receiving import Phone, advice_context, decide, document, photo_entry, picture, sha256_of

PHOTO = picture("teal", size=(320, 240))
HASH = sha256_of(PHOTO)
ADVICE = {"answer": "none_seen", "share": 0.01, "share_low": 0.0, "share_high": 0.03, "where": [], "reasons": [],
          "card_used": False, "method_version": "1", "baseline_version": "1"}


@pytest.fixture
def stranger(kitchen) -> Phone:
    """Somebody of the hill kitchen who knows the hash."""
    return Phone(kitchen.stranger)


@pytest.fixture
def group(kitchen) -> Phone:
    """Somebody who sees every site and belongs to none."""
    return Phone(Person.objects.create(username="gro", password="!", name="Gro Ops", role=Role.GROUP_OPERATIONS))


def at_the_hill(kitchen) -> dict:
    other = document(kitchen, docket="H-1", device=str(uuid4()), photos=[photo_entry(PHOTO, purpose="top")])
    return {**other, "site_id": str(kitchen.other_site.pk), "order_id": None}


def opens(somebody: Phone) -> bool:
    return somebody.client.get(f"/api/photos/{HASH}/original").status_code == 200


def is_told(somebody: Phone) -> bool:
    return somebody.client.head(f"/sync/photos/{HASH}").status_code == 200


def test_naming_another_sites_photo_opens_nothing(kitchen, phone, stranger):
    phone.put(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.send_photo(PHOTO)
    claim = at_the_hill(kitchen)
    assert stranger.put(claim).status_code == 201
    answer = stranger.sign(decide(claim))
    assert (answer.status_code, answer.json()["code"]) == (409, "PHOTOS-MISSING")
    assert answer.json()["facts"]["missing"] == [HASH]
    assert not opens(stranger)
    assert opens(phone)
    assert not Delivery.objects.exists()


def test_a_claim_made_before_the_photo_comes_opens_nothing_either(kitchen, phone, stranger):
    assert stranger.put(at_the_hill(kitchen)).status_code == 201
    phone.put(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.send_photo(PHOTO)
    assert not opens(stranger)
    assert PhotoUse.objects.get().site == kitchen.site


def test_somebody_who_sees_all_sites_serves_no_claim_by_sending_the_photo(kitchen, stranger, group):
    assert stranger.put(at_the_hill(kitchen)).status_code == 201
    group.put(document(kitchen, photos=[photo_entry(PHOTO)]))
    group.send_photo(PHOTO)
    assert not opens(stranger)
    assert list(PhotoReceipt.objects.values_list("site", flat=True)) == [kitchen.site.pk]


def test_whether_another_site_has_a_photo_is_not_told(kitchen, phone, other_phone, stranger):
    phone.send_photo(PHOTO)
    assert is_told(phone)
    assert is_told(other_phone)
    assert not is_told(stranger)
    begun = stranger.begin(PHOTO)
    assert (begun.status_code, begun["Upload-Offset"]) == (201, "0")
    assert stranger.ask(begun["Location"])["Upload-Offset"] == "0"


def test_what_the_server_has_from_another_site_is_used_once_the_bytes_are_sent(kitchen, phone, stranger):
    phone.send_photo(PHOTO)
    final = decide(at_the_hill(kitchen))
    assert stranger.put(final).status_code == 201
    at = stranger.begin(PHOTO)["Location"]
    wrong = b"x" * len(PHOTO)
    assert stranger.piece(at, wrong, 0).status_code == 460
    assert not is_told(stranger)
    at = stranger.begin(PHOTO)["Location"]
    assert stranger.piece(at, PHOTO, 0)["Upload-Offset"] == str(len(PHOTO))
    assert is_told(stranger)
    assert opens(stranger)
    assert stranger.sign(final).status_code == 200
    assert Photo.objects.count() == 1


def test_a_document_sent_before_its_photos_is_kept_and_told_when_they_come(kitchen, phone):
    draft = document(kitchen, photos=[photo_entry(PHOTO)])
    assert phone.put(draft).status_code == 201
    assert not PhotoUse.objects.exists()
    phone.send_photo(PHOTO)
    assert str(PhotoUse.objects.get().delivery_id) == draft["id"]


def test_a_phone_handed_on_within_a_site_sends_for_whoever_wrote(kitchen, phone, other_phone):
    final = decide(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.put(final)
    other_phone.send_photo(PHOTO)
    assert phone.sign(final).status_code == 200


def test_a_phone_handed_to_somebody_of_the_group_signs_too(kitchen, phone, group):
    """The sender belongs to no site: what they sent is theirs to use in what they sign."""
    final = decide(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.put(final)
    group.send_photo(PHOTO)
    assert not PhotoUse.objects.exists()
    assert group.sign(final).status_code == 200
    assert PhotoReceipt.objects.get().site == kitchen.site


def test_a_photo_sent_before_its_document_is_used_by_it(kitchen, phone, other_phone):
    phone.send_photo(PHOTO)
    other_phone.put(document(kitchen, photos=[photo_entry(PHOTO)]))
    assert PhotoUse.objects.exists()


def test_somebody_of_two_sites_uses_a_photo_at_both(kitchen, phone):
    phone.send_photo(PHOTO)
    kitchen.receiver.sites.add(kitchen.other_site)
    assert phone.sign(decide(at_the_hill(kitchen))).status_code == 200


def test_advice_on_another_sites_photo_is_not_told(kitchen, phone, stranger):
    own = document(kitchen, photos=[photo_entry(PHOTO, purpose="top")])
    phone.put(own)
    phone.send_photo(PHOTO)
    record_advisory(photo=Photo.objects.get(), context=advice_context(own, own["photos"][0]), advice=ADVICE)
    claim = at_the_hill(kitchen)
    stranger.put(claim)
    told = {who: who.client.get(f"/sync/advisories?delivery={draft['id']}").json()["photos"][HASH]
            for who, draft in ((phone, own), (stranger, claim))}
    assert told[phone]["answer"] == "none_seen"
    assert told[stranger] is None


def test_a_given_up_upload_takes_no_photo_from_its_site(kitchen, phone):
    phone.put(document(kitchen, photos=[photo_entry(PHOTO)]))
    at = phone.begin(PHOTO)["Location"]
    phone.piece(at, PHOTO, 0)
    assert phone.client.delete(at, headers={"Tus-Resumable": "1.0.0"}).status_code == 204
    assert opens(phone)
