"""Signing in and out."""
import pytest
from rest_framework.test import APIClient

from tests.factories import a_person, a_site


@pytest.fixture
def person(db):
    return a_person("ines", "receiver", a_site("QUAY"), password="lantern-quay")


def sign_in(client: APIClient, password: str = "lantern-quay", username: str = "ines", **more):
    return client.post("/api/session", {"username": username, "password": password}, format="json", **more)


def test_nobody_is_told_as_nobody_and_gets_the_token(db):
    client = APIClient()
    answer = client.get("/api/session")
    assert answer.json() == {"person": None}
    assert client.cookies["csrftoken"].value


def test_a_receiver_signs_in_and_sees_their_site(person):
    client = APIClient()
    answer = sign_in(client)
    assert (answer.status_code, answer.json()["role"]) == (200, "receiver")
    assert [site["code"] for site in answer.json()["sites"]] == ["QUAY"]
    assert set(answer.json()["sites"][0]) == {"id", "name", "code", "timezone", "currency", "market"}
    assert client.get("/api/session").json()["person"]["id"] == person.pk


@pytest.mark.parametrize(("username", "password"), [("ines", "wrong"), ("nobody", "lantern-quay")])
def test_a_wrong_name_and_a_wrong_password_read_alike(person, username, password):
    answer = sign_in(APIClient(), password, username)
    assert (answer.status_code, answer.json()["code"]) == (401, "SIGN-IN-WRONG")


def test_a_missing_password_gets_a_sentence(person):
    answer = APIClient().post("/api/session", {"username": "ines"}, format="json")
    assert (answer.status_code, answer.json()["code"]) == (400, "FIELDS")


def test_somebody_who_left_does_not_sign_in(person):
    person.is_active = False
    person.save()
    assert sign_in(APIClient()).status_code == 401


def test_another_page_cannot_sign_somebody_in(person):
    strict = APIClient(enforce_csrf_checks=True)
    answer = sign_in(strict)
    assert (answer.status_code, answer.json()["code"]) == (403, "PAGE-STALE")
    strict.get("/api/session")
    assert sign_in(strict, HTTP_X_CSRFTOKEN=strict.cookies["csrftoken"].value).status_code == 200


def test_signing_out_ends_the_session(person):
    client = APIClient()
    sign_in(client)
    assert client.delete("/api/session").status_code == 204
    assert client.get("/api/session").json() == {"person": None}


def test_ten_wrong_passwords_lock_and_say_so(person, settings):
    client = APIClient()
    answers = [sign_in(client, "wrong") for _ in range(settings.AXES_FAILURE_LIMIT + 1)]
    assert answers[0].status_code == 401
    assert (answers[-1].status_code, answers[-1].json()["code"]) == (429, "SIGN-IN-LOCKED")
    assert sign_in(client).status_code == 429


def test_what_needs_a_person_asks_for_signing_in(db):
    answer = APIClient().get("/api/deliveries")
    assert answer.json()["code"] == "SIGN-IN-FIRST"
    assert answer.status_code in (401, 403)
