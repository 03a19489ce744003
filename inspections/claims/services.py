"""The write path of claims: draft, change, and everything that either side says; each said thing is sealed."""
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from inspections.claims import standing as stands
from inspections.claims.amounts import GROUNDS, figure, ground_name, sum_words, total, unrounded
from inspections.claims.currencies import rounded, written
from inspections.claims.drafting import items_of, line_of, what_fell_short
from inspections.claims.files import SentFile, keep_file
from inspections.claims.models import USUAL_ANSWER_H, USUAL_NOTICE_H, Claim, SupplierTerms
from inspections.errors import Conflict, Unprocessable
from inspections.evidence.contents import claim_content
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import seal
from inspections.evidence.statement import utc_text
from inspections.messages import message
from inspections.people.access import need_role, need_site
from inspections.people.models import Person, Role, Site, new_id
from inspections.records.models import ClaimEntry, Delivery, DocketLine

MOST_TEXT, MOST_ENTRIES, MOST_NOTE = 4000, 80, 60
CLAIMANTS = (Role.SITE_MANAGER, Role.GROUP_OPERATIONS)


@dataclass(frozen=True)
class Said:
    """What a side says: its kind, words, and what goes with it. ``id`` makes it the same when it comes twice."""

    kind: str
    side: str
    by: str
    person: Person | None = None
    text: str = ""
    amount: str | None = None
    points: Sequence[Mapping] = ()
    files: Sequence[SentFile] = ()
    credit_note: str = ""
    is_above_meant: bool = False
    id: UUID | None = None
    at: datetime | None = None


def draft_claim(*, line: DocketLine, person: Person, at: datetime | None = None) -> Claim:
    """Draft a claim on a docket line from its verdict.

    Raises
    ------
    Forbidden
        A receiver, or not the person's site.
    Unprocessable
        CLAIM-NOTHING, CLAIM-NO-SEAL.
    Conflict
        CLAIM-THERE.

    Notes
    -----
    Writes one row; nothing is sealed before it is sent. A claim that was withdrawn makes room for another.
    """
    need_role(person, *CLAIMANTS)
    delivery = line.delivery
    need_site(person, delivery.site_id)
    _main_seal(delivery)
    there = Claim.objects.filter(line=line).exclude(state=stands.WITHDRAWN).first()
    if there is not None:
        raise Conflict("CLAIM-THERE", number=there.number)
    terms = SupplierTerms.objects.filter(supplier=delivery.supplier_id).first()
    currency = (terms.currency if terms else "") or delivery.site.currency
    items = items_of(line, currency)
    if not items:
        raise Unprocessable("CLAIM-NOTHING")
    hours = terms.notice_hours if terms else USUAL_NOTICE_H
    basis = message("claims-basis-terms", hours=hours) if terms else message("claims-basis-usual", hours=hours)
    with transaction.atomic():
        # Held until the number is written: two drafts at once would take the same.
        Site.objects.select_for_update(no_key=True).get(pk=delivery.site_id)
        count = Claim.objects.filter(delivery__site=delivery.site_id).count()
        claim = Claim(
            number=f"{delivery.site.code}-C{count + 1}", delivery=delivery, line=line, currency=currency,
            found=what_fell_short(line_of(line)), items=items, created_by=person, notice_basis=basis,
            notice_until=delivery.arrived_at + timedelta(hours=hours),
            answer_hours=terms.answer_hours if terms else USUAL_ANSWER_H,
        )
        claim.save(force_insert=True)
    if at is not None:
        Claim.objects.filter(pk=claim.pk).update(created_at=at)
    return claim


def change_claim(*, claim: Claim, items: Sequence[Mapping], person: Person) -> Claim:
    """Put other items into a drafted claim.

    Parameters
    ----------
    items : sequence of mapping
        ``ground``, ``figures``, ``amount`` (None to reckon it), ``reason``. One whose figures or amount are not those
        that the verdict gave needs a reason.

    Raises
    ------
    Unprocessable
        CLAIM-NUMBER, CLAIM-GROUND, CLAIM-REASON, CLAIM-EMPTY, CLAIM-LONG.
    Conflict
        CLAIM-SENT.
    """
    need_role(person, *CLAIMANTS)
    need_site(person, claim.delivery.site_id)
    if not items:
        raise Unprocessable("CLAIM-EMPTY")
    given = items_of(claim.line, claim.currency)
    told = [_item(one, _taken(given, one.get("ground")), claim.currency) for one in items]
    changed = Claim.objects.filter(pk=claim.pk, state=stands.DRAFTED).update(items=told)
    if not changed:
        raise Conflict("CLAIM-SENT")
    claim.items = told
    return claim


