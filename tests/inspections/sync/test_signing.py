"""From the final document to the seal."""
import json

import pytest

from inspections.evidence.models import Seal
from inspections.records.models import Delivery, Job
from inspections.records.shape.door import read_delivery
from inspections.sync.models import Document, DocumentRevision, IdempotencyKey
from inspections.sync.signing import sign
from tests.inspections.receiving import (
    Phone,
    decide,
    document,
    keep,
    photo_entry,
    picture,
    put_away,
    sha256_of,
)


def test_a_delivery_is_signed_judged_and_sealed(kitchen, phone):
    content = picture()
    final = decide(document(kitchen, photos=[photo_entry(content)]))
    phone.put(final)
    phone.send_photo(content)
    answer = phone.sign(final)
    assert answer.status_code == 200, answer.content
    body = answer.json()
    assert body["seal"]["number"] == 1
    assert body["seal"]["previous_sha256"] == "0" * 64
    assert body["difference"] is None
    assert body["judgement"]["lines"][0]["suggestion"] == final["lines"][0]["decision"]["kind"]
    sealed = json.loads(bytes(Seal.objects.get().content))
    assert sealed["document"] == final
    assert [entry["sha256"] for entry in sealed["photos"]] == [sha256_of(content)]
    assert Document.objects.get().state == "signed"


def test_without_its_photos_it_is_not_signed_and_says_which(kitchen, phone):
    content = picture()
    final = decide(document(kitchen, photos=[photo_entry(content)]))
    answer = phone.sign(final)
    assert answer.status_code == 409
    assert answer.json()["code"] == "PHOTOS-MISSING"
    assert answer.json()["facts"]["missing"] == [sha256_of(content)]
    assert not Delivery.objects.exists()
    keep(content)
    assert phone.sign(final).status_code == 200  # the same key, once the photo is here


def test_the_same_signature_twice_is_signed_once_with_one_answer(kitchen, phone):
    final = decide(document(kitchen))
    first, second = phone.sign(final), phone.sign(final)
    assert first.status_code == second.status_code == 200
    assert first.json() == second.json()
    assert Delivery.objects.count() == Seal.objects.count() == 1


def test_another_key_for_the_same_document_brings_the_same_seal(kitchen, phone):
    final = decide(document(kitchen))
    first, second = phone.sign(final, "first-key-0001"), phone.sign(final, "second-key-0002")
    assert first.json()["seal"] == second.json()["seal"]
    assert Seal.objects.count() == 1
    assert IdempotencyKey.objects.count() == 2


def test_a_key_with_another_body_is_refused(kitchen, phone):
    """422 for a key that was used with another request: IETF draft-ietf-httpapi-idempotency-key-header,
    2.7 (from memory)."""
    final = decide(document(kitchen))
    assert phone.sign(final).status_code == 200
    changed = {**final, "notes": "changed"}
    answer = phone.sign(changed)
    assert answer.status_code == 422
    assert answer.json()["code"] == "KEY-OTHER-BODY"


def test_without_a_key_it_is_not_signed(kitchen, phone):
    answer = phone.sign(decide(document(kitchen)), "")
    assert answer.status_code == 400
    assert answer.json()["code"] == "KEY-MISSING"
    assert not Delivery.objects.exists()


def test_other_entries_after_signing_get_the_seal_that_stands(kitchen, phone):
    final = decide(document(kitchen))
    seal = phone.sign(final).json()["seal"]
    for answer in (phone.sign({**final, "notes": "later"}, "another-key-0001"), phone.put({**final, "notes": "x"}, 1)):
        assert answer.status_code == 409
        assert answer.json()["code"] == "DOC-SIGNED"
        assert answer.json()["seal"] == seal
    assert Delivery.objects.get().document == final


def test_a_record_whose_document_is_gone_is_not_signed_a_second_time(kitchen, phone):
    final = decide(document(kitchen))
    phone.sign(final)
    DocumentRevision.objects.all().delete()
    Document.objects.all().delete()
    answer = phone.sign({**final, "notes": "later"}, "another-key-0001")
    assert (answer.status_code, answer.json()["code"]) == (409, "ALREADY-SIGNED")
    assert Delivery.objects.get().document == final


