"""What must hold when the power fails or two sign at once, each asked for directly."""
import os
import threading
from uuid import uuid4

from django.db import connections, transaction
from django.http import UnreadablePostError

from inspections.evidence.models import Seal
from inspections.evidence.seals import seal
from inspections.sync import room, uploads
from inspections.sync.models import Upload
from tests.inspections.receiving import picture

CONTENT = picture("coral", size=(640, 480))


def flushed_sizes(monkeypatch, part) -> list[int]:
    """How long the part file was each time that it was flushed to disk."""
    sizes, flush = [], os.fsync

    def noted(handle):
        flush(handle)
        if part.exists() and os.path.samestat(os.fstat(handle), part.stat()):
            sizes.append(part.stat().st_size)

    monkeypatch.setattr(os, "fsync", noted)
    return sizes


def test_a_piece_is_on_disk_before_it_is_acknowledged(kitchen, phone, monkeypatch):
    at = phone.begin(CONTENT)["Location"]
    sizes = flushed_sizes(monkeypatch, room.part_of(Upload.objects.get()))
    assert phone.piece(at, CONTENT[:100], 0)["Upload-Offset"] == "100"
    assert sizes == [100]
    assert phone.piece(at, CONTENT[100:300], 100)["Upload-Offset"] == "300"
    assert sizes == [100, 300]


def test_what_came_before_the_connection_broke_is_on_disk_too(kitchen, phone, monkeypatch):
    phone.begin(CONTENT)
    upload = Upload.objects.get()
    sizes = flushed_sizes(monkeypatch, room.part_of(upload))

    class Broken:
        pieces = [CONTENT[:70]]

        def read(self, size):
            if not self.pieces:
                raise UnreadablePostError("gone")
            return self.pieces.pop()

    assert uploads.receive(upload, offset=0, body=Broken()).offset == 70
    assert sizes == [70]


def test_two_that_seal_at_one_site_follow_each_other(kitchen):
    """The second waits for the first's end: PostgreSQL by the site's row, SQLite by its one writer."""
    has_sealed, may_end, second, trouble = threading.Event(), threading.Event(), threading.Event(), []

    def first_one():
        try:
            with transaction.atomic():
                seal(site=kitchen.site, kind="delivery", subject_id=uuid4(), content={"n": 1})
                has_sealed.set()
                may_end.wait(10)
        finally:
            connections.close_all()

    def second_one():
        try:
            has_sealed.wait(10)
            with transaction.atomic():
                seal(site=kitchen.site, kind="delivery", subject_id=uuid4(), content={"n": 2})
            second.set()
        except Exception as odd:
            trouble.append(odd)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=one) for one in (first_one, second_one)]
    for thread in threads:
        thread.start()
    assert has_sealed.wait(10)
    assert not second.wait(0.5)
    may_end.set()
    for thread in threads:
        thread.join(20)
    assert trouble == []
    one, two = Seal.objects.order_by("number")
    assert (one.number, two.number, two.previous_sha256) == (1, 2, one.sha256)
