"""A supplier's account: invited, a password of one's own, its claims, evidence and figures, and nothing beside them.

Least rights over every address: ``test_rights``. Here: what the pages tell, and what they must not.
"""
import logging
import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.cache import cache
from django.test import Client
from django.utils import timezone

from inspections.claims.models import Claim, SupplierPerson
from inspections.claims.services import draft_claim
from inspections.claims.supplier_people import invite
from inspections.comparison.models import LineTally
from inspections.people.models import Deed, Person, Role
from inspections.records.models import ClaimEntry, Delivery, Supplier
from tests.inspections.claims.conftest import send_claim
from tests.inspections.receiving import decide, document

PASSWORD = "lantern-quay-9"


@pytest.fixture(autouse=True)
def forgotten():
    cache.clear()
    yield
    cache.clear()


@pytest.fixture
def group(kitchen) -> Person:
    return Person.objects.create(username="group", name="Gil Group", role=Role.GROUP_OPERATIONS)


@pytest.fixture
def ade(kitchen, group) -> Client:
    """Somebody of the supplier, signed in."""
    return signed_in(kitchen.supplier, group, "ade@creek.example")


def signed_in(supplier: Supplier, group: Person, email: str) -> Client:
    row, _ = invite(supplier=supplier, name="Ade Winter", email=email, by=group)
    client = Client()
    client.force_login(row.person)
    return client


def test_an_invitation_is_taken_up_once_with_a_password_of_ones_own(kitchen, group):
    desk = Client()
    desk.force_login(group)
    at = f"/api/suppliers/{kitchen.supplier.pk}/people"
    told = desk.post(at, {"name": "Ade Winter", "email": "Ade@Creek.example"}, content_type="application/json")
    assert told.status_code == 201
    assert told["Cache-Control"] == "no-store"
    address = re.sub(r"^https?://[^/]+", "", told.json()["address"])
    client = Client(enforce_csrf_checks=True)
    page = client.get(address)
    assert "Choose a password" in page.content.decode()
    sent = {"new_password1": PASSWORD, "new_password2": PASSWORD}
    assert client.post(address, sent).status_code == 403, "without the form's token"
    sent["csrfmiddlewaretoken"] = re.search(r'csrfmiddlewaretoken" value="(\w+)"', page.content.decode())[1]
    assert client.post(address, {**sent, "new_password2": "other"}).status_code == 422
    assert client.post(address, sent)["Location"] == "/supplier"
    assert kitchen.supplier.name in client.get("/supplier").content.decode()
    used = Client().get(address)
    assert used.status_code == 410
    assert "used already" in used.content.decode()
    # … and the password opens it from then on
    later = Client()
    assert later.post("/supplier/sign-in", {"username": "ade@creek.example", "password": PASSWORD})[
        "Location"] == "/supplier"
    assert desk.get(at).json()["rows"][0]["has_password"] is True


def test_an_invitation_ends_by_itself_and_by_another(kitchen, group, monkeypatch):
    row, first = invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    desk = Client()
    desk.force_login(group)
    again = desk.put(f"/api/suppliers/{kitchen.supplier.pk}/people/{row.pk}", {"is_active": True},
                     content_type="application/json").json()["address"]
    assert Client().get(f"/supplier/invitation/{first}").status_code == 410
    second = re.sub(r"^https?://[^/]+", "", again)
    assert Client().get(second).status_code == 200
    in_15_days = timezone.now() + timedelta(days=15)
    monkeypatch.setattr("django.contrib.auth.tokens.PasswordResetTokenGenerator._now",
                        lambda self: in_15_days.replace(tzinfo=None))
    assert Client().get(second).status_code == 410


def test_an_ended_account_is_out_at_once(kitchen, group, ade):
    assert ade.get("/supplier").status_code == 200
    desk = Client()
    desk.force_login(group)
    row = SupplierPerson.objects.get()
    ended = desk.put(f"/api/suppliers/{kitchen.supplier.pk}/people/{row.pk}", {"is_active": False},
                     content_type="application/json")
    assert ended.json()["address"] == ""
    assert ade.get("/supplier")["Location"] == "/supplier/sign-in?next=/supplier"


