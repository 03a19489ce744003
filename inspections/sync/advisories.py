"""What the photo advisory says, as the phone shows it. It is advice: nothing waits for it, nothing follows from it."""
from uuid import UUID

from inspections.errors import NotFound
from inspections.people.access import need_site
from inspections.people.models import Person
from inspections.records.models import Delivery
from inspections.records.photo_answers import advice_in, advice_json
from inspections.sync.document import document_for


def advisories_of(person: Person, delivery_id: UUID) -> dict:
    """Advice by photo hash for a delivery, open or signed; null for what is still being worked on.

    Raises
    ------
    NotFound
        There is no such delivery.
    NotYours
        Its site is not the person's.
    """
    return {sha256: advice_json(sha256, found) for sha256, found in advice_in(_body(person, delivery_id)).items()}


def _body(person: Person, delivery_id: UUID) -> dict:
    document = document_for(person, delivery_id)
    if document is not None:
        return document.body
    delivery = Delivery.objects.filter(pk=delivery_id).first()
    if delivery is None:
        raise NotFound()
    need_site(person, delivery.site_id)
    return delivery.document
