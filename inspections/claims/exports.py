"""The list of claims as a table to keep: CSV (RFC 4180) and .xlsx.

A supplier's name, a credit note's number and other words come from outside: see ``inspections.spreadsheets``.
"""
import csv
import io
from collections.abc import Iterable
from decimal import Decimal

from openpyxl import Workbook

from inspections.spreadsheets import harmless, workbook_cell

COLUMNS = {
    "Claim": "number", "State": "state_words", "Supplier": "supplier", "Site": "site", "Docket": "docket_number",
    "Line": "line", "Product": "product", "Arrived": "arrived_at", "Days old": "age_days", "Currency": "currency",
    "Claimed": "claimed", "Offered": "offered", "Agreed": "agreed", "Credited": "credited",
    "Credit note": "credit_note", "Due": "deadline", "Sent": "sent_at", "Closed": "closed_at",
}
AMOUNTS = ("claimed", "offered", "agreed", "credited")


def csv_of(rows: Iterable[dict]) -> bytes:
    """Rows of ``selectors.claim_row`` as CSV with a byte order mark, for spreadsheets that ask for one."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    for row in rows:
        writer.writerow([harmless(str(value)) if isinstance(value, str) else value for value in _cells(row)])
    return b"\xef\xbb\xbf" + out.getvalue().encode()


def xlsx_of(rows: Iterable[dict]) -> bytes:
    """The same as a workbook; amounts and days are numbers, all else is text."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Claims")
    sheet.append(list(COLUMNS))
    for row in rows:
        sheet.append([workbook_cell(sheet, value) for value in _cells(row)])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _cells(row: dict) -> list:
    return [_plain(name, row[name]) for name in COLUMNS.values()]


def _plain(name: str, value) -> str | int | Decimal:
    if value is None:
        return ""
    if name in AMOUNTS:
        return Decimal(value["value"])
    if isinstance(value, dict):
        return value.get("name") or value["at"]
    return value
