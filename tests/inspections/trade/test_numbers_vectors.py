"""The vectors that both languages are held to, to the last bit."""

import json
from pathlib import Path

import pytest

from .calls import CALLS, outcome

FILES = ("quantities", "counts", "glaze", "sampling", "temperature", "intervals")
VECTORS = Path(__file__).resolve().parents[3] / "fixtures" / "vectors"


def _cases(name: str) -> list[dict]:
    return json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("name", FILES)
def test_every_vector_gives_the_same_bits(name):
    for case in _cases(name):
        expected = {"error": case["error"]} if "error" in case else {"out": case["out"]}
        got = json.loads(json.dumps(outcome(case["in"]["call"], case["in"]["args"]), allow_nan=False))
        assert got == expected, case["id"]


def test_every_call_has_a_vector_and_every_vector_a_source():
    cases = [case for name in FILES for case in _cases(name)]
    assert {case["in"]["call"] for case in cases} == set(CALLS)
    assert all(case["source"] and case["known"] for case in cases)
