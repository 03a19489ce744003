"""Passkeys (WebAuthn): signing in by what a phone or key holds and its owner's finger, face or PIN, without a password.

Adding one takes the password; from then on either opens the account. Only its public half is kept here. A browser
offers passkeys for names alone, and only over HTTPS or on the machine itself: a server that is reached by its address
in the kitchen's network goes on by password.

What is asked of the browser is signed once: the challenge lies in the session, for five minutes, and goes with its
first use.

Source: Web Authentication Level 2 (W3C Recommendation, 8 April 2021), 7.1 and 7.2, through the library ``webauthn``.
"""
import ipaddress
import json
import time
from typing import Any
from urllib.parse import urlsplit

import webauthn
from django.conf import settings
from django.contrib.auth.backends import ModelBackend
from django.http import HttpRequest
from django.utils import timezone
from webauthn.helpers import base64url_to_bytes, bytes_to_base64url
from webauthn.helpers.structs import (
    AuthenticatorSelectionCriteria,
    PublicKeyCredentialDescriptor,
    ResidentKeyRequirement,
    UserVerificationRequirement,
)

from inspections.errors import ApiProblem, NotFound, Unprocessable
from inspections.people.models import Passkey, Person

BACKEND = "inspections.people.passkeys.PasskeyBackend"
ASKED, LASTS_S, MOST = "passkey_asked", 300, 10


class PasskeyBackend(ModelBackend):
    """Names sessions that began with a passkey; ``check`` is what opens them."""

    def authenticate(self, request: HttpRequest | None, username: str | None = None, password: str | None = None,
                     **more: Any) -> None:
        return None


def options_to_add(request: HttpRequest, person: Person) -> dict[str, Any]:
    """What the browser needs to make a passkey for the person (PublicKeyCredentialCreationOptions as JSON).

    Raises
    ------
    Unprocessable
        PASSKEY-ADDRESS, PASSKEY-TOO-MANY.
    """
    held = list(Passkey.objects.filter(person=person))
    if len(held) >= MOST:
        raise Unprocessable("PASSKEY-TOO-MANY", most=MOST)
    options = webauthn.generate_registration_options(
        rp_id=_host(request), rp_name=settings.INSTALLATION_NAME, user_id=str(person.pk).encode(),
        user_name=person.username, user_display_name=person.name or person.username,
        authenticator_selection=AuthenticatorSelectionCriteria(
            resident_key=ResidentKeyRequirement.REQUIRED, user_verification=UserVerificationRequirement.REQUIRED),
        exclude_credentials=[PublicKeyCredentialDescriptor(id=base64url_to_bytes(one.credential_id)) for one in held])
    return _asked(request, options)


def add(request: HttpRequest, person: Person, *, credential: dict[str, Any], label: str) -> Passkey:
    """Keep the passkey that the browser made.

    Raises
    ------
    Unprocessable
        PASSKEY-LATE: not asked for, or more than five minutes ago; PASSKEY-UNUSABLE.
    """
    challenge = _challenge(request)
    try:
        made = webauthn.verify_registration_response(
            credential=credential, expected_challenge=challenge, expected_rp_id=_host(request),
            expected_origin=_origin(request), require_user_verification=True)
    except Exception as trouble:  # a library that reads a stranger's bytes fails in many ways
        raise Unprocessable("PASSKEY-UNUSABLE") from trouble
    key, is_new = Passkey.objects.get_or_create(credential_id=bytes_to_base64url(made.credential_id), defaults={
        "person": person, "public_key": made.credential_public_key, "sign_count": made.sign_count,
        "label": label.strip()})
    if not is_new and key.person_id != person.pk:
        raise Unprocessable("PASSKEY-UNUSABLE")
    return key


def options_to_sign_in(request: HttpRequest) -> dict[str, Any]:
    """What the browser needs to ask for any passkey of this house (PublicKeyCredentialRequestOptions as JSON).

    Raises
    ------
    Unprocessable
        PASSKEY-ADDRESS.
    """
    options = webauthn.generate_authentication_options(
        rp_id=_host(request), user_verification=UserVerificationRequirement.REQUIRED)
    return _asked(request, options)


def check(request: HttpRequest, credential: dict[str, Any]) -> Person:
    """Whose passkey signed what was asked; the same answer whatever was wrong.

    Raises
    ------
    Unprocessable
        PASSKEY-LATE.
    ApiProblem
        401 PASSKEY-WRONG: unknown, taken away, its owner's account closed, or not well signed.
    """
    challenge, told = _challenge(request), credential.get("id")
    key = Passkey.objects.select_related("person").filter(credential_id=told, person__is_active=True).first() \
        if isinstance(told, str) else None
    if key is None:
        raise ApiProblem("PASSKEY-WRONG", status=401)
    try:
        found = webauthn.verify_authentication_response(
            credential=credential, expected_challenge=challenge, expected_rp_id=_host(request),
            expected_origin=_origin(request), credential_public_key=bytes(key.public_key),
            credential_current_sign_count=key.sign_count, require_user_verification=True)
    except Exception as trouble:  # as above
        raise ApiProblem("PASSKEY-WRONG", status=401) from trouble
    key.sign_count, key.last_used_at = found.new_sign_count, timezone.now()
    key.save(update_fields=["sign_count", "last_used_at"])
    # Django's sign-in asks by which of the ways it was.
    key.person.backend = BACKEND
    return key.person


def remove(person: Person, passkey_id: int) -> Passkey:
    """Take a passkey away; it opens nothing any more. NotFound where it is none of the person's."""
    key = Passkey.objects.filter(person=person, pk=passkey_id).first()
    if key is None:
        raise NotFound()
    Passkey.objects.filter(pk=key.pk).delete()
    return key


def passkey_json(key: Passkey) -> dict[str, Any]:
    """A passkey as its owner lists it."""
    return {"id": key.pk, "label": key.label, "created_at": key.created_at.isoformat(),
            "last_used_at": key.last_used_at and key.last_used_at.isoformat()}


def _asked(request: HttpRequest, options: Any) -> dict[str, Any]:
    request.session[ASKED] = {"challenge": bytes_to_base64url(options.challenge), "at": int(time.time())}
    if not request.user.is_authenticated:
        request.session.set_expiry(LASTS_S)
    told: dict[str, Any] = json.loads(webauthn.options_to_json(options))
    return told


def _challenge(request: HttpRequest) -> bytes:
    asked = request.session.pop(ASKED, None)
    if asked is None or time.time() - asked["at"] > LASTS_S:
        raise Unprocessable("PASSKEY-LATE")
    return base64url_to_bytes(asked["challenge"])


def _host(request: HttpRequest) -> str:
    """The name that passkeys of this house are bound to."""
    name = urlsplit(f"//{request.get_host()}").hostname or ""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return name
    raise Unprocessable("PASSKEY-ADDRESS")


def _origin(request: HttpRequest) -> str:
    return f"{request.scheme}://{request.get_host()}"
