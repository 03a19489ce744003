"""Text from outside in a cell: no spreadsheet may take it for a formula.

Suppliers' names, lots and other words come from outside, and a cell that begins like a formula is run when the file is
opened. In CSV such a text gets an apostrophe in front; in .xlsx every text is a cell of text.
Source: OWASP, CSV injection (from memory: = + - @, tab and carriage return at the start).
"""
from typing import Any

from openpyxl.cell import WriteOnlyCell

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def harmless(text: str) -> str:
    """A text that no spreadsheet takes for a formula.

    >>> harmless("=HYPERLINK(1)"), harmless("Cold Reach")
    ("'=HYPERLINK(1)", 'Cold Reach')
    """
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def workbook_cell(sheet: Any, value: Any) -> WriteOnlyCell:
    """A cell of a write-only workbook; else the library takes a text that begins with "=" for a formula."""
    cell = WriteOnlyCell(sheet, value=value)
    if isinstance(value, str):
        cell.data_type = "s"
    return cell
