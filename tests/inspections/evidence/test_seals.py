"""Seals hold for what was sealed, and break for anything else."""
import io
import json

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, transaction

from inspections.evidence import guards
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal, SealingKey, SharedCopy
from inspections.evidence.seals import seal
from inspections.records import storage
from inspections.records.models import Addendum, Carton, Delivery, DocketLine, Finding, LimitSet, Photo, Reading
from tests.inspections.receiving import (
    Phone,
    decide,
    document,
    keep,
    photo_entry,
    put_away,
    sha256_of,
    with_place,
)
from tests.inspections.tamper import behind


@pytest.fixture
def sealed(kitchen, phone):
    """Three seals of one site: a bad delivery with a photo, its put-away, a good delivery."""
    content = with_place()
    keep(content)
    bad = decide(document(kitchen, docket="DN-1", photos=[photo_entry(content)], bad=True), kind="hold", reason="ask")
    assert phone.sign(bad, "sealed-key-1").status_code == 200
    good = decide(document(kitchen, docket="DN-2"))
    assert phone.sign(good, "sealed-key-2").status_code == 200
    assert phone.add(put_away(kitchen, good)).status_code == 200
    return kitchen


def what(kitchen) -> list[str]:
    return [mismatch.what for mismatch in verify_chain(kitchen.site)]


def test_what_was_not_touched_stands(sealed):
    assert what(sealed) == []
    assert list(Seal.objects.values_list("number", flat=True)) == [1, 2, 3]


def test_each_seal_names_the_one_before_it(sealed):
    first, second, third = Seal.objects.order_by("number")
    assert first.previous_sha256 == "0" * 64
    assert second.previous_sha256 == first.sha256
    assert third.previous_sha256 == second.sha256


def test_sites_have_chains_of_their_own(sealed):
    with transaction.atomic():
        row = seal(site=sealed.other_site, kind="delivery", subject_id=Seal.objects.first().pk, content={"a": 1})
    assert (row.number, row.previous_sha256) == (1, "0" * 64)


def test_sealing_again_gives_the_seal_that_is_there(sealed):
    there = Seal.objects.get(number=1)
    with transaction.atomic():
        again = seal(site=sealed.site, kind=there.kind, subject_id=there.subject_id, content={"other": True})
    assert again == there
    assert Seal.objects.count() == 3


@pytest.mark.django_db(transaction=True)
def test_a_seal_stands_or_falls_with_its_transaction(kitchen):
    with pytest.raises(transaction.TransactionManagementError):
        seal(site=kitchen.site, kind="delivery", subject_id=kitchen.order.pk, content={})


def test_the_database_refuses_a_number_twice(sealed):
    one = Seal.objects.get(number=1)
    one.pk, one.subject_id, one.sha256 = sealed.order.pk, sealed.order.pk, "f" * 64
    one._state.adding = True
    with pytest.raises(IntegrityError), transaction.atomic():
        one.save(force_insert=True)


def change(model, **values):
    """A row altered behind the application's back; rows that are written once too."""
    def tamper():
        behind(model).filter(pk=model._default_manager.order_by("pk").first().pk).update(**values)

    return tamper


def change_document():
    row = Delivery.objects.get(docket_number="DN-1")
    row.document["lines"][0]["cartons"][0]["temperature"]["product"]["entered"] = "-19,5"
    behind(Delivery).filter(pk=row.pk).update(document=row.document)


def change_content():
    row = Seal.objects.get(number=1)
    behind(Seal).filter(pk=row.pk).update(content=bytes(row.content).replace(b"-9,5", b"-8,5"))


def change_number():
    behind(Seal).filter(number=2).update(number=7)


def change_photo():
    photo = Photo.objects.get()
    storage.put(photo.stored_name, storage.read(photo.stored_name) + b" ")


def change_cartons():
    behind(Carton).update(is_defective=True)


def lose_copy():
    storage.photos().delete(SharedCopy.objects.get().stored_name)


def lose_seal():
    behind(Seal).filter(number=2).delete()


