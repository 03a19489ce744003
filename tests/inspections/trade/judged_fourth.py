"""Thirty-one more deliveries, written down with what a fair receiver would do before the judgement was run on them.

Common practice, no source. As in ``judged``: twenty cartons of headless shell-on 16/20, three opened by the house plan,
all else in order, unless a row says otherwise. What is new here: cooked goods, frozen singly, soft and broken, peeled
undeveined, warm beside cold, half-empty loads, mixed lots, faults of the label, United States weights and counts.
At the first run all 31 suggestions and first reasons agreed, and all splits but one: for the label without its
crustacean the split of only one of two fair answers had been written down. Whoever wrote them knew the judgement.
"""

from __future__ import annotations

from typing import Any

from .deliveries import carton, delivery, grams, label, probed
from .judged_later import BOILED, COOKED, PTO, PUD, TAIL_ON, UNDEVEINED, looked, some
from .judged_rows import (
    ACCEPT,
    ALLOWANCE,
    BAG_PD,
    BROKEN,
    HOLD,
    NOT_YET,
    PD,
    REJECT,
    SALVAGE,
    all_of,
    cold,
    counted,
    lot,
    net,
    one_of,
    pieces,
    row,
    shows,
)
from .judged_third import READY, READY_PEELED, RTE, RTE_PD

US = {
    "market": "US", "grade": "16/20", "carton_net_g": 9071.8474, "units_per_carton": 4, "declared_glaze_percent": None,
    "name": "Whiteleg, headless shell-on 16/20, 4 x 5 lb",
}  # fmt: skip
FIVE_POUNDS = {
    "label": label(net={"entered": "20", "unit": "lb"}),
    "weights": {"glazed": grams("2500"), "deglazed": grams("2290")},
}
U15 = {"grade": "U/15", "name": "Whiteleg, headless shell-on U/15"}


def of_lots(*lots: str) -> list[dict[str, Any]]:
    """Opened cartons by the lot on their labels."""
    return [carton(3 + k, label=label(lot=one)) for k, one in enumerate(lots)]


def came_with(load: Any, document: dict[str, Any], air: str = "-17") -> dict[str, Any]:
    """A delivery by how its load stood and how warm the vehicle was."""
    return {**document, "vehicle": {"air": {"entered": air, "unit": "C"}, "load": load}}


