"""Does the label show what the market asks, and is it what was ordered?

Method: the particulars shown are held against the market's list; what the label states is held against the
specification, the docket's lot and the day of arrival. GS1 text is read at the door by a kept library; what a
date in it means is in ``gs1``.
Does not hold: as legal advice. Lists are the receiver's minimum (CV-8-16) and name their source one by one;
sulphites must be declared only where they are added, which a label alone cannot prove.
Sources: Reg. 1379/2013 Art. 35 (read), Reg. 1169/2011 (from memory), Std 1.2.3 (read), CXS 92-1981 §6 (read),
FALCPA 2004 (from memory).
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from .carton_facts import CartonFacts, LabelFacts
from .findings import CANNOT_TELL, WITHIN, Finding, Judged
from .grades import customary_per, parse_grade
from .gs1 import has_swallowed_date
from .limits import Limits
from .quantities import UnusableGrade
from .registry import Check, checks_on
from .species import ascii_lower
from .specification import Ordered

_DATA = Path(__file__).parent / "data"
# Without these nobody can say which carton it was.
TRACED_BY = ("lot", "date")
# In the order in which they are judged.
LABEL_CHECKS = (
    *("particulars", "crustacean", "sulphites", "trace"),
    *(check.name for check in checks_on("label")),
    "life",
)


def _table() -> dict[str, Any]:
    with open(_DATA / "particulars.json", encoding="utf-8") as file:
        table: dict[str, Any] = json.load(file)
    return table


TABLE: dict[str, Any] = _table()


def missing_particulars(shows: tuple[str, ...], market: str, method: str | None) -> list[str]:
    """Particulars that the market asks for and the label does not show, in the market's order.

    Parameters
    ----------
    shows : tuple of str
    market : str
        EU, US, ANZ or CODEX; another gives no list.
    method : str or None
        Gear is asked only for caught goods.
    """
    profile = TABLE["markets"].get(market)
    if profile is None:
        return []
    is_caught = method in ("caught", "caught_freshwater")
    required = [*profile["required"], *(profile["when_caught"] if is_caught else [])]
    return [particular for particular in required if particular not in shows]


def _same(left: str, right: str) -> bool:
    squeeze = re.compile(r"[ \t\r\n]+")
    return ascii_lower(squeeze.sub("", left)) == ascii_lower(squeeze.sub("", right))


def _same_grade(stated: str, ordered: str, presentation: str) -> bool | None:
    """Whether two grades are the same however written; None when one cannot be read."""
    per = customary_per(presentation)
    try:
        return parse_grade(stated, per).text == parse_grade(ordered, per).text
    except UnusableGrade:
        return True if _same(stated, ordered) else None


def is_larger_grade(stated: str, ordered: str, presentation: str) -> bool:
    """Whether every prawn of the grade stated is larger than those of the grade ordered; raises UnusableGrade."""
    per = customary_per(presentation)
    found, asked = parse_grade(stated, per), parse_grade(ordered, per)
    if asked.kind == "broken":
        return True
    if found.high is None or asked.low is None or found.per != asked.per:
        return False
    return found.high <= asked.low
def _is_net(stated_g: float, ordered_by: Ordered) -> bool:
    """A label on the inner unit states the unit, one on the carton the carton or more; a gram is for rounding of lb."""
    return stated_g >= ordered_by.carton_net_g - 1.0 or abs(stated_g - ordered_by.unit_net_g) <= 1.0


# How what a label states is held against what was ordered: True, False, or None where it cannot be told.
_COMPARISONS: dict[str, Callable[[Any, Any, Ordered], bool | None]] = {
    "is": lambda found, ordered, _: found == ordered,
    "alike": lambda found, ordered, _: _same(found, ordered),
    "one_of": lambda found, ordered, _: any(_same(found, one) for one in ordered),
    "grade": lambda found, ordered, ordered_by: _same_grade(found, ordered, ordered_by.presentation),
    "near": lambda found, _, ordered_by: _is_net(found, ordered_by),
}


def _judge_stated(
    judged: Judged, check: Check, label: LabelFacts, ordered_by: Ordered, docket_lot: str, limits: Limits
) -> None:
    """What the label states against what was ordered."""
    found = label.seen[check.name]
    ordered = (docket_lot or None) if check.ordered == "docket_lot" else getattr(ordered_by, check.ordered)
    if found is None or ordered in (None, ()):
        judged.leave(check.name)
        return
    is_same = _COMPARISONS[check.comparison](found, ordered, ordered_by)
    if is_same is None:
        judged.checks[check.name] = CANNOT_TELL
        return
    in_g = "_g" if check.type == "reading" else ""
    told = ", ".join(ordered) if isinstance(ordered, tuple) else ordered
    facts = {"found" + in_g: found, "ordered" + in_g: told, **({"group": check.name} if check.choices else {})}
    (outcome,) = check.outcomes
    code, limit = outcome.code, outcome.limit
    if check.comparison == "grade" and not is_same and is_larger_grade(found, ordered, ordered_by.presentation):
        code, limit = "LABEL-LARGER", "count_larger"
    judged.see(check.name, not is_same, code, limits[limit], facts)


def _of_the_trace(missing: list[str]) -> list[str]:
    """What of the particulars that trace a carton is missing; the producer counts where lot or date is missing too."""
    return [particular for particular in missing if particular in (*TRACED_BY, "producer")]


def _judge_shows(judged: Judged, label: LabelFacts, market: str, limits: Limits) -> None:
    if label.shows is None:
        judged.leave("particulars", "crustacean", "sulphites", "trace")
        return
    missing = missing_particulars(label.shows, market, label.seen["method"])
    traced = any(particular in missing for particular in TRACED_BY)
    judged.see("trace", traced, "LABEL-TRACE", limits["label.trace"], {"missing": _of_the_trace(missing)})
    told = ("crustacean", *(_of_the_trace(missing) if traced else ()))
    rest = [particular for particular in missing if particular not in told]
    judged.see("particulars", bool(rest), "LABEL-PARTICULARS", limits["label.particulars"], {"missing": rest})
    judged.see("crustacean", "crustacean" in missing, "LABEL-CRUSTACEAN", limits["label.crustacean"])
    judged.checks["sulphites"] = WITHIN
    if "sulphites" in label.shows:
        judged.findings.append(Finding("LABEL-SULPHITES", limits["label.sulphites"]))


def _judge_life(judged: Judged, label: LabelFacts, arrived_day: int | None, limits: Limits) -> None:
    """Days left and share of the life left on the day of arrival (CV-12-30)."""
    end = label.best_before_day
    if end is None or arrived_day is None:
        judged.leave("life")
        return
    left = end - arrived_day
    judged.derived["life_days_left"] = left
    if judged.measure("life", left + 0.0, "DATE-PAST", limits["life_days_left"], {"days": -left}):
        return
    start = label.production_day if label.production_day is not None else label.frozen_day
    if start is None:
        return
    total = end - start
    if total <= 0 or start > arrived_day:
        judged.checks["life"] = CANNOT_TELL
        judged.findings.append(Finding("LABEL-DATES", limits["label.dates"]))
        return
    judged.derived["life_share"] = left / total
    limit, facts = limits["life_share"], {"days": left, "total_days": total}
    is_little = not limits["life_little"].is_fine((left / total) / limit.bound) if limit.bound else False
    judged.measure("life", left / total, "LIFE-LITTLE" if is_little else "LIFE-SHORT", limit, facts)


def judge_labels(
    carton: CartonFacts, ordered_by: Ordered, docket_lot: str, arrived_day: int | None, limits: Limits
) -> Judged:
    """The label against the market's particulars, the specification, the docket and the day.

    Parameters
    ----------
    carton : CartonFacts
    ordered_by : Ordered
        The specification version of the line.
    docket_lot : str
        Lot on the docket line, "" when it states none.
    arrived_day : int or None
        Day number of arrival in the device's own zone.
    limits : Limits

    Returns
    -------
    Judged
        Checks ``LABEL_CHECKS``; derived ``life_days_left`` and ``life_share``.
    """
    judged = Judged()
    label = carton.label
    if label is None:
        judged.leave(*LABEL_CHECKS)
        return judged
    _judge_shows(judged, label, ordered_by.market, limits)
    for check in checks_on("label"):
        _judge_stated(judged, check, label, ordered_by, docket_lot, limits)
    lot = label.seen["lot"]
    if label.scan != "" and lot is not None and has_swallowed_date(lot):
        judged.findings.append(Finding("LABEL-SCAN", limits["label.scan"], facts={"found": lot}))
    _judge_life(judged, label, arrived_day, limits)
    return judged
