"""Docket words are written with a pen: at most 25 words a line beside goods, lot and quantities (common practice)."""

import json
import sys

import pytest

from inspections.trade.docket import MOST_WORDS
from inspections.trade.generated import cases
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.quantities import Unusable
from inspections.trade.verdict import judge_document
from tests.published import HOUSE

from .judged import GIVEN, OWN
from .judged_fourth import FOURTH
from .judged_later import LATER
from .judged_third import THIRD

VECTORS = HOUSE / "fixtures" / "vectors"


def told(wording: str) -> list[str]:
    """The words of a line behind goods, lot and quantities."""
    return wording.partition(": ")[2].partition(". ")[2].split()


def wordings_of_vectors() -> list[str]:
    read = {
        name: json.loads((VECTORS / f"{name}.json").read_text("utf-8"))["cases"] for name in ("judgement", "judged")
    }
    whole = [line["wording"] for case in read["judgement"] for line in case["out"].get("lines", [])]
    return [*whole, *(case["out"]["wording"] for case in read["judged"])]


def wordings_of_made_up_ones(number: int) -> list[str]:
    made = []
    for case in cases(number, 29):
        try:
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
        except Unusable:
            continue
        made += [line["wording"] for line in judgement["lines"]]
    return made


@pytest.fixture(scope="module")
def wordings() -> list[str]:
    rows = [*GIVEN, *OWN, *LATER, *THIRD, *FOURTH]
    judged = [judge_document(row.document, [row.specification], DEFAULT_LIMITS)["lines"][0]["wording"] for row in rows]
    return sorted({*wordings_of_vectors(), *judged, *wordings_of_made_up_ones(400)}, key=lambda one: -len(told(one)))


def test_no_line_takes_more_words_than_a_driver_waits_for(wordings):
    assert MOST_WORDS == 25
    assert len(wordings) > 500
    for wording in wordings[:4]:
        words = len(told(wording))
        sys.stdout.write(f"\n{words} words beside {len(wording.split()) - words} of goods: {wording}")
    assert [wording for wording in wordings if len(told(wording)) > MOST_WORDS] == []


def test_no_line_tells_the_staff_what_to_do(wordings):
    orders = ("Probe", "Keep ", "Hold ", "tell the", "Rewrap", "Weigh", "Examine", "Look at", "Note it", "{")
    assert [wording for wording in wordings if any(order in wording for order in orders)] == []


def test_goods_lot_and_quantities_stay_short_as_well(wordings):
    """Three quantities, a name of six words and three lots fit in as many words again."""
    named = [wording for wording in wordings if wording.startswith("Whiteleg, headless shell-on 16/20")]
    assert max(len(wording.split()) - len(told(wording)) for wording in named) <= MOST_WORDS
