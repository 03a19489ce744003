"""The machine's advice lies in the bundle beside the seal: whole, every answer, and never taken for evidence."""
import io
import json
import zipfile

import pytest
from django.core.management import CommandError, call_command
from django.test import Client

from inspections.evidence.bundle import write_bundle
from inspections.evidence.bundle_advice import GONE
from inspections.evidence.links import make_link
from inspections.records import storage
from inspections.records.models import Delivery
from tests.inspections.evidence.test_bundle import rewritten
from tests.inspections.evidence.test_given_advice import NONE_SEEN, PNG, SEEN, answer
from tests.inspections.evidence.test_given_advice import delivery as delivery  # the fixture
from tests.inspections.receiving import sha256_of


@pytest.fixture
def answered(delivery) -> Delivery:
    """One photo, answered before signing and again by a newer method, each answer with its pictures."""
    answer(delivery, NONE_SEEN, minutes=-2, name="old")
    answer(delivery, SEEN, minutes=60, name="new")
    return delivery


def bundle_of(delivery: Delivery, tmp_path):
    path = tmp_path / "bundle.zip"
    with open(path, "wb") as file:
        write_bundle(delivery, file)
    return path


def part(path, name: str) -> bytes:
    with zipfile.ZipFile(path) as bundle:
        return bundle.read(name)


def names(path) -> list[str]:
    with zipfile.ZipFile(path) as bundle:
        return bundle.namelist()


def told(path) -> list[dict]:
    return json.loads(part(path, "photo-advice/answers.json"))["photos"]


def checked(path) -> str:
    out = io.StringIO()
    call_command("verify_bundle", str(path), stdout=out)
    return out.getvalue()


def test_every_answer_is_in_it_as_it_was_given_oldest_first(answered, tmp_path):
    [photo] = told(bundle_of(answered, tmp_path))
    assert [one["answer_as_given"] for one in photo["answers"]] == [NONE_SEEN, SEEN]
    assert [one["was_there_at_signing"] for one in photo["answers"]] == [True, False]
    assert [one["in_words"] for one in photo["answers"]] == [
        "No darkening seen.", "Darkening seen on about 8.0 % of the prawns’ surface (5.0 % to 11.0 %)."
    ]  # fmt: skip
    assert photo["answers"][0]["told_to_the_program"] == {
        "species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "top"
    }  # fmt: skip
    record = json.loads(part(bundle_of(answered, tmp_path), "record.json"))
    assert (photo["sha256"], photo["shared_sha256"]) == (
        record["photos"][0]["sha256"], record["photos"][0]["shared_sha256"]
    )  # fmt: skip


def test_each_answer_has_its_own_pictures_named_by_their_hash(answered, tmp_path):
    path = bundle_of(answered, tmp_path)
    old, new = told(path)[0]["answers"]
    for one, name in ((old, b"old"), (new, b"new")):
        for kind, ending in (("overlay", "jpg"), ("histogram", "png")):
            assert one[kind] == {"file": f"photo-advice/{sha256_of(PNG + name)}.{ending}"}
            assert part(path, one[kind]["file"]) == PNG + name


def test_the_sealed_parts_are_the_same_with_and_without_it(delivery, tmp_path):
    before = bundle_of(delivery, tmp_path).read_bytes()
    without = {name: part(io.BytesIO(before), name) for name in names(io.BytesIO(before))}
    answer(delivery, SEEN, minutes=60, name="new")
    after = bundle_of(delivery, tmp_path)
    assert not any(name.startswith("photo-advice/") for name in without)
    assert {name for name in names(after) if not name.startswith("photo-advice/")} == set(without)
    assert all(part(after, name) == content for name, content in without.items() if name != "README.txt")


def test_both_readmes_say_that_it_is_not_sealed_and_how_it_was_made(answered, tmp_path):
    path = bundle_of(answered, tmp_path)
    whole, own = part(path, "README.txt").decode(), part(path, "photo-advice/README.txt").decode()
    assert "photo-advice/" in whole
    assert "No seal covers it" in whole
    assert "NOT part of the sealed record" in own
    assert "How it was made" in own
    assert max(len(line) for line in own.splitlines()) <= 120


def test_without_any_answer_neither_folder_nor_word_of_it(delivery, tmp_path):
    path = bundle_of(delivery, tmp_path)
    assert "photo-advice" not in part(path, "README.txt").decode()
    assert "Beside the seal" not in checked(path)


def test_a_picture_that_is_gone_holds_nothing_back_and_is_said_to_be_gone(answered, tmp_path):
    storage.photos().delete("derived/x/overlay-old")
    path = bundle_of(answered, tmp_path)
    assert told(path)[0]["answers"][0]["overlay"] == {"file": None, "why": GONE}
    assert "checks hold" in checked(path)


def test_our_command_holds_and_tells_of_it_apart_from_the_seal(answered, tmp_path):
    said = checked(bundle_of(answered, tmp_path))
    sealed, beside = said.split("Beside the seal")
    assert "photo-advice" not in sealed
    assert "No seal covers it" in beside
    assert "its photos are of this record (answers given: 2, photos answered: 1)" in beside
    assert beside.count(": belongs to an answer and is whole") == 4
    assert "All 10 checks hold." in said


def fails(path) -> str:
    """What the command names as not holding, where all that was sealed holds."""
    out = io.StringIO()
    with pytest.raises(CommandError, match=r"do not hold\. All that was sealed holds"):
        call_command("verify_bundle", str(path), stdout=out)
    return "\n".join(line for line in out.getvalue().splitlines() if line.startswith("DOES NOT"))


def test_a_picture_of_it_that_was_changed_left_out_or_slipped_in_does_not_hold(answered, tmp_path):
    path = bundle_of(answered, tmp_path)
    name = f"photo-advice/{sha256_of(PNG + b'old')}.jpg"
    assert name in fails(rewritten(path, name, lambda content: content + b" "))
    assert name in fails(rewritten(path, name, lambda content: None))
    with zipfile.ZipFile(path, "a") as bundle:
        bundle.writestr("photo-advice/" + sha256_of(b"x") + ".png", b"x")
    assert sha256_of(b"x") in fails(path)


def test_answers_to_another_record_s_photos_do_not_hold(answered, tmp_path):
    path = bundle_of(answered, tmp_path)
    [photo] = told(path)
    other = rewritten(path, "photo-advice/answers.json",
                      lambda content: content.replace(photo["sha256"].encode(), b"0" * 64))
    assert "answers.json" in fails(other)


@pytest.mark.parametrize("content", [b"{", b"[]", b'{"photos": [{}]}', b'{"photos": 1}'])
def test_answers_that_cannot_be_read_are_said_to_be_so(answered, tmp_path, content):
    path = rewritten(bundle_of(answered, tmp_path), "photo-advice/answers.json", lambda _: content)
    with pytest.raises(CommandError, match="is no evidence bundle: a part"):
        call_command("verify_bundle", str(path), stdout=io.StringIO())


def test_the_supplier_s_page_says_that_it_is_in_the_file(kitchen, answered):
    page = Client().get("/e/" + make_link(delivery=answered, person=kitchen.manager)[1]).content.decode()
    assert "every answer of the machine to the photos with its pictures, not sealed" in page
