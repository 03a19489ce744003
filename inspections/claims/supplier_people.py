"""Who of a supplier may sign in: invited by group operations, a password of their own, their supplier's claims alone.

An invitation goes to their address by mail, where mails are sent, and is told to whoever invites (``invitations``).
Whoever lost the password is invited again.
"""
from typing import Any

from django.db import transaction

from inspections.claims.invitations import invitation_token
from inspections.claims.messages import note_invitation
from inspections.claims.models import SupplierPerson
from inspections.errors import NotFound, Unprocessable
from inspections.messages import message
from inspections.people.access import need_role
from inspections.people.models import Person, Role
from inspections.records.models import Delivery, Supplier


def invite(*, supplier: Supplier, name: str, email: str, by: Person) -> tuple[SupplierPerson, str]:
    """Make an account for somebody of a supplier, and the token of its invitation, which is told this once.

    Raises
    ------
    Forbidden
        Anybody below group operations: the account sees the supplier's claims at every site.
    Unprocessable
        SUPPLIER-PERSON-THERE; ValidationError for a field.
    """
    need_role(by, Role.GROUP_OPERATIONS)
    person = Person(username=email.strip().lower(), name=name.strip(), email=email.strip(), role=Role.SUPPLIER)
    person.set_unusable_password()
    if Person.objects.filter(username__iexact=person.username).exists():
        raise Unprocessable("SUPPLIER-PERSON-THERE", email=person.email)
    person.full_clean()
    with transaction.atomic():
        person.save()
        row = SupplierPerson.objects.create(person=person, supplier=supplier, invited_by=by)
        note_invitation(row)
    return row, invitation_token(person)


def let_in(*, supplier: Supplier, person_id: int, by: Person, is_active: bool) -> tuple[SupplierPerson, str]:
    """End an account, or invite its owner anew; the token is empty for one that is ended.

    Notes
    -----
    Either way the old password and earlier invitations hold no longer, and its owner is signed out everywhere.
    """
    need_role(by, Role.GROUP_OPERATIONS)
    row = SupplierPerson.objects.select_related("person", "invited_by").filter(
        person=person_id, supplier=supplier).first()
    if row is None:
        raise NotFound()
    row.person.is_active = is_active
    row.person.set_unusable_password()
    with transaction.atomic():
        row.person.save(update_fields=["is_active", "password"])
        note_invitation(row)
    return row, invitation_token(row.person) if is_active else ""


def supplier_of(person: Person) -> Supplier | None:
    """The supplier whose claims a person sees; None for everybody of the house."""
    row = SupplierPerson.objects.select_related("supplier").filter(person=person.pk).first()
    return row.supplier if row and person.role == Role.SUPPLIER else None


def own_delivery(supplier: Supplier, delivery_id: Any) -> Delivery:
    """A delivery of the supplier on which a claim was sent.

    Raises
    ------
    NotFound
    """
    found = Delivery.objects.filter(pk=delivery_id, supplier=supplier, claims__sent_at__isnull=False)
    delivery = found.select_related("site").distinct().first()
    if delivery is None:
        raise NotFound()
    return delivery


def person_json(row: SupplierPerson) -> dict[str, Any]:
    """A supplier's person as the desk lists them."""
    person, mail = row.person, row.mails.last()
    return {"id": person.pk, "name": person.name, "email": person.email, "is_active": person.is_active,
            "has_password": person.has_usable_password(), "invited_by": row.invited_by.name,
            "invited_at": row.invited_at.isoformat(),
            "last_login": person.last_login.isoformat() if person.last_login else None,
            "mail": " ".join([message(f"claims-message-{mail.state}"), mail.sentence]).strip() if mail else ""}
