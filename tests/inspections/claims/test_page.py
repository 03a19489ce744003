"""The supplier's page: answered without account, cookie or script; hostile files; links that open nothing."""
import logging
import re
import zipfile
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.cache import cache
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from inspections.claims import files
from inspections.claims.models import Claim
from inspections.claims.services import draft_claim
from inspections.evidence.bundle import write_bundle
from inspections.evidence.bundle_check import check_bundle
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import EvidenceLink
from inspections.records import storage
from inspections.records.models import ClaimEntry, Delivery
from tests.inspections.claims.hostile import HOSTILE, SVG, photo_with_a_page_behind
from tests.inspections.logs import WARM_SPELL, a_log, csv_of
from tests.inspections.receiving import decide, document, picture, sha256_of


@pytest.fixture(autouse=True)
def forgotten():
    cache.clear()
    yield
    cache.clear()


@pytest.fixture
def at(claim, link) -> str:
    return f"/e/{link}/claims/{claim.pk}"


def answer(at: str, kind: str, *sent: SimpleUploadedFile, client: Client | None = None, **told):
    """The form as a browser without scripts sends it; no token of a form, no cookie."""
    body = {"kind": kind, "by": "Ade Winter", "id": str(uuid4()), **told}
    return (client or Client(enforce_csrf_checks=True)).post(at, body | ({"files": list(sent)} if sent else {}))


