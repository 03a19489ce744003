"""Every published row is checked by a test that names it, or stands on the page that is said to carry it."""

import ast
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from tests.published import HOUSE, ROW_ID, Row, ledger, rows_of

KNOWN = ("read", "from memory", "common practice", "computed")
#: Words of a source that say nothing about which one it is.
_EMPTY = {"annex", "table", "section", "std", "reg", "the", "of", "and", "to", "in", "by", "for", "with", "art"}
_TITLE = re.compile(r"""\b(?:test|it)(?:\.each\(.*?\))?\(\s*(["'`])(?P<title>.*?)\1""", re.DOTALL)
_CODE = re.compile(r"[A-Za-z0-9./-]+")


@dataclass(frozen=True)
class Mark:
    """One mark on one test."""

    file: str
    test: str
    ids: tuple[str, ...]
    source: str
    known: str
    asserts: bool


ROWS = ledger()
IDS = list(ROWS)


def _asserts(function: ast.FunctionDef) -> bool:
    """Whether a test can fail: it asserts, or expects an error."""
    return any(
        isinstance(node, ast.Assert)
        or (isinstance(node, ast.Attribute) and node.attr.startswith(("raises", "assert_")))
        for node in ast.walk(function)
    )


def _marks_in(path: Path) -> Iterator[Mark]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.FunctionDef):
            continue
        for call in node.decorator_list:
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "published":
                named = {word.arg: ast.literal_eval(word.value) for word in call.keywords}
                ids = tuple(each for arg in call.args for each in rows_of(ast.literal_eval(arg), IDS))
                file = str(path.relative_to(HOUSE))
                yield Mark(file, node.name, ids, named["source"], named["known"], _asserts(node))


@cache
def marks() -> tuple[Mark, ...]:
    """Every mark in the Python tests, read from their text so that a test left out is counted too."""
    return tuple(mark for path in sorted((HOUSE / "tests").rglob("test_*.py")) for mark in _marks_in(path))


@cache
def named_by_the_app() -> frozenset[str]:
    """Ids in titles of the app's own tests."""
    found: set[str] = set()
    for path in (HOUSE / "frontend" / "src").rglob("*.test.ts"):
        for title in _TITLE.finditer(path.read_text(encoding="utf-8")):
            found.update(ROW_ID.findall(title["title"]))
    return frozenset(found)


def _tokens(text: str) -> set[str]:
    return {word for word in (found.lower().strip("./-") for found in _CODE.findall(text)) if len(word) > 1} - _EMPTY


def test_the_ledger_is_whole():
    assert len(IDS) > 680
    for row in ROWS.values():
        assert ROW_ID.fullmatch(row.id)
        assert row.says
        assert row.source
        assert set(row.known.split("; ")) <= set(KNOWN), row.id


def test_marks_name_rows_that_exist_and_say_how_surely_they_are_known():
    wrong = []
    for mark in marks():
        wrong += [f"{mark.file}::{mark.test} has no row"] if not mark.ids else []
        for each in mark.ids:
            if each not in ROWS:
                wrong.append(f"{mark.file}::{mark.test} names {each}, which the ledger does not have")
            elif ROWS[each].known != mark.known:
                wrong.append(f"{mark.file}::{mark.test} says {mark.known!r} of {each}: {ROWS[each].known!r}")
    assert wrong == []


def test_a_mark_names_the_source_of_its_rows():
    wrong = [
        f"{mark.file}::{mark.test} {each}: {mark.source!r} shares no word with {ROWS[each].source!r}"
        for mark in marks()
        for each in mark.ids
        if each in ROWS and not _tokens(mark.source) & _tokens(ROWS[each].source)
    ]
    assert wrong == []


def test_a_marked_test_can_fail():
    assert [f"{mark.file}::{mark.test}" for mark in marks() if not mark.asserts] == []


def test_ids_in_the_app_s_tests_exist():
    assert named_by_the_app() - set(IDS) == set()


@pytest.mark.parametrize("row", [row for row in ROWS.values() if row.shown_on], ids=lambda row: row.id)
def test_a_page_carries_what_it_is_said_to_carry(row: Row):
    """The place exists, is no test and no fixture, and holds the words that are looked up."""
    place, _, words = row.shown_on.partition("#")
    assert place.startswith(("inspections/", "frontend/src/", "imaging/"))
    assert ".test." not in place
    assert len(words) >= 8
    text = " ".join((HOUSE / place).read_text(encoding="utf-8").split())
    assert words in text


def test_the_page_of_published_facts_says_how_surely_each_is_known():
    text = (HOUSE / "inspections" / "trade" / "docs" / "published.md").read_text(encoding="utf-8")
    rows = [line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith("| CV-")]
    assert len(rows) > 90
    for row_id, _, source, known in rows:
        row = ROWS[row_id]
        assert known == row.known.replace("; ", ", "), row_id
        assert source == ("none" if row.source == "common practice" else row.source), row_id


def test_every_row_is_tested_or_shown():
    tested = {each for mark in marks() for each in mark.ids} | named_by_the_app()
    missing = [row.id for row in ROWS.values() if row.id not in tested and not row.shown_on]
    by_section = Counter(each.rpartition("-")[0] for each in missing)
    assert missing == [], f"{len(missing)} rows are neither tested nor shown: {dict(by_section)}"


def test_a_page_stands_in_for_a_test_only_where_nothing_can_be_computed():
    """Rows with a computed value are behaviour: no page will do for them."""
    assert [row.id for row in ROWS.values() if row.shown_on and "computed" in row.known.split("; ")] == []
