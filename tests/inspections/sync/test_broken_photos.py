"""A photo may arrive cut, empty or as something else: it is kept, said so wherever it is shown, and blocks nothing."""
import io
import json
import zipfile

import pytest

from inspections.evidence.bundle import write_bundle
from inspections.evidence.bundle_check import check_bundle
from inspections.evidence.checking import verify_chain
from inspections.evidence.links import make_link
from inspections.evidence.models import Seal
from inspections.records import storage
from inspections.records.models import Delivery, Job, Photo
from tests.inspections.receiving import decide, document, photo_entry, sha256_of, with_place
from tests.inspections.records.test_photos import BROKEN, cut

#: The beginning of a photo with its place in it, as in the finding that this test came from.
CUT_JPEG = cut("JPEG", 1)[:5000]
FILES = {**{name: content for name, (content, _) in BROKEN.items()}, "5,000 bytes of a JPEG": CUT_JPEG,
         "JPEG with a place, cut": with_place()[:-40]}


@pytest.fixture
def signed(kitchen, phone):
    def sign(content: bytes) -> Delivery:
        final = decide(document(kitchen, photos=[photo_entry(content, purpose="top")]))
        assert phone.put(final).status_code == 201
        at = phone.begin(content)
        assert at.status_code == 201
        if content:
            assert phone.piece(at["Location"], content, 0).status_code == 204
        assert phone.client.head(f"/sync/photos/{sha256_of(content)}").status_code == 200
        answer = phone.sign(final)
        assert answer.status_code == 200, answer.content
        return Delivery.objects.get()

    return sign


@pytest.mark.parametrize("content", FILES.values(), ids=FILES)
def test_it_is_kept_signed_sealed_and_given_to_nobody(kitchen, signed, content, tmp_path):
    delivery = signed(content)
    assert storage.read(storage.photo_name(sha256_of(content))) == content
    (sealed,) = json.loads(bytes(Seal.objects.get().content))["photos"]
    assert sealed["unreadable"] == Photo.objects.get().unreadable != ""
    assert (sealed["sha256"], sealed["shared_sha256"], sealed["shared_how"]) == (sha256_of(content), None, "withheld")
    assert verify_chain(kitchen.site) == []
    path = tmp_path / "bundle.zip"
    with open(path, "w+b") as file:
        write_bundle(delivery, file)
    assert all(one.holds for one in check_bundle(path))
    with zipfile.ZipFile(path) as bundle:
        assert not [name for name in bundle.namelist() if name.startswith("photos/")]
        assert bundle.read("photos.txt").decode() == f"{sha256_of(content)}  withheld  -\n"


def test_every_place_that_shows_photos_says_so(kitchen, phone, signed):
    delivery, sha256 = signed(CUT_JPEG), sha256_of(CUT_JPEG)
    sentence = "Part of the photo is missing or damaged. It is kept as it came"
    (shown,) = phone.client.get(f"/api/deliveries/{delivery.pk}").json()["photos"]
    assert shown["unreadable"].startswith(sentence)
    advice = phone.client.get(f"/sync/advisories?delivery={delivery.pk}").json()["photos"][sha256]
    assert (advice["answer"], advice["reasons"][0]["code"]) == ("cannot_tell", "UNREADABLE")
    assert advice["reasons"][0]["text"].startswith(sentence)
    assert not Job.objects.exists()
    _, token = make_link(delivery=delivery, person=kitchen.manager)
    link = f"/e/{token}"
    page = phone.client.get(link).content.decode()
    assert sentence in page
    assert f"{sha256}/thumb" not in page
    assert phone.client.get(f"{link}/photos/{sha256}/original").status_code == 404


def test_its_file_is_saved_and_never_shown(kitchen, phone, signed):
    content, _ = BROKEN["page"]
    signed(content)
    original = phone.client.get(f"/api/photos/{sha256_of(content)}/original")
    assert b"".join(original.streaming_content) == content
    assert original["Content-Type"] == "application/octet-stream"
    assert original["Content-Disposition"].startswith("attachment")
    for size in ("thumb", "screen"):
        answer = phone.client.get(f"/api/photos/{sha256_of(content)}/{size}")
        assert (answer.status_code, answer.json()["code"]) == (404, "PHOTO-UNREADABLE")


def test_a_photo_that_breaks_only_in_its_copying_is_withheld(kitchen, signed, monkeypatch):
    """A whole frame around damaged pixels: a place in a HEIC can only be taken out by writing the picture anew."""
    from inspections.evidence import sharing

    def breaks(content):
        raise OSError("image file is truncated")

    monkeypatch.setattr(sharing, "without_place", breaks)
    delivery = signed(with_place())
    (sealed,) = json.loads(bytes(Seal.objects.get().content))["photos"]
    assert (sealed["shared_how"], "unreadable" in sealed) == ("withheld", False)
    write_bundle(delivery, io.BytesIO())


def test_a_photo_whose_file_is_gone_is_told_in_a_sentence(kitchen, phone, signed):
    signed(with_place())
    storage.photos().delete(Photo.objects.get().stored_name)
    answer = phone.client.get(f"/api/photos/{Photo.objects.get().pk}/original")
    assert (answer.status_code, answer.json()["code"]) == (404, "PHOTO-GONE")
