"""Where in a logger's file is the table, what parts its cells, and which columns are time and temperature?

Logger files carry lines above their headings (serial number, trip, alarm summary) that look a little like a
table. The heading is the first line that names both a time and a temperature, tried with tab, semicolon,
comma and upright bar in that order. Setpoints, alarms, dew points and summaries are no measured temperature.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass

from .logger_times import offset_in
from .quantities import UnusableReading

MAX_ROWS = 200_000
MAX_HEADER_LINE = 200
DELIMITERS = ("\t", ";", ",", "|")
_NO_TEXT = (b"%PDF", b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"\x89PNG", b"\xff\xd8\xff", b"\x1f\x8b", b"SQLite format 3")
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0e-\x19\x1b-\x1f\x7f]")
_TIME_WORDS = (
    "datetime", "date time", "date-time", "date/time", "timestamp", "time stamp", "date and time", "date & time",
    "zeitstempel", "datum/zeit", "datum/uhrzeit", "datum zeit", "datum uhrzeit", "uhrzeit", "zeit", "heure", "hora",
    "local time", "time", "utc",
)  # fmt: skip
_DATE_WORDS = ("date", "datum", "day", "fecha", "data", "tag")
_TEMPERATURE = re.compile(r"temp|[°º] ?[cf]\b|℃|℉|celsius|fahrenheit|deg\.? ?[cf]\b")
_PLAIN_CHANNEL = re.compile(
    r"(?:t|ch|channel|sensor|probe|value|reading|measurement|messwert|wert)[ _.#-]*(?:[a-z]|[0-9]*)\Z"
)
_NOT_MEASURED = re.compile(
    r"dew|set ?-?point|setting|alarm|alert|limit|threshold|\bmin\b|\bmax\b|minimum|maximum|average|mean|\bmkt\b|unit"
    r"|humid|%|volt"
)
_FAHRENHEIT = re.compile(r"[°º] ?f\b|℉|fahrenheit|deg\.? ?f\b|\( ?f ?\)|\[ ?f ?\]|[ _]f\Z|\Af\Z")
_CELSIUS = re.compile(r"[°º] ?c\b|℃|celsius|deg\.? ?c\b|\( ?c ?\)|\[ ?c ?\]|[ _]c\Z|\Ac\Z")
_UNIT_NAME = re.compile(r"(?:temp(?:erature)?\.? )?(?:units?|scale)\Z")
_UNIT_ABOVE = re.compile(r"\b(?:units?|scale)\b")
_DATUM = re.compile(r"[0-9]{1,4}[-/.][0-9]{1,2}[-/.][0-9]|[+-]?[0-9]+(?:[.,][0-9]+)?\Z")
_TIME_ZONE = re.compile(r"time ?-?(?:zone|base)|zeitzone|utc ?-?offset", re.IGNORECASE)

#: The csv module refuses longer cells.
_LONGEST_CELL = 100_000

Row = tuple[int, list[str]]


@dataclass(frozen=True, slots=True)
class Column:
    """A temperature column: place from 0, and its heading, made distinct where two are alike."""

    place: int
    name: str


@dataclass(frozen=True, slots=True)
class Heading:
    """What the heading and the lines above it tell.

    Attributes
    ----------
    line : int
        Line of the heading, from 1.
    names : list of str
        Headings as written.
    time, date : int, int or None
        Places; ``date`` where date and time of day stand apart.
    temperatures : tuple of Column
        Columns of measured temperature, one or more.
    unit_column : int or None
        Place of a column that holds the unit.
    zone_minutes : int or None
        Minutes east of UTC, where heading or lines above name them.
    unit_above : {"C", "F"} or None
        Unit named in a line above the heading.
    """

    line: int
    names: list[str]
    time: int
    date: int | None
    temperatures: tuple[Column, ...]
    unit_column: int | None
    zone_minutes: int | None
    unit_above: str | None


def decoded(content: bytes) -> str:
    """The text of a file: UTF-8 or UTF-16 with or without a byte-order mark, else Windows-1252.

    Raises
    ------
    UnusableReading
        LOG-01 nothing in the file; LOG-09 no text: a PDF, a spreadsheet, a picture.
    """
    if not content.strip(b" \t\r\n\0"):
        raise UnusableReading("LOG-01")
    if content.startswith(_NO_TEXT):
        raise UnusableReading("LOG-09")
    text = _text_of(content)
    head = text[:4000]
    if len(_CONTROL.findall(head)) * 50 > len(head):
        raise UnusableReading("LOG-09")
    return text


def _text_of(content: bytes) -> str:
    try:
        if content.startswith((b"\xff\xfe", b"\xfe\xff")):
            return content.decode("utf-16")
        if b"\0" in content[:400]:
            # Two bytes a letter without a mark: plain letters leave a zero in every second place.
            return content.decode("utf-16-le" if content[1:400:2].count(0) > content[0:400:2].count(0) else "utf-16-be")
    except UnicodeDecodeError as odd:
        raise UnusableReading("LOG-09") from odd
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        # The degree sign of older Windows programs; the five bytes that it does not know are shown as such.
        return content.decode("cp1252", errors="replace")


def table_of(text: str) -> tuple[list[Row], Heading]:
    """Rows below the heading (line from 1, cells), and the heading.

    Raises
    ------
    UnusableReading
        LOG-01 nothing in the file; LOG-02 no heading with a time; LOG-03 a time but no temperature; LOG-05 more
        than 200 000 rows.
    """
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\0", "")
    if not plain.strip():
        raise UnusableReading("LOG-01")
    lines = plain.split("\n")
    if len(lines) > MAX_ROWS:
        raise UnusableReading("LOG-05", {"rows": len(lines), "max_rows": MAX_ROWS})
    is_timed = False
    for delimiter in DELIMITERS:
        above = _rows(lines[:MAX_HEADER_LINE], delimiter)
        heading, has_time = _heading(above)
        is_timed = is_timed or has_time
        if heading is not None:
            return [row for row in _rows(lines, delimiter) if row[0] > heading.line], heading
    if is_timed:
        raise UnusableReading("LOG-03")
    raise UnusableReading("LOG-02")


def _rows(lines: Sequence[str], delimiter: str) -> list[Row]:
    return [(number, _fields(line, delimiter)) for number, line in enumerate(lines, 1) if line.strip()]


def _fields(line: str, delimiter: str) -> list[str]:
    """Cells of one line; none of a line that is no CSV, which then counts as a row of the wrong width."""
    if '"' not in line and len(line) < _LONGEST_CELL:
        # Without quotes a line of CSV is its parts, and most files of loggers have none.
        return [field.strip(" \t\u00a0") for field in line.split(delimiter)]
    try:
        fields = next(csv.reader([line], delimiter=delimiter), [])
    except csv.Error:
        return []
    return [field.strip(" \t\u00a0") for field in fields]


def _heading(rows: Sequence[Row]) -> tuple[Heading | None, bool]:
    """The heading among the first rows, if any, and whether any of them named a time beside something else."""
    is_timed = False
    for at, (line, fields) in enumerate(rows):
        names = [field.lower() for field in fields]
        times = [place for place, name in enumerate(names) if _names_time(name)]
        dates = [place for place, name in enumerate(names) if name in _DATE_WORDS]
        warm = _temperatures(names, [*times, *dates])
        is_timed = is_timed or (bool(times or dates) and len(names) > 1)
        if warm and (times or dates) and not any(_DATUM.match(name) for name in names):
            return _found(line, fields, (times, dates, warm), rows[:at]), True
    return None, is_timed


def _names_time(name: str) -> bool:
    if _TIME_ZONE.search(name) or "elapsed" in name:
        return False
    return any(name == word or name.startswith(tuple(word + mark for mark in " (_[,")) for word in _TIME_WORDS)


def _temperatures(names: Sequence[str], taken: Sequence[int]) -> list[int]:
    """Places of measured temperatures; channels without a unit count where nothing names a temperature."""
    free = [place for place, name in enumerate(names) if place not in taken and not _NOT_MEASURED.search(name)]
    return [place for place in free if _TEMPERATURE.search(names[place]) or unit_in(names[place])] or [
        place for place in free if _PLAIN_CHANNEL.match(names[place])
    ]


def _found(
    line: int, fields: list[str], places: tuple[list[int], list[int], list[int]], above: Sequence[Row]
) -> Heading:
    times, dates, warm = places
    names = [field.lower() for field in fields]
    # A column that names its zone comes before one on some local clock.
    time = min(times, key=lambda place: (offset_in(fields[place]) is None, place)) if times else dates[0]
    is_split = bool(times and dates) and names[time].startswith(("time", "zeit", "uhrzeit", "heure", "hora", "local"))
    units = [place for place, name in enumerate(names) if _UNIT_NAME.match(name)]
    stated = offset_in(fields[time])
    return Heading(
        line=line,
        names=fields,
        time=time,
        date=dates[0] if is_split and "stamp" not in names[time] else None,
        temperatures=tuple(Column(place, _distinct(fields, warm, place)) for place in warm),
        unit_column=units[0] if units else None,
        zone_minutes=_zone_above(above) if stated is None else stated,
        unit_above=_unit_above(above),
    )


def _distinct(fields: list[str], warm: list[int], place: int) -> str:
    is_twin = sum(fields[one] == fields[place] for one in warm) > 1
    return f"{fields[place]} (column {place + 1})" if is_twin else fields[place]


def unit_in(name: str) -> str | None:
    """``"C"`` or ``"F"`` where a heading or cell names the unit."""
    told = name.lower()
    return "F" if _FAHRENHEIT.search(told) else "C" if _CELSIUS.search(told) else None


def _zone_above(above: Sequence[Row]) -> int | None:
    told = (offset_in(" ".join(fields)) for _, fields in above if _TIME_ZONE.search(" ".join(fields)))
    return next((minutes for minutes in told if minutes is not None), None)


def _unit_above(above: Sequence[Row]) -> str | None:
    told = (unit_in(" ".join(fields)) for _, fields in above if _UNIT_ABOVE.search(" ".join(fields).lower()))
    return next((unit for unit in told if unit is not None), None)
