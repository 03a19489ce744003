"""A message as a mail, by Django's own back-ends, as text and HTML.

The link in a mail to the supplier is made when it is sent: no row, log or queue holds one.
"""
import smtplib
from datetime import timedelta
from typing import Any
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import transaction
from django.template.loader import render_to_string

from inspections.claims import standing as stands
from inspections.claims.delivering import Gone, NotTaken
from inspections.claims.invitations import invitation_address, invitation_token
from inspections.claims.models import Claim, Message, SupplierPerson
from inspections.evidence.anchors import anchored
from inspections.evidence.links import USUAL_DAYS, make_link
from inspections.evidence.models import Seal, SealKind
from inspections.messages import message as say
from inspections.records.models import ClaimEntry

#: Said by the server before it took the mail, so it was not taken.
REFUSED = (ConnectionRefusedError, smtplib.SMTPConnectError, smtplib.SMTPHeloError, smtplib.SMTPAuthenticationError,
           smtplib.SMTPSenderRefused, smtplib.SMTPRecipientsRefused, smtplib.SMTPDataError)


def send(message: Message, claim: Claim, subject: str, facts: dict[str, str]) -> None:
    """Hand a mail on a claim to the mail server.

    Raises
    ------
    ApiProblem
        No link could be made; nothing was sent.
    NotTaken
        The server refused it.
    Exception
        Broken off: it may have been taken.
    """
    _hand_over(_mail(message, subject, "mail", _told(message, claim, facts)))


def send_invitation(message: Message, row: SupplierPerson) -> None:
    """Hand an invitation to the mail server; raises as ``send`` does, and Gone where it was taken up or ended since."""
    person = row.person
    if person.has_usable_password() or not person.is_active:
        raise Gone()
    told = {"person": person, "supplier": row.supplier, "invited_by": row.invited_by.name,
            "installation": settings.INSTALLATION_NAME, "address": invitation_address(invitation_token(person)),
            "days": timedelta(seconds=settings.PASSWORD_RESET_TIMEOUT).days}
    subject = say("claims-subject-invitation", installation=settings.INSTALLATION_NAME, supplier=row.supplier.name)
    _hand_over(_mail(message, " ".join(subject.split()), "invitation", told))


def _hand_over(mail: EmailMultiAlternatives) -> None:
    try:
        mail.send()
    except REFUSED as refused:
        raise NotTaken() from refused


def _told(message: Message, claim: Claim, facts: dict[str, str]) -> dict[str, Any]:
    # A reminder has no entry, and so no seal.
    entry = ClaimEntry.objects.filter(pk=message.entry_id).first() if message.entry_id else None
    seal = Seal.objects.filter(kind=SealKind.CLAIM, subject_id=entry.pk).first() if entry else None
    return {
        **facts, "claim": claim, "supplier": claim.delivery.supplier, "site": claim.delivery.site,
        "entry": entry, "kind": message.kind,
        "what": _what(message.kind, facts["amount"]), "is_for_supplier": message.side == stands.SUPPLIER,
        "days": USUAL_DAYS, "address": _address(message, claim), "seal": seal,
        "installation": settings.INSTALLATION_NAME,
    }


def _mail(message: Message, subject: str, template: str, told: dict[str, Any]) -> EmailMultiAlternatives:
    mail = EmailMultiAlternatives(
        subject=subject, to=[message.to], body=render_to_string(f"claims/{template}.txt", told),
        from_email=settings.DEFAULT_FROM_EMAIL,
        # The same mail has the same id, so that a mailbox that got it twice can tell.
        headers={"Message-ID": f"<{message.pk}@{urlsplit(settings.PUBLIC_ADDRESS).hostname}>",
                 "Auto-Submitted": "auto-generated"},
    )
    mail.attach_alternative(render_to_string(f"claims/{template}.html", told), "text/html")
    return mail


def _what(kind: str, amount: str) -> str:
    if kind.startswith("reminder"):
        return ""
    what = stands.kind_words(kind)
    return say("claims-entry-amount", what=what, amount=amount) if amount else what


def _address(message: Message, claim: Claim) -> str:
    if message.side == stands.KITCHEN:
        return f"{settings.PUBLIC_ADDRESS}/desk/claims/{claim.pk}"
    with transaction.atomic():
        _, token = make_link(delivery=claim.delivery, person=claim.created_by, to_whom=f"by mail to {message.to}"[:120])
    return anchored(f"{settings.PUBLIC_ADDRESS}/e/{token}/claims/{claim.pk}", claim.delivery.site)
