"""Refused and held goods after signing: where they stand, who fetched them, and what the supplier reads of it."""
from uuid import uuid4

import pytest
from django.core.management import call_command
from django.template.loader import render_to_string

from inspections.evidence.models import Seal
from inspections.evidence.page import page_of
from inspections.records.models import Delivery, LineLot
from tests.inspections.receiving import DEVICE, decide, document


@pytest.fixture
def signed(kitchen, phone) -> dict:
    final = decide(document(kitchen, bad=True), kind="reject", reason="too warm")
    assert phone.sign(final).status_code == 200
    return final


def apart(kitchen, signed, *, event="stand", count=20, part="refused", **body) -> dict:
    stands = event == "stand"
    told = {"where": "chest 2, red tape" if stands else "", "by": "" if stands else "J. Pell, Ridge Haulage"}
    return {
        "id": str(uuid4()), "delivery_id": signed["id"], "kind": "set_apart", "at": "2026-11-27T09:05:00+11:00",
        "person": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"}, "device_id": DEVICE,
        "body": {"event": event, "happened_at": "2026-11-27T09:00:00+11:00",
                 "cartons": [{"line_id": signed["lines"][0]["id"], "part": part, "count": count}], **told, **body},
    }


def page() -> str:
    return render_to_string("evidence/page.html", {**page_of(Delivery.objects.get()), "base": "/e/t"})


def test_the_supplier_reads_where_they_stand_and_who_fetched_them_each_under_its_own_seal(kitchen, phone, signed):
    assert "Where the refused cartons stand was not recorded." in page()
    for event, count in (("stand", 20), ("fetched", 12), ("fetched", 8)):
        answer = phone.add(apart(kitchen, signed, event=event, count=count))
        assert answer.status_code == 200, answer.content
        assert answer.json()["seal"]["kind"] == "addendum"
    told = page()
    assert "20 refused cartons kept apart, as of 27 November 2026, 09:00: chest 2, red tape." in told
    assert "12 refused cartons fetched by J. Pell, Ridge Haulage on 27 November 2026, 09:00." in told
    assert "was not recorded" not in told
    assert Seal.objects.filter(kind="addendum").count() == 3
    call_command("verify_seals")


@pytest.mark.parametrize(("changed", "code"), [
    ({"count": 21}, "APART-COUNT"), ({"part": "held", "count": 1}, "APART-COUNT"), ({"where": " "}, "APART-WHERE"),
    ({"event": "fetched", "by": " "}, "APART-BY"), ({"happened_at": "yesterday"}, "APART-WHEN"),
    ({"cartons": [{"line_id": str(uuid4()), "part": "refused", "count": 1}]}, "APART-LINE"),
    ({"cartons": []}, "ADDENDUM-SHAPE"), ({"event": "lost"}, "ADDENDUM-SHAPE"),
])
def test_what_cannot_be_is_refused_in_a_sentence(kitchen, phone, signed, changed, code):
    answer = phone.add(apart(kitchen, signed, **changed))
    assert (answer.status_code, answer.json()["code"]) == (422, code)
    assert Seal.objects.filter(kind="addendum").count() == 0


def test_what_was_fetched_is_gone_and_the_same_again_is_the_same(kitchen, phone, signed):
    first = apart(kitchen, signed, event="fetched", count=15)
    assert phone.add(first).json()["seal"] == phone.add(first).json()["seal"]
    answer = phone.add(apart(kitchen, signed, event="fetched", count=6))
    assert answer.json()["code"] == "APART-COUNT"
    assert "there are only 5" in answer.json()["sentence"]


def test_a_recall_finds_where_refused_cartons_stand_and_who_fetched_them(kitchen, phone, signed, client):
    at, later = "2026-11-27T09:00:00+11:00", "2026-11-27T14:20:00+11:00"
    phone.add(apart(kitchen, signed, event="stand", count=20))
    phone.add(apart(kitchen, signed, event="fetched", count=12, happened_at=later) | {"at": later})
    client.force_login(kitchen.manager)
    row = client.get("/api/lots", {"q": LineLot.objects.first().lot}).json()["rows"][0]
    assert row["set_apart"] == [
        {"count": 20, "part": "refused", "event": "stand", "where": "chest 2, red tape", "by": "", "at": at},
        {"count": 12, "part": "refused", "event": "fetched", "where": "", "by": "J. Pell, Ridge Haulage", "at": later},
    ]
    assert (row["refused"], row["put_away"], row["not_put_away"]) == (20, [], 0)
