"""The supplier's page: who gets in, what stands there, and what never does."""
import io
import json
import re
import zipfile
from datetime import timedelta
from html import unescape

import cv2
import numpy as np
import pytest
from django.template.loader import render_to_string
from django.test import Client
from django.utils import timezone

from inspections.evidence.carton_page import carton_page
from inspections.evidence.found_page import found_of
from inspections.evidence.limit_bar import distance_words, rule_of
from inspections.evidence.models import EvidenceLink, Seal
from inspections.evidence.ordered import prices_of
from inspections.evidence.page import page_of
from inspections.people.models import Deed
from inspections.records import storage
from inspections.records.models import Delivery, Order, Photo, Supplier
from inspections.records.services.advisory import record_advisory
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
    final["signatures"]["driver"]["words"] = "Signed under protest: <i>it was cold</i> at our depot."
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
    return re.sub(r"^https?://[^/]+|#.*$", "", answer.json()["url"])


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
        "12 of 20 prawns, 60.0 %",
        "−9,5 °C, between packs", "Order PO-88", "Cartons ordered 20", "14.50 AUD per kg",
        "Vannamei prawn (Penaeus vannamei)", "Freezer 2", "21 minutes out of the cold", "Receiver: Mia Castel",
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


def test_the_drivers_own_words_stand_by_the_signature_as_they_were_written(link):
    told = Client().get(link).content.decode()
    assert "“Signed under protest: &lt;i&gt;it was cold&lt;/i&gt; at our depot.”" in told


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


def test_each_finding_says_whose_limit_it_is_and_a_house_rule_cites_no_standard(link):
    told = Client().get(link).content.decode()
    rows = re.findall(r'<p class="whose">(.*?)<', told)
    assert rows
    assert all(row.startswith(("Published limit: ", "Agreed in the specification", "House limit, ")) for row in rows)
    assert all("CX" not in row and "EEC" not in row for row in rows if row.startswith("House"))
    # Black spot at 10 % is the house's own (common practice, no source); the tally is that of the house plan, so the
    # sampling standard CXS 233-1969 is not its source.
    assert "House limit, not a published one." in told
    assert "CXS 233" not in "".join(rows)
    cells = re.findall(r'<tr class="beyond">.*?</tr>', told, re.S)
    assert cells
    assert all("limit: " in cell or "house limit" in cell.lower() or "agreed" in cell.lower() for cell in cells)


def test_a_bound_of_the_specification_is_agreed_whatever_standard_the_limit_had():
    basis = {"source": "CXC 8-1976 §4", "known": "read", "cv": "", "words": "w"}
    reason = {"code": "TEMP-REJECT", "severity": "critical", "measured": -9.5, "unit": "C", "bound": -15.0,
              "sense": "at_most", "facts": {}, "basis": basis, "limit": "product_c.reject", "text": "t", "carton": 3}
    assert found_of(reason).whose == "Published limit: CXC 8-1976 §4 (read in the source)."
    agreed = found_of(reason, {"overrides": {"product_c.reject": -15}})
    assert agreed.whose == "Agreed in the specification ordered by."
    # A later judgement says it itself.
    assert found_of({**reason, "whose": "ordered"}).whose == agreed.whose
    moved = {"source": "our contract of May", "known": "common_practice", "cv": "", "words": "w"}
    assert found_of({**reason, "basis": moved}).whose == (
        "House limit, not a published one; its ground as the kitchen gives it: our contract of May.")


def test_photos_of_a_finding_stand_beside_it_and_a_finding_without_one_says_so(link):
    told = Client().get(link).content.decode()
    found = re.findall(r'<li class="(?:critical|major|minor)">.*?</li>', told, re.S)
    black = next(one for one in found if "black spot" in one.lower())
    assert 'id="photo-1"' in black
    warm = next(one for one in found if "product measured" in one)
    assert "No photo was taken of this." in warm
    assert told.count('id="photo-1"') == 1


def test_a_check_that_could_not_be_told_says_why_and_against_which_limit(kitchen, phone):
    draft = document(kitchen)
    draft["lines"][0]["cartons"][0]["pieces"]["black_spot"] = 6
    assert phone.sign(decide(draft)).status_code == 200
    told = unescape(render_to_string("evidence/page.html", {**page_of(Delivery.objects.get()), "base": "/e/t"}))
    (row,) = re.findall(r'<tr class="cannot_tell">.*?</tr>', told, re.S)
    assert "at most 25.0 %" in row                     # CXS 92-1981 §8, from memory
    assert "could not be told, so it counts neither for nor against the carton" in row
    assert "Not counted apart" in row.split('class="state"')[1]


def test_it_says_plainly_what_the_seal_proves_and_what_it_does_not(link, delivery):
    told = text_of(Client().get(link))
    assert "What the seal proves" in told
    assert "The kitchen that receives the goods holds the key" in told
    last = Seal.objects.order_by("number").last()
    assert f"The latest seal of this delivery is number {last.number}: {last.sha256}" in told


