"""Another sealing key from now on: the old one hands over to the new one, in the chain of every site.

The handing over is sealed with the old key, so it was its holder's wish. From that seal on the old key seals
nothing more at that site; ``verify_seals`` names a seal that it made all the same. Its public half stays
published (``key_page``), so every earlier seal stays checkable.

Does not help: against somebody who had the old key before and holds a copy of the database from then. What stands
against that are the copies outside the server.
"""
from dataclasses import dataclass
from datetime import datetime

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from inspections.evidence import keys
from inspections.evidence.contents import SCHEMA, site_words
from inspections.evidence.models import Seal, SealingKey, SealKind
from inspections.evidence.seals import known_key, seal
from inspections.people import trail
from inspections.people.models import Site, new_id


@dataclass(frozen=True)
class Rotated:
    """Ids of both keys, and at how many sites the change was sealed."""

    old_key_id: str
    new_key_id: str
    sites: int


@dataclass(frozen=True)
class PublishedKey:
    """A public key with the time of its first use, and that from which it seals nothing more (None: it still does)."""

    id: str
    pem: str
    since: datetime
    until: datetime | None


def rotate_key(why: str) -> Rotated:
    """Put a new sealing key in the place of the present one.

    Parameters
    ----------
    why : str
        For the sealed record, e.g. "the yearly change".

    Notes
    -----
    Every site's row is held meanwhile, so no seal can be made between the old key's last and the change. The new
    key's file is put in place just before the transaction ends; killed in between, the new key seals on and no seal
    tells of the change, which alters nothing about any seal.
    """
    at = timezone.now()
    with transaction.atomic():
        sites = list(Site.objects.select_for_update(no_key=True).order_by("pk"))
        with keys.next_key() as new:
            old_id, key = known_key(keys.private_key()).pk, known_key(new)
            # A site that has sealed nothing has no chain that could tell of an old key.
            begun = [site for site in sites if Seal.objects.filter(site=site).exists()]
            for site in begun:
                change = new_id()
                seal(site=site, kind=SealKind.KEY, subject_id=change, sealed_at=at, content={
                    "schema": SCHEMA, "kind": "key", "installation": settings.INSTALLATION_NAME,
                    "site": site_words(site), "id": str(change), "at": at.isoformat(), "why": why,
                    "old_key_id": old_id, "new_key_id": key.pk, "new_key": key.pem,
                })
            trail.note_by_operator("key_rotated", f"{old_id[:16]} to {key.pk[:16]}: {why}")
    return Rotated(old_id, key.pk, len(begun))


def published_keys() -> list[PublishedKey]:
    """Every key that seals were made with, oldest first."""
    until = {seal.public_key_id: seal.sealed_at for seal in Seal.objects.filter(kind=SealKind.KEY)}
    return [PublishedKey(row.pk, row.pem, row.first_used_at, until.get(row.pk))
            for row in SealingKey.objects.order_by("first_used_at", "pk")]
