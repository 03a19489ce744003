"""Answers without a truth value, limits with their end points, tables with their source."""

import pytest

from inspections.trade.answer import Beyond, CannotTell, NotChecked, Within, against_limit, is_fine
from inspections.trade.basis import KNOWN, Basis, load_table


@pytest.mark.parametrize(
    "answer", [NotChecked("x"), Within(1.0, "g"), Beyond(2.0, "g", 1.0, "at_most"), CannotTell(("X",))]
)
def test_an_answer_is_neither_true_nor_false(answer):
    with pytest.raises(TypeError):
        bool(answer)


@pytest.mark.parametrize(("sense", "fine"), [("at_most", True), ("below", False), ("at_least", True), ("above", False)])
def test_the_end_point_is_in_for_at_most_and_at_least__CV_0_02(sense, fine):
    assert is_fine(25.0, 25.0, sense) is fine


@pytest.mark.parametrize(("value", "kind"), [(0.25, "within"), (0.2501, "beyond")])
def test_the_unrounded_value_is_compared__CV_0_01(value, kind):
    assert against_limit(value, "share", 0.25, "at_most").kind == kind


def test_another_sense_is_refused():
    with pytest.raises(ValueError):
        is_fine(1.0, 1.0, "about")


def _bases(node):
    if isinstance(node, dict):
        if set(node) == {"source", "known", "cv", "words"}:
            yield node
        else:
            for value in node.values():
                yield from _bases(value)
    elif isinstance(node, list):
        for value in node:
            yield from _bases(value)


@pytest.mark.parametrize("name", ["grades", "plans", "tolerances", "procedures"])
def test_every_table_says_where_it_is_from_and_how_surely(name):
    bases = list(_bases(load_table(name)))
    assert bases
    for entry in bases:
        basis = Basis(**entry)
        assert basis.known in KNOWN
        assert basis.source
        assert basis.words
        assert basis.cv.startswith("CV-")


def test_every_procedure_is_steps_with_whole_seconds_for_the_timer():
    procedures = load_table("procedures")
    assert {"deglaze_single", "deglaze_block", "count", "probe_between_packs", "probe_core", "ice_point"} <= set(
        procedures
    )
    for procedure in procedures.values():
        codes = [step["code"] for step in procedure["steps"]]
        assert len(set(codes)) == len(codes)
        assert all(step["seconds"] is None or step["seconds"] > 0 for step in procedure["steps"])
    drains = [
        step["seconds"]
        for key in ("deglaze_single", "deglaze_block")
        for step in procedures[key]["steps"]
        if step["code"] == "drain"
    ]
    assert drains == [120, 120]  # CV-1-25, CV-4-24: two minutes
