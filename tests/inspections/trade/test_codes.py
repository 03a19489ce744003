"""Every refusal and every finding that the judgements can give has its sentence, with nothing left to fill in."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from inspections.trade.severity_ranking import ORDER
from inspections.trade.wording import WORDS

TRADE = Path(__file__).resolve().parents[3] / "inspections" / "trade"
CODE = re.compile(r"[A-Z]+(-[A-Z0-9]+)+")


def calls_of(names: tuple[str, ...]) -> Iterator[tuple[str, ast.Call]]:
    """Every call of a name that starts with one of ``names``, with its file and line."""
    for file in sorted(TRADE.glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "").startswith(names):
                yield f"{file.name}:{node.lineno}", node


def codes_in(node: ast.AST) -> set[str]:
    """Codes written anywhere below a node."""
    texts = {one.value for one in ast.walk(node) if isinstance(one, ast.Constant) and isinstance(one.value, str)}
    return {text for text in texts if CODE.fullmatch(text)}


def places_in(sentence: str) -> set[str]:
    return set(re.findall(r"\{([a-z_]+)\}", sentence))


RAISED = [(at, code, call) for at, call in calls_of(("Unusable", "UnreadRow")) for code in sorted(codes_in(call))]
HANDED_ON = [(at, code) for at, call in calls_of(("_less", "self.refuse")) for code in sorted(codes_in(call))]


def test_the_scan_finds_what_is_raised():
    found = {code for _, code, _ in RAISED}
    assert {"READ-01", "GRADE-02", "SAMPLE-04", "LIMITS-05", "KEY-01", "EXPO-01", "LOG-06", "LOG-13"} <= found
    assert {code for _, code in HANDED_ON} >= {"GLAZE-01", "GLAZE-02"}


@pytest.mark.parametrize(("at", "code"), sorted({(at, code) for at, code, _ in RAISED} | set(HANDED_ON)))
def test_every_code_that_is_raised_has_a_sentence(at, code):
    assert code in WORDS["unusable"], at


@pytest.mark.parametrize(("at", "code", "call"), RAISED, ids=[f"{at} {code}" for at, code, _ in RAISED])
def test_every_place_of_a_sentence_is_filled_by_who_raises_it(at, code, call):
    facts = next((argument for argument in call.args if isinstance(argument, ast.Dict)), None)
    given = {key.value for key in facts.keys if isinstance(key, ast.Constant)} if facts else set()
    assert places_in(WORDS["unusable"][code]) <= given, at


@pytest.mark.parametrize("code", sorted(WORDS["unusable"]))
def test_a_sentence_says_what_happened_what_is_safe_and_what_to_do(code):
    parts = [part for part in re.split(r"[.?] ?", WORDS["unusable"][code]) if part]
    assert len(parts) >= 3, code
    assert re.search(r"kept|unchanged|used instead|Nothing was changed", WORDS["unusable"][code]), code
    assert "nvalid" not in WORDS["unusable"][code]


def test_no_sentence_stands_for_a_code_that_nobody_gives():
    given = set()
    for file in TRADE.glob("*.py"):
        given |= set(re.findall(r'"([A-Z]+(?:-[A-Z0-9]+)+)"', file.read_text("utf-8")))
    assert {code for code in WORDS["unusable"] if code not in given} == set()


def test_every_finding_that_can_be_weighed_has_its_sentence():
    assert set(ORDER) == set(WORDS["reasons"])


@pytest.mark.parametrize("module", ["counts", "shortage"])
def test_every_doubt_has_its_words(module):
    calls = (call for at, call in calls_of(("CannotTell",)) if at.startswith(f"{module}.py"))
    codes = {code for call in calls for code in codes_in(call)}
    assert codes
    assert codes <= set(WORDS["cannot_tell"])
