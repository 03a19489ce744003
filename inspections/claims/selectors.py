"""The read path of claims: the list by filter and order, one claim whole, and what a supplier's claims come to."""
from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from uuid import UUID

from django.db.models import F, Q, QuerySet
from django.utils import timezone

from inspections.claims import standing as stands
from inspections.claims.amounts import GROUNDS, ground_name, input_name
from inspections.claims.currencies import rounded, written
from inspections.claims.models import USUAL_ANSWER_H, USUAL_NOTICE_H, Claim, SupplierTerms
from inspections.claims.thread import items_told, thread_of
from inspections.claims.when import age_days, deadline_of, site_moment, time_left
from inspections.errors import NotFound
from inspections.messages import message
from inspections.people.models import Site
from inspections.records.models import ClaimEntry, Supplier

MOST_ROWS = 500
ORDERS = {
    "age": ("delivery__arrived_at", "number"), "amount": ("currency", "-claimed", "number"),
    "supplier": ("delivery__supplier__name", "delivery__arrived_at"), "deadline": ("due_at", "number"),
}


def claims_at(
    sites: QuerySet[Site], *, state: str = "open", supplier: UUID | None = None, site: UUID | None = None,
    is_over: bool = False, order: str = "age",
) -> QuerySet[Claim]:
    """Claims of the sites; ``state`` is one of them, ``open`` or ``all``, ``is_over`` those past their deadline."""
    found = Claim.objects.filter(delivery__site__in=sites)
    if state != "all":
        found = found.filter(state__in=stands.OPEN if state == "open" else [state])
    if supplier:
        found = found.filter(delivery__supplier=supplier)
    if site:
        found = found.filter(delivery__site=site)
    if is_over:
        now = timezone.now()
        found = found.filter(Q(state=stands.DRAFTED, notice_until__lt=now) | Q(state=stands.SENT, answer_until__lt=now))
    due = F("notice_until") if state == stands.DRAFTED else F("answer_until")
    by = [part if part != "due_at" else due.asc(nulls_last=True) for part in ORDERS[order]]
    return found.select_related(
        "delivery__site", "delivery__supplier", "line__specification_version__specification", "created_by"
    ).order_by(*by)


def claim_at(sites: QuerySet[Site], claim_id: UUID) -> Claim:
    """A claim of one of the sites.

    Raises
    ------
    NotFound
    """
    claim = claims_at(sites, state="all").filter(pk=claim_id).first()
    if claim is None:
        raise NotFound()
    return claim


def claim_row(claim: Claim, now: datetime | None = None) -> dict:
    """A claim as it stands in the list."""
    now = now or timezone.now()
    due, delivery = deadline_of(claim), claim.delivery
    return {
        "id": str(claim.pk), "number": claim.number, "state": claim.state,
        "state_words": stands.state_words(claim.state),
        "site": {"id": str(delivery.site_id), "name": delivery.site.name},
        "supplier": {"id": str(delivery.supplier_id), "name": delivery.supplier.name},
        "delivery_id": str(delivery.pk), "docket_number": delivery.docket_number, "line": claim.line.number,
        "line_id": str(claim.line_id), "product": claim.line.specification_version.specification.name,
        "arrived_at": delivery.arrived_at.isoformat(), "age_days": age_days(claim, now), "currency": claim.currency,
        **{name: _amount(claim, getattr(claim, name)) for name in ("claimed", "offered", "agreed", "credited")},
        "amount": _amount(claim, _standing_amount(claim)), "credit_note": claim.credit_note,
        "deadline": due and {"at": due.at.isoformat(), "what": due.what, "left": time_left(due.at, now),
                             "words": site_moment(due.at, delivery.site.timezone), "is_over": due.at < now},
        "sent_at": claim.sent_at and claim.sent_at.isoformat(),
        "closed_at": claim.closed_at and claim.closed_at.isoformat(),
    }


