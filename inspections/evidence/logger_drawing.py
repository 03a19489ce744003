"""Where the lines and words of a log's drawing go: geometry only, from the one set of points in its reading.

The supplier's page and the desk show the same drawings. Widths of words are reckoned at a fixed breadth a letter, so
a label may be left out that would just have fitted; everything drawn is also told in words beside it.
"""
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from inspections.trade.wording import shown

LEFT, BOTTOM, TOP = 38.0, 40.0, 22.0
LETTER, LANE, LINE = 7.0, 18.0, 15.0
MOST_LANES = 3
#: Below this width only the number of a limit stands beside its line, its name in the list below.
NARROW = 520.0
GUTTER_NARROW, GUTTER_WIDE = 56.0, 218.0
TICK_APART, DAY_APART = 52.0, 84.0


@dataclass(frozen=True)
class Box:
    """A stretch of time shaded from top to bottom, with its label, if there is room."""

    x: str
    width: str
    text: str
    text_x: str
    text_y: str


@dataclass(frozen=True)
class Line:
    """A limit, a step of the scale or a moment: its place and its words with theirs."""

    at: str
    text: str
    text_at: str


@dataclass(frozen=True)
class Tick:
    """A place on the time axis; ``day`` is empty where it would repeat or touch the one before."""

    x: str
    text: str
    day: str


@dataclass(frozen=True)
class Drawing:
    """All of it, in units of the drawing, as text with one decimal; ``…_x`` and ``…_y`` are places of words."""

    width: str
    height: str
    left: str
    right: str
    top: str
    bottom: str
    deep: str
    scale_x: str
    name_x: str
    mark_y: str
    tick_y: str
    time_y: str
    day_y: str
    curves: list[str]
    dots: list[tuple[str, str]]
    steps: list[Line]
    limits: list[Line]
    shaded: list[Box]
    gaps: list[Box]
    outside: list[Box]
    ticks: list[Tick]
    marks: list[Line]


def drawing_of(plot: Mapping[str, Any], width: float, height: float) -> Drawing:
    """The drawing of a log in a box of that size.

    Parameters
    ----------
    plot : mapping
        ``plot`` of a reading (``trade.logger_reading``).
    width, height : float
        Size of the drawing, at least 260 by 160; one unit is one pixel on the screen.
    """
    right = width - (GUTTER_NARROW if width < NARROW else GUTTER_WIDE)
    across = _Scale(plot["from_s"], plot["to_s"], LEFT, right)
    labelled, lanes = _labelled(plot["shaded"], across)
    top = TOP + LANE * lanes
    bottom = height - BOTTOM
    up = _Scale(plot["scale"]["to"], plot["scale"]["from"], top, bottom)
    return Drawing(
        width=_text(width), height=_text(height), left=_text(LEFT), right=_text(right), top=_text(top),
        bottom=_text(bottom), deep=_text(bottom - top), scale_x=_text(LEFT - 6.0), name_x=_text(right + 6.0),
        mark_y=_text(bottom - 8.0), tick_y=_text(bottom + 5.0), time_y=_text(bottom + 19.0),
        day_y=_text(bottom + 35.0),
        curves=[" ".join(f"{_text(across.at(s))},{_text(up.at(c))}" for s, c in stretch)
                for stretch in plot["stretches"] if len(stretch) > 1],
        dots=[(_text(across.at(stretch[0][0])), _text(up.at(stretch[0][1])))
              for stretch in plot["stretches"] if len(stretch) == 1],
        steps=_steps(plot["scale"], up), limits=_limits(plot["limits"], up, is_narrow=width < NARROW),
        shaded=labelled, gaps=[_gap(gap, across, bottom) for gap in plot["gaps"]],
        outside=_outside(plot, across), ticks=_ticks(plot["ticks"], across),
        marks=[_mark(mark, across) for mark in plot["marks"]],
    )  # fmt: skip


