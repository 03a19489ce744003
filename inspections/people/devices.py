"""Devices: shared ones that a manager enrols by a code, everybody's own, and taking one out of use.

A shared device carries a key in a cookie of its own. Only its hash is kept, so a stolen database opens nothing.
"""
import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.conf import settings
from django.core import signing
from django.db import transaction
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from inspections.errors import Forbidden, NotFound, Unprocessable
from inspections.people.access import need_site, sites_for
from inspections.people.models import Device, EnrolmentCode, Person, Site

COOKIE, SALT, LASTS_S = "shared_device", "people.devices", 400 * 24 * 3600
#: No letters that are read as another (Crockford's base 32). Eight of 32 signs are 2 to the power of 40: in a
#: quarter of an hour nobody tries a millionth of them.
SIGNS, LENGTH, CODE_MINUTES = "0123456789ABCDEFGHJKMNPQRSTVWXYZ", 8, 15
READ_AS = str.maketrans("OIL", "011", " -")


@dataclass(frozen=True)
class Shared:
    """The shared device that a request came from, if any; ``device`` is one out of use too."""

    device: Device | None

    @property
    def is_usable(self) -> bool:
        return self.device is not None and self.device.revoked_at is None


def make_code(*, person: Person, site_id, label: str) -> tuple[str, datetime]:
    """A code to enrol one device at a site, and when it ends; the code is told this once.

    Raises
    ------
    Forbidden
        NOT-YOURS: not a site of the person's.
    Unprocessable
        DEVICE-LABEL.
    """
    site = need_site(person, site_id)
    if not label.strip():
        raise Unprocessable("DEVICE-LABEL")
    code = "".join(secrets.choice(SIGNS) for _ in range(LENGTH))
    ends = timezone.now() + timedelta(minutes=CODE_MINUTES)
    EnrolmentCode.objects.create(
        code_hash=_hash(code), site=site, label=label.strip()[:80], created_by=person, expires_at=ends
    )
    return f"{code[:4]}-{code[4:]}", ends


def enrol(*, code: str, device_id: UUID) -> tuple[Device, str]:
    """Make the device a shared one of the code's site; the device and its key, which is told this once.

    Raises
    ------
    Unprocessable
        CODE-WRONG.

    Notes
    -----
    One transaction. A device that was taken out of use is in use again.
    """
    plain = code.upper().translate(READ_AS)
    now = timezone.now()
    with transaction.atomic():
        found = EnrolmentCode.objects.select_for_update(of=("self",)).select_related("site", "created_by").filter(
            code_hash=_hash(plain), used_at=None, expires_at__gt=now
        ).first()
        if found is None:
            raise Unprocessable("CODE-WRONG", minutes=CODE_MINUTES)
        found.used_at = now
        found.save(update_fields=["used_at"])
        key = secrets.token_urlsafe(32)
        device, _ = Device.objects.update_or_create(pk=device_id, defaults={
            "person": found.created_by, "label": found.label, "last_seen": now, "site": found.site,
            "key_hash": _hash(key), "enrolled_by": found.created_by, "enrolled_at": now,
            "revoked_at": None, "revoked_by": None,
        })
    return device, key


def remember_device(response: HttpResponse, device: Device, key: str) -> None:
    """Put the device's key into its cookie."""
    told = signing.dumps({"id": str(device.pk), "key": key}, salt=SALT)
    response.set_cookie(
        COOKIE, told, max_age=LASTS_S, httponly=True, secure=settings.BEHIND_HTTPS, samesite="Lax"
    )


def shared_device(request: HttpRequest) -> Shared:
    """The shared device that the request came from, by its cookie."""
    try:
        told = signing.loads(request.COOKIES.get(COOKIE, ""), salt=SALT, max_age=LASTS_S)
    except signing.BadSignature:
        return Shared(None)
    device = Device.objects.select_related("site", "revoked_by").filter(pk=told["id"]).exclude(key_hash="").first()
    if device is None or not secrets.compare_digest(device.key_hash, _hash(told["key"])):
        return Shared(None)
    return Shared(device)


def note_use(*, person: Person, device_id: UUID | None, label: str) -> Device | None:
    """Whose hands a device is in since this sign-in; None where the browser named none."""
    if device_id is None:
        return None
    told = {"label": label.strip()[:80]} if label.strip() else {}
    device, is_new = Device.objects.get_or_create(
        pk=device_id, defaults={"person": person, "last_seen": timezone.now(), **told}
    )
    if not is_new:
        device.person, device.last_seen = person, timezone.now()
        device.save(update_fields=["person", "last_seen"])
    return device


def refusal_of(device: Device | None) -> Forbidden | None:
    """Why nothing is taken from the device, if it is out of use."""
    if device is None or device.revoked_at is None:
        return None
    on = f"{device.revoked_at.day} {device.revoked_at:%B %Y}"
    return Forbidden("DEVICE-REVOKED", by=device.revoked_by.name if device.revoked_by else "a manager", on=on)


def devices_for(person: Person) -> QuerySet[Device]:
    """Shared devices of the person's sites, and the devices of those who work there."""
    sites = sites_for(person)
    workers = Person.objects.filter(sites__in=sites).values("pk")
    rows = Device.objects.select_related("person", "site", "enrolled_by", "revoked_by")
    if sites.count() == Site.objects.count():
        return rows
    return rows.filter(Q(site__in=sites) | Q(site=None, person__in=workers))


def switch_device(*, person: Person, device_id: UUID, is_revoked: bool) -> Device:
    """Take a device out of use, or into use again; the same twice changes nothing.

    Raises
    ------
    NotFound
        None of that id that the person looks after.
    """
    device = devices_for(person).filter(pk=device_id).first()
    if device is None:
        raise NotFound()
    if is_revoked != (device.revoked_at is not None):
        device.revoked_at = timezone.now() if is_revoked else None
        device.revoked_by = person if is_revoked else None
        device.save(update_fields=["revoked_at", "revoked_by"])
    return device


def device_json(device: Device) -> dict:
    """A device as the desk lists it."""
    return {
        "id": str(device.pk), "label": device.label, "person": device.person.name,
        "site": {"id": str(device.site_id), "name": device.site.name} if device.site else None,
        "last_seen": device.last_seen.isoformat(),
        "enrolled_by": device.enrolled_by.name if device.enrolled_by else None,
        "enrolled_at": device.enrolled_at.isoformat() if device.enrolled_at else None,
        "revoked_by": device.revoked_by.name if device.revoked_by else None,
        "revoked_at": device.revoked_at.isoformat() if device.revoked_at else None,
    }


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()
