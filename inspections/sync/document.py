"""Open documents: kept as a phone sends them, guarded by their revision, every revision kept.

The phone says which revision it builds on (0 for a new document). If that is the current one, the document
becomes the next revision; if this very change was taken before, the answer is the same as then; otherwise
somebody else was there first and the phone gets both versions to choose from. Nothing is overwritten.
"""
from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inspections.errors import CannotUse, Conflict, add_sentences
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal_json
from inspections.people.access import need_site, sites_for
from inspections.people.models import Device, Person
from inspections.records.acts.ids import need_own_ids
from inspections.records.acts.photo import use_photos
from inspections.records.acts.signable import is_text_kept
from inspections.records.models import Delivery, Supplier
from inspections.sync.models import Document, DocumentRevision, DocumentState, NamedPhoto
from inspections.sync.possession import bring
from inspections.sync.shape import Outline, outline_of

add_sentences({
    "DOC-OTHER-REVISION": "{person_name} has saved this delivery from another device in the meantime. Both versions "
    "are kept. Look at both and choose which one goes on.",
    "DOC-NOT-HERE": "The server does not have this delivery. It is safe on the phone. Send it as it is.",
    "DOC-SIGNED": "This delivery is signed and sealed. The signed record is safe. Add a correction to it instead.",
    "DOC-BUSY": "The same delivery is being saved at this moment. Nothing was lost. It is sent again by itself.",
    "DOCKET-OPEN-ELSEWHERE": "{person_name} has a delivery with this docket already ({other_state}). Both are kept. "
    "Go on with that one, or keep this one apart.",
    "DOC-TEXT": "An entry of this delivery holds a sign that cannot be stored ({where}). The delivery is safe on the "
    "phone. Delete what stands there and type it again.",
    "DOC-SUPPLIER": "The supplier of this delivery is not one that the server knows. The delivery is safe on the "
    "phone. Choose the supplier again.",
})


@dataclass(frozen=True)
class Saved:
    """The answer to a saved document."""

    revision: int

    @property
    def is_first(self) -> bool:
        """Whether that saving made the document."""
        return self.revision == 1


def put_document(
    *, person: Person, document_id: UUID, body: dict, base: int, is_replacement: bool = False, device_label: str = ""
) -> Saved:
    """Keep a document that a phone sends.

    Parameters
    ----------
    person : Person
        Must see the document's site.
    document_id : UUID
    body : dict
        The document.
    base : int
        The revision that it builds on; 0 when the phone knows of none.
    is_replacement : bool
        The receiver saw the other version and chose to put this one on top.
    device_label : str
        How the phone calls itself.

    Raises
    ------
    NotYours
        The site is not the person's.
    CannotUse
        DOC-SHAPE, DOC-SCHEMA, DOC-ID-DIFFERS, DOC-TEXT, RECORD-NOT-EXACT, IDS-TWICE.
    Conflict
        412 DOC-OTHER-REVISION with the other version, 412 DOC-NOT-HERE, 409 DOCKET-OPEN-ELSEWHERE,
        409 DOC-SIGNED with the seal, 409 DOC-BUSY, 409 IDS-TAKEN.

    Notes
    -----
    One transaction: the document, its revision, the photos that it names and, for those that are here,
    their uses and jobs. A second call with the same arguments answers the same and writes nothing.
    """
    outline = outline_of(body, document_id)
    need_site(person, outline.site_id)
    _need_text(body)
    change = _Change(outline, body, sha256_hex(canonical_bytes(body)), base, is_replacement, person)
    for _ in range(2):
        # The loser of two parallel firsts meets the winner's row on its second round.
        try:
            with transaction.atomic():
                return _put(change, device_label)
        except IntegrityError:
            continue
    raise Conflict("DOC-BUSY", retry_after_s=2)


def _need_text(body: dict) -> None:
    """Refuse a NUL or half a surrogate pair: not every database keeps them, and signing would refuse them late."""
    if not is_text_kept(body):
        where = next((path for path, value in _texts(body, "") if not is_text_kept({"": value})), "")
        raise CannotUse("DOC-TEXT", where=where)


def _texts(value, path: str) -> Iterator[tuple[str, str]]:
    """Every text of a document with its path; the name of a key that cannot be kept counts for its parent."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, list):
        for number, entry in enumerate(value):
            yield from _texts(entry, f"{path}[{number}]")
    elif isinstance(value, dict):
        for name, entry in value.items():
            yield path, name
            yield from _texts(entry, f"{path}.{name}".lstrip("."))


def document_for(person: Person, document_id: UUID, *, lock: bool = False) -> Document | None:
    """The document, if there is one; NotYours when its site is not the person's."""
    rows = Document.objects.select_for_update(of=("self",)) if lock else Document.objects
    found = rows.select_related("person").filter(pk=document_id).first()
    if found is not None:
        need_site(person, found.site_id)
    return found


def already_signed(document: Document) -> Conflict:
    """The refusal for a signed document, with its seal."""
    seal = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=document.pk).first()
    return Conflict("DOC-SIGNED", revision=document.revision, extra={"seal": seal_json(seal) if seal else None})


