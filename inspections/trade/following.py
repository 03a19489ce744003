"""What is to be done next, and what would each outcome change?

Said before the lid is lifted, so that nobody opens cartons without knowing what for: how many to open, what happens if
they are clean and if one more is bad; which labels to read; which reading to take again, and its neighbours.
"""

from __future__ import annotations

from typing import Any

from .outcome import LineJudged, has_more_to_do
from .wording import WORDS, counted, filled, listed

_ODD_TEMPERATURE = ("TEMP-OUTSIDE", "TEMP-REJECT")


def next_step(line: LineJudged, suggestion: str) -> dict[str, Any] | None:
    """The next step of a line that is not settled; None where nothing would change what is suggested.

    Returns
    -------
    dict or None
        ``kind`` (open, sort or probe), ``cartons`` (how many), ``positions`` (which ones, for a probe),
        ``if_clean`` and ``if_bad`` (the suggestion that follows), ``text``.
    """
    if line.is_whole or line.facts.declined or line.is_hazard:
        return None
    if suggestion == "hold":
        return _probe(line) or (_open(line, _further(line)) if line.count("unfit") > 0 else None)
    if suggestion != "not_yet" or line.facts.cartons_counted is None:
        return None
    if line.is_second_stage_due:
        return _open(line, line.stages.total - len(line.cartons))
    if has_more_to_do(line):
        return _sort(line)
    if len(line.cartons) < line.stages.planned:
        return _open(line, line.stages.planned - len(line.cartons))
    return None


def _further(line: LineJudged) -> int:
    """Cartons of the next stage, or all that are left where the plan has none."""
    opened, stages = len(line.cartons), line.stages
    goal = stages.planned if opened < stages.planned else stages.total
    return goal - opened if goal > opened else max(0, (line.facts.cartons_counted or 0) - opened)


def _open(line: LineJudged, more: int) -> dict[str, Any] | None:
    if more <= 0:
        return None
    stages, bad, came = line.stages, line.bad, line.facts.cartons_counted or 0
    opened = len(line.cartons) + more
    is_last = opened >= stages.total or opened >= came
    clean = "accept_with_allowance" if bad > 0 else "accept"
    if not is_last and bad > stages.acceptance:
        clean = "not_yet"
    worse = "reject" if bad + 1 >= stages.rejection or (is_last and bad + 1 > stages.last_acceptance) else "not_yet"
    if opened >= came:
        worse = "accept_with_allowance" if bad + 1 < came else "reject"
    if not is_last and bad + 1 <= stages.acceptance:
        worse = "accept_with_allowance"
    places = {"more": counted(more, "carton"), "bad": str(bad), "opened": str(len(line.cartons)),
              "accepted": str(came - bad), "refused": str(bad), "counted": str(came)}  # fmt: skip
    words = WORDS["next"]
    kind = "open_first" if bad == 0 else "open_more"
    parts = [words[kind], words[f"clean_{clean}"]]
    parts.append(words["each_by_itself"] if opened >= came else words[f"bad_{worse}"])
    text = " ".join(filled(part, places) for part in parts)
    return {"kind": "open", "cartons": more, "positions": [], "if_clean": clean, "if_bad": worse, "text": text}


def _sort(line: LineJudged) -> dict[str, Any]:
    came, told = line.facts.cartons_counted or 0, line.facts.sorted_by_label
    known = line.count("sort_refuse", "sort_hold")
    read = max(len(line.cartons), told.read if told is not None else 0)
    left = max(0, came - read)
    places = {"known": counted(known, "carton"), "read": str(read), "left": counted(left, "carton")}
    text = filled(WORDS["next"]["sort"], places)
    return {"kind": "sort", "cartons": left, "positions": [], "if_clean": "accept_with_allowance",
            "if_bad": "accept_with_allowance", "text": text}  # fmt: skip


def _probe(line: LineJudged) -> dict[str, Any] | None:
    """Single odd temperatures are taken again, and those of the cartons beside them."""
    odd = [
        carton.facts.position
        for carton in line.cartons
        if any(finding.code in _ODD_TEMPERATURE for finding in carton.judged.findings)
    ]
    if not odd or len(odd) == len(line.cartons):
        return None
    known = [position for position in odd if position is not None]
    opened, came = {carton.facts.position for carton in line.cartons}, line.facts.cartons_counted or 0
    beside = sorted(
        {
            near
            for position in known
            for near in (position - 1, position + 1)
            if 1 <= near <= came and near not in opened
        }
    )
    places = {"again": listed([str(one) for one in sorted(known)]), "beside": listed([str(one) for one in beside])}
    text = filled(WORDS["next"]["probe" if known and beside else "probe_again"], places)
    return {"kind": "probe", "cartons": len(odd) + len(beside), "positions": [*sorted(known), *beside],
            "if_clean": "not_yet", "if_bad": "reject", "text": text}  # fmt: skip
