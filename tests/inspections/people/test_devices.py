"""Shared devices: enrolled by a code, handed on by PIN, taken out of use; and the trail of who did what."""
from datetime import timedelta

import pytest
from django.db import DatabaseError, connection, transaction
from django.utils import timezone
from rest_framework.test import APIClient

from inspections.people.models import Deed, Device, EnrolmentCode, Person
from inspections.people.pins import set_pin
from tests.personas import Cast, make_cast

DEVICE = "018f0000-0000-7000-8000-0000000000d1"


@pytest.fixture
def cast(db) -> Cast:
    made = make_cast()
    for person, pin in ((made.receiver, "7294"), (made.manager, "58302"), (made.other_receiver, "1739")):
        set_pin(person=person, pin=pin)
    return made


def code_for(manager: Person, site, label: str = "Dock tablet") -> str:
    office = APIClient()
    office.force_login(manager)
    answer = office.post("/api/devices", {"site": str(site.pk), "label": label}, format="json")
    assert answer.status_code == 201, answer.content
    return answer.json()["code"]


@pytest.fixture
def tablet(cast) -> APIClient:
    client = APIClient()
    sent = client.post("/api/device", {"code": code_for(cast.manager, cast.quay), "device_id": DEVICE}, format="json")
    assert sent.status_code == 201
    return client


def take(tablet: APIClient, person: Person, pin: str):
    return tablet.post("/api/device/session", {"person_id": person.pk, "pin": pin}, format="json")


def test_a_code_makes_a_device_shared_and_names_who_may_take_it(cast, tablet):
    told = tablet.get("/api/device").json()
    assert told["device"] == {"id": DEVICE, "label": "Dock tablet", "site": "Kitchen QUAY", "revoked": None}
    assert told["people"] == [{"id": cast.manager.pk, "name": "Manager"}, {"id": cast.receiver.pk, "name": "Receiver"}]
    assert APIClient().get("/api/device").json() == {"device": None, "people": []}


@pytest.mark.parametrize("spoil", ["used", "old", "mistyped", "empty"])
def test_a_code_opens_once_and_for_a_quarter_of_an_hour(cast, spoil):
    code = code_for(cast.manager, cast.quay)
    if spoil == "used":
        APIClient().post("/api/device", {"code": code, "device_id": DEVICE}, format="json")
    elif spoil == "old":
        EnrolmentCode.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    given = {"mistyped": code[::-1], "empty": "-"}.get(spoil, code)
    answer = APIClient().post("/api/device", {"code": given, "device_id": DEVICE}, format="json")
    assert (answer.status_code, answer.json()["code"]) == (422, "CODE-WRONG")


def test_a_code_may_be_typed_small_and_with_letters_that_look_like_digits(cast):
    code = code_for(cast.manager, cast.quay)
    typed = code.lower().replace("0", "o").replace("1", "l").replace("-", " ")
    assert APIClient().post("/api/device", {"code": typed, "device_id": DEVICE}, format="json").status_code == 201


def test_receivers_change_by_pin_and_do_no_more_than_receive(cast, tablet):
    assert take(tablet, cast.receiver, "7294").json()["name"] == "Receiver"
    answer = take(tablet, cast.manager, "58302")
    assert (answer.status_code, answer.json()["role"]) == (200, "receiver")
    assert tablet.get("/api/session").json()["person"]["role"] == "receiver"
    assert tablet.get("/sync/reference").status_code == 200
    assert tablet.get("/api/comparison").status_code == 403
    assert tablet.get("/api/trail").status_code == 403
    cast.manager.refresh_from_db()
    assert cast.manager.role == "site_manager"


def test_a_password_on_the_same_device_gives_the_whole_of_ones_rights_again(cast, tablet):
    cast.manager.set_password("lantern-quay")
    cast.manager.save()
    take(tablet, cast.manager, "58302")
    tablet.post("/api/session", {"username": "manager", "password": "lantern-quay"}, format="json")
    assert tablet.get("/api/comparison").status_code == 200


@pytest.mark.parametrize(
    ("who", "pin"), [("receiver", "7295"), ("other_receiver", "1739"), ("group", ""), ("stranger", "")]
)
def test_a_pin_opens_for_its_owner_at_the_device_s_site_only(cast, tablet, who, pin):
    answer = take(tablet, cast.people[who], pin or "0000")
    assert (answer.status_code, answer.json()["code"]) == (401, "PIN-WRONG")


def test_a_pin_opens_nothing_on_a_device_that_is_not_shared(cast):
    answer = take(APIClient(), cast.receiver, "7294")
    assert (answer.status_code, answer.json()["code"]) == (403, "DEVICE-NOT-SHARED")


def test_pins_are_kept_hashed_and_guessing_them_is_slowed(cast, tablet):
    assert "7294" not in Person.objects.get(pk=cast.receiver.pk).pin
    answers = [take(tablet, cast.receiver, "0001").status_code for _ in range(7)]
    assert answers == [401] * 4 + [429] * 3
    # The others go on working.
    assert take(tablet, cast.manager, "58302").status_code == 200


def test_after_twenty_wrong_in_a_row_a_pin_is_off_until_its_owner_signs_in(cast, tablet):
    Person.objects.filter(pk=cast.receiver.pk).update(wrong_pins=20)
    answer = take(tablet, cast.receiver, "7294")
    assert (answer.status_code, answer.json()["code"]) == (422, "PIN-OFF")
    cast.receiver.refresh_from_db()
    APIClient().force_login(cast.receiver)
    assert take(tablet, cast.receiver, "7294").status_code == 200


