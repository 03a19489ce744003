"""Photos and the ways in which their sending breaks."""
import io
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection, connections
from django.http import UnreadablePostError

from inspections.records import storage
from inspections.records.models import Job, Photo
from inspections.sync import uploads
from inspections.sync.models import Upload
from tests.inspections.receiving import Phone, document, keep, photo_entry, picture, sha256_of

CONTENT = picture("coral", size=(640, 480))


class Killed(BaseException):
    """The process ends here; no handler of ours runs after it."""


def killed(*args, **kwargs):
    raise Killed


def upload_of(phone, content=CONTENT) -> Upload:
    return Upload.objects.get(pk=phone.begin(content)["Location"].rsplit("/", 1)[1])


def test_killed_between_the_written_piece_and_its_answer_goes_on_from_the_file(kitchen, phone, monkeypatch):
    at = phone.begin(CONTENT)["Location"]
    append = uploads._append

    def append_and_die(*args):
        append(*args)
        raise Killed

    with monkeypatch.context() as patch:
        patch.setattr(uploads, "_append", append_and_die)
        with pytest.raises(Killed):
            uploads.receive(upload_of(phone), offset=0, body=io.BytesIO(CONTENT[:100]))
    assert phone.ask(at)["Upload-Offset"] == "100"
    assert phone.piece(at, CONTENT[:100], 0).status_code == 409  # the phone never saw the answer
    assert phone.piece(at, CONTENT[100:], 100).status_code == 204
    assert storage.read(storage.photo_name(sha256_of(CONTENT))) == CONTENT


@pytest.mark.parametrize("step", ["keep_bytes", "made_copy", "_finished", "waiting_for"])
def test_killed_anywhere_in_the_last_step_is_finished_by_the_next_question(kitchen, phone, monkeypatch, step):
    at = phone.begin(CONTENT)["Location"]
    with monkeypatch.context() as patch:
        patch.setattr(uploads, step, killed)
        with pytest.raises(Killed):
            phone.piece(at, CONTENT, 0)
    assert phone.ask(at)["Upload-Offset"] == str(len(CONTENT))
    assert Photo.objects.count() == 1
    assert Upload.objects.get().is_stored


def test_killed_after_storing_before_the_document_heard_still_gets_its_job(kitchen, phone, monkeypatch):
    phone.put(document(kitchen, photos=[photo_entry(CONTENT)]))
    at = phone.begin(CONTENT)["Location"]
    with monkeypatch.context() as patch:
        patch.setattr(uploads, "use_photos", killed)
        with pytest.raises(Killed):
            phone.piece(at, CONTENT, 0)
    assert not Job.objects.exists()
    phone.ask(at)
    assert Job.objects.count() == 1


def test_a_broken_connection_keeps_what_has_come(kitchen, phone):
    class Breaks:
        def __init__(self):
            self.left = [CONTENT[:300]]

        def read(self, size):
            if not self.left:
                raise UnreadablePostError("gone")
            return self.left.pop()

    upload = upload_of(phone)
    assert uploads.receive(upload, offset=0, body=Breaks()).offset == 300
    assert uploads.progress(upload).offset == 300


def test_a_full_disk_is_said_in_a_sentence_and_the_rest_is_kept(kitchen, phone, monkeypatch):
    at = phone.begin(CONTENT)["Location"]
    phone.piece(at, CONTENT[:100], 0)

    class Full:
        def read(self, size):
            raise OSError(28, "No space left on device")

    from inspections.errors import Unprocessable

    with pytest.raises(Unprocessable) as told:
        uploads.receive(upload_of(phone), offset=100, body=Full())
    assert told.value.code == "UPLOAD-NO-ROOM"
    assert phone.ask(at)["Upload-Offset"] == "100"


def test_twins_of_one_piece_are_written_once(kitchen, phone):
    upload = upload_of(phone)
    meet = threading.Barrier(2)

    class Slow:
        """Both twins are inside ``receive`` before either has a byte, if both get in."""

        def __init__(self):
            self.body = io.BytesIO(CONTENT)

        def read(self, size):
            try:
                meet.wait(0.3)
            except threading.BrokenBarrierError:
                pass
            return self.body.read(size)

    def send(_):
        try:
            return uploads.receive(upload, offset=0, body=Slow()).offset
        except Exception as trouble:
            return trouble
        finally:
            connections.close_all()

    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(send, range(2)))
    assert len(CONTENT) in answers
    assert {getattr(one, "code", "ok") for one in answers} <= {"ok", "UPLOAD-BUSY", "UPLOAD-OFFSET"}
    assert Photo.objects.count() == 1
    assert storage.read(storage.photo_name(sha256_of(CONTENT))) == CONTENT


def test_the_same_photo_from_two_phones_is_stored_once(kitchen, phone, other_phone):
    one, other = phone.begin(CONTENT)["Location"], other_phone.begin(CONTENT)["Location"]
    assert one != other
    phone.piece(one, CONTENT[:50], 0)
    other_phone.piece(other, CONTENT, 0)
    assert phone.ask(one)["Upload-Offset"] == str(len(CONTENT))
    assert phone.piece(one, CONTENT[50:], 50).status_code == 409
    assert Photo.objects.count() == 1


def test_begun_twice_at_once_is_one_upload(kitchen):
    def begin(_):
        try:
            return Phone(kitchen.receiver).begin(CONTENT)["Location"]
        finally:
            connections.close_all()

    with ThreadPoolExecutor(4) as pool:
        found = set(pool.map(begin, range(4)))
    assert len(found) == 1
    assert Upload.objects.count() == 1
    connection.close()


def test_a_photo_stored_behind_the_uploads_back_needs_no_more_bytes(kitchen, phone):
    at = phone.begin(CONTENT)["Location"]
    keep(CONTENT)
    assert phone.ask(at)["Upload-Offset"] == str(len(CONTENT))
