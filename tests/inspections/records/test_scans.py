"""Scanned labels: GS1's worked strings, and odd text that may only be refused."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.records.scans import UnusableScan, particulars_from_scan
from tests.published import published

VECTORS = json.loads(
    (Path(__file__).resolve().parents[3] / "fixtures" / "vectors" / "scans.json").read_text(encoding="utf-8")
)


@published("CV-8-90 to 125", source="GS1's open reference parser; GS1 Digital Link", known="computed")
@published("CV-8-83", source="GS1's reference checker", known="read")
@pytest.mark.parametrize("case", VECTORS["cases"], ids=[case["id"] for case in VECTORS["cases"]])
def test_a_worked_string_reads_as_published(case):
    text, year = case["in"]["text"], case["in"]["current_year"]
    if "error" in case:
        with pytest.raises(UnusableScan) as raised:
            particulars_from_scan(text, year)
        assert raised.value.code == case["error"]
        return
    found = particulars_from_scan(text, year)
    assert found == case["out"]
    # Written by hand from the published row, apart from the whole answer.
    assert {key: found[key] for key in case["expected"]} == case["expected"]


@given(st.text(alphabet="]dCQe()0123456789ABz/:.?=&%\x1d ", max_size=40) | st.text(max_size=20))
def test_odd_text_is_read_or_refused_with_its_code(text):
    code = None
    try:
        fields = particulars_from_scan(text, 2026)["fields"]
    except UnusableScan as problem:
        code, fields = problem.code, {}
    assert fields or code in ("SCAN-01", "SCAN-02", "SCAN-03")


@published("CV-8-77", source="GS1 General Specifications", known="from memory")
def test_a_scan_invents_no_day__CV_8_77():
    assert particulars_from_scan("011952123400017111260100", 2026)["production_date"] == "2026-01"
    label = particulars_from_scan("]C1011952123400017131020010001528030010PRN-24A", 2026)
    assert label["best_before"] == "2028-03-31"
    assert label["net"] == {"entered": "10.00", "unit": "kg"}
