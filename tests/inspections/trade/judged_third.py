"""Thirty-two more deliveries, written down with what a fair receiver would do before the judgement was run on them.

Common practice, no source. As in ``judged``: twenty cartons of headless shell-on 16/20, three opened by the house plan,
all else in order, unless a row says otherwise. What is new here: presentation with state, ready-to-eat, inner bags,
soft and broken as ordered, sorted loads, the outcomes of the second stage, dockets of two lines, decisions that depart.
At the first run 31 of the 32 suggestions agreed, all first reasons, and all splits but that of the same row: a single
carton past a published limit was taken at a price, because its 40 prawns leave room for chance.
"""

from __future__ import annotations

from typing import Any

from .deliveries import carton, delivery, label
from .judged_later import looked
from .judged_rows import (
    ACCEPT,
    ALLOWANCE,
    BAG_PD,
    BROKEN,
    HOLD,
    MANY,
    NOT_YET,
    PD,
    REJECT,
    SALVAGE,
    SPOTS,
    WIDE,
    all_of,
    cold,
    lot,
    one_of,
    pieces,
    row,
)

EASY_PEEL = {"presentation": "EZP", "name": "Whiteleg, easy-peel 16/20"}
EZP = {"label": label(presentation="EZP")}
BUTTERFLY = {**BAG_PD, "presentation": "BTTY", "name": "Whiteleg, butterfly tail-on 31/40"}
BTTY = {**PD, "label": label(presentation="BTTY", grade="31/40")}
READY = {"state": "cooked", "name": "Whiteleg, cooked headless shell-on 16/20"}
RTE = {"label": label(state="cooked")}
READY_PEELED = {**BAG_PD, "state": "cooked", "name": "Whiteleg, cooked and peeled 31/40"}
RTE_PD = {**PD, "label": label(presentation="PD", state="cooked", grade="31/40")}
OFF = {"odour": "off", "odour_taken": "thawed"}
SMALLER = {"label": label(grade="21/25")}
OTHER_LOT = {"label": label(lot="L9")}


def sorted_line(cartons: list[dict[str, Any]], read: int, differ: int, **line: Any) -> dict[str, Any]:
    """A delivery whose labels were read, so many of them differing."""
    return delivery(*cartons, sorted={"read": read, "differ": differ}, **line)


def declined(cartons: list[dict[str, Any]]) -> dict[str, Any]:
    """A receiver without time for the next step."""
    document = delivery(*cartons)
    document["lines"][0]["sampling"]["declined"] = "second truck waiting"
    return document


def two_faults() -> list[dict[str, Any]]:
    """Six opened: freezer burn in one of the first three, soft prawns in one of the others."""
    burnt, soft = pieces(dehydrated=20), pieces(soft=20)
    return [carton(3 + k, **(burnt if k == 0 else soft if k == 4 else {})) for k in range(6)]