def test_the_last_saving_may_come_after_the_signature(kitchen, phone):
    final = decide(document(kitchen))
    phone.sign(final)
    assert phone.put(final).status_code == 201
    assert DocumentRevision.objects.count() == 1


@pytest.mark.parametrize(("part", "code"), [("signatures", "SIGN-NO-RECEIVER"), ("arrived_at", "SIGN-NO-ARRIVAL")])
def test_what_is_missing_is_said_and_nothing_is_written(kitchen, phone, part, code):
    answer = phone.sign({**decide(document(kitchen)), part: None})
    assert answer.status_code == 422
    assert answer.json()["code"] == code
    assert not Delivery.objects.exists()
    assert not Seal.objects.exists()
    assert not IdempotencyKey.objects.exists()


def test_a_phone_that_judged_otherwise_is_recorded_not_silenced(kitchen, phone):
    final = decide(document(kitchen))
    final["lines"][0]["suggested"]["suggestion"] = "reject"
    answer = phone.sign(final).json()
    assert answer["difference"] == [
        {"path": "lines[0].suggested.suggestion", "phone": "reject", "server": "accept"}
    ]
    assert Delivery.objects.get().difference == answer["difference"]


def test_each_photo_gets_one_job_however_often_it_is_named(kitchen, phone):
    content = picture()
    draft = document(kitchen)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(content, line_id=line["id"], carton_id=line["cartons"][0]["id"], purpose="top")]
    phone.send_photo(content)
    assert not Job.objects.exists()  # nobody has named it yet
    phone.put(draft)
    job = Job.objects.get()
    assert job.subject["context"] == {
        "species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "top"
    }
    phone.sign(decide(draft))
    assert Job.objects.count() == 1


def test_a_photo_that_comes_after_its_document_gets_its_job_then(kitchen, phone):
    content = picture()
    phone.put(document(kitchen, photos=[photo_entry(content)]))
    assert not Job.objects.exists()
    phone.send_photo(content)
    assert Job.objects.get().subject["sha256"] == sha256_of(content)


def test_another_site_cannot_sign_here(kitchen):
    answer = Phone(kitchen.stranger).sign(decide(document(kitchen)))
    assert answer.status_code == 403
    assert not Delivery.objects.exists()


def test_the_demo_may_sign_for_a_day_gone_by(kitchen):
    from datetime import UTC, datetime

    day = datetime(2026, 8, 3, 5, 30, tzinfo=UTC)
    seal = sign(sent=read_delivery(decide(document(kitchen))), person=kitchen.receiver, signed_at=day)
    assert seal.sealed_at == day
    assert Delivery.objects.get().signed_at == day


def test_a_put_away_is_sealed_after_its_delivery(kitchen, phone):
    final = decide(document(kitchen))
    main = phone.sign(final).json()["seal"]
    added = put_away(kitchen, final)
    first, second = phone.add(added), phone.add(added)
    assert first.status_code == second.status_code == 200, first.content
    assert first.json() == second.json()
    assert first.json()["seal"]["previous_sha256"] == main["sha256"]
    sealed = json.loads(bytes(Seal.objects.get(kind="addendum").content))
    assert sealed["delivery_seal_sha256"] == main["sha256"]
    assert sealed["freezers"] == {str(kitchen.freezer.pk): "Freezer 2"}
    assert Delivery.objects.get().state == "put_away"


def test_another_addendum_under_the_same_id_is_refused(kitchen, phone):
    final = decide(document(kitchen))
    phone.sign(final)
    added = put_away(kitchen, final)
    phone.add(added)
    added["body"]["cartons"][0]["position"] = "shelf 3"
    answer = phone.add(added)
    assert answer.status_code == 409
    assert answer.json()["code"] == "ADDENDUM-OTHER"


def test_nothing_is_added_to_a_delivery_that_is_not_signed(kitchen, phone):
    draft = decide(document(kitchen))
    phone.put(draft)
    assert phone.add(put_away(kitchen, draft)).status_code == 404


def test_a_number_too_long_to_be_exact_is_refused_in_a_sentence(kitchen, phone):
    answer = phone.sign({**decide(document(kitchen)), "notes": 12345678901234567890})
    assert answer.status_code == 422
    assert answer.json()["code"] == "DOC-SHAPE"
    assert answer.json()["facts"] == {"what": "notes: a whole number of more than fifteen digits"}
