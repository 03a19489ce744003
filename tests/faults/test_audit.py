"""The audit of a fault run finds what it is there to find."""
from pathlib import Path

import pytest

from inspections.development.audit import audited
from inspections.evidence import guards
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.records import storage
from inspections.records.models import Delivery, Job
from tests.inspections.receiving import decide, document, photo_entry, picture, put_away, sha256_of

CONTENT = picture("coral")


@pytest.fixture
def receipts(kitchen, phone) -> dict:
    """What a phone holds after one delivery with one photo, signed and put away."""
    phone.send_photo(CONTENT)
    final = decide(document(kitchen, photos=[photo_entry(CONTENT)]))
    seal = phone.sign(final).json()["seal"]["sha256"]
    added = put_away(kitchen, final)
    added_seal = phone.add(added).json()["seal"]["sha256"]
    Job.objects.all().delete()
    return {"photos": [sha256_of(CONTENT)], "signed": [{
        "id": final["id"], "sha256": sha256_hex(canonical_bytes(final)), "seal": seal, "addendum": added["id"],
        "addendum_seal": added_seal, "photos": [sha256_of(CONTENT)]}]}


def differing(receipts: dict) -> set[str]:
    return {what for what, wanted, found in audited(receipts)["rows"] if wanted != found}


def test_all_is_well_when_all_is_there(receipts):
    assert audited(receipts)["wrong"] == []
    assert differing(receipts) == set()


def test_an_inspection_that_is_not_there_is_named(receipts):
    lost = {**receipts["signed"][0], "id": "01900000-0000-7000-8000-000000000000"}
    receipts["signed"].append(lost)
    assert {"inspections, each once", "of them exactly as signed"} <= differing(receipts)
    assert f"delivery {lost['id']} is not as signed" in audited(receipts)["wrong"]


def test_an_inspection_that_nobody_has_a_receipt_for_is_found(receipts):
    assert "inspections, each once" in differing({**receipts, "signed": []})


def test_a_photo_with_other_bytes_is_named(receipts):
    name = storage.photo_name(sha256_of(CONTENT))
    Path(storage.photos().path(name)).write_bytes(CONTENT[:-1])
    found = audited(receipts)
    assert any(sha256_of(CONTENT) in sentence for sentence in found["wrong"])
    assert {"of them with the right hash", "things not as sealed"} <= differing(receipts)


def test_an_altered_record_is_found(receipts):
    from django.db import connection

    guards.remove(connection)
    try:
        Delivery.objects.filter(pk=receipts["signed"][0]["id"]).update(state="signed")
        with connection.cursor() as cursor:
            cursor.execute("UPDATE records_delivery SET document = '{}'")
    finally:
        guards.install(connection)
    assert {"of them exactly as signed", "things not as sealed"} <= differing(receipts)


def test_work_that_was_not_done_is_found(receipts):
    Job.objects.create(kind="analyse_photo", key="k", subject={"sha256": "0" * 64}, state="parked",
                       not_before="2026-11-29T12:00:00+00:00", sentence="It went wrong.")
    assert "a job is parked: It went wrong." in audited(receipts)["wrong"]
    assert "jobs done" in differing(receipts)
