"""A message as a mail, by Django's own back-ends, as text and HTML.

The link in a mail to the supplier is made when it is sent: no row, log or queue holds one.
"""
import smtplib
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import transaction
from django.template.loader import render_to_string

from inspections.claims import standing as stands
from inspections.claims.delivering import NotTaken
from inspections.claims.models import Message
from inspections.evidence.anchors import anchored
from inspections.evidence.links import USUAL_DAYS, make_link
from inspections.evidence.models import Seal, SealKind
from inspections.messages import message as say
from inspections.records.models import ClaimEntry

#: Said by the server before it took the mail, so it was not taken.
REFUSED = (ConnectionRefusedError, smtplib.SMTPConnectError, smtplib.SMTPHeloError, smtplib.SMTPAuthenticationError,
           smtplib.SMTPSenderRefused, smtplib.SMTPRecipientsRefused, smtplib.SMTPDataError)


def send(message: Message, subject: str, facts: dict[str, str]) -> None:
    """Hand a mail to the mail server.

    Raises
    ------
    ApiProblem
        No link could be made; nothing was sent.
    NotTaken
        The server refused it.
    Exception
        Broken off: it may have been taken.
    """
    mail = _mail(message, subject, facts)
    try:
        mail.send()
    except REFUSED as refused:
        raise NotTaken() from refused


def _mail(message: Message, subject: str, facts: dict[str, str]) -> EmailMultiAlternatives:
    claim = message.claim
    # A reminder has no entry, and so no seal.
    entry = ClaimEntry.objects.filter(pk=message.entry_id).first() if message.entry_id else None
    seal = Seal.objects.filter(kind=SealKind.CLAIM, subject_id=entry.pk).first() if entry else None
    told = {
        **facts, "claim": claim, "supplier": claim.delivery.supplier, "site": claim.delivery.site,
        "entry": entry, "kind": message.kind,
        "what": _what(message.kind, facts["amount"]), "is_for_supplier": message.side == stands.SUPPLIER,
        "days": USUAL_DAYS, "address": _address(message), "seal": seal, "installation": settings.INSTALLATION_NAME,
    }
    mail = EmailMultiAlternatives(
        subject=subject, to=[message.to], body=render_to_string("claims/mail.txt", told),
        from_email=settings.DEFAULT_FROM_EMAIL,
        # The same mail has the same id, so that a mailbox that got it twice can tell.
        headers={"Message-ID": f"<{message.pk}@{urlsplit(settings.PUBLIC_ADDRESS).hostname}>",
                 "Auto-Submitted": "auto-generated"},
    )
    mail.attach_alternative(render_to_string("claims/mail.html", told), "text/html")
    return mail


def _what(kind: str, amount: str) -> str:
    if kind.startswith("reminder"):
        return ""
    what = stands.kind_words(kind)
    return say("claims-entry-amount", what=what, amount=amount) if amount else what


def _address(message: Message) -> str:
    claim = message.claim
    if message.side == stands.KITCHEN:
        return f"{settings.PUBLIC_ADDRESS}/desk/claims/{claim.pk}"
    with transaction.atomic():
        _, token = make_link(delivery=claim.delivery, person=claim.created_by, to_whom=f"by mail to {message.to}"[:120])
    return anchored(f"{settings.PUBLIC_ADDRESS}/e/{token}/claims/{claim.pk}", claim.delivery.site)
