"""The whole result of a logger's file: what is kept, sealed, shown and drawn.

Made once, when the file comes in, and kept with the name of its method: what was sealed is what is shown. A later
method does not rewrite it; with the file kept untouched, anybody can reckon it again.
"""

from collections.abc import Iterable, Sequence
from datetime import tzinfo
from typing import Any

from .exposure import LIFE
from .journey import METHOD, Goods, Journey, LogLimit, explain_log, figures_of, gaps_of, journey_of
from .logger_plot import drawn_points, scale_of, ticks_of
from .logger_remarks import remarks_on
from .logger_words import clock_text, local_time, minutes_words, said, span_text, summary_of
from .loggers import LoggerFile, UnreadRow
from .thermometer import NUMBERS
from .wording import WORDS, filled, listed, shown, shown_measure

#: Of rows left out and of stretches above one limit so many are listed; the numbers count all.
MOST_LISTED = 30


def reading_of(
    log: LoggerFile,
    journey: Journey,
    limits: Sequence[LogLimit],
    goods: Sequence[Goods],
    zone: tzinfo,
) -> dict[str, Any]:
    """Everything about a logger's file as JSON, numbers unrounded beside the words.

    Parameters
    ----------
    log : LoggerFile
        On a clock with a zone (``journey.need_clock``).
    journey : Journey
    limits : sequence of LogLimit
        Coldest first.
    goods : sequence of Goods
        What was delivered.
    zone : tzinfo
        The site's clock.

    Returns
    -------
    dict
        ``method``, ``file`` (what was read), ``remarks``, ``counted`` (figures, or None where no reading lies in
        the journey), ``summary``, ``explain`` and ``plot``.
    """
    kept = journey_of(log, journey)
    figures = figures_of(kept, limits, [one.product for one in goods]) if len(kept) > 1 else None
    remarks = remarks_on(log, journey, kept, zone)
    return {
        "method": METHOD,
        "file": _file(log),
        "remarks": remarks,
        "counted": None if figures is None else _told(figures, limits, goods, zone),
        "summary": said("summary_outside") if figures is None else summary_of(figures, zone),
        "explain": explain_log(),
        "plot": _plot(log, journey, limits, figures, zone),
    }


def _file(log: LoggerFile) -> dict[str, Any]:
    return {
        "readings": len(log.readings),
        "unit": log.unit,
        "column": log.column,
        "unread": len(log.unread),
        "unread_rows": [
            {"line": row.line, "code": row.code, "text": row_sentence(row)} for row in log.unread[:MOST_LISTED]
        ],
    }


def row_sentence(row: UnreadRow) -> str:
    """What a row that was left out is said to be, as a sentence; long cells are cut."""
    return filled(WORDS["unusable"][row.code], {key: str(value)[:60] for key, value in row.facts.items()})


def _told(figures: dict[str, Any], limits: Sequence[LogLimit], goods: Sequence[Goods], zone: tzinfo) -> dict[str, Any]:
    """The figures with the words that go with them."""
    return {
        **figures,
        "from": clock_text(figures["from_s"], zone),
        "to": clock_text(figures["to_s"], zone),
        "limits": [_limit(one, limit, zone) for one, limit in zip(figures["limits"], limits, strict=True)],
        "life": [_life(one, [each for each in goods if each.product == one["product"]]) for one in figures["life"]],
    }


def _limit(one: dict[str, Any], limit: LogLimit, zone: tzinfo) -> dict[str, Any]:
    longest_first = sorted(one["excursions"], key=lambda found: -found["minutes"])[:MOST_LISTED]
    listed_ones = sorted(longest_first, key=lambda found: found["from_s"])
    return {
        **one,
        "names": list(limit.names),
        "basis": [dict(source) for source in limit.basis],
        "minutes_text": minutes_words(one["minutes"]) if one["count"] else said("never"),
        "excursions": [{**found, "text": _excursion_text(found, zone)} for found in listed_ones],
    }


def _excursion_text(found: dict[str, Any], zone: tzinfo) -> str:
    return said(
        "excursion", span=span_text(found["from_s"], found["to_s"], zone),
        minutes=minutes_words(found["minutes"]), warmest=shown_measure(found["warmest_c"], "C"),
    )  # fmt: skip


def _life(one: dict[str, Any], goods: Sequence[Goods]) -> dict[str, Any]:
    names = list(dict.fromkeys(each.name for each in goods))
    points = LIFE["products"][one["product"]]["points"]
    table = listed([f"{shown(months, 0)} at {shown_measure(celsius, 'C')}" for celsius, months in points])
    return {
        **one,
        "goods": names,
        "text": said("life", goods=listed(names), share=shown(one["share"] * 100.0, 2),
                     days=shown(one["days_at_18"], 1), at=shown_measure(NUMBERS["within_c"], "C")),
        "table": said("life_table", row=WORDS["logger"]["row_" + one["product"]], table=table)
        + ("" if all(each.is_cooked for each in goods) else " " + said("life_raw")),
    }  # fmt: skip


def _plot(
    log: LoggerFile, journey: Journey, limits: Sequence[LogLimit], figures: dict[str, Any] | None, zone: tzinfo
) -> dict[str, Any]:
    whole = log.readings
    from_s, to_s = whole[0].at_s, max(whole[-1].at_s, whole[0].at_s + 60.0)
    ends = [figures["coldest_c"], figures["warmest_c"]] if figures else [each.celsius for each in whole]
    scale = scale_of([*ends, *(one.limit_c for one in limits)])
    marks = [("left", journey.left_s), ("arrived", journey.arrived_s)]
    return {
        "from_s": from_s,
        "to_s": to_s,
        "stretches": drawn_points(whole),
        "scale": scale,
        # Outside of the way it may be warm: the scale is that of the way, the line runs along its edge beyond it.
        "is_cut": any(not scale["from"] <= each.celsius <= scale["to"] for each in whole),
        "ticks": ticks_of(from_s, to_s, zone),
        "limits": [{"limit_c": one.limit_c, "text": one.names[0]} for one in limits],
        "shaded": [] if figures is None else _shaded(figures),
        "gaps": [
            {"from_s": a, "to_s": b, "text": said("no_reading")}
            for a, b in sorted(sorted(gaps_of(whole), key=lambda gap: gap[0] - gap[1])[:MOST_LISTED])
        ],
        "marks": [
            {"kind": kind, "at_s": at_s, "text": said("mark_" + kind, at=f"{local_time(at_s, zone):%H:%M}")}
            for kind, at_s in marks
            if at_s is not None and from_s <= at_s <= to_s
        ],
    }  # fmt: skip


def _shaded(figures: dict[str, Any]) -> list[dict[str, Any]]:
    """The stretches to be shaded: above the transport tolerance, else above the coldest limit."""
    by_limit: Iterable[dict[str, Any]] = figures["limits"]
    tolerance = next((one for one in by_limit if one["limit_c"] == NUMBERS["tolerance_c"]), None)
    chosen = tolerance if tolerance is not None and tolerance["count"] else figures["limits"][0]
    longest = sorted(chosen["excursions"], key=lambda found: -found["minutes"])[:MOST_LISTED]
    return [
        {"from_s": one["from_s"], "to_s": one["to_s"], "limit_c": chosen["limit_c"],
         "text": said("shaded", minutes=minutes_words(one["minutes"]), warmest=shown_measure(one["warmest_c"], "C"))}
        for one in sorted(longest, key=lambda found: found["from_s"])
    ]  # fmt: skip
