"""The supplier's page: who gets in, what stands there, and what never does."""
import io
import re
import zipfile
from datetime import timedelta
from html import unescape

import pytest
from django.test import Client
from django.utils import timezone

from inspections.evidence.carton_page import carton_page
from inspections.evidence.models import EvidenceLink, Seal
from inspections.evidence.page import found_of
from inspections.evidence.rule import distance_words, rule_of
from inspections.records import storage
from inspections.records.acts.advisory import record_advisory
from inspections.records.models import Delivery, Photo
from inspections.trade.wording import typeset
from tests.inspections.receiving import (
    Phone,
    advice_context,
    decide,
    document,
    keep,
    photo_entry,
    put_away,
    sha256_of,
    with_place,
)

ADVICE = {
    "answer": "darkening_seen", "share": 0.07, "share_low": 0.05, "share_high": 0.09, "where": ["head"],
    "reasons": [{"code": "DARK-HEAD", "text": "Dark parts at the heads."}], "card_used": False,
    "method_version": "1", "baseline_version": "1",
}


@pytest.fixture
def delivery(kitchen, phone) -> Delivery:
    content = with_place()
    keep(content)
    draft = document(kitchen, bad=True)
    line = draft["lines"][0]
    draft["photos"] = [photo_entry(content, line_id=line["id"], carton_id=line["cartons"][1]["id"], purpose="defect")]
    final = decide(draft, kind="hold", reason="kept for the inspector <b>now</b>")
    assert phone.sign(final).status_code == 200
    assert phone.add(put_away(kitchen, final)).status_code == 200
    return Delivery.objects.get()


@pytest.fixture
def link(kitchen, delivery) -> str:
    """The path of a link that a manager made."""
    answer = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{delivery.pk}/evidence-links", "{}", content_type="application/json"
    )
    assert answer.status_code == 201, answer.content
    return re.sub(r"^https?://[^/]+", "", answer.json()["url"])


def text_of(answer) -> str:
    bare = re.sub(r"<[^>]+>", " ", answer.content.decode())
    return re.sub(r"\s+", " ", bare)


def test_it_opens_without_an_account_and_tells_the_whole_story(link, delivery):
    answer = Client().get(link)
    assert answer.status_code == 200
    told = text_of(answer)
    for words in (
        "Docket DN-5530", "Cold Reach Seafood", "Harbour kitchen", "25 November 2026, 06:10",
        "Whiteleg, headless shell-on 16/20", "Hold", "20 held", "kept for the inspector",
        "Carton 3: product measured −9.5 °C", "0.5 °C warmer than the limit with the allowance taken off",
        "12 of 20 prawns",
        "−9,5 °C, between packs", "Source:", "Freezer 2", "21 minutes out of the cold", "Receiver: Mia Castel",
        "D. Roe",
    ):
        assert words in told, words
    assert typeset(delivery.judgement["wording"].splitlines()[0]) in told
    assert "<b>now</b>" not in answer.content.decode()


def test_every_number_below_zero_has_a_true_minus_sign_and_the_seal_holds_what_was_judged(link, delivery):
    # Unicode U+2212, as the SI Brochure prints numbers (from memory); sealed words keep the keyboard's hyphen.
    for page in (link, f"{link}/worksheet"):
        told = unescape(text_of(Client().get(page)))
        assert "−9.5" in told
        assert re.findall(r"(?<![\w-])-[.,]?[0-9][^ ]*", told) == []
    assert "-9,5 °C" in delivery.judgement["wording"]
    sealed = bytes(Seal.objects.get(subject_id=delivery.pk).content).decode()
    assert '"entered":"-9,5"' in sealed
    assert "−" not in sealed


def test_it_shows_the_seal_and_how_to_check_it(link, delivery):
    seal = Seal.objects.get(subject_id=delivery.pk)
    told = Client().get(link).content.decode()
    for words in (seal.sha256, seal.content_sha256, seal.signature, seal.public_key_id, "BEGIN PUBLIC KEY",
                  "openssl pkeyutl -verify -pubin -inkey public-key.pem -rawin -in seal.json -sigfile seal.sig"):
        assert words in told


