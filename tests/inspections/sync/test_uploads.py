"""Photos in pieces. Behaviour by the tus resumable upload protocol 1.0.0 (tus.io), whose clauses are named."""
import hashlib
from uuid import uuid4

import pytest

from inspections.records import storage
from inspections.records.models import Photo
from inspections.sync.models import Upload
from tests.inspections.receiving import Phone, sha256_of

HEADERS = {"Tus-Resumable": "1.0.0"}


def noisy(size: tuple[int, int] = (200, 150)) -> bytes:
    """A picture that does not compress to nothing: some kilobytes."""
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.frombytes("RGB", size, hashlib.shake_256(b"tide").digest(size[0] * size[1] * 3)).save(out, "JPEG", quality=90)
    return out.getvalue()


def test_a_photo_goes_in_pieces_and_is_acknowledged_when_it_is_kept(kitchen, phone):
    """Creation: 201 with Location; PATCH: 204 with the new Upload-Offset; HEAD: offset, length, no-store."""
    content = noisy()
    begun = phone.begin(content)
    assert begun.status_code == 201
    at, half = begun["Location"], len(content) // 2
    first = phone.piece(at, content[:half], 0)
    assert (first.status_code, first["Upload-Offset"]) == (204, str(half))
    asked = phone.ask(at)
    assert asked.status_code == 200
    assert (asked["Upload-Offset"], asked["Upload-Length"]) == (str(half), str(len(content)))
    assert asked["Cache-Control"] == "no-store"
    assert phone.client.head(f"/sync/photos/{sha256_of(content)}").status_code == 404
    last = phone.piece(at, content[half:], half)
    assert (last.status_code, last["Upload-Offset"]) == (204, str(len(content)))
    assert phone.client.head(f"/sync/photos/{sha256_of(content)}").status_code == 200
    assert storage.read(storage.photo_name(sha256_of(content))) == content
    for answer in (begun, first, asked, last):
        assert answer["Tus-Resumable"] == "1.0.0"


def test_options_tell_what_the_server_can(kitchen, phone, settings):
    """OPTIONS: Tus-Version, Tus-Extension, Tus-Max-Size; needs no Tus-Resumable."""
    answer = phone.client.options("/sync/uploads/")
    assert answer.status_code == 204
    assert answer["Tus-Version"] == "1.0.0"
    assert set(answer["Tus-Extension"].split(",")) == {"creation", "termination"}
    assert answer["Tus-Max-Size"] == str(settings.MAX_PHOTO_BYTES)


@pytest.mark.parametrize("version", [None, "0.2.2", "2.0.0"])
def test_another_version_of_the_protocol_is_412(kitchen, phone, version):
    """Tus-Resumable: 412 Precondition Failed, with Tus-Version, and nothing is processed."""
    headers = {"Tus-Resumable": version} if version else {}
    answer = phone.client.post("/sync/uploads/", b"", content_type="application/offset+octet-stream",
                               headers={"Upload-Length": "10", **headers})
    assert answer.status_code == 412
    assert answer["Tus-Version"] == "1.0.0"
    assert not Upload.objects.exists()


@pytest.mark.parametrize("offset", [0, 5, 11, 99])
def test_a_piece_out_of_turn_is_409_and_changes_nothing(kitchen, phone, offset):
    """PATCH: 409 Conflict when the offset is not the current one, the upload left as it is."""
    content = noisy()
    at = phone.begin(content)["Location"]
    phone.piece(at, content[:10], 0)
    answer = phone.piece(at, content[10:20], offset)
    assert answer.status_code == 409
    assert answer.json()["code"] == "UPLOAD-OFFSET"
    assert answer["Upload-Offset"] == "10"
    assert phone.ask(at)["Upload-Offset"] == "10"


def test_a_piece_of_another_type_is_415(kitchen, phone):
    """PATCH: 415 Unsupported Media Type unless application/offset+octet-stream."""
    at = phone.begin(noisy())["Location"]
    answer = phone.client.patch(at, b"x", content_type="application/octet-stream",
                                headers={**HEADERS, "Upload-Offset": "0"})
    assert answer.status_code == 415
    assert phone.ask(at)["Upload-Offset"] == "0"


def test_an_upload_that_is_not_there_is_404(kitchen, phone):
    assert phone.ask("/sync/uploads/018f0000-0000-7000-8000-00000000ffff").status_code == 404


