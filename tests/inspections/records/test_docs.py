"""What the pages say about imports and jobs is what the code does."""
from pathlib import Path

import pytest

from imaging import tasks
from inspections.records import jobs
from inspections.records.imports import COLUMNS
from inspections.records.services.imports import NEEDED_ROLES
from inspections.records.services.logger_file import LARGEST, QUESTIONS
from inspections.trade.journey import METHOD
from inspections.trade.logger_tables import MAX_ROWS

DOCS = Path(__file__).resolve().parents[3] / "inspections" / "records" / "docs"


@pytest.mark.parametrize("kind", COLUMNS)
def test_every_heading_is_told_as_needed_or_not(kind):
    rows = [line.split("|") for line in (DOCS / "imports.md").read_text(encoding="utf-8").splitlines()]
    row = next(cells for cells in rows if len(cells) > 3 and cells[1].strip() == kind)
    needed, other = ([name.strip() for name in cell.split(",")] for cell in row[2:4])
    assert needed == [column.name for column in COLUMNS[kind] if column.is_needed]
    assert other == [column.name for column in COLUMNS[kind] if not column.is_needed]


def test_every_kind_has_its_roles():
    assert set(NEEDED_ROLES) == set(COLUMNS)


def test_the_numbers_of_jobs_are_the_ones_told():
    told = (DOCS / "jobs.md").read_text(encoding="utf-8")
    assert f"lease of {jobs.LEASE_S} s" in told
    assert f"at most {jobs.MOST_HINTS} lie there at once" in told
    assert f"due for {jobs.STANDSTILL_S} s" in told
    assert tasks.MOST_S < jobs.LEASE_S < jobs.STANDSTILL_S
    assert (jobs.FIRST_WAIT_S, jobs.LONGEST_WAIT_S, jobs.MOST_ATTEMPTS) == (10, 600, 5)
    assert "10 s, 20 s, 40 s … 10 min" in told
    assert "After five takings" in told


def test_every_question_about_a_logger_file_is_told():
    told = (DOCS / "logger-files.md").read_text(encoding="utf-8")
    rows = [line.split("|") for line in told.splitlines() if line.startswith("| LOG-")]
    assert {row[1].strip(): row[2].strip() for row in rows} == QUESTIONS
    assert f"At most** {LARGEST // 1048576} MB and {MAX_ROWS // 1000} 000 rows" in told
    assert f"`{METHOD}`" in told
