"""The worked examples of the pages and of the docstrings run as they stand."""

import doctest
import importlib
import re

import pytest

from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.sampling import plan_for, second_stage
from inspections.trade.severity_ranking import FINDINGS, ORDER
from inspections.trade.wording import WORDS, word

from .printed import DOCS, rows_of


@pytest.mark.parametrize("page", ["condition", "species", "labels", "limits", "verdict"])
def test_the_examples_of_a_page(page):
    result = doctest.testfile(str(DOCS / f"{page}.md"), module_relative=False, encoding="utf-8")
    assert result.attempted > 5
    assert result.failed == 0


@pytest.mark.parametrize("name", ["condition", "entries", "gs1", "limits", "reasons", "species", "wording"])
def test_the_examples_of_a_module(name):
    result = doctest.testmod(importlib.import_module(f"inspections.trade.{name}"))
    assert result.attempted > 0
    assert result.failed == 0


KNOWN = {
    "read": "read",
    "from_memory": "from memory",
    "common_practice": "common practice",
    "computed": "computed",
}
SENSES = {"at_most": "at most", "below": "below", "at_least": "at least", "above": "above"}


def test_the_page_prints_every_limit_as_it_is_shipped():
    rows = rows_of("verdict", "| limit | fine is |")
    codes = [limit["code"] for limit in DEFAULT_LIMITS["limits"]]
    assert [row[0] for row in rows] == [f"{word('limit', code)} `{code}`" for code in codes]
    for row, limit in zip(rows, DEFAULT_LIMITS["limits"], strict=True):
        assert row[2:] == [limit["severity"], limit["basis"]["source"], KNOWN[limit["basis"]["known"]]], row
        if limit["bound"] is not None:
            sense, number = re.match(r"([a-z ]+) (-?[0-9.]+)", row[1]).groups()
            printed = float(number) / (100 if limit["unit"] == "share" else 1)
            assert (sense, printed) == (SENSES[limit["sense"]], pytest.approx(limit["bound"], abs=1e-6)), row
        else:
            assert not re.search("[0-9]", row[1]), row


def test_every_limit_has_a_plain_name_of_its_own():
    codes = {limit["code"] for limit in DEFAULT_LIMITS["limits"]}
    assert set(WORDS["limit"]) == codes
    assert len(set(WORDS["limit"].values())) == len(codes)
    assert not [name for name in WORDS["limit"].values() if re.search("[_.]", name)]


def test_the_page_prints_the_house_plan():
    for lots, opened, refused, total, accepted in rows_of("verdict", "| house plan: cartons |")[:-1]:
        for lot in (int(number) for number in re.findall("[0-9]+", lots)):
            plan = plan_for("house", lot)
            second = second_stage(plan)
            assert (plan.n, plan.acceptance) == (int(opened), 0), lots
            if second is None:
                assert (refused, total, accepted) == ("1", "1", "0")
            else:
                told = (second.rejection, second.acceptance)
                assert told == (int(refused), int(accepted)), lots
                assert second.total == min(int(total), lot), lots
    assert plan_for("house", 51).name == "codex_1"


def test_the_page_prints_what_each_finding_acts_on_and_leads_to():
    printed = {code: (row[1], row[2]) for row in rows_of("verdict", "| findings | act on | lead to |")
               for code in re.findall("`([A-Z-]+)`", row[0])}  # fmt: skip
    for code, row in FINDINGS.items():
        if row["leads_to"] not in ("note", "tally"):
            assert printed[code] == (row["acts_on"], row["leads_to"]), code
    assert set(printed) <= set(ORDER)


def test_the_steps_of_the_page_are_a_to_g():
    steps = rows_of("verdict", "| | when | suggestion | cartons |")
    assert [row[0] for row in steps] == list("abcdefg")
