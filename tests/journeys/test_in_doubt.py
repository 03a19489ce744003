"""A receiver in doubt, without a signal: procedure with its timer, black-spot scale, species key, and why."""
import re
from urllib.parse import urlsplit

import pytest

from tests.journeys.reach import Screens, faults_of
from tests.journeys.walk import Walk, wait_until

pytestmark = pytest.mark.browser

SECOND_PROBE = """
from datetime import date
from inspections.records.models import Thermometer
from inspections.people.models import Site
Thermometer.objects.create(site=Site.objects.get(), name="Probe B", accuracy_c="0.5", last_checked_on=date(2026, 1, 5),
                           last_check_c="0.2", check_due_on=date(2026, 2, 4))
"""


@pytest.fixture
def overdue_probe(served):
    """A second thermometer whose check in ice is long overdue."""
    made = served.manage("shell", "-c", SECOND_PROBE)
    assert made.returncode == 0, made.stderr
    yield "Probe B"
    served.manage("shell", "-c", "from inspections.records.models import Thermometer; "
                                 "Thermometer.objects.filter(name='Probe B').update(in_use=False)")


def seconds_left(text: str) -> int:
    minutes, seconds = re.search(r"(\d+):(\d\d)", text).groups()
    return int(minutes) * 60 + int(seconds)


def whole_beside_the_timer(page) -> None:
    """The question that the sample is for, with the running time on top: nothing of its number pad hangs over."""
    page.go_back()
    page.get_by_test_id("running-timer").wait_for()
    page.get_by_test_id("weighed-with").wait_for()
    before = page.viewport_size
    for width, height in ((1280, 800), (1280, 860), (390, 844)):
        page.set_viewport_size({"width": width, "height": height})
        over = page.evaluate("document.documentElement.scrollHeight - innerHeight")
        assert over <= 0, f"{over} px over at {width} x {height}"
    for width, height in ((412, 732), (360, 700)):       # small phones with the bars of their browser: keys in view
        page.set_viewport_size({"width": width, "height": height})
        under = page.evaluate("document.querySelector('.keys').getBoundingClientRect().bottom - innerHeight")
        assert under <= 0, f"{under} px of the keys under the edge at {width} x {height}"
    page.set_viewport_size(before)
    page.get_by_test_id("running-timer").click()
    page.get_by_test_id("timer").wait_for()


def drain_the_sample(phone, walk: Walk) -> Walk:
    """The counted sample on the sieve, step by step; the browser is killed while it drains."""
    walk.tap("how-to")
    walk.tap("how-sample")
    walk.tap("procedure-begin")
    walk.enter("600", done="procedure-read")     # the wet sieve
    walk.tap("procedure-next")                   # sprayed
    walk.tap("timer-start")
    timer = walk.page.get_by_test_id("timer")
    wait_until(walk.page, "document.querySelector('[data-testid=timer]').dataset.endsAt > 0")
    ends_at = timer.get_attribute("data-ends-at")
    whole_beside_the_timer(walk.page)
    walk.page.wait_for_timeout(1500)
    phone.kill()

    walk = Walk(phone.open(offline=True), walk.screens)
    strip = walk.page.get_by_test_id("running-timer")          # on the list of deliveries, where a start leads
    strip.wait_for()
    assert 0 < seconds_left(strip.inner_text()) < 120
    walk.page.clock.install()
    walk.page.reload()
    walk.tap("running-timer")
    assert timer_of(walk) == ends_at                           # the same moment, not a new count
    walk.page.clock.fast_forward(130_000)
    walk.page.get_by_text("Time is up").wait_for()
    assert "+0:" in walk.page.get_by_role("timer").inner_text()
    walk.tap("procedure-next")
    walk.enter("500", done="procedure-read")     # less than the sieve alone
    assert "The sieve weighs as much" in walk.page.get_by_test_id("pad-sentence").inner_text()
    walk.enter("1608", done="procedure-read")
    assert "1008 g" in walk.page.get_by_test_id("procedure-result").inner_text()
    walk.tap("procedure-keep")
    return walk


