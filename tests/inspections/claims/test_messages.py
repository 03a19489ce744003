"""Mails of claims and invitations: reminded once, never sent twice whatever is killed in between."""
import re
import smtplib
from datetime import timedelta

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.test import Client
from django.utils import timezone

from inspections.claims import messages
from inspections.claims.invitations import invited
from inspections.claims.messages import remind, send_again, send_due
from inspections.claims.models import Claim, Message
from inspections.claims.services import Said, draft_claim, say
from inspections.claims.supplier_people import invite, let_in, person_json
from inspections.errors import Conflict
from inspections.evidence.links import delivery_behind
from inspections.people.models import Person, Role
from tests.inspections.claims.conftest import send_claim

State = Message.State


@pytest.fixture(autouse=True)
def with_mail(settings):
    settings.SENDS_MAIL, settings.PUBLIC_ADDRESS = True, "https://kitchen.example"


class Killed(BaseException):
    """What stands for a kill: nothing in the house may catch it."""


def backend_that(monkeypatch, trouble, *, is_taken: bool):
    def send_messages(self, sent):
        if is_taken:
            mail.outbox.extend(sent)
        raise trouble

    monkeypatch.setattr(EmailBackend, "send_messages", send_messages)


def test_the_supplier_is_told_with_a_link_that_opens_the_claim_and_no_row_holds_it(claim, refused):
    assert send_due() == 1
    sent = mail.outbox[0]
    assert sent.to == ["ade@coldreach.example"]
    assert sent.subject == "Claim HAR-C1: docket DN-5530"
    assert "AUD 2,900.00" in sent.body
    html, kind = sent.alternatives[0]
    assert kind == "text/html"
    address = next(word for word in sent.body.split() if word.startswith("https://"))
    assert f'href="{address}"' in html
    token = address.split("/e/")[1].split("/")[0]
    assert delivery_behind(token) == refused
    assert token not in str(list(Message.objects.values()))
    assert Message.objects.get().state == State.SENT


def test_an_answer_is_told_to_the_site_s_managers(claim, kitchen):
    send_due()
    say(claim=claim, said=Said("offer", "supplier", "Ade Winter", amount="1450", text="Half\r\nBcc: x@y.example"))
    assert send_due() == 1
    sent = mail.outbox[-1]
    assert sent.to == ["ines@kitchen.example"]
    assert sent.subject == "Claim HAR-C1: AUD 1,450.00 offered"
    assert f"https://kitchen.example/desk/claims/{claim.pk}" in sent.body
    assert "Bcc" not in sent.message()


def test_killed_before_it_was_sent_it_waits(claim, monkeypatch):
    monkeypatch.setattr(messages, "_send", lambda pk: (_ for _ in ()).throw(Killed()))
    with pytest.raises(Killed):
        send_due()
    monkeypatch.undo()
    assert send_due() == 1
    assert len(mail.outbox) == 1


@pytest.mark.parametrize("is_taken", [True, False])
def test_killed_while_it_was_sent_it_is_not_sent_again_and_says_so(claim, monkeypatch, is_taken):
    with monkeypatch.context() as patched:
        backend_that(patched, Killed(), is_taken=is_taken)
        with pytest.raises(Killed):
            send_due()
    assert send_due() == 0
    Message.objects.update(taken_at=timezone.now() - messages.LEASE)
    assert send_due() == 0
    assert len(mail.outbox) == is_taken
    told = Message.objects.get()
    assert told.state == State.UNSURE
    assert "may or may not have gone out" in told.sentence
    # A person decides; the mail keeps its id, so that a mailbox that has it can tell.
    send_again(message=told)
    assert send_due() == 1
    assert len({one.extra_headers["Message-ID"] for one in mail.outbox}) == 1


def test_a_connection_that_breaks_off_is_not_tried_again_by_itself(claim, monkeypatch):
    with monkeypatch.context() as patched:
        backend_that(patched, smtplib.SMTPServerDisconnected("gone"), is_taken=True)
        assert send_due() == 0
    assert send_due() == 0
    assert (len(mail.outbox), Message.objects.get().state) == (1, State.UNSURE)


def test_what_the_mail_server_refuses_is_tried_again_and_then_given_up(claim, monkeypatch):
    with monkeypatch.context() as patched:
        backend_that(patched, ConnectionRefusedError(), is_taken=False)
        for _ in range(messages.MOST_ATTEMPTS):
            Message.objects.update(not_before=timezone.now())
            assert send_due() == 0
    told = Message.objects.get()
    assert (told.state, told.attempts) == (State.FAILED, messages.MOST_ATTEMPTS)
    send_again(message=told)
    assert send_due() == 1
    with pytest.raises(Conflict):
        send_again(message=told)