@pytest.mark.parametrize("pin", ["123", "123456789", "1111", "2345", "9876", "12a4", "１２８４"])
def test_a_pin_that_everybody_tries_first_is_refused(cast, signed_in, pin):
    cast.receiver.set_password("lantern-quay")
    cast.receiver.save()
    client = signed_in(cast.receiver)
    answer = client.put("/api/pin", {"password": "lantern-quay", "pin": pin}, format="json")
    assert answer.status_code in (400, 422)
    assert client.put("/api/pin", {"password": "wrong", "pin": "7294"}, format="json").json()["code"] == "SIGN-IN-WRONG"
    assert client.put("/api/pin", {"password": "lantern-quay", "pin": "4071"}, format="json").status_code == 204


def test_a_device_out_of_use_sends_nothing_says_so_and_can_come_back(cast, tablet, signed_in):
    take(tablet, cast.receiver, "7294")
    office = signed_in(cast.manager)
    assert office.put(f"/api/devices/{DEVICE}", {"is_revoked": True}, format="json").json()["revoked_by"] == "Manager"
    asked = (("get", "/sync/reference"), ("put", f"/sync/documents/{DEVICE}"), ("post", "/sync/uploads/"))
    for method, address in asked:
        answer = getattr(tablet, method)(address)
        assert (answer.status_code, answer.json()["code"]) == (403, "DEVICE-REVOKED")
    # The app still opens, or nobody could see what the device holds.
    assert [tablet.get(address).status_code in (200, 503) for address in ("/", "/waiting", "/desk")] == [True] * 3
    assert "Everything on it is kept and nothing is lost" in tablet.get("/api/session").json()["revoked"]
    assert "by Manager" in tablet.get("/api/device").json()["device"]["revoked"]
    assert take(tablet, cast.receiver, "7294").json()["code"] == "DEVICE-REVOKED"
    cast.receiver.set_password("lantern-quay")
    cast.receiver.save()
    by_password = tablet.post("/api/session", {"username": "receiver", "password": "lantern-quay"}, format="json")
    assert by_password.json()["code"] == "DEVICE-REVOKED"
    office.put(f"/api/devices/{DEVICE}", {"is_revoked": False}, format="json")
    assert take(tablet, cast.receiver, "7294").status_code == 200
    assert tablet.get("/sync/reference").status_code == 200


def test_a_lost_phone_of_somebody_s_own_is_taken_out_of_use_too(cast, signed_in):
    cast.receiver.set_password("lantern-quay")
    cast.receiver.save()
    phone = APIClient()
    body = {"username": "receiver", "password": "lantern-quay", "device_id": DEVICE, "device_label": "phone"}
    assert phone.post("/api/session", body, format="json").status_code == 200
    office = signed_in(cast.manager)
    assert [row["label"] for row in office.get("/api/devices").json()["rows"]] == ["phone"]
    office.put(f"/api/devices/{DEVICE}", {"is_revoked": True}, format="json")
    assert phone.get("/sync/reference").json()["code"] == "DEVICE-REVOKED"


def test_managers_see_and_switch_devices_of_their_own_site_only(cast, tablet, signed_in):
    far = signed_in(cast.other_manager)
    assert far.get("/api/devices").json()["rows"] == []
    assert far.put(f"/api/devices/{DEVICE}", {"is_revoked": True}, format="json").status_code == 404
    assert Device.objects.get().revoked_at is None
    assert len(signed_in(cast.group).get("/api/devices").json()["rows"]) == 1
    refused = far.post("/api/devices", {"site": str(cast.quay.pk), "label": "x"}, format="json")
    assert refused.json()["code"] == "NOT-YOURS"


# ---- the trail
def test_what_was_done_is_told_to_those_who_answer_for_the_site(cast, tablet, signed_in):
    take(tablet, cast.receiver, "7294")
    rows = signed_in(cast.manager).get("/api/trail").json()["rows"]
    told = [(row["words"], row["about"], row["person"], row["device"]) for row in rows]
    assert ("Signed in by PIN", "Receiver", "Receiver", "") in told
    assert ("Shared a device", "Dock tablet", "Manager", "") in told
    assert ("Made a code to share a device", "Dock tablet", "Manager", "") in told
    elsewhere = signed_in(cast.other_manager).get("/api/trail").json()["rows"]
    assert not any(row["about"] == "Dock tablet" for row in elsewhere)


def test_looking_twice_is_one_look(cast, signed_in):
    from tests.inspections.records.test_api import sign

    delivery, office = sign(cast), signed_in(cast.manager)
    for _ in range(3):
        office.get(f"/api/deliveries/{delivery.pk}")
    assert Deed.objects.filter(what="delivery_seen").count() == 1
    assert Deed.objects.get(what="delivery_seen").person == cast.manager


def test_the_trail_is_only_added_to(cast, tablet):
    deed = Deed.objects.first()
    for alter in (deed.save, deed.delete, Deed.objects.all().delete, lambda: Deed.objects.update(about="x")):
        with pytest.raises(TypeError):
            alter()
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE people_deed SET about = 'x'")
