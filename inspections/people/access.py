"""Which sites a person may see, and who may do what. The one place that answers either."""
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import ValidationError
from django.db.models import QuerySet

from inspections.errors import Forbidden
from inspections.people.models import SEES_ALL, Person, Role, Site

ROLE_WORDS = {
    Role.RECEIVER: "a receiver", Role.SITE_MANAGER: "a site manager", Role.GROUP_OPERATIONS: "group operations",
    Role.ADMINISTRATOR: "an administrator", Role.SUPPLIER: "a supplier's person",
}


def sites_for(person: Person | AnonymousUser) -> QuerySet[Site]:
    """The sites a person may see.

    Parameters
    ----------
    person : Person
        Also the anonymous user of a request that is not signed in: sees none.

    Returns
    -------
    QuerySet of Site
        All for group operations and administrators, their own for the others.
    """
    if not person.is_authenticated or not person.is_active:
        return Site.objects.none()
    if person.role in SEES_ALL:
        return Site.objects.all()
    return Site.objects.filter(people=person)


def are_all(sites: QuerySet[Site]) -> bool:
    """Whether nothing was asked of the sites: a condition on each row would then only keep an index from use."""
    return not sites.query.where and not sites.query.is_empty()


def signed_in(user: Person | AnonymousUser) -> Person:
    """The person behind a request.

    Raises
    ------
    Forbidden
        NOT-YOURS: nobody is signed in.
    """
    if isinstance(user, AnonymousUser):
        raise Forbidden()
    return user


def need_site(person: Person, site_id) -> Site:
    """The site, if the person may see it.

    Raises
    ------
    Forbidden
        NOT-YOURS: another site, or none of that id (the same answer, so that nothing can be guessed).
    """
    try:
        site = sites_for(person).filter(pk=site_id).first()
    except (ValidationError, ValueError):
        site = None
    if site is None:
        raise Forbidden()
    return site


def need_role(person: Person | AnonymousUser, *roles: str) -> None:
    """Nothing, if the person has one of the roles; an administrator always has.

    Raises
    ------
    Forbidden
        ROLE-NEEDED: names the roles that may.
    """
    allowed = {*roles, Role.ADMINISTRATOR}
    if getattr(person, "role", None) not in allowed:
        raise Forbidden("ROLE-NEEDED", needed=_either(*(role for role in Role if role in allowed)))


def _either(*roles: Role) -> str:
    """Roles with their articles: "a site manager, group operations or an administrator"."""
    words = [ROLE_WORDS[role] for role in roles]
    return " or ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