def test_notes_too_say_whose_limit_it_is(link):
    told = Client().get(link).content.decode()
    notes = re.search(r"Also noted</h3>(.*?)</ul>", told, re.S).group(1)
    assert "House limit, not a published one." in notes
    assert "Source:" not in notes


def test_the_price_is_that_of_this_suppliers_own_order(kitchen, delivery):
    other = Supplier.objects.create(name="Elsewhere", code="ELS")
    Order.objects.update(supplier=other)
    assert prices_of(Delivery.objects.get()) == {}


def test_no_address_or_script_is_on_it(link):
    told = Client().get(link).content.decode()
    for private in ("@", "Ade Winter", "coldreach", "<script", "style="):
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
        assert "expired on" in answer.content.decode()


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


@pytest.mark.parametrize(
    ("days", "status", "code"),
    [(0, 422, "LINK-DAYS"), (-1, 422, "LINK-DAYS"), (367, 422, "LINK-DAYS"), ("60", 400, "FIELDS"),
     (1.5, 400, "FIELDS"), (True, 400, "FIELDS")],
)
def test_a_link_lasts_a_day_to_a_year(kitchen, delivery, days, status, code):
    answer = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{delivery.pk}/evidence-links", json.dumps({"days": days}), content_type="application/json"
    )
    assert (answer.status_code, answer.json()["code"]) == (status, code)


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
    page = carton_page({}, judged, {"grade": grade, "presentation": presentation}, asked=())
    assert page.within == [f"count on a weighed sample ({words})"]


def test_the_distance_counts_what_is_allowed_between_packs():
    basis = {"source": "CXC 8-1976 §4", "known": "from_memory", "cv": "CV-5-20", "words": "w"}
    reason = {"code": "TEMP-REJECT", "severity": "critical", "measured": -9.5, "unit": "C", "bound": -12.0,
              "sense": "at_most", "facts": {"allowance_c": 2.0}, "basis": basis, "text": "t", "carton": 3,
              "limit": "product_c.reject"}
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


def make(kitchen, delivery, **asked):
    return Phone(kitchen.manager).client.post(
        f"/api/deliveries/{delivery.pk}/evidence-links", json.dumps(asked), content_type="application/json")


def test_opening_a_link_is_counted_and_nobodys_address_is_kept(kitchen, link, delivery):
    row = EvidenceLink.objects.get()
    assert (row.openings, row.first_opened_at) == (0, None)
    for _ in range(2):
        assert Client().get(link).status_code == 200
    assert Client().head(link).status_code == 200
    # The kitchen's own look is not the supplier's.
    assert Phone(kitchen.manager).client.get(link).status_code == 200
    b"".join(Client().get(f"{link}/bundle.zip").streaming_content)
    (told,) = Phone(kitchen.manager).client.get(f"/api/deliveries/{delivery.pk}/evidence-links").json()["links"]
    assert told["openings"] == 2
    assert told["first_opened_at"] < told["last_opened_at"]
    assert not Deed.objects.filter(person=None).exclude(address="").exists()


def test_a_link_holds_as_long_as_chosen_and_names_whom_it_is_for(kitchen, delivery):
    told = make(kitchen, delivery, days=7, to_whom="  Ade, quality ").json()
    row = EvidenceLink.objects.get()
    assert row.to_whom == told["to_whom"] == "Ade, quality"
    assert timedelta(days=6, hours=23) < row.expires_at - row.created_at <= timedelta(days=7, seconds=1)
    assert told["mail_to"] == "ade@coldreach.example"
    last = Seal.objects.order_by("number").last()
    assert told["seal"] == {"number": last.number, "sha256": last.sha256}
    for wrong, status, code in (("x" * 121, 422, "LINK-WHOM"), (5, 400, "FIELDS"), (None, 400, "FIELDS")):
        answer = make(kitchen, delivery, to_whom=wrong)
        assert (answer.status_code, answer.json()["code"]) == (status, code)
    assert EvidenceLink.objects.count() == 1


def test_the_qr_code_reads_back_as_the_address(kitchen, delivery):
    # Read by another library (OpenCV) than the one that made it: ISO/IEC 18004.
    told = make(kitchen, delivery).json()
    size, scale = told["qr"]["size"], 8
    picture = np.full((size * scale, size * scale), 255, np.uint8)
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", told["qr"]["path"]):
        picture[int(y) * scale:(int(y) + 1) * scale, int(x) * scale:(int(x) + 1) * scale] = 0
    assert cv2.QRCodeDetector().detectAndDecode(picture)[0] == told["url"]


def test_link_and_page_carry_the_latest_seal_of_the_site(kitchen, delivery, phone):
    first = Seal.objects.order_by("number").last()
    told = make(kitchen, delivery).json()
    address, _, anchor = told["url"].partition("#")
    assert anchor == f"seal-{first.number}-{first.sha256[:16]}"
    phone.sign(decide(document(kitchen, docket="DN-LATER")), "later-key-1")
    newest = Seal.objects.order_by("number").last()
    page = Client().get(address.removeprefix("http://testserver")).content.decode()
    assert newest.number == first.number + 1
    assert f"The latest seal of this site is number {newest.number}: <code>{newest.sha256}</code>" in page
