"""What a delivery's findings lead to: order, tallies, splits, words, and what never changes for the better."""

import copy
import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.generated import cases
from inspections.trade.limits import DEFAULT_LIMITS, SEVERITIES
from inspections.trade.quantities import Unusable
from inspections.trade.reasons import explain
from inspections.trade.severity_ranking import HAZARDS, ORDER
from inspections.trade.verdict import JUDGEMENT_VERSION, judge_document
from inspections.trade.wording import WORDS
from tests.published import published

from .deliveries import SPECIFICATION, carton, delivery, grams, probed

# Heaviest last; a hazard's hold is heavier than a rejection, a doubt's hold is lighter.
_WEIGHT = {"accept": 0, "accept_with_allowance": 1, "not_yet": 2, "hold": 3, "reject": 4}


def line_of(document, specification=SPECIFICATION, limits=DEFAULT_LIMITS):
    return judge_document(document, [specification], limits)["lines"][0]


def weight_of(line) -> int:
    is_hazard = any(reason["code"] in HAZARDS for reason in line["reasons"])
    return 5 if is_hazard else _WEIGHT[line["suggestion"]]


def codes(line) -> list[str]:
    return [reason["code"] for reason in line["reasons"]]


# -- published and worked examples -------------------------------------------------------------------------------------


def test_a_glazed_weight_would_have_passed_where_the_deglazed_one_fails__CV_1_57():
    sample = {"pieces": 88, "weight": grams("1760"), "weight_is": "deglazed"}
    line = line_of(delivery(carton(3, sample=sample), carton(11), carton(17)))
    beyond = next(reason for reason in line["reasons"] if reason["code"] == "COUNT-BEYOND")
    assert round(beyond["measured"], 2) == 22.68
    assert line["allowance"]["basis"] == "grade"


@published("CV-4-09", source="worked by hand", known="computed")
def test_claim_for_short_weight_is_cartons_times_mean_shortage__CV_4_09():
    # 40 cartons, 10.00 kg declared, 9.62 kg found: 15.2 kg; the price is the order's.
    weights = {"deglazed": grams("9620")}
    cartons = [carton(i + 1, weights=weights, sample=None) for i in range(6)]
    cartons[0]["sample"] = {"pieces": 78, "weight": grams("2010"), "weight_is": "deglazed"}
    document = delivery(*cartons, cartons_on_docket=40, cartons_counted=40)
    document["lines"][0]["sampling"] = {"plan": "codex_1", "n": 6, "acceptance": 1}
    line = line_of(document, {**SPECIFICATION, "units_per_carton": 1})
    assert line["suggestion"] == "accept_with_allowance"
    assert line["allowance"]["basis"] == "short_weight"
    assert line["allowance"]["quantity"] == pytest.approx(15.2, abs=1e-9)


def test_what_three_of_twenty_leave_possible__CV_2():
    shown = line_of(delivery())["sampling"]
    assert shown["upper_bad"] == 11
    assert round(shown["miss_chance"], 2) == 0.49


def test_the_interval_of_three_of_twenty_is_wilsons():
    from statsmodels.stats.proportion import proportion_confint

    line = line_of(delivery(carton(3, looked_at=20, pieces={"black_spot": 3}), carton(11), carton(17)))
    derived = line["cartons"][0]["derived"]
    low, high = proportion_confint(3, 20, method="wilson")
    assert derived["black_share_low"] == pytest.approx(low, abs=1e-8)
    assert derived["black_share_high"] == pytest.approx(high, abs=1e-8)


# -- end points --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("entered", "code"),
    [
        ("-18.0", None),
        ("-17.9", "TEMP-TOLERANCE"),
        ("-15.0", "TEMP-TOLERANCE"),
        ("-14.9", "TEMP-OUTSIDE"),
        ("-12.0", "TEMP-OUTSIDE"),
        ("-11.9", "TEMP-REJECT"),
    ],
)
def test_the_three_way_reading_of_the_probe__CV_5_34(entered, code):
    line = line_of(delivery(carton(3, temperature=probed(entered)), carton(11), carton(17)))
    cold = [found for found in codes(line) if found.startswith("TEMP") and found != "TEMP-NEAR"]
    assert cold == ([] if code is None else [code])


def test_zero_fahrenheit_is_inside_the_tolerance_not_past_it():
    line = line_of(delivery(carton(3, temperature=probed("0", unit="F")), carton(11), carton(17)))
    assert codes(line) == ["TEMP-TOLERANCE"]
    assert line["suggestion"] == "accept"


def test_a_reading_straddling_a_limit_says_so__CV_5_35():
    line = line_of(delivery(carton(3, temperature=probed("-14.6")), carton(11), carton(17)))
    assert "TEMP-NEAR" in codes(line)


