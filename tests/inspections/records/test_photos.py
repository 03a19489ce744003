"""Photos: kept under their hash, refused in a sentence, advised on with what was ordered."""
import hashlib
import io
import struct
import zlib

import pytest
from django.test import override_settings
from PIL import Image

from inspections.errors import Unprocessable
from inspections.people.models import Site
from inspections.records import storage
from inspections.records.models import Job, Photo, PhotoUse
from inspections.records.photo_answers import UNREADABLE
from inspections.records.services.photo import receive_photos, store_photo, use_photos
from tests.factories import a_document, a_jpeg, a_line, photo_entry
from tests.inspections.receiving import advice_context


def store(content: bytes, sha256: str = "") -> Photo:
    """Stored, as if it had arrived from every site."""
    photo = store_photo(sha256=sha256 or hashlib.sha256(content).hexdigest(), path_or_bytes=content)
    receive_photos(hashes=[photo.pk], sites=Site.objects.all())
    return photo


def refused(content: bytes, sha256: str = "") -> Unprocessable:
    with pytest.raises(Unprocessable) as caught:
        store(content, sha256)
    assert not Photo.objects.exists()
    return caught.value


def png_head(width: int, height: int, body: bytes = b"x") -> bytes:
    """A PNG of that size that breaks off in its picture (chunks: PNG, W3C 2003, section 5.3)."""

    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body)


def test_a_photo_lies_under_the_hash_of_its_bytes(db):
    content = a_jpeg()
    photo = store(content)
    assert (photo.bytes, photo.content_type, photo.width, photo.height) == (len(content), "image/jpeg", 64, 48)
    assert photo.stored_name == f"{photo.sha256[:2]}/{photo.sha256}"
    assert storage.read(photo.stored_name) == content


def test_a_photo_is_kept_as_taken_from_a_file_too(db, tmp_path):
    path = tmp_path / "coming"
    path.write_bytes(a_jpeg(80))
    photo = store_photo(sha256=hashlib.sha256(path.read_bytes()).hexdigest(), path_or_bytes=path)
    assert storage.read(photo.stored_name) == path.read_bytes()


def test_the_same_photo_again_is_the_same_row(db):
    assert store(a_jpeg()) == store(a_jpeg())
    assert Photo.objects.count() == 1


def test_other_bytes_than_were_announced_are_refused(db):
    assert refused(a_jpeg(), "0" * 64).code == "PHOTO-OTHER-BYTES"


def cut(kind: str, share: float) -> bytes:
    """The beginning of a picture that does not compress to nothing."""
    out = io.BytesIO()
    noise = hashlib.shake_256(b"tide").digest(320 * 240 * 3)
    Image.frombytes("RGB", (320, 240), noise).save(out, kind)
    return out.getvalue()[: int(len(out.getvalue()) * share)]


BROKEN = {
    "empty": (b"", "PHOTO-EMPTY"),
    "text": (b"this is a shopping list", "PHOTO-NOT-A-PICTURE"),
    "page": (b"<html><script>alert(1)</script>", "PHOTO-NOT-A-PICTURE"),
    "GIF": (b"GIF89a" + bytes(40), "PHOTO-NOT-A-PICTURE"),
    "JPEG head": (b"\xff\xd8\xff", "PHOTO-DAMAGED"),
    **{f"{kind} cut at {share}": (cut(kind, share), "PHOTO-DAMAGED")
       for kind in ("JPEG", "PNG", "WEBP", "HEIF") for share in (0.05, 0.5, 0.999)},
    "PNG broken off": (png_head(640, 480), "PHOTO-DAMAGED"),
    "PNG of 200 megapixels": (png_head(20000, 10000), "PHOTO-TOO-MANY-PIXELS"),
    "PNG of 100 megapixels in 12 KB": (png_head(10000, 10000, b"x" * 12000), "PHOTO-TOO-MANY-PIXELS"),
}


@pytest.mark.parametrize(("content", "code"), BROKEN.values(), ids=BROKEN)
def test_what_is_no_picture_is_kept_as_it_came_and_says_so(cast, content, code):
    photo = store(content)
    assert photo.unreadable == code
    assert storage.read(photo.stored_name) == content
    assert UNREADABLE[code].endswith("Nothing of it can be shown or looked at.")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_a_whole_picture_is_readable(cast, kind):
    photo = store(cut(kind, 1))
    assert (photo.unreadable, photo.width, photo.height) == ("", 320, 240)


def test_a_picture_in_printing_colours_can_be_shown(cast):
    """Only the advice cannot be given on it; a browser shows it."""
    out = io.BytesIO()
    Image.new("CMYK", (64, 48)).save(out, "JPEG")
    assert store(out.getvalue()).unreadable == ""


def test_no_work_is_written_for_what_cannot_be_read(cast, document):
    document["photos"] = [photo_entry(b"")]
    store(b"")
    assert len(use_photos(document=document)) == 1
    assert not Job.objects.exists()


def test_a_file_over_the_limit_is_refused(db):
    with override_settings(MAX_PHOTO_BYTES=100):
        assert refused(a_jpeg()).code == "PHOTO-TOO-LARGE"


@pytest.fixture
def document(cast) -> dict:
    line = a_line(cast.version)
    entry = photo_entry(a_jpeg(), line_id=line["id"], carton_id=line["cartons"][0]["id"])
    return a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, line, photos=[entry])


def test_a_use_is_noted_and_its_work_written_once(cast, document):
    store(a_jpeg())
    use_photos(document=document)
    use_photos(document=document)
    use, job = PhotoUse.objects.get(), Job.objects.get()
    assert (str(use.delivery_id), use.purpose, use.site) == (document["id"], "under_liner", cast.quay)
    assert job.subject["context"] == {
        "species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "under_liner",
    }  # fmt: skip


def test_a_photo_that_has_not_arrived_is_passed_over(cast, document):
    assert use_photos(document=document) == []
    assert not Job.objects.exists()


def test_a_photo_moved_to_another_carton_moves(cast, document):
    store(a_jpeg())
    use_photos(document=document)
    document["photos"][0]["carton_id"] = other = document["lines"][0]["cartons"][1]["id"]
    use_photos(document=document)
    assert str(PhotoUse.objects.get().carton_id) == other


def test_a_photo_of_the_load_tells_no_species(cast, document):
    context = advice_context(document, photo_entry(a_jpeg(), purpose="load"))
    assert context == {"species_code": None, "presentation": None, "state": None, "purpose": "load"}
