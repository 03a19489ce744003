"""Outcomes as a table in Markdown: what is printed, and what stands in the method's page.

Method: areas under the ROC curve and shares with their intervals (measures.py), over all photos and with each source
left out. The one thing that is set on photographs is the cut-off, so it is also set on the other sources each time
(95th percentile of sound figures) and tried on the one left out. Painted photos stand in rows of their own.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from imaging.measures import Rate, auc
from inspections.development.advice_trials.trials import SOUND, Outcome

PAIRS = (
    ("marked against none", ("marked",), ("none",)),
    ("marked and slight against none", ("marked", "slight"), ("none",)),
    ("marked against none and naturally dark", ("marked",), SOUND),
    ("marked and slight against none and naturally dark", ("marked", "slight"), SOUND),
    ("painted against the same photos unpainted", ("painted",), SOUND),
)
_FALSE_ALARMS = ("none", "naturally-dark", "not-prawn")


def report(found: Sequence[Outcome], problems: Sequence[str] = ()) -> str:
    """The whole table.

    Parameters
    ----------
    found : sequence of Outcome
    problems : sequence of str
        Rows of the table of labels that could not be used.
    """
    read = [one for one in found if not one.problem]
    lines = [f"{sum(one.label != 'painted' for one in read)} photographs, {_counts(read)}.", ""]
    lines += ["| chance that the darker one is put first (AUC) | all sources | each source left out |"]
    lines.append("| --- | --- | --- |")
    for words, high, low in PAIRS:
        lines.append(f"| {words} | {_area(read, high, low)} | {_left_out(read, high, low)} |")
    lines += ["", "| at the cut-off | as shipped | set on the other sources |", "| --- | --- | --- |"]
    for label in (*_FALSE_ALARMS, "marked", "painted"):
        lines.append(f"| *seen* on {label} | {_said(read, label, 'darkening_seen')} | {_crossed(read, label)} |")
    lines.append(f"| *none seen* on marked | {_said(read, 'marked', 'none_seen')} | |")
    for label in ("marked", "painted"):
        placed = [one.is_framed for one in read if one.label == label and one.is_framed is not None]
        lines.append(f"| a frame on the {label} place | {_rate(sum(placed), len(placed))} | |")
    lines += ["", f"Pieces clear of their ground in {_rate(sum(one.is_clear for one in read), len(read))}."]
    left = [*problems, *(f"{one.name}: {one.problem}" for one in found if one.problem)]
    return "\n".join([*lines, *(["", f"Left out: {len(left)}", *(f"- {one}" for one in left)] if left else [])])


def figures(found: Sequence[Outcome]) -> dict[str, Any]:
    """What decides whether answers are given: marked against all that is sound, for ``measured.json``."""
    high, low = ([one.figure for one in found if one.label in labels] for labels in (("marked",), SOUND))
    area = auc(high, low)
    told = {"marked": len(high), "none": len(low)}
    return told if area is None else {**told, "auc": area.area, "auc_low": area.low, "auc_high": area.high}


def _counts(read: Sequence[Outcome]) -> str:
    labels = list(dict.fromkeys(one.label for one in read))
    return ", ".join(f"{sum(one.label == label for one in read)} {label}" for label in labels)


def _area(read: Sequence[Outcome], high: Sequence[str], low: Sequence[str]) -> str:
    area = auc([o.figure for o in read if o.label in high], [o.figure for o in read if o.label in low])
    if area is None:
        return "too few"
    return f"{area.area:.2f} ({area.low:.2f} to {area.high:.2f}), {area.positives} against {area.negatives}"


def _left_out(read: Sequence[Outcome], high: Sequence[str], low: Sequence[str]) -> str:
    sources = sorted({one.source for one in read if one.label in (*high, *low)})
    told = {source: _area([o for o in read if o.source != source], high, low) for source in sources}
    return "; ".join(f"without {source} {words}" for source, words in told.items())


def _said(read: Sequence[Outcome], label: str, answer: str) -> str:
    of = [one for one in read if one.label == label]
    return _rate(sum(one.would_say == answer for one in of), len(of))


def _crossed(read: Sequence[Outcome], label: str) -> str:
    """Seen at a cut-off that the photo's own source had no part in."""
    hits = total = 0
    for source in {one.source for one in read}:
        sound = [one.figure for one in read if one.source != source and one.label in SOUND]
        own = [one for one in read if one.source == source and one.label == label]
        if len(sound) < 2:
            continue
        cut_off = float(np.percentile(sound, 95))
        hits += sum(one.is_clear and one.figure >= cut_off for one in own)
        total += len(own)
    return _rate(hits, total)


def _rate(hits: int, total: int) -> str:
    rate = Rate(int(hits), total)
    low, high = rate.interval
    return f"{hits} of {total} ({100 * low:.0f} to {100 * high:.0f} %)" if total else "none to count"


