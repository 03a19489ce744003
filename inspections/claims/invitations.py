"""The token of an invitation: Django's own for setting a password, good for one use and ``PASSWORD_RESET_TIMEOUT``.

No row keeps one: it is made when it is told or mailed.
"""
from django.conf import settings
from django.contrib.auth.tokens import default_token_generator

from inspections.people.models import Person, Role
from inspections.people.sessions import SUPPLIER_PAGES


def invitation_token(person: Person) -> str:
    """A token that lets its holder set the person's password."""
    return f"{person.pk}.{default_token_generator.make_token(person)}"


def invitation_address(token: str, base: str = "") -> str:
    """Where a token is taken up; ``base`` where no public address is set."""
    return f"{settings.PUBLIC_ADDRESS or base}{SUPPLIER_PAGES}/invitation/{token}"


def invited(token: str) -> Person | None:
    """Whose invitation that is; None for one that was used, is over or never was."""
    pk, _, secret = token.partition(".")
    if not (pk.isascii() and pk.isdecimal() and len(pk) < 16):
        return None
    person = Person.objects.filter(pk=int(pk), role=Role.SUPPLIER, is_active=True).first()
    return person if person and default_token_generator.check_token(person, secret) else None
