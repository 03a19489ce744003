"""The vectors that both languages are held to, and the numbers in them that publications print."""

import json
from pathlib import Path

import pytest

from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.verdict import judge_document

from .deliveries import patched
from .verdict_calls import outcome

VECTORS = Path(__file__).resolve().parents[3] / "fixtures" / "vectors"
NAMES = ("condition", "species", "labels", "wording", "verdict", "judgement")
KNOWN = ("read", "from_memory", "common_practice", "computed")


def _cases():
    for name in NAMES:
        data = json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))
        for case in data["cases"]:
            yield pytest.param(name, data.get("base"), case, id=f"{name}: {case['id']}")


def _judged(base, patch):
    case = patched(base, patch)
    return judge_document(case["document"], case["specifications"], DEFAULT_LIMITS)


@pytest.mark.parametrize(("name", "base", "case"), list(_cases()))
def test_a_vector_gives_what_it_says(name, base, case):
    assert case["source"]
    assert case["known"] in KNOWN
    if "call" in case["in"]:
        expected = {key: case[key] for key in ("out", "error") if key in case}
        assert outcome(case["in"]["call"], case["in"]["args"]) == expected
        return
    judgement = _judged(base, case["in"]["patch"])
    if name == "judgement":
        assert judgement == case["out"]
        return
    line = judgement["lines"][0]
    out = case["out"]
    assert line["suggestion"] == out["suggestion"]
    assert [reason["code"] for reason in line["reasons"]] == out["codes"]
    for key in ("needed", "suggested_split", "allowances", "sampling"):
        assert line[key] == out[key]
    if line["cartons"]:
        assert line["cartons"][0]["derived"] == out["derived"]
        assert line["cartons"][0]["checks"] == out["checks"]
    assert [entry["code"] for entry in judgement["unusable"]] == out["unusable"]
