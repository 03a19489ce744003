"""Found on thawing, days later: an addendum with its own seal, photos, and a count; and what became of held goods."""
import zipfile
from io import BytesIO
from uuid import uuid4

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, transaction
from django.template.loader import render_to_string

from inspections.comparison.models import LineTally
from inspections.comparison.tallies import wrong_deliveries
from inspections.evidence.bundle import write_bundle
from inspections.evidence.models import Seal
from inspections.evidence.page import page_of
from inspections.records.models import Delivery, PhotoUse
from inspections.sync.reference_bundle import reference_for
from tests.inspections.receiving import DEVICE, decide, document, picture, put_away, sha256_of
from tests.inspections.tamper import behind


@pytest.fixture
def signed(kitchen, phone) -> dict:
    final = decide(document(kitchen), kind="hold", reason="asks the manager")
    assert phone.sign(final).status_code == 200
    return final


def thawed(kitchen, signed, *, photos=(), **body) -> dict:
    return {
        "id": str(uuid4()), "delivery_id": signed["id"], "kind": "thawed", "at": "2026-11-29T09:05:00+11:00",
        "person": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"}, "device_id": DEVICE,
        "body": {"line_id": signed["lines"][0]["id"], "lot": "L1", "thawed_at": "2026-11-29T09:00:00+11:00",
                 "fault": "soft", "how_many": "half", "note": "Water ran out.",
                 "photos": [{"id": str(uuid4()), "sha256": sha256_of(one)} for one in photos], **body},
    }


def page() -> str:
    return render_to_string("evidence/page.html", {**page_of(Delivery.objects.get()), "base": "/e/t"})


def test_it_is_sealed_shown_and_counted_with_its_photo(kitchen, phone, signed):
    shot = picture("grey")
    body = thawed(kitchen, signed, photos=[shot])
    early = phone.add(body)
    assert (early.status_code, early.json()["code"]) == (409, "PHOTOS-MISSING")
    assert early.json()["facts"]["missing"] == [sha256_of(shot)]
    phone.send_photo(shot)
    answer = phone.add(body)
    assert answer.status_code == 200, answer.content
    assert phone.add(body).json()["seal"] == answer.json()["seal"]
    told = page()
    assert "Line 1, lot L1, thawed on 29 November 2026, 09:00: soft or mushy, about half." in told
    assert "Water ran out." in told
    assert f"/e/t/photos/{sha256_of(shot)}/thumb" in told
    assert LineTally.objects.get().thawed_faults == 1
    assert list(wrong_deliveries()) == []
    assert Seal.objects.filter(kind="addendum").count() == 1
    call_command("verify_seals")
    out = BytesIO()
    write_bundle(Delivery.objects.get(), out)
    assert sha256_of(shot) in zipfile.ZipFile(out).read("photos.txt").decode()
    assert phone.client.get(f"/api/photos/{sha256_of(shot)}/original").status_code == 200


def test_a_photo_moved_to_another_line_is_found(kitchen, phone, signed, capsys):
    shot = picture("grey")
    phone.send_photo(shot)
    assert phone.add(thawed(kitchen, signed, photos=[shot])).status_code == 200
    with pytest.raises(IntegrityError), transaction.atomic():
        PhotoUse.objects.filter(purpose="thawed").update(line_id=uuid4())
    behind(PhotoUse).filter(purpose="thawed").update(line_id=uuid4())
    with pytest.raises(CommandError):
        call_command("verify_seals")
    told = capsys.readouterr()
    assert f"where photo {sha256_of(shot)[:12]} belongs is not as it was sealed (line_id)" in told.out + told.err


@pytest.mark.parametrize(("changed", "code"), [
    ({"line_id": str(uuid4())}, "THAWED-LINE"), ({"thawed_at": "2026-11-20T09:00:00+11:00"}, "THAWED-WHEN"),
    ({"thawed_at": "today"}, "THAWED-WHEN"), ({"fault": "sad"}, "ADDENDUM-SHAPE"), ({"lot": 7}, "ADDENDUM-SHAPE"),
])
def test_what_cannot_be_is_refused_in_a_sentence(kitchen, phone, signed, changed, code):
    answer = phone.add(thawed(kitchen, signed, **changed))
    assert (answer.status_code, answer.json()["code"]) == (422, code)


def test_what_was_refused_whole_cannot_be_thawed(kitchen, phone):
    final = decide(document(kitchen, bad=True), kind="reject", reason="too warm")
    phone.sign(final)
    assert phone.add(thawed(kitchen, final)).json()["code"] == "THAWED-LINE"
    assert reference_for(kitchen.receiver)["lots"] == []


def test_the_lots_that_were_kept_are_at_hand(kitchen, signed):
    lots = reference_for(kitchen.receiver)["lots"]
    assert {(row["delivery_id"], row["line_id"]) for row in lots} == {(signed["id"], signed["lines"][0]["id"])}
    assert {row["site_id"] for row in lots} == {str(kitchen.site.pk)}


def decided(kitchen, signed, event, *, count=2, part="held", **body) -> dict:
    return {
        **thawed(kitchen, signed), "id": str(uuid4()), "kind": "set_apart",
        "body": {"event": event, "happened_at": "2026-11-27T09:00:00+11:00", "where": "", "by": "Rosa Lind",
                 "reason": "core read again, all at -19",
                 "cartons": [{"line_id": signed["lines"][0]["id"], "part": part, "count": count}], **body},
    }


def test_held_goods_are_released_or_refused_later_by_whom_and_why(kitchen, phone, signed):
    held = signed["lines"][0]["decision"]["held"]
    assert held > 4
    assert phone.add(decided(kitchen, signed, "released", count=held - 3)).status_code == 200
    assert phone.add(decided(kitchen, signed, "refused", count=3)).status_code == 200
    told = page()
    assert f"{held - 3} held cartons released by Rosa Lind on 27 November 2026, 09:00: core read again" in told
    assert "3 held cartons refused by Rosa Lind" in told
    # None is held any more, and the three refused ones can be fetched.
    assert phone.add(decided(kitchen, signed, "released", count=1)).json()["code"] == "APART-COUNT"
    assert phone.add(decided(kitchen, signed, "fetched", count=3, part="refused")).status_code == 200
    assert phone.add(decided(kitchen, signed, "fetched", count=1, part="refused")).json()["code"] == "APART-COUNT"
    call_command("verify_seals")


@pytest.mark.parametrize(("changed", "code"), [
    ({"by": " "}, "APART-DECIDED"), ({"reason": ""}, "APART-DECIDED"), ({"part": "refused"}, "APART-HELD"),
])
def test_a_decision_about_held_goods_needs_its_person_its_reason_and_held_goods(kitchen, phone, signed, changed, code):
    assert phone.add(decided(kitchen, signed, "released", **changed)).json()["code"] == code


def test_the_page_says_what_the_freezers_air_means(kitchen, phone, signed):
    """Kept at -18 °C or colder: CXS 92-1981 §6, read."""
    body = put_away(kitchen, signed)
    body["body"]["freezer_air"] = {"entered": "-9", "unit": "C"}
    assert phone.add(body).status_code == 200
    assert "Freezer air −9.0 °C: warmer than −18.0 °C, which does not keep frozen prawns." in page()
