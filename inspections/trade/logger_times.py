"""When was it, by the text in a logger's file?

Takes years of four digits only: year first (ISO 8601 and its relatives), day first with dots, names of
months in English, seconds since 1970, and numbers with slashes or dashes whose order the file or the caller
tells. A time that could be read two ways is never guessed.
"""

import re
from collections.abc import Iterable
from datetime import datetime, timedelta, timezone
from functools import lru_cache
from typing import Any

from .quantities import UnusableReading

DAY_FIRST, MONTH_FIRST = "day_first", "month_first"
DAY_ORDERS = (DAY_FIRST, MONTH_FIRST)
FIRST_YEAR, LAST_YEAR = 1970, 2200
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_CLOCK = (
    r"(?:T|,? +)(?P<hour>[0-9]{1,2})[:.](?P<minute>[0-9]{2})(?:[:.](?P<second>[0-9]{2})(?:[.,](?P<part>[0-9]{1,6}))?)?"
    r"(?: ?(?P<half>[AaPp])\.?[Mm]\.?)?"
)
_ZONE = r"(?: ?(?P<zone>Z|UTC|GMT|(?:UTC|GMT)?[+-][0-9]{1,2}(?::?[0-9]{2})?))?\Z"
_BASIC = r"(?P<year>[0-9]{4})(?P<month>[0-9]{2})(?P<day>[0-9]{2})"
_BASIC_CLOCK = r"T(?P<hour>[0-9]{2})(?P<minute>[0-9]{2})(?P<second>[0-9]{2})?(?P<part>)(?P<half>)"
_DATES = (
    r"(?P<year>[0-9]{4})[-/.](?P<month>[0-9]{1,2})[-/.](?P<day>[0-9]{1,2})",
    r"(?P<day>[0-9]{1,2})\.(?P<month>[0-9]{1,2})\.(?P<year>[0-9]{4})",
    r"(?:[A-Za-z]{3,9},? +)?(?P<day>[0-9]{1,2})[- ]?(?P<name>[A-Za-z]{3,9})\.?[-, ]*(?P<year>[0-9]{4})",
    r"(?:[A-Za-z]{3,9},? +)?(?P<name>[A-Za-z]{3,9})\.? +(?P<day>[0-9]{1,2}),? +(?P<year>[0-9]{4})",
)
_KNOWN = (*(re.compile(date + _CLOCK + _ZONE) for date in (*_DATES, _BASIC)), re.compile(_BASIC + _BASIC_CLOCK + _ZONE))
_SINCE_1970 = re.compile(r"[1-9][0-9]{9}(?:[0-9]{3})?\Z")
_EITHER = re.compile(r"(?P<one>[0-9]{1,2})[-/](?P<two>[0-9]{1,2})[-/](?P<year>[0-9]{4})" + _CLOCK + _ZONE)


def read_time(text: str, zone_minutes: int | None = None, day_order: str | None = None) -> tuple[float, bool]:
    """Seconds since 1970 of a time as a logger writes it, and whether its zone is known.

    Parameters
    ----------
    text : str
        Date and time of day, the year in four digits, 1970 to 2200; or seconds or milliseconds since 1970.
    zone_minutes : int, optional
        Minutes east of UTC for a time without a zone; without it the clock counts as if it stood in UTC.
    day_order : {"day_first", "month_first"}, optional
        Order of two numbers with slashes or dashes before the year.

    Raises
    ------
    UnusableReading
        LOG-12 not a time as written, its order not told, or not in the calendar.

    Examples
    --------
    >>> read_time("2026-11-24T06:10:00+11:00")
    (1795461000.0, True)
    >>> read_time("11/24/2026 6:10:00 PM", day_order="month_first") == read_time("24.11.2026 18:10")
    True
    """
    if _SINCE_1970.match(text):
        # Seconds, or thousandths of them: no zone can be in doubt.
        return int(text) / (1.0 if len(text) == 10 else 1000.0), True
    match = _known_form(text)
    form = match or _EITHER.match(text)
    if form is None or (match is None and day_order not in DAY_ORDERS):
        raise UnusableReading("LOG-12", {"entered": text})
    parts = form.groupdict()
    offset = _offset(parts["zone"]) if parts["zone"] else zone_minutes
    try:
        midnight = _midnight_s(*(_named_day(parts) if match else _ordered_day(parts, day_order)), offset or 0)
        moment = midnight + _clock_s(_hour(parts), int(parts["minute"]), int(parts["second"] or 0))
    except (ValueError, OverflowError) as odd:
        raise UnusableReading("LOG-12", {"entered": text}) from odd
    part = parts["part"]
    return moment + (int(part) / 10 ** len(part) if part else 0.0), offset is not None