def timer_of(walk: Walk) -> str:
    walk.page.get_by_test_id("timer").wait_for()
    return walk.page.get_by_test_id("timer").get_attribute("data-ends-at")


def count_black_spot(walk: Walk) -> None:
    walk.tap("details")
    walk.page.get_by_test_id("count-black_spot").fill("18")
    walk.page.get_by_test_id("count-black_spot").blur()
    for name in ("segment-frozen", "rest-none", "segment-sound", "segment-none", "next"):
        walk.tap(name)
    # an answer shown first leads: which steps 18 of 40 would fit is said only after the choice
    for score in (0, 2, 4, 6, 8, 10):
        assert "fits" not in walk.page.get_by_test_id(f"score-{score}").inner_text()
    walk.tap("score-6")


def key_out_a_tiger(walk: Walk) -> None:
    """Whiteleg on the docket; in the carton dark cross bands on prawns that are not red."""
    walk.tap("use-key")
    asked = 0
    while walk.page.get_by_test_id("answer-unseen").count():
        heading = walk.page.locator("h1").inner_text()
        answer = "answer-yes" if "bands" in heading else "answer-no" if "red" in heading else "answer-unseen"
        walk.tap(answer)
        asked += 1
        walk.page.wait_for_timeout(100)
    assert 2 <= asked <= 4
    assert "Looks like one of these instead" in walk.page.get_by_test_id("key-result").inner_text()
    assert "Giant tiger prawn" in walk.page.locator("main").inner_text()
    assert walk.page.get_by_test_id("keep-marks").get_attribute("data-answer") == "disagree"
    walk.tap("keep-marks")


def check_in_ice(phone, walk: Walk, probe: str) -> Walk:
    """The overdue thermometer in crushed ice, filed with one tap; the browser is killed right after it."""
    walk.page.get_by_text("check overdue since 4 Feb").wait_for()
    walk.tap("how-to")
    walk.tap("how-ice_point")
    walk.tap("procedure-begin")
    for _ in range(4):                           # filled, stirred, the probe in, waited
        walk.tap("procedure-next")
    walk.enter("0,3", done="procedure-read")
    assert "Passed." in walk.page.get_by_test_id("ice-result").inner_text()
    assert walk.page.get_by_test_id(f"in-ice-{probe}").get_attribute("aria-pressed") == "true"
    walk.tap("file-check")
    standing = walk.page.get_by_test_id("thermometer-standing")
    standing.get_by_text("due in 30 days").wait_for()
    path = urlsplit(walk.page.url).path
    phone.kill()
    walk = Walk(phone.open(offline=True, path=path), walk.screens)
    walk.page.get_by_test_id("thermometer-standing").get_by_text("due in 30 days").wait_for()
    return walk


def probe_of(walk: Walk, name: str) -> dict:
    """The thermometer as the desk is told."""
    rows = walk.page.evaluate("() => fetch('/api/thermometers').then(answer => answer.json())")["rows"]
    return next(row for row in rows if row["name"] == name)


def why_of(walk: Walk) -> str:
    """What the open panel says; it is closed again."""
    said = walk.page.get_by_test_id("why").inner_text()
    walk.tap("sheet-close")
    return said


def test_the_look_at_a_screen_finds_what_is_wrong(phone):
    page = phone.open()
    page.set_content("<title>t</title><main><h1>h</h1><button>Next</button></main>")
    found = " ".join(faults_of(page))
    assert "BUTTON Next: " in found              # far under 56 px
    assert "html-has-lang" in found              # axe-core: WCAG 2, 3.1.1


