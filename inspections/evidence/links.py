"""A supplier's way in: a link that cannot be guessed, ends by itself and can be ended before.

The token has 32 bytes of chance. Only its SHA-256 is kept, so a stolen database opens nothing, and looking
a token up by its hash takes the same time whether or not it is close to a right one.
"""
import hashlib
import secrets
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from django.db.models import F
from django.db.models.functions import Coalesce
from django.utils import timezone

from inspections.errors import ApiProblem, NotFound, Unprocessable
from inspections.evidence.models import EvidenceLink, Seal, SealKind
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.models import Person, Role
from inspections.records.models import Delivery

TOKEN_BYTES = 32
USUAL_DAYS, MOST_DAYS, MOST_LETTERS = 60, 366, 120


def make_link(
    *, delivery: Delivery, person: Person, days: int = USUAL_DAYS, to_whom: str = ""
) -> tuple[EvidenceLink, str]:
    """A new link to a delivery, and its token, which is told this once; ``to_whom`` is a note for the desk.

    Raises
    ------
    Forbidden
        A receiver, or not the person's site.
    Unprocessable
        LINK-DAYS, LINK-WHOM, LINK-NO-SEAL.

    Notes
    -----
    Writes one row. A second call makes a second link.
    """
    need_role(person, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    need_site(person, delivery.site_id)
    if not 1 <= days <= MOST_DAYS:
        raise Unprocessable("LINK-DAYS", most=MOST_DAYS)
    if len(to_whom.strip()) > MOST_LETTERS:
        raise Unprocessable("LINK-WHOM", most=MOST_LETTERS)
    if not Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=delivery.pk).exists():
        raise Unprocessable("LINK-NO-SEAL")
    token = secrets.token_urlsafe(TOKEN_BYTES)
    ends = timezone.now() + timedelta(days=days)
    link = EvidenceLink.objects.create(token_hash=_hash(token), delivery=delivery, created_by=person, expires_at=ends,
                                       to_whom=to_whom.strip())
    return link, token


def end_link(*, link_id: UUID, person: Person) -> EvidenceLink:
    """End a link now; a second call changes nothing.

    Raises
    ------
    NotFound
        There is no such link, or it is another site's.
    Forbidden
        A receiver.
    """
    need_role(person, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
    link = EvidenceLink.objects.filter(pk=link_id, delivery__site__in=sites_for(person)).first()
    if link is None:
        raise NotFound()
    if link.revoked_at is None:
        link.revoked_at = timezone.now()
        link.save(update_fields=["revoked_at"])
    return link


def delivery_behind(token: str) -> Delivery:
    """The delivery that a token opens.

    Raises
    ------
    ApiProblem
        404 LINK-WRONG, 410 LINK-OVER.
    """
    row = EvidenceLink.objects.filter(token_hash=_hash(token)).select_related("delivery__site").first()
    if row is None:
        raise ApiProblem("LINK-WRONG", status=404)
    ended = min(row.revoked_at or row.expires_at, row.expires_at)
    if ended <= timezone.now():
        raise ApiProblem("LINK-OVER", status=410, ended=f"{ended.day} {ended:%B %Y}")
    return row.delivery


def note_opening(token: str) -> None:
    """Count that the page behind a link was opened, and when: nothing about who opened it."""
    now = timezone.now()
    EvidenceLink.objects.filter(token_hash=_hash(token)).update(
        openings=F("openings") + 1, last_opened_at=now, first_opened_at=Coalesce(F("first_opened_at"), now))


def link_json(link: EvidenceLink) -> dict[str, Any]:
    """A link as the desk lists it; without its token, which nobody has any more."""
    return {
        "id": str(link.pk), "delivery_id": str(link.delivery_id), "created_by": link.created_by.name,
        "created_at": link.created_at.isoformat(), "expires_at": link.expires_at.isoformat(),
        "revoked_at": _moment(link.revoked_at), "to_whom": link.to_whom, "openings": link.openings,
        "first_opened_at": _moment(link.first_opened_at), "last_opened_at": _moment(link.last_opened_at),
    }


def _moment(at: datetime | None) -> str | None:
    return at.isoformat() if at else None


def _hash(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()
