"""What did the data logger write down, and which of its rows can't be read?

Reads a logger's CSV: comma, semicolon or tab; one time column or a date and a time column; ISO-ish
times with or without a zone (2026-11-24 06:10, 2026-11-24T06:10:00Z, 2026/11/24, 24.11.2026); °C or °F
told by the header, a unit column or the caller; decimal comma or point. A row that can't be read is
listed with its line and a sentence code, the rest is kept. Dates such as 03/04/2026 are not
guessed. What the readings mean: ``exposure``.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

from .exposure import Logged
from .quantities import UnusableReading, parse_decimal, to_celsius

MAX_ROWS = 200_000
MAX_HEADER_LINE = 60
_TIME_WORDS = ("datetime", "date time", "date/time", "timestamp", "time stamp", "date and time", "zeit", "time", "utc")
_DATE_WORDS = ("date", "datum", "day")
_TEMPERATURE = re.compile(r"temp|°c|°f|celsius|fahrenheit|deg ?[cf]\b")
_FAHRENHEIT = re.compile(r"°f|fahrenheit|deg ?f\b|\(f\)|\[f\]|[ _]f\Z|\Af\Z")
_CELSIUS = re.compile(r"°c|celsius|deg ?c\b|\(c\)|\[c\]|[ _]c\Z|\Ac\Z")
_UNIT_WORDS = ("unit", "units", "scale")
_CLOCK = r"(?:[T ]+([0-9]{1,2}):([0-9]{2})(?::([0-9]{2})(?:[.,]([0-9]{1,6}))?)?)"
_ZONE = r"(?: ?(Z|[+-][0-9]{2}:?[0-9]{2}|[+-][0-9]{2}|UTC))?"
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})" + _CLOCK + _ZONE + r"\Z")
_DOTTED = re.compile(r"([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4}),?" + _CLOCK + _ZONE + r"\Z")
_NUMBER_UNIT = re.compile(r"\A(.*[0-9])[ \t]*(?:°|º)?[ ]?([CcFf])?\Z")


@dataclass(frozen=True, slots=True)
class UnreadRow:
    """A row that was left out: its line in the file from 1, a sentence code, facts."""

    line: int
    code: str
    facts: dict[str, Any]


@dataclass(frozen=True, slots=True)
class LoggerFile:
    """What a logger file gave.

    Attributes
    ----------
    readings : tuple of Logged
        In time order, one for each moment.
    unread : tuple of UnreadRow
        Rows left out, in file order.
    unit : {"C", "F", "mixed"}
        Unit of the file; the readings are °C.
    has_zone : bool
        False when the clock has no zone: seconds then count as if it stood in UTC, and only
        differences hold.
    was_sorted : bool
        False when rows had to be put in time order.
    """

    readings: tuple[Logged, ...]
    unread: tuple[UnreadRow, ...]
    unit: str
    has_zone: bool
    was_sorted: bool


@dataclass(frozen=True, slots=True)
class _Columns:
    """Places of the columns, unit of the file if told, and the header's line."""

    time: int
    date: int | None
    temperature: int
    unit_column: int | None
    unit: str | None
    is_utc: bool
    width: int
    line: int