def test_advice_is_shown_as_advice(link, delivery):
    entry = delivery.document["photos"][0]
    storage.put("derived/x/overlay", with_place())
    record_advisory(photo=Photo.objects.get(), context=advice_context(delivery.document, entry), advice=ADVICE,
                    overlay_name="derived/x/overlay")
    told = text_of(Client().get(link))
    assert "Advice by machine, no finding" in told
    assert "Darkening seen on about 7.0 % of the prawns’ surface (5.0 % to 9.0 %)." in told
    assert "It decided nothing" in told
    assert Client().get(f"{link}/photos/{entry['sha256']}/overlay").status_code == 200


def test_no_address_price_or_script_is_on_it(link):
    told = Client().get(link).content.decode()
    for private in ("@", "14.5", "Ade Winter", "coldreach", "<script", "style="):
        assert private not in told, private


def test_nobody_else_is_told_of_the_link(link):
    for path in (link, f"{link}/photos/{sha256_of(with_place())}/original", f"{link}/bundle.zip"):
        answer = Client().get(path)
        assert answer.status_code == 200
        assert answer["Referrer-Policy"] == "no-referrer"
        assert "noindex" in answer["X-Robots-Tag"]
        assert "private" in answer["Cache-Control"]
        assert not answer.cookies


def test_photos_are_given_without_their_place(link):
    answer = Client().get(f"{link}/photos/{sha256_of(with_place())}/original")
    assert answer["Content-Type"] == "image/jpeg"
    assert b"GPS" not in answer.content
    assert answer.content.startswith(b"\xff\xd8")
    # No thumbnail has been made yet: the whole picture stands in.
    assert Client().get(f"{link}/photos/{sha256_of(with_place())}/thumb").content == answer.content
    assert Client().get(f"{link}/photos/{'0' * 64}/original").status_code == 404
    assert Client().get(f"{link}/photos/{sha256_of(with_place())}/overlay").status_code == 404


def test_a_photo_of_another_delivery_is_not_behind_this_link(kitchen, link):
    from tests.inspections.receiving import picture

    other = keep(picture("navy"))
    assert Client().get(f"{link}/photos/{other}/original").status_code == 404


def test_the_bundle_is_a_file_to_keep(link):
    answer = Client().get(f"{link}/bundle.zip")
    assert answer["Content-Disposition"] == 'attachment; filename="evidence-HAR-DN-5530.zip"'
    names = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content))).namelist()
    assert {"README.txt", "record.json", "seal.json", "seal.sig", "public-key.pem"} <= set(names)


@pytest.mark.parametrize("path", ["/e/" + "x" * 43, "/e/%FF%00", "/e/..", "/e/" + "é" * 500])
def test_a_wrong_link_gets_a_plain_sentence(db, apart, path):
    answer = Client().get(path)
    assert answer.status_code == 404
    assert "nvalid" not in answer.content.decode()


def test_a_link_ends_by_itself_and_says_so(link):
    EvidenceLink.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    for path in (link, f"{link}/bundle.zip"):
        answer = Client().get(path)
        assert answer.status_code == 410
        assert "ended on" in answer.content.decode()


def test_a_manager_can_end_a_link_before(kitchen, link, delivery):
    manager = Phone(kitchen.manager).client
    (listed,) = manager.get(f"/api/deliveries/{delivery.pk}/evidence-links").json()["links"]
    assert "url" not in listed
    assert Phone(kitchen.stranger).client.delete(f"/api/evidence-links/{listed['id']}").status_code == 404
    assert Client().get(link).status_code == 200
    for _ in range(2):
        assert manager.delete(f"/api/evidence-links/{listed['id']}").status_code == 204
    assert Client().get(link).status_code == 410


def test_the_token_itself_is_kept_nowhere(link):
    token = link.removeprefix("/e/")
    assert len(token) == 43  # 32 bytes in base64url: RFC 4648 section 5 (from memory)
    row = EvidenceLink.objects.get()
    assert token not in str(vars(row))


@pytest.mark.parametrize(("who", "status"), [("receiver", 403), ("manager", 201), ("stranger", 404)])
def test_who_may_make_a_link(kitchen, delivery, who, status):
    client = Phone(getattr(kitchen, who)).client
    answer = client.post(f"/api/deliveries/{delivery.pk}/evidence-links", "{}", content_type="application/json")
    assert answer.status_code == status


