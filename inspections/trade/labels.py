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
from pathlib import Path
from typing import Any

from .carton_facts import CartonFacts, LabelFacts
from .findings import CANNOT_TELL, WITHIN, Finding, Judged
from .grades import customary_per, parse_grade
from .gs1 import has_swallowed_date
from .limits import Limits
from .quantities import UnusableGrade
from .species import ascii_lower
from .specification import Ordered

_DATA = Path(__file__).parent / "data"
# Without these nobody can say which carton it was.
TRACED_BY = ("lot", "date")
LABEL_CHECKS = (
    "particulars",
    "crustacean",
    "sulphites",
    "trace",
    "presentation",
    "state",
    "method",
    "grade",
    "net",
    "lot",
    "origin",
    "life",
)


def _table() -> dict[str, Any]:
    with open(_DATA / "particulars.json", encoding="utf-8") as file:
        return json.load(file)


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


def sulphite_limit_mg_kg(market: str, family: str, state: str, units_per_kg: float) -> int:
    """Most sulphite (as SO2) in the edible part, mg/kg, for a market.

    Parameters
    ----------
    market : str
        EU, US, ANZ or CODEX.
    family : str
        Zoological family; the EU gives three families classes by size.
    state : str
        raw, part_cooked (taken as raw) or cooked.
    units_per_kg : float
        Prawns to the KILOGRAM (CV-6-32).

    Examples
    --------
    >>> sulphite_limit_mg_kg("EU", "Penaeidae", "raw", 80.0), sulphite_limit_mg_kg("EU", "Penaeidae", "raw", 80.1)
    (150, 200)
    """
    profile = TABLE["sulphite_limits"][market]
    kind = "cooked" if state == "cooked" else "raw"
    if profile["families"] and family not in profile["families"]:
        return profile["other_" + kind]
    return next(
        row["mg_kg"] for row in profile[kind] if row["per_kg_at_most"] is None or units_per_kg <= row["per_kg_at_most"]
    )


def must_declare_sulphites(market: str, mg_kg: float) -> bool:
    """Whether a found amount must be on the label: the EU says more than 10, others 10 or more (CV-6-31)."""
    rule = TABLE["sulphites"][market]
    return mg_kg > rule["over_mg_kg"] if rule["sense"] == "above" else mg_kg >= rule["over_mg_kg"]


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


def _judge_stated(
    judged: Judged, name: str, found: str | None, ordered: str | None, limits: Limits, group: str
) -> None:
    """A word on the label against the word ordered."""
    if found is None or ordered is None:
        judged.leave(name)
    else:
        facts = {"found": found, "ordered": ordered, "group": group}
        judged.see(name, found != ordered, "LABEL-" + name.upper(), limits["label." + name], facts)


def _judge_grade(judged: Judged, label: LabelFacts, ordered_by: Ordered, limits: Limits) -> None:
    ordered = ordered_by.grade
    is_same = None if label.grade == "" else _same_grade(label.grade, ordered, ordered_by.presentation)
    if label.grade == "":
        judged.leave("grade")
    elif is_same is None:
        judged.checks["grade"] = CANNOT_TELL
    else:
        facts = {"found": label.grade, "ordered": ordered}
        is_larger = not is_same and is_larger_grade(label.grade, ordered, ordered_by.presentation)
        code, limit = ("LABEL-LARGER", "count_larger") if is_larger else ("LABEL-GRADE", "label.grade")
        judged.see("grade", not is_same, code, limits[limit], facts)


def _judge_net(judged: Judged, label: LabelFacts, ordered_by: Ordered, limits: Limits) -> None:
    if label.net_g is None:
        judged.leave("net")
        return
    carton_g = ordered_by.carton_net_g
    unit_g = ordered_by.unit_net_g
    # A label on the inner unit states the unit, one on the carton states the carton; a gram is for rounding of lb.
    is_same = abs(label.net_g - carton_g) <= 1.0 or abs(label.net_g - unit_g) <= 1.0
    facts = {"found_g": label.net_g, "ordered_g": carton_g}
    judged.see("net", not is_same and label.net_g < carton_g, "LABEL-NET", limits["label.net"], facts)


def _judge_lot(judged: Judged, label: LabelFacts, docket_lot: str, limits: Limits) -> None:
    if label.lot == "" or docket_lot == "":
        judged.leave("lot")
    else:
        facts = {"found": label.lot, "ordered": docket_lot}
        judged.see("lot", not _same(label.lot, docket_lot), "LABEL-LOT", limits["label.lot"], facts)
    if label.scan != "" and has_swallowed_date(label.lot):
        judged.findings.append(Finding("LABEL-SCAN", limits["label.scan"], facts={"found": label.lot}))


def _judge_origin(judged: Judged, label: LabelFacts, ordered_by: Ordered, limits: Limits) -> None:
    origins = ordered_by.origin
    if label.origin == "" or not origins:
        judged.leave("origin")
        return
    is_one = any(_same(label.origin, origin) for origin in origins)
    facts = {"found": label.origin, "ordered": ", ".join(origins)}
    judged.see("origin", not is_one, "LABEL-ORIGIN", limits["label.origin"], facts)


def _of_the_trace(missing: list[str]) -> list[str]:
    """What of the particulars that trace a carton is missing; the producer counts where lot or date is missing too."""
    return [particular for particular in missing if particular in (*TRACED_BY, "producer")]


def _judge_shows(judged: Judged, label: LabelFacts, market: str, limits: Limits) -> None:
    if label.shows is None:
        judged.leave("particulars", "crustacean", "sulphites", "trace")
        return
    missing = missing_particulars(label.shows, market, label.method)
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
        Checks particulars, crustacean, sulphites, trace, presentation, state, grade, net, lot, origin, method,
        life; derived ``life_days_left`` and ``life_share``.
    """
    judged = Judged()
    label = carton.label
    if label is None:
        judged.leave(*LABEL_CHECKS)
        return judged
    _judge_shows(judged, label, ordered_by.market, limits)
    ordered_presentation, ordered_method = ordered_by.presentation, ordered_by.method
    _judge_stated(judged, "presentation", label.presentation, ordered_presentation, limits, "presentation")
    _judge_stated(judged, "state", label.state, ordered_by.state, limits, "state")
    _judge_stated(judged, "method", label.method, ordered_method, limits, "method")
    _judge_grade(judged, label, ordered_by, limits)
    _judge_net(judged, label, ordered_by, limits)
    _judge_lot(judged, label, docket_lot, limits)
    _judge_origin(judged, label, ordered_by, limits)
    _judge_life(judged, label, arrived_day, limits)
    return judged
