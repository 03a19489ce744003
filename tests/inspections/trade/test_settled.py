"""What settles a carton or a line ends its questions: stop here, photograph, decide (common practice, no source)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.verdict import judge_document

from .deliveries import SPECIFICATION, carton, delivery, grams, label, probed
from .test_verdict import line_of, weight_of

WARM = {"temperature": probed("5.0")}
PAST = {"label": label(best_before="2020-06-30")}
GLASS = {"foreign_matter": "hazard"}
TAKEN = {"odour_taken": "thawed"}


def only(position: int, **seen):
    """A carton of which nothing is known but this."""
    return {"id": f"c{position}", "position": position, **seen}


@pytest.mark.parametrize("found", [WARM, PAST], ids=["warm", "past"])
def test_a_line_that_is_refused_whatever_else_it_shows_asks_nothing_more(found):
    line = line_of(delivery(*[only(position, **found) for position in (3, 11, 17)]))
    assert (line["suggestion"], line["needed"]) == ("reject", [])
    assert {"count", "odour"} <= set(line["unasked"])
    assert line["settled"].startswith("Settled: nothing")
    # What was not asked is not the receiver's omission; the record goes on saying what was not looked at.
    assert line["not_checked"] == []
    assert {"count", "black_spot"} <= set(line["unasked"])


def test_a_hazard_settles_the_line_at_the_first_carton():
    line = line_of(delivery(only(3, **GLASS)))
    assert (line["suggestion"], line["needed"], line["next"]) == ("hold", [], None)
    assert line["settled"].startswith("Settled: something that can hurt")
    assert "photograph" in line["cartons"][0]["settled"]


@pytest.mark.parametrize("found", [WARM, PAST], ids=["warm", "past"])
def test_one_carton_that_is_refused_asks_nothing_more_of_itself_and_the_line_goes_on(found):
    line = line_of(delivery(only(3, **found)))
    assert line["settled"] == ""
    assert "refused whatever else" in line["cartons"][0]["settled"]
    assert not {"count", "odour", "black_spot", "liner", "label", "marks"} & set(line["needed"])
    assert "cartons_opened" in line["needed"]


def test_the_other_cartons_are_asked_about_as_before():
    line = line_of(delivery(only(3, **WARM), only(11, temperature=probed("-19.5")), carton(17)))
    assert {"black_spot", "liner"} <= set(line["needed"])
    assert [one["settled"] == "" for one in line["cartons"]] == [False, True, True]


def test_goods_of_another_species_need_no_look_when_the_load_was_sorted():
    other = only(3, label=label(species_code="GIT"), temperature=probed("-19.5"))
    line = line_of(delivery(other, carton(11), carton(17), sorted={"read": 20, "differ": 7}))
    assert (line["suggestion"], line["needed"]) == ("accept_with_allowance", [])
    assert line["suggested_split"] == {"accepted": 13, "refused": 7, "held": 0}


def test_a_sound_line_is_not_settled():
    line = line_of(delivery())
    assert line["settled"] == ""
    assert [one["settled"] for one in line["cartons"]] == [""] * 3


ANSWERS = st.fixed_dictionaries({}, optional={
    "liner": st.sampled_from(["closed", "torn"]),
    "frost": st.sampled_from(["none", "heavy"]),
    "foreign_matter": st.sampled_from(["none", "harmless", "hazard"]),
    "odour": st.sampled_from(["fresh", "off"]),
    "sample": st.just({"pieces": 90, "weight": grams("2010"), "weight_is": "deglazed"}),
    "marks": st.sampled_from(["agree", "disagree"]),
})  # fmt: skip


@given(found=st.sampled_from([WARM, PAST, GLASS]), more=st.lists(ANSWERS, min_size=3, max_size=3))
def test_what_is_looked_at_afterwards_never_unsettles_a_line(found, more):
    """Monotone, restated: after the line is settled an answer may add a hazard, and nothing else changes it."""
    places = (3, 11, 17)
    before = line_of(delivery(*[only(place, **found) for place in places]))
    after = line_of(delivery(*[only(place, **{**seen, **found}) for place, seen in zip(places, more, strict=True)]))
    assert before["settled"]
    assert after["settled"]
    assert weight_of(after) >= weight_of(before)
    if after["settled"] == before["settled"]:
        assert after["suggestion"] == before["suggestion"]
        assert after["suggested_split"] == before["suggested_split"]


def test_what_was_not_asked_is_not_listed_as_left():
    # Net weight, glaze, uniformity and the black-spot score are offered; smell, count, marks and label once a line.
    bare = {"weights": {}, "black_spot_score": None, "odour_taken": "thawed"}
    rest = {**bare, "odour": None, "sample": None, "marks": None, "label": None}
    shelled = {kind: 0 for kind in carton(3)["pieces"] if kind != "black_spot_meat"}
    line = line_of(delivery(carton(3, **bare), carton(11, **rest, pieces=shelled), carton(17, **rest)))
    assert line["suggestion"] == "accept"
    assert line["not_checked"] == []


def test_what_was_asked_and_not_done_is_listed():
    # Legs are asked in every carton; of a carton that is refused nothing more is asked.
    legless = {kind: 0 for kind in carton(3)["pieces"] if kind != "legs"}
    first, second = carton(3, pieces=legless, frost=None, **TAKEN), carton(11, **TAKEN)
    line = line_of(delivery(first, second, only(17, **WARM)))
    assert line["not_checked"] == ["frost", "legs"]
    line = line_of(delivery(carton(3, pieces=legless, **TAKEN), second, carton(17, **TAKEN)))
    assert line["not_checked"] == ["legs"]


def test_black_on_the_meat_is_asked_where_the_meat_is_seen():
    sealed = {kind: 0 for kind in carton(3)["pieces"] if kind != "black_spot_meat"}
    peeled = {**SPECIFICATION, "presentation": "PD", "grade": "16/20"}
    document = delivery(*[carton(k, pieces=sealed, label=label(presentation="PD")) for k in (3, 11, 17)])
    line = judge_document(document, [peeled], DEFAULT_LIMITS)["lines"][0]
    assert "black_spot_meat" in line["not_checked"]
