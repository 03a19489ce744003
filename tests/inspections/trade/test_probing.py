"""Probe readings with their allowance and their thermometer: said where it weakens the evidence, never more."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.carton_facts import ThermometerFacts
from inspections.trade.entries import day_number
from inspections.trade.limits import DEFAULT_LIMITS, UnusableLimits, limits_from_json
from inspections.trade.temperature import standing_of
from inspections.trade.verdict import judge_document
from tests.published import published

from .deliveries import PROBE, SPECIFICATION, carton, delivery, probed
from .test_limits import changed
from .test_verdict import codes, line_of, weight_of

BETWEEN, CORE = "between_packs", "core"


def ice(entered):
    return {"entered": entered, "unit": "C"}


def first(entered, method=CORE, thermometer=PROBE):
    """The line and the first carton of a delivery whose first carton was probed so."""
    temperature = {**probed(entered, method), "thermometer": thermometer}
    line = line_of(delivery(carton(3, temperature=temperature), carton(11), carton(17)))
    return line, line["cartons"][0]


def text_of(line, code):
    return next(reason["text"] for reason in line["reasons"] if reason["code"] == code)


@published("CV-5-41", source="CXC 8-1976 Annex", known="from memory")
@pytest.mark.parametrize(
    ("entered", "between", "core"),
    [
        ("-15.0", ("accept", "within"), ("accept", "within")),
        ("-14.0", ("not_yet", "cannot_tell"), ("hold", "beyond")),
        ("-13.0", ("not_yet", "cannot_tell"), ("hold", "beyond")),
        ("-12.9", ("hold", "beyond"), ("hold", "beyond")),
        ("-10.0", ("hold", "beyond"), ("hold", "beyond")),
        ("-9.9", ("hold", "beyond"), ("hold", "beyond")),  # one carton; in all, the line is refused
    ],
)
def test_a_reading_between_packs_has_two_degrees_allowed(entered, between, core):
    for method, expected in ((BETWEEN, between), (CORE, core)):
        line, judged = first(entered, method)
        assert (line["suggestion"], judged["checks"]["product_c"]) == expected


def test_the_allowance_is_named_in_the_reason_and_asks_for_the_core():
    assert "inside the 2.0 °C allowed for a reading between packs" in text_of(
        first("-14.0", BETWEEN)[0], "TEMP-BETWEEN"
    )
    assert "2.0 °C allowed" in text_of(first("-9.5", BETWEEN)[0], "TEMP-REJECT")
    assert "allowed" not in text_of(first("-9.5", CORE)[0], "TEMP-REJECT")


def test_a_group_may_allow_nothing():
    strict = changed("product_c.between_packs", bound=0.0)
    document = delivery(carton(3, temperature=probed("-14.0", BETWEEN)), carton(11), carton(17))
    assert line_of(document, limits=strict)["suggestion"] == "hold"


@published("CV-5-56", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(
    ("changes", "code", "check"),
    [
        ({}, None, "within"),
        ({"due_at": "2026-11-25"}, None, "within"),
        ({"due_at": "2026-11-24"}, "TEMP-PROBE-OVERDUE", "beyond"),
        ({"due_at": None, "checked_at": "2026-10-26"}, None, "within"),
        ({"due_at": None, "checked_at": "2026-10-25T23:00:00Z"}, "TEMP-PROBE-OVERDUE", "beyond"),
        ({"ice_point": ice("1.0")}, None, "within"),
        ({"ice_point": ice("-1.1")}, "TEMP-PROBE-FAILED", "beyond"),
        ({"ice_point": ice("30.2"), "due_at": "2026-01-01"}, "TEMP-PROBE-FAILED", "beyond"),
        ({"ice_point": None}, "TEMP-PROBE-UNCHECKED", "cannot_tell"),
        ({"checked_at": None}, "TEMP-PROBE-UNCHECKED", "cannot_tell"),
    ],
)
def test_a_reading_says_how_its_thermometer_stood(changes, code, check):
    line, judged = first("-25", CORE, {**PROBE, **changes})
    assert codes(line) == ([] if code is None else [code])
    assert judged["checks"]["thermometer"] == check
    assert line["suggestion"] == "accept"
    assert judged["defective"] is False
    if code is not None:
        assert line["reasons"][0]["severity"] == "note"
        assert "weakens the evidence" in line["reasons"][0]["text"]


def test_an_overdue_check_is_said_with_its_day():
    line, _ = first("-19", CORE, {**PROBE, "due_at": "2026-11-24"})
    assert "Probe 2, whose ice-point check was due on 2026-11-24" in text_of(line, "TEMP-PROBE-OVERDUE")


def test_a_thermometer_that_is_not_named_is_not_checked_and_said_once():
    temperature = {"product": ice("-19"), "method": CORE}
    line = line_of(delivery(*[carton(k, temperature=temperature) for k in (3, 11, 17)]))
    assert codes(line) == ["TEMP-PROBE-UNKNOWN"]
    assert "thermometer" in line["not_checked"]
    assert "thermometer" not in line["needed"]
    assert line["suggestion"] == "accept"


def test_a_thermometer_of_the_vehicle_is_judged_too():
    document = delivery()
    document["vehicle"]["thermometer"] = {**PROBE, "due_at": "2026-01-01"}
    judgement = judge_document(document, [SPECIFICATION], DEFAULT_LIMITS)
    (reason,) = judgement["vehicle"]["reasons"]
    assert reason["code"] == "TEMP-PROBE-OVERDUE"
    assert reason["text"].startswith("vehicle air measured with Probe 2")


@published("CV-5-35", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(
    ("entered", "error", "suggestion", "check"),
    [
        ("-17.6", "0.6", "accept", "cannot_tell"),  # less 0.6 it is -18.2: within or in the tolerance
        ("-18.4", "-0.6", "accept", "cannot_tell"),
        ("-15.3", "-0.6", "accept", "cannot_tell"),  # less -0.6 it is -14.7: past the tolerance, not held for it
        ("-14.7", "0.6", "hold", "beyond"),  # never turned into a pass
        ("-11.7", "0.6", "hold", "beyond"),
        ("-12.3", "-0.6", "hold", "beyond"),  # never rejects by itself
    ],
)
def test_a_reading_that_its_own_error_could_move_across_a_limit_cannot_tell(entered, error, suggestion, check):
    line, judged = first(entered, CORE, {**PROBE, "ice_point": ice(error)})
    assert "TEMP-PROBE-DOUBT" in codes(line)
    assert (line["suggestion"], judged["checks"]["product_c"]) == (suggestion, check)
    assert f"reads {error} °C in crushed ice" in text_of(line, "TEMP-PROBE-DOUBT")


def test_an_error_that_crosses_no_limit_is_no_doubt():
    assert codes(first("-19.0", CORE, {**PROBE, "ice_point": ice("0.6")})[0]) == []


def test_a_surface_reading_has_no_doubt_to_add():
    line, judged = first("-17.6", "surface", {**PROBE, "ice_point": ice("0.6")})
    assert codes(line) == ["TEMP-SURFACE"]
    assert judged["checks"]["product_c"] == "cannot_tell"


@pytest.mark.parametrize("code", ["product_c.between_packs", "thermometer.overdue", "thermometer.doubt"])
def test_weak_evidence_can_be_made_a_hold_and_never_a_rejection(code):
    with pytest.raises(UnusableLimits) as raised:
        limits_from_json(changed(code, severity="critical"))
    assert raised.value.code == "LIMITS-04"
    document = delivery(
        carton(3, temperature={**probed("-13.4", BETWEEN), "thermometer": {**PROBE, "ice_point": ice("-0.7")}}),
        carton(11, temperature={**probed("-19"), "thermometer": {**PROBE, "due_at": "2026-11-01"}}),
        carton(17),
    )
    line = line_of(document, limits=changed(code, severity="major"))
    assert line["suggestion"] == "hold"
    assert line["sampling"]["defective"] == 0


thermometers = st.none() | st.fixed_dictionaries(
    {
        "name": st.sampled_from(["Probe 2", ""]),
        "checked_at": st.sampled_from(["2026-11-20", "2026-09-01", None, "soon"]),
        "ice_point": st.none() | st.integers(-30, 30).map(lambda tenths: ice(f"{tenths / 10:.1f}")),
        "due_at": st.sampled_from(["2026-11-24", "2027-01-01", None]),
    }
)
readings = st.integers(-300, 50).map(lambda tenths: f"{tenths / 10:.1f}")


@given(one=readings, other=readings, method=st.sampled_from([BETWEEN, CORE]), thermometer=thermometers)
def test_colder_never_worsens_whatever_the_method_and_the_thermometer(one, other, method, thermometer):
    colder, warmer = sorted((one, other), key=float)
    assert weight_of(first(colder, method, thermometer)[0]) <= weight_of(first(warmer, method, thermometer)[0])


@given(entered=readings, method=st.sampled_from([BETWEEN, CORE]), thermometer=thermometers)
def test_a_thermometer_changes_no_suggestion(entered, method, thermometer):
    assert first(entered, method, thermometer)[0]["suggestion"] == first(entered, method)[0]["suggestion"]


@given(
    checked=st.none() | st.integers(1, 3_000_000), due=st.none() | st.integers(1, 3_000_000),
    day=st.none() | st.integers(1, 3_000_000), error=st.none() | st.floats(-90, 60),
)  # fmt: skip
def test_every_thermometer_has_a_standing(checked, due, day, error):
    limit = limits_from_json(DEFAULT_LIMITS)["thermometer.ice_point"]
    standing = standing_of(ThermometerFacts("x", checked, error, due), day, limit)
    assert standing.state in ("passed", "failed", "overdue", "unchecked")
    assert standing.due_on is None or day_number(standing.due_on) is not None