# -- tallies and consequences ------------------------------------------------------------------------------------------


@published("CV-11-18", source="CXS 233 §2.1", known="read")
def test_a_hazard_holds_the_line_whatever_the_plan_accepts__CV_1_39():
    document = delivery(carton(3, foreign_matter="hazard"), carton(11), carton(17))
    document["lines"][0]["sampling"]["acceptance"] = 3
    line = line_of(document)
    assert line["suggestion"] == "hold"
    assert line["suggested_split"] == {"accepted": 0, "refused": 0, "held": 20}


def test_defective_cartons_within_the_plan_are_set_aside():
    document = delivery(
        *[carton(i + 1, **({"foreign_matter": "harmless"} if i == 0 else {})) for i in range(13)],
        cartons_on_docket=40,
        cartons_counted=40,
    )
    document["lines"][0]["sampling"] = {"plan": "codex_2", "n": 13, "acceptance": 2}
    line = line_of(document)
    assert line["suggestion"] == "accept_with_allowance"
    assert line["suggested_split"] == {"accepted": 39, "refused": 1, "held": 0}


def test_an_acceptance_number_larger_than_the_plan_gives_is_not_believed():
    document = delivery(carton(3, foreign_matter="harmless"), carton(11, foreign_matter="harmless"), carton(17))
    document["lines"][0]["sampling"] = {"plan": "house", "n": 1, "acceptance": 9}
    assert line_of(document)["suggestion"] == "reject"


def test_what_was_not_checked_is_listed_and_never_passes__CV_0_06():
    empty = {"id": "c", "position": 3}
    line = line_of(delivery(empty, carton(11), carton(17)))
    assert line["suggestion"] == "not_yet"
    assert {"liner", "black_spot", "product_readings"} <= set(line["needed"])
    assert set(line["cartons"][0]["checks"].values()) == {"not_checked"}


def test_a_found_fault_counts_even_when_other_checks_are_missing():
    line = line_of(delivery(*[{"id": "c", "position": k, "temperature": probed("-5")} for k in (3, 11, 17)]))
    assert line["suggestion"] == "reject"
    assert line["needed"] == []
    assert "black_spot" in line["unasked"]


@published("CV-0-03", "CV-6-54", source="common practice, rule of the house", known="common practice")
def test_the_photo_advisory_is_no_input():
    document = delivery()
    document["photos"] = [{"id": "p", "advisory": {"answer": "darkening_seen", "share": 1.0}}]
    assert line_of(document) == line_of(delivery())


def test_a_specification_may_be_stricter_than_the_group():
    strict = {**SPECIFICATION, "overrides": {"black_spot_share": 0.0}}
    assert line_of(delivery())["suggestion"] == "accept"
    assert line_of(delivery(), strict)["suggestion"] == "reject"
    assert line_of(delivery(), strict)["reasons"][0]["whose"] == "ordered"


def test_a_specification_with_an_unknown_limit_is_said_and_the_groups_limits_stand():
    odd = {**SPECIFICATION, "overrides": {"black_spot": 1}}
    judgement = judge_document(delivery(), [odd], DEFAULT_LIMITS)
    assert [entry["code"] for entry in judgement["unusable"]] == ["SPEC-01"]
    assert judgement["lines"][0]["suggestion"] == "accept"


@published("CV-12-42", source="common practice, no source", known="common practice")
def test_a_decision_that_does_not_add_up_is_not_worded__CV_12_42():
    document = delivery(decision={"kind": "accept", "accepted": 19, "refused": 0, "held": 0})
    judgement = judge_document(document, [SPECIFICATION], DEFAULT_LIMITS)
    assert [entry["code"] for entry in judgement["unusable"]] == ["FACT-06"]
    assert "20 cartons accepted" in judgement["wording"]


# -- order and words ---------------------------------------------------------------------------------------------------


def test_reasons_stand_in_the_order_of_weight():
    for case in cases(300, 11):
        try:
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
        except Unusable:
            continue
        for line in judgement["lines"]:
            places = [(SEVERITIES.index(one["severity"]), ORDER.index(one["code"])) for one in line["reasons"]]
            assert places == sorted(places)


def test_every_code_has_its_sentence_and_its_place():
    assert set(WORDS["reasons"]) == set(ORDER)
    assert len(ORDER) == len(set(ORDER))


@published("CV-12-47", source="common practice, no source", known="common practice")
def test_no_sentence_speaks_of_intent_or_blame__CV_12_47():
    banned = ("fraud", "cheat", "deliberate", "fault of", "lied", "dishonest", "intent", "invalid", "blame")
    sentences = itertools.chain(WORDS["reasons"].values(), WORDS["docket"].values(), WORDS["unusable"].values())
    assert [text for text in sentences if any(word in text.lower() for word in banned)] == []


