"""People and sites, as they are kept at the desk. Nobody gives more rights than they have."""
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import QuerySet

from inspections.errors import Forbidden, NotFound, Unprocessable
from inspections.people.access import sites_for
from inspections.people.models import SEES_ALL, Person, Role, Site
from inspections.people.pins import set_pin

#: role -> the roles whose accounts it keeps
KEEPS = {
    Role.RECEIVER: (), Role.SUPPLIER: (), Role.SITE_MANAGER: (Role.RECEIVER,),
    Role.GROUP_OPERATIONS: (Role.RECEIVER, Role.SITE_MANAGER),
    # Suppliers' people are invited, not kept here: nobody of the house knows their password.
    Role.ADMINISTRATOR: tuple(role for role in Role if role != Role.SUPPLIER),
}
WHOM = {Role.SITE_MANAGER: "receivers", Role.GROUP_OPERATIONS: "receivers and site managers"}
SITE_FIELDS = ("name", "code", "timezone", "currency", "market")


def people_kept_by(person: Person) -> QuerySet[Person]:
    """The accounts that a person may change: of lower roles, and for a site manager of own sites alone."""
    rows = Person.objects.filter(role__in=KEEPS[person.role]).prefetch_related("sites")
    if person.role in SEES_ALL:
        return rows
    own = sites_for(person)
    elsewhere = Person.objects.filter(sites__in=Site.objects.exclude(pk__in=own)).values("pk")
    return rows.filter(sites__in=own).exclude(pk__in=elsewhere).distinct()


def save_person(*, by: Person, row_id: str | None, data: dict) -> tuple[Person, bool]:
    """Add or change an account; whether it is new.

    Parameters
    ----------
    data : dict
        ``username``, ``name``, ``email``, ``role``, ``sites`` (ids), ``is_active``, and where one is to be set
        ``password`` and ``pin``; what is left out stays.

    Raises
    ------
    NotFound
        No such account that ``by`` may change.
    Forbidden
        PERSON-ABOVE: a role that ``by`` may not give.
    Unprocessable
        PERSON-…, PIN-SHAPE; ValidationError for a field.

    Notes
    -----
    One transaction. A new password and an account that is ended sign its owner out everywhere.
    """
    person = found_in(people_kept_by(by), row_id) if row_id else Person(is_active=True)
    is_new = person.pk is None
    role = data.get("role", person.role)
    if role not in KEEPS[by.role]:
        raise Forbidden("PERSON-ABOVE", whom=WHOM.get(by.role, "nobody"))
    if person.pk == by.pk and (role != by.role or not data.get("is_active", True)):
        raise Unprocessable("PERSON-ONESELF")
    for name in ("username", "name", "email", "is_active"):
        setattr(person, name, data.get(name, getattr(person, name)))
    person.role = role
    _set_password(person, data.get("password") or "", is_new)
    with transaction.atomic():
        person.full_clean()
        person.save()
        if "sites" in data or is_new:
            person.sites.set(_sites(by, data.get("sites") or [], role))
        if data.get("pin"):
            set_pin(person=person, pin=data["pin"])
    return person, is_new


def save_site(*, by: Person, row_id: str | None, data: dict) -> tuple[Site, bool]:
    """Add or change a site; whether it is new. Raises NotFound, and ValidationError for a field."""
    site = found_in(sites_for(by), row_id) if row_id else Site()
    for name in SITE_FIELDS:
        setattr(site, name, data.get(name, getattr(site, name)))
    site.full_clean()
    site.save()
    return site, row_id is None


def account_json(person: Person) -> dict:
    """An account as the desk lists it; never a password or a PIN."""
    return {
        "id": str(person.pk), "username": person.username, "name": person.name, "email": person.email,
        "role": person.role, "sites": [str(site.pk) for site in person.sites.all()], "is_active": person.is_active,
        "has_pin": bool(person.pin), "last_login": person.last_login.isoformat() if person.last_login else None,
    }


def _set_password(person: Person, password: str, is_new: bool) -> None:
    if password:
        try:
            validate_password(password, person)
        except ValidationError as trouble:
            raise ValidationError({"password": trouble.messages}) from trouble
        person.set_password(password)
    elif is_new:
        raise Unprocessable("PERSON-PASSWORD")


def _sites(by: Person, ids: list, role: str) -> list[Site]:
    try:
        sites = list(sites_for(by).filter(pk__in=ids))
    except (ValidationError, ValueError) as trouble:
        raise Unprocessable("PERSON-SITES") from trouble
    if len(sites) != len(set(map(str, ids))) or (not sites and role not in SEES_ALL):
        raise Unprocessable("PERSON-SITES")
    return sites


def found_in(rows: QuerySet, row_id: str):
    """The row of that id among ``rows``; NotFound for none, or for what is no id."""
    try:
        found = rows.filter(pk=row_id).first()
    except (ValidationError, ValueError):
        found = None
    if found is None:
        raise NotFound()
    return found