TAMPERED = [
    (change_document, "its document is not the one that was sealed"),
    (change(Delivery, difference=[{"path": "x"}]), "its difference is not the one that was sealed"),
    (change(DocketLine, cartons_counted=21, accepted=21, refused=0, held=0), "the row of line 1 tells otherwise"),
    (change_cartons, "the cartons of line 1 tell otherwise"),
    (change(Delivery, receiver_signed_at=None), "when the receiver signed is not as it was sealed"),
    (change(Reading, value=-25.0), "its readings tell otherwise"),
    (change(Finding, kind="NOTHING"), "its findings tell otherwise"),
    (change(LimitSet, data={"limits": []}), "the limits are not the ones"),
    (change(Addendum, body={"cartons": []}), "put-away is not the one that was sealed"),
    (change_content, "its sealed record was altered"),
    (change_number, "seal 2 is missing before it"),
    (lose_seal, "has no seal"),
    (change(Seal, signature="AAAA"), "its signature does not hold"),
    (change(Seal, previous_sha256="f" * 64), "its statement was altered"),
    (change(SealingKey, pem="-----BEGIN PUBLIC KEY-----\n"), "its public key was altered"),
    (change_photo, "is gone or was altered"),
    (lose_copy, "that may be shown is gone or was altered"),
]


def test_what_was_found_of_black_spot_cannot_be_altered_unseen(sealed):
    behind(Carton).update(black_spot="beyond")
    assert any("the cartons of line 1 tell otherwise" in one for one in what(sealed))


@pytest.mark.parametrize(("tamper", "told"), TAMPERED, ids=[told for _, told in TAMPERED])
def test_what_was_altered_is_found_and_named(sealed, tamper, told):
    tamper()
    found = what(sealed)
    assert any(told in one for one in found), found


def test_a_chain_written_anew_without_the_key_is_found(sealed):
    """Somebody alters a record and makes all hashes fit again; only the signature cannot be made."""
    row = Seal.objects.get(number=1)
    row.content = bytes(row.content).replace(b"-9,5", b"-8,5")
    from inspections.evidence.canonical import sha256_hex

    row.content_sha256 = sha256_hex(row.content)
    row.sha256 = row.statement().sha256
    behind(Seal).filter(pk=row.pk).update(
        content=row.content, content_sha256=row.content_sha256, sha256=row.sha256
    )
    behind(Seal).filter(number=2).update(previous_sha256=row.sha256)
    assert "its signature does not hold" in what(sealed)


def test_the_command_names_what_it_found_and_fails(sealed):
    out = io.StringIO()
    call_command("verify_seals", stdout=out)
    assert "HAR: 3 seals" in out.getvalue()
    change_document()
    guards.install()
    out = io.StringIO()
    with pytest.raises(CommandError, match="1 things are not as they were sealed"):
        call_command("verify_seals", "--site", "HAR", stdout=out)
    assert "HAR seal 1: delivery DN-1: its document is not the one that was sealed" in out.getvalue()
    with pytest.raises(CommandError, match="no site with the code XYZ"):
        call_command("verify_seals", "--site", "XYZ")


def test_the_seals_of_a_delivery_are_told_with_their_keys(sealed, phone):
    delivery = Delivery.objects.get(docket_number="DN-2")
    told = phone.client.get(f"/api/deliveries/{delivery.pk}/seals").json()
    assert [one["kind"] for one in told["seals"]] == ["delivery", "addendum"]
    assert set(told["public_keys"]) == {told["seals"][0]["public_key_id"]}
    assert Phone(sealed.stranger).client.get(f"/api/deliveries/{delivery.pk}/seals").status_code == 404


def test_what_is_sealed_holds_no_address_price_or_place(sealed):
    content = json.loads(bytes(Seal.objects.get(number=1).content))
    text = json.dumps(content)
    for private in ("@", "price", "14.5", "GPS", "contact"):
        assert private not in text
    (photo,) = content["photos"]
    assert photo["sha256"] == sha256_of(with_place()) != photo["shared_sha256"]