def test_termination_forgets_it(kitchen, phone):
    """Termination: DELETE answers 204, later requests 404 or 410."""
    content = noisy()
    at = phone.begin(content)["Location"]
    phone.piece(at, content[:10], 0)
    assert phone.client.delete(at, headers=HEADERS).status_code == 204
    assert phone.ask(at).status_code == 404
    assert not Upload.objects.exists()


def test_the_same_photo_begun_again_goes_on_where_it_was(kitchen, phone):
    content = noisy()
    first = phone.begin(content)
    phone.piece(first["Location"], content[:100], 0)
    again = phone.begin(content)
    assert again["Location"] == first["Location"]
    assert again["Upload-Offset"] == "100"


def test_a_photo_that_is_stored_is_complete_at_once(kitchen, phone, other_phone):
    content = noisy()
    phone.send_photo(content)
    begun = other_phone.begin(content)
    assert begun.status_code == 201
    assert begun["Upload-Offset"] == str(len(content))
    assert other_phone.ask(begun["Location"])["Upload-Offset"] == str(len(content))


def test_bytes_with_another_hash_are_discarded(kitchen, phone):
    """460: the status that the tus checksum extension uses for a mismatch."""
    content = noisy()
    at = phone.begin(content, sha256=sha256_of(b"something else"))["Location"]
    answer = phone.piece(at, content, 0)
    assert answer.status_code == 460
    assert answer.json()["code"] == "PHOTO-OTHER-BYTES"
    assert phone.ask(at).status_code == 404
    assert not Photo.objects.exists()


def test_a_photo_over_the_limit_is_413_before_a_byte_is_sent(kitchen, phone, settings):
    """Creation: 413 when the length is over Tus-Max-Size."""
    answer = phone.begin(b"", sha256=sha256_of(b"x"), length=settings.MAX_PHOTO_BYTES + 1)
    assert answer.status_code == 413
    assert answer.json()["code"] == "UPLOAD-TOO-LARGE"


def test_a_piece_over_the_limit_is_413(kitchen, phone, settings):
    settings.MAX_UPLOAD_PIECE_BYTES = 1000
    content = noisy()
    at = phone.begin(content)["Location"]
    assert phone.piece(at, content[:1001], 0).status_code == 413
    assert phone.ask(at)["Upload-Offset"] == "0"


def test_more_than_the_photo_has_is_not_kept(kitchen, phone):
    content = noisy()
    at = phone.begin(content)["Location"]
    answer = phone.piece(at, content + b"and more", 0)
    assert answer.status_code == 413
    assert answer.json()["code"] == "UPLOAD-TOO-LONG"
    # What belongs to the photo has arrived, so the next question finishes it.
    assert phone.ask(at)["Upload-Offset"] == str(len(content))
    assert Photo.objects.count() == 1


@pytest.mark.parametrize(("name", "value"), [
    ("Upload-Length", ""), ("Upload-Length", "-1"), ("Upload-Length", "ten"),
    ("Upload-Metadata", "sha256 ***"), ("Upload-Metadata", ""), ("Upload-Metadata", "sha256 Li4vLi4vZXRjL3Bhc3N3ZA=="),
])
def test_headers_that_say_nothing_usable_are_refused(kitchen, phone, name, value):
    answer = phone.begin(noisy(), **{name: value})
    assert answer.status_code == 400
    assert answer.json()["code"] == "UPLOAD-HEADERS"
    assert not Upload.objects.exists()


def test_nobody_else_sees_or_goes_on_with_an_upload(kitchen, phone, other_phone):
    content = noisy()
    at = phone.begin(content)["Location"]
    assert other_phone.ask(at).status_code == 404
    assert other_phone.piece(at, content, 0).status_code == 404
    assert other_phone.client.delete(at, headers=HEADERS).status_code == 404
    assert Phone(kitchen.stranger).ask(at).status_code == 404


def test_no_part_file_is_left_of_a_stored_photo(kitchen, phone, apart):
    phone.send_photo(noisy())
    assert list((apart / "uploads").iterdir()) == []


def test_an_answer_without_a_body_still_carries_the_code(kitchen, phone):
    """The answer to a HEAD has none; a phone tells “gone” from “ask again” by the header."""
    answer = phone.client.head(f"/sync/uploads/{uuid4()}", headers={"Tus-Resumable": "1.0.0"})
    assert (answer.status_code, answer.content, answer["X-Underlid-Problem"]) == (404, b"", "NOT-FOUND")
    unspoken = phone.client.head(f"/sync/uploads/{uuid4()}")
    assert (unspoken.status_code, unspoken["X-Underlid-Problem"]) == (412, "TUS-VERSION")
