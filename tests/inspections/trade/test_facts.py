"""What can be used of a document, and what is listed with its path."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.entries import day_number
from inspections.trade.facts import facts_from_document
from inspections.trade.specification import specifications_from_json
from inspections.trade.wording import WORDS

from .deliveries import SPECIFICATION, carton, delivery, grams, patched, probed

FIRST = "lines/0/cartons/0/"
PATH = "lines[0].cartons[0]."


def test_a_sound_document_is_used_whole():
    assert facts_from_document(delivery()).unusable == ()


@pytest.mark.parametrize(
    ("patch", "path", "code"),
    [
        ({FIRST + "weights/deglazed": grams("123456789")}, PATH + "weights.deglazed", "READ-02"),
        ({FIRST + "weights/deglazed": grams("1234567")}, PATH + "weights.deglazed", "WEIGHT-02"),
        ({FIRST + "weights/deglazed": grams("0")}, PATH + "weights.deglazed", "WEIGHT-01"),
        ({FIRST + "weights/deglazed": grams("2,010")}, PATH + "weights.deglazed", "READ-05"),
        ({FIRST + "weights/deglazed": {"entered": "2", "unit": "C"}}, PATH + "weights.deglazed", "READ-04"),
        ({FIRST + "weights/deglazed": 2010}, PATH + "weights.deglazed", "FACT-01"),
        ({FIRST + "temperature": probed("-91")}, PATH + "temperature.product", "TEMP-01"),
        ({FIRST + "temperature": probed("61")}, PATH + "temperature.product", "TEMP-02"),
        ({FIRST + "liner": "ripped"}, PATH + "liner", "FACT-02"),
        ({FIRST + "refreezing": ["melted"]}, PATH + "refreezing[0]", "FACT-02"),
        ({FIRST + "black_spot_score": 3}, PATH + "black_spot_score", "FACT-02"),
        ({FIRST + "looked_at": 0}, PATH + "looked_at", "FACT-03"),
        ({FIRST + "looked_at": 1.5}, PATH + "looked_at", "FACT-03"),
        ({FIRST + "looked_at": True}, PATH + "looked_at", "FACT-01"),
        ({FIRST + "pieces/black_spot": 41}, PATH + "pieces.black_spot", "FACT-04"),
        ({FIRST + "label/best_before": "2027-02-29"}, PATH + "label.best_before", "FACT-05"),
        ({"lines/0/cartons/0": 5}, "lines[0].cartons[0]", "FACT-01"),
        ({"lines/0/cartons/0": None}, "lines[0].cartons[0]", "FACT-01"),
        ({"lines": {}}, "lines", "FACT-01"),
        ({"vehicle/load": 5}, "vehicle.load", "FACT-01"),
    ],
)
def test_an_entry_that_cannot_be_used_is_listed_with_its_path(patch, path, code):
    unusable = facts_from_document(patched(delivery(), patch)).unusable
    assert [(entry.path, entry.code) for entry in unusable] == [(path, code)]
    assert code in WORDS["unusable"]


@pytest.mark.parametrize("blank", [None, {"entered": "", "unit": "g"}, {"entered": " \t", "unit": "g"}])
def test_blank_is_not_checked_and_no_mistake__CV_0_06(blank):
    facts = facts_from_document(patched(delivery(), {FIRST + "weights/deglazed": blank}))
    assert facts.unusable == ()
    assert facts.lines[0].cartons[0].deglazed_g is None


def test_pounds_and_grams_are_the_same_weight__CV_0_04():
    pounds = facts_from_document(
        patched(delivery(), {FIRST + "weights/deglazed": {"entered": "5", "unit": "lb"}})
    )
    assert pounds.lines[0].cartons[0].deglazed_g == 2267.96185


def test_the_rest_of_a_document_is_kept_when_one_entry_is_odd():
    facts = facts_from_document(patched(delivery(), {FIRST + "liner": 5}))
    assert facts.lines[0].cartons[0].seen["liner"] is None
    assert facts.lines[0].cartons[1].seen["liner"] == "closed"


@given(st.text(max_size=12))
def test_a_day_is_a_number_or_none(text):
    assert day_number(text) is None or text[:10].replace("-", "").isdigit()


def test_a_specification_that_cannot_be_judged_by_is_left_out_and_said():
    by_id, unusable = specifications_from_json([{**SPECIFICATION, "carton_net_g": 0}, SPECIFICATION])
    assert list(by_id) == ["s1"]
    assert [entry.path for entry in unusable] == ["specifications[0].carton_net_g"]


def test_the_first_of_two_specifications_with_one_id_counts():
    by_id, _ = specifications_from_json([SPECIFICATION, {**SPECIFICATION, "name": "other"}])
    assert by_id["s1"].name == SPECIFICATION["name"]


def test_cartons_keep_the_order_in_which_they_were_opened():
    positions = [one.position for one in facts_from_document(delivery(carton(17), carton(3))).lines[0].cartons]
    assert positions == [17, 3]
