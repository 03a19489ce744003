"""Open documents: kept as a phone sends them, guarded by their revision, every revision kept.

The phone says which revision it builds on (0 for a new document). If that is the current one, the document
becomes the next revision; if this very change was taken before, the answer is the same as then; otherwise
somebody else was there first and the phone gets both versions to choose from. Nothing is overwritten.
"""
from dataclasses import dataclass
from datetime import timedelta
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inspections.errors import Conflict, Unprocessable
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal_json
from inspections.people.access import need_site, sites_for
from inspections.people.models import Device, Person, Site
from inspections.records import stored
from inspections.records.judging import is_id
from inspections.records.models import Delivery, Supplier
from inspections.records.services.ids import ids_of, need_own_ids
from inspections.records.services.photo import use_photos
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.door import Sent
from inspections.sync.docket import docket_key
from inspections.sync.models import Document, DocumentRevision, DocumentState, NamedPhoto
from inspections.sync.possession import bring

#: What a revision may change of a document.
ADVANCED = ("site_id", "supplier_id", "docket_key", "separate_from", "body", "body_sha256", "person_id", "device_id",
            "updated_at", "revision", "state")
SEEN_WITHIN = timedelta(minutes=1)


class Overtaken(Exception):
    """The document is not as it was found any more."""


#: What a transaction ends with when another was there since it was made ready.
OVERTAKEN = (IntegrityError, Overtaken)


@dataclass(frozen=True)
class Saved:
    """The answer to a saved document."""

    revision: int

    @property
    def is_first(self) -> bool:
        """Whether that saving made the document."""
        return self.revision == 1


def put_document(
    *, person: Person, sent: Sent[InspectionDocument], base: int, is_replacement: bool = False, device_label: str = "",
    device: Device | None = None,
) -> Saved:
    """Keep a document that a phone sends.

    Parameters
    ----------
    person : Person
        Must see the document's site.
    sent : Sent of InspectionDocument
        As ``records.shape.door.read_delivery`` gives it.
    base : int
        The revision that it builds on; 0 when the phone knows of none.
    is_replacement : bool
        The receiver saw the other version and chose to put this one on top.
    device_label : str
        How the phone calls itself.
    device : Device, optional
        The one that the person signed in on, where its row was read for this request.

    Raises
    ------
    Forbidden
        The site is not the person's.
    Unprocessable
        DOC-SUPPLIER, IDS-TWICE.
    Conflict
        412 DOC-OTHER-REVISION with the other version, 412 DOC-NOT-HERE, 409 DOCKET-OPEN-ELSEWHERE,
        409 DOC-SIGNED with the seal, 409 DOC-BUSY, 409 IDS-TAKEN.

    Notes
    -----
    One transaction: the document, its revision, the photos that it names and, for those that are here,
    their uses and jobs. What can be asked is asked before it, since others wait while it lasts; that the document is
    still as it was found is part of the writing. A second call with the same arguments answers the same and writes
    nothing.
    """
    change = change_of(person=person, sent=sent, base=base, is_replacement=is_replacement)
    for _ in range(3):
        # Who was overtaken, by a twin or by another phone, meets what the other has written on the next round.
        try:
            return _put(change, _DeviceSeen(device, device_label))
        except OVERTAKEN:
            continue
    raise Conflict("DOC-BUSY", retry_after_s=2)


def document_for(person: Person, document_id: UUID | str, *, asked: Site | None = None) -> Document | None:
    """The document, if there is one; Forbidden when its site is not the person's.

    ``asked`` is a site that the person is known to see.
    """
    found = Document.objects.filter(pk=document_id).first()
    if found is not None and (asked is None or found.site_id != asked.pk):
        need_site(person, found.site_id)
    return found


def already_signed(document: Document) -> Conflict:
    """The refusal for a signed document, with its seal."""
    seal = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=document.pk).first()
    return Conflict("DOC-SIGNED", revision=document.revision, extra={"seal": seal_json(seal) if seal else None})