def test_the_same_address_is_not_invited_twice(kitchen, group):
    invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    desk = Client()
    desk.force_login(group)
    told = desk.post(f"/api/suppliers/{kitchen.supplier.pk}/people", {"name": "A", "email": "ADE@creek.example"},
                     content_type="application/json")
    assert (told.status_code, told.json()["code"]) == (422, "SUPPLIER-PERSON-THERE")


def test_it_lists_the_suppliers_claims_with_age_amount_and_deadline(claim, ade):
    text = ade.get("/supplier").content.decode()
    for words in (claim.number, "AUD 2,900.00", "Sent, no answer yet", "to be answered by", "h left"):
        assert words in text, words
    assert claim.number not in ade.get("/supplier?state=settled").content.decode()
    assert claim.number in ade.get("/supplier?state=all&order=deadline").content.decode()
    Claim.objects.update(answer_until=timezone.now() - timedelta(hours=3))
    assert "3 h over" in ade.get("/supplier?over=yes").content.decode()
    assert ade.get("/supplier?state=nothing").status_code == 400
    assert "<script" not in text


def test_it_tells_the_suppliers_own_figures(claim, ade, kitchen):
    """Twenty cartons of one delivery, all refused: as the tally of its line has them."""
    tally = LineTally.objects.get()
    text = ade.get("/supplier").content.decode()
    told = re.findall(r'<td data-name="(\w+)">(\d+)</td>', text)
    assert told == [("Deliveries", "1"), ("Delivered", "20"), ("Opened", str(tally.opened)),
                    ("Defective", str(tally.defective)), ("Refused", "20")]
    for kind, amount in (("Claimed", "AUD 2,900.00"), ("Agreed", "AUD 0.00")):
        assert f"<dt>{kind}</dt><dd>{amount}</dd>" in text
    assert kitchen.site.name in text


def test_nothing_of_another_supplier_is_there(claim, kitchen, group, phone):
    """Names, numbers, amounts and figures of the other are not on any page that the account opens."""
    other = Supplier.objects.create(code="OTH", name="Other Prawns")
    stranger = signed_in(other, group, "bo@other.example")
    text = stranger.get("/supplier?state=all").content.decode()
    for words in (claim.number, kitchen.supplier.name, "2,900", "<td data-name"):
        assert words not in text, words
    assert "No claim matches." in text
    assert stranger.get(f"/supplier/deliveries/{claim.delivery_id}").status_code == 404
    assert stranger.get(f"/supplier/deliveries/{claim.delivery_id}/claims/{claim.pk}").status_code == 404


def test_a_draft_and_a_delivery_without_a_claim_are_not_shown(kitchen, refused, ade):
    drafted = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    assert drafted.number not in ade.get("/supplier?state=all").content.decode()
    assert ade.get(f"/supplier/deliveries/{refused.pk}").status_code == 404
    send_claim(claim=drafted, person=kitchen.manager)
    assert ade.get(f"/supplier/deliveries/{refused.pk}").status_code == 200


def test_pages_by_account_lead_to_nothing_else(claim, ade):
    """Every address on its pages is the account's own, a file for everybody, or a place on the page."""
    seen, ahead = set(), {"/supplier"}
    while ahead:
        address = ahead.pop()
        seen.add(address)
        answer = ade.get(address)
        assert answer.status_code == 200, address
        if answer["Content-Type"].startswith("text/html"):
            found = set(re.findall(r'(?:href|src|action)="([^"#]+)', answer.content.decode()))
            own = {one for one in found if re.match(r"/(supplier(/|$)|static/|icon\.svg|e/keys|verify|how/)", one)}
            assert found == own, found - own
            ahead |= {one for one in own if one.startswith("/supplier/deliveries")} - seen
    assert any(one.endswith("bundle.zip") for one in seen)
    assert any("/claims/" in one for one in seen)


