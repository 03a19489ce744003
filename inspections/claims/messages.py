"""Mails that claims cause: written with their cause, sent at most once.

A row is written in the transaction of the entry that causes it (``note_entry``), or once for a deadline that comes
near (``remind``). ``send_due`` takes a row by one conditional update, commits that, and only then hands the mail to
Django's back-end. Killed before: the row waits. Killed after: nobody knows whether the mail went, so it is not sent
again by itself; the row says so (*may not have been sent*), and a person at the desk decides. What a mail server
refuses before it took the mail is tried again, and given up with its sentence.
The link in a mail to the supplier is made when it is sent: no row, log or queue holds one.
"""
import logging
import smtplib
from datetime import timedelta
from decimal import Decimal
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import transaction
from django.db.models import F, Q
from django.template.loader import render_to_string
from django.utils import timezone

from inspections.claims import standing as stands
from inspections.claims.currencies import written
from inspections.claims.models import Claim, Message
from inspections.claims.when import deadline_of, site_moment
from inspections.errors import Conflict, Refusal
from inspections.evidence.anchors import anchored
from inspections.evidence.links import make_link
from inspections.evidence.models import Seal, SealKind
from inspections.people.models import Person, Role
from inspections.records.models import ClaimEntry

log = logging.getLogger(__name__)
State = Message.State

#: How long before a deadline its reminder goes out.
REMIND = {"reminder_notice": timedelta(hours=6), "reminder_answer": timedelta(hours=12)}
MOST_ATTEMPTS, AT_ONCE = 5, 20
#: Longer than a mail server may take (``EMAIL_TIMEOUT``).
LEASE = timedelta(minutes=5)
#: Said by the server before it took the mail, so it was not taken.
REFUSED = (ConnectionRefusedError, smtplib.SMTPConnectError, smtplib.SMTPHeloError, smtplib.SMTPAuthenticationError,
           smtplib.SMTPSenderRefused, smtplib.SMTPRecipientsRefused, smtplib.SMTPDataError)
SUBJECTS = {
    "send": "Claim {number}: docket {docket}", "agree": "Claim {number}: agreed",
    "contest": "Claim {number}: contested",
    "ask": "Claim {number}: a question", "offer": "Claim {number}: {amount} offered",
    "accept": "Claim {number}: offer accepted", "note": "Claim {number}: a message",
    "credit": "Claim {number}: credit recorded, settled", "withdraw": "Claim {number}: withdrawn",
    "reminder_notice": "Claim {number} is not sent yet: the notice period ends {deadline}",
    "reminder_answer": "Claim {number}: an answer is awaited by {deadline}",
}


def note_entry(claim: Claim, entry: ClaimEntry) -> None:
    """Write the mails that tell the other side of an entry, in the caller's transaction."""
    if settings.SENDS_MAIL and not claim.delivery.is_demo:
        side = stands.SUPPLIER if entry.side == stands.KITCHEN else stands.KITCHEN
        _write(claim, entry.kind, side, f"{entry.pk}", entry.pk)


def remind() -> int:
    """Write a mail for each deadline that is near; one that was written is never written again. How many were."""
    now, before = timezone.now(), Message.objects.count()
    for kind, state, side, field in (
        ("reminder_notice", stands.DRAFTED, stands.KITCHEN, "notice_until"),
        ("reminder_answer", stands.SENT, stands.SUPPLIER, "answer_until"),
    ):
        near = Q(**{f"{field}__gt": now, f"{field}__lte": now + REMIND[kind]})
        for claim in Claim.objects.filter(near, state=state, delivery__is_demo=False):
            _write(claim, kind, side, f"{kind}:{claim.pk}", None)
    return Message.objects.count() - before


def send_due() -> int:
    """Send what waits, oldest first, at most ``AT_ONCE``; how many went out."""
    if not settings.SENDS_MAIL:
        return 0
    remind()
    now = timezone.now()
    # Whoever took these is gone, and whether the mail went with it is not known.
    Message.objects.filter(state=State.SENDING, taken_at__lte=now - LEASE).update(
        state=State.UNSURE, sentence="The server stopped while it sent this mail. It may or may not have gone out.")
    due = Message.objects.filter(state=State.WAITING, not_before__lte=now).values_list("pk", flat=True)
    return sum(_send(pk) for pk in due[:AT_ONCE])


def send_again(*, message: Message) -> None:
    """Let a mail wait again that was not sent, or may not have been: somebody has decided so.

    Raises
    ------
    Conflict
        MAIL-NOT-AGAIN.
    """
    again = Message.objects.filter(pk=message.pk, state__in=(State.UNSURE, State.FAILED))
    if not again.update(state=State.WAITING, attempts=0, not_before=timezone.now(), sentence=""):
        raise Conflict("MAIL-NOT-AGAIN")