def test_doubts_are_settled_offline_and_every_screen_can_be_touched_and_read(phone, overdue_probe):
    screens = Screens()
    walk = Walk(phone.open())
    walk.page.get_by_label("User name").wait_for()
    screens.look(walk.page)
    walk.sign_in()
    phone.close()
    walk = Walk(phone.open(offline=True), screens)
    walk.docket("PO-5", "DN-500")
    walk.vehicle(["2"])
    walk.tap("why-draw")
    assert "cartons that the plan opens" in why_of(walk).lower()
    assert walk.begin_cartons() == 2

    walk.first_label("L-50")
    walk.tap("all-sound")
    walk.tap("thermometers")
    walk.tap(f"thermometer-{overdue_probe}")
    assert "check overdue since 4 Feb" in walk.page.get_by_test_id("thermometer-standing").inner_text()
    walk.enter("-19,5")
    walk.enter("40")
    walk.enter("1140", done="weighed-without")   # 15.9 to the pound, ordered 16/20
    assert "About 37 more would tell" in walk.page.get_by_test_id("weigh-more-words").inner_text()
    walk.tap("weigh-more")
    walk.enter("40")
    walk = drain_the_sample(phone, walk)
    count_black_spot(walk)
    key_out_a_tiger(walk)
    walk.tap("same-label")
    walk.tap("all-sound")
    walk = check_in_ice(phone, walk, overdue_probe)
    walk.enter("-19,5")
    walk.enter("40")
    walk.enter("1008", done="weighed-without")
    walk.tap("all-sound-frozen")
    walk.marks()

    # both were opened: the spotted one is refused, the other kept
    assert walk.page.get_by_test_id("suggestion").get_attribute("data-suggestion") == "accept_with_allowance"
    assert "18.0 to the pound: size 16/20, as ordered" in walk.page.get_by_test_id("size-found").inner_text()
    walk.tap("size-1")
    why = why_of(walk)
    assert "1008 g" in why
    assert "453.59237" in why
    walk.tap("reason-BLACK-HOUSE")
    why = why_of(walk)
    assert "18 / 40 = 45.0 %" in why
    assert "Source" in why
    # the second carton was probed after the kills: the phone still knew with what, and that it had been checked
    for code, times in (("BLACK-SCORE", 0), ("SPECIES-MARKS", 1), ("TEMP-PROBE-OVERDUE", 1)):
        assert walk.page.get_by_test_id(f"reason-{code}").count() == times, code
    walk.tap("decide-other")
    walk.tap("whole-list")
    walk.tap("go-on")                            # back to the one that is open
    walk.tap("decide-suggested")
    walk.sign()
    walk.put_away()                              # one of the two is taken
    phone.context.set_offline(False)
    walk.page.get_by_test_id("sealed").wait_for(timeout=90000)
    walk.tap("reason-BLACK-HOUSE")               # the record explains itself too
    assert "18 / 40 = 45.0 %" in why_of(walk)
    walk.tap("status")
    walk.page.get_by_text("All on the server.").wait_for()
    screens.look(walk.page)
    (filed,) = probe_of(walk, overdue_probe)["checks"]
    assert (filed["reading"], filed["passed"], filed["done_by"]) == ({"entered": "0,3", "unit": "C"}, True, "Rosa Lind")
    walk.page.goto(f"{phone.address}/desk/thermometers")
    walk.page.get_by_text("All that are in use are in order.").wait_for()
    screens.look(walk.page)

    found = walk.page.evaluate("() => fetch('/api/deliveries?q=DN-500').then(answer => answer.json())")["rows"]
    detail = walk.page.evaluate("id => fetch(`/api/deliveries/${id}`).then(answer => answer.json())", found[0]["id"])
    carton = detail["document"]["lines"][0]["cartons"][0]
    assert carton["sample"]["weight"] == {"entered": "1008", "unit": "g"}
    assert "sieve 600 g" in carton["note"]
    assert carton["black_spot_score"] == 6
    assert carton["marks"] == {"answer": "disagree", "seen": {"no_bands": False, "red_raw": False}}
    assert carton["temperature"]["thermometer"] == {
        "name": overdue_probe, "checked_at": "2026-01-05", "ice_point": {"entered": "0.2", "unit": "C"},
        "due_at": "2026-02-04",
    }
    later = detail["document"]["lines"][0]["cartons"][1]["temperature"]["thermometer"]
    assert later == {"name": overdue_probe, "checked_at": filed["day"], "due_at": filed["due_on"],
                     "ice_point": {"entered": "0.3", "unit": "C"}}
    assert not detail["difference"]
    assert screens.wrong == {}
    assert len(screens.faults) >= 35             # every screen of the walk was looked at