def test_an_answer_by_account_carries_the_persons_name_and_the_forms_token(claim, group, kitchen):
    row, _ = invite(supplier=kitchen.supplier, name="Ade Winter", email="ade@creek.example", by=group)
    client = Client(enforce_csrf_checks=True)
    client.force_login(row.person)
    at = f"/supplier/deliveries/{claim.delivery_id}/claims/{claim.pk}"
    assert client.post(at, {"kind": "agree"}).status_code == 403
    page = client.get(at).content.decode()
    # Without a referrer a browser sends “Origin: null” with the form (Fetch Standard), which Django refuses.
    assert '<meta name="referrer" content="same-origin">' in page
    token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', page)[1]
    sent = {"kind": "ask", "text": "Which truck?", "by": "Somebody else", "id": str(uuid4())}
    assert client.post(at, {**sent, "csrfmiddlewaretoken": token})["Location"] == f"{at}#entry-2"
    entry = ClaimEntry.objects.get(kind="ask")
    assert (entry.document["by"], entry.person, entry.side) == ("Ade Winter", row.person, "supplier")


def test_what_the_account_opens_is_noted_for_the_site_without_from_where(claim, ade, kitchen):
    for _ in range(2):
        ade.get(f"/supplier/deliveries/{claim.delivery_id}")
    noted = Deed.objects.get(what="supplier_looked")
    assert (noted.site, noted.address) == (kitchen.site, "")


def test_the_house_does_not_sign_in_there_and_a_supplier_not_at_the_desk(kitchen, group):
    row, _ = invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    for person in (row.person, kitchen.manager):
        person.set_password(PASSWORD)
        person.save()
    wrong = Client().post("/supplier/sign-in", {"username": kitchen.manager.username, "password": PASSWORD})
    assert (wrong.status_code, "suppliers&#x27; own page" in wrong.content.decode()) == (422, True)
    desk = Client().post("/api/session", {"username": "ade@creek.example", "password": PASSWORD},
                         content_type="application/json")
    assert (desk.status_code, desk.json()["code"]) == (403, "SUPPLIER-SIGN-IN")


def test_guessing_a_password_is_slowed_as_at_the_desk(kitchen, group, settings):
    settings.AXES_ENABLED = True
    invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    told = [Client().post("/supplier/sign-in", {"username": "ade@creek.example", "password": f"wrong-{number}"})
            for number in range(11)]
    assert [one.status_code for one in told][:9] == [422] * 9
    assert told[-1].status_code == 429


@pytest.mark.parametrize("wanted", ["//elsewhere.example", "https://elsewhere.example/supplier", "/desk", "/supplierx"])
def test_signing_in_leads_nowhere_else(kitchen, group, wanted):
    row, _ = invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    row.person.set_password(PASSWORD)
    row.person.save()
    sent = Client().post("/supplier/sign-in", {"username": "ade@creek.example", "password": PASSWORD, "next": wanted})
    assert sent["Location"] == "/supplier"


def test_an_invitation_is_in_no_log(kitchen, group, caplog):
    _, token = invite(supplier=kitchen.supplier, name="Ade", email="ade@creek.example", by=group)
    with caplog.at_level(logging.INFO):
        Client().get(f"/supplier/invitation/{token}")
        Client().get(f"/supplier/invitation/{token}x")
    assert "/supplier/invitation/…" in caplog.text
    assert token not in caplog.text


def test_an_operator_cannot_make_a_suppliers_account_by_hand(kitchen):
    """Nobody of the house may know a supplier's password."""
    admin = Person.objects.create(username="root", name="Root", role=Role.ADMINISTRATOR)
    client = Client()
    client.force_login(admin)
    told = client.post("/api/kept/people", {"username": "x", "name": "X", "role": "supplier", "password": PASSWORD,
                                            "sites": [str(kitchen.site.pk)]}, content_type="application/json")
    assert told.status_code in (400, 403)


def test_several_deliveries_add_up(claim, kitchen, ade, phone):
    final = decide(document(kitchen, docket="DN-9"))
    assert phone.sign(final, key="key-for-signing-0009").status_code == 200
    assert Delivery.objects.count() == 2
    told = dict(re.findall(r'<td data-name="(\w+)">(\d+)</td>', ade.get("/supplier").content.decode()))
    assert told["Deliveries"] == "2"
    assert told["Delivered"] == str(20 + sum(line["cartons_counted"] for line in final["lines"]))
