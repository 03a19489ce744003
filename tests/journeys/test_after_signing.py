"""After the signature: the freezer is judged, refused goods stay out, a thaw is told, the docket's code holds."""
from io import BytesIO

import pytest
from PIL import Image
from playwright.sync_api import Page
from zxingcpp import read_barcodes

from tests.inspections.receiving import picture
from tests.journeys.test_second_stage import begun, suggested
from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser


def code_on(page: Page) -> str:
    """What a scanner reads off the docket's code on the screen."""
    picture = Image.open(BytesIO(page.get_by_test_id("docket-code").locator("svg").screenshot()))
    read, = read_barcodes(picture)
    return read.text


def sealed(walk: Walk) -> None:
    walk.page.get_by_test_id("sealed").wait_for(timeout=60000)


def signed(walk: Walk) -> None:
    walk.tap("decide-suggested")
    walk.sign()


def test_a_freezer_at_minus_nine_is_told_and_a_fault_found_on_thawing_follows(phone, tmp_path):
    walk = begun(phone, "DN-641", "PO-11")
    walk.carton(lot="L-71")
    walk.carton(lot=None)
    walk.carton(lot=None)
    signed(walk)
    walk.page.get_by_role("heading", name="Which freezer").wait_for()
    walk.tap(walk.page.locator("[data-testid^=choice-]").first.get_attribute("data-testid"))
    walk.enter("-9", done="in-closed")       # not in yet: it is told first
    told = walk.page.get_by_test_id("freezer-judged").inner_text()
    assert "Freezer air −9.0 °C: warmer than −18.0 °C" in told
    assert "Use a colder freezer" in told
    walk.tap("other-freezer")
    walk.tap(walk.page.locator("[data-testid^=choice-]").last.get_attribute("data-testid"))
    walk.enter("-19", done="freezer-air-done")
    assert "warmer than the −20.0 °C wanted" in walk.page.get_by_test_id("freezer-judged").inner_text()
    assert "best before 2029-03-31" in walk.page.get_by_test_id("question").inner_text()
    walk.tap("liner-closed")
    sealed(walk)
    address, _, noted = code_on(walk.page).partition("#")
    assert address == f"{phone.address}/e/docket/{walk.page.url.split('/walk/')[1].split('/')[0]}"
    seals = walk.page.request.get(address.replace("/e/docket/", "/api/deliveries/") + "/seals").json()["seals"]
    assert noted == f"seal-{seals[0]['number']}-{seals[0]['sha256'][:16]}"
    # days later, at the thawing bench: the phone learns of the lot with its next reference data
    shot = tmp_path / "soft.png"
    shot.write_bytes(picture("grey", size=(900, 700)))
    walk.page.goto(phone.address)
    walk.tap("thawed")
    walk.page.get_by_test_id("lot-search").fill("l 71")
    before = walk.taps
    for name in ("choice-0", "choice-soft", "choice-half"):
        walk.tap(name)
    assert walk.taps - before == 3
    walk.page.get_by_test_id("thaw-photo").set_input_files(str(shot))
    walk.page.get_by_text("1 photo taken").wait_for()
    walk.tap("keep-thawed")
    walk.page.get_by_role("heading", name="Kept, and on its way").wait_for()
    walk.tap("home")
    walk.page.get_by_role("link", name="The desk").click()
    walk.page.get_by_text("DN-641").first.click()
    for _ in range(20):  # until photo and addendum have reached the server
        walk.page.get_by_role("heading", name="Added after signing").wait_for()
        if walk.page.get_by_role("heading", name="Found on thawing").count():
            break
        walk.page.wait_for_timeout(500)
        walk.page.reload()
    assert "lot L-71, thawed" in walk.page.locator("body").inner_text()


def test_what_is_refused_whole_has_nothing_to_put_away_and_says_where_it_stands(phone):
    walk = begun(phone, "DN-642", "PO-12")
    for lot in ("L-72", None, None):
        walk.carton(lot=lot, black_spots=18)
    assert suggested(walk) == "reject"
    signed(walk)
    walk.page.get_by_role("heading", name="Nothing goes into the freezer").wait_for()
    assert "there is nothing to put away" in walk.page.get_by_test_id("question").inner_text()
    walk.page.get_by_test_id("apart-where").fill("chest 2, red tape")
    walk.tap("to-record")
    sealed(walk)


def test_a_load_mixed_by_label_is_sorted(phone):
    walk = begun(phone, "DN-643", "PO-13")
    # one of three is labelled 21/25 where 16/20 was ordered
    for number in range(3):
        if number:
            walk.tap("other-label")
        if number == 1:
            walk.tap("details")
            walk.page.get_by_test_id("lot").fill("L-73")
            walk.page.get_by_test_id("best-before").fill("31.3.2029")
            walk.page.get_by_test_id("label-grade").fill("21/25")
            walk.tap("next")
        else:
            walk.first_label("L-73")
        walk.tap("all-sound")
        walk.enter("-19,5")
        walk.enter("40")
        walk.enter("1008", done="weighed-without")
        walk.tap("all-sound-frozen")
        walk.marks()
    assert suggested(walk) == "not_yet"
    assert walk.page.get_by_test_id("next-step").get_attribute("data-kind") == "sort"
    walk.page.get_by_test_id("sorted-read").fill("20")
    walk.page.get_by_test_id("sorted-differ").fill("6")
    walk.tap("sorted")
    assert suggested(walk) == "accept_with_allowance"
    walk.tap("decide-suggested")
    assert "14 cartons accepted, 6 cartons refused" in walk.page.get_by_test_id("wording").inner_text()
