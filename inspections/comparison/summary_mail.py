"""The month's summary as a PDF, and by mail to those who asked for it: each month at most once to each.

A row is written for each reader and month, taken by one conditional update, and only then is the mail handed over
(``claims.messages`` has the reasons). Killed in between, nobody knows whether it went, so it is not sent again. What a
mail server refuses before it took the mail is tried again with the next sweeps.
"""
import json
from datetime import date, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMessage
from django.db.models import F
from django.utils import timezone

from inspections.claims.mails import REFUSED
from inspections.claims.messages import LEASE, MOST_ATTEMPTS, State
from inspections.comparison.models import SummaryMail
from inspections.comparison.period import Period
from inspections.comparison.summary import month_asked, summary
from inspections.messages import message
from inspections.people.access import sites_for
from inspections.people.models import Person, Role

TEMPLATE = Path(__file__).with_name("summary.typ")
#: A month is told from its third day after on: what was signed offline has mostly come in (common practice, no source).
DAYS_AFTER = 2


def pdf_of(told: dict[str, Any]) -> bytes:
    """A summary (``summary.summary``) as A4, PDF/UA-1."""
    import typst

    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "summary.typ").write_bytes(TEMPLATE.read_bytes())
        (folder / "data.json").write_text(json.dumps(told | {"installation": settings.INSTALLATION_NAME}), "utf-8")
        return bytes(typst.compile(str(folder / "summary.typ"), root=name, format="pdf", pdf_standards="ua-1"))


def send_summaries(today: date | None = None) -> int:
    """Send what is due of the last whole month; how many went out."""
    if not settings.SENDS_MAIL:
        return 0
    day = today or timezone.localdate()
    month, now = month_asked("", today=day), timezone.now()
    SummaryMail.objects.filter(state=State.SENDING, taken_at__lte=now - LEASE).update(
        state=State.UNSURE, sentence=message("pages-summary-mail-away"))
    if day >= month.last + timedelta(days=DAYS_AFTER + 1):
        readers = Person.objects.filter(is_active=True, role__in=(Role.SITE_MANAGER, Role.GROUP_OPERATIONS),
                                        summary_wish__isnull=False).exclude(email="")
        SummaryMail.objects.bulk_create(
            [SummaryMail(person=reader, month=month.first) for reader in readers], ignore_conflicts=True)
    due = SummaryMail.objects.filter(state=State.WAITING, month=month.first).values_list("pk", flat=True)
    return sum(_send(pk, month) for pk in list(due))


def _send(pk: int, month: Period) -> bool:
    mine = SummaryMail.objects.filter(pk=pk, state=State.WAITING)
    if mine.update(state=State.SENDING, taken_at=timezone.now(), attempts=F("attempts") + 1) != 1:
        return False
    row = SummaryMail.objects.select_related("person").get(pk=pk)
    try:
        _mail(row, month).send()
    except REFUSED:
        if row.attempts < MOST_ATTEMPTS:
            return _done(row, State.WAITING, "")
        return _done(row, State.FAILED, message("pages-summary-mail-refused", times=MOST_ATTEMPTS))
    except Exception:
        _done(row, State.UNSURE, message("pages-summary-mail-broken"))
        raise
    return _done(row, State.SENT, "")


def _done(row: SummaryMail, state: str, sentence: str) -> bool:
    SummaryMail.objects.filter(pk=row.pk, state=State.SENDING).update(state=state, sentence=sentence)
    return state == State.SENT


def _mail(row: SummaryMail, month: Period) -> EmailMessage:
    told = summary(sites_for(row.person), month)
    address = f"{settings.PUBLIC_ADDRESS}/desk/summary?month={told['month']}"
    body = [told["title"], *told["sentences"], told["note"], message("pages-summary-mail-foot", address=address)]
    mail = EmailMessage(
        subject=message("pages-summary-mail-subject", installation=settings.INSTALLATION_NAME, title=told["title"]),
        body="\n\n".join(body) + "\n", to=[row.person.email], from_email=settings.DEFAULT_FROM_EMAIL,
        headers={"Auto-Submitted": "auto-generated",
                 "Message-ID": f"<summary-{row.pk}-{told['month']}@{urlsplit(settings.PUBLIC_ADDRESS).hostname}>"},
    )
    mail.attach(f"summary-{told['month']}.pdf", pdf_of(told), "application/pdf")
    return mail