def refuse_taken_docket(outline: Outline) -> None:
    """Nothing, unless another document holds the same docket and this one is not kept apart on purpose.

    Raises
    ------
    Conflict
        DOCKET-OPEN-ELSEWHERE.
    """
    if not outline.docket_key or outline.separate_from:
        return
    same = Document.objects.filter(
        site_id=outline.site_id, supplier_id=outline.supplier_id, docket_key=outline.docket_key
    )
    other = same.exclude(pk=outline.id).select_related("person").order_by("created_at").first()
    if other is not None:
        raise Conflict("DOCKET-OPEN-ELSEWHERE", other_id=str(other.pk), other_state=other.state, **_who(other))


def write_revision(document: Document, change: "_Change") -> None:
    """Keep what the document has just become, and what photos it names. Inside the caller's transaction."""
    DocumentRevision.objects.create(
        document=document, revision=document.revision, base=change.base, is_replacement=change.is_replacement,
        body=change.body, body_sha256=change.sha256, person=change.person, device_id=change.outline.device_id,
    )
    before = set(document.named_photos.values_list("sha256", flat=True))
    document.named_photos.filter(sha256__in=before - {*change.outline.photos}).delete()
    NamedPhoto.objects.bulk_create(
        NamedPhoto(document=document, sha256=sha256) for sha256 in change.outline.photos if sha256 not in before
    )


@dataclass(frozen=True)
class _Change:
    outline: Outline
    body: dict
    sha256: str
    base: int
    is_replacement: bool
    person: Person


def change_of(*, person: Person, body: dict, document_id: UUID, base: int) -> _Change:
    """What a final document changes, for signing."""
    outline = outline_of(body, document_id)
    return _Change(outline, body, sha256_hex(canonical_bytes(body)), base, False, person)


def _put(change: _Change, device_label: str) -> Saved:
    document = document_for(change.person, change.outline.id, lock=True)
    if document is not None and (answered := _answered_before(document, change)):
        return answered
    if document is None and Delivery.objects.filter(pk=change.outline.id).exists():
        raise Conflict("DOC-SIGNED", revision=0)
    need_own_ids(change.body)
    saved = make_document(change) if document is None else _advance(document, change)
    _note_device(change, device_label)
    if document is None or document.state == DocumentState.OPEN:
        bring(change.person, change.outline.site_id, change.outline.photos)
        use_photos(document=change.body)
    return saved


def make_document(change: _Change) -> Saved:
    """The first revision. Inside the caller's transaction."""
    if change.base:
        raise Conflict("DOC-NOT-HERE", status=412, revision=0, extra={"current": None})
    refuse_taken_docket(change.outline)
    document = Document(id=change.outline.id, revision=1)
    _fill(document, change)
    document.save(force_insert=True)
    write_revision(document, change)
    return Saved(1)


def advance_document(document: Document, change: _Change, *, state: str = DocumentState.OPEN) -> Saved:
    """The next revision. Inside the caller's transaction, the document's row locked."""
    refuse_taken_docket(change.outline)
    document.revision += 1
    document.state = state
    _fill(document, change)
    document.save()
    write_revision(document, change)
    return Saved(document.revision)


def _answered_before(document: Document, change: _Change) -> Saved | None:
    same = document.revisions.filter(base=change.base, body_sha256=change.sha256).first()
    return Saved(same.revision) if same else None


def _advance(document: Document, change: _Change) -> Saved:
    if change.sha256 == document.body_sha256:
        return Saved(document.revision)
    if document.state == DocumentState.SIGNED:
        raise already_signed(document)
    if change.base != document.revision:
        raise Conflict("DOC-OTHER-REVISION", status=412, revision=document.revision, **_who(document),
                       extra={"current": document.body})
    return advance_document(document, change)


def _fill(document: Document, change: _Change) -> None:
    if not Supplier.objects.filter(pk=change.outline.supplier_id).exists():
        raise Conflict("DOC-SUPPLIER", status=422)
    document.site_id, document.supplier_id = change.outline.site_id, change.outline.supplier_id
    document.docket_key, document.separate_from = change.outline.docket_key, change.outline.separate_from
    document.body, document.body_sha256 = change.body, change.sha256
    document.person, document.device_id = change.person, change.outline.device_id
    document.updated_at = timezone.now()


def _who(document: Document) -> dict:
    label = Device.objects.filter(pk=document.device_id).values_list("label", flat=True).first()
    return {"person_name": document.person.name, "device_id": str(document.device_id), "device_label": label or "",
            "updated_at": document.updated_at.isoformat()}


def _note_device(change: _Change, label: str) -> None:
    """A phone is handed on among the people of a site; an id that a stranger names too stays whose it was."""
    known = Device.objects.filter(pk=change.outline.device_id).select_related("person").first()
    if known is not None and not sites_for(known.person).filter(pk__in=sites_for(change.person)).exists():
        return
    told = {"label": label[:80]} if label else {}
    Device.objects.update_or_create(
        pk=change.outline.device_id, defaults={"person": change.person, "last_seen": timezone.now(), **told}
    )
