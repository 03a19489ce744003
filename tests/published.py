"""Ties a test to the published rows it holds the house to.

``fixtures/published/rows.csv`` lists every row of the tables and worked examples, with its source and how surely
it is known. A test that checks one says so beside itself, with the source named again:

    @published("CV-1-50 to 53", source="CXS 92-1981 §8", known="computed")

``test_published_rows`` gathers the marks and fails on a row that no test checks and no page carries.
"""

import csv
import re
from dataclasses import dataclass
from pathlib import Path

import pytest

HOUSE = Path(__file__).resolve().parent.parent
LEDGER = HOUSE / "fixtures" / "published" / "rows.csv"
ROW_ID = re.compile(r"CV-\d+(?:\.\d+)?-\d+")
_RANGE = re.compile(r"(CV-\d+(?:\.\d+)?-)(\d+) to (\d+)")


@dataclass(frozen=True)
class Row:
    """One published row; ``known`` is one or two of read, from memory, common practice, computed."""

    id: str
    section: str
    says: str
    value: str
    source: str
    known: str
    shown_on: str


def ledger() -> dict[str, Row]:
    """Every row by its id, in the order of the sections."""
    with LEDGER.open(encoding="utf-8", newline="") as file:
        return {entry["id"]: Row(**entry) for entry in csv.DictReader(file)}


def rows_of(text: str, known_ids: list[str]) -> list[str]:
    """The ids that an id or a range stands for; a range takes what the ledger has between its ends."""
    spread = _RANGE.fullmatch(text)
    if spread is None:
        return [text]
    start, first, last = spread[1], int(spread[2]), int(spread[3])
    return [each for each in known_ids if each.startswith(start) and first <= int(each[len(start) :]) <= last]


def published(*rows: str, source: str, known: str) -> pytest.MarkDecorator:
    """Mark a test as one that checks published rows.

    Parameters
    ----------
    rows : str
        Ids as in the ledger, or ranges like "CV-2-70 to 84".
    source : str
        The publication, as a reader would look it up.
    known : str
        How surely the rows are known, as in the ledger; a test mixes no two kinds in one mark.
    """
    return pytest.mark.published(rows, source=source, known=known)