def read_logger(text: str, unit: str | None = None, zone_minutes: int | None = None) -> LoggerFile:
    """The readings of a logger's CSV file.

    Parameters
    ----------
    text : str
        The file, decoded; a byte-order mark is passed over.
    unit : {"C", "F"}, optional
        Unit where neither header, rows nor a unit column tell it.
    zone_minutes : int, optional
        Minutes east of UTC for times without a zone, -840 to 840; a time column headed UTC or GMT
        needs none.

    Returns
    -------
    LoggerFile

    Raises
    ------
    UnusableReading
        LOG-01 nothing in the file; LOG-02 no header with a time column; LOG-03 no temperature
        column; LOG-04 the unit is told nowhere; LOG-05 more than 200 000 rows; LOG-06 no row could be read.

    Notes
    -----
    Codes of rows: LOG-11 fewer or more fields than the header; LOG-12 time not read; LOG-13 time without
    zone among times with one; LOG-14 temperature not read; LOG-15 second reading of the same moment;
    TEMP-01 and TEMP-02 beyond what a product can have.
    """
    rows = _rows(text)
    columns = _columns(rows, unit)
    zone_minutes = 0 if zone_minutes is None and columns.is_utc else zone_minutes
    good: list[tuple[int, Logged, bool, str]] = []
    unread: list[UnreadRow] = []
    for line, fields in rows:
        if line <= columns.line:
            continue
        try:
            good.append((line, *_read_row(fields, columns, zone_minutes)))
        except UnusableReading as refused:
            unread.append(UnreadRow(line, refused.code, refused.facts))
    if not good:
        is_unit_missing = bool(unread) and all(row.code == "LOG-04" for row in unread)
        raise UnusableReading("LOG-04" if is_unit_missing else "LOG-06", {"unread": len(unread)})
    return _in_order(good, unread, zone_minutes)


def _rows(text: str) -> list[tuple[int, list[str]]]:
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\0", "")
    lines = plain.split("\n")
    if not plain.strip():
        raise UnusableReading("LOG-01")
    if len(lines) > MAX_ROWS:
        raise UnusableReading("LOG-05", {"rows": len(lines), "max_rows": MAX_ROWS})
    delimiter = _delimiter(lines)
    rows = []
    for number, line in enumerate(lines, 1):
        if line.strip():
            rows.append((number, _fields(line, delimiter)))
    return rows


def _fields(line: str, delimiter: str) -> list[str]:
    """Fields of one line; none of a line that is no CSV, which then counts as a row of the wrong width."""
    try:
        fields = next(csv.reader([line], delimiter=delimiter), [])
    except csv.Error:
        return []
    return [field.strip(" \t\u00a0") for field in fields]


def _delimiter(lines: Sequence[str]) -> str:
    """The mark that parts the most lines; a comma may also be a decimal one, so it comes last."""
    head = [line for line in lines if line.strip()][:MAX_HEADER_LINE]
    for mark in ("\t", ";"):
        if 2 * sum(mark in line for line in head) >= len(head):
            return mark
    return ","


def _columns(rows: Sequence[tuple[int, list[str]]], unit: str | None) -> _Columns:
    is_timed = False
    for line, fields in rows[:MAX_HEADER_LINE]:
        names = [field.lower() for field in fields]
        times = [place for place, name in enumerate(names) if _names_time(name)]
        dates = [place for place, name in enumerate(names) if name in _DATE_WORDS]
        warm = [place for place, name in enumerate(names) if _TEMPERATURE.search(name) and place not in times]
        is_timed = is_timed or (bool(times or dates) and len(names) > 1)
        if warm and (times or dates):
            return _found_columns(line, names, (times, dates, warm), unit)
    raise UnusableReading("LOG-03" if is_timed else "LOG-02")


def _found_columns(
    line: int, names: list[str], places: tuple[list[int], list[int], list[int]], unit: str | None
) -> _Columns:
    times, dates, warm = places
    time = times[0] if times else dates[0]
    is_split = bool(times and dates) and names[time].startswith(("time", "zeit")) and "stamp" not in names[time]
    units = [place for place, name in enumerate(names) if name in _UNIT_WORDS]
    told = names[warm[0]]
    stated = "F" if _FAHRENHEIT.search(told) else "C" if _CELSIUS.search(told) else None
    return _Columns(
        time=time,
        date=dates[0] if is_split else None,
        temperature=warm[0],
        unit_column=units[0] if units else None,
        unit=stated or unit,
        is_utc="utc" in names[time] or "gmt" in names[time],
        width=len(names),
        line=line,
    )


def _names_time(name: str) -> bool:
    return any(name == word or name.startswith((word + " ", word + "(", word + "_")) for word in _TIME_WORDS)


