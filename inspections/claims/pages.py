"""The supplier's page of a claim: to read it, and to answer without an account and without a script.

The link is all that opens it, and all that lets an answer in: no cookie and no session speaks for anybody here, so
there is nothing that another page could make a browser send in somebody's name, and no token against that is needed
(whoever could forge an answer already holds the link).
"""
from collections.abc import Callable
from uuid import UUID

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from inspections.claims import standing as stands
from inspections.claims.files import LARGEST, MOST_FILES, read_files
from inspections.claims.models import Claim
from inspections.claims.selectors import claim_row
from inspections.claims.served import file_answer
from inspections.claims.services import Said, say
from inspections.claims.thread import items_told, thread_of
from inspections.claims.when import site_moment
from inspections.errors import NotFound, Refusal
from inspections.evidence.pages import behind_link
from inspections.people.models import new_id
from inspections.records.models import Delivery
from inspections.records.services.logger_file import choices_for

ANSWERS = {
    "agree": "Agree to the claim", "accept": "Accept the amount offered by the kitchen", "contest": "Contest it",
    "offer": "Offer another amount", "ask": "Ask a question", "note": "Write a message, or only send files",
}
TOLD = ("zone", "unit", "day_order", "column")


def behind_link_to_answer(view: Callable) -> Callable:
    """As ``behind_link``, for a page that takes an answer; see the module for why it asks for no token of a form."""
    opened = csrf_exempt(behind_link(view, require_http_methods(["GET", "HEAD", "POST"])))
    opened.methods = ("get", "post")  # for the table of rights, which cannot see into a function
    return opened


@behind_link_to_answer
def claim(request: HttpRequest, delivery: Delivery, *, token: str, claim_id: UUID) -> HttpResponse:
    """The claim with its thread, and the form to answer; an answer leads back to the page."""
    found = _claim(delivery, claim_id)
    if request.method != "POST":
        return _page(request, found, token)
    try:
        entry = say(claim=found, said=_said(request, found))
    except Refusal as refusal:
        return _page(request, found, token, refusal=refusal)
    return HttpResponseRedirect(f"{reverse('claim', args=[token, found.pk])}#entry-{entry.number}")


@behind_link
def file(request: HttpRequest, delivery: Delivery, *, token: str, claim_id: str, sha256: str,
         kind: str) -> HttpResponse:
    """A file of the thread."""
    return file_answer(_claim(delivery, claim_id), sha256, kind)


def _claim(delivery: Delivery, claim_id: UUID | str) -> Claim:
    found = Claim.objects.select_related(
        "delivery__site", "delivery__supplier", "line__specification_version__specification", "created_by"
    ).filter(pk=claim_id, delivery=delivery, sent_at__isnull=False).first()
    if found is None:
        raise NotFound()
    return found


def _said(request: HttpRequest, claim: Claim) -> Said:
    sent = request.POST
    kind = sent.get("kind", "")
    if kind not in ANSWERS:
        raise Refusal("CLAIM-WORDS", status=422)
    files = read_files(claim.delivery, request.FILES.getlist("files"), {name: sent.get(name, "") for name in TOLD})
    points = [{"item": at, "text": sent.get(f"point-{at}", "")[:4000]} for at in range(len(claim.items))]
    return Said(
        kind=kind, side=stands.SUPPLIER, by=sent.get("by", "")[:120] or claim.delivery.supplier.name,
        text=sent.get("text", "").replace("\r\n", "\n")[:10_000],
        amount=sent.get("amount") if kind == "offer" else None,
        points=points if kind == "contest" else (), files=files, id=_id(sent),
    )


def _id(sent: QueryDict) -> UUID | None:
    """The id that the form was given: the same answer sent twice is one."""
    try:
        return UUID(sent.get("id", ""))
    except ValueError:
        return None


def _page(request: HttpRequest, claim: Claim, token: str, *, refusal: Refusal | None = None) -> HttpResponse:
    thread = thread_of(claim)
    may = stands.may_say(stands.standing_of(thread), stands.SUPPLIER)
    row = claim_row(claim)
    told = {
        "claim": claim, "row": row, "token": token, "items": items_told(claim), "thread": thread,
        "answers": [(kind, words) for kind, words in ANSWERS.items() if kind in may],
        "chosen": request.POST.get("kind", ""), "sent": request.POST, "refused": str(refusal) if refusal else "",
        "points": [{**one, "text": request.POST.get(f"point-{at}", ""), "at": at}
                   for at, one in enumerate(items_told(claim))],
        "form_id": new_id(), "most_files": MOST_FILES, "most_mb": LARGEST // 1048576,
        "zones": choices_for("zone", claim.delivery, {}), "is_demo": claim.delivery.is_demo,
        "arrived": site_moment(claim.delivery.arrived_at, claim.delivery.site.timezone),
        "is_late": claim.sent_at > claim.notice_until, "now": site_moment(timezone.now(), claim.delivery.site.timezone),
        "notice": site_moment(claim.notice_until, claim.delivery.site.timezone),
        "sent_at": site_moment(claim.sent_at, claim.delivery.site.timezone),
    }
    return render(request, "claims/claim.html", told, status=refusal.status if refusal else 200)
