"""A small phone: what confirms an answer is in view, and the keys can be hit.

360 × 640 CSS pixels: common practice, no source.
"""
import pytest
from playwright.sync_api import Page

from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser

OUT_OF_REACH = """() => [...document.querySelectorAll('.actions .btn.main, .pad .ways .btn, .pad .keys button')]
  .filter(one => {
    const box = one.getBoundingClientRect();
    const hit = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    return box.top < 0 || box.bottom > innerHeight + 1 || box.right > innerWidth + 1 || !one.contains(hit);
  })
  .map(one => one.dataset.testid ?? one.innerText)"""
WIDER = "() => document.documentElement.scrollWidth > innerWidth + 1"


class InView:
    """Looks at each screen before it is tapped, as it stands without scrolling."""

    def __init__(self):
        self.wrong: dict[str, list[str]] = {}
        self.seen: set[str] = set()

    def look(self, page: Page) -> None:
        step = page.evaluate("decodeURIComponent(location.pathname).split('/').slice(3).join('/').split('~')[0]")
        page.evaluate("document.activeElement?.matches('input') || scrollTo(0, 0)")
        found = page.evaluate(OUT_OF_REACH) + (["wider than the window"] if page.evaluate(WIDER) else [])
        self.seen.add(step)
        if found:
            self.wrong[step] = found


def walked(walk: Walk, order: str) -> None:
    """To the suggestion, over every kind of pad and each answer in one tap."""
    walk.docket(order, f"DN-{order}")
    walk.vehicle(["2"])
    walk.begin_cartons()
    walk.carton(lot="L-95")
    walk.carton(lot=None)
    walk.tap("decide-suggested")


def test_what_confirms_is_in_view_and_every_key_can_be_hit(phone):
    phone.more = {"viewport": {"width": 360, "height": 640}}
    walk = Walk(phone.open())
    walk.sign_in()
    walk.screens = InView()
    walked(walk, "PO-21")
    assert {"air", "count", "temperature", "pieces", "weigh", "lid", "faults", "label"} <= walk.screens.seen
    assert walk.screens.wrong == {}
