"""Tables from elsewhere, read cell by cell: what each column is called, and which lines cannot be used.

Takes what spreadsheets write: semicolons, commas or tabs; UTF-8 with or without a byte-order mark; a first
line ``sep=;``; blank lines. Reads only; ``acts/imports.py`` writes.
"""
import csv
import io
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from inspections.errors import CannotUse, add_sentences
from inspections.records import cells
from inspections.records.cells import UnusableCell

add_sentences({
    "IMPORT-KIND": "There is no import of “{kind}”. Nothing was changed. Choose one of: {known}.",
    "IMPORT-ENCODING": "The file is not written in UTF-8. Nothing was changed. "
    "Save it as “CSV UTF-8” and send it again.",
    "IMPORT-EMPTY": "The file holds no lines below its headings. Nothing was changed. Choose another file.",
    "IMPORT-HEADINGS": "The headings do not fit: {what}. Nothing was changed. Use these headings: {known}.",
    "IMPORT-TOO-LONG": "The file has more than {most} lines. Nothing was changed. Send it in parts.",
})

MOST_LINES = 20_000


@dataclass(frozen=True)
class Column:
    """One column: its heading, how a cell is read, and whether the heading must be there."""

    name: str
    read: Callable[[str], Any] = cells.any_text
    is_needed: bool = True


COLUMNS: dict[str, tuple[Column, ...]] = {
    "suppliers": (
        Column("code", cells.text),
        Column("name", cells.text),
        Column("contact_name", is_needed=False),
        Column("contact_email", cells.email, is_needed=False),
    ),
    "specifications": (
        Column("code", cells.text),
        Column("name", cells.text),
        Column("species", cells.text),
        Column("presentation", cells.text),
        Column("state", cells.text),
        Column("grade", cells.text),
        Column("carton_net", cells.grams),
        Column("units_per_carton", cells.whole(1, 1000)),
        Column("declared_glaze_percent", cells.number_or_none, is_needed=False),
        Column("origin", cells.words, is_needed=False),
        Column("method", is_needed=False),
        Column("market", cells.text),
        Column("min_life_share", cells.number_or_none, is_needed=False),
        Column("advisory", cells.yes_no, is_needed=False),
    ),
    "orders": (
        Column("number", cells.text),
        Column("supplier", cells.text),
        Column("site", cells.text),
        Column("expected_on", cells.day),
        Column("specification", cells.text),
        Column("cartons", cells.whole(1, 5000)),
        Column("price_per_kg", cells.price_or_none, is_needed=False),
    ),
    "thermometers": (
        Column("site", cells.text),
        Column("name", cells.text),
        Column("accuracy_c", cells.accuracy, is_needed=False),
        Column("last_checked_on", cells.day_or_none, is_needed=False),
        Column("last_check_c", cells.number_or_none, is_needed=False),
        Column("check_due_on", cells.day_or_none, is_needed=False),
        Column("in_use", cells.yes_no, is_needed=False),
    ),
}


@dataclass(frozen=True)
class LineError:
    """A line that cannot be used: its number in the file, the column and value, and a sentence."""

    line: int
    column: str
    value: str
    sentence: str


@dataclass
class Row:
    """One line of the file: ``raw`` as written, ``values`` as read, ``errors`` where that failed."""

    line: int
    raw: dict[str, str]
    values: dict[str, Any] = field(default_factory=dict)
    errors: list[LineError] = field(default_factory=list)

    def refuse(self, column: str, sentence: str) -> None:
        """Note that this line cannot be used, and why."""
        self.errors.append(LineError(self.line, column, self.raw.get(column, ""), sentence))


def read_rows(kind: str, content: bytes) -> list[Row]:
    """Every line of a file, read cell by cell; what cannot be read is noted on its line.

    Parameters
    ----------
    kind : str
        A key of COLUMNS.
    content : bytes
        The file.

    Raises
    ------
    CannotUse
        IMPORT-…: the file as a whole cannot be used.
    """
    if kind not in COLUMNS:
        raise CannotUse("IMPORT-KIND", kind=kind, known=", ".join(COLUMNS))
    table = _table(_decoded(content))
    columns = COLUMNS[kind]
    headings = _headings(table, columns)
    return [_row(line, parts, headings, columns) for line, parts in table[1:]]


def _row(line: int, parts: list[str], headings: list[str], columns: tuple[Column, ...]) -> Row:
    row = Row(line, dict(zip(headings, [part.strip() for part in parts], strict=False)))
    if any(part.strip() for part in parts[len(headings):]):
        row.refuse("", "This line has more cells than there are headings. Put text that holds the separator in quotes.")
        return row
    for column in columns:
        try:
            row.values[column.name] = column.read(row.raw.get(column.name, ""))
        except UnusableCell as trouble:
            row.refuse(column.name, str(trouble))
    return row


def _decoded(content: bytes) -> str:
    try:
        if content.startswith((b"\xff\xfe", b"\xfe\xff")):
            return content.decode("utf-16")
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        raise CannotUse("IMPORT-ENCODING") from trouble


def _table(text: str) -> list[tuple[int, list[str]]]:
    """Line numbers and cells of every line that is not blank; the first is the headings."""
    lines = text.splitlines(keepends=True)
    skipped = 0
    separator = ""
    if lines and lines[0].lower().startswith("sep="):
        separator, skipped = lines[0].strip()[4:5], 1
    head = lines[skipped] if len(lines) > skipped else ""
    separator = separator or max(";,\t", key=head.count)
    reader = csv.reader(io.StringIO("".join(lines[skipped:]), newline=""), delimiter=separator)
    table: list[tuple[int, list[str]]] = []
    start = 1
    for parts in reader:
        if any(part.strip() for part in parts):
            table.append((start + skipped, parts))
        start = reader.line_num + 1
    if len(table) < 2:
        raise CannotUse("IMPORT-EMPTY")
    if len(table) - 1 > MOST_LINES:
        raise CannotUse("IMPORT-TOO-LONG", most=MOST_LINES)
    return table


def _headings(table: list[tuple[int, list[str]]], columns: tuple[Column, ...]) -> list[str]:
    headings = ["_".join(part.strip().lower().split()) for part in table[0][1]]
    known = [column.name for column in columns]
    missing = [column.name for column in columns if column.is_needed and column.name not in headings]
    strange = [name for name in headings if name and name not in known]
    twice = sorted({name for name in headings if name and headings.count(name) > 1})
    for words, names in (("missing", missing), ("not known", strange), ("there twice", twice)):
        if names:
            raise CannotUse("IMPORT-HEADINGS", what=f"{', '.join(names)} {words}", known=", ".join(known))
    return headings

