"""Notifications: encrypted for one browser, signed by this house, sent at most once, ended when the browser is gone.

A push service of our own, on this machine, takes what is sent. What it got is opened by RFC 8291, 3.4 and RFC 8188, 2
written out here with the primitives alone, so that not the library which closed it says that it opens. That this opens
rightly is held on the worked example of RFC 8291, appendix A. The signature is read by RFC 8292 and RFC 7515.
"""
import base64
import json
import stat
import threading
from datetime import timedelta
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from urllib.error import URLError

import http_ece
import pytest
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from django.test import Client
from django.utils import timezone

from inspections.claims import messages, push
from inspections.claims.delivering import NotTaken
from inspections.claims.messages import remind, send_again, send_due
from inspections.claims.models import Claim, Message, PushSubscription
from inspections.claims.services import Said, draft_claim, say
from inspections.errors import Forbidden, Unprocessable
from inspections.people.models import Device, Person, Role

State = Message.State


def read(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def written(content: bytes) -> str:
    return base64.urlsafe_b64encode(content).rstrip(b"=").decode()


def point(key: ec.EllipticCurvePublicKey) -> bytes:
    return key.public_bytes(Encoding.X962, PublicFormat.UncompressedPoint)


def stretched(salt: bytes, secret: bytes, info: bytes, length: int) -> bytes:
    return HKDF(hashes.SHA256(), length, salt, info).derive(secret)


def opened(body: bytes, private: ec.EllipticCurvePrivateKey, auth: bytes) -> bytes:
    """RFC 8188, 2.1 (head) and RFC 8291, 3.4 (keys); one record, padded by RFC 8188, 2."""
    salt, size, id_length = body[:16], int.from_bytes(body[16:20], "big"), body[20]
    sender, sealed = body[21:21 + id_length], body[21 + id_length:]
    assert len(sealed) <= size
    shared = private.exchange(ec.ECDH(), ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), sender))
    key = stretched(auth, shared, b"WebPush: info\0" + point(private.public_key()) + sender, 32)
    content_key = stretched(salt, key, b"Content-Encoding: aes128gcm\0", 16)
    nonce = stretched(salt, key, b"Content-Encoding: nonce\0", 12)
    plain = AESGCM(content_key).decrypt(nonce, sealed, None).rstrip(b"\0")
    assert plain.endswith(b"\2")
    return plain[:-1]


#: RFC 8291, 5 and appendix A.
RFC = {
    "plain": b"When I grow up, I want to be a watermelon",
    "auth": "BTBZMqHH6r4Tts7J_aSIgg",
    "browser": "q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94",
    "sender": "yfWPiYE-n46HLnH0KqZOF1fJJU3MYrct3AELtAQ-oRw",
    "salt": "DGv6ra1nlYgDCS1FRnbzlw",
    "body": "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLoc"
            "InmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN",
}  # fmt: skip


def private_of(text: str) -> ec.EllipticCurvePrivateKey:
    return ec.derive_private_key(int.from_bytes(read(text), "big"), ec.SECP256R1())


def test_the_worked_example_of_rfc_8291_opens_here_and_is_closed_to_the_same_bytes():
    browser = private_of(RFC["browser"])
    assert opened(read(RFC["body"]), browser, read(RFC["auth"])) == RFC["plain"]
    closed = http_ece.encrypt(RFC["plain"], salt=read(RFC["salt"]), private_key=private_of(RFC["sender"]),
                              dh=point(browser.public_key()), auth_secret=read(RFC["auth"]), version="aes128gcm")
    assert written(closed) == RFC["body"]


class Service:
    """A push service on this machine, and what came; ``answer`` is what it says to the next ones."""

    def __init__(self):
        self.came: list[tuple[dict, bytes]] = []
        self.answer = 201
        service = self

        class Handler(BaseHTTPRequestHandler):
            def do_POST(self):
                body = self.rfile.read(int(self.headers["Content-Length"]))
                service.came.append((dict(self.headers), body))
                if service.answer:
                    self.send_response(service.answer)
                    self.send_header("Location", "http://127.0.0.1:9/elsewhere")
                    self.end_headers()

            def log_message(self, *told):
                pass

        self.server = HTTPServer(("127.0.0.1", 0), Handler)
        self.origin = f"http://127.0.0.1:{self.server.server_port}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()


@pytest.fixture
def service(monkeypatch):
    made = Service()
    monkeypatch.setattr(push, "need_public", lambda endpoint: None)  # it is on this machine
    yield made
    made.server.shutdown()
    made.server.server_close()


class Browser:
    def __init__(self, service: Service, person: Person, **more):
        self.private, self.auth = ec.generate_private_key(ec.SECP256R1()), b"sixteen secret b"
        self.row = PushSubscription.objects.create(
            endpoint=f"{service.origin}/{person.pk}", endpoint_sha256=f"{person.pk:064}", person=person,
            p256dh=written(point(self.private.public_key())), auth=written(self.auth), **more)


