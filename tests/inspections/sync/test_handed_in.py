"""A phone that cannot send any more: what waited on it comes in by its file, as if it had sent it itself."""
import json
from uuid import uuid4

import pytest

from inspections.evidence.models import Seal
from inspections.people.models import Deed, Person, Role
from inspections.records.models import Delivery, Thermometer
from inspections.sync.models import Document, DocumentRevision
from tests.inspections.receiving import Phone, decide, document, photo_entry, picture, put_away
from tests.inspections.sync.test_ice_point import a_check


@pytest.fixture
def desk(kitchen) -> Phone:
    return Phone(kitchen.manager)


def bring(desk, kind, body, **more):
    return desk.client.post("/sync/handed-in", json.dumps({"kind": kind, "body": body, **more}),
                            content_type="application/json")


def final_of(kitchen, **changes) -> dict:
    whole = decide(document(kitchen, **changes))
    return {**whole, "receiver": {"person_id": kitchen.receiver.pk, "name": kitchen.receiver.name}}


def test_a_whole_delivery_comes_in_by_the_person_who_received_it(kitchen, desk):
    content = picture()
    final = final_of(kitchen, photos=[photo_entry(content)])
    desk.send_photo(content)
    assert bring(desk, "document", final, base=0).json() == {"revision": 1}
    signed = bring(desk, "signature", final, key="of-the-phone-1")
    assert signed.status_code == 200, signed.content
    later = put_away(kitchen, final)
    assert bring(desk, "addendum", later).json()["seal"]["number"] == 2
    delivery = Delivery.objects.get()
    assert (str(delivery.pk), delivery.receiver) == (final["id"], kitchen.receiver)
    # no other name than that of the person who signed, but not by the phone
    assert [one["code"] for one in delivery.noticed] == ["BROUGHT-BY-FILE"]
    assert kitchen.manager.name in delivery.noticed[0]["text"]
    first, second = (json.loads(bytes(seal.content)) for seal in Seal.objects.order_by("number"))
    assert (first["document"], first["noticed"]) == (final, delivery.noticed)
    assert second["sent_by"] == kitchen.manager.pk
    assert {row.person for row in DocumentRevision.objects.all()} == {kitchen.receiver}


def test_the_trail_says_who_brought_it(kitchen, desk):
    bring(desk, "document", final_of(kitchen), base=0)
    row = Deed.objects.get(what="phone_file_brought")
    assert (row.person, row.site) == (kitchen.manager, kitchen.site)
    assert "DN-5530" in row.about


def test_brought_twice_and_sent_by_the_phone_after_all_it_is_there_once(kitchen, desk, phone):
    final = final_of(kitchen)
    first = [bring(desk, "document", final, base=0), bring(desk, "signature", final, key="of-the-phone-1")]
    again = [bring(desk, "document", final, base=0), bring(desk, "signature", final, key="of-the-phone-1")]
    assert [one.json() for one in again] == [one.json() for one in first]
    phone.put(final)
    by_phone = phone.client.post(f"/sync/documents/{final['id']}/signature", json.dumps({"document": final}),
                                 content_type="application/json", headers={"Idempotency-Key": "of-the-phone-1"})
    assert by_phone.json() == first[1].json()
    assert Delivery.objects.count() == Seal.objects.count() == Document.objects.count() == 1


def test_a_check_in_ice_keeps_who_did_it(kitchen, desk):
    probe = Thermometer.objects.create(site=kitchen.site, name="Probe 2")
    check = a_check(probe, person={"person_id": kitchen.receiver.pk, "name": kitchen.receiver.name})
    told = bring(desk, "check", check).json()["check"]
    assert (told["done_by"], told["sent_by"]) == (kitchen.receiver.name, kitchen.manager.name)


def test_who_has_left_the_site_is_stood_in_for_by_the_manager(kitchen, desk):
    final = final_of(kitchen)
    Person.objects.filter(pk=kitchen.receiver.pk).update(is_active=False)
    assert bring(desk, "signature", final, key="of-the-phone-1").status_code == 200
    assert DocumentRevision.objects.get().person == kitchen.manager
    assert [one["code"] for one in Delivery.objects.get().noticed]  # the other name is told


def test_without_the_photos_nothing_is_signed(kitchen, desk):
    final = final_of(kitchen, photos=[photo_entry(picture())])
    assert bring(desk, "signature", final, key="of-the-phone-1").json()["code"] == "PHOTOS-MISSING"
    assert not Delivery.objects.exists()


@pytest.mark.parametrize("entry", [{}, {"kind": "photo", "body": {}}, {"kind": "document", "body": []},
                                   {"kind": ["document"], "body": {}}])
def test_what_is_no_entry_gets_a_sentence(desk, entry):
    answer = desk.client.post("/sync/handed-in", json.dumps(entry), content_type="application/json")
    assert (answer.status_code, answer.json()["code"]) == (422, "FILE-ENTRY")


def test_nobody_brings_in_what_is_another_sites(kitchen):
    assert kitchen.stranger.role == Role.SITE_MANAGER
    assert bring(Phone(kitchen.stranger), "document", final_of(kitchen), base=0).status_code == 403
    unknown = {**put_away(kitchen, final_of(kitchen)), "delivery_id": str(uuid4())}
    assert bring(Phone(kitchen.manager), "addendum", unknown).status_code == 404


@pytest.mark.parametrize(("spoken", "status", "code"), [("1", 200, None), ("0", 409, "APP-TOO-OLD"),
                                                        ("2", 409, "SERVER-TOO-OLD"), ("soon", 409, "SERVER-TOO-OLD")])
def test_a_phone_of_another_version_is_told_and_loses_nothing(phone, spoken, status, code):
    answer = phone.client.get("/sync/reference", headers={"X-Underlid-Protocol": spoken})
    assert answer.status_code == status
    if code:
        assert answer.json()["code"] == code
        assert "Nothing is lost" in answer.json()["sentence"]