def test_a_deadline_that_is_near_is_reminded_of_once(kitchen, refused):
    claim = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    assert remind() == 0
    Claim.objects.update(notice_until=timezone.now() + timedelta(hours=5))
    assert (remind(), remind()) == (1, 0)
    send_due()
    assert mail.outbox[0].to == ["ines@kitchen.example"]
    send_claim(claim=claim, person=kitchen.manager)
    send_due()
    Claim.objects.update(answer_until=timezone.now() + timedelta(hours=11))
    assert [send_due() for _ in range(3)] == [1, 0, 0]
    assert [one.to[0] for one in mail.outbox] == ["ines@kitchen.example"] + ["ade@coldreach.example"] * 2
    assert "an answer is due by" in mail.outbox[-1].subject


def test_without_a_mail_server_nothing_is_written(settings, kitchen, refused):
    settings.SENDS_MAIL = False
    send_claim(claim=draft_claim(line=refused.lines.get(), person=kitchen.manager), person=kitchen.manager)
    assert not Message.objects.exists()
    assert send_due() == 0


@pytest.fixture
def group(db) -> Person:
    return Person.objects.create(username="gil", name="Gil Moreau", role=Role.GROUP_OPERATIONS)


def mailed_token() -> str:
    return re.search(r"https://kitchen\.example/supplier/invitation/(\S+)", mail.outbox[-1].body)[1]


def test_whom_a_supplier_s_invitation_is_for_gets_it_by_mail_once_and_no_row_holds_it(kitchen, group):
    row, told = invite(supplier=kitchen.supplier, name="Ade Winter", email="ade@coldreach.example", by=group)
    assert send_due() == 1
    assert send_due() == 0
    sent, = mail.outbox
    assert sent.to == ["ade@coldreach.example"]
    assert "Gil Moreau" in sent.body
    assert "for 14 days" in sent.body
    assert sent.alternatives[0][1] == "text/html"
    token = mailed_token()
    assert f"/supplier/invitation/{token}" in sent.alternatives[0][0]
    assert invited(token) == invited(told) == row.person
    assert token.split(".")[1] not in str(list(Message.objects.values()))
    # The one taken up ends the other.
    page = Client().post(f"/supplier/invitation/{token}", {"new_password1": "lantern-quay-9",
                                                           "new_password2": "lantern-quay-9"})
    assert page.status_code == 302
    assert invited(told) is invited(token) is None
    assert person_json(row)["mail"] == "Sent"


def test_invited_anew_before_the_mail_went_one_mail_goes(kitchen, group):
    row, _ = invite(supplier=kitchen.supplier, name="Ade", email="ade@coldreach.example", by=group)
    let_in(supplier=kitchen.supplier, person_id=row.pk, by=group, is_active=True)
    assert send_due() == 1
    assert len(mail.outbox) == 1
    assert invited(mailed_token()) == row.person


def test_an_invitation_taken_up_or_ended_before_its_mail_went_is_not_mailed(kitchen, group):
    taken, _ = invite(supplier=kitchen.supplier, name="Ade", email="ade@coldreach.example", by=group)
    taken.person.set_password("lantern-quay-9")
    taken.person.save()
    ended, _ = invite(supplier=kitchen.supplier, name="Bo", email="bo@coldreach.example", by=group)
    let_in(supplier=kitchen.supplier, person_id=ended.pk, by=group, is_active=False)
    assert send_due() == 0
    assert mail.outbox == []
    told, = Message.objects.all()
    assert (told.invited, told.state) == (taken, State.FAILED)
    assert "taken up or ended" in told.sentence


def test_an_invitation_broken_off_while_it_was_mailed_is_not_mailed_twice(kitchen, group, monkeypatch):
    row, _ = invite(supplier=kitchen.supplier, name="Ade", email="ade@coldreach.example", by=group)
    with monkeypatch.context() as patched:
        backend_that(patched, Killed(), is_taken=True)
        with pytest.raises(Killed):
            send_due()
    Message.objects.update(taken_at=timezone.now() - messages.LEASE)
    assert send_due() == 0
    assert len(mail.outbox) == 1
    assert person_json(row)["mail"].startswith("May not have been sent")


def test_without_a_mail_server_an_invitation_is_handed_on_alone(kitchen, group, settings):
    settings.SENDS_MAIL = False
    row, told = invite(supplier=kitchen.supplier, name="Ade", email="ade@coldreach.example", by=group)
    assert not Message.objects.exists()
    assert invited(told) == row.person
    assert person_json(row)["mail"] == ""