FOURTH = [
    row("cooked headless, shells slip on 12 of 40, all", delivery(*all_of(looked(RTE, shell_slip=12))), ALLOWANCE,
        "slippery to peel, sound to eat: price", "SHELL-SLIP", (20, 0, 0), READY),
    row("cooked whole, -13 at the core, all", delivery(*[{**one, **BOILED} for one in cold("-13", "-13", "-13")]),
        (HOLD, REJECT), "past what the road explains, short of thawing: the manager says", "TEMP-OUTSIDE", (0, 0, 20),
        COOKED),
    row("cooked and peeled, pooled ice in the bags of one", delivery(*some(RTE_PD, {**looked(RTE_PD),
                                                                                  "refreezing": ["ice_pool"]})),
        (HOLD, REJECT), "thawed once, and nobody cooks it again", "REFREEZING", (0, 0, 20), READY_PEELED),
    row("frozen singly, heavy frost in one, cold at the core", delivery(*some(PD, {**looked(PD), "frost": "heavy"})),
        (ACCEPT, ALLOWANCE), "note it, ask for the logger", "FROST-HEAVY", (20, 0, 0), BAG_PD),
    row("frozen singly, clumped under heavy frost, all",
        delivery(*all_of({**looked(PD), "frost": "heavy", "refreezing": ["clumped"]})), HOLD,
        "it has been warm; when and how long?", "THAW-SIGNS", (0, 0, 20), BAG_PD),
    row("peeled tail-on, tails missing on 8 of 40, all", delivery(*all_of(looked(PTO, tails=8))), ALLOWANCE,
        "the tail is half the reason to buy them", "TAILS", (20, 0, 0), TAIL_ON),
    row("soft and broken, freezer burn on 12 of 40, all", delivery(*all_of({**SALVAGE, **pieces(dehydrated=12)})),
        (REJECT, ALLOWANCE), "cheap may be broken, not dry", "DEHYDRATED", (0, 20, 0), BROKEN),
    row("soft and broken ordered, labelled 16/20, whole, all", delivery(*all_of({"sample": None})),
        (ACCEPT, ALLOWANCE), "better than ordered; take it at the price ordered", "LABEL-LARGER", (20, 0, 0), BROKEN),
    row("16/20 ordered, soft and broken on one label", delivery(*one_of({"label": label(grade="soft and broken")})),
        (NOT_YET, HOLD, ALLOWANCE), "read the others, send that back", "LABEL-GRADE"),
    row("peeled undeveined, shell left on 12 of 40, all", delivery(*all_of(looked(PUD, shell_left=12))), ALLOWANCE,
        "peeled by hand twice: price", "SHELL-LEFT", (20, 0, 0), UNDEVEINED),
    row("peeled undeveined, 9 of 40 soft in one", delivery(*some(PUD, looked(PUD, soft=9))), NOT_YET,
        "one carton is not the drop", "SOFT", None, UNDEVEINED),
    row("one at -10 by the door, two at -19.5", delivery(*cold("-10", "-19.5", "-19.5")), (HOLD, NOT_YET),
        "probe it and its neighbours again", "TEMP-REJECT", (0, 0, 20)),
    row("three cartons, all opened, one at -8, two at -19", lot(3, cold("-8", "-19", "-19")), (ALLOWANCE, HOLD),
        "that one back, the others were probed", "TEMP-REJECT", (2, 1, 0)),
    row("vehicle at -4, product at -19.5, all", came_with("sound", delivery(*cold("-19.5", "-19.5", "-19.5")), "-4"),
        ACCEPT, "the doors stood open; the goods are cold", "", (20, 0, 0)),
    row("-17.2 between packs, all", delivery(*cold("-17.2", "-17.2", "-17.2", method="between_packs")), ACCEPT,
        "a short rise on the road", "TEMP-TOLERANCE", (20, 0, 0)),
    row("half the load: 9 of 20 came", delivery(cartons_counted=9), ALLOWANCE, "sign for nine", "CARTONS-SHORT",
        (9, 0, 0)),
    row("none of 20 came", lot(20, [], cartons_counted=0), (ALLOWANCE, REJECT), "sign for none", "CARTONS-SHORT",
        (0, 0, 0)),
    row("half the load, wet and shifted, broken 12 of 40 in one",
        came_with(["shifted", "wet"], delivery(*one_of(pieces(broken=12)), cartons_counted=12)), NOT_YET,
        "crushed; which others?", "BROKEN"),
    row("three lots on three labels, one on the docket", delivery(*of_lots("L1", "L2", "L3")), (NOT_YET, HOLD),
        "read the others", "LABEL-LOT"),
    row("three lots on three labels, none on the docket", delivery(*of_lots("L1", "L2", "L3"), lot=""), ACCEPT,
        "write the three lots down", "", (20, 0, 0)),
    row("another lot than the docket's on every label", delivery(*of_lots("L7", "L7", "L7")), (HOLD, REJECT),
        "papers and goods do not agree", "LABEL-LOT", (0, 0, 20)),
    row("crustacean not named on one label", delivery(*one_of(shows("crustacean"))), (HOLD, NOT_YET),
        "an allergen that must be declared: read the others", "LABEL-CRUSTACEAN"),
    row("best before earlier than production, one label",
        delivery(*one_of({"label": label(production_date="2028-10-01", best_before="2028-09-30")})), (NOT_YET, HOLD),
        "read it again", "LABEL-DATES"),
    row("no storage words on any label", delivery(*all_of(shows("storage"))), ACCEPT, "tell the supplier",
        "LABEL-PARTICULARS", (20, 0, 0)),
    row("caught on every label, farmed ordered", delivery(*all_of({"label": label(method="caught")})), (HOLD, REJECT),
        "the menu says farmed; buyer decides", "LABEL-METHOD", (0, 0, 20)),
    row("US: 5 lb boxes found 2,240 g without glaze, all",
        delivery(*all_of({**FIVE_POUNDS, **net("2240")})), ALLOWANCE, "an ounce short in each box", "NET-MEAN",
        (20, 0, 0), US),
    row("US: 20 lb as labelled, all good", delivery(*all_of(FIVE_POUNDS)), ACCEPT, "as ordered", "", (20, 0, 0), US),
    row("US: U/15 ordered, 16.5 to the pound, all", delivery(*all_of({"label": label(grade="U/15"),
                                                                     **counted(80, "2200")})),
        (ALLOWANCE, REJECT), "not under fifteen", "COUNT-BEYOND", (20, 0, 0), U15),
    row("US: 13.8 to the pound on 16/20, all", delivery(*all_of(counted(70, "2300"))), ACCEPT, "larger than paid for",
        "COUNT-LARGER", (20, 0, 0)),
    row("-3 °F at the core, all", delivery(*[carton(3 + k, temperature=probed("-3", "core", "F")) for k in range(3)]),
        ACCEPT, "colder than -18 °C", "", (20, 0, 0)),
    row("glaze 17.6 % for 10 %, weight without glaze right, all",
        delivery(*all_of({"weights": {"glazed": grams("2440"), "deglazed": grams("2010")}})), (ACCEPT, ALLOWANCE),
        "ice is not charged, the weight is there", "GLAZE-OVER", (20, 0, 0)),
]  # fmt: skip
