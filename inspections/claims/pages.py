"""The supplier's page of a claim: to read it, and to answer without a script, by link or signed in (``account``).

By link no cookie and no session speaks for anybody, so there is nothing that another page could make a browser send in
somebody's name, and no token against that is needed (whoever could forge an answer already holds the link). By account
the form carries Django's token, and the answer the person's own name.
"""
from collections.abc import Callable
from uuid import UUID

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from inspections.claims import standing as stands
from inspections.claims.files import LARGEST, MOST_FILES, read_files
from inspections.claims.models import Claim
from inspections.claims.selectors import claim_row, side_words
from inspections.claims.served import file_answer
from inspections.claims.services import Said, say
from inspections.claims.thread import items_told, thread_of
from inspections.claims.when import site_moment
from inspections.errors import ApiProblem, NotFound
from inspections.evidence.pages import behind_link
from inspections.messages import message
from inspections.people.models import Person, Role, new_id
from inspections.records.models import Delivery
from inspections.records.services.logger_file import choices_for

ANSWERS = ("agree", "accept", "contest", "offer", "ask", "note")


def takes_answers(view: Callable) -> Callable:
    """The methods of a page that takes what its form sends."""
    taking = require_http_methods(["GET", "HEAD", "POST"])(view)
    taking.methods = ("get", "post")  # for the table of rights, which cannot see into a function
    return taking


def behind_link_to_answer(view: Callable) -> Callable:
    """As ``behind_link``, for a page that takes an answer; see the module for why it asks for no token of a form."""
    return csrf_exempt(behind_link(view, takes_answers))


def claim(request: HttpRequest, delivery: Delivery, *, base: str, claim_id: UUID) -> HttpResponse:
    """The claim with its thread, and the form to answer; an answer leads back to the page."""
    found = _claim(delivery, claim_id)
    if request.method != "POST":
        return _page(request, found, base)
    try:
        entry = say(claim=found, said=_said(request, found))
    except ApiProblem as refusal:
        return _page(request, found, base, refusal=refusal)
    return HttpResponseRedirect(f"{base}/claims/{found.pk}#entry-{entry.number}")


def file(request: HttpRequest, delivery: Delivery, *, base: str, claim_id: str, sha256: str, kind: str) -> HttpResponse:
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
        raise ApiProblem("CLAIM-WORDS", status=422)
    files = read_files(claim.delivery, request.FILES.getlist("files"), sent)
    points = [{"item": at, "text": sent.get(f"point-{at}", "")[:4000]} for at in range(len(claim.items))]
    person = answering(request)
    return Said(
        kind=kind, side=stands.SUPPLIER, person=person,
        by=person.name if person else sent.get("by", "")[:120] or claim.delivery.supplier.name,
        text=sent.get("text", "").replace("\r\n", "\n")[:10_000],
        amount=sent.get("amount") if kind == "offer" else None, is_above_meant=sent.get("above") == "yes",
        points=points if kind == "contest" else (), files=files, id=_id(sent),
    )


def answering(request: HttpRequest) -> Person | None:
    """The supplier's person who is signed in; None by link, whoever of the kitchen may try it."""
    return request.user if getattr(request.user, "role", None) == Role.SUPPLIER else None


def _id(sent: QueryDict) -> UUID | None:
    """The id that the form was given: the same answer sent twice is one."""
    try:
        return UUID(sent.get("id", ""))
    except ValueError:
        return None


def _answer_words(kind: str, row: dict) -> str:
    amount = {"agree": row["claimed"], "accept": row["offered"]}.get(kind)
    return message(f"claims-answer-{kind}", **({"amount": amount["words"]} if amount else {}))


def _page(request: HttpRequest, claim: Claim, base: str, *, refusal: ApiProblem | None = None) -> HttpResponse:
    thread = thread_of(claim)
    may = stands.may_say(stands.standing_of(thread), stands.SUPPLIER)
    row = claim_row(claim)
    told = {
        "claim": claim, "row": row, "base": base, "person": answering(request), "items": items_told(claim),
        "thread": thread,
        "answers": [(kind, _answer_words(kind, row)) for kind in ANSWERS if kind in may],
        "chosen": request.POST.get("kind", ""), "sent": request.POST, "refused": str(refusal) if refusal else "",
        "points": [{**one, "text": request.POST.get(f"point-{at}", ""), "at": at}
                   for at, one in enumerate(items_told(claim))],
        "form_id": new_id(), "most_files": MOST_FILES, "most_mb": LARGEST // 1048576,
        "zones": choices_for("zone", claim.delivery, {}), "is_demo": claim.delivery.is_demo,
        "offered_by": side_words(claim.offered_by),
        "asks_above": refusal is not None and refusal.code == "CLAIM-ABOVE",
        "arrived": site_moment(claim.delivery.arrived_at, claim.delivery.site.timezone),
        "is_late": claim.sent_at > claim.notice_until, "now": site_moment(timezone.now(), claim.delivery.site.timezone),
        "notice": site_moment(claim.notice_until, claim.delivery.site.timezone),
        "sent_at": site_moment(claim.sent_at, claim.delivery.site.timezone),
    }
    return render(request, "claims/claim.html", told, status=refusal.status if refusal else 200)
