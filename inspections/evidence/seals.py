"""Sealing: a record can no longer be altered without it showing.

``seal`` spells the record canonically, hashes it, names it in a statement that follows on the site's last
one, and signs that. Row by row it is tamper-evident, not tamper-proof: somebody with the database *and*
the key could write the chain anew, but not the copies that suppliers and phones already hold. The latest
seals of a site can be cut off the same way; each phone and each evidence bundle holds a number and a hash
that would then be missing.
"""
import base64
import json
from datetime import datetime
from typing import Any
from uuid import UUID

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from inspections.evidence import keys
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.models import Seal, SealingKey, SealKind
from inspections.evidence.statement import NO_SEAL_BEFORE, Statement
from inspections.people.models import Site
from inspections.records.models import Delivery


def seal(
    *, site: Site, kind: str, subject_id: UUID, content: dict[str, Any] | bytes, sealed_at: datetime | None = None
) -> Seal:
    """Seal a record as the next of its site.

    Parameters
    ----------
    site : Site
    kind : str
        ``delivery``, ``addendum``, ``logger``, ``claim`` or ``key``.
    subject_id : UUID
    content : dict or bytes
        The whole record, JSON; bytes are its canonical form already.
    sealed_at : datetime, optional
        Now by default; the demo scenario gives the day it tells of.

    Returns
    -------
    Seal
        The one already there when this record was sealed before.

    Raises
    ------
    Unprocessable
        RECORD-NOT-EXACT.
    TransactionManagementError
        Not inside a transaction: a seal must stand or fall with the fact that it seals.

    Notes
    -----
    Holds the site's row until the caller's transaction ends, so numbers follow without gaps. Where a
    database does not lock rows (SQLite) its one writer at a time does the same.
    """
    known: Seal | None = Seal.objects.filter(kind=kind, subject_id=subject_id).first()
    if known is not None:
        return known
    if not transaction.get_connection().in_atomic_block:
        raise transaction.TransactionManagementError("seal() must be called inside transaction.atomic()")
    if transaction.get_connection().features.has_select_for_update:
        Site.objects.select_for_update(no_key=True).get(pk=site.pk)
    # Without its content, which is a whole record.
    last = Seal.objects.filter(site=site).order_by("-number").only("number", "sha256").first()
    spelled = content if isinstance(content, bytes) else canonical_bytes(content)
    key = keys.private_key()
    public = known_key(key)
    statement = Statement(
        site_id=str(site.pk), number=last.number + 1 if last else 1, kind=kind, subject_id=str(subject_id),
        content_sha256=sha256_hex(spelled), previous_sha256=last.sha256 if last else NO_SEAL_BEFORE,
        public_key_id=public.pk, sealed_at=sealed_at or timezone.now(),
    )
    signature = base64.b64encode(key.sign(statement.to_bytes())).decode("ascii")
    return Seal.objects.create(
        site=site, number=statement.number, kind=kind, subject_id=subject_id, content=spelled,
        content_sha256=statement.content_sha256, previous_sha256=statement.previous_sha256,
        sha256=statement.sha256, signature=signature, public_key=public, sealed_at=statement.sealed_at,
    )


def seal_json(seal: Seal) -> dict[str, Any]:
    """A seal as the phone and the desk get it."""
    return {
        "id": str(seal.pk),
        "kind": seal.kind,
        "subject_id": str(seal.subject_id),
        "number": seal.number,
        "content_sha256": seal.content_sha256,
        "previous_sha256": seal.previous_sha256,
        "sha256": seal.sha256,
        "signature": seal.signature,
        "public_key_id": seal.public_key_id,
        "sealed_at": seal.sealed_at.isoformat(),
    }


def content_of(seal: Seal) -> dict[str, Any]:
    """The sealed record, read back from its sealed bytes."""
    content: dict[str, Any] = json.loads(bytes(seal.content))
    return content


def seals_of(delivery: Delivery) -> list[Seal]:
    """The delivery's seal and those of its addenda, logger files and claims, in the order they were made."""
    # By kind and id: ids of addenda come from devices, so an id alone may be anybody's.
    wanted = Q(kind=SealKind.DELIVERY, subject_id=delivery.pk)
    for kind, rows in ((SealKind.ADDENDUM, delivery.addenda), (SealKind.LOGGER, delivery.logger_files),
                       (SealKind.CLAIM, delivery.claim_entries)):
        wanted |= Q(kind=kind, subject_id__in=list(rows.values_list("pk", flat=True)))
    return list(Seal.objects.filter(wanted).select_related("public_key", "site").order_by("number"))


def known_key(key: Ed25519PrivateKey) -> SealingKey:
    """The public half of a key, kept from its first use on."""
    pem = keys.pem_of(key.public_key())
    return SealingKey.objects.get_or_create(pk=keys.key_id(pem), defaults={"pem": pem})[0]