def _known_form(text: str) -> re.Match[str] | None:
    for form in _KNOWN:
        found = form.match(text)
        if found is not None:
            return found
    return None


@lru_cache(maxsize=1024)  # a logger writes hundreds of times a day
def _midnight_s(year: int, month: int, day: int, zone_minutes: int) -> float:
    """Seconds since 1970 when a day begins; ValueError outside the calendar, the years or the zones there are."""
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise ValueError("no year of a logger")
    return datetime(year, month, day, tzinfo=timezone(timedelta(minutes=zone_minutes))).timestamp()


def _clock_s(hour: int, minute: int, second: int) -> int:
    if hour > 23 or minute > 59 or second > 59:
        raise ValueError("no such time of day")
    return hour * 3600 + minute * 60 + second


def day_orders_of(texts: Iterable[str]) -> tuple[set[str], str | None]:
    """Which orders of day and month fit all times written with slashes or dashes, and an example of one.

    Returns
    -------
    set of str
        Both where no time is written so, or where every one could be read two ways; empty where none fits.
    str or None
        The first time written so.

    Examples
    --------
    >>> day_orders_of(["03/04/2026 23:50", "13/04/2026 00:00"])
    ({'day_first'}, '03/04/2026 23:50')
    """
    fitting, example = set(DAY_ORDERS), None
    for text in texts:
        match = _EITHER.match(text)
        if match is not None:
            example = example or text
            if int(match["one"]) > 12:
                fitting.discard(MONTH_FIRST)
            if int(match["two"]) > 12:
                fitting.discard(DAY_FIRST)
    return fitting, example


def offset_in(text: str) -> int | None:
    """Minutes east of UTC that a heading names, such as ``Time (UTC+11)``; None where it names none.

    >>> offset_in("Date/Time [GMT+05:30]"), offset_in("Time (UTC)"), offset_in("Time")
    (330, 0, None)
    """
    match = re.search(r"\b(?:UTC|GMT) ?(?P<by>[+-] ?[0-9]{1,2}(?::?[0-9]{2})?)?", text, re.IGNORECASE)
    if match is None:
        return None
    minutes = _offset(match["by"].replace(" ", "")) if match["by"] else 0
    return minutes if -840 <= minutes <= 840 else None


def _named_day(parts: dict[str, Any]) -> tuple[int, int, int]:
    name = parts.get("name")
    if name is None:
        return int(parts["year"]), int(parts["month"]), int(parts["day"])
    short = name[:3].lower()
    # Month 0 is refused by the calendar, like any other text that is no month.
    return int(parts["year"]), _MONTHS.index(short) + 1 if short in _MONTHS else 0, int(parts["day"])


def _ordered_day(parts: dict[str, Any], day_order: str | None) -> tuple[int, int, int]:
    one, two = int(parts["one"]), int(parts["two"])
    return (int(parts["year"]), two, one) if day_order == DAY_FIRST else (int(parts["year"]), one, two)


def _hour(parts: dict[str, Any]) -> int:
    hour = int(parts["hour"])
    if not parts["half"]:
        return hour
    if not 1 <= hour <= 12:
        raise ValueError("no such hour on a clock of twelve")
    return hour % 12 + (12 if parts["half"] in "Pp" else 0)


def _offset(zone: str) -> int:
    digits = zone.removeprefix("UTC").removeprefix("GMT")
    if digits in ("Z", ""):
        return 0
    sign = -1 if digits[0] == "-" else 1
    plain = digits[1:].replace(":", "")
    hours, minutes = (plain[:-2], plain[-2:]) if len(plain) > 2 else (plain, "0")
    return sign * (int(hours) * 60 + int(minutes))