THIRD = [
    row("easy-peel, all good", delivery(*all_of(EZP)), ACCEPT, "as ordered", "", (20, 0, 0), EASY_PEEL),
    row("easy-peel, small spots on 5 of 40, all", delivery(*all_of({**EZP, **SPOTS})), (ALLOWANCE, REJECT),
        "a little, in all of it: price", "BLACK-HOUSE", (20, 0, 0), EASY_PEEL),
    row("butterfly, torn apart 10 of 40, all", delivery(*all_of(looked(BTTY, broken=10))), (REJECT, ALLOWANCE),
        "paid to be laid out whole", "BROKEN", (0, 20, 0), BUTTERFLY),
    row("ready to eat, off smell in one of three", delivery(*[carton(3 + k, **RTE, **(OFF if k == 0 else {}))
                                                             for k in range(3)]),
        (HOLD, REJECT), "nobody cooks it again", "ODOUR-OFF", (0, 0, 20), READY),
    row("ready to eat, -8 at the core, all", delivery(*[{**one, **RTE} for one in cold("-8", "-8", "-8")]), REJECT,
        "thawing", "TEMP-REJECT", (0, 20, 0), READY),
    row("ready to eat ordered, raw on the label, all", delivery(*all_of({})), REJECT, "other goods", "LABEL-STATE",
        (0, 20, 0), READY),
    row("cooked and peeled in inner bags, no liner, all good", delivery(*all_of({**RTE_PD, "liner": None})), ACCEPT,
        "the bag is the barrier", "", (20, 0, 0), READY_PEELED),
    row("peeled in inner bags, one carton's bags torn, prawns fine", delivery(*[carton(3, **{**PD, "liner": "torn"}),
                                                                               carton(11, **PD), carton(17, **PD)]),
        (ACCEPT, ALLOWANCE), "use that one first", "LINER-TORN", (20, 0, 0), BAG_PD),
    row("peeled, glass in one bag", delivery(carton(3, **{**PD, "foreign_matter": "hazard"}), carton(11, **PD),
                                             carton(17, **PD)),
        HOLD, "no plan clears it", "FOREIGN-HAZARD", (0, 0, 20), BAG_PD),
    row("sorted: 1 of 20 a size smaller", sorted_line(one_of(SMALLER), 20, 1), ALLOWANCE, "that one back",
        "LABEL-GRADE", (19, 1, 0)),
    row("sorted: 5 of 20 of another lot", sorted_line(one_of(OTHER_LOT), 20, 5), (ALLOWANCE, HOLD),
        "hold the five until the papers agree", "LABEL-LOT", (15, 0, 5)),
    row("sorted: 12 of 20 read, 2 differ", sorted_line(one_of(SMALLER), 12, 2), (NOT_YET, HOLD), "read the rest",
        "LABEL-GRADE"),
    row("mixed by label, no time to sort", declined(one_of(SMALLER)), HOLD, "hold what was not looked at",
        "LABEL-GRADE", (0, 1, 19)),
    row("one bad of three, no time to open more", declined(one_of(MANY)), HOLD, "hold what was not looked at",
        "BLACK-CODEX", (0, 1, 19)),
    row("soft and broken, 30 of 40 broken, all", delivery(*all_of({**SALVAGE, **pieces(broken=30)})), ACCEPT,
        "that is the grade", "", (20, 0, 0), BROKEN),
    row("soft and broken, 30 of 40 soft, all", delivery(*all_of({**SALVAGE, **pieces(soft=30)})), ACCEPT,
        "that is the grade", "", (20, 0, 0), BROKEN),
    row("soft and broken, -8 at the core, all", delivery(*[{**one, **SALVAGE} for one in cold("-8", "-8", "-8")]),
        REJECT, "cheap is not thawed", "TEMP-REJECT", (0, 20, 0), BROKEN),
    row("soft and broken, off smell in all", delivery(*all_of({**SALVAGE, **OFF})), REJECT, "unfit at any price",
        "ODOUR-OFF", (0, 20, 0), BROKEN),
    row("soft and broken, wide black spot on 30 of 40, all",
        delivery(*all_of({**SALVAGE, **pieces(black_spot=30, black_spot_wide=30)})), (REJECT, ALLOWANCE),
        "past what even this grade takes", "BLACK-CODEX", (0, 20, 0), BROKEN),
    row("six of 20 opened, soft in one", delivery(*one_of(pieces(soft=20), 6)), ALLOWANCE, "that one back",
        "SOFT", (19, 1, 0)),
    row("six of 20 opened, burnt in one, soft in another", delivery(*two_faults()), REJECT,
        "two bad ones, whatever ails them", "DEHYDRATED", (0, 20, 0)),
    row("eight cartons, two opened, one bad", lot(8, one_of(MANY, 2)), NOT_YET, "open two more", "BLACK-CODEX"),
    row("eight cartons, four opened, one bad", lot(8, one_of(MANY, 4)), ALLOWANCE, "that one back", "BLACK-CODEX",
        (7, 1, 0)),
    row("fifty cartons, five opened, one bad", lot(50, one_of(MANY, 5)), NOT_YET, "open five more", "BLACK-CODEX"),
    row("fifty cartons, ten opened, one bad", lot(50, one_of(MANY, 10)), ALLOWANCE, "that one back", "BLACK-CODEX",
        (49, 1, 0)),
    row("a single carton, wide black spot", lot(1, all_of(WIDE, 1)), REJECT, "that was all of it", "BLACK-CODEX",
        (0, 1, 0)),
    row("a single carton, sound", lot(1, all_of({}, 1)), ACCEPT, "seen whole", "", (1, 0, 0)),
]  # fmt: skip

GLASS = {"foreign_matter": "hazard"}


def two_lines(first: list[dict[str, Any]], second: list[dict[str, Any]]) -> dict[str, Any]:
    """A docket of two lines of the same goods."""
    document = delivery(*first)
    other = {**delivery(*second)["lines"][0], "id": "l2"}
    return {**document, "lines": [*document["lines"], other]}


def unprobed(number: int) -> list[dict[str, Any]]:
    """Three cartons, only so many of them probed."""
    return [carton(3 + k, **({} if k < number else {"temperature": None})) for k in range(3)]


#: Name, document, the suggestions of both lines.
TWO = [
    ("first line thawed, second sound", two_lines(cold("-8", "-8", "-8"), all_of({})), (REJECT, ACCEPT)),
    ("glass in the second line only", two_lines(all_of({}), one_of(GLASS)), (ACCEPT, HOLD)),
    ("three probed over both lines", two_lines(unprobed(1), unprobed(2)), (ACCEPT, ACCEPT)),
]
#: Name, document, what the receiver decides against the suggestion, and the allowances that go with it.
DEPARTED = [
    ("refused by the judgement, taken at a price, two short",
     delivery(*all_of(WIDE), cartons_counted=18,
              decision={"kind": ALLOWANCE, "accepted": 18, "refused": 0, "held": 0, "reason": "agreed by phone"}),
     ["short_cartons"]),
    ("two short, taken outright",
     delivery(cartons_counted=18,
              decision={"kind": ACCEPT, "accepted": 18, "refused": 0, "held": 0, "reason": "the rest comes tomorrow"}),
     []),
]  # fmt: skip