def claim_json(claim: Claim) -> dict:
    """A claim whole: items with their sums, what fell short, the thread, and what the kitchen may say next."""
    now = timezone.now()
    documents = ClaimEntry.objects.filter(claim_id=claim.pk).values_list("document", flat=True)
    standing = stands.standing_of(documents) if claim.state != stands.WITHDRAWN else stands.Standing(stands.WITHDRAWN)
    return {
        **claim_row(claim, now), "found": claim.found, "items": items_told(claim), "thread": thread_of(claim),
        "notice": {"until": site_moment(claim.notice_until, claim.delivery.site.timezone), "basis": claim.notice_basis,
                   "left": time_left(claim.notice_until, now)},
        "answer_hours": claim.answer_hours, "created_by": claim.created_by.name,
        "offered_by": claim.offered_by, "offered_by_words": side_words(claim.offered_by),
        "may": stands.may_say(standing, stands.KITCHEN),
        "contact": claim.delivery.supplier.contact_email,
        "mails": [{"id": str(mail.pk), "kind": mail.kind,
                   "channel": "notification" if mail.subscription_id else "mail", "to": mail.to, "state": mail.state,
                   "words": message(f"claims-message-{mail.state}"), "sentence": mail.sentence,
                   "at": (mail.sent_at or mail.created_at).isoformat()} for mail in claim.mails.all()],
        "grounds": {name: {"name": ground_name(name),
                           "inputs": [{"name": put, "words": input_name(put)} for put in inputs]}
                    for name, inputs in GROUNDS.items()},
    }


def side_words(side: str) -> str:
    """What a side is called; nothing for none."""
    return message(f"claims-side-{side}") if side else ""


def figures(claims: Iterable[Claim]) -> list[dict]:
    """What the claims on each supplier come to, by currency: sums of unlike currencies are never added up.

    Returns
    -------
    list of dict
        ``supplier``, ``currency``, ``claims`` (sent), ``open``, ``claimed``, ``agreed`` and ``credited`` in words,
        ``agreed_share`` (of what was claimed in claims with an agreed amount; None without one) and ``days`` (median
        of whole days from sending to settling; None without a settled one).
    """
    by: dict[tuple, list[Claim]] = {}
    for claim in claims:
        if claim.sent_at is not None:
            by.setdefault((claim.delivery.supplier.name, claim.delivery.supplier_id, claim.currency), []).append(claim)
    return [_figures(*key, rows) for key, rows in sorted(by.items(), key=lambda pair: (pair[0][0], pair[0][2]))]


def terms_json(supplier: Supplier) -> dict:
    """A supplier's terms, or the usual ones with word that none are kept."""
    terms = SupplierTerms.objects.filter(supplier=supplier).first()
    return {
        "supplier": {"id": str(supplier.pk), "name": supplier.name}, "is_kept": terms is not None,
        "currency": terms.currency if terms else "", "notice_hours": terms.notice_hours if terms else USUAL_NOTICE_H,
        "answer_hours": terms.answer_hours if terms else USUAL_ANSWER_H,
    }


def _figures(name: str, supplier_id: UUID, currency: str, rows: list[Claim]) -> dict:
    settled = [row for row in rows if row.agreed is not None]
    claimed, agreed = _sum(row.claimed for row in settled), _sum(row.agreed for row in settled)
    days = sorted((row.closed_at - row.sent_at).days for row in rows if row.state == stands.SETTLED)
    middle = len(days) // 2
    return {
        "supplier": {"id": str(supplier_id), "name": name}, "currency": currency, "claims": len(rows),
        "open": sum(row.state in stands.OPEN for row in rows), "settled": len(days),
        "claimed": written(_sum(row.claimed for row in rows), currency), "agreed": written(agreed, currency),
        "credited": written(_sum(row.credited for row in rows), currency),
        "agreed_share": float(agreed / claimed) if claimed else None,
        "days": None if not days else days[middle] if len(days) % 2 else (days[middle - 1] + days[middle]) / 2,
    }


def _sum(amounts: Iterable[Decimal | None]) -> Decimal:
    return sum((amount for amount in amounts if amount is not None), Decimal(0))


def _standing_amount(claim: Claim) -> Decimal | None:
    """The amount that counts now: agreed, else claimed; of a draft the sum of what is known."""
    if claim.state == stands.DRAFTED:
        return _sum(None if one["amount"] is None else Decimal(one["amount"]) for one in claim.items)
    return claim.agreed if claim.agreed is not None else claim.claimed


def _amount(claim: Claim, amount: Decimal | None) -> dict | None:
    if amount is None:
        return None
    return {"value": f"{rounded(amount, claim.currency):f}", "words": written(amount, claim.currency)}