def _read_row(fields: list[str], columns: _Columns, zone_minutes: int | None) -> tuple[Logged, bool, str]:
    """Reading, whether its time has a zone, and the unit of the row."""
    if len(fields) != columns.width:
        raise UnusableReading("LOG-11", {"fields": len(fields), "expected": columns.width})
    when = fields[columns.time] if columns.date is None else f"{fields[columns.date]} {fields[columns.time]}"
    at_s, has_zone = read_time(when, zone_minutes)
    stated = fields[columns.unit_column] if columns.unit_column is not None else ""
    celsius, unit = _temperature(fields[columns.temperature], stated, columns.unit)
    return Logged(at_s, celsius), has_zone, unit


def read_time(text: str, zone_minutes: int | None = None) -> tuple[float, bool]:
    """Seconds since 1970 of an ISO-ish time, and whether its zone is known.

    Raises
    ------
    UnusableReading
        LOG-12 not a time as written, or not in the calendar.

    Examples
    --------
    >>> read_time("2026-11-24T06:10:00+11:00")
    (1795461000.0, True)
    """
    match = _YEAR_FIRST.match(text)
    day = match.group(1, 2, 3) if match else None
    if match is None and (match := _DOTTED.match(text)) is not None:
        day = match.group(3, 2, 1)
    if match is None or day is None:
        raise UnusableReading("LOG-12", {"entered": text})
    hour, minute, second, part, zone = match.group(4, 5, 6, 7, 8)
    offset = _offset(zone) if zone else zone_minutes
    try:
        tz = UTC if offset is None else timezone(timedelta(minutes=offset))
        moment = datetime(*map(int, day), int(hour), int(minute), int(second or 0), tzinfo=tz)
        return moment.timestamp() + (int(part) / 10 ** len(part) if part else 0.0), offset is not None
    except (ValueError, OverflowError) as odd:
        raise UnusableReading("LOG-12", {"entered": text}) from odd


def _offset(zone: str) -> int:
    if zone in ("Z", "UTC"):
        return 0
    digits = zone[1:].replace(":", "")
    minutes = int(digits[:2]) * 60 + int(digits[2:] or 0)
    return -minutes if zone[0] == "-" else minutes


def _temperature(text: str, stated: str, unit: str | None) -> tuple[float, str]:
    match = _NUMBER_UNIT.match(text)
    if match is None:
        raise UnusableReading("LOG-14", {"entered": text})
    words = (match.group(2) or stated.lower().removeprefix("°").removeprefix("deg ")[:1] or unit or "").upper()
    if words not in ("C", "F"):
        raise UnusableReading("LOG-04", {"entered": text})
    try:
        parse_decimal(match.group(1))
    except UnusableReading as odd:
        raise UnusableReading("LOG-14", {"entered": text}) from odd
    return to_celsius({"entered": match.group(1), "unit": words}), words


def _in_order(
    good: list[tuple[int, Logged, bool, str]], unread: list[UnreadRow], zone_minutes: int | None
) -> LoggerFile:
    has_zone = any(is_zoned for _, _, is_zoned, _ in good)
    kept: list[Logged] = []
    for line, logged, is_zoned, _ in good:
        if has_zone and not is_zoned:
            unread.append(UnreadRow(line, "LOG-13", {"zone_minutes": zone_minutes}))
        else:
            kept.append(logged)
    ordered = sorted(kept, key=lambda logged: logged.at_s)
    seen: dict[float, Logged] = {}
    for logged in ordered:
        seen.setdefault(logged.at_s, logged)
    lines = {id(logged): line for line, logged, _, _ in good}
    unread += [UnreadRow(lines[id(each)], "LOG-15", {}) for each in ordered if seen[each.at_s] is not each]
    units = {unit for _, _, _, unit in good}
    return LoggerFile(
        tuple(seen.values()),
        tuple(sorted(unread, key=lambda row: row.line)),
        units.pop() if len(units) == 1 else "mixed",
        has_zone,
        ordered == kept,
    )
