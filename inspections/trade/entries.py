"""Which single entries can be used, and which are listed with their path?

A ``Reader`` walks a document; each entry that cannot be used is listed and read as None, nothing is raised.

Codes of unusable entries
-------------------------
FACT-01  another kind of value than this place holds
FACT-02  a word that this place does not know
FACT-03  a whole number out of the range that it can have
FACT-04  more prawns affected than were looked at
FACT-05  not a day of the calendar
FACT-06  accepted, refused and held do not add up to the cartons counted
FACT-07  more dried prawns weighed than prawns in all
FACT-08  more cartons sorted out than labels read
and the codes of ``UnusableReading`` for weights and temperatures.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from .quantities import UnusableReading, to_celsius, to_grams, to_grams_or_zero, to_percent

_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_BLANKS = " \t\r\n"
_READ: dict[str, Callable[[dict[str, Any]], float]] = {
    "mass": to_grams,
    "mass_or_zero": to_grams_or_zero,
    "product": to_celsius,
    "air": to_celsius,
    "ice": to_celsius,
    "share": lambda entry: to_percent(entry) / 100.0,
}


@dataclass(frozen=True)
class Unusable:
    """An entry that cannot be used: where it stands, why, and the facts for the sentence."""

    path: str
    code: str
    facts: dict[str, Any]

    def to_json(self) -> dict[str, Any]:
        """As a JSON object with path, code and facts."""
        return {"path": self.path, "code": self.code, "facts": self.facts}


def day_number(text: str) -> int | None:
    """Number of a calendar day, 1 = 1 January of year 1; None when it is no day.

    Parameters
    ----------
    text : str
        Starts with YYYY-MM-DD (ASCII digits); what follows, such as a time, is left aside.

    Returns
    -------
    int or None
        Proleptic Gregorian day number.

    Examples
    --------
    >>> day_number("2028-01-14") - day_number("2026-01-15")        # CV-12-30
    729
    """
    found = _DAY.match(text)
    if found is None:
        return None
    year, month, day = (int(part) for part in found.groups())
    try:
        return date(year, month, day).toordinal()
    except ValueError:
        return None


def day_text(number: int) -> str:
    """The day of a number as YYYY-MM-DD.

    >>> day_text(day_number("2026-11-25"))
    '2026-11-25'
    """
    return date.fromordinal(number).isoformat()


@dataclass
class Reader:
    """Walks a document and lists what it cannot use."""

    unusable: list[Unusable] = field(default_factory=list)

    def refuse(self, path: str, code: str, facts: dict[str, Any] | None = None) -> None:
        """List one entry as unusable."""
        self.unusable.append(Unusable(path, code, facts or {}))

    def record(self, value: Any, path: str) -> dict[str, Any] | None:
        """An object, or None (listed unless absent)."""
        if isinstance(value, dict):
            return value
        if value is not None:
            self.refuse(path, "FACT-01", {"expected": "object"})
        return None

    def items(self, value: Any, path: str) -> list[Any] | None:
        """A list, or None (listed unless absent)."""
        if isinstance(value, list):
            return value
        if value is not None:
            self.refuse(path, "FACT-01", {"expected": "list"})
        return None

    def text(self, value: Any, path: str) -> str:
        """Text without outer blanks; empty when absent."""
        if isinstance(value, str):
            return value.strip(_BLANKS)
        if value is not None:
            self.refuse(path, "FACT-01", {"expected": "text"})
        return ""

    def word(self, value: Any, path: str, known: tuple[str, ...]) -> str | None:
        """One of the known words; absent and empty are None."""
        if value is None or value == "":
            return None
        if isinstance(value, str) and value in known:
            return value
        self.refuse(path, "FACT-02", {"known": list(known)})
        return None

    def words(self, value: Any, path: str, known: tuple[str, ...]) -> tuple[str, ...] | None:
        """The known words of a list, each once, in the order of ``known``."""
        entries = self.items(value, path)
        if entries is None:
            return None
        found = {self.word(entry, f"{path}[{i}]", known) for i, entry in enumerate(entries)}
        return tuple(word for word in known if word in found)

    def whole(self, value: Any, path: str, low: int, high: int) -> int | None:
        """A whole number from low to high, both in; a float such as 3.0 counts as whole."""
        if value is None:
            return None
        is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
        if not is_number:
            self.refuse(path, "FACT-01", {"expected": "whole number"})
            return None
        if not low <= value <= high or value != int(value):
            self.refuse(path, "FACT-03", {"low": low, "high": high})
            return None
        return int(value)

    def reading(self, value: Any, path: str, kind: str) -> float | None:
        """A reading in g (kind "mass"; "mass_or_zero" where 0 g is a finding), °C or as a share, or None."""
        entry = self.record(value, path)
        if entry is None:
            return None
        entered, unit = entry.get("entered"), entry.get("unit")
        if not isinstance(entered, str) or not isinstance(unit, str):
            self.refuse(path, "FACT-01", {"expected": "reading"})
            return None
        if entered.strip(_BLANKS) == "":
            return None
        try:
            return _READ[kind](entry)
        except UnusableReading as problem:
            self.refuse(path, problem.code, problem.facts)
            return None

    def typed(self, value: Any) -> tuple[str, str]:
        """What was typed and its unit, for words that quote it; two empty texts where nothing was."""
        entry = value if isinstance(value, dict) else {}
        entered, unit = entry.get("entered"), entry.get("unit")
        if isinstance(entered, str) and isinstance(unit, str):
            return entered.strip(_BLANKS), unit
        return "", ""

    def day(self, value: Any, path: str) -> int | None:
        """A calendar day as its number; absent and empty are None."""
        text = self.text(value, path)
        if text == "":
            return None
        number = day_number(text)
        if number is None:
            self.refuse(path, "FACT-05")
        return number
