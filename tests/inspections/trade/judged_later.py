"""Thirty-two more deliveries, written down with what a fair receiver would do before the judgement was run on them.

Common practice, no source. As in ``judged``: twenty cartons of headless shell-on 16/20, three opened by the house plan,
all else in order, unless a row says otherwise; first reason and split are the receiver's as well. At the first run
31 of the 32 suggestions agreed, 30 first reasons and 29 splits: undeveined goods were refused for their veins, and
three rows had left one of two fair answers without its reason or split.
"""

from __future__ import annotations

from .deliveries import carton, delivery, grams, label, probed
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
    TIGER,
    WHOLE,
    all_of,
    cold,
    counted,
    lot,
    net,
    one_of,
    pieces,
    row,
)  # fmt: skip

COOKED = {**TIGER, "state": "cooked", "name": "Giant tiger, whole, cooked 16/20 per kg"}
BOILED = {**WHOLE, "label": {**WHOLE["label"], "state": "cooked"}}
TAIL_ON = {**BAG_PD, "presentation": "PTO", "name": "Whiteleg, peeled tail-on 31/40"}
PTO = {**PD, "label": label(presentation="PTO", grade="31/40"), "marks": {"answer": "agree"}}
UNDEVEINED = {**BAG_PD, "presentation": "PUD", "name": "Whiteleg, peeled undeveined 31/40"}
PUD = {**PD, "label": label(presentation="PUD", grade="31/40")}


def looked(base: dict, **counts: int) -> dict:
    """A carton of such goods with prawns counted."""
    return {**base, **pieces(**{kind: number for kind, number in counts.items() if kind in pieces()["pieces"]}),
            "pieces": {**pieces()["pieces"], **counts}}  # fmt: skip


def some(base: dict, found: dict, bad: int = 1) -> list[dict]:
    """Three cartons of such goods, the first ones as found."""
    return [carton(3 + k, **(found if k < bad else looked(base))) for k in range(3)]


