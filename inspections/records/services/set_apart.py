"""Refused and held goods: where do they stand, who fetched them when, and what became of the held ones?

They are still somebody's: a supplier who is told of a refusal wants to know where the goods are, and a kitchen must
show that it gave them back. Kept apart, marked and frozen until then is common practice, no source.
"""
from collections import Counter

from inspections.errors import Unprocessable
from inspections.records.models import AddendumKind, Delivery
from inspections.records.services.signable import moment
from inspections.records.shape.later import SetApartBody

#: What may become of held goods.
DECIDED = ("released", "refused")


def need_set_apart(body: SetApartBody, delivery: Delivery) -> None:
    """Nothing, where the cartons named were refused or held and are still there.

    Raises
    ------
    Unprocessable
        APART-LINE, APART-COUNT, APART-WHERE, APART-BY, APART-WHEN, APART-DECIDED, APART-HELD.
    """
    if moment(body.happened_at) is None:
        raise Unprocessable("APART-WHEN")
    if body.event == "stand" and not body.where.strip():
        raise Unprocessable("APART-WHERE")
    if body.event == "fetched" and not body.by.strip():
        raise Unprocessable("APART-BY")
    if body.event in DECIDED:
        if not body.by.strip() or not (body.reason or "").strip():
            raise Unprocessable("APART-DECIDED")
        if any(entry.part != "held" for entry in body.cartons):
            raise Unprocessable("APART-HELD")
    lines, gone = {str(line.pk): line for line in delivery.lines.all()}, gone_from(delivery)
    named: Counter[tuple[str, str]] = Counter()
    for entry in body.cartons:
        line = lines.get(entry.line_id)
        if line is None:
            raise Unprocessable("APART-LINE")
        named[entry.line_id, entry.part] += entry.count
        there = getattr(line, entry.part) - gone[entry.line_id, entry.part]
        if (count := named[entry.line_id, entry.part]) > there:
            raise Unprocessable("APART-COUNT", line=line.number, part=entry.part, count=count, there=there)


def gone_from(delivery: Delivery) -> Counter:
    """Cartons no longer there, by line and part; held ones that were refused later are there as refused."""
    gone: Counter[tuple[str, str]] = Counter()
    for body in delivery.addenda.filter(kind=AddendumKind.SET_APART).values_list("body", flat=True):
        for entry in body["cartons"] if body["event"] != "stand" else ():
            gone[entry["line_id"], entry["part"]] += entry["count"]
            if body["event"] == "refused":
                gone[entry["line_id"], "refused"] -= entry["count"]
    return gone
