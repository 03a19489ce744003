"""Tables from elsewhere, read cell by cell: what each column is called, and which lines cannot be used.

Takes what spreadsheets write (``tables``). Reads only; ``acts/imports.py`` writes.
"""
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from inspections.errors import Unprocessable
from inspections.records import csv_fields
from inspections.records.csv_fields import UnusableCell
from inspections.records.tables import Table, read_table

#: What a line is found again by; orders have a line for each product, and look for themselves.
FOUND_BY = {"suppliers": ("code",), "specifications": ("code",), "thermometers": ("site", "name")}


@dataclass(frozen=True)
class Column:
    """One column: its heading, how a cell is read, and whether the heading must be there."""

    name: str
    read: Callable[[str], Any] = csv_fields.any_text
    is_needed: bool = True


COLUMNS: dict[str, tuple[Column, ...]] = {
    "suppliers": (
        Column("code", csv_fields.text),
        Column("name", csv_fields.text),
        Column("contact_name", is_needed=False),
        Column("contact_email", csv_fields.email, is_needed=False),
    ),
    "specifications": (
        Column("code", csv_fields.text),
        Column("name", csv_fields.text),
        Column("species", csv_fields.text),
        Column("presentation", csv_fields.text),
        Column("state", csv_fields.text),
        Column("grade", csv_fields.text),
        Column("carton_net", csv_fields.grams),
        Column("units_per_carton", csv_fields.whole(1, 1000)),
        Column("declared_glaze_percent", csv_fields.number_or_none, is_needed=False),
        Column("origin", csv_fields.words, is_needed=False),
        Column("method", is_needed=False),
        Column("market", csv_fields.text),
        Column("min_life_share", csv_fields.number_or_none, is_needed=False),
        Column("advisory", csv_fields.yes_no, is_needed=False),
    ),
    "orders": (
        Column("number", csv_fields.text),
        Column("supplier", csv_fields.text),
        Column("site", csv_fields.text),
        Column("expected_on", csv_fields.day),
        Column("specification", csv_fields.text),
        Column("cartons", csv_fields.whole(1, 5000)),
        Column("price_per_kg", csv_fields.price_or_none, is_needed=False),
    ),
    "thermometers": (
        Column("site", csv_fields.text),
        Column("name", csv_fields.text),
        Column("accuracy_c", csv_fields.accuracy, is_needed=False),
        Column("last_checked_on", csv_fields.day_or_none, is_needed=False),
        Column("last_check_c", csv_fields.number_or_none, is_needed=False),
        Column("check_due_on", csv_fields.day_or_none, is_needed=False),
        Column("in_use", csv_fields.yes_no, is_needed=False),
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


def read_rows(kind: str, content: bytes) -> tuple[list[Row], str]:
    """Every line of a file, read cell by cell, and how the file was read (see ``tables``).

    What cannot be read is noted on its line, and so is a code that another line has too.

    Parameters
    ----------
    kind : str
        A key of COLUMNS.
    content : bytes
        The file.

    Raises
    ------
    Unprocessable
        IMPORT-…: the file as a whole cannot be used.
    """
    if kind not in COLUMNS:
        raise Unprocessable("IMPORT-KIND", kind=kind, known=", ".join(COLUMNS))
    table, read_as = read_table(content)
    columns = COLUMNS[kind]
    headings = _headings(table, columns)
    rows = [_row(line, parts, headings, columns) for line, parts in table[1:]]
    _refuse_twice(rows, FOUND_BY.get(kind, ()))
    return rows, read_as


def _refuse_twice(rows: list[Row], names: tuple[str, ...]) -> None:
    """The same record on two lines: nobody but its author knows which one is meant."""
    same: dict[tuple[str, ...], list[Row]] = {}
    for row in rows:
        key = tuple(row.raw.get(name, "") for name in names)
        if key and all(key):
            same.setdefault(key, []).append(row)
    for group in same.values():
        for row in group:
            if others := [str(other.line) for other in group if other is not row]:
                where = f"line {others[0]}" if len(others) == 1 else f"lines {', '.join(others)}"
                row.refuse(names[-1], f"The same stands on {where}. Keep one of them.")


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


def _headings(table: Table, columns: tuple[Column, ...]) -> list[str]:
    headings = ["_".join(part.strip().lower().split()) for part in table[0][1]]
    known = [column.name for column in columns]
    missing = [column.name for column in columns if column.is_needed and column.name not in headings]
    strange = [name for name in headings if name and name not in known]
    twice = sorted({name for name in headings if name and headings.count(name) > 1})
    for words, names in (("missing", missing), ("not known", strange), ("there twice", twice)):
        if names:
            raise Unprocessable("IMPORT-HEADINGS", what=f"{', '.join(names)} {words}", known=", ".join(known))
    return headings

