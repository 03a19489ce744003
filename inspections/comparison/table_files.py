"""Tables as files: CSV (RFC 4180), .xlsx and Apache Parquet, written row by row to a file on disk, not in memory."""
import csv
from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime
from itertools import islice
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq
from openpyxl import Workbook
from openpyxl.utils import get_column_letter

from inspections.comparison.tables import CHUNK, DAY, MOMENT, NUMBER, TEXT, WHOLE, YES_NO, Table
from inspections.errors import Unprocessable
from inspections.spreadsheets import harmless, workbook_cell

#: Rows of a worksheet below its heading (ECMA-376: 1,048,576 with it).
MOST_SHEET_ROWS = 1_048_575
_ARROW = {TEXT: pa.string(), WHOLE: pa.int64(), NUMBER: pa.float64(), DAY: pa.date32(),
          MOMENT: pa.timestamp("us", tz="UTC"), YES_NO: pa.bool_()}
KINDS = {"csv": "text/csv; charset=utf-8", "parquet": "application/vnd.apache.parquet",
         "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"}
Rows = Iterable[tuple]


def write_file(table: Table, rows: Rows, path: Path, kind: str) -> None:
    """Write all rows as one of ``KINDS``.

    Raises
    ------
    Unprocessable
        TABLE-TOO-LONG: more rows than a worksheet holds.
    """
    {"csv": _csv, "xlsx": _xlsx, "parquet": _parquet}[kind](table, rows, path)


def _csv(table: Table, rows: Rows, path: Path) -> None:
    # a byte order mark, for spreadsheets that ask for one
    with path.open("w", encoding="utf-8-sig", newline="") as out:
        writer = csv.writer(out)
        writer.writerow(column.name for column in table.columns)
        writer.writerows([_csv_cell(value) for value in row] for row in rows)


def _csv_cell(value: Any) -> Any:
    if isinstance(value, str):
        return harmless(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.isoformat() if isinstance(value, date) else value


def _xlsx(table: Table, rows: Rows, path: Path) -> None:
    book = Workbook(write_only=True)
    sheet, words = book.create_sheet(table.name), book.create_sheet("columns")
    # Not alone for looks: headings that stay, and a filter on each, make the sheet one that can be sorted.
    sheet.freeze_panes = "A2"
    sheet.append([column.name for column in table.columns])
    count = 0
    for count, row in enumerate(rows, 1):
        if count > MOST_SHEET_ROWS:
            sheet.close()
            raise Unprocessable("TABLE-TOO-LONG", most=MOST_SHEET_ROWS)
        sheet.append([workbook_cell(sheet, _xlsx_value(value)) for value in row])
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(table.columns))}{count + 1}"
    words.append(["column", "kind", "meaning"])
    for column in table.columns:
        words.append([column.name, column.kind, column.meaning])
    book.save(path)


def _xlsx_value(value: Any) -> Any:
    # a worksheet knows no time zones
    return value.astimezone(UTC).replace(tzinfo=None) if isinstance(value, datetime) else value


def _parquet(table: Table, rows: Rows, path: Path) -> None:
    schema = pa.schema([pa.field(column.name, _ARROW[column.kind], metadata={"meaning": column.meaning})
                        for column in table.columns])
    with pq.ParquetWriter(path, schema, compression="zstd") as out:
        for part in _parts(iter(rows)):
            columns = zip(*part, strict=True)
            out.write_table(pa.table(dict(zip(schema.names, map(list, columns), strict=True)), schema=schema))


def _parts(rows: Iterator[tuple]) -> Iterator[list[tuple]]:
    while part := list(islice(rows, 10 * CHUNK)):
        yield part
