"""The draw is repeated from its seed when a delivery is signed, and cartons chosen by hand are told."""
import json
import re

import pytest
from django.test import Client

from inspections.evidence.draws import draw_repeated, hand_words
from inspections.evidence.models import Seal
from inspections.trade.drawing import draw_positions
from tests.inspections.receiving import Phone, decide, document

DRAWN = draw_positions(20, 3, "tide")


def line(*opened, **changes):
    """A line of 20 cartons with three drawn, those at ``opened`` opened."""
    sampling = {"plan": "house", "layers": 1, "seed": "tide", "n": 3, "acceptance": 0, "positions": list(opened)}
    return {"cartons_on_docket": 20, "cartons_counted": 20, "sampling": sampling,
            "cartons": [{"position": each} for each in opened], **changes}


def other(position: int = 0) -> int:
    """A position that was not drawn."""
    return [place for place in range(1, 21) if place not in DRAWN][position]


def test_cartons_that_were_drawn_are_nobodys_choice():
    assert draw_repeated(line(*DRAWN)) == {"drawn": DRAWN, "by_hand": []}
    assert draw_repeated(line(*DRAWN[:2]))["by_hand"] == []
    assert hand_words(draw_repeated(line(*DRAWN))) == ""


def test_made_up_positions_do_not_pass_for_drawn():
    draw = draw_repeated(line(DRAWN[0], other(), other(1)))
    assert draw == {"drawn": DRAWN, "by_hand": [other(), other(1)]}
    assert hand_words(draw) == f" Cartons {other()}, {other(1)} were chosen by hand, not by the draw."
    assert hand_words({"by_hand": [4]}) == " Carton 4 was chosen by hand, not by the draw."


def test_a_draw_made_before_the_cartons_were_counted_holds():
    assert draw_repeated(line(*DRAWN, cartons_counted=19))["by_hand"] == []


@pytest.mark.parametrize(
    "sampling", [None, {}, {"seed": "tide"}, {"seed": "tide", "n": 21}, {"seed": "tide", "n": "3"}]
)
def test_what_makes_no_draw_is_not_told_as_a_choice(sampling):
    assert draw_repeated(line(*DRAWN, sampling=sampling)) is None


def test_the_sealed_record_and_the_page_say_which_were_chosen_by_hand(kitchen, phone):
    draft = document(kitchen)
    for carton, position in zip(draft["lines"][0]["cartons"], [*DRAWN[:2], other()], strict=True):
        carton["position"] = position
    final = decide(draft)
    assert phone.sign(final).status_code == 200
    seal = Seal.objects.get(subject_id=final["id"])
    record = json.loads(bytes(seal.content))
    assert record["draws"] == [{"drawn": DRAWN, "by_hand": [other()]}]
    made = Phone(kitchen.manager).client.post(
        f"/api/deliveries/{final['id']}/evidence-links", "{}", content_type="application/json"
    )
    told = Client().get(re.sub(r"^https?://[^/]+", "", made.json()["url"])).content.decode()
    assert f"Carton {other()} was chosen by hand, not by the draw." in told
