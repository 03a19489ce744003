"""Does the label show what the market asks, and is it what was ordered?

Method: the particulars shown are held against the market's list; what the label states is held against the
specification, the docket's lot and the day of arrival. GS1 text is read at the door by a kept library; here
are only the rules that decide what a date in it means: day 00 and the two-digit year.
Does not hold: as legal advice. Lists are the receiver's minimum (CV-8-16) and name their source one by one;
sulphites must be declared only where they are added, which a label alone cannot prove.
Sources: GS1 General Specifications 7.12 (read in the reference checker), 3.4 (from memory); Reg. 1379/2013
Art. 35 (read), Reg. 1169/2011 (from memory), Std 1.2.3 (read), CXS 92-1981 §6 (read), FALCPA 2004 (memory).
"""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from typing import Any

from .facts import CartonFacts, LabelFacts
from .findings import CANNOT_TELL, WITHIN, Finding, Judged
from .grades import customary_per, parse_grade
from .limits import Limits
from .quantities import Unusable, UnusableGrade
from .species import ascii_lower
from .specification import Ordered

_DATA = Path(__file__).parent / "data"
_SIX_DIGITS = re.compile(r"[0-9]{6}\Z")
# A lot that ends in a date identifier and a plausible date has perhaps swallowed them (CV-8-83).
_SWALLOWED_DATE = re.compile(r".+(?:1[1-7])([0-9]{2})(0[1-9]|1[0-2])([0-2][0-9]|3[01])\Z", re.DOTALL)
LABEL_CHECKS = (
    "particulars",
    "crustacean",
    "sulphites",
    "presentation",
    "state",
    "method",
    "grade",
    "net",
    "lot",
    "origin",
    "life",
)
LAST_DAY_AIS = ("12", "15", "16", "17")
UNKNOWN_DAY_AIS = ("11", "13")


class UnusableDate(Unusable):
    """A GS1 date that is no day (codes DATE-01 not six digits, DATE-02 no such day, DATE-03 day 00)."""


def _table() -> dict[str, Any]:
    with open(_DATA / "particulars.json", encoding="utf-8") as file:
        return json.load(file)


TABLE: dict[str, Any] = _table()


def full_year(two_digits: int, current_year: int) -> int:
    """The year that two digits mean, within 49 years back and 50 ahead.

    Parameters
    ----------
    two_digits : int
        0 to 99.
    current_year : int
        Year of reading, four digits.

    Returns
    -------
    int

    Examples
    --------
    >>> full_year(76, 2026), full_year(77, 2026), full_year(10, 2060)        # CV-8-79, CV-8-80
    (2076, 1977, 2110)
    """
    century = current_year - current_year % 100
    ahead = two_digits - current_year % 100
    if ahead >= 51:
        return century - 100 + two_digits
    if ahead <= -50:
        return century + 100 + two_digits
    return century + two_digits


def _month_days(year: int, month: int) -> int:
    if month == 2:
        is_leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
        return 29 if is_leap else 28
    return 30 if month in (4, 6, 9, 11) else 31


def gs1_date(ai: str, digits: str, current_year: int) -> str:
    """The date that six digits of a date identifier mean, as YYYY-MM-DD, or YYYY-MM for an unknown day.

    Parameters
    ----------
    ai : str
        GS1 application identifier: 11, 12, 13, 15, 16, 17, or one that allows no day 00 (7006, 7007, 7003).
    digits : str
        YYMMDD.
    current_year : int
        Year of reading.

    Returns
    -------
    str
        Day 00 is the last day of the month for 12, 15, 16 and 17 and stays unknown for 11 and 13.

    Raises
    ------
    UnusableDate
        DATE-01 not six digits; DATE-02 no such day; DATE-03 day 00 where it is not allowed.

    Examples
    --------
    >>> gs1_date("15", "280200", 2026), gs1_date("11", "260100", 2026)        # CV-8-76, CV-8-77
    ('2028-02-29', '2026-01')
    """
    if not _SIX_DIGITS.match(digits):
        raise UnusableDate("DATE-01", {"ai": ai})
    year = full_year(int(digits[:2]), current_year)
    month, day = int(digits[2:4]), int(digits[4:])
    if not 1 <= month <= 12:
        raise UnusableDate("DATE-02", {"ai": ai, "digits": digits})
    if day == 0 and ai in UNKNOWN_DAY_AIS:
        return f"{year:04d}-{month:02d}"
    if day == 0 and ai not in LAST_DAY_AIS:
        raise UnusableDate("DATE-03", {"ai": ai, "digits": digits})
    last = _month_days(year, month)
    if day > last:
        raise UnusableDate("DATE-02", {"ai": ai, "digits": digits})
    return f"{year:04d}-{month:02d}-{day or last:02d}"


def has_swallowed_date(lot: str) -> bool:
    """Whether a scanned lot ends in a date identifier and a plausible date: a separator may be lost.

    Examples
    --------
    >>> has_swallowed_date("ABC17280331"), has_swallowed_date("PRN-24A")        # CV-8-83
    (True, False)
    """
    return _SWALLOWED_DATE.match(lot) is not None


def gs1_check_digit(body: str) -> int:
    """Check digit of the digits before it: weights 3, 1, 3, 1 … from the right (GS1 7.9).

    Raises
    ------
    UnusableDate
        DATE-01 when the body holds something else than digits.

    Examples
    --------
    >>> gs1_check_digit("1952123400017"), gs1_check_digit("952123454321")        # CV-8-71, CV-8-72
    (1, 3)
    """
    if not re.match(r"[0-9]+\Z", body):
        raise UnusableDate("DATE-01", {"ai": "01"})
    total = sum(int(digit) * (3 if i % 2 == 0 else 1) for i, digit in enumerate(reversed(body)))
    return (10 - total % 10) % 10


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
        judged.see("grade", not is_same, "LABEL-GRADE", limits["label.grade"], facts)


def _judge_net(judged: Judged, label: LabelFacts, ordered_by: Ordered, limits: Limits) -> None:
    if label.net_g is None:
        judged.leave("net")
        return
    carton_g = ordered_by.carton_net_g
    unit_g = ordered_by.unit_net_g
    # A label on the inner unit states the unit, one on the carton states the carton; a gram is for rounding of lb.
    is_same = abs(label.net_g - carton_g) <= 1.0 or abs(label.net_g - unit_g) <= 1.0
    facts = {"found_g": label.net_g, "ordered_g": carton_g}
    judged.see("net", not is_same, "LABEL-NET", limits["label.net"], facts)


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


def _judge_shows(judged: Judged, label: LabelFacts, market: str, limits: Limits) -> None:
    if label.shows is None:
        judged.leave("particulars", "crustacean", "sulphites")
        return
    missing = missing_particulars(label.shows, market, label.method)
    rest = [particular for particular in missing if particular != "crustacean"]
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
    judged.measure("life", left / total, "LIFE-SHORT", limits["life_share"], {"days": left, "total_days": total})


def day_text(number: int) -> str:
    """A day number as YYYY-MM-DD."""
    return date.fromordinal(number).isoformat()


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
        Checks particulars, crustacean, sulphites, presentation, state, grade, net, lot, origin, method,
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
