"""The list of claims as a table to keep: CSV (RFC 4180) and .xlsx.

A supplier's name, a credit note's number and other words come from outside: see ``inspections.spreadsheets``.
"""
import csv
import io
from collections.abc import Iterable
from decimal import Decimal

from openpyxl import Workbook

from inspections.messages import message
from inspections.spreadsheets import harmless, workbook_cell

COLUMNS = ("number", "state_words", "supplier", "site", "docket_number", "line", "product", "arrived_at", "age_days",
           "currency", "claimed", "offered", "agreed", "credited", "credit_note", "deadline", "sent_at", "closed_at")
AMOUNTS = ("claimed", "offered", "agreed", "credited")


def csv_of(rows: Iterable[dict]) -> bytes:
    """Rows of ``selectors.claim_row`` as CSV with a byte order mark, for spreadsheets that ask for one."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(_heads())
    for row in rows:
        writer.writerow([harmless(str(value)) if isinstance(value, str) else value for value in _cells(row)])
    return b"\xef\xbb\xbf" + out.getvalue().encode()


def xlsx_of(rows: Iterable[dict]) -> bytes:
    """The same as a workbook; amounts and days are numbers, all else is text."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet(message("claims-table-name"))
    sheet.append(_heads())
    for row in rows:
        sheet.append([workbook_cell(sheet, value) for value in _cells(row)])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _heads() -> list[str]:
    return [message(f"claims-column-{name}") for name in COLUMNS]


def _cells(row: dict) -> list:
    return [_plain(name, row[name]) for name in COLUMNS]


def _plain(name: str, value) -> str | int | Decimal:
    if value is None:
        return ""
    if name in AMOUNTS:
        return Decimal(value["value"])
    if isinstance(value, dict):
        return value.get("name") or value["at"]
    return value
