"""Passkeys against an authenticator of our own, made from W3C Web Authentication Level 2, 6.1, 6.5 and 7.

CBOR is that of RFC 8949 by the library ``cbor2``, COSE keys those of RFC 9053 (ES256). A real browser does the same in
``tests/journeys/test_passkey.py``.
"""
import base64
import hashlib
import json
import os
import struct

import cbor2
import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from rest_framework.test import APIClient

from inspections.people.models import Deed, Passkey
from tests.factories import a_person, a_site

PASSWORD = "lantern-quay"
PRESENT, VERIFIED, ATTESTED = 1, 4, 64


def b64(content: bytes) -> str:
    return base64.urlsafe_b64encode(content).rstrip(b"=").decode()


class Authenticator:
    """What a phone holds: one key for one house."""

    def __init__(self, origin: str = "http://testserver", host: str = "testserver", flags: int = PRESENT | VERIFIED):
        self.key, self.id, self.count = ec.generate_private_key(ec.SECP256R1()), os.urandom(32), 0
        self.origin, self.host, self.flags = origin, host, flags

    def made(self, options: dict) -> dict:
        numbers = self.key.public_key().public_numbers()
        cose = {1: 2, 3: -7, -1: 1, -2: numbers.x.to_bytes(32), -3: numbers.y.to_bytes(32)}
        attested = bytes(16) + struct.pack(">H", len(self.id)) + self.id + cbor2.dumps(cose)
        data = self._data(ATTESTED) + attested
        return self._told("webauthn.create", options, {
            "attestationObject": b64(cbor2.dumps({"fmt": "none", "attStmt": {}, "authData": data}))})

    def signed(self, options: dict) -> dict:
        self.count += 1
        data, client = self._data(0), self._client("webauthn.get", options)
        signature = self.key.sign(data + hashlib.sha256(client).digest(), ec.ECDSA(SHA256()))
        return self._told("webauthn.get", options, {"authenticatorData": b64(data), "signature": b64(signature)})

    def _data(self, more: int) -> bytes:
        return hashlib.sha256(self.host.encode()).digest() + bytes([self.flags | more]) + struct.pack(">I", self.count)

    def _client(self, kind: str, options: dict) -> bytes:
        return json.dumps({"type": kind, "challenge": options["challenge"], "origin": self.origin}).encode()

    def _told(self, kind: str, options: dict, answer: dict) -> dict:
        return {"id": b64(self.id), "rawId": b64(self.id), "type": "public-key", "clientExtensionResults": {},
                "response": {"clientDataJSON": b64(self._client(kind, options)), **answer}}


@pytest.fixture
def person(db):
    return a_person("ines", "site_manager", a_site("QUAY"), password=PASSWORD)


@pytest.fixture
def desk(person):
    client = APIClient()
    client.force_login(person, "django.contrib.auth.backends.ModelBackend")
    return client


def options(client: APIClient, password: str = PASSWORD) -> dict:
    answer = client.post("/api/passkeys/options", {"password": password}, format="json")
    assert answer.status_code == 200, answer.content
    return answer.json()["publicKey"]


def add(client: APIClient, phone: Authenticator, label: str = "My phone"):
    return client.post("/api/passkeys", {"credential": phone.made(options(client)), "label": label}, format="json")


def asked(client: APIClient) -> dict:
    return client.post("/api/session/passkey/options").json()["publicKey"]


def enter(client: APIClient, credential: dict):
    return client.post("/api/session/passkey", {"credential": credential}, format="json")


def test_added_listed_used_and_taken_away(desk, person):
    phone, other = Authenticator(), APIClient()
    row = add(desk, phone)
    assert (row.status_code, row.json()["label"], row.json()["last_used_at"]) == (201, "My phone", None)
    assert enter(other, phone.signed(asked(other))).json()["name"] == person.name
    assert other.get("/api/passkeys").json()["rows"][0]["last_used_at"]
    assert desk.delete(f"/api/passkeys/{row.json()['id']}").status_code == 204
    third = APIClient()
    answer = enter(third, phone.signed(asked(third)))
    assert (answer.status_code, answer.json()["code"]) == (401, "PASSKEY-WRONG")
    assert list(Deed.objects.order_by("id").values_list("what", flat=True)) == [
        "signed_in", "passkey_added", "signed_in_by_passkey", "passkey_removed"]


def test_adding_one_takes_the_password(desk):
    answer = desk.post("/api/passkeys/options", {"password": "wrong"}, format="json")
    assert (answer.status_code, answer.json()["code"]) == (422, "SIGN-IN-WRONG")
    late = desk.post("/api/passkeys", {"credential": Authenticator().made({"challenge": "AAAA"}), "label": "x"},
                     format="json")
    assert (late.status_code, late.json()["code"]) == (422, "PASSKEY-LATE")


@pytest.mark.parametrize("phone", [
    Authenticator(origin="http://other.example"), Authenticator(host="other.example"), Authenticator(flags=PRESENT)])
def test_one_made_for_another_page_or_without_its_owner_is_not_kept(desk, phone):
    answer = add(desk, phone)
    assert (answer.status_code, answer.json()["code"]) == (422, "PASSKEY-UNUSABLE")
    assert not Passkey.objects.exists()


def test_the_same_answer_opens_once(desk):
    phone, other = Authenticator(), APIClient()
    add(desk, phone)
    credential = phone.signed(asked(other))
    assert enter(other, credential).status_code == 200
    assert enter(other, credential).json()["code"] == "PASSKEY-LATE"
    stranger = APIClient()
    asked(stranger)
    assert enter(stranger, credential).json()["code"] == "PASSKEY-WRONG"


def test_a_copied_key_whose_count_falls_behind_opens_nothing(desk):
    """W3C Web Authentication Level 2, 7.2, step 21."""
    phone, other = Authenticator(), APIClient()
    add(desk, phone)
    assert enter(other, phone.signed(asked(other))).status_code == 200
    phone.count = 0
    assert enter(other, phone.signed(asked(other))).json()["code"] == "PASSKEY-WRONG"


def test_of_a_closed_account_it_opens_nothing(desk, person):
    phone, other = Authenticator(), APIClient()
    add(desk, phone)
    person.is_active = False
    person.save()
    assert enter(other, phone.signed(asked(other))).json()["code"] == "PASSKEY-WRONG"


def test_anothers_passkey_is_neither_seen_nor_taken_away_nor_taken_over(desk, person):
    phone, other = Authenticator(), APIClient()
    number = add(desk, phone).json()["id"]
    stranger = a_person("tom", "receiver", password=PASSWORD)
    other.force_login(stranger, "django.contrib.auth.backends.ModelBackend")
    assert other.get("/api/passkeys").json() == {"rows": []}
    assert other.delete(f"/api/passkeys/{number}").status_code == 404
    assert add(other, phone).json()["code"] == "PASSKEY-UNUSABLE"
    assert Passkey.objects.get().person == person


def test_a_server_that_is_reached_by_a_number_says_so(desk):
    answer = desk.post("/api/passkeys/options", {"password": PASSWORD}, format="json", HTTP_HOST="127.0.0.1:8000")
    assert (answer.status_code, answer.json()["code"]) == (422, "PASSKEY-ADDRESS")


@pytest.mark.parametrize("credential", [{}, {"id": 7}, {"id": "x", "response": {}}, {"id": None, "rawId": []}])
def test_anything_else_is_refused_in_a_sentence(person, credential):
    client = APIClient()
    asked(client)
    assert enter(client, credential).json()["code"] == "PASSKEY-WRONG"
