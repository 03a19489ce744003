"""Something is said about a delivery after it was signed: cartons were put away, or an entry was wrong."""
from django.db import transaction

from inspections.errors import CannotUse, Conflict, add_sentences
from inspections.people.access import need_site
from inspections.people.models import Person
from inspections.records.acts.signable import is_text_kept, moment
from inspections.records.judging import is_id
from inspections.records.models import Addendum, AddendumKind, Delivery, Freezer, PutAway, State

KEPT = "The signed record is safe."
MOST_CARTONS = 5000
add_sentences({
    "ADDENDUM-SHAPE": f"What was to be added could not be read ({{what}}). {KEPT} Update the app and send it again.",
    "ADDENDUM-EMPTY": f"There is nothing to add yet. {KEPT} Enter what is to be added.",
    "ADDENDUM-OTHER": f"Something else was added under this number already. {KEPT} Enter it once more.",
    "PUT-AWAY-LINE": f"Cartons were put away of a line that this delivery does not have. {KEPT} Choose the line again.",
    "PUT-AWAY-COUNT": f"{{count}} cartons of line {{line}} are put away, but only {{kept}} were kept. {KEPT} "
    "Correct the number.",
    "PUT-AWAY-TIME": f"The cartons of line {{line}} went in before they came out. {KEPT} Correct the times.",
})


def add_addendum(*, delivery: Delivery, addendum: dict, person: Person) -> Addendum:
    """Add a put-away or a correction to a signed delivery.

    Parameters
    ----------
    delivery : Delivery
    addendum : dict
        ``{"id", "delivery_id", "kind", "at", "person", "device_id", "body"}``.
    person : Person
        Who sends it; must see the delivery's site.

    Raises
    ------
    CannotUse
        ADDENDUM-SHAPE, ADDENDUM-EMPTY, PUT-AWAY-LINE, PUT-AWAY-COUNT, PUT-AWAY-TIME.
    Conflict
        ADDENDUM-OTHER: another addendum has this id.
    NotYours
        The site is not the person's.

    Notes
    -----
    One transaction: the addendum and its put-away rows; the delivery becomes ``put_away`` when every kept
    carton is. What was signed is not touched. The same addendum again writes nothing.
    """
    need_site(person, delivery.site_id)
    _need_shape(delivery, addendum)
    with transaction.atomic():
        known = Addendum.objects.filter(pk=addendum["id"]).first()
        if known is not None:
            if known.document != addendum:
                raise Conflict("ADDENDUM-OTHER")
            return known
        row = Addendum(
            id=addendum["id"], delivery=delivery, kind=addendum["kind"], body=addendum["body"], person=person,
            device_id=addendum["device_id"], at=moment(addendum["at"]), document=addendum,
        )
        row.full_clean()
        row.save(force_insert=True)
        if row.kind == AddendumKind.PUT_AWAY:
            _put_away(row)
    return row


def _need_shape(delivery: Delivery, addendum: dict) -> None:
    if not isinstance(addendum, dict) or not is_text_kept(addendum):
        raise CannotUse("ADDENDUM-SHAPE", what="a sign that cannot be stored")
    for name in ("id", "device_id", "delivery_id"):
        if not is_id(addendum.get(name)):
            raise CannotUse("ADDENDUM-SHAPE", what=name)
    if addendum["delivery_id"] != str(delivery.pk):
        raise CannotUse("ADDENDUM-SHAPE", what="delivery_id")
    if addendum.get("kind") not in AddendumKind.values:
        raise CannotUse("ADDENDUM-SHAPE", what="kind")
    if moment(addendum.get("at")) is None:
        raise CannotUse("ADDENDUM-SHAPE", what="at")
    body = addendum.get("body")
    if not isinstance(body, dict):
        raise CannotUse("ADDENDUM-SHAPE", what="body")
    is_put_away = addendum["kind"] == AddendumKind.PUT_AWAY
    if is_put_away and not isinstance(body.get("cartons") or [], list):
        raise CannotUse("ADDENDUM-SHAPE", what="cartons")
    if is_put_away:
        # Where all was refused, "nothing went into the freezer" is all there is to say.
        is_any_kept = any(line.accepted + line.held for line in delivery.lines.all())
        says_something = bool(body.get("cartons")) or not is_any_kept
    else:
        says_something = bool(str(body.get("text") or "").strip())
    if not says_something:
        raise CannotUse("ADDENDUM-EMPTY")


def _put_away(row: Addendum) -> None:
    lines = {str(line.pk): line for line in row.delivery.lines.prefetch_related("put_aways")}
    freezers = {str(pk) for pk in Freezer.objects.filter(site=row.delivery.site_id).values_list("pk", flat=True)}
    counts = {key: sum(done.count for done in line.put_aways.all()) for key, line in lines.items()}
    for entry in row.body.get("cartons") or []:
        line = lines.get(str(entry.get("line_id"))) if isinstance(entry, dict) else None
        if line is None:
            raise CannotUse("PUT-AWAY-LINE")
        _put_away_of(row, entry, line, freezers)
        counts[str(line.pk)] += entry["count"]
        kept = line.accepted + line.held
        if counts[str(line.pk)] > kept:
            raise CannotUse("PUT-AWAY-COUNT", line=line.number, count=counts[str(line.pk)], kept=kept)
    if all(counts[key] >= line.accepted + line.held for key, line in lines.items()):
        Delivery.objects.filter(pk=row.delivery_id).update(state=State.PUT_AWAY)
        row.delivery.state = State.PUT_AWAY


def _put_away_of(row: Addendum, entry: dict, line, freezers: set[str]) -> None:
    if type(entry.get("count")) is not int or not 1 <= entry["count"] <= MOST_CARTONS:
        raise CannotUse("ADDENDUM-SHAPE", what="count")
    out_at, in_at = moment(entry.get("out_at")), moment(entry.get("in_at"))
    if out_at is not None and in_at is not None and in_at < out_at:
        raise CannotUse("PUT-AWAY-TIME", line=line.number)
    freezer_id, closed = str(entry.get("freezer_id")), entry.get("liner_closed")
    PutAway(
        addendum=row, line=line, count=entry["count"], freezer_id=freezer_id if freezer_id in freezers else None,
        position=str(entry.get("position") or "")[:80], liner_closed=closed if isinstance(closed, bool) else None,
        out_at=out_at, in_at=in_at,
    ).save(force_insert=True)
