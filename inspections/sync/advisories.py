"""What the photo advisory says, as the phone shows it. It is advice: nothing waits for it, nothing follows from it.

The receiver's own finding comes first: while a document is open, advice on a carton is told once its pieces have been
looked at for black spot, so that it cannot lead the eye.
"""
from uuid import UUID

from inspections.errors import NotFound
from inspections.people.access import need_site
from inspections.people.models import Person
from inspections.records.black_spot import found_of
from inspections.records.models import Delivery
from inspections.records.photo_answers import advice_in, advice_json
from inspections.records.stored import entries, head
from inspections.sync.document import document_for


def advisories_of(person: Person, delivery_id: UUID) -> dict:
    """Advice by photo hash for a delivery, open or signed; null for what is still being worked on.

    Raises
    ------
    NotFound
        There is no such delivery.
    Forbidden
        Its site is not the person's.
    """
    body, is_open = _body(person, delivery_id)
    early = _not_looked_at(body) if is_open else set()
    return {
        sha256: {"answer": "finding_first", "frames": [], "reasons": []} if sha256 in early and found is not None
        else advice_json(sha256, found)
        for sha256, found in advice_in(body).items()
    }  # fmt: skip


def _not_looked_at(body: dict) -> set[str]:
    """Photos of cartons whose pieces have not been looked at for black spot."""
    cartons = [carton for line in entries(body, "lines") for carton in entries(line, "cartons")]
    waiting = {
        carton.get("id") for carton in cartons
        if found_of(head(carton.get("pieces")), carton.get("looked_at"), {}) is None
    }  # fmt: skip
    return {photo.get("sha256") for photo in entries(body, "photos") if photo.get("carton_id") in waiting}


def _body(person: Person, delivery_id: UUID) -> tuple[dict, bool]:
    """The document, and whether it is still open."""
    document = document_for(person, delivery_id)
    if document is not None:
        return document.body, True
    delivery = Delivery.objects.filter(pk=delivery_id).first()
    if delivery is None:
        raise NotFound()
    need_site(person, delivery.site_id)
    return delivery.document, False
