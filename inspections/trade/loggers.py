"""What did the data logger write down, and which of its rows can't be read?

Reads a logger's table: tab, semicolon, comma or upright bar; one time column or a date and a time column;
times with or without a zone; °C or °F told by the heading, a line above or below it, a unit column, the cell or
the caller; decimal comma or point. A row that can't be read is listed with its line and a sentence code, the
rest is kept. What can be read two ways (day and month, unit, several temperature columns) is asked, never
guessed. The table itself: ``logger_tables``; times: ``logger_times``; what the readings mean: ``journey``.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from .exposure import Course, Logged
from .logger_tables import Column, Heading, Row, decoded, table_of, unit_in
from .logger_times import DAY_ORDERS, day_orders_of, read_time
from .quantities import UnusableReading, parse_decimal, to_celsius

_NUMBER_UNIT = re.compile(r"\A(.*[0-9])[ \t]*(?:°|º|deg\.?)?[ ]?([CcFf]|℃|℉)?\Z")


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
        In time order, one for each moment; a ``Course`` where it was read from a file.
    unread : tuple of UnreadRow
        Rows left out, in file order.
    unit : {"C", "F", "mixed"}
        Unit of the file; the readings are °C.
    has_zone : bool
        False when the clock has no zone: seconds then count as if it stood in UTC, and only
        differences hold.
    was_sorted : bool
        False when rows had to be put in time order.
    column : str
        Heading of the temperature column that was read.
    other_columns : tuple of str
        Temperature columns that were not.
    """

    readings: tuple[Logged, ...]
    unread: tuple[UnreadRow, ...]
    unit: str
    has_zone: bool
    was_sorted: bool
    column: str = ""
    other_columns: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Asked:
    """How the cells are read: heading, chosen column, unit of the file, zone, order of day and month."""

    heading: Heading
    column: Column
    unit: str | None
    zone_minutes: int | None
    day_order: str | None


def read_logger(
    text: str,
    unit: str | None = None,
    zone_minutes: int | None = None,
    day_order: str | None = None,
    column: str | None = None,
) -> LoggerFile:
    """The readings of a logger's CSV file.

    Parameters
    ----------
    text : str
        The file, decoded; a byte-order mark is passed over.
    unit : {"C", "F"}, optional
        Unit where neither heading, rows nor a unit column tell it.
    zone_minutes : int, optional
        Minutes east of UTC for times without a zone, -840 to 840; a heading such as "Time (UTC+11)" or a line
        "Time zone: UTC+11" above it needs none.
    day_order : {"day_first", "month_first"}, optional
        For dates such as 03/04/2026 where none in the file tells.
    column : str, optional
        Heading of the temperature column where there are several.

    Returns
    -------
    LoggerFile

    Raises
    ------
    UnusableReading
        LOG-01 nothing in the file; LOG-02 no header with a time column; LOG-03 no temperature
        column; LOG-04 the unit is told nowhere; LOG-05 more than 200 000 rows; LOG-06 no row could be read;
        LOG-08 day and month can be read two ways; LOG-10 several temperature columns and none, or none of
        these, was chosen.

    Notes
    -----
    Codes of rows: LOG-11 fewer or more fields than the header; LOG-12 time not read; LOG-13 time without
    zone among times with one; LOG-14 temperature not read; LOG-15 second reading of the same moment;
    TEMP-01 and TEMP-02 beyond what a product can have.
    """
    rows, heading = table_of(text)
    chosen = _chosen(heading, column)
    rows, unit_below = _without_units(rows, chosen)
    stated = unit_in(chosen.name) or unit_below or heading.unit_above
    minutes = zone_minutes if heading.zone_minutes is None else heading.zone_minutes
    asked = _Asked(heading, chosen, stated or unit, minutes, _day_order(rows, heading, day_order))
    good: list[tuple[int, Logged, bool, str]] = []
    unread: list[UnreadRow] = []
    for line, fields in rows:
        try:
            good.append((line, *_read_row(fields, asked)))
        except UnusableReading as refused:
            unread.append(UnreadRow(line, refused.code, refused.facts))
    if not good:
        if unread and all(row.code == "LOG-04" for row in unread):
            raise UnusableReading("LOG-04", {"unread": len(unread)})
        raise UnusableReading("LOG-06", {"unread": len(unread)})
    others = tuple(one.name for one in heading.temperatures if one is not chosen)
    return replace(_in_order(good, unread, minutes), column=chosen.name, other_columns=others)


