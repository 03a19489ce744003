"""Mails and notifications that claims and invitations cause: written with their cause, sent at most once.

A row is written in the transaction of the entry that causes it (``note_entry``), or once for a deadline that comes
near (``remind``). ``send_due`` takes a row by one conditional update, commits that, and only then hands the message on
(``mails``, ``push``). Killed before: the row waits. Killed after: nobody knows whether it went, so it is not sent
again by itself; the row says so (*may not have been sent*), and a person at the desk decides. What was surely not taken
is tried again, and given up with its sentence.
"""
import logging
from datetime import timedelta
from decimal import Decimal

from django.conf import settings
from django.db.models import F, Q
from django.utils import timezone

from inspections.claims import mails, push
from inspections.claims import standing as stands
from inspections.claims.currencies import written
from inspections.claims.delivering import Gone, NotTaken
from inspections.claims.models import Claim, Message, SupplierPerson
from inspections.claims.when import deadline_of, site_moment
from inspections.errors import ApiProblem, Conflict
from inspections.messages import message as say
from inspections.people.models import Person, Role, new_id
from inspections.records.models import ClaimEntry

log = logging.getLogger(__name__)
State = Message.State

#: How long before a deadline its reminder goes out.
REMIND = {"reminder_notice": timedelta(hours=6), "reminder_answer": timedelta(hours=12)}
MOST_ATTEMPTS, AT_ONCE = 5, 20
#: Longer than a mail server may take (``EMAIL_TIMEOUT``), or a push service.
LEASE = timedelta(minutes=5)


def note_entry(claim: Claim, entry: ClaimEntry) -> None:
    """Write the messages that tell the other side of an entry, in the caller's transaction."""
    if not claim.delivery.is_demo:
        side = stands.SUPPLIER if entry.side == stands.KITCHEN else stands.KITCHEN
        _write(claim, entry.kind, side, f"{entry.pk}", entry.pk)


def note_invitation(row: SupplierPerson) -> None:
    """Write the mail that invites somebody of a supplier, in the caller's transaction; one that still waits is dropped.

    For an account that was ended only the latter.
    """
    row.mails.filter(state=State.WAITING).delete()
    if settings.SENDS_MAIL and row.person.is_active and not row.supplier.is_demo:
        made = new_id()
        Message.objects.create(pk=made, invited=row, kind="invitation", key=f"invitation:{made}", side=stands.SUPPLIER,
                               to=row.person.email, not_before=timezone.now())


def remind() -> int:
    """Write the messages for each deadline that is near; one that was written is never written again. How many were."""
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
    remind()
    now = timezone.now()
    # Whoever took these is gone, and whether the message went with them is not known.
    Message.objects.filter(state=State.SENDING, taken_at__lte=now - LEASE).update(
        state=State.UNSURE, sentence=say("claims-message-stopped"))
    due = Message.objects.filter(state=State.WAITING, not_before__lte=now)
    if not settings.SENDS_MAIL:
        due = due.exclude(subscription=None)
    return sum(_send(pk) for pk in due.values_list("pk", flat=True)[:AT_ONCE])


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
    told = [(to, to, None) for to in (_readers(claim, side) if settings.SENDS_MAIL else ())]
    if side == stands.KITCHEN:
        told += [(f"push:{one.pk}", str(one)[:254], one) for one in push.subscriptions_at(claim.delivery.site)]
    Message.objects.bulk_create(
        [Message(claim=claim, kind=kind, key=f"{cause}:{whom}"[:160], entry_id=entry_id, side=side, to=to,
                 subscription=subscription, not_before=now) for whom, to, subscription in told],
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
    message = Message.objects.select_related(
        "claim__delivery__site", "claim__delivery__supplier", "subscription__person",
        "invited__person", "invited__supplier", "invited__invited_by").get(pk=pk)
    try:
        _hand_on(message)
    except ApiProblem as refusal:
        return _done(message, State.FAILED, str(refusal))
    except Gone:
        why = "claims-message-taken-up" if message.invited else "claims-message-gone"
        return _done(message, State.FAILED, say(why))
    except NotTaken as trouble:
        log.warning("message %s was not taken: %s", message.pk, type(trouble.__cause__).__name__)
        return _not_taken(message)
    except Exception as trouble:  # broken off somewhere in between: it may have been taken
        log.warning("message %s may not have been sent: %s", message.pk, type(trouble).__name__)
        return _done(message, State.UNSURE, say("claims-message-broken"))
    return _done(message, State.SENT, "")


def _hand_on(message: Message) -> None:
    if message.invited is not None:
        mails.send_invitation(message, message.invited)
        return
    claim, facts = message.claim, _facts(message)
    subject = " ".join(say(f"claims-subject-{message.kind}", **facts).split())
    if message.subscription is None:
        mails.send(message, claim, subject, facts)
        return
    about = say("claims-push-about", supplier=claim.delivery.supplier.name, docket=claim.delivery.docket_number)
    push.push(message.subscription, {"title": subject, "text": about, "address": f"/desk/claims/{claim.pk}"})


def _facts(message: Message) -> dict[str, str]:
    """What a subject may name."""
    claim, deadline = message.claim, deadline_of(message.claim)
    entry = ClaimEntry.objects.filter(pk=message.entry_id).first()
    amount = entry.document["amount"] if entry else None
    return {
        "number": claim.number, "docket": claim.delivery.docket_number,
        "amount": written(Decimal(amount), claim.currency) if amount is not None else "",
        "deadline": site_moment(deadline.at, claim.delivery.site.timezone) if deadline else "",
    }


def _not_taken(message: Message) -> bool:
    if message.attempts >= MOST_ATTEMPTS:
        return _done(message, State.FAILED, say("claims-message-refused", times=MOST_ATTEMPTS))
    wait = timedelta(seconds=30 * 4 ** (message.attempts - 1))
    Message.objects.filter(pk=message.pk, state=State.SENDING).update(
        state=State.WAITING, not_before=timezone.now() + wait, sentence=say("claims-message-not-yet"))
    return False


def _done(message: Message, state: str, sentence: str) -> bool:
    sent_at = timezone.now() if state == State.SENT else None
    Message.objects.filter(pk=message.pk, state=State.SENDING).update(state=state, sentence=sentence, sent_at=sent_at)
    return state == State.SENT
