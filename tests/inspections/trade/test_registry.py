"""The rows of the registry fit together: limits, sentences, words, and the place of each finding."""

import pytest

from inspections.trade.condition import judge_condition
from inspections.trade.facts import facts_from_document
from inspections.trade.limits import DEFAULT_LIMITS, HAZARDS, limits_from_json
from inspections.trade.registry import BY_NAME, CHECKS, OUTCOMES
from inspections.trade.severity_ranking import FINDINGS, ORDER
from inspections.trade.specification import specifications_from_json
from inspections.trade.wording import WORDS, answer_word
from tests.inspections.trade.deliveries import SPECIFICATION, carton, delivery

LIMITS = {limit["code"]: limit for limit in DEFAULT_LIMITS["limits"]}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_a_row_names_limits_sentences_and_words_that_exist(check):
    for outcome in check.all_outcomes:
        assert outcome.limit in LIMITS
        assert outcome.limit in WORDS["limit"]
        assert outcome.code in WORDS["reasons"]
        assert ORDER.index(outcome.code) > (ORDER.index(outcome.after) if outcome.after else -1)
    assert check.judged_by or check.answers in WORDS["not_checked"]
    # Signs that share a sentence are named in it.
    signs = {sign for sign, own in check.choices.items() if own is None}
    assert check.type != "flags" or signs <= set(WORDS["signs"])
    for choice in (*check.choices, *filter(None, (check.none,))):
        assert answer_word(check.name, choice)
    # A limit with a number belongs to something measured, one without to something seen.
    has_bound = {LIMITS[outcome.limit]["bound"] is not None for outcome in check.all_outcomes}
    is_measured = check.type in ("pieces", "score", "reading", "part") and not check.comparison
    assert has_bound <= {is_measured}


def test_every_finding_has_one_place_and_falls_somewhere():
    assert len(set(ORDER)) == len(ORDER)
    assert set(ORDER) == set(WORDS["reasons"])
    assert {FINDINGS[code]["acts_on"] for code in OUTCOMES} == {"pieces", "carton", "line", "delivery"}


def test_a_hazard_is_held_whatever_a_group_says():
    """CXS 233-1969 §2.1 (read): a sampling plan is not for what may hurt."""
    assert {"foreign.hazard", "odour.chemical"} == HAZARDS


def test_what_an_outcome_is_for_and_needs_exists():
    """A misspelt attribute, sign or check would pass an outcome over in silence."""
    ordered = specifications_from_json([SPECIFICATION])[0][SPECIFICATION["id"]]
    for check in CHECKS:
        waited = check.every_carton if isinstance(check.every_carton, dict) else {}
        for goods in (check.asked_for, waited, *(outcome.goods for outcome in check.all_outcomes)):
            assert all(hasattr(ordered, attribute) for attribute in goods)
        for outcome in check.all_outcomes:
            assert set(outcome.any_of) <= set(check.choices)
            for name, values in outcome.beside.items():
                assert BY_NAME[name].on == check.on
                assert set(values) <= set(BY_NAME[name].choices)


@pytest.mark.parametrize(
    ("ordered", "seen", "expected"),
    [
        ({"pack": "sealed_bags"}, {"liner": "missing"}, []),
        ({"pack": "lined_carton"}, {"liner": "missing"}, ["LINER-MISSING"]),
        ({}, {"refreezing": ["clumped"]}, ["CLUMPED"]),
        ({}, {"refreezing": ["clumped"], "frost": "heavy"}, ["FROST-HEAVY", "THAW-SIGNS"]),
        ({}, {"refreezing": ["clumped", "ice_pool"], "frost": "heavy"}, ["FROST-HEAVY", "REFREEZING"]),
        ({"grade": "soft and broken"}, {"pieces": {"broken": 40}}, []),
        ({"presentation": "HOSO"}, {"pieces": {"heads": 40}}, ["HEADS-WHOLE"]),
        ({"presentation": "HLSO"}, {"pieces": {"heads": 40}}, ["HEADS"]),
        ({"presentation": "HOSO"}, {"pieces": {"head_black": 5, "black_spot": 6}}, ["HEAD-BLACK"]),
        ({"presentation": "HOSO"}, {"pieces": {"head_black": 4, "black_spot": 6}}, ["BLACK-HOUSE"]),
        ({"pack": "sealed_bags"}, {"refreezing": ["clumped"], "pieces": {"clumps": 2}}, ["CLUMPS"]),
        ({"presentation": "PD"}, {"pieces": {"vein": 11}}, ["VEIN-MOST"]),
        ({"presentation": "PD"}, {"pieces": {"vein": 10}}, ["VEIN"]),
        ({"state": "cooked"}, {"pieces": {"under_cooked": 1}}, ["UNDER-COOKED"]),
    ],
)
def test_an_outcome_that_does_not_apply_is_passed_over(ordered, seen, expected):
    """Common practice, no source."""
    one = carton(3, **{"liner": "closed", "refreezing": [], "frost": "none", "pieces": {}, "looked_at": 40, **seen})
    facts = facts_from_document(delivery(one)).lines[0].cartons[0]
    by_id, _ = specifications_from_json([SPECIFICATION | ordered])
    found = judge_condition(facts, by_id[SPECIFICATION["id"]], limits_from_json(DEFAULT_LIMITS)).findings
    assert [finding.code for finding in found] == expected


#: What each presentation, state and pack is asked about, beside what all are. Common practice, no source.
ASKED = {
    "head_black": [("HOSO", "raw", "lined_carton")],
    "head_colour": [("HOSO", "cooked", "lined_carton")],
    "vein": [("EZP", "raw", "lined_carton"), ("PD", "raw", "sealed_bags"), ("PD", "cooked", "sealed_bags")],
    "shell_left": [(kind, state, "sealed_bags") for kind in ("PUD", "PD") for state in ("raw", "cooked")],
    "throats": [(kind, state, "sealed_bags") for kind in ("PUD", "PD") for state in ("raw", "cooked")],
    "under_cooked": [("HOSO", "cooked", "lined_carton"), *((kind, "cooked", "sealed_bags") for kind in ("PUD", "PD"))],
    "over_cooked": [("HOSO", "cooked", "lined_carton"), *((kind, "cooked", "sealed_bags") for kind in ("PUD", "PD"))],
    "shell_slip": [("HOSO", "cooked", "lined_carton")],
    "clumps": [(kind, state, "sealed_bags") for kind in ("PUD", "PD") for state in ("raw", "cooked")],
}
GOODS = [
    ("HOSO", "raw", "lined_carton"), ("HOSO", "cooked", "lined_carton"), ("HLSO", "raw", "lined_carton"),
    ("EZP", "raw", "lined_carton"), ("PUD", "raw", "sealed_bags"), ("PUD", "cooked", "sealed_bags"),
    ("PD", "raw", "sealed_bags"), ("PD", "cooked", "sealed_bags"),
]  # fmt: skip


@pytest.mark.parametrize("name", ASKED)
def test_a_check_is_asked_only_for_goods_where_it_makes_sense(name):
    asked = []
    for presentation, state, pack in GOODS:
        goods = {"presentation": presentation, "state": state, "pack": pack}
        by_id, _ = specifications_from_json([SPECIFICATION | goods])
        if BY_NAME[name].is_asked_for(by_id[SPECIFICATION["id"]]):
            asked.append((presentation, state, pack))
    assert sorted(asked) == sorted(ASKED[name])
