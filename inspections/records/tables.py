"""A file from a spreadsheet as lines of cells: CSV in the encodings that spreadsheets write, or an .xlsx workbook.

Of a workbook the sheet that was open when it was saved is read, its cells as they were last reckoned.
"""
import csv
import io
import warnings
from datetime import datetime, time
from typing import Any
from zipfile import BadZipFile

from inspections.errors import Unprocessable

MOST_LINES = 20_000
#: More columns than any table here has; a sheet that says it is wider is not read further.
MOST_COLUMNS = 100
UTF_8, UTF_16, WINDOWS, WORKBOOK = "UTF-8", "UTF-16", "Windows-1252", "xlsx"
Table = list[tuple[int, list[str]]]


def read_table(content: bytes) -> tuple[Table, str]:
    """Line numbers and cells of every line that is not blank, and how the file was read.

    Raises
    ------
    Unprocessable
        IMPORT-…: the file as a whole cannot be used.
    """
    if content.startswith(b"PK"):
        table, read_as = _workbook(content), WORKBOOK
    else:
        text, read_as = _decoded(content)
        table = _csv(text)
    if len(table) < 2:
        raise Unprocessable("IMPORT-EMPTY")
    if len(table) - 1 > MOST_LINES:
        raise Unprocessable("IMPORT-TOO-LONG", most=MOST_LINES)
    return table, read_as


def _decoded(content: bytes) -> tuple[str, str]:
    if content.startswith(b"\xd0\xcf\x11\xe0"):
        raise Unprocessable("IMPORT-OLD-WORKBOOK")
    try:
        if content.startswith((b"\xff\xfe", b"\xfe\xff")):
            return content.decode("utf-16"), UTF_16
        return content.decode("utf-8-sig"), UTF_8
    except UnicodeDecodeError:
        pass
    if any(sign < 32 and sign not in b"\t\n\r\f" for sign in content):
        raise Unprocessable("IMPORT-NOT-A-TABLE")
    try:
        # what spreadsheets call "CSV", without UTF-8; Latin-1 is the same but for signs that no table holds
        return content.decode("cp1252"), WINDOWS
    except UnicodeDecodeError as trouble:
        raise Unprocessable("IMPORT-ENCODING") from trouble


def _csv(text: str) -> Table:
    lines = text.splitlines(keepends=True)
    skipped = 0
    separator = ""
    if lines and lines[0].lower().startswith("sep="):
        separator, skipped = lines[0].strip()[4:5], 1
    head = lines[skipped] if len(lines) > skipped else ""
    separator = separator or max(";,\t", key=head.count)
    reader = csv.reader(io.StringIO("".join(lines[skipped:]), newline=""), delimiter=separator)
    table: Table = []
    start = 1
    for parts in reader:
        if any(part.strip() for part in parts):
            table.append((start + skipped, parts))
        start = reader.line_num + 1
    return table


def _workbook(content: bytes) -> Table:
    # read when asked for: few processes ever import a workbook
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            # of things in the workbook that are not read here: drop-down lists, styles
            warnings.simplefilter("ignore", UserWarning)
            sheet = load_workbook(io.BytesIO(content), read_only=True, data_only=True).active
            rows = [] if sheet is None else sheet.iter_rows(
                max_row=MOST_LINES + 2, max_col=MOST_COLUMNS, values_only=True)
            cells = [(number, [_cell(value) for value in row]) for number, row in enumerate(rows, start=1)]
    except (BadZipFile, KeyError, ValueError, TypeError, AttributeError, IndexError, SyntaxError, OSError) as trouble:
        raise Unprocessable("IMPORT-NOT-A-TABLE") from trouble
    return [(number, _without_empty_end(row)) for number, row in cells if any(row)]


def _cell(value: Any) -> str:
    """A cell as it would stand in a CSV file: days as 2026-11-25, whole numbers without a point."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time.min else value.isoformat(" ")
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()


def _without_empty_end(cells: list[str]) -> list[str]:
    while cells and not cells[-1]:
        cells.pop()
    return cells