@dataclass(frozen=True)
class _Scale:
    """Values ``low`` to ``high`` on places ``start`` to ``end``; what lies beyond is drawn at the edge."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return self.start + min(1.0, max(0.0, share)) * (self.end - self.start)


def _text(value: float) -> str:
    return shown(value, 1)


def _labelled(shaded: Sequence[Mapping[str, Any]], across: _Scale) -> tuple[list[Box], int]:
    """Shaded stretches in time order, the longest labelled first; and how many lanes of labels that takes."""
    lanes: list[list[tuple[float, float]]] = [[] for _ in range(MOST_LANES)]
    placed: dict[int, tuple[int, float]] = {}
    longest = sorted(range(len(shaded)), key=lambda i: (shaded[i]["from_s"] - shaded[i]["to_s"], i))
    for i in longest:
        half = len(shaded[i]["text"]) * LETTER / 2.0
        middle = (across.at(shaded[i]["from_s"]) + across.at(shaded[i]["to_s"])) / 2.0
        middle = max(across.start + half, min(across.end - half, middle))
        for lane in range(MOST_LANES):
            if all(middle + half + 6.0 <= a or middle - half - 6.0 >= b for a, b in lanes[lane]):
                lanes[lane].append((middle - half, middle + half))
                placed[i] = (lane, middle)
                break
    return [_shaded_box(one, placed.get(i), across) for i, one in enumerate(shaded)], sum(bool(lane) for lane in lanes)


def _shaded_box(one: Mapping[str, Any], placed: tuple[int, float] | None, across: _Scale) -> Box:
    # At least two units wide, so that a short excursion in a long log is still seen.
    x, end = across.at(one["from_s"]), across.at(one["to_s"])
    lane, middle = placed or (0, 0.0)
    return Box(_text(x), _text(max(2.0, end - x)), one["text"] if placed else "", _text(middle),
               _text(TOP + LANE * lane + 10.0))  # fmt: skip


def _gap(gap: Mapping[str, Any], across: _Scale, bottom: float) -> Box:
    x, end = across.at(gap["from_s"]), across.at(gap["to_s"])
    fits = end - x >= len(gap["text"]) * LETTER
    return Box(_text(x), _text(end - x), gap["text"] if fits else "", _text((x + end) / 2.0), _text(bottom - 28.0))


def _outside(plot: Mapping[str, Any], across: _Scale) -> list[Box]:
    """Before the goods left and after they arrived: drawn, not counted."""
    found = [(plot["from_s"], mark["at_s"]) if mark["kind"] == "left" else (mark["at_s"], plot["to_s"])
             for mark in plot["marks"]]  # fmt: skip
    return [
        Box(_text(across.at(a)), _text(across.at(b) - across.at(a)), "", _text(across.at(a)), "0.0") for a, b in found
    ]


def _steps(scale: Mapping[str, float], up: _Scale) -> list[Line]:
    number = int((scale["to"] - scale["from"]) / scale["step"] + 0.5)
    values = [scale["from"] + i * scale["step"] for i in range(number + 1)]
    return [Line(_text(up.at(value)), shown(value, 0), _text(up.at(value) + 4.5)) for value in values]


def _limits(limits: Sequence[Mapping[str, Any]], up: _Scale, *, is_narrow: bool) -> list[Line]:
    """Lines of the limits, warmest first; labels that would touch are pushed apart, downwards then upwards."""
    warmest_first = sorted(limits, key=lambda one: -one["limit_c"])
    places = [up.at(one["limit_c"]) + 4.5 for one in warmest_first]
    for i in range(1, len(places)):
        places[i] = max(places[i], places[i - 1] + LINE)
    over = max(0.0, places[-1] - (up.end + 4.5)) if places else 0.0
    places = [place - over for place in places]
    return [
        Line(_text(up.at(one["limit_c"])), _limit_text(one, is_narrow), _text(place))
        for one, place in zip(warmest_first, places, strict=True)
    ]


def _limit_text(one: Mapping[str, Any], is_narrow: bool) -> str:
    number = shown(one["limit_c"], 0 if one["limit_c"] == int(one["limit_c"]) else 1) + " °C"
    return number if is_narrow else f"{number} {one['text']}"


def _ticks(ticks: Sequence[Mapping[str, Any]], across: _Scale) -> list[Tick]:
    found: list[Tick] = []
    last_x = last_day_x = -1000.0
    last_day = ""
    for tick in ticks:
        x = across.at(tick["at_s"])
        if x - last_x < TICK_APART:
            continue
        day = tick["day"] if tick["day"] != last_day and x - last_day_x >= DAY_APART else ""
        found.append(Tick(_text(x), tick["text"], day))
        last_x = x
        if day:
            last_day, last_day_x = day, x
    return found


def _mark(mark: Mapping[str, Any], across: _Scale) -> Line:
    """A moment; its words stand to the left of it, or to the right where they would leave the drawing."""
    x = across.at(mark["at_s"])
    length = len(mark["text"]) * LETTER
    is_left = x - length - 5.0 >= LEFT
    return Line(_text(x), mark["text"], _text(x - length / 2.0 - 5.0 if is_left else x + length / 2.0 + 5.0))
