"""Signing: an open document becomes a sealed record, and nothing between the two can be seen from outside.

Evidence and comparison stand above records and below this module, so the order is kept here: records write the
delivery, the comparison counts it, evidence seals it, the document is closed, all in one transaction.
"""
from collections.abc import Collection
from dataclasses import replace
from datetime import datetime
from uuid import UUID

from django.db import IntegrityError, transaction

from inspections.comparison.tallies import tally_delivery
from inspections.errors import Conflict
from inspections.evidence.contents import addendum_content, delivery_content
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal, seal_json
from inspections.evidence.sharing import shared_copies
from inspections.people.models import Person
from inspections.records.models import Delivery, Photo
from inspections.records.services.addendum import add_addendum
from inspections.records.services.delivery import sign_delivery
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import Sent
from inspections.records.shape.later import ThawedAddendum
from inspections.sync.document import (
    Change,
    advance_document,
    already_signed,
    change_of,
    document_for,
    make_document,
)
from inspections.sync.models import Document, DocumentState
from inspections.sync.possession import bring


def sign(
    *, sent: Sent[InspectionDocument], person: Person, signed_at: datetime | None = None,
    brought_by: Person | None = None,
) -> Seal:
    """Sign and seal a delivery.

    Parameters
    ----------
    sent : Sent of InspectionDocument
        The final document, as ``records.shape.door.read_delivery`` gives it.
    person : Person
        Must see the site.
    signed_at : datetime, optional
        Now; the demo scenario gives the day it tells of.
    brought_by : Person, optional
        Who brought it in from the phone's file; sealed with it.

    Raises
    ------
    Conflict
        409 PHOTOS-MISSING with the hashes, DOC-SIGNED with the seal when other entries were signed under
        this id, DOCKET-OPEN-ELSEWHERE, IDS-TAKEN.
    CannotUse
        422: what cannot be signed, in a sentence (see ``records.services.signable``).
    NotYours
        The site is not the person's.

    Notes
    -----
    One transaction: delivery with its rows and jobs, its tallies, seal, the document's last revision. The copies of
    photos that may be shown outside are made when the photos arrive; one that is missing is made here. The
    same document again answers with the same seal and writes nothing, whatever key it came with.
    """
    change = change_of(person=person, sent=sent)
    _need_photos(person, change.site.pk, change.photos)
    for _ in range(2):
        # The loser of two parallel twins meets the winner's seal on its second round.
        try:
            with transaction.atomic():
                return _sign(change, sent, signed_at, brought_by)
        except IntegrityError:
            continue
    raise Conflict("IDS-TAKEN", what="A line or carton")


def signed_json(sealed: Seal) -> dict:
    """What a phone is answered for its signature."""
    told = Delivery.objects.values("judgement", "difference", "noticed").get(pk=sealed.subject_id)
    return {"seal": seal_json(sealed), **told}


def add(*, delivery: Delivery, sent: Sent, person: Person) -> Seal:
    """Add a put-away, a correction, or what was found later to a signed delivery, and seal it.

    Raises
    ------
    CannotUse, Conflict
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
    change: Change, sent: Sent[InspectionDocument], signed_at: datetime | None, brought_by: Person | None
) -> Seal:
    document = document_for(change.person, change.entered.id, lock=True, asked=change.site)
    if document is not None and document.state == DocumentState.SIGNED:
        if document.body_sha256 != change.sha256:
            raise already_signed(document)
        return _seal_of(document.pk)
    delivery = sign_delivery(
        sent=sent, site=change.site, person=change.person, signed_at=signed_at, brought_by=brought_by)
    tally_delivery(delivery)
    _close(document, change)
    return seal(
        site=delivery.site, kind=SealKind.DELIVERY, subject_id=delivery.pk, content=delivery_content(delivery),
        sealed_at=signed_at,
    )


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
    shared_copies(Photo.objects.filter(pk__in=named))


def _seal_of(delivery_id) -> Seal:
    # By its kind too: an addendum's id comes from a device and may be a delivery's.
    return Seal.objects.select_related("public_key").get(kind=SealKind.DELIVERY, subject_id=delivery_id)
