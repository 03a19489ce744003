"""May this document be signed? Every reason why not, one sentence each, in the order of the walk."""
from datetime import UTC, datetime

from inspections.errors import Unprocessable
from inspections.people.models import Site
from inspections.records.judging import is_id
from inspections.records.models import Decision, Order, Supplier
from inspections.records.shape.delivery import Decision as Decided
from inspections.records.shape.delivery import Driver, InspectionDocument, Line, Signature, Signatures
from inspections.trade.wording import WORDS, filled

LONGEST_LOT = 80  # GS1 allows 20 signs, papers carry more


def need_signable(entered: InspectionDocument, site: Site) -> None:
    """Nothing, when everything but the judgement itself allows signing.

    Raises
    ------
    Unprocessable
        SIGN-… with the number of the line where there is one.
    """
    if not entered.lines:
        raise Unprocessable("SIGN-NO-LINES")
    for number, line in enumerate(entered.lines, start=1):
        _need_short_lots(number, line)
    _need_head(entered, site)
    _need_signatures(entered.signatures or Signatures())


def _need_short_lots(number: int, line: Line) -> None:
    lots = [line.lot, *(carton.label.lot for carton in line.cartons or [] if carton.label)]
    if any(len(lot) > LONGEST_LOT for lot in lots if lot):
        raise Unprocessable("SIGN-LONG-LOT", line=number, most=LONGEST_LOT)


def _need_head(entered: InspectionDocument, site: Site) -> None:
    if not is_id(entered.supplier_id) or not Supplier.objects.filter(pk=entered.supplier_id).exists():
        raise Unprocessable("SIGN-NO-SUPPLIER")
    if entered.order_id is not None:
        orders = Order.objects.filter(site=site, supplier_id=entered.supplier_id)
        if not is_id(entered.order_id) or not orders.filter(pk=entered.order_id).exists():
            raise Unprocessable("SIGN-NO-ORDER")
    if not (entered.docket_number or "").strip():
        raise Unprocessable("SIGN-NO-DOCKET")
    if moment(entered.arrived_at) is None:
        raise Unprocessable("SIGN-NO-ARRIVAL")


def moment(text) -> datetime | None:
    """A moment with its offset from UTC; None for anything else, and for one whose UTC is outside the calendar."""
    found = with_offset(text)
    try:
        return found and found.astimezone(UTC) and found
    except OverflowError:
        return None


def with_offset(text) -> datetime | None:
    """The same, of whatever year."""
    try:
        found = datetime.fromisoformat(text)
    except (TypeError, ValueError):
        return None
    return found if found.tzinfo is not None else None


def need_decisions(entered: InspectionDocument, judgement: dict) -> None:
    """Nothing, when every entry is usable and every line decided, with a reason where it departs.

    Raises
    ------
    Unprocessable
        SIGN-UNUSABLE, SIGN-NO-DECISION, SIGN-NOT-COUNTED, SIGN-NO-REASON, SIGN-NOT-BALANCED, SIGN-CONTRADICTS.
    """
    if judgement["unusable"]:
        entries = [{**entry, "sentence": unusable_sentence(entry)} for entry in judgement["unusable"]]
        first = entries[0]
        raise Unprocessable(
            "SIGN-UNUSABLE", count=len(entries), path=first["path"], why=first["sentence"], entries=entries
        )
    for number, (line, judged) in enumerate(zip(entered.lines, judgement["lines"], strict=True), start=1):
        _need_decision(number, line, judged["suggestion"])


def unusable_sentence(entry: dict) -> str:
    """The sentence of an entry that the judgement lists as unusable."""
    places = {name: str(value) for name, value in entry.get("facts", {}).items()}
    return filled(WORDS["unusable"].get(entry["code"], entry["code"]), places)


def _need_decision(number: int, line: Line, suggestion: str) -> None:
    decision = line.decision
    if decision is None or decision.kind not in Decision.values:
        raise Unprocessable("SIGN-NO-DECISION", line=number)
    if line.cartons_counted is None:
        raise Unprocessable("SIGN-NOT-COUNTED", line=number)
    if decision.kind != suggestion and not (decision.reason or "").strip():
        raise Unprocessable("SIGN-NO-REASON", line=number)
    _need_balance(number, decision, line.cartons_counted)


def _need_balance(number: int, decision: Decided, counted: int) -> None:
    parts = {"accepted": decision.accepted, "refused": decision.refused, "held": decision.held}
    if sum(parts.values()) != counted or min(parts.values()) < 0:
        raise Unprocessable("SIGN-NOT-BALANCED", line=number, counted=counted, sum=sum(parts.values()), **parts)
    taken, kind = decision.accepted, decision.kind
    if (kind == Decision.REJECT and taken) or (kind == Decision.ACCEPT and counted and not taken):
        raise Unprocessable("SIGN-CONTRADICTS", line=number, decision=Decision(kind).label)


def _need_signatures(signatures: Signatures) -> None:
    driver = signatures.driver
    if not _is_signed(signatures.receiver):
        raise Unprocessable("SIGN-NO-RECEIVER")
    if not (driver and driver.has_declined) and not _is_signed(driver):
        raise Unprocessable("SIGN-NO-DRIVER")


def _is_signed(signature: Signature | Driver | None) -> bool:
    return bool(signature and signature.strokes and (signature.name or "").strip())