@pytest.mark.parametrize("days", [0, -1, 367, "60", 1.5, True])
def test_a_link_lasts_a_day_to_a_year(kitchen, delivery, days):
    import json

    answer = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{delivery.pk}/evidence-links", json.dumps({"days": days}), content_type="application/json"
    )
    assert answer.status_code == 422
    assert answer.json()["code"] == "LINK-DAYS"


def test_the_address_is_the_one_that_the_world_knows(kitchen, delivery, settings):
    settings.PUBLIC_ADDRESS = "https://receiving.example"
    answer = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{delivery.pk}/evidence-links", "{}", content_type="application/json"
    )
    assert answer.json()["url"].startswith("https://receiving.example/e/")


def test_a_link_never_leads_to_a_host_that_the_server_does_not_answer_to(kitchen, delivery, settings):
    settings.ALLOWED_HOSTS = ["localhost"]
    ask = Phone(kitchen.manager).client.post
    at = f"/api/deliveries/{delivery.pk}/evidence-links"
    assert ask(at, "{}", content_type="application/json", HTTP_HOST="pages.example").status_code == 400
    told = ask(at, "{}", content_type="application/json", HTTP_HOST="localhost:8000").json()
    assert told["url"].startswith("http://localhost:8000/e/")


@pytest.mark.parametrize(("grade", "presentation", "words"), [
    ("16/20", "HLSO", "18.0 to the pound"), ("30/40 per kg", "HLSO", "39.7 per kg"), ("30/40", "HOSO", "39.7 per kg"),
    ("as seen", "HLSO", "18.0 to the pound"),
])
def test_the_count_is_told_in_the_unit_of_the_size_ordered(grade, presentation, words):
    derived = {"count_per_lb": 18.0, "count_per_kg": 39.68}
    judged = {"defective": False, "checks": {"count": "within"}, "derived": derived}
    page = carton_page({}, judged, {"grade": grade, "presentation": presentation})
    assert page.within == [f"count on a weighed sample ({words})"]


def test_the_distance_counts_what_is_allowed_between_packs():
    basis = {"source": "CXC 8-1976 §4", "known": "from_memory", "cv": "CV-5-20", "words": "w"}
    reason = {"code": "TEMP-REJECT", "severity": "critical", "measured": -9.5, "unit": "C", "bound": -12.0,
              "sense": "at_most", "facts": {"allowance_c": 2.0}, "basis": basis, "text": "t", "carton": 3}
    assert found_of(reason).distance == "0.5 °C warmer than the limit with the allowance taken off"
    assert found_of({**reason, "facts": {"allowance_c": 0.0}}).distance == "2.5 °C warmer than the limit"


@pytest.mark.parametrize(("measured", "bound", "unit", "words"), [
    (-9.5, -12.0, "C", "2.5 °C warmer than the limit"),
    (-20.0, -18.0, "C", "2.0 °C colder than the limit"),
    (0.073, 0.05, "share", "2.3 percentage points over the limit"),
    (12.5, 10.0, "percent", "2.5 percentage points over the limit"),
    (1850.0, 1900.0, "g", "50 g under the limit"),
    (5.0, 5.0, "percent", "exactly at the limit"),
    (None, 5.0, "percent", ""), (5.0, None, "percent", ""), (1.0, 0.0, "finding", ""),
])
def test_by_how_much_is_said_in_words(measured, bound, unit, words):
    assert distance_words(measured, bound, unit) == words


@pytest.mark.parametrize(("measured", "bound", "sense", "is_past"), [
    (-9.5, -12.0, "at_most", True), (-19.0, -12.0, "at_most", False), (1850.0, 1900.0, "at_least", True),
    (0.0, 0.0, "at_most", False), (3.0, 0.0, "below", True),
])
def test_the_mark_lies_on_the_fine_part_exactly_when_the_value_is_fine(measured, bound, sense, is_past):
    rule = rule_of(measured, bound, sense)
    start, width, mark = float(rule.fine_x), float(rule.fine_width), float(rule.mark)
    assert (not start <= mark <= start + width) is is_past
    assert 10 <= mark <= 230
    assert rule_of(measured, None, sense) is None
    assert rule_of(measured, bound, "none") is None
