"""What is odd about a logger's file, so that its figures are not taken for more than they are?

Does it cover the way, has it gaps, jumps, readings that no load has, rows left out? The bounds here are common
practice, no source: they ask a person to look, and set no verdict.
"""

from collections.abc import Sequence
from datetime import tzinfo
from itertools import pairwise

from .exposure import Logged, usual_interval_s
from .journey import Journey, gaps_of
from .logger_words import clock_text, minutes_words, said
from .loggers import LoggerFile
from .wording import counted, listed, shown, shown_measure

#: A load, or the air about it, does not change by so much between two readings so close: °C, minutes.
JUMP_C, JUMP_WITHIN_MIN = 15.0, 15.0
#: Colder or warmer than a reefer, a dock or dry ice beside the sensor would give: °C.
COLDEST_LIKELY_C, WARMEST_LIKELY_C = -80.0, 45.0
#: A file may end or begin so many minutes off before it is said; at least two usual intervals.
LEEWAY_MIN = 15.0
#: With readings further apart than this, a short excursion can hide between two of them: minutes.
SPARSE_MIN = 60.0
#: So many readings that are all alike are a stuck sensor rather than a steady load.
ALIKE = 24

Remark = dict[str, str]


def remarks_on(log: LoggerFile, journey: Journey, kept: Sequence[Logged], zone: tzinfo) -> list[Remark]:
    """Everything to be said about a file, weightiest first.

    Parameters
    ----------
    log : LoggerFile
        The whole file, on a clock with a zone.
    journey : Journey
    kept : sequence of Logged
        The readings that are counted (``journey.journey_of``).
    zone : tzinfo
        The site's clock.

    Returns
    -------
    list of dict
        ``{"code", "text"}``; empty for a file without anything odd.
    """
    return [
        *_span(log.readings, journey, kept, zone),
        *_gaps(kept, zone),
        *_jumps(kept, zone),
        *_range(kept),
        *_reading_rate(kept),
        *_file(log),
    ]


def _remark(code: str, **places: str) -> Remark:
    return {"code": code, "text": said(code, **places)}


def _span(whole: Sequence[Logged], journey: Journey, kept: Sequence[Logged], zone: tzinfo) -> list[Remark]:
    first_s, last_s, arrived_s = whole[0].at_s, whole[-1].at_s, journey.arrived_s
    leeway_s = max(LEEWAY_MIN * 60.0, 2.0 * usual_interval_s(whole))
    if len(kept) < 2:
        return [_remark("outside", first=clock_text(first_s, zone), last=clock_text(last_s, zone),
                        arrived=clock_text(arrived_s, zone))]  # fmt: skip
    found = []
    if arrived_s - last_s > leeway_s:
        found.append(_remark("ends_early", apart=_apart(last_s, arrived_s), last=clock_text(last_s, zone)))
    if journey.left_s is None:
        found.append(_remark("start_unknown", first=clock_text(first_s, zone), apart=_apart(first_s, arrived_s)))
    elif first_s - journey.left_s > leeway_s:
        found.append(_remark("starts_late", apart=_apart(journey.left_s, first_s), first=clock_text(first_s, zone)))
    elif first_s < journey.left_s:
        found.append(_remark("before_leaving", apart=_apart(first_s, journey.left_s)))
    if last_s > arrived_s:
        found.append(_remark("after_arrival", apart=_apart(arrived_s, last_s)))
    return found


def _apart(from_s: float, to_s: float) -> str:
    return minutes_words((to_s - from_s) / 60.0)


def _gaps(kept: Sequence[Logged], zone: tzinfo) -> list[Remark]:
    gaps = gaps_of(kept)
    if not gaps:
        return []
    longest = max(gaps, key=lambda gap: gap[1] - gap[0])
    if len(gaps) == 1:
        return [_remark("one_gap", minutes=_apart(*longest), at=clock_text(longest[0], zone))]
    total = sum(to_s - from_s for from_s, to_s in gaps)
    return [_remark("gaps", number=counted(len(gaps), "gap"), minutes=minutes_words(total / 60.0),
                    longest=_apart(*longest), at=clock_text(longest[0], zone))]  # fmt: skip


def _jumps(kept: Sequence[Logged], zone: tzinfo) -> list[Remark]:
    jumps = [
        (before, after)
        for before, after in pairwise(kept)
        if abs(after.celsius - before.celsius) >= JUMP_C and after.at_s - before.at_s <= JUMP_WITHIN_MIN * 60.0
    ]
    if not jumps:
        return []
    before, after = max(jumps, key=lambda jump: abs(jump[1].celsius - jump[0].celsius))
    return [_remark("jumps", number=counted(len(jumps), "jump"), before=shown_measure(before.celsius, "C"),
                    after=shown_measure(after.celsius, "C"), at=clock_text(after.at_s, zone))]  # fmt: skip


def _range(kept: Sequence[Logged]) -> list[Remark]:
    unlikely = [each.celsius for each in kept if not COLDEST_LIKELY_C <= each.celsius <= WARMEST_LIKELY_C]
    if not unlikely:
        return []
    return [_remark("unlikely", number=counted(len(unlikely), "reading"), coldest=shown_measure(COLDEST_LIKELY_C, "C"),
                    warmest=shown_measure(WARMEST_LIKELY_C, "C"))]  # fmt: skip


def _reading_rate(kept: Sequence[Logged]) -> list[Remark]:
    found = []
    usual_min = usual_interval_s(kept) / 60.0
    if usual_min > SPARSE_MIN:
        found.append(_remark("sparse", usual=minutes_words(usual_min)))
    if len(kept) >= ALIKE and len({each.celsius for each in kept}) == 1:
        found.append(_remark("alike", number=str(len(kept)), celsius=shown_measure(kept[0].celsius, "C")))
    return found


def _file(log: LoggerFile) -> list[Remark]:
    found = []
    if log.unread:
        share = len(log.unread) / (len(log.unread) + len(log.readings))
        found.append(_remark("rows_left_out", number=counted(len(log.unread), "row"), share=shown(share * 100.0, 1)))
    if log.other_columns:
        found.append(_remark("other_columns", column=log.column, others=listed(list(log.other_columns))))
    if log.unit == "mixed":
        found.append(_remark("mixed_units"))
    if not log.was_sorted:
        found.append(_remark("unsorted"))
    return found
