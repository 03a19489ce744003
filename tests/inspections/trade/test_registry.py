"""The rows of the registry fit together: limits, sentences, words, and the place of each finding."""

import pytest

from inspections.trade.limits import DEFAULT_LIMITS, HAZARDS
from inspections.trade.registry import CHECKS, OUTCOMES
from inspections.trade.weighing import FINDINGS, ORDER
from inspections.trade.wording import WORDS, answer_word

LIMITS = {limit["code"]: limit for limit in DEFAULT_LIMITS["limits"]}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_a_row_names_limits_sentences_and_words_that_exist(check):
    for outcome in check.all_outcomes:
        assert outcome.limit in LIMITS
        assert outcome.limit in WORDS["limit"]
        assert outcome.code in WORDS["reasons"]
        assert ORDER.index(outcome.code) > (ORDER.index(outcome.after) if outcome.after else -1)
    assert check.judged_by or check.answers in WORDS["not_checked"]
    assert check.type != "flags" or set(check.choices) <= set(WORDS["signs"])
    for choice in check.choices:
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
