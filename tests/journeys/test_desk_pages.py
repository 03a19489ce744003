"""The desk's pages of the comparison, on a phone and at a desk, bright and dark: all readable, drawings told too."""
import os
from pathlib import Path

import pytest

from tests.journeys.conftest import Phone, Served
from tests.journeys.walk import Walk, wait_until

pytestmark = pytest.mark.browser

SIZES = {"phone": {"width": 390, "height": 844}, "desk": {"width": 1280, "height": 800}}
PAGES = {
    "overview": "/desk/comparison", "site": "/desk/comparison?site={site}",
    "supplier": "/desk/measures?by=specification&supplier={supplier}",
    "specification": "/desk/measures?by=supplier&specification={specification}",
    "measures": "/desk/measures?by=month", "looking": "/desk/measures?by=site", "lots": "/desk/lots?q=L2041",
    "exports": "/desk/exports", "summary": "/desk/summary",
}
#: Whether all of a page is there: nothing is still asked for, and it says what only an answer tells.
WHOLE = """told => {
  const text = document.querySelector("main")?.innerText ?? "";
  return !/Asking the server|Reading .* from the server/.test(text) && text.includes(told);
}"""
TOLD = {"exports": "Parquet"}
#: What is cut off at the side, what lies over its neighbour in a drawing, and drawings without a table beside them.
FAULTS = """() => {
  const found = [], wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) found.push(`page ${document.documentElement.scrollWidth} wide`);
  const told = "h1, h2, p, dd, a, button, label, svg";
  for (const one of document.querySelectorAll(`main :is(${told})`)) {
    const box = one.getBoundingClientRect();
    if (box.width && (box.right > wide + 1 || box.left < -1) && !one.closest("[tabindex='0'], .wide"))
      found.push(`cut: ${one.tagName} ${(one.textContent || "").trim().slice(0, 40)}`);
  }
  for (const svg of document.querySelectorAll("main svg[role=img]")) {
    if (!svg.closest("section, article, figure").querySelector("table"))
      found.push(`no table: ${svg.getAttribute("aria-label")}`);
    const frame = svg.getBoundingClientRect();
    const texts = [...svg.querySelectorAll("text")].map((one) => [one.textContent.trim(), one.getBoundingClientRect()]);
    texts.forEach(([name, a], i) => {
      if (a.right > frame.right + 1 || a.left < frame.left - 1 || a.bottom > frame.bottom + 1)
        found.push(`outside: ${name}`);
      for (const [other, b] of texts.slice(i + 1)) {
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        if (across > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3)
          found.push(`over each other: ${name} and ${other}`);
      }
    });
  }
  return found;
}"""


@pytest.fixture(scope="module")
def group(tmp_path_factory):
    server = Served(tmp_path_factory.mktemp("group"), "group.py")
    yield server
    server.stop()


@pytest.fixture
def desk(playwright, group, tmp_path):
    """Somebody who is signed in."""
    opened = []

    def at(person: str) -> Phone:
        one = Phone(playwright, tmp_path / person, group.address)
        opened.append(one)
        Walk(one.open()).sign_in(person)
        return one
    yield at
    for one in opened:
        one.close()


def look_at(one: Phone, name: str, address: str, picture: str) -> str:
    """What a page says; nothing on it may be cut or covered. A picture where ``UNDERLID_PICTURES`` names a folder."""
    page = one.page
    page.goto(one.address + address)
    page.get_by_role("heading", level=1).wait_for()
    # by what the screen says itself: a busy machine makes pauses between one answer and the next
    wait_until(page, WHOLE, TOLD.get(name, "As on the server at"))
    if folder := os.environ.get("UNDERLID_PICTURES"):
        page.screenshot(path=str(Path(folder) / f"{picture}.png"), full_page=True)
    assert page.evaluate(FAULTS) == [], picture
    return page.locator("main").inner_text()


@pytest.mark.parametrize("size", SIZES)
def test_every_page_is_whole_at_both_sizes(desk, group, size):
    one = desk("boss")
    one.page.set_viewport_size(SIZES[size])
    for scheme in ("dark", "light"):
        one.page.emulate_media(color_scheme=scheme)
        said = {name: look_at(one, name, address.format(**group.kitchen), f"{name}-{size}-{scheme}")
                for name, address in PAGES.items()}
    assert "Bright Water" in said["overview"]
    assert "More defective cartons than luck explains" in said["overview"]
    assert "PUD cooked" in said["supplier"]
    assert "Kaldvik" in said["specification"]
    assert "Bright Water" in said["lots"]
    assert "Bright Water: more defective cartons in the last twelve months" in said["summary"]


@pytest.mark.parametrize("person", ["lone", "idle"])
def test_one_supplier_and_none_at_all_are_told_sensibly(desk, person):
    one = desk(person)
    for size, pixels in SIZES.items():
        one.page.set_viewport_size(pixels)
        said = {name: look_at(one, name, PAGES[name], f"{person}-{name}-{size}")
                for name in ("overview", "measures", "lots", "exports", "summary")}
    if person == "idle":
        assert "Nothing was delivered" in said["overview"]
        assert "Nothing was delivered" in said["measures"]
    else:
        assert "Abalone Bay" in said["overview"]
        assert "than luck explains" not in said["overview"]
        assert "It takes three suppliers" in said["overview"]