def upload(name: str, content: bytes, kind: str = "image/jpeg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, content_type=kind)


def test_the_page_tells_the_claim_and_has_a_form_that_needs_no_script(at, link):
    told = Client().get(at)
    text = told.content.decode()
    assert told.status_code == 200
    assert "20 cartons × 10 kg × AUD 14.50 per kg = AUD 2,900.00" in text
    assert "Please credit the whole line." in text
    assert "house limit" in text or "published limit" in text
    assert "<script" not in text
    assert not told.cookies
    assert told["Referrer-Policy"] == "no-referrer"
    assert f"/claims/{at.rpartition('/')[2]}" in Client().get(f"/e/{link}").content.decode()


def test_agreeing_is_one_choice_and_a_name(at):
    sent = answer(at, "agree")
    assert sent.status_code == 302
    assert sent["Location"] == f"{at}#entry-2"
    assert Claim.objects.get().state == "agreed"
    assert "Agreed to the claim: AUD 2,900.00" in Client().get(at).content.decode()


def test_contesting_with_photo_and_log_is_sealed_and_both_sides_see_it(at, claim, kitchen, tmp_path):
    photo, log = picture("teal"), csv_of(WARM_SPELL, heading="Date/Time (UTC);Temp (°C)").encode()
    sent = answer(at, "contest", upload("cold.jpg", photo), upload("trip.csv", log, "text/csv"),
                  **{"text": "It was cold.", "point-0": "Nine cartons, not twenty."})
    assert sent.status_code == 302, sent.content.decode()
    page = Client().get(at).content.decode()
    for words in ("Nine cartons, not twenty.", "It was cold.", "cold.jpg", "trip.csv", "<svg"):
        assert words in page
    desk = Client()
    desk.force_login(kitchen.manager)
    told = desk.get(f"/api/claims/{claim.pk}").json()
    assert [one["kind"] for one in told["thread"]] == ["send", "contest"]
    assert [file["kind"] for file in told["thread"][1]["files"]] == ["photo", "logger"]
    assert storage.read(storage.claim_file_name(sha256_of(photo))) == photo
    assert verify_chain(kitchen.site) == []
    path = tmp_path / "bundle.zip"
    with path.open("wb") as out:
        write_bundle(Delivery.objects.get(), out)
    with zipfile.ZipFile(path) as bundle:
        assert bundle.read(f"claim-files/{sha256_of(photo)}.jpg") == photo
    assert all(one.holds for one in check_bundle(path))
    assert sum("was sealed with an entry of a claim" in one.what for one in check_bundle(path)) == 2


@pytest.mark.parametrize(("name", "content", "kind", "code"), HOSTILE, ids=[row[0] for row in HOSTILE])
def test_what_is_no_photo_and_no_log_is_not_kept(at, name, content, kind, code):
    sent = answer(at, "note", upload(name, content, kind), text="kept in the form")
    text = sent.content.decode()
    assert sent.status_code == 422
    assert name in text
    assert "Nothing was sent" in text
    assert "kept in the form" in text
    assert ClaimEntry.objects.count() == 1
    assert not storage.photos().exists(storage.claim_file_name(sha256_of(content)))


def test_too_large_or_too_many_is_refused_in_a_sentence(at, monkeypatch):
    monkeypatch.setattr(files, "LARGEST", 500)
    assert answer(at, "note", upload("a.jpg", picture("teal"))).status_code == 413
    monkeypatch.setattr(files, "LARGEST", 5_000_000)
    many = [upload(f"{number}.jpg", picture("teal")) for number in range(files.MOST_FILES + 1)]
    sent = answer(at, "note", *many)
    assert (sent.status_code, ClaimEntry.objects.count()) == (422, 1)
    assert "At most 6 files" in sent.content.decode()


def test_a_photo_is_shown_as_a_picture_made_anew_and_the_file_only_saved(at):
    content = photo_with_a_page_behind()
    assert answer(at, "note", upload('x"><b>.jpg', content)).status_code == 302
    sha256 = sha256_of(content)
    shown = Client().get(f"{at}/files/{sha256}/screen")
    assert shown["Content-Type"] in ("image/jpeg", "image/webp")
    assert b"<script" not in shown.content
    kept = Client().get(f"{at}/files/{sha256}/original")
    assert kept.content == content
    assert kept["Content-Type"] == "application/octet-stream"
    assert kept["Content-Disposition"].startswith("attachment")
    for one in (shown, kept):
        assert one["X-Content-Type-Options"] == "nosniff"
        assert one["Content-Security-Policy"].startswith("sandbox")
    assert '"><b>' not in Client().get(at).content.decode()


def test_words_of_the_supplier_are_words_and_no_page(at):
    answer(at, "note", text="<script>alert(1)</script>", by="<b>Ade</b>")
    text = Client().get(at).content.decode()
    assert "&lt;script&gt;" in text
    assert "<script" not in text
    assert "<b>Ade" not in text


def test_the_same_form_sent_twice_is_one_answer(at):
    key = str(uuid4())
    assert [answer(at, "ask", text="Which lot?", id=key).status_code for _ in range(2)] == [302, 302]
    assert ClaimEntry.objects.count() == 2


def test_an_answer_that_cannot_be_taken_keeps_what_was_written(at):
    told = answer(at, "offer", amount="ten", text="half of it").content.decode()
    assert "not a number that amount can have" in told
    assert 'value="ten"' in told
    assert "half of it" in told
    assert answer(at, "credit", text="x").status_code == 422


def other_claim(kitchen, phone) -> Claim:
    final = decide(document(kitchen, docket="DN-9", bad=True), kind="reject", reason="Warm.")
    phone.sign(final, key="another-key-0001")
    return draft_claim(line=Delivery.objects.get(pk=final["id"]).lines.get(), person=kitchen.manager)


def test_a_link_opens_the_claims_of_its_delivery_and_no_other(at, link, kitchen, phone):
    other = other_claim(kitchen, phone)
    assert Client().get(f"/e/{link}/claims/{other.pk}").status_code == 404
    # Nor a draft of its own, which nobody has sent.
    Claim.objects.filter(pk=at.rpartition("/")[2]).update(sent_at=None)
    assert Client().get(at).status_code == 404


@pytest.mark.parametrize("spoil", ["expired", "revoked", "truncated", "guessed"])
def test_a_link_that_is_over_or_wrong_shows_a_plain_page_and_takes_no_answer(at, claim, link, spoil):
    photo = picture("teal")
    answer(at, "note", upload("a.jpg", photo))
    count = ClaimEntry.objects.count()
    if spoil == "expired":
        EvidenceLink.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    elif spoil == "revoked":
        EvidenceLink.objects.update(revoked_at=timezone.now())
    token = {"truncated": link[:-1], "guessed": "x" * 43}.get(spoil, link)
    there = f"/e/{token}/claims/{claim.pk}"
    asked = [Client().get(there), Client().get(f"{there}/files/{sha256_of(photo)}/thumb"), answer(there, "agree")]
    for told in asked:
        text = told.content.decode()
        assert told.status_code == (410 if spoil in ("expired", "revoked") else 404)
        assert not re.search(r"DN-5530|Cold Reach|HAR-C1|2,900", text)
        assert text.count("<p") == 1
    assert ClaimEntry.objects.count() == count


def test_no_link_is_in_the_log_or_goes_on_as_a_referrer(at, link, caplog):
    caplog.set_level(logging.DEBUG)
    answer(at, "note", upload("a.svg", SVG))
    answer(at, "agree")
    told = Client().get(at)
    assert link not in caplog.text
    assert 'name="referrer" content="no-referrer"' in told.content.decode()
    # Nothing on the page leads to another server.
    assert not re.findall(r'(?:src|href|action)="(?:https?:)?//', told.content.decode())


def test_a_log_whose_clock_is_not_told_is_read_by_the_answer_in_the_form(at):
    log = a_log()
    assert answer(at, "note", upload("trip.csv", log), zone="").status_code == 422
    assert answer(at, "note", upload("trip.csv", log), zone="UTC").status_code == 302
    assert ClaimEntry.objects.last().document["files"][0]["answers"] == {"zone": "UTC"}
