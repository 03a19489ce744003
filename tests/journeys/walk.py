"""Drives the walk as a receiver does, one tap at a time; ``Taps`` counts what really touches the page.

The keys of the number pad and those of the phone's own keyboard are typing; every other touch is a tap, the one that
puts the cursor into a field too.
"""
from collections import Counter

from playwright.sync_api import Page

from tests.journeys.conftest import WAIT_MS
from tests.journeys.kitchen import PASSWORD
from tests.journeys.reach import Screens

ASK_EVERY_MS = 50


def wait_until(page: Page, condition: str, arg: object = None) -> None:
    """Wait for a condition written in JavaScript, asked from outside.

    The page's content security policy forbids what Playwright's own wait does from its second look on: evaluate a
    string inside the page.
    """
    for _ in range(WAIT_MS // ASK_EVERY_MS):
        if page.evaluate(condition, arg):
            return
        page.wait_for_timeout(ASK_EVERY_MS)
    raise TimeoutError(f"not so within {WAIT_MS / 1000:.0f} s: {condition}")


class Taps:
    """Counts pointers that go down on a page, but for those on the number pad's keys."""

    COUNT = """addEventListener('pointerdown', event => {
      const typed = event.target.closest?.('[data-testid^=key-]');
      if (!typed) window.__tapped(location.pathname.split('/').slice(3).join('/').split('~')[0] || 'home');
    }, { capture: true })"""

    def __init__(self, page: Page):
        self.by_step: Counter[str] = Counter()
        page.expose_function("__tapped", lambda step: self.by_step.update([step]))
        page.add_init_script(self.COUNT)
        page.reload()

    @property
    def count(self) -> int:
        return self.by_step.total()


class Walk:
    """One person at one phone."""

    def __init__(self, page: Page, screens: Screens | None = None):
        self.page, self.taps, self.screens = page, 0, screens

    def sign_in(self, username: str = "rosa") -> None:
        """Sign in and wait until the phone has what it needs to work without a signal."""
        self.page.get_by_label("User name").fill(username)
        self.page.get_by_label("Password").fill(PASSWORD)
        self.page.get_by_role("button", name="Sign in", exact=True).click()
        self.page.get_by_test_id("something-else").wait_for()
        wait_until(self.page, "navigator.serviceWorker.controller !== null")

    def tap(self, name: str) -> None:
        """Touch what carries this test id."""
        self.page.get_by_test_id(name).first.wait_for(state="attached")
        if self.screens is not None:
            self.screens.look(self.page)
        self.page.get_by_test_id(name).first.click()
        self.taps += 1

    def enter(self, entered: str, done: str = "pad-done") -> None:
        """Type on the number pad (with its own keys) and finish the answer."""
        box = self.page.get_by_test_id("pad-value")
        box.wait_for()
        for _ in range(len(box.input_value())):
            self.page.get_by_test_id("key-back").click()
        for sign in entered:
            self.page.get_by_test_id({"-": "key-minus", ",": "key-comma"}.get(sign, f"key-{sign}")).click()
        self.tap(done)

    def write(self, name: str, text: str) -> None:
        """Type on the phone's keyboard, into a field that has the cursor or gets it by a touch."""
        field = self.page.get_by_test_id(name)
        field.wait_for()
        if not field.evaluate("field => field === document.activeElement"):
            field.click()
            self.taps += 1
        field.fill(text)

    def docket(self, order: str, number: str) -> None:
        self.tap(f"order-{order}")
        self.write("docket-number", number)
        self.page.get_by_test_id("docket-number").press("Enter")

    def count(self, counted: str, docket: str | None = None) -> None:
        """Cartons counted of one line; the docket says the same, or another number."""
        self.enter(counted, done="docket-other" if docket else "docket-same")
        if docket:
            self.enter(docket, done="docket-says")

    def vehicle(self, counted: list[str], air: str = "-20", *, far: bool = False) -> None:
        """The air reading, cartons counted for each line ("3/4": of four on the docket), the load."""
        self.enter(air)
        for each in counted:
            self.count(*each.split("/"))
            if far:
                self.tap("count-right")
        self.tap("choice-sound")

    def begin_cartons(self) -> int:
        """How many cartons were drawn; the first is begun."""
        self.page.get_by_test_id("drawn").wait_for()
        count = self.page.get_by_test_id("drawn").locator("li").count()
        self.tap("start-cartons")
        return count

    def first_label(self, lot: str) -> None:
        self.write("lot", lot)
        self.page.get_by_test_id("lot").press("Enter")
        self.write("best-before", "31.3.2029")
        self.tap("label-agrees")

    def carton(self, *, lot: str | None, product: str = "-19,5", pieces: str = "40", grams: str = "1008",
               black_spots: int = 0, photos: dict[str, str] | None = None) -> None:
        """Every question of one opened carton; marks are asked of a line's first, and looked at with the rest later."""
        self.first_label(lot) if lot else self.tap("same-label")
        self.take({name: path for name, path in (photos or {}).items() if name in {"top", "under_liner"}})
        self.tap("all-sound")
        self.enter(product)
        self.enter(pieces)
        self.enter(grams, done="weighed-without")
        if black_spots:
            self.tap("details")
            self.write("count-black_spot", str(black_spots))
            self.page.get_by_test_id("count-black_spot").blur()
            self.tap("rest-none")
            self.tap("segment-frozen")
            self.tap("segment-sound")
            self.tap("segment-none")
            self.take({name: path for name, path in (photos or {}).items() if name in {"sample", "defect"}})
            self.tap("next")
            self.tap("score-6")
        else:
            self.take({name: path for name, path in (photos or {}).items() if name == "sample"})
            self.tap("all-sound-frozen")
        self.marks()

    def marks(self) -> None:
        """The species' marks, where they are a question of their own."""
        wait_until(self.page, "() => !location.pathname.includes('/faults')")
        if "/marks" in self.page.evaluate("decodeURIComponent(location.pathname)"):
            self.tap("choice-agree")

    def take(self, photos: dict[str, str]) -> None:
        for purpose, path in photos.items():
            self.photo(purpose, path)

    def photo(self, purpose: str, path: str) -> None:
        """Choose a picture; one that the gate finds doubtful is kept anyway."""
        before = self.page.locator(".photo img").count()
        self.page.get_by_test_id(f"photo-{purpose}").set_input_files(path)
        wait_until(
            self.page, "n => document.querySelectorAll('.photo img').length > n"
            " || document.querySelector('[data-testid=keep-anyway]') !== null", before)
        if self.page.get_by_test_id("keep-anyway").count():
            self.tap("keep-anyway")
            wait_until(self.page, "n => document.querySelectorAll('.photo img').length > n", before)

    def sign(self, driver: str = "Jon Fell") -> None:
        """The words go on the docket, both draw their names, the record is closed."""
        for pad in ("ink-receiver", "ink-driver"):
            self.draw(pad)
        self.write("driver-name", driver)
        self.tap("seal")

    def draw(self, pad: str) -> None:
        """One stroke; one touch."""
        # to the middle: at the lower edge the button that seals lies over it
        self.page.get_by_test_id(pad).evaluate("pad => pad.scrollIntoView({ block: 'center' })")
        box = self.page.get_by_test_id(pad).bounding_box()
        mouse = self.page.mouse
        mouse.move(box["x"] + 20, box["y"] + box["height"] / 2)
        mouse.down()
        for step in range(1, 12):
            mouse.move(box["x"] + 20 + step * 12, box["y"] + box["height"] / 2 + (-1) ** step * 12)
        mouse.up()
        self.taps += 1

    def put_away(self, air: str = "-21") -> None:
        """Freezer, its air, all in with liners closed again."""
        self.page.get_by_role("heading", name="Which freezer").wait_for()
        self.tap(self.page.locator("[data-testid^=choice-]").first.get_attribute("data-testid"))
        self.enter(air, done="in-closed")
        # The question stands while it is kept, its buttons off; where goods stand apart they come on again.
        wait_until(self.page, "() => location.pathname.endsWith('/record')"
                   " || document.querySelector('[data-testid=liner-closed]:not([disabled])') !== null")
        if not self.page.url.endswith("/record"):
            self.tap("liner-closed")
