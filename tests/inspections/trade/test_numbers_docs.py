"""The worked examples of the pages and of the docstrings run as they stand."""

import doctest
import importlib
from pathlib import Path

import pytest

DOCS = Path(__file__).resolve().parents[3] / "inspections" / "trade" / "docs"
MODULES = (
    "quantities",
    "answer",
    "grades",
    "counts",
    "uniformity",
    "glaze",
    "shortage",
    "sampling",
    "chances",
    "drawing",
    "freezer",
    "thermometer",
    "exposure",
    "loggers",
    "logger_times",
    "logger_words",
    "logger_plot",
    "journey",
    "intervals",
)


@pytest.mark.parametrize("page", ["counts", "glaze", "sampling", "temperature", "loggers"])
def test_the_examples_of_a_page(page):
    result = doctest.testfile(str(DOCS / f"{page}.md"), module_relative=False, encoding="utf-8")
    assert result.attempted > 5
    assert result.failed == 0


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module(name):
    result = doctest.testmod(importlib.import_module(f"inspections.trade.{name}"))
    assert result.attempted > 0
    assert result.failed == 0
