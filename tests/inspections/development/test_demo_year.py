"""The demo's months replayed with every carton's state known: what was sent back, and how much of it was bad.

The scenario draws a fault for the cartons that are opened; here each carton of a line has its state from the start, at
the same rate. A carton is bad where its fault is one that a kitchen sends back; short weight, a size too small, frost
and an open liner are money or a note. Beside it the edition before 3, by its own rule: one carton stood for the line.
"""

import sys
from collections import Counter
from datetime import date, datetime

from fixtures.demo.cartons import carton
from fixtures.demo.chance import dice
from fixtures.demo.deliveries import _OF_THE_LOT, Arrival, _fault, moment_of
from fixtures.demo.load import DELIVERIES, _supplier_and_products
from fixtures.demo.scenario import SITES
from inspections.evidence.worksheet.earlier import led_to
from inspections.trade.drawing import draw_more, draw_positions
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.sampling import plan_for
from inspections.trade.verdict import judge_document

SENT_BACK = {"black_spot", "warm", "refrozen", "broken", "soft", "dehydrated"}


def lines():
    """Each docket line of the demo's months: what was bought, and the cartons with what ails each."""
    for number in range(DELIVERIES):
        site = SITES[number % len(SITES)]
        supplier, products = _supplier_and_products(site, dice("arrival", number))
        arrival = Arrival(number, site, "s", supplier, "u", {"person_id": 1, "name": "r"}, date(2026, 11, 1), (), "x")
        arrived: datetime = moment_of(arrival)
        for place, product in enumerate(products):
            chance = dice(*arrival.what, "line", place, "whole")
            bought = {**product.data, "id": "v", "name": product.name, "code": product.code}
            faults = [_fault(arrival, chance) for _ in range(chance.choice([6, 8, 10, 12, 15, 20, 24, 30]))]
            cartons = [
                carton(("year", number, place), chance, bought, arrived.date(), at, fault)
                for at, fault in enumerate(faults, start=1)
            ]
            for one in cartons:
                one["label"] |= {key: cartons[0]["label"][key] for key in _OF_THE_LOT}
            yield bought, arrived, cartons, faults


def judged(bought, arrived, cartons, opened, plan):
    line = {
        "id": "l", "specification_id": "v", "cartons_on_docket": len(cartons), "cartons_counted": len(cartons),
        "lot": cartons[0]["label"]["lot"], "cartons": [cartons[at - 1] for at in opened],
        "sampling": {"plan": "house", "layers": 1, "seed": "y", "n": plan.n, "acceptance": plan.acceptance},
    }  # fmt: skip
    document = {"schema": 1, "id": "d", "docket_number": "Y", "arrived_at": arrived.isoformat(), "lines": [line],
                "vehicle": {"air": {"entered": "-19", "unit": "C"}, "load": "sound"}, "photos": []}  # fmt: skip
    return judge_document(document, [bought], DEFAULT_LIMITS)["lines"][0]


def is_refused_by_one(line, acceptance: int) -> bool:
    """Under the edition before 3: a critical finding in any carton, or more defective ones than the plan accepts."""
    led = [{led_to(one["code"], one["severity"]) for one in told["reasons"]} for told in line["cartons"]]
    return any("reject" in one for one in led) or sum("defect" in one for one in led) > acceptance


def test_most_of_what_goes_back_is_bad_where_most_of_it_was_sound():
    told = Counter()
    for bought, arrived, cartons, faults in lines():
        bad = {at for at, fault in enumerate(faults, start=1) if fault in SENT_BACK}
        plan = plan_for("house", len(cartons), bought["carton_net_g"] / bought["units_per_carton"])
        opened = draw_positions(len(cartons), plan.n, f"year {told['lines']}")
        line = judged(bought, arrived, cartons, opened, plan)
        if is_refused_by_one(line, plan.acceptance):
            told["before_lines"] += 1
            told["before"] += len(cartons)
            told["before_bad"] += len(bad)
        while line["next"] is not None and line["next"]["kind"] == "open":
            told["opened_more"] += line["next"]["cartons"]
            opened = [*opened, *draw_more(len(cartons), opened, line["next"]["cartons"], f"year {told['lines']}")]
            line = judged(bought, arrived, cartons, opened, plan)
        told["lines"] += 1
        told["cartons"] += len(cartons)
        told["bad"] += len(bad)
        told["opened"] += len(opened)
        told[line["suggestion"]] += 1
        split = line["suggested_split"] or {"refused": 0, "held": 0}
        back = split["refused"] + split["held"]
        told["refused"] += split["refused"]
        told["held"] += split["held"]
        # Where not the whole line goes back, those that do are opened ones, and bad.
        told["back_bad"] += len(bad) if back == len(cartons) else min(back, len(bad & set(opened)))
    back = told["refused"] + told["held"]
    sys.stdout.write(
        f"\n{told['lines']} lines, {told['cartons']} cartons, {told['bad']} bad; {told['opened']} opened\n"
        f"before: {told['before_lines']} lines, {told['before']} cartons refused, {told['before_bad']} of them bad\n"
        f"now: {told['reject']} lines, {told['refused']} cartons refused, {told['held']} held, "
        f"{told['back_bad']} of them bad; {told['opened_more']} more opened for it\n"
    )
    assert back < told["before"] / 2
    assert told["back_bad"] / back > told["before_bad"] / told["before"]