def drop_draft(*, claim: Claim, person: Person) -> None:
    """Give up a draft that was never sent; nothing of it was sealed, so nothing is kept but that it was there.

    Raises
    ------
    Conflict
        CLAIM-SENT.
    """
    need_role(person, *CLAIMANTS)
    need_site(person, claim.delivery.site_id)
    if not Claim.objects.filter(pk=claim.pk, state=stands.DRAFTED).update(
        state=stands.WITHDRAWN, closed_at=timezone.now()
    ):
        raise Conflict("CLAIM-SENT")


def say(*, claim: Claim, said: Said) -> ClaimEntry:
    """Add an entry to a claim's thread, and seal it.

    Raises
    ------
    Forbidden
        The kitchen's side, by a receiver or for another site.
    Unprocessable
        CLAIM-WORDS, CLAIM-LONG, CLAIM-AMOUNT, CLAIM-ABOVE, CLAIM-NUMBER, CLAIM-CREDIT, CLAIM-CREDIT-OTHER,
        CLAIM-OPEN-FIGURE, CLAIM-MANY.
    Conflict
        CLAIM-NOT-NOW.

    Notes
    -----
    Files first, then one transaction: the entry, its seal, the claim as it then stands, and the messages that it
    causes. The same id again gives the entry that is there.
    """
    if said.side == stands.KITCHEN:
        need_role(said.person, *CLAIMANTS)
        need_site(said.person, claim.delivery.site_id)
    if len(said.text) > MOST_TEXT or sum(len(point["text"]) for point in said.points) > MOST_TEXT:
        raise Unprocessable("CLAIM-LONG", most=MOST_TEXT)
    for file in said.files:
        keep_file(file)
    try:
        return _say(claim, said)
    except IntegrityError:
        # The loser of two parallel twins meets the winner's row.
        return _say(claim, said)


def _say(claim: Claim, said: Said) -> ClaimEntry:
    from inspections.claims.messages import note_entry

    with transaction.atomic():
        delivery = Delivery.objects.select_for_update(of=("self",)).select_related("site").get(pk=claim.delivery_id)
        known = ClaimEntry.objects.filter(pk=said.id, claim_id=claim.pk).first() if said.id else None
        if known is not None:
            return known
        row = Claim.objects.get(pk=claim.pk)
        entries = list(ClaimEntry.objects.filter(claim_id=claim.pk).values_list("document", flat=True))
        standing = stands.standing_of(entries)
        if said.kind not in stands.may_say(standing, said.side):
            raise Conflict("CLAIM-NOT-NOW", state=stands.state_words(standing.state).lower())
        if len(entries) >= MOST_ENTRIES:
            raise Unprocessable("CLAIM-MANY", most=MOST_ENTRIES)
        at = said.at or timezone.now()
        document = _document(row, said, standing, len(entries) + 1, at)
        entry = ClaimEntry(
            id=UUID(document["id"]), delivery=delivery, claim_id=row.pk, number=document["number"], kind=said.kind,
            side=said.side, person=said.person, at=at, document=document,
        )
        entry.save(force_insert=True)
        seal(site=delivery.site, kind=SealKind.CLAIM, subject_id=entry.pk, sealed_at=at if delivery.is_demo else None,
             content=claim_content(entry, delivery_seal_sha256=_main_seal(delivery).sha256))
        _stand(row, stands.after(standing, document), at)
        note_entry(row, entry)
    return entry


def _document(claim: Claim, said: Said, standing: stands.Standing, number: int, at: datetime) -> dict:
    text = said.text.strip()
    points = [{"item": int(point["item"]), "text": point["text"].strip()} for point in said.points
              if point["text"].strip()]
    if said.kind in ("contest", "ask", "note", "withdraw") and not (text or points or said.files):
        raise Unprocessable("CLAIM-WORDS")
    told = {
        "id": str(said.id or new_id()), "claim_id": str(claim.pk), "claim_number": claim.number, "number": number,
        "kind": said.kind, "side": said.side, "at": utc_text(at), "by": said.by.strip()[:120], "text": text,
        "points": points, "files": [file.to_json() for file in said.files], "currency": claim.currency,
        "amount": _amount(claim, said, standing),
    }
    if said.kind == "send":
        line = claim.line
        told |= {"line_id": str(claim.line_id), "line_number": line.number,
                 "product": line.specification_version.to_json()["name"], "found": claim.found, "items": claim.items,
                 "notice_until": utc_text(claim.notice_until), "notice_basis": claim.notice_basis,
                 "answer_until": utc_text(at + timedelta(hours=claim.answer_hours))}
    if said.kind == "credit":
        told |= {"credit_note": _credit_note(claim, said, standing, told["amount"])}
    return told