@pytest.fixture
def ines(service, kitchen) -> Browser:
    """The site manager's browser."""
    return Browser(service, kitchen.manager)


def answered(claim, kind="ask", **more):
    return say(claim=claim, said=Said(kind, "supplier", "Ade Winter", text="Which truck?", **more))


def test_an_answer_is_told_to_the_managers_browser_and_only_that_can_open_it(claim, service, ines):
    """No mail server is needed for it."""
    answered(claim, "offer", amount="1450")
    assert send_due() == 1
    (headers, body), = service.came
    assert (headers["Content-Encoding"], headers["Ttl"], headers["Urgency"]) == ("aes128gcm", "86400", "normal")
    assert json.loads(opened(body, ines.private, ines.auth)) == {
        "title": "Claim HAR-C1: AUD 1,450.00 offered", "address": f"/desk/claims/{claim.pk}",
        "text": f"{claim.delivery.supplier.name}, docket {claim.delivery.docket_number}"}
    assert len(body) <= 4096  # RFC 8030, 7.2: a service must take so much
    assert Message.objects.get(state=State.SENT).to == str(ines.row)


def test_it_is_signed_by_this_house_for_that_service_alone(claim, service, ines):
    answered(claim)
    send_due()
    scheme, _, told = service.came[0][0]["Authorization"].partition(" ")
    parts = dict(part.strip().split("=", 1) for part in told.split(","))
    assert (scheme, parts["k"]) == ("vapid", push.public_key())
    signed, _, signature = parts["t"].rpartition(".")
    head, claims = (json.loads(read(part)) for part in signed.split("."))
    assert head["alg"] == "ES256"
    assert claims["aud"] == service.origin
    assert claims["sub"].startswith(("mailto:", "https:"))
    assert timezone.now().timestamp() < claims["exp"] <= timezone.now().timestamp() + 24 * 3600
    r, s = (int.from_bytes(read(signature)[at:at + 32], "big") for at in (0, 32))
    key = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), read(parts["k"]))
    key.verify(encode_dss_signature(r, s), signed.encode(), ec.ECDSA(hashes.SHA256()))


def test_the_key_is_made_once_and_read_by_its_owner_alone(settings):
    assert push.public_key() == push.public_key()
    path = Path(settings.KEY_ROOT) / push.KEY_FILE
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert len(read(push.public_key())) == 65


@pytest.mark.parametrize("status", [404, 410])
def test_a_browser_that_is_gone_is_not_written_to_again(claim, service, ines, status):
    service.answer = status
    answered(claim)
    assert send_due() == 0
    told = Message.objects.get(subscription=ines.row)
    assert told.state == State.FAILED
    assert "no longer takes notifications" in told.sentence
    assert PushSubscription.objects.get().revoked_at is not None
    answered(claim)
    assert Message.objects.filter(subscription=ines.row).count() == 1
    send_again(message=told)
    service.answer = 201
    assert send_due() == 0
    assert len(service.came) == 1


@pytest.mark.parametrize("status", [302, 413, 429, 503])
def test_what_the_service_refuses_is_tried_again_and_led_nowhere_else(claim, service, ines, status):
    service.answer = status
    answered(claim)
    assert send_due() == 0
    assert Message.objects.get(subscription=ines.row).state == State.WAITING
    assert send_due() == 0
    assert len(service.came) == 1, "not before its time"
    service.answer = 201
    Message.objects.update(not_before=timezone.now())
    assert send_due() == 1


def test_a_service_out_of_reach_is_tried_again(claim, service, ines):
    service.server.shutdown()
    service.server.server_close()
    answered(claim)
    assert send_due() == 0
    assert Message.objects.get(subscription=ines.row).state == State.WAITING


def test_broken_off_after_it_was_sent_it_may_have_gone_and_is_not_sent_twice(claim, service, ines):
    service.answer = 0
    answered(claim)
    assert send_due() == 0
    assert Message.objects.get(subscription=ines.row).state == State.UNSURE
    assert send_due() == 0
    assert len(service.came) == 1


def test_killed_while_it_was_sent_it_is_not_sent_twice(claim, service, ines, monkeypatch):
    class Killed(BaseException):
        pass

    real = push.push
    monkeypatch.setattr(messages.push, "push", lambda *told: (real(*told), (_ for _ in ()).throw(Killed())))
    answered(claim)
    with pytest.raises(Killed):
        send_due()
    monkeypatch.undo()
    monkeypatch.setattr(push, "need_public", lambda endpoint: None)
    Message.objects.update(taken_at=timezone.now() - timedelta(hours=1))
    assert send_due() == 0
    assert Message.objects.get(subscription=ines.row).state == State.UNSURE
    assert len(service.came) == 1


