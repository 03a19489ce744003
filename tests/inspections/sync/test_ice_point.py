"""A check of a thermometer, sent by a phone: late, twice, by somebody else."""
import json
from datetime import timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from inspections.records.models import IcePointCheck, Thermometer
from tests.inspections.receiving import DEVICE, Phone


@pytest.fixture
def probe(kitchen) -> Thermometer:
    return Thermometer.objects.create(site=kitchen.site, name="Probe 2")


def a_check(probe, entered="0,2", **changes) -> dict:
    at = (timezone.now() - timedelta(minutes=3)).isoformat()
    whole = {"id": str(uuid4()), "thermometer_id": str(probe.pk), "at": at, "device_id": DEVICE,
             "reading": {"entered": entered, "unit": "C"}, "person": {"person_id": 1, "name": "Mia Castel"}}
    return {**whole, **changes}


def send(phone, check, *, probe=None, check_id=None, body=None):
    address = f"/sync/thermometers/{probe or check['thermometer_id']}/checks/{check_id or check['id']}"
    return phone.client.put(address, json.dumps(check) if body is None else body, content_type="application/json")


def test_it_is_filed_and_the_reference_data_tell_it(kitchen, phone, probe):
    check = a_check(probe)
    answer = send(phone, check)
    assert answer.status_code == 200
    told = answer.json()["check"]
    assert (told["id"], told["passed"], told["reading_c"], told["allowed_c"]) == (check["id"], True, 0.2, 1.0)
    (row,) = phone.client.get("/sync/reference").json()["thermometers"]
    assert row["last_check_c"] == 0.2
    assert row["last_checked_on"] == told["day"]
    assert row["check_due_on"] == told["due_on"]
    assert row["last_checked_at"] == told["at"]


def test_reference_data_change_their_tag_with_a_check(phone, probe):
    tag = phone.client.get("/sync/reference")["ETag"]
    send(phone, a_check(probe))
    assert phone.client.get("/sync/reference", headers={"If-None-Match": tag}).status_code == 200


def test_a_repeat_gets_the_same_answer_also_from_the_next_person_on_the_phone(kitchen, phone, other_phone, probe):
    check = a_check(probe)
    first = send(phone, check)
    assert send(phone, check).content == first.content
    assert send(other_phone, check).content == first.content
    assert first.json()["check"]["done_by"] == first.json()["check"]["sent_by"] == "Mia Castel"
    assert IcePointCheck.objects.count() == 1


def test_it_says_who_did_it_when_somebody_else_sends_it(other_phone, probe):
    told = send(other_phone, a_check(probe)).json()["check"]
    assert (told["done_by"], told["sent_by"]) == ("Mia Castel", "Tom Arden")


def test_another_check_under_the_same_number_is_refused(phone, probe):
    check = a_check(probe)
    send(phone, check)
    answer = send(phone, {**check, "reading": {"entered": "0,3", "unit": "C"}})
    assert (answer.status_code, answer.json()["code"]) == (409, "CHECK-OTHER")


def test_a_check_sent_to_the_address_of_another_is_refused(phone, probe):
    other = Thermometer.objects.create(site=probe.site, name="Probe 3")
    assert send(phone, a_check(probe), check_id=uuid4()).json()["code"] == "CHECK-SHAPE"
    assert send(phone, a_check(probe), probe=other.pk).json()["code"] == "CHECK-SHAPE"
    assert send(phone, a_check(probe), probe=uuid4()).status_code == 404
    assert not IcePointCheck.objects.exists()


@pytest.mark.parametrize("body", [b"{", b"[1,2", b"[]", b"7", b"null", b'"x"', b"[" * 20000])
def test_what_is_no_check_is_refused_in_a_sentence(phone, probe, body):
    answer = send(phone, a_check(probe), body=body)
    assert answer.status_code in (400, 422)
    assert answer.json()["sentence"]


@pytest.mark.parametrize("name", ["Mia\x00", "\ud83d"])
def test_a_sign_that_cannot_be_stored_is_refused(phone, probe, name):
    answer = send(phone, a_check(probe, person={"name": name}))
    assert (answer.status_code, answer.json()["code"]) == (422, "CHECK-SHAPE")


def test_another_sites_manager_is_turned_away(kitchen, probe):
    assert send(Phone(kitchen.stranger), a_check(probe)).status_code == 403
    assert not IcePointCheck.objects.exists()
