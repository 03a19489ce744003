"""Refused and held goods: where do they stand, and when were they fetched and by whom?

They are still somebody's: a supplier who is told of a refusal wants to know where the goods are, and a kitchen must
show that it gave them back. Kept apart, marked and frozen until then is common practice, no source.
"""
from collections import Counter

from inspections.errors import CannotUse
from inspections.records.models import AddendumKind, Delivery
from inspections.records.services.signable import moment
from inspections.records.shape.later import SetApartBody


def need_set_apart(body: SetApartBody, delivery: Delivery) -> None:
    """Nothing, where the cartons named were refused or held and are still there.

    Raises
    ------
    CannotUse
        APART-LINE, APART-COUNT, APART-WHERE, APART-BY, APART-WHEN.
    """
    if moment(body.happened_at) is None:
        raise CannotUse("APART-WHEN")
    if body.event == "stand" and not body.where.strip():
        raise CannotUse("APART-WHERE")
    if body.event == "fetched" and not body.by.strip():
        raise CannotUse("APART-BY")
    lines, gone, named = {str(line.pk): line for line in delivery.lines.all()}, fetched(delivery), Counter()
    for entry in body.cartons:
        line = lines.get(entry.line_id)
        if line is None:
            raise CannotUse("APART-LINE")
        named[entry.line_id, entry.part] += entry.count
        there = getattr(line, entry.part) - gone[entry.line_id, entry.part]
        if (count := named[entry.line_id, entry.part]) > there:
            raise CannotUse("APART-COUNT", line=line.number, part=entry.part, count=count, there=there)


def fetched(delivery: Delivery) -> Counter:
    """Cartons that were fetched, by line and part."""
    gone = Counter()
    for body in delivery.addenda.filter(kind=AddendumKind.SET_APART).values_list("body", flat=True):
        for entry in body["cartons"] if body["event"] == "fetched" else ():
            gone[entry["line_id"], entry["part"]] += entry["count"]
    return gone
