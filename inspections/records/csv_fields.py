"""What a cell of a spreadsheet may say, and the sentence for a cell that cannot be used.

Spreadsheets write the same day as 2026-11-25, 25/11/2026, 25.11.2026 or 46351 (days since 30 December 1899,
the 1900 date system that Excel and LibreOffice export). A day that could be read two ways is refused.
"""
import re
from datetime import date, timedelta
from decimal import Decimal

from django.core.exceptions import ValidationError
from django.core.validators import validate_email

from inspections.trade.quantities import UnusableReading, parse_decimal, to_grams

EXCEL_DAY_0 = date(1899, 12, 30)
_ISO = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?:[ T].*)?")
_PARTS = re.compile(r"([0-9]{1,2})([./])([0-9]{1,2})\2([0-9]{4})(?: .*)?")
_SERIAL = re.compile(r"[0-9]{5}(?:[.,]0+)?")
_WEIGHT = re.compile(r"(.*?)\s*(kg|g|lb|oz)", re.IGNORECASE)
_YES = {"yes", "y", "1", "true", "x"}
_NO = {"no", "n", "0", "false"}


class UnusableCell(ValueError):
    """A cell that cannot be used; ``str()`` is the sentence."""


def text(cell: str) -> str:
    """Anything but nothing."""
    if not cell:
        raise UnusableCell("Nothing stands here. Fill it in.")
    return cell


def any_text(cell: str) -> str:
    return cell


def email(cell: str) -> str:
    """An e-mail address or nothing."""
    if cell:
        try:
            validate_email(cell)
        except ValidationError as trouble:
            raise UnusableCell("This is not an e-mail address. Correct it or leave it empty.") from trouble
    return cell


def day(cell: str) -> date:
    """A calendar day, as spreadsheets write them.

    >>> day("2026-11-25") == day("25.11.2026") == day("46351")
    True
    """
    found = _day(cell)
    if found is None:
        raise UnusableCell("This could not be read as a day. Write it like 2026-11-25.")
    return found


def day_or_none(cell: str) -> date | None:
    return day(cell) if cell else None


def _day(cell: str) -> date | None:
    try:
        if found := _ISO.fullmatch(cell):
            return date(*(int(part) for part in found.groups()))
        if found := _PARTS.fullmatch(cell):
            return _day_of_parts(*found.groups())
        if _SERIAL.fullmatch(cell):
            return EXCEL_DAY_0 + timedelta(days=int(cell[:5]))
    except UnusableCell:
        raise
    except ValueError:
        return None
    return None


def _day_of_parts(first: str, separator: str, second: str, year: str) -> date:
    one, two = int(first), int(second)
    # With points the day always comes first; with strokes it depends on the country.
    if separator == "." or one > 12 or one == two:
        return date(int(year), two, one)
    if two > 12:
        return date(int(year), one, two)
    raise UnusableCell("This day can be read two ways. Write it like 2026-11-25.")


def whole(low: int, high: int):
    """A whole number from ``low`` to ``high``, both ends in."""

    def read(cell: str) -> int:
        value = number(cell)
        if value != int(value) or not low <= value <= high:
            raise UnusableCell(f"This should be a whole number from {low} to {high}.")
        return int(value)

    return read


def number(cell: str) -> float:
    """A number with one comma or point."""
    try:
        return parse_decimal(cell)
    except UnusableReading as trouble:
        raise UnusableCell("This could not be read as a number. Write digits with one comma or point.") from trouble


def number_or_none(cell: str) -> float | None:
    return number(cell) if cell else None


def accuracy(cell: str) -> float:
    """Accuracy of a thermometer, ± °C; ±0.5 °C when left out."""
    value = number(cell) if cell else 0.5
    if not 0 < value <= 5:
        raise UnusableCell("An accuracy lies above 0 and at most 5 °C.")
    return value


def price_or_none(cell: str) -> Decimal | None:
    """A price per kg, at most four decimals; None when left out."""
    if not cell:
        return None
    if number(cell) < 0:
        raise UnusableCell("A price is not below zero.")
    return Decimal(cell.strip().lstrip("+").replace(",", ".")).quantize(Decimal("0.0001"))


def grams(cell: str) -> float:
    """A weight with its unit, such as ``10 kg`` or ``5 lb``; kg when no unit stands there."""
    found = _WEIGHT.fullmatch(cell)
    entered, unit = (found[1], found[2].lower()) if found else (cell, "kg")
    try:
        return to_grams({"entered": entered, "unit": unit})
    except UnusableReading as trouble:
        raise UnusableCell("This could not be read as a weight. Write it like 10 kg.") from trouble


def words(cell: str) -> list[str]:
    """Words separated by blanks, commas or bars."""
    return [word for word in re.split(r"[\s,|]+", cell) if word]


def yes_no(cell: str) -> bool:
    """Yes unless it says no."""
    word = cell.lower()
    if word in _YES or not word:
        return True
    if word in _NO:
        return False
    raise UnusableCell("Write yes or no.")