LATER = [
    row("peeled and deveined, vein left in 3 of 40, all", delivery(*all_of(looked(PD, vein=3))), ALLOWANCE,
        "a hand has to pull them: price", "VEIN", (20, 0, 0), BAG_PD),
    row("peeled and deveined, vein left in 30 of 40, all", delivery(*all_of(looked(PD, vein=30))), (REJECT, ALLOWANCE),
        "not deveined: other goods than ordered", "VEIN-MOST", (0, 20, 0), BAG_PD),
    row("undeveined ordered, a vein in each", delivery(*all_of(looked(PUD, vein=40))), ACCEPT,
        "that is what was ordered", "", (20, 0, 0), UNDEVEINED),
    row("tail-on, bits of shell on 2 of 40 in one", delivery(*some(PTO, looked(PTO, shell_left=2))),
        (ACCEPT, ALLOWANCE), "picked off at the bench", "SHELL-LEFT", (20, 0, 0), TAIL_ON),
    row("peeled, throats on 12 of 40, all", delivery(*all_of(looked(PD, throats=12))), ALLOWANCE,
        "paid for meat, got neck", "THROATS", (20, 0, 0), BAG_PD),
    row("cooked whole, 1 of 40 glassy in the middle in one", delivery(*some(BOILED, looked(BOILED, under_cooked=1))),
        HOLD, "eaten as it comes", "UNDER-COOKED", (0, 0, 20), COOKED),
    row("cooked whole, over-cooked 20 of 40, all", delivery(*all_of(looked(BOILED, over_cooked=20))),
        (ALLOWANCE, REJECT), "dry, but food", "OVER-COOKED", (20, 0, 0), COOKED),
    row("cooked whole, heads discoloured 14 of 40, all", delivery(*all_of(looked(BOILED, head_colour=14))),
        (REJECT, ALLOWANCE), "not to be shown on a platter", "HEAD-COLOUR", (0, 20, 0), COOKED),
    row("cooked whole, shells slip on 1 of 40 in one", delivery(*some(BOILED, looked(BOILED, shell_slip=1))), ACCEPT,
        "nothing", "", (20, 0, 0), COOKED),
    row("whole, heads dark on 3 of 40 in one", delivery(*some(WHOLE, looked(WHOLE, head_black=3, black_spot=3))),
        (ACCEPT, ALLOWANCE), "a few; use them first", "", (20, 0, 0), TIGER),
    row("whole, heads dark on 12 of 40 in one", delivery(*some(WHOLE, looked(WHOLE, head_black=12, black_spot=12))),
        NOT_YET, "one carton is not the drop", "HEAD-BLACK", None, TIGER),
    row("loose-frozen, 4 of 40 stuck together in one bag", delivery(*some(PD, looked(PD, clumps=4))),
        (ACCEPT, ALLOWANCE), "a knock parts them", "CLUMPS", (20, 0, 0), BAG_PD),
    row("loose-frozen, 16 of 40 stuck together, all", delivery(*all_of(looked(PD, clumps=16))),
        (ALLOWANCE, NOT_YET, HOLD), "loose-frozen was paid for", "CLUMPS", (20, 0, 0), BAG_PD),
    row("all labelled another species", delivery(*all_of({"label": label(species_code="GIT")})), REJECT,
        "other goods", "SPECIES-LABEL", (0, 20, 0)),
    row("six cartons, -17 at the core in both", lot(6, cold("-17", "-17")), ACCEPT, "inside tolerance",
        "TEMP-TOLERANCE", (6, 0, 0)),
    row("two cartons more than the docket says", lot(10, one_of({}), cartons_counted=12), (ACCEPT, ALLOWANCE),
        "tell the driver, sign for what came", "CARTONS-OVER", (12, 0, 0)),
    row("wet load, goods sound", {**delivery(), "vehicle": {"air": {"entered": "-17", "unit": "C"}, "load": "wet"}},
        ACCEPT, "note it", "", (20, 0, 0)),
    row("two fifths of its life left for two thirds, in one",
        delivery(*one_of({"label": label(production_date="2025-08-25", best_before="2027-10-01")})),
        (ALLOWANCE, NOT_YET, HOLD), "use that one first", "LIFE-SHORT", (20, 0, 0)),
    row("net 1,990 of 2,000 in all", delivery(*all_of(net("1990"))), (ACCEPT, ALLOWANCE), "half a per cent", "NET-MEAN",
        (20, 0, 0)),
    row("9.07 kg on the label for 10 kg ordered, all",
        delivery(*all_of({"label": label(net={"entered": "9.07", "unit": "kg"})})), (ALLOWANCE, HOLD, REJECT),
        "twenty pounds is not ten kilograms", "LABEL-NET", (20, 0, 0)),
    row("freezer burn 8 of 40 in one, liner missing in another",
        delivery(carton(3, **pieces(dehydrated=8)), carton(11, liner="missing"), carton(17)), NOT_YET,
        "how far does it go?", "DEHYDRATED"),
    row("four cartons, all opened, two soft", lot(4, one_of(pieces(soft=10), 4, 2)), (ALLOWANCE, REJECT),
        "send back the two", "SOFT", (2, 2, 0)),
    row("thirty cartons, ten opened, two bad", lot(30, one_of(MANY, 10, 2)), REJECT, "a fifth of what was opened",
        "BLACK-CODEX", (0, 30, 0)),
    row("another lot on one of three", delivery(*one_of({"label": label(lot="L9")})), (NOT_YET, HOLD, ALLOWANCE),
        "read the others", "LABEL-LOT"),
    row("another country on all labels", delivery(*all_of({"label": label(origin="TH")})), (HOLD, REJECT),
        "the menu names it", "LABEL-ORIGIN", (0, 0, 20)),
    row("slight smell in one, smelled frozen", delivery(*one_of({"odour": "slight", "odour_taken": "frozen"})), NOT_YET,
        "thaw a few and smell again", "ODOUR-SLIGHT"),
    row("soft and broken, black spot 12 of 40, all", delivery(*all_of({**SALVAGE, **pieces(black_spot=12)})),
        (REJECT, ALLOWANCE), "a little over even for this grade", "BLACK-HOUSE", (20, 0, 0), BROKEN),
    row("whole tigers, tails gone on 10 of 40, all", delivery(*all_of({**WHOLE, **pieces(tails=10)})),
        (REJECT, ALLOWANCE), "whole was paid for", "TAILS-WHOLE", (0, 20, 0), TIGER),
    row("one at -15.5 between packs, others -20",
        delivery(carton(3, temperature=probed("-15.5", "between_packs")), carton(11), carton(17)),
        (ACCEPT, ALLOWANCE, NOT_YET), "inside tolerance", "TEMP-TOLERANCE", (20, 0, 0)),
    row("largest tenth 1.6 times the smallest, all",
        delivery(*all_of({"sample": {**counted(78, "2010")["sample"], "largest": grams("240"),
                                     "smallest": grams("150")}})),
        (ALLOWANCE, ACCEPT), "uneven on the plate", "UNIFORMITY", (20, 0, 0)),
    row("cooked and peeled, 6 of 40 glassy in the middle, all",
        delivery(*all_of({**looked(PUD, under_cooked=6), "label": label(presentation="PUD", state="cooked",
                                                                       grade="31/40")})),
        (HOLD, REJECT), "not ready to eat", "UNDER-COOKED", (0, 0, 20), {**UNDEVEINED, "state": "cooked"}),
    row("three cartons, all opened, pooled ice in one", lot(3, one_of({"refreezing": ["ice_pool"]})),
        (ALLOWANCE, HOLD), "that one back, the others were seen", "REFREEZING", (2, 1, 0)),
]  # fmt: skip
