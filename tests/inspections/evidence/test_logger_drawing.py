"""The drawing of a log: from the reading's points, whole, inside its frame, and readable without seeing it."""
from datetime import datetime
from itertools import pairwise
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import pytest
from django.template.loader import render_to_string
from hypothesis import given, settings
from hypothesis import strategies as st

from fixtures.demo.logger import LEFT, log_of
from inspections.evidence.logger_drawing import LETTER, drawing_of
from inspections.trade.journey import Goods, Journey, log_limits, need_clock
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.logger_reading import reading_of
from inspections.trade.loggers import read_logger_bytes
from inspections.trade.wording import typeset

ZONE = ZoneInfo("Australia/Brisbane")
ARRIVED = datetime(2026, 11, 25, 6, 10, tzinfo=ZONE)
SIZES = [(350.0, 300.0), (760.0, 320.0)]


@pytest.fixture(scope="module")
def reading() -> dict:
    """The demo's log: warm before it left, a gap, an open door, the dock."""
    log = need_clock(read_logger_bytes(log_of(ARRIVED)), 600)
    end = ARRIVED.timestamp()
    goods = [Goods("peeled_cooked", "Prawns", True)]
    return reading_of(log, Journey(end, end - LEFT * 60.0), log_limits(DEFAULT_LIMITS["limits"]), goods, ZONE)


def svg_of(reading: dict, size: tuple[float, float]) -> ElementTree.Element:
    drawing = drawing_of(reading["plot"], *size)
    text = render_to_string(
        "evidence/log_drawing.html", {"kind": "wide", "drawing": drawing, "title": reading["summary"]}
    )
    return ElementTree.fromstring(text)


@pytest.mark.parametrize("size", SIZES)
def test_it_is_whole_and_told_to_those_who_do_not_see_it(reading, size):
    svg = svg_of(reading, size)
    assert svg.get("role") == "img"
    assert typeset(reading["summary"]) in svg.get("aria-label")
    assert svg.get("viewBox") == f"0 0 {size[0]:.1f} {size[1]:.1f}"
    kinds = [element.get("class") for element in svg]
    assert kinds.count("bound") == 3
    assert kinds.count("warm") == len(reading["plot"]["shaded"]) == 1
    assert kinds.count("gap") == len(reading["plot"]["gaps"]) == 1
    assert kinds.count("curve") == len(reading["plot"]["stretches"]) == 2
    assert kinds.count("moment") == 2


@pytest.mark.parametrize("size", SIZES)
def test_limits_excursions_and_moments_carry_words(reading, size):
    words = [element.text for element in svg_of(reading, size) if element.tag == "text"]
    limits = ["−12 °C", "−15 °C", "−18 °C"] if size[0] < 520 else [
        "−12 °C house: reject or hold", "−15 °C transport tolerance", "−18 °C quick-frozen"]  # fmt: skip
    assert set(limits) <= set(words)
    assert typeset(reading["plot"]["shaded"][0]["text"]) in words
    assert {"arrived 06:10", "left 11:20"} <= set(words)
    assert "Tue 24 Nov" in words


@pytest.mark.parametrize("size", SIZES)
def test_everything_lies_inside(reading, size):
    width, height = size
    anchors = {"scale": (1.0, 0.0), "name": (0.0, 1.0)}
    for element in svg_of(reading, size):
        if element.tag == "text":
            half = len(element.text) * LETTER
            before, after = anchors.get(element.get("class"), (0.5, 0.5))
            x = float(element.get("x"))
            assert -6.0 <= x - half * before <= x + half * after <= width + 6.0, element.text
            assert 0.0 <= float(element.get("y")) <= height
        for name in ("x", "x1", "x2", "cx"):
            assert 0.0 <= float(element.get(name, 0)) <= width
        for name in ("y", "y1", "y2", "cy"):
            assert 0.0 <= float(element.get(name, 0)) <= height


def test_the_warmest_on_the_way_is_drawn_at_its_place(reading):
    drawing = drawing_of(reading["plot"], 760.0, 320.0)
    scale = reading["plot"]["scale"]
    top, bottom = float(drawing.top), float(drawing.bottom)
    heights = [
        scale["to"] - (float(pair.split(",")[1]) - top) / (bottom - top) * (scale["to"] - scale["from"])
        for curve in drawing.curves for pair in curve.split(" ")
        if float(drawing.shaded[0].x) <= float(pair.split(",")[0])
        <= float(drawing.shaded[0].x) + float(drawing.shaded[0].width)
    ]  # fmt: skip
    assert max(heights) == pytest.approx(reading["counted"]["warmest_c"], abs=0.05)


@settings(max_examples=50)
@given(
    st.lists(st.tuples(st.integers(0, 86_000), st.integers(1, 5_000)), max_size=40),
    st.lists(st.floats(-40, 20), max_size=8), st.floats(260, 1600),
)  # fmt: skip
def test_any_stretches_and_limits_are_drawn_inside_and_labels_do_not_touch(stretches, limits, width):
    plot = {
        "from_s": 0.0, "to_s": 86_400.0, "stretches": [[[0.0, -20.0], [86_400.0, -18.0]]],
        "scale": {"from": -40.0, "to": 20.0, "step": 10.0}, "ticks": [], "marks": [], "gaps": [],
        "limits": [{"limit_c": one, "text": "limit"} for one in limits],
        "shaded": [{"from_s": a, "to_s": min(86_400, a + b), "text": f"{b} minutes, to -9.0 °C"} for a, b in stretches],
    }  # fmt: skip
    drawing = drawing_of(plot, width, 300.0)
    assert len(drawing.shaded) == len(stretches)
    by_lane: dict[str, list] = {}
    for box in drawing.shaded:
        if box.text:
            half = len(box.text) * LETTER / 2
            by_lane.setdefault(box.text_y, []).append((float(box.text_x) - half, float(box.text_x) + half))
    for spans in by_lane.values():
        spans.sort()
        assert all(before[1] <= after[0] for before, after in pairwise(spans))
    places = [float(line.text_at) for line in drawing.limits]
    assert all(after - before >= 14.9 for before, after in pairwise(places))
