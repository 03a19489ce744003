"""Which size grade did somebody write, and what does it hold?

Reads a grade as people write it, tells its edges under the gap rule, names the grade that a count
does meet, and the price effect of another grade. Words such as "jumbo" have no legal meaning and
are not read (CV-3-18); the number governs.
Sources: trade lists CV-3-01 to CV-3-15 (read); gap rule CV-3-19 (common practice).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .basis import load_table
from .quantities import MAX_PIECES, UnusableGrade

SIZES: dict[str, Any] = load_table("grades")
GAP_RULE: str = SIZES["gap_rule"]
GAP_RULES: tuple[str, ...] = tuple(SIZES["gap_rules"])
HEAD_ON = ("HOSO",)

_CAPITALS = str.maketrans("ABCDEFGHIJKLMNOPQRSTUVWXYZ", "abcdefghijklmnopqrstuvwxyz")
_DASHES = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-") | {"\u00a0": " ", "\u2044": "/"})
_BLANKS = re.compile(r"[ \t]+")
_BROKEN = re.compile(r"(?:soft(?: ?(?:and|&|/|\+) ?broken)?|broken|s ?(?:&|and) ?b|brk)(?: pieces)?")
_PER = re.compile(
    r" ?(?:(?:count|ct|pcs|pieces)\.? ?)?(?:per|to the|to a|to|/|a)? ?"
    r"(lbs?|pounds?|kgs?|kilos?|kilograms?|kilogrammes?)\.?\Z"
)
_COUNT_WORD = re.compile(r" ?(?:count|ct|pcs|pieces)\.?\Z")
_BASIS = re.compile(r"(?:^| )(peeled from|pf|finished count|finished|fc)(?:\Z| )")
_UNDER = re.compile(r"(?:u|under|<|fewer than|less than) ?[/-]? ?([0-9]{1,4})")
_OVER = re.compile(
    r"([0-9]{1,4}) ?(?:[/-] ?)?(?:ov|over|up|\+|and over|and up|or more)|(?:over|ov) ?[/-]? ?([0-9]{1,4})"
)
_RANGE = re.compile(r"([0-9]{1,4}) ?(?:/|-|to) ?([0-9]{1,4})")


@dataclass(frozen=True, slots=True)
class Grade:
    """A size grade.

    Attributes
    ----------
    kind : {"range", "under", "over", "broken"}
        "under" is strict (fewer than ``high``); "over" and "range" hold their end points.
    low, high : int or None
        Pieces per ``per``; None = open.
    per : {"lb", "kg"}
        Unit of the count.
    is_per_stated : bool
        False where the unit was not written and the custom (or the default given) was taken.
    basis : {"as_packed", "finished", "peeled_from"}
        CV-3-17.
    text : str
        The grade in one spelling, e.g. "16/20", "U/10", "30/40 per kg", "70/OV", "soft and broken".
    """

    kind: str
    low: int | None
    high: int | None
    per: str
    is_per_stated: bool
    basis: str
    text: str

    @property
    def unit(self) -> str:
        """Unit of a count measured against this grade: "per_lb" or "per_kg"."""
        return f"per_{self.per}"


@dataclass(frozen=True, slots=True)
class Edges:
    """The counts that a grade holds: from ``low`` (in) to ``high`` (in only if ``is_high_in``)."""

    low: float | None
    high: float | None
    is_high_in: bool


def customary_per(presentation: str) -> str:
    """Unit that a bare count has by custom: head-on by the kilogram, headless by the pound (CV-3-16).

    >>> customary_per("HOSO"), customary_per("HLSO")
    ('kg', 'lb')
    """
    return "kg" if presentation in HEAD_ON else "lb"


def is_soft_and_broken(text: str) -> bool:
    """Whether what was written is the grade "soft and broken"; False where it cannot be read.

    >>> is_soft_and_broken("Soft & broken"), is_soft_and_broken("16/20")
    (True, False)
    """
    try:
        return parse_grade(text).kind == "broken"
    except UnusableGrade:
        return False


def parse_grade(text: str, default_per: str = "lb") -> Grade:
    """A size grade as people write it.

    Parameters
    ----------
    text : str
        ``16/20``, ``16-20``, ``16 to 20``, ``U10``, ``u/10``, ``21/25 lb``, ``30/40 per kg``,
        ``6-10 to the pound``, ``70/OV``, ``soft and broken``; any case, ASCII digits.
    default_per : {"lb", "kg"}
        Unit where none is written, see ``customary_per``.

    Returns
    -------
    Grade

    Raises
    ------
    UnusableGrade
        GRADE-01 nothing written; GRADE-02 not a grade as written; GRADE-03 numbers that no grade
        has (0, above 2000, or the larger one first).

    Examples
    --------
    >>> parse_grade("6-10 to the pound").text
    '6/10'
    >>> parse_grade("u10").text, parse_grade("30/40 per kg").per
    ('U/10', 'kg')
    """
    if not isinstance(text, str) or not text.strip(" \t\u00a0"):
        raise UnusableGrade("GRADE-01")
    rest = _BLANKS.sub(" ", text.translate(_DASHES).translate(_CAPITALS)).strip(" ")
    if _BROKEN.fullmatch(rest):
        return Grade("broken", None, None, default_per, False, "as_packed", "soft and broken")
    rest, basis = _take_basis(rest)
    rest, per = _take_per(rest)
    kind, low, high = _numbers(rest, text)
    is_stated = per is not None
    per = per or default_per
    return Grade(kind, low, high, per, is_stated, basis, _spelling(kind, low, high, per, basis))


def edges_of(grade: Grade, gap_rule: str = GAP_RULE) -> Edges:
    """The counts that a grade holds.

    Under "whole_prawn" a count is rounded to the nearest whole prawn first, half up (CV-3-19): 16/20
    then holds 15.5 up to but not including 20.5. Under "literal" it holds 16 to 20, ends in, and
    20.4 is in no grade.

    Raises
    ------
    ValueError
        Another gap rule, or a grade without a count.
    """
    if gap_rule not in GAP_RULES or grade.kind == "broken":
        raise ValueError(f"No edges for {grade.kind} under {gap_rule}.")
    slack = 0.5 if gap_rule == "whole_prawn" else 0.0
    low = None if grade.low is None else grade.low - slack
    if grade.kind == "under" and grade.high is not None:
        return Edges(low, grade.high - slack, False)
    high = None if grade.high is None else grade.high + slack
    return Edges(low, high, gap_rule == "literal")


def holds(edges: Edges, count: float) -> bool:
    """Whether an unrounded count lies between the edges.

    >>> sixteen_twenty = edges_of(parse_grade("16/20"))
    >>> holds(sixteen_twenty, 20.4), holds(sixteen_twenty, 20.5)       # CV-3-19
    (True, False)
    """
    if edges.low is not None and count < edges.low:
        return False
    if edges.high is None:
        return True
    return count <= edges.high if edges.is_high_in else count < edges.high


def grade_met(count: float, per: str, gap_rule: str = GAP_RULE) -> Grade | None:
    """The first grade of the usual ladder that holds the count; None in a gap of the literal rule.

    >>> grade_met(22.68, "lb").text
    '21/25'
    """
    for grade in LADDER[per]:
        if holds(edges_of(grade, gap_rule), count):
            return grade
    return None


def nearest_grade(count: float, per: str, gap_rule: str = GAP_RULE) -> Grade:
    """The grade that holds the count, or else the one whose edge is nearest (the larger prawns first)."""
    met = grade_met(count, per, gap_rule)
    if met is not None:
        return met
    best, best_distance = LADDER[per][0], None
    for grade in LADDER[per]:
        distance = distance_to(grade, count, gap_rule)
        if best_distance is None or distance < best_distance:
            best, best_distance = grade, distance
    return best


def distance_to(grade: Grade, count: float, gap_rule: str = GAP_RULE) -> float:
    """Pieces between a count and the nearest edge of a grade; 0 inside."""
    edges = edges_of(grade, gap_rule)
    if edges.low is not None and count < edges.low:
        return edges.low - count
    if edges.high is not None and count > edges.high:
        return count - edges.high
    return 0.0


def price_effect(ordered: Grade, count: float, prices: Mapping[str, float] | None = None) -> dict[str, Any]:
    """What another size is worth: by the prices of the grades if known, else by the count alone.

    Parameters
    ----------
    ordered : Grade
        Grade that was paid for.
    count : float
        Count found, per ``ordered.per``, unrounded.
    prices : mapping of str to float, optional
        Price per kg by the one spelling of each grade (``Grade.text``).

    Returns
    -------
    dict
        ``basis`` "prices": ``per_kg`` (paid less worth) and ``percent`` of the price paid; ``basis``
        "count": ``percent`` more (or, negative, fewer) prawns than the near edge of the grade, None
        inside it. ``found`` is the grade met or nearest.
    """
    found = nearest_grade(count, ordered.per)
    paid = (prices or {}).get(ordered.text)
    worth = (prices or {}).get(found.text)
    if paid is not None and worth is not None and paid > 0:
        less = paid - worth
        return {"basis": "prices", "found": found.text, "per_kg": less, "percent": less / paid * 100.0}
    percent = None
    if ordered.high is not None and count > ordered.high:
        percent = (count - ordered.high) / ordered.high * 100.0
    elif ordered.low is not None and count < ordered.low:
        percent = (count - ordered.low) / ordered.low * 100.0
    return {"basis": "count", "found": found.text, "per_kg": None, "percent": percent}


def _take_basis(rest: str) -> tuple[str, str]:
    match = _BASIS.search(rest)
    if match is None:
        return rest, "as_packed"
    basis = "peeled_from" if match.group(1)[0] == "p" else "finished"
    return (rest[: match.start()] + " " + rest[match.end() :]).strip(" "), basis


def _take_per(rest: str) -> tuple[str, str | None]:
    match = _PER.search(rest)
    if match is not None:
        per = "kg" if match.group(1)[0] == "k" else "lb"
        return rest[: match.start()], per
    return _COUNT_WORD.sub("", rest), None


def _numbers(rest: str, text: str) -> tuple[str, int | None, int | None]:
    if (match := _UNDER.fullmatch(rest)) is not None:
        kind, low, high = "under", None, int(match.group(1))
    elif (match := _RANGE.fullmatch(rest)) is not None:
        kind, low, high = "range", int(match.group(1)), int(match.group(2))
    elif (match := _OVER.fullmatch(rest)) is not None:
        kind, low, high = "over", int(match.group(1) or match.group(2)), None
    else:
        raise UnusableGrade("GRADE-02", {"entered": text})
    numbers = [number for number in (low, high) if number is not None]
    if min(numbers) < 1 or max(numbers) > MAX_PIECES or numbers != sorted(numbers):
        raise UnusableGrade("GRADE-03", {"entered": text})
    if kind == "under" and numbers[-1] < 2:
        raise UnusableGrade("GRADE-03", {"entered": text})
    return kind, low, high


def _spelling(kind: str, low: int | None, high: int | None, per: str, basis: str) -> str:
    text = {"under": f"U/{high}", "over": f"{low}/OV"}.get(kind, f"{low}/{high}")
    text += " per kg" if per == "kg" else ""
    return text + {"finished": " finished count", "peeled_from": " peeled from"}.get(basis, "")


def _from_row(row: Mapping[str, Any]) -> Grade:
    return Grade(row["kind"], row["low"], row["high"], row["per"], True, "as_packed", row["text"])


LADDER: dict[str, tuple[Grade, ...]] = {per: tuple(map(_from_row, rows)) for per, rows in SIZES["ladder"].items()}