def read_logger_bytes(content: bytes, **told: Any) -> LoggerFile:
    """The readings of a logger file as uploaded; ``told`` as for ``read_logger``.

    Raises
    ------
    UnusableReading
        LOG-09 no text; and as ``read_logger``.
    """
    return read_logger(decoded(content), **told)


def on_clock(log: LoggerFile, zone_minutes: int) -> LoggerFile:
    """The same file with its clock, which had no zone, set so many minutes east of UTC throughout.

    Examples
    --------
    >>> log = read_logger("Time;Temp °C\\n1970-01-01 11:00;-18\\n")
    >>> on_clock(log, 660).readings[0].at_s
    0.0
    """
    moved = Course(Logged(each.at_s - zone_minutes * 60.0, each.celsius) for each in log.readings)
    return replace(log, readings=moved, has_zone=True)


def _chosen(heading: Heading, column: str | None) -> Column:
    columns = heading.temperatures
    if column is None and len(columns) == 1:
        return columns[0]
    found = next((one for one in columns if one.name == column), None)
    if found is None:
        raise UnusableReading("LOG-10", {"number": len(columns), "columns": [one.name for one in columns]})
    return found


def _without_units(rows: list[Row], column: Column) -> tuple[list[Row], str | None]:
    """Rows without a line of units right below the heading, and the unit that it told."""
    first = rows[0][1] if rows else []
    cell = first[column.place] if len(first) > column.place else ""
    if cell and not re.search("[0-9]", cell) and unit_in(cell.strip("()[]")):
        return rows[1:], unit_in(cell.strip("()[]"))
    return rows, None


def _day_order(rows: Sequence[Row], heading: Heading, told: str | None) -> str | None:
    fitting, example = day_orders_of(_when(fields, heading) for _, fields in rows)
    if example is None:
        return None
    if len(fitting) < len(DAY_ORDERS):
        return next(iter(fitting), None)
    if told not in DAY_ORDERS:
        raise UnusableReading("LOG-08", {"entered": example})
    return told


def _when(fields: list[str], heading: Heading) -> str:
    """The text of a row's time; empty where the row is too short."""
    if heading.date is None:
        return fields[heading.time] if len(fields) > heading.time else ""
    is_long = len(fields) > max(heading.date, heading.time)
    return f"{fields[heading.date]} {fields[heading.time]}" if is_long else ""


def _read_row(fields: list[str], asked: _Asked) -> tuple[Logged, bool, str]:
    """Reading, whether its time has a zone, and the unit of the row."""
    heading, place = asked.heading, asked.column.place
    width = len(heading.names)
    needed = max(heading.time, heading.date or 0, place, heading.unit_column or 0) + 1
    if len(fields) < needed or any(fields[width:]):
        raise UnusableReading("LOG-11", {"fields": len(fields), "expected": width})
    at_s, has_zone = read_time(_when(fields, heading), asked.zone_minutes, asked.day_order)
    stated = fields[heading.unit_column] if heading.unit_column is not None else ""
    celsius, unit = _temperature(fields[place], stated, asked.unit)
    return Logged(at_s, celsius), has_zone, unit


@lru_cache(maxsize=4096)  # a logger writes the same few hundred values over and over
def _temperature(text: str, stated: str, unit: str | None) -> tuple[float, str]:
    match = _NUMBER_UNIT.match(text)
    if match is None:
        raise UnusableReading("LOG-14", {"entered": text})
    words = {"℃": "C", "℉": "F"}.get(match.group(2) or "", match.group(2)) or unit_in(stated) or unit or ""
    if words.upper() not in ("C", "F"):
        raise UnusableReading("LOG-04", {"entered": text})
    try:
        parse_decimal(match.group(1))
    except UnusableReading as odd:
        raise UnusableReading("LOG-14", {"entered": text}) from odd
    return to_celsius({"entered": match.group(1), "unit": words.upper()}), words.upper()


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
    if len(seen) < len(ordered):
        lines = {id(logged): line for line, logged, _, _ in good}
        unread += [UnreadRow(lines[id(each)], "LOG-15", {}) for each in ordered if seen[each.at_s] is not each]
    units = {unit for _, _, _, unit in good}
    return LoggerFile(
        Course(seen.values()),
        tuple(sorted(unread, key=lambda row: row.line)),
        units.pop() if len(units) == 1 else "mixed",
        has_zone,
        ordered == kept,
    )
