"""Quotas of photos on their way: they stop a phone gone wrong, and never a delivery at the door."""
import base64
import os
import shutil
from collections import namedtuple
from uuid import uuid4

import pytest

from inspections.sync import room
from inspections.sync.models import Upload
from tests.inspections.receiving import Phone, decide, document, photo_entry, sha256_of
from tests.inspections.records.test_photos import cut

PHOTO = cut("JPEG", 1)


def hash_of(number: int) -> str:
    return sha256_of(b"photo %d" % number)


@pytest.fixture
def few(monkeypatch):
    monkeypatch.setattr(room, "MOST_OF_PERSON", 3)
    monkeypatch.setattr(room, "MOST_OF_DEVICE", 2)


def fed(phone: Phone, number: int, length: int = 100, **headers) -> str:
    """An upload of which some bytes have come."""
    at = phone.begin(b"", sha256=hash_of(number), length=length, **headers)
    assert at.status_code == 201, at.content
    assert phone.piece(at["Location"], b"some", 0).status_code == 204
    return at["Location"]


def from_device(number: int, device: str) -> dict:
    spelled = {name: base64.b64encode(text.encode()).decode()
               for name, text in (("sha256", hash_of(number)), ("device", device))}
    return {"Upload-Metadata": ",".join(f"{name} {text}" for name, text in spelled.items())}


def test_uploads_begun_and_never_fed_stop_nobody(kitchen, phone):
    """498 of them gave 429 for every photo of that person."""
    Upload.objects.bulk_create(
        Upload(person=kitchen.receiver, sha256=hash_of(number), length=1000) for number in range(498)
    )
    final = decide(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.send_photo(PHOTO)
    assert phone.sign(final).status_code == 200
    assert Upload.objects.filter(is_stored=False).count() < room.MOST_OF_PERSON


def test_an_upload_that_gave_way_is_begun_anew(kitchen, phone, few):
    first = phone.begin(PHOTO)["Location"]
    for number in range(3):
        fed(phone, number)
    assert phone.ask(first).status_code == 404
    Upload.objects.exclude(sha256=sha256_of(PHOTO)).delete()
    assert phone.send_photo(PHOTO)


def test_too_many_with_bytes_wait_their_turn(kitchen, phone, other_phone, few):
    for number in range(3):
        fed(phone, number)
    answer = phone.begin(b"", sha256=hash_of(9), length=100)
    assert (answer.status_code, answer.json()["code"]) == (429, "UPLOAD-TOO-MANY")
    assert phone.begin(b"", sha256=hash_of(0), length=100)["Upload-Offset"] == "4"
    fed(other_phone, 9)


def test_too_many_from_one_device_leave_room_for_the_persons_other_one(kitchen, phone, few):
    one, other = str(uuid4()), str(uuid4())
    for number in range(2):
        fed(phone, number, **from_device(number, one))
    assert phone.begin(b"", length=100, **from_device(2, one)).status_code == 429
    assert phone.begin(b"", length=100, **from_device(2, other)).status_code == 201


def test_a_photo_that_a_delivery_needs_gets_through(kitchen, phone, few):
    for number in range(3):
        fed(phone, number)
    final = decide(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.put(final)
    phone.send_photo(PHOTO)
    assert phone.sign(final).status_code == 200
    assert Upload.objects.filter(is_stored=False).count() == 2  # the oldest gave way


def test_photos_that_deliveries_need_do_not_push_each_other_out(kitchen, phone, few):
    entries = [{**photo_entry(PHOTO), "sha256": hash_of(number)} for number in range(5)]
    phone.put(document(kitchen, photos=entries))
    places = [fed(phone, number) for number in range(5)]
    assert all(phone.ask(at)["Upload-Offset"] == "4" for at in places)


def test_even_needed_photos_are_bounded(kitchen, phone, few, monkeypatch):
    monkeypatch.setattr(room, "MOST_AT_ALL", 4)
    phone.put(document(kitchen, photos=[{**photo_entry(PHOTO), "sha256": hash_of(number)} for number in range(5)]))
    for number in range(4):
        fed(phone, number)
    assert phone.begin(b"", sha256=hash_of(4), length=100).status_code == 429


def test_naming_a_photo_at_another_site_makes_no_room(kitchen, phone, few):
    claim = document(kitchen, photos=[{**photo_entry(PHOTO), "sha256": hash_of(9)}])
    Phone(kitchen.stranger).put({**claim, "site_id": str(kitchen.other_site.pk), "order_id": None})
    for number in range(3):
        fed(phone, number)
    assert phone.begin(b"", sha256=hash_of(9), length=100).status_code == 429


def test_bytes_that_lie_unfinished_are_bounded(kitchen, phone, monkeypatch):
    monkeypatch.setattr(room, "MOST_BYTES_OF_PERSON", 8)
    fed(phone, 0), fed(phone, 1)
    assert phone.begin(b"", sha256=hash_of(2), length=100).status_code == 429


def test_the_last_of_the_disk_is_for_what_is_to_be_signed(kitchen, phone, monkeypatch):
    Usage = namedtuple("Usage", "total used free")
    monkeypatch.setattr(shutil, "disk_usage", lambda folder: Usage(0, 0, room.ROOM_KEPT))
    answer = phone.begin(PHOTO)
    assert (answer.status_code, answer.json()["code"]) == (507, "UPLOAD-NO-ROOM")
    final = decide(document(kitchen, photos=[photo_entry(PHOTO)]))
    phone.put(final)
    phone.send_photo(PHOTO)
    assert phone.sign(final).status_code == 200


def test_what_nobody_went_on_with_is_cleared_by_its_age(kitchen, phone, apart):
    at = fed(phone, 0)
    phone.begin(b"", sha256=hash_of(1), length=100)
    assert room.clear_stale() == 0
    Upload.objects.update(created_at="2026-01-01T00:00:00Z")
    assert room.clear_stale() == 1  # the one without a byte
    assert phone.ask(at)["Upload-Offset"] == "4"
    (part,) = (apart / "uploads").glob("*.part")
    old = part.stat().st_mtime - room.STALE_S - 1
    os.utime(part, (old, old))
    assert room.clear_stale() == 1
    assert not part.exists()
    assert not Upload.objects.exists()


def test_a_part_without_its_upload_is_cleared_after_a_day(kitchen, phone, apart):
    fed(phone, 0)
    Upload.objects.all().delete()
    (part,) = (apart / "uploads").glob("*.part")
    assert room.clear_stale() == 0
    old = part.stat().st_mtime - room.NEVER_FED_S - 1
    os.utime(part, (old, old))
    assert room.clear_stale() == 1
    assert not part.exists()


def test_an_upload_that_is_being_fed_gives_no_way(kitchen, phone):
    fed(phone, 0)
    import fcntl

    with open(room.part_of(Upload.objects.get()), "ab") as part:
        fcntl.flock(part, fcntl.LOCK_EX)
        assert not room.drop(Upload.objects.get())
    assert Upload.objects.exists()
