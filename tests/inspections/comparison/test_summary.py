"""The month in one page: the same sentences on the screen, as a tagged PDF, and by mail at most once a month."""
import io
import smtplib
from datetime import UTC, date, datetime

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from pypdf import PdfReader

from inspections.comparison.models import SummaryMail, SummaryWish
from inspections.comparison.summary_mail import send_summaries
from inspections.people.models import Role

JUNE = date(2026, 6, 3)


@pytest.fixture
def boss(person, settings):
    settings.SENDS_MAIL, settings.PUBLIC_ADDRESS = True, "https://kitchen.example"
    somebody = person(Role.GROUP_OPERATIONS)
    somebody.email = "boss@kitchen.example"
    somebody.save()
    return somebody


@pytest.fixture
def may(dock):
    """Twelve deliveries each, March to May: of "Bright" half of the cartons are defective, of the others two of 96."""
    for week in range(12):
        for supplier, bad in (("Abalone", 0), ("Bright", 2), ("Coral", week % 6 == 0)):
            dock.delivery(supplier, "Harbour", ("HLSO raw", 20, 2, 4, int(bad)),
                          arrived_at=datetime(2026, 3 + week // 4, 10 + week % 4, 6, 0, tzinfo=UTC))
    return dock


def test_it_says_what_came_and_who_stands_apart(client, boss, may):
    client.force_login(boss)
    told = client.get("/api/summary?month=2026-05").json()
    assert told["title"] == "May 2026: Harbour"
    assert told["sentences"][0] == (
        "12 deliveries with 240 cartons, of which 24 were refused. 48 were opened; 8 of those were defective.")
    apart = [sentence for sentence in told["sentences"] if "than luck explains" in sentence]
    assert [sentence.split(":")[0] for sentence in apart if "more defective" in sentence] == ["Bright"]
    assert "24 of 48 opened ones were defective" in apart[[one.startswith("Bright") for one in apart].index(True)]
    assert [row[:4] for row in told["rows"]] == [
        ["Abalone", "80", "8", "0 of 16"], ["Bright", "80", "8", "8 of 16"], ["Coral", "80", "8", "0 of 16"],
        ["All together", "240", "24", "8 of 48"]]


def test_a_month_without_deliveries_and_one_that_is_no_month(client, boss, dock):
    dock.site("Harbour")
    client.force_login(boss)
    told = client.get("/api/summary?month=2026-04").json()
    assert told["rows"] == []
    assert told["sentences"][0] == "Nothing was delivered in this month."
    refused = client.get("/api/summary?month=April")
    assert (refused.status_code, refused.json()["code"]) == (422, "SUMMARY-MONTH")


def test_the_pdf_is_tagged_and_says_the_same(client, boss, may):
    client.force_login(boss)
    told = client.get("/api/summary?month=2026-05").json()
    answer = client.get("/api/summary.pdf?month=2026-05")
    assert answer["Content-Type"] == "application/pdf"
    pdf = PdfReader(io.BytesIO(answer.content))
    assert pdf.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert pdf.metadata.title == told["title"]
    text = " ".join(" ".join(page.extract_text() for page in pdf.pages).split())
    for sentence in (*told["sentences"], *told["head"], told["note"], *(cell for row in told["rows"] for cell in row)):
        assert " ".join(sentence.split()) in text


def test_who_asked_for_it_gets_it_once_and_nobody_else(client, boss, may, person):
    assert send_summaries(JUNE) == 0
    client.force_login(boss)
    assert client.put("/api/summary/mail", {"wanted": True}, "application/json").json() == {"wanted": True, "can": True}
    assert send_summaries(date(2026, 6, 2)) == 0
    assert [send_summaries(JUNE) for _ in range(3)] == [1, 0, 0]
    sent = mail.outbox[0]
    assert (sent.to, len(mail.outbox)) == (["boss@kitchen.example"], 1)
    assert "May 2026: Harbour" in sent.subject
    assert "Bright: more defective cartons in the last twelve months than luck explains." in sent.body
    assert "https://kitchen.example/desk/summary?month=2026-05" in sent.body
    name, content, kind = sent.attachments[0]
    assert (name, kind, content[:5]) == ("summary-2026-05.pdf", "application/pdf", b"%PDF-")
    client.put("/api/summary/mail", {"wanted": False}, "application/json")
    assert send_summaries(date(2026, 7, 3)) == 0


def test_a_manager_s_mail_holds_the_own_site_only(may, person, settings):
    settings.SENDS_MAIL, settings.PUBLIC_ADDRESS = True, "https://kitchen.example"
    may.delivery("Elsewhere", "Hill", ("HLSO raw", 20, 0, 4, 1), arrived_at=datetime(2026, 5, 5, 6, 0, tzinfo=UTC))
    manager = person(Role.SITE_MANAGER, may.site("Hill"))
    manager.email = "hill@kitchen.example"
    manager.save()
    SummaryWish.objects.create(person=manager)
    assert send_summaries(JUNE) == 1
    assert "May 2026: Hill" in mail.outbox[0].body
    assert "Bright" not in mail.outbox[0].body


@pytest.mark.parametrize(("trouble", "states"), [
    (smtplib.SMTPConnectError(421, "busy"), ["waiting"] * 4 + ["failed"]), (OSError("broken off"), ["unsure"]),
])
def test_refused_ones_are_tried_again_and_what_may_have_gone_is_not(boss, may, monkeypatch, trouble, states):
    def send_messages(self, sent):
        raise trouble

    SummaryWish.objects.create(person=boss)
    monkeypatch.setattr(EmailBackend, "send_messages", send_messages)
    seen = []
    for _ in states:
        try:
            send_summaries(JUNE)
        except OSError:
            pass
        seen.append(SummaryMail.objects.get().state)
    assert seen == states
    monkeypatch.undo()
    assert send_summaries(JUNE) == 0
    assert mail.outbox == []


def test_without_a_mail_server_the_wish_is_refused_in_a_sentence(client, boss, settings):
    settings.SENDS_MAIL = False
    client.force_login(boss)
    answer = client.put("/api/summary/mail", {"wanted": True}, "application/json")
    assert (answer.status_code, answer.json()["code"]) == (422, "SUMMARY-NO-MAIL")
    assert client.get("/api/summary/mail").json() == {"wanted": False, "can": False}