def _amount(claim: Claim, said: Said, standing: stands.Standing) -> str | None:
    if said.kind == "send":
        return f"{claimed(claim):f}"
    if said.kind == "agree":
        return f"{rounded(standing.claimed, claim.currency):f}"
    if said.kind == "accept":
        return f"{rounded(standing.offered, claim.currency):f}"
    if said.kind not in ("offer", "credit"):
        return None
    if not (said.amount or "").strip():
        raise Unprocessable("CLAIM-AMOUNT", currency=claim.currency)
    amount = rounded(figure(said.amount.replace(",", ""), "amount"), claim.currency)
    if said.kind == "offer" and amount > standing.claimed and not said.is_above_meant:
        raise Unprocessable("CLAIM-ABOVE", amount=written(amount, claim.currency),
                        claimed=written(standing.claimed, claim.currency))
    return f"{amount:f}"


def claimed(claim: Claim) -> Decimal:
    """The sum of a claim's items.

    Raises
    ------
    Unprocessable
        CLAIM-OPEN-FIGURE, CLAIM-EMPTY.
    """
    for one in claim.items:
        if one["amount"] is None:
            raise Unprocessable("CLAIM-OPEN-FIGURE", ground=ground_name(one["ground"]))
    if not claim.items:
        raise Unprocessable("CLAIM-EMPTY")
    return total([Decimal(one["amount"]) for one in claim.items], claim.currency)


def _credit_note(claim: Claim, said: Said, standing: stands.Standing, amount: str) -> str:
    number = said.credit_note.strip()[:MOST_NOTE]
    if not number:
        raise Unprocessable("CLAIM-CREDIT")
    if Decimal(amount) != standing.agreed and not said.text.strip():
        agreed = rounded(standing.agreed, claim.currency)
        raise Unprocessable("CLAIM-CREDIT-OTHER", agreed=f"{claim.currency} {agreed:f}")
    return number


def _stand(claim: Claim, now: stands.Standing, at: datetime) -> None:
    """Write how the claim stands into its row."""
    for name in ("state", "claimed", "offered", "offered_by", "agreed", "credited", "credit_note"):
        setattr(claim, name, getattr(now, name))
    if now.state == stands.SENT and claim.sent_at is None:
        claim.sent_at, claim.answer_until = at, at + timedelta(hours=claim.answer_hours)
    if now.state in (stands.SETTLED, stands.WITHDRAWN):
        claim.closed_at = at
    claim.save()


def _taken(given: list[dict], ground: object) -> dict | None:
    """The first of the verdict's items with that ground, which no other item can then be compared with."""
    at = next((at for at, one in enumerate(given) if one["ground"] == ground), None)
    return None if at is None else given.pop(at)


def _item(one: Mapping, given: dict | None, currency: str) -> dict:
    """An item as it was entered: figures checked, the amount reckoned unless another was written."""
    ground = one.get("ground")
    if ground not in GROUNDS:
        raise Unprocessable("CLAIM-GROUND", value=str(ground)[:40])
    entered = one.get("figures") or {}
    figures = {name: figure(entered[name], name) for name in GROUNDS[ground]
               if str(entered.get(name) or "").strip()}
    reckoned = unrounded(ground, figures)
    reckoned = None if reckoned is None else rounded(reckoned, currency)
    written = str(one.get("amount") or "").strip()
    amount = rounded(figure(written, "amount"), currency) if written else reckoned
    reason = str(one.get("reason") or "").strip()
    if len(reason) > MOST_TEXT:
        raise Unprocessable("CLAIM-LONG", most=MOST_TEXT)
    computed = given["computed"] if given else None
    # A figure that the verdict could not know is filled in, not changed.
    is_changed = amount != reckoned or (amount is not None and (given is None or computed is not None)
                                        and f"{amount:f}" != computed)
    if is_changed and not reason:
        raise Unprocessable("CLAIM-REASON", ground=ground_name(ground))
    return {"ground": ground, "figures": {name: f"{value:f}" for name, value in figures.items()},
            "amount": None if amount is None else f"{amount:f}", "computed": computed,
            "sum": sum_words(ground, figures, currency), "reason": reason}


def _main_seal(delivery: Delivery) -> Seal:
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=delivery.pk).first()
    if main is None:
        raise Unprocessable("CLAIM-NO-SEAL")
    return main
