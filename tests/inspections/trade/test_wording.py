"""Shown numbers and sentences: one rounding, everything named."""

import re
from contextlib import suppress
from decimal import ROUND_HALF_UP, Decimal

from hypothesis import given
from hypothesis import strategies as st

from inspections.trade import carton_facts, limits
from inspections.trade.basis import load_table
from inspections.trade.carton import judge_carton
from inspections.trade.facts import facts_from_document
from inspections.trade.generated import cases
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.quantities import Unusable
from inspections.trade.registry import choices_of
from inspections.trade.specification import specifications_from_json
from inspections.trade.verdict import judge_document
from inspections.trade.wording import WORDS, filled, listed, shown

from .deliveries import SPECIFICATION, carton, delivery


@given(st.floats(-1e9, 1e9, allow_nan=False), st.integers(0, 4))
def test_shown_is_half_away_from_zero_on_the_shortest_text(value, decimals):
    step = Decimal(1).scaleb(-decimals)
    expected = Decimal(repr(value)).quantize(step, rounding=ROUND_HALF_UP)
    assert Decimal(shown(value, decimals)) == expected
    assert not shown(value, decimals).startswith("-0.0") or Decimal(shown(value, decimals)) != 0


@given(st.lists(st.text(max_size=5), max_size=5))
def test_a_list_names_everything_in_it(words):
    assert all(word in listed(words) for word in words)


@given(st.dictionaries(st.sampled_from(["a", "b"]), st.text(max_size=6)))
def test_a_value_is_never_read_as_a_place(places):
    assert filled("{a}", places) == places.get("a", "{a}")


def test_every_check_and_particular_has_its_words():
    document = facts_from_document(delivery(carton(3)))
    by_id, unusable = specifications_from_json([SPECIFICATION])
    assert unusable == []
    read_limits = limits_from_json(DEFAULT_LIMITS)
    one = judge_carton(document.lines[0].cartons[0], by_id["s1"], "L1", document.arrived_day, read_limits)
    assert set(one.judged.checks) <= set(WORDS["not_checked"])
    assert set(carton_facts.PARTICULARS) == set(WORDS["particulars"])
    for name in ("presentation", "state", "method"):
        assert set(choices_of(name)) == set(WORDS[name])
    assert set(limits.SEVERITIES) == set(WORDS["severity"])


def test_every_error_says_what_happened_what_is_safe_and_what_to_do():
    for code, sentence in WORDS["unusable"].items():
        assert len([part for part in sentence.replace("?", ".").split(". ") if part]) >= 3, code


def test_limits_and_words_are_kept_as_data_that_both_languages_read():
    assert load_table("limits") == DEFAULT_LIMITS
    assert load_table("wording_en") == WORDS


def test_no_word_stands_twice_in_the_words_for_a_docket():
    words = []
    for case in cases(400, 3):
        with suppress(Unusable):  # some are made to be refused
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
            reasons = [reason for line in judgement["lines"] for reason in line["reasons"]]
            words += [judgement["wording"], *(reason["text"] for reason in reasons)]
    assert any("percentage points" in text for text in words)
    assert [twice.group() for text in words if (twice := re.search(r"\b([a-z]{3,}) \1\b", text))] == []