def test_no_place_in_a_sentence_stays_open_and_every_reason_explains_itself():
    seen = set()
    for case in cases(600, 3):
        try:
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
        except Unusable:
            continue
        assert "{" not in judgement["wording"]
        for reason in (one for line in judgement["lines"] for one in line["reasons"]):
            seen.add(reason["code"])
            assert "{" not in reason["text"]
            why = explain(reason)
            assert all(text for name, text in why.items() if name != "values")
            assert not any("{" in str(text) for name, text in why.items() if name != "values")
    assert len(seen) > 50


def test_docket_words_carry_exact_quantities():
    wording = judge_document(delivery(cartons_counted=18), [SPECIFICATION], DEFAULT_LIMITS)["wording"]
    assert wording == (
        "Docket DN-5530.\nWhiteleg, headless shell-on 16/20, lot L1: 18 cartons accepted. "
        "2 cartons short of 20 cartons. Allowance: 2 cartons short."
    )


# -- properties --------------------------------------------------------------------------------------------------------

PIECES = ("black_spot", "black_spot_wide", "black_spot_meat", "dehydrated", "broken", "soft", "heads", "legs", "tails")


@given(kind=st.sampled_from(PIECES), few=st.integers(0, 40), more=st.integers(0, 40))
def test_more_affected_prawns_never_improve_a_verdict(kind, few, more):
    few, more = sorted((few, more))

    def judged(number):
        pieces = {"black_spot": 1, kind: number}
        return line_of(delivery(carton(3, pieces=pieces), carton(11), carton(17)))

    assert weight_of(judged(few)) <= weight_of(judged(more))


@given(one=st.integers(-400, 100), other=st.integers(-400, 100), refrozen=st.booleans())
def test_colder_never_worsens_a_verdict(one, other, refrozen):
    colder, warmer = sorted((one, other))

    def judged(tenths):
        changes = {"refreezing": ["ice_pool"]} if refrozen else {}
        sign = "-" if tenths < 0 else ""
        entered = f"{sign}{abs(tenths) // 10}.{abs(tenths) % 10}"
        return line_of(delivery(carton(3, temperature=probed(entered), **changes), carton(11), carton(17)))

    assert weight_of(judged(colder)) <= weight_of(judged(warmer))


@given(st.integers(0, 3), st.integers(0, 3))
def test_more_defective_cartons_never_improve_a_verdict(one, other):
    few, more = sorted((one, other))

    def judged(number):
        hair = {"foreign_matter": "harmless"}
        return line_of(delivery(*[carton(i + 3, **(hair if i < number else {})) for i in range(3)]))

    assert weight_of(judged(few)) <= weight_of(judged(more))


@given(st.integers(0, 2000), st.integers(0, 2000))
def test_more_net_weight_never_worsens_a_verdict(one, other):
    lighter, heavier = sorted((one, other))

    def judged(extra):
        weights = {"deglazed": grams(str(1000 + extra))}
        return line_of(delivery(*[carton(i + 3, weights=weights) for i in range(3)]))

    assert weight_of(judged(heavier)) <= weight_of(judged(lighter))


_PLAIN = st.none() | st.booleans() | st.integers(-(10**6), 10**6) | st.floats(width=32) | st.text(max_size=6)
JSON = st.recursive(
    _PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@given(document=JSON, specifications=JSON)
def test_no_document_raises(document, specifications):
    judgement = judge_document(document, specifications, DEFAULT_LIMITS)
    assert judgement["judgement_version"] == JUDGEMENT_VERSION


@given(path=st.lists(st.integers(0, 40), min_size=1, max_size=6), value=JSON)
def test_no_single_odd_entry_raises_and_it_is_judged_or_listed(path, value):
    document = delivery()
    place = document
    for step in path[:-1]:
        keys = list(place) if isinstance(place, dict) else range(len(place))
        if not keys:
            break
        inner = place[list(keys)[step % len(keys)]]
        if not isinstance(inner, (dict, list)) or not inner:
            break
        place = inner
    keys = list(place) if isinstance(place, dict) else list(range(len(place)))
    place[keys[path[-1] % len(keys)]] = copy.deepcopy(value)
    judgement = judge_document(document, [SPECIFICATION], DEFAULT_LIMITS)
    assert isinstance(judgement["wording"], str)


@given(JSON)
def test_unreadable_limits_raise_only_the_documented_error(limits):
    with pytest.raises(Unusable) as raised:
        judge_document(delivery(), [SPECIFICATION], limits)
    assert raised.value.code.startswith("LIMITS-")
