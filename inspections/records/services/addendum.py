"""Something is said about a signed delivery: put away, fetched, found on thawing, or that an entry was wrong."""
from django.db import transaction

from inspections.errors import Conflict, Unprocessable
from inspections.people.models import Person
from inspections.records.models import Addendum, Delivery, Freezer, PutAway, State
from inspections.records.services.set_apart import need_set_apart
from inspections.records.services.signable import moment
from inspections.records.services.thawed import keep_thawed_photos, need_thawed
from inspections.records.shape.door import Sent
from inspections.records.shape.later import (
    AnyAddendum,
    CorrectionAddendum,
    PutAwayAddendum,
    PutAwayOfLine,
    SetApartAddendum,
    ThawedAddendum,
)


def add_addendum(*, delivery: Delivery, sent: Sent, person: Person) -> Addendum:
    """Add a put-away, a correction, where refused and held goods stand, or a fault found on thawing.

    Parameters
    ----------
    delivery : Delivery
        The person may see its site (the caller has asked).
    sent : Sent of AnyAddendum
        As ``shape.door.read_addendum`` gives it.
    person : Person
        Who sends it.

    Raises
    ------
    Unprocessable
        ADDENDUM-SHAPE, ADDENDUM-EMPTY, PUT-AWAY-LINE, PUT-AWAY-COUNT, PUT-AWAY-TIME, and those of ``set_apart`` and
        ``thawed``.
    Conflict
        ADDENDUM-OTHER: another addendum has this id.

    Notes
    -----
    One transaction: the addendum and its put-away rows; the delivery becomes ``put_away`` when every kept
    carton is. What was signed is not touched. The same addendum again writes nothing.
    """
    entered = sent.entered
    if entered.delivery_id != str(delivery.pk):
        raise Unprocessable("ADDENDUM-SHAPE", what="delivery")
    at = moment(entered.at)
    if at is None:
        raise Unprocessable("ADDENDUM-SHAPE", what="at: no moment with its offset from UTC")
    if not _says_something(entered, delivery):
        raise Unprocessable("ADDENDUM-EMPTY")
    with transaction.atomic():
        known = Addendum.objects.filter(pk=entered.id).first()
        if known is not None:
            if known.document != sent.body:
                raise Conflict("ADDENDUM-OTHER")
            return known
        if isinstance(entered, SetApartAddendum):
            # Two devices may send at once: the delivery is held until the count of what is there is kept.
            need_set_apart(entered.body, Delivery.objects.select_for_update(no_key=True).get(pk=delivery.pk))
        if isinstance(entered, ThawedAddendum):
            need_thawed(entered.body, delivery)
        row = Addendum(
            id=entered.id, delivery=delivery, kind=sent.body["kind"], body=sent.body["body"], person=person,
            device_id=entered.device_id, at=at, document=sent.body,
        )
        row.full_clean()
        row.save(force_insert=True)
        if isinstance(entered, PutAwayAddendum):
            _put_away(row, entered.body.cartons or [])
        keep_thawed_photos(row)
    return row


def _says_something(entered: AnyAddendum, delivery: Delivery) -> bool:
    if isinstance(entered, SetApartAddendum | ThawedAddendum):
        return True
    if isinstance(entered, CorrectionAddendum):
        return bool(entered.body.text.strip())
    # Where all was refused, "nothing went into the freezer" is all there is to say.
    return bool(entered.body.cartons) or not any(line.accepted + line.held for line in delivery.lines.all())


def _put_away(row: Addendum, cartons: list[PutAwayOfLine]) -> None:
    lines = {str(line.pk): line for line in row.delivery.lines.prefetch_related("put_aways")}
    freezers = {str(pk) for pk in Freezer.objects.filter(site=row.delivery.site_id).values_list("pk", flat=True)}
    counts = {key: sum(done.count for done in line.put_aways.all()) for key, line in lines.items()}
    for entry, body in zip(cartons, row.body.get("cartons") or [], strict=True):
        line = lines.get(entry.line_id)
        if line is None:
            raise Unprocessable("PUT-AWAY-LINE")
        _need_times(entry, line)
        put_away_row(row, body, freezers).save(force_insert=True)
        counts[str(line.pk)] += entry.count
        kept = line.accepted + line.held
        if counts[str(line.pk)] > kept:
            raise Unprocessable("PUT-AWAY-COUNT", line=line.number, count=counts[str(line.pk)], kept=kept)
    if all(counts[key] >= line.accepted + line.held for key, line in lines.items()):
        Delivery.objects.filter(pk=row.delivery_id).update(state=State.PUT_AWAY)
        row.delivery.state = State.PUT_AWAY


def _need_times(entry: PutAwayOfLine, line) -> None:
    out_at, in_at = moment(entry.out_at), moment(entry.in_at)
    if out_at is not None and in_at is not None and in_at < out_at:
        raise Unprocessable("PUT-AWAY-TIME", line=line.number)


def put_away_row(addendum: Addendum, body: dict, freezers: set[str]) -> PutAway:
    """An unsaved row for one entry of a put-away as it stands; ``freezers`` are those of the site, by id."""
    freezer_id, closed = str(body.get("freezer_id")), body.get("liner_closed")
    return PutAway(
        addendum=addendum, line_id=body["line_id"], count=body["count"],
        freezer_id=freezer_id if freezer_id in freezers else None,
        position=str(body.get("position") or "")[:80], liner_closed=closed if isinstance(closed, bool) else None,
        out_at=moment(body.get("out_at")), in_at=moment(body.get("in_at")),
    )
