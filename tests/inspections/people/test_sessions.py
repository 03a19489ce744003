"""Signed in until so long after the last use; what a phone holds is sent after the next sign-in."""
from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from rest_framework.test import APIClient

from tests.factories import a_person, a_site
from tests.inspections.receiving import Phone, document, make_kitchen

DAY_S = 24 * 3600


def rest(client, days: int) -> None:
    """Let so many days go by without a request."""
    session = client.session
    for name in ("used_at", "signed_in_at"):
        session[name] -= days * DAY_S
    session.save()
    row = Session.objects.get(pk=session.session_key)
    Session.objects.filter(pk=row.pk).update(expire_date=row.expire_date - timedelta(days=days))


def is_signed_in(client) -> bool:
    return client.get("/api/session").json()["person"] is not None


@pytest.fixture
def client_of(db):
    def signed_in(role: str) -> APIClient:
        a_person("ines", role, a_site("QUAY"), password="lantern-quay")
        client = APIClient()
        client.post("/api/session", {"username": "ines", "password": "lantern-quay"}, format="json")
        return client

    return signed_in


@pytest.mark.parametrize(("role", "idle"), [("receiver", 60), ("site_manager", 60), ("group_operations", 14)])
def test_a_session_ends_so_long_after_its_last_use(client_of, role, idle):
    client = client_of(role)
    for _ in range(3):
        # Without moving, it would have ended at the second look.
        rest(client, idle - 1)
        assert is_signed_in(client)
    rest(client, idle + 1)
    assert not is_signed_in(client)


@pytest.mark.parametrize(("role", "most"), [("receiver", 365), ("administrator", 90)])
def test_however_often_it_is_used_a_session_ends(client_of, role, most):
    client = client_of(role)
    for _ in range((most - 1) // 10):
        rest(client, 10)
        assert is_signed_in(client)
    rest(client, 10)
    assert not is_signed_in(client)


def test_the_cookie_moves_with_the_session_but_not_at_every_request(client_of):
    client = client_of("receiver")
    assert "sessionid" not in client.get("/api/session").cookies
    rest(client, 2)
    assert client.get("/api/session").cookies["sessionid"]["max-age"] == 60 * DAY_S


def test_a_phone_that_was_offline_for_a_week_sends_without_asking(db, apart):
    kitchen = make_kitchen()
    phone = Phone(kitchen.receiver)
    rest(phone.client, 7)
    assert phone.put(document(kitchen)).status_code == 201


def test_a_phone_whose_session_ended_signs_in_again_and_sends_the_same(db, apart):
    kitchen = make_kitchen()
    phone, written = Phone(kitchen.receiver), document(kitchen)
    rest(phone.client, 61)
    refused = phone.put(written)
    assert (refused.status_code, refused.json()["code"]) == (401, "SIGN-IN-FIRST")
    assert "safe" in refused.json()["sentence"]
    phone.client.force_login(kitchen.receiver)
    assert phone.put(written).status_code == 201
