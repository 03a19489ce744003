"""Published tables, tables of the pages, and whether a value agrees with a printed one to half of its last digit."""

import json
from pathlib import Path
from typing import Any

DOCS = Path(__file__).resolve().parents[3] / "inspections" / "trade" / "docs"
PUBLISHED = Path(__file__).resolve().parents[3] / "fixtures" / "published"


def table(name: str) -> dict[str, Any]:
    """One published table with its source."""
    return json.loads((PUBLISHED / f"{name}.json").read_text(encoding="utf-8"))


def agrees(value: float, printed: str) -> bool:
    """Whether the unrounded value lies within half of the last printed digit."""
    decimals = len(printed.partition(".")[2])
    return abs(value - float(printed)) <= 0.5 * 10.0**-decimals + 1e-9


def rows_of(page: str, heading: str) -> list[list[str]]:
    """Cells of the table below the line that starts with ``heading``."""
    lines = (DOCS / f"{page}.md").read_text("utf-8").splitlines()
    start = next(number for number, line in enumerate(lines) if line.startswith(heading))
    table = []
    for line in lines[start + 2 :]:
        if not line.startswith("|"):
            break
        table.append([cell.strip() for cell in line.strip("|").split("|")])
    return table
