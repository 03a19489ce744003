"""One bad carton is not the drop: more are opened, a mixed load is sorted, and what was left out says why."""
import pytest

from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser


def suggested(walk: Walk) -> str | None:
    return walk.page.get_by_test_id("suggestion").get_attribute("data-suggestion")


def begun(phone, docket: str, order: str) -> Walk:
    walk = Walk(phone.open())
    walk.sign_in()
    walk.docket(order, docket)
    walk.vehicle(["20"], far=True)
    assert walk.begin_cartons() == 3
    return walk


def test_one_bad_carton_of_three_opens_three_more_and_takes_the_rest(phone):
    walk = begun(phone, "DN-610", "PO-6")
    before = walk.page.get_by_test_id("before-the-lid").inner_text()
    assert "Open 3 cartons more. All clean: take the line." in before
    walk.carton(lot="L-61", black_spots=18)
    walk.carton(lot=None)
    walk.carton(lot=None)
    assert suggested(walk) == "not_yet"
    told = walk.page.get_by_test_id("next-step").inner_text()
    assert "1 of 3 opened is bad. Open 3 cartons more before anything is sent back." in told
    assert "refuse 1, take the other 19" in told
    walk.tap("open-more")
    for left in (3, 2, 1):
        assert f"Open {left} carton" in walk.page.get_by_test_id("before-the-lid").inner_text()
        walk.carton(lot=None)
    assert suggested(walk) == "accept_with_allowance"
    walk.tap("decide-suggested")
    wording = walk.page.get_by_test_id("wording").inner_text()
    assert "19 cartons accepted, 1 carton refused" in wording
    driver = walk.page.get_by_test_id("driver-screen").inner_text()
    assert "19 accepted, 1 refused" in driver
    assert "black spot 18 of 40" in driver
    walk.page.get_by_test_id("driver-words").fill("Signed under protest.")
    for pad in ("ink-receiver", "ink-driver"):
        walk.draw(pad)
    walk.page.get_by_test_id("driver-name").fill("Jon Fell")
    walk.tap("seal")
    walk.put_away()
    walk.page.get_by_test_id("sealed").wait_for(timeout=60000)


def test_no_time_to_open_more_holds_what_was_not_looked_at(phone):
    walk = begun(phone, "DN-611", "PO-7")
    walk.carton(lot="L-62", black_spots=18)
    walk.carton(lot=None)
    walk.carton(lot=None)
    walk.tap("no-time")
    walk.page.get_by_test_id("decline-why").fill("The driver will not wait.")
    walk.tap("decline")
    assert suggested(walk) == "hold"
    assert "1 refused, 19 held" in walk.page.get_by_test_id("suggestion").inner_text()


def test_a_smell_that_was_not_taken_is_asked_for_or_says_why_not(phone):
    walk = begun(phone, "DN-612", "PO-8")
    for lot in ("L-63", None, None):
        walk.first_label(lot) if lot else walk.tap("same-label")
        walk.tap("all-sound")
        walk.enter("-19,5")
        walk.enter("40")
        walk.enter("1008", done="weighed-without")
        walk.tap("all-sound-not_taken")
        walk.marks()
    assert suggested(walk) == "not_yet"
    walk.tap("why-not-odour")
    walk.page.get_by_test_id("left-out-why").fill("No running water at the dock.")
    walk.tap("leave-out")
    assert suggested(walk) == "accept"
    walk.tap("decide-suggested")
    assert "Not checked: smell." in walk.page.get_by_test_id("wording").inner_text()
