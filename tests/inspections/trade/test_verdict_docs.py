"""The worked examples of the pages and of the docstrings run as they stand."""

import doctest
import importlib
from pathlib import Path

import pytest

DOCS = Path(__file__).resolve().parents[3] / "inspections" / "trade" / "docs"


@pytest.mark.parametrize("page", ["condition", "species", "labels", "limits", "verdict"])
def test_the_examples_of_a_page(page):
    result = doctest.testfile(str(DOCS / f"{page}.md"), module_relative=False, encoding="utf-8")
    assert result.attempted > 5
    assert result.failed == 0


@pytest.mark.parametrize("name", ["condition", "entries", "gs1", "labels", "limits", "reasons", "species", "wording"])
def test_the_examples_of_a_module(name):
    result = doctest.testmod(importlib.import_module(f"inspections.trade.{name}"))
    assert result.attempted > 0
    assert result.failed == 0