def test_a_deadline_that_is_near_is_told_once(kitchen, refused, service, ines):
    drafted = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    Claim.objects.update(notice_until=timezone.now() + timedelta(hours=5))
    assert send_due() == 1
    assert (remind(), send_due()) == (0, 0)
    told = json.loads(opened(service.came[0][1], ines.private, ines.auth))
    assert told["title"].startswith(f"Claim {drafted.number} has not been sent: the notice period ends ")


def test_only_those_who_answer_for_the_site_are_told(claim, kitchen, service):
    """Also not those who were signed out, whose device is out of use or whose account has ended."""
    def person(name: str, role: str, **more) -> Person:
        return Person.objects.create(username=name, name=name, role=role, **more)

    lost = Device.objects.create(person=kitchen.manager, last_seen=timezone.now(), revoked_at=timezone.now())
    for one, more in (
        (kitchen.manager, {}), (person("gil", Role.GROUP_OPERATIONS), {}),
        (kitchen.stranger, {}), (kitchen.receiver, {}), (person("left", Role.GROUP_OPERATIONS, is_active=False), {}),
        (person("lost", Role.GROUP_OPERATIONS), {"device": lost}),
        (person("out", Role.GROUP_OPERATIONS), {"revoked_at": timezone.now()}),
    ):
        Browser(service, one, **more)
    answered(claim)
    told = Message.objects.exclude(subscription=None)
    assert {one.subscription.person.username for one in told} == {kitchen.manager.username, "gil"}


def test_what_the_kitchen_itself_says_is_told_to_no_browser_of_its_own(claim, kitchen, ines):
    say(claim=claim, said=Said("note", "kitchen", "Ines", kitchen.manager, text="Any news?"))
    assert not Message.objects.exclude(subscription=None).exists()


GOOD = {"endpoint": "https://push.example/1", "auth": written(b"sixteen secret b")}


@pytest.mark.parametrize("endpoint", ["http://push.example/1", "https:///1", "file:///etc/passwd", "https://[x", "",
                                      "https://push.example:99999/"])
def test_an_address_that_is_none_of_a_push_service_is_refused(kitchen, endpoint):
    with pytest.raises(Unprocessable) as said:
        push.subscribe(person=kitchen.manager, device_id=None, **GOOD | {"endpoint": endpoint},
                       p256dh=push.public_key())
    assert said.value.code == "PUSH-ADDRESS"


@pytest.mark.parametrize(("p256dh", "auth"), [("", GOOD["auth"]), ("AAAA", GOOD["auth"]), (None, "AAAA"), ("é", "é")])
def test_a_key_that_nothing_can_be_encrypted_with_is_refused(kitchen, p256dh, auth):
    key = push.public_key() if p256dh is None else p256dh
    with pytest.raises(Unprocessable) as said:
        push.subscribe(person=kitchen.manager, device_id=None, endpoint=GOOD["endpoint"], p256dh=key, auth=auth)
    assert said.value.code == "PUSH-KEY"


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "10.1.2.3", "192.168.0.9", "169.254.169.254", "[::1]"])
def test_the_server_does_not_ask_its_own_network(host):
    with pytest.raises(NotTaken):
        push.need_public(f"https://{host}/x")


def test_a_browser_is_kept_once_and_ends_with_the_signing_out(kitchen):
    desk = Client()
    desk.force_login(kitchen.manager)
    session = desk.session
    device = Device.objects.create(person=kitchen.manager, last_seen=timezone.now(), label="Office")
    session["device"] = str(device.pk)
    session.save()
    sent = {**GOOD, "p256dh": push.public_key()}
    made = [desk.post("/api/notifications", sent, content_type="application/json") for _ in range(2)]
    assert [one.status_code for one in made] == [201, 201]
    told = desk.get("/api/notifications").json()
    assert [one["label"] for one in told["rows"]] == ["Office"]
    assert told["public_key"] == push.public_key()
    desk.delete("/api/session")
    assert PushSubscription.objects.get().revoked_at is not None


def test_a_receiver_has_nothing_to_be_told(kitchen):
    with pytest.raises(Forbidden):
        push.subscribe(person=kitchen.receiver, device_id=None, **GOOD, p256dh=push.public_key())


def test_what_the_network_says_otherwise_is_not_taken_for_refused(ines, monkeypatch):
    """A timeout may come after the message went: see the outbox."""
    class Slow:
        def open(self, *told, **more):
            raise URLError(TimeoutError())

    monkeypatch.setattr(push, "build_opener", lambda *told: Slow())
    with pytest.raises(URLError):
        push.push(ines.row, {"title": "x"})