def _write(claim: Claim, kind: str, side: str, cause: str, entry_id) -> None:
    now = timezone.now()
    Message.objects.bulk_create(
        [Message(claim=claim, kind=kind, key=f"{cause}:{to}"[:160], entry_id=entry_id, side=side, to=to, not_before=now)
         for to in _readers(claim, side)],
        ignore_conflicts=True,
    )


def _readers(claim: Claim, side: str) -> list[str]:
    """Addresses of a side: the supplier's contact, or the site's managers who have one."""
    if side == stands.SUPPLIER:
        return [claim.delivery.supplier.contact_email] if claim.delivery.supplier.contact_email else []
    managers = Person.objects.filter(role=Role.SITE_MANAGER, sites=claim.delivery.site_id, is_active=True)
    known = [*managers.values_list("email", flat=True), claim.created_by.email]
    return sorted({address for address in known if address})


def _send(pk) -> bool:
    won = Message.objects.filter(pk=pk, state=State.WAITING).update(
        state=State.SENDING, taken_at=timezone.now(), attempts=F("attempts") + 1)
    if won != 1:
        return False
    message = Message.objects.select_related("claim__delivery__site", "claim__delivery__supplier").get(pk=pk)
    try:
        mail = _mail(message)
    except Refusal as refusal:
        return _done(message, State.FAILED, str(refusal))
    try:
        mail.send()
    except REFUSED as trouble:
        log.warning("mail %s was not taken: %s", message.pk, type(trouble).__name__)
        return _not_taken(message)
    except Exception as trouble:  # broken off somewhere in between: it may have been taken
        log.warning("mail %s may not have been sent: %s", message.pk, type(trouble).__name__)
        return _done(message, State.UNSURE, "The mail server broke off. The mail may or may not have gone out.")
    return _done(message, State.SENT, "")


def _not_taken(message: Message) -> bool:
    if message.attempts >= MOST_ATTEMPTS:
        return _done(message, State.FAILED, f"The mail server did not take this mail, {MOST_ATTEMPTS} times.")
    wait = timedelta(seconds=30 * 4 ** (message.attempts - 1))
    Message.objects.filter(pk=message.pk, state=State.SENDING).update(
        state=State.WAITING, not_before=timezone.now() + wait, sentence="The mail server did not take it yet.")
    return False


def _done(message: Message, state: str, sentence: str) -> bool:
    sent_at = timezone.now() if state == State.SENT else None
    Message.objects.filter(pk=message.pk, state=State.SENDING).update(state=state, sentence=sentence, sent_at=sent_at)
    return state == State.SENT


def _mail(message: Message) -> EmailMultiAlternatives:
    claim = message.claim
    entry = ClaimEntry.objects.filter(pk=message.entry_id).first()
    deadline = deadline_of(claim)
    amount = entry.document["amount"] if entry else None
    zone = claim.delivery.site.timezone
    facts = {
        "number": claim.number, "docket": claim.delivery.docket_number,
        "amount": written(Decimal(amount), claim.currency) if amount is not None else "",
        "deadline": site_moment(deadline.at, zone) if deadline else "",
    }
    seal = Seal.objects.filter(kind=SealKind.CLAIM, subject_id=message.entry_id).first()
    told = {
        **facts, "claim": claim, "supplier": claim.delivery.supplier, "site": claim.delivery.site, "entry": entry,
        "kind": message.kind, "what": stands.KINDS.get(message.kind, ""), "is_for_supplier": message.side == "supplier",
        "address": _address(message), "seal": seal, "installation": settings.INSTALLATION_NAME,
    }
    mail = EmailMultiAlternatives(
        subject=" ".join(SUBJECTS[message.kind].format(**facts).split()), to=[message.to],
        body=render_to_string("claims/mail.txt", told), from_email=settings.DEFAULT_FROM_EMAIL,
        # The same mail has the same id, so that a mailbox that got it twice can tell.
        headers={"Message-ID": f"<{message.pk}@{urlsplit(settings.PUBLIC_ADDRESS).hostname}>",
                 "Auto-Submitted": "auto-generated"},
    )
    mail.attach_alternative(render_to_string("claims/mail.html", told), "text/html")
    return mail


def _address(message: Message) -> str:
    claim = message.claim
    if message.side == stands.KITCHEN:
        return f"{settings.PUBLIC_ADDRESS}/desk/claims/{claim.pk}"
    with transaction.atomic():
        _, token = make_link(delivery=claim.delivery, person=claim.created_by, to_whom=f"by mail to {message.to}"[:120])
    return anchored(f"{settings.PUBLIC_ADDRESS}/e/{token}/claims/{claim.pk}", claim.delivery.site)
