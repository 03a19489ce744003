"""Signing: an open document becomes a sealed record, and nothing between the two can be seen from outside.

Evidence and comparison stand above records and below this module, so the order is kept here: records write the
delivery, the comparison counts it, evidence seals it, the document is closed, all in one transaction.
"""
from collections.abc import Callable, Collection
from dataclasses import replace
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from django.db import IntegrityError, transaction

from inspections.comparison.tallies import tally_delivery
from inspections.errors import Conflict
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.contents import addendum_content, delivery_content
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal, seal_json
from inspections.people.models import Person
from inspections.records.models import Delivery
from inspections.records.services.addendum import add_addendum
from inspections.records.services.delivery import Prepared, prepare_delivery, write_delivery
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import Sent
from inspections.records.shape.later import ThawedAddendum
from inspections.sync.document import (
    OVERTAKEN,
    Change,
    advance_document,
    already_signed,
    change_of,
    document_for,
    make_document,
    refuse_taken_docket,
)
from inspections.sync.idempotency import idempotent
from inspections.sync.models import Document, DocumentState
from inspections.sync.possession import bring

#: Who is overtaken meets on the next round what the other wrote.
ROUNDS = 3


class Signed(NamedTuple):
    """A delivery with its seal."""

    seal: Seal
    delivery: Delivery


def sign(*, sent: Sent[InspectionDocument], person: Person, signed_at: datetime | None = None) -> Seal:
    """``prepare`` a signature and write it in one transaction; where another was ahead of it, all over again."""
    for _ in range(ROUNDS):
        write = prepare(sent=sent, person=person, signed_at=signed_at)
        try:
            with transaction.atomic():
                return write().seal
        except OVERTAKEN:
            continue
    raise Conflict("IDS-TAKEN", what="A line or carton")


def prepare(
    *, sent: Sent[InspectionDocument], person: Person, signed_at: datetime | None = None, sha256: str = "",
    brought_by: Person | None = None,
) -> Callable[[], Signed]:
    """Judge a final document and make ready what is sealed; what is given back signs and seals it.

    Parameters
    ----------
    sent : Sent of InspectionDocument
        The final document, as ``records.shape.door.read_delivery`` gives it.
    person : Person
        Must see the site.
    signed_at : datetime, optional
        Now; the demo scenario gives the day it tells of.
    sha256 : str, optional
        Of the document's canonical form, where it is known.
    brought_by : Person, optional
        Who brought it in from the phone's file; sealed with it.

    Returns
    -------
    callable
        To be called inside a transaction, whose end signs: the delivery with its rows and jobs, its tallies, seal, the
        document's last revision. Raises one of ``OVERTAKEN`` where another was there since; then all begins anew.

    Raises
    ------
    Conflict
        409 PHOTOS-MISSING with the hashes, DOC-SIGNED with the seal when other entries were signed under
        this id, DOCKET-OPEN-ELSEWHERE, IDS-TAKEN.
    Unprocessable
        422: what cannot be signed, in a sentence (see ``records.services.signable``).
    Forbidden
        The site is not the person's.

    Notes
    -----
    All that can be asked and computed is done here, before the transaction: on SQLite everybody waits while it lasts.
    The copies of photos that may be shown outside are made when the photos arrive; one that is missing is made here.
    The same document again answers with the same seal and writes nothing, whatever key it came with.
    """
    change = change_of(person=person, sent=sent, sha256=sha256)
    _need_photos(person, change.site.pk, change.photos)
    document = document_for(person, change.entered.id, asked=change.site)
    if document is not None and document.state == DocumentState.SIGNED:
        if document.body_sha256 != change.sha256:
            raise already_signed(document)
        sealed = _seal_of(document.pk)
        return lambda: Signed(sealed, Delivery.objects.get(pk=change.entered.id))
    if document is None:
        if Delivery.objects.filter(pk=change.entered.id).exists():
            raise Conflict("ALREADY-SIGNED")
        refuse_taken_docket(change)
    made = prepare_delivery(
        sent=sent, site=change.site, person=person, signed_at=signed_at, brought_by=brought_by)
    content = canonical_bytes(delivery_content(made.delivery, made.versions))
    return lambda: _sign(document, change, made, content, signed_at)


def sign_once(
    *, sent: Sent[InspectionDocument], person: Person, key: str | None, brought_by: Person | None = None
) -> dict:
    """``sign`` under a key; the answer for the phone, the same ever after. Raises as ``prepare``, ``idempotent`` do."""
    spelled = canonical_bytes(sent.body)

    def made_ready() -> Callable[[], dict]:
        write = prepare(sent=sent, person=person, sha256=sha256_hex(spelled), brought_by=brought_by)
        return lambda: _signed_json(write())

    return idempotent(person=person, key=key, asked=b'{"document":%b}' % spelled, prepare=made_ready)


def add(*, delivery: Delivery, sent: Sent, person: Person) -> Seal:
    """Add a put-away, a correction, or what was found later to a signed delivery, and seal it.

    Raises
    ------
    Unprocessable, Conflict
        As ``records.services.addendum.add_addendum``; 409 PHOTOS-MISSING with the hashes.

    Notes
    -----
    One transaction: the addendum with its rows, its tallies and its seal. The same addendum again answers with the
    same seal.
    """
    if isinstance(sent.entered, ThawedAddendum):
        _need_photos(person, delivery.site_id, [photo.sha256 for photo in sent.entered.body.photos])
    try:
        return _add(delivery, sent, person)
    except IntegrityError:
        # The loser of two parallel twins meets the winner's row.
        return _add(delivery, sent, person)


def _add(delivery: Delivery, sent: Sent, person: Person) -> Seal:
    with transaction.atomic():
        Delivery.objects.select_for_update(of=("self",)).get(pk=delivery.pk)
        row = add_addendum(delivery=delivery, sent=sent, person=person)
        tally_delivery(delivery)
        content = addendum_content(row, delivery_seal_sha256=_seal_of(delivery.pk).sha256)
        sealed_at = row.at if delivery.is_demo else None
        return seal(site=delivery.site, kind=SealKind.ADDENDUM, subject_id=row.pk, content=content, sealed_at=sealed_at)


def _sign(
    document: Document | None, change: Change, made: Prepared, content: bytes, signed_at: datetime | None
) -> Signed:
    delivery = write_delivery(made)
    tally_delivery(delivery)
    _close(document, change)
    sealed = seal(site=delivery.site, kind=SealKind.DELIVERY, subject_id=delivery.pk, content=content,
                  sealed_at=signed_at)
    return Signed(sealed, delivery)


def _close(document: Document | None, change: Change) -> None:
    """The signed document is the last revision, also where it never came as an open one."""
    if document is None:
        make_document(change)
        Document.objects.filter(pk=change.entered.id).update(state=DocumentState.SIGNED)
    else:
        advance_document(document, replace(change, base=document.revision), state=DocumentState.SIGNED)


def _need_photos(person: Person, site_id: UUID, named: Collection[str]) -> None:
    lacking = bring(person, site_id, named)
    if missing := [sha256 for sha256 in named if sha256 in lacking]:
        raise Conflict("PHOTOS-MISSING", count=len(missing), missing=missing)


def _signed_json(signed: Signed) -> dict:
    """What a phone is answered for its signature."""
    return {"seal": seal_json(signed.seal), **{
        name: getattr(signed.delivery, name) for name in ("judgement", "difference", "noticed")}}


def _seal_of(delivery_id) -> Seal:
    # By its kind too: an addendum's id comes from a device and may be a delivery's.
    return Seal.objects.select_related("public_key").get(kind=SealKind.DELIVERY, subject_id=delivery_id)