def refuse_taken_docket(change: "Change") -> None:
    """Nothing, unless another document holds the same docket and this one is not kept apart on purpose.

    Raises
    ------
    Conflict
        DOCKET-OPEN-ELSEWHERE.
    """
    if not change.docket_key or change.entered.separate_from:
        return
    same = Document.objects.filter(
        site=change.site, supplier_id=change.entered.supplier_id, docket_key=change.docket_key
    )
    other = same.exclude(pk=change.entered.id).select_related("person").order_by("created_at").first()
    if other is not None:
        raise Conflict("DOCKET-OPEN-ELSEWHERE", other_id=str(other.pk), other_state=other.state, **_who(other))


def write_revision(document: Document, change: "Change") -> None:
    """Keep what the document has just become. Inside the caller's transaction."""
    DocumentRevision.objects.create(
        document=document, revision=document.revision, base=change.base, is_replacement=change.is_replacement,
        body=change.body, body_sha256=change.sha256, person=change.person, device_id=change.entered.device_id,
    )


def name_photos(document: Document, change: "Change") -> None:
    """Keep what photos the document names now, which are other ones than before. Inside the caller's transaction."""
    before = set(document.named_photos.values_list("sha256", flat=True))
    document.named_photos.filter(sha256__in=before - {*change.photos}).delete()
    NamedPhoto.objects.bulk_create(
        NamedPhoto(document=document, sha256=sha256) for sha256 in change.photos if sha256 not in before
    )


@dataclass(frozen=True)
class Change:
    """What a document that was sent would change, and on top of which revision."""

    entered: InspectionDocument
    body: dict
    sha256: str
    site: Site
    base: int
    is_replacement: bool
    person: Person

    @property
    def docket_key(self) -> str:
        return docket_key(self.entered.docket_number or "")

    @property
    def photos(self) -> tuple[str, ...]:
        """Hashes of the photos that it names, once each."""
        return tuple(dict.fromkeys(photo.sha256 for photo in self.entered.photos))


def change_of(
    *, person: Person, sent: Sent[InspectionDocument], base: int = 0, is_replacement: bool = False, sha256: str = ""
) -> Change:
    """What a document changes; ``sha256`` is that of its canonical form, where it is known already.

    Raises
    ------
    Forbidden
        Its site is not the person's.
    """
    site = need_site(person, sent.entered.site_id)
    sha256 = sha256 or sha256_hex(canonical_bytes(sent.body))
    return Change(sent.entered, sent.body, sha256, site, base, is_replacement, person)


@dataclass(frozen=True)
class _DeviceSeen:
    """The device that a request came from, where its row was read, and how the phone calls itself."""

    row: Device | None
    label: str


def _put(change: Change, seen: _DeviceSeen) -> Saved:
    document = document_for(change.person, change.entered.id, asked=change.site)
    if document is not None and (answered := _answered_before(document, change)):
        return answered
    if document is None and Delivery.objects.filter(pk=change.entered.id).exists():
        raise Conflict("DOC-SIGNED", revision=0)
    if document is None or str(document.supplier_id) != change.entered.supplier_id:
        _need_supplier(change.entered.supplier_id)
    if document is None or ids_of(document.body) != ids_of(change.body):
        need_own_ids(change.body)
    is_settled = document is not None and _is_settled(document, change)
    device_news = _device_news(change, seen)
    with transaction.atomic():
        saved = make_document(change) if document is None else _advance(document, change)
        if device_news:
            Device.objects.update_or_create(pk=change.entered.device_id, defaults=device_news)
        if not is_settled and (document is None or document.state == DocumentState.OPEN):
            bring(change.person, change.site.pk, change.photos)
            use_photos(document=change.body)
    return saved


def _need_supplier(supplier_id: str) -> None:
    if not is_id(supplier_id) or not Supplier.objects.filter(pk=supplier_id).exists():
        raise Unprocessable("DOC-SUPPLIER")


def make_document(change: Change) -> Saved:
    """The first revision. Inside the caller's transaction."""
    if change.base:
        raise Conflict("DOC-NOT-HERE", status=412, revision=0, extra={"current": None})
    refuse_taken_docket(change)
    document = Document(id=change.entered.id, revision=1)
    _fill(document, change)
    document.save(force_insert=True)
    write_revision(document, change)
    name_photos(document, change)
    return Saved(1)


