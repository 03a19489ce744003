"""Black spot on its published scale and by counts; wrapping, smell, foreign matter."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.basis import load_table
from inspections.trade.condition import score_by_prevalence
from inspections.trade.quantities import UnusableReading
from tests.published import published

from .deliveries import carton, delivery
from .test_verdict import codes, line_of


@published("CV-6-02", source="Journal of Food Processing 2015, 460617, Table 1", known="read")
def test_the_scale_has_the_published_steps__CV_6_02(published):
    steps = json.loads((published / "melanosis_scale.json").read_text(encoding="utf-8"))["steps"]
    shipped = load_table("melanosis")
    assert [step["score"] for step in shipped["steps"]] == [step["score"] for step in steps]
    assert shipped["basis"]["known"] == "read"


@published("CV-6-05", source="Journal of Food Processing 2015, 460617, Table 1", known="computed")
def test_exactly_half_with_small_spots_scores_2__CV_6_05():
    assert [score_by_prevalence(spotted, 0, 0, 40) for spotted in (14, 20, 24)] == [2, 2, 4]


@given(looked_at=st.integers(1, 200), data=st.data())
def test_more_or_wider_spots_never_lower_the_score(looked_at, data):
    small = data.draw(st.integers(0, looked_at))
    large = data.draw(st.integers(0, looked_at - small))
    score = score_by_prevalence(small, large, 0, looked_at)
    assert score in (0, 2, 4, 6, 8)
    if small:
        assert score_by_prevalence(small - 1, large + 1, 0, looked_at) >= score
    if small + large < looked_at:
        assert score_by_prevalence(small + 1, large, 0, looked_at) >= score


@given(st.lists(st.integers(-3, 2500) | st.floats() | st.booleans() | st.none(), min_size=4, max_size=4))
def test_numbers_that_cannot_be_raise_the_documented_error(numbers):
    try:
        answer = score_by_prevalence(*numbers)
    except UnusableReading as problem:
        answer = problem.code
    assert answer in (0, 2, 4, 6, 8, 10, "FACT-03", "FACT-04")


@published("CV-0-06", source="common practice, rule of the house", known="common practice")
def test_no_spots_counted_is_not_no_spots__CV_0_06():
    line = line_of(delivery(carton(3, pieces={}), carton(11), carton(17)))
    assert line["cartons"][0]["checks"]["black_spot"] == "not_checked"
    assert line["cartons"][0]["derived"]["black_share"] is None
    assert line["suggestion"] == "not_yet"


def test_many_spots_without_their_width_leave_the_codex_rule_open():
    line = line_of(delivery(carton(3, pieces={"black_spot": 12}), carton(11), carton(17)))
    assert line["cartons"][0]["checks"]["black_spot_wide"] == "cannot_tell"


def test_few_spots_are_within_the_codex_rule_however_wide():
    line = line_of(delivery(carton(3, pieces={"black_spot": 2}), carton(11), carton(17)))
    assert line["cartons"][0]["checks"]["black_spot_wide"] == "within"


def test_more_affected_than_looked_at_is_not_used():
    line = line_of(delivery(carton(3, pieces={"black_spot": 41}), carton(11), carton(17)))
    assert line["cartons"][0]["checks"]["black_spot"] == "not_checked"


@pytest.mark.parametrize(
    ("changes", "code", "severity"),
    [
        ({"liner": "open"}, "LINER-OPEN", "minor"),
        ({"liner": "torn"}, "LINER-TORN", "minor"),
        ({"liner": "missing"}, "LINER-MISSING", "major"),
        ({"frost": "heavy"}, "FROST-HEAVY", "minor"),
        ({"odour": "slight"}, "ODOUR-SLIGHT", "minor"),
        ({"odour": "off"}, "ODOUR-OFF", "critical"),
        ({"odour": "chemical"}, "ODOUR-CHEMICAL", "critical"),
        ({"foreign_matter": "harmless"}, "FOREIGN-HARMLESS", "major"),
        ({"foreign_matter": "hazard"}, "FOREIGN-HAZARD", "critical"),
        ({"refreezing": ["clumped"]}, "CLUMPED", "minor"),
        ({"refreezing": ["clumped"], "frost": "heavy"}, "THAW-SIGNS", "major"),
        ({"refreezing": ["deformed"]}, "REFREEZING", "critical"),
        ({"looked_at": 10, "pieces": {"black_spot": 0}}, "LOOKED-AT-FEW", "note"),
    ],
)
def test_what_is_seen_has_its_severity(changes, code, severity):
    reasons = line_of(delivery(carton(3, **changes), carton(11), carton(17)))["reasons"]
    assert (code, severity) in [(reason["code"], reason["severity"]) for reason in reasons]


@published("CV-3-84", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(("frost", "signs"), [("none", []), ("some", [])])
def test_some_frost_is_no_finding__CV_3_84(frost, signs):
    assert codes(line_of(delivery(carton(3, frost=frost, refreezing=signs), carton(11), carton(17)))) == []