def _is_settled(document: Document, change: Change) -> bool:
    """Whether the same person names the same photos in the same places as the revision before did.

    Then their uses and jobs are written: what had arrived by then was seen to with that revision, and what has
    arrived since was when it came (``uploads``). Signing asks once more. Nearly every tap is such a revision.
    """
    return document.person_id == change.person.pk and _places(document.body) == _places(change.body)


def _places(body: dict) -> tuple:
    """The photos of a document, and all that tells what they show."""
    lines = [(line.get("id"), line.get("specification_id"),
              [carton.get("id") for carton in stored.entries(line, "cartons")])
             for line in stored.entries(body, "lines")]
    return stored.entries(body, "photos"), lines


def advance_document(document: Document, change: Change, *, state: str = DocumentState.OPEN) -> Saved:
    """The next revision, where the document is still as it was found. Inside the caller's transaction.

    Raises
    ------
    Overtaken
        Somebody else has written it since.
    """
    found = Document.objects.filter(pk=document.pk, revision=document.revision, state=document.state)
    named = {photo.get("sha256") for photo in stored.entries(document.body, "photos")}
    # A docket that is this document's already is nobody else's, by a constraint of the database.
    as_sent = change.site.pk, change.entered.supplier_id, change.docket_key, change.entered.separate_from
    if _docket(document) != as_sent:
        refuse_taken_docket(change)
    document.revision += 1
    document.state = state
    _fill(document, change)
    if not found.update(**{name: getattr(document, name) for name in ADVANCED}):
        raise Overtaken
    write_revision(document, change)
    if named != {*change.photos}:
        name_photos(document, change)
    return Saved(document.revision)


def _docket(document: Document) -> tuple:
    separate_from = document.separate_from and str(document.separate_from)
    return document.site_id, str(document.supplier_id), document.docket_key, separate_from


def _answered_before(document: Document, change: Change) -> Saved | None:
    if change.base != document.revision:  # else nothing was built on it yet
        same = document.revisions.filter(base=change.base, body_sha256=change.sha256)
        if revision := same.values_list("revision", flat=True).first():
            return Saved(revision)
    return Saved(document.revision) if change.sha256 == document.body_sha256 else None


def _advance(document: Document, change: Change) -> Saved:
    if document.state == DocumentState.SIGNED:
        raise already_signed(document)
    if change.base != document.revision:
        raise Conflict("DOC-OTHER-REVISION", status=412, revision=document.revision, **_who(document),
                       extra={"current": document.body})
    return advance_document(document, change)


def _fill(document: Document, change: Change) -> None:
    document.site, document.supplier_id = change.site, change.entered.supplier_id
    document.docket_key, document.separate_from = change.docket_key, change.entered.separate_from
    document.body, document.body_sha256 = change.body, change.sha256
    document.person, document.device_id = change.person, change.entered.device_id
    document.updated_at = timezone.now()


def _who(document: Document) -> dict:
    label = Device.objects.filter(pk=document.device_id).values_list("label", flat=True).first()
    return {"person_name": document.person.name, "device_id": str(document.device_id), "device_label": label or "",
            "updated_at": document.updated_at.isoformat()}


def _is_noted(device: Device, label: str) -> bool:
    """Whether the row says so already; that a phone was seen need not be true to the second."""
    return timezone.now() - device.last_seen < SEEN_WITHIN and label[:80] in {"", device.label}


def _device_news(change: Change, seen: _DeviceSeen) -> dict | None:
    """What is to be written of the device, if anything.

    A phone is handed on among the people of a site; an id that a stranger names too stays whose it was.
    """
    known = seen.row if seen.row is not None and str(seen.row.pk) == change.entered.device_id else (
        Device.objects.filter(pk=change.entered.device_id).select_related("person").first())
    if known is not None and known.person_id == change.person.pk and _is_noted(known, seen.label):
        return None
    if known is not None and not sites_for(known.person).filter(pk__in=sites_for(change.person)).exists():
        return None
    told = {"label": seen.label[:80]} if seen.label else {}
    return {"person": change.person, "last_seen": timezone.now(), **told}
