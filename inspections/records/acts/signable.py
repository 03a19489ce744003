"""May this document be signed? Every reason why not, one sentence each, in the order of the walk."""
import json
from datetime import UTC, datetime

from inspections.errors import CannotUse, add_sentences
from inspections.people.access import need_site
from inspections.people.models import Person, Site
from inspections.records.judging import is_id
from inspections.records.models import Decision, Order, Supplier
from inspections.trade.wording import WORDS, filled

KEPT = "Your entries are saved."
LONGEST_DOCKET = 60
LONGEST_LOT = 80  # GS1 allows 20 signs, papers carry more
add_sentences({
    "SIGN-NOT-A-DOCUMENT": f"The delivery did not arrive in a shape that can be signed ({{what}}). {KEPT} "
    "Update the app on the phone and sign again.",
    "SIGN-NO-SUPPLIER": f"No supplier is chosen that this server knows. {KEPT} Choose the supplier and sign again.",
    "SIGN-NO-ORDER": f"The order named here is not one of this site's with this supplier. {KEPT} "
    "Choose the order again, or go on without one.",
    "SIGN-NO-DOCKET": f"The docket number is missing. {KEPT} Enter it as it stands on the paper.",
    "SIGN-LONG-DOCKET": f"The docket number is longer than {{most}} signs. {KEPT} Enter the number alone.",
    "SIGN-NO-ARRIVAL": f"The time of arrival is missing or cannot be read. {KEPT} Enter when the goods came.",
    "SIGN-NO-LINES": f"There is no line on this delivery. {KEPT} Add what is on the docket.",
    "SIGN-LONG-LOT": f"A lot number of line {{line}} is longer than {{most}} signs. {KEPT} Enter the lot number alone.",
    "SIGN-UNUSABLE": f"{{count}} of the entries cannot be used. {KEPT} Go to {{path}}: {{why}}",
    "SIGN-NO-DECISION": f"Line {{line}} has no decision yet. {KEPT} Decide it and sign again.",
    "SIGN-NOT-COUNTED": f"The cartons of line {{line}} are not counted. {KEPT} Count them and enter the number.",
    "SIGN-NO-REASON": f"Line {{line}} was decided otherwise than suggested, without a reason. {KEPT} Enter the reason.",
    "SIGN-NOT-BALANCED": f"Line {{line}}: {{accepted}} accepted, {{refused}} refused and {{held}} held make {{sum}}, "
    f"but {{counted}} cartons were counted. {KEPT} Correct the numbers.",
    "SIGN-CONTRADICTS": f"Line {{line}} is decided as “{{decision}}”, but its numbers say otherwise. {KEPT} "
    "Correct the numbers or the decision.",
    "SIGN-NO-RECEIVER": f"The receiver's signature is missing. {KEPT} Sign, then send again.",
    "SIGN-NO-DRIVER": f"The driver's signature is missing. {KEPT} Let the driver sign, or note why the driver did not.",
})


def need_signable(document: dict, person: Person) -> Site:
    """The site, when everything but the judgement itself allows signing.

    Raises
    ------
    NotYours
        The site is not the person's.
    CannotUse
        SIGN-… with the number of the line where there is one.
    """
    _need_shape(document)
    site = need_site(person, document.get("site_id"))
    _need_head(document, site)
    _need_signatures(document)
    return site


def _need_shape(document: dict) -> None:
    if not isinstance(document, dict) or document.get("schema") != 1:
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="schema")
    if not is_text_kept(document):
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="a sign that cannot be stored")
    for name in ("id", "device_id"):
        if not is_id(document.get(name)):
            raise CannotUse("SIGN-NOT-A-DOCUMENT", what=name)
    if document.get("separate_from") and not is_id(document["separate_from"]):
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="separate_from")
    for name, kind in (("photos", list), ("wording", dict), ("signatures", dict)):
        if not isinstance(document.get(name) or kind(), kind):
            raise CannotUse("SIGN-NOT-A-DOCUMENT", what=name)
    _need_lines(document.get("lines"))


def _need_lines(lines) -> None:
    if not isinstance(lines, list) or not all(isinstance(line, dict) for line in lines):
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="lines")
    opened = [line.get("cartons") or [] for line in lines]
    if not all(isinstance(cartons, list) for cartons in opened):
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="cartons")
    cartons = [carton for cartons in opened for carton in cartons]
    if not all(isinstance(one, dict) and is_id(one.get("id")) for one in [*lines, *cartons]):
        raise CannotUse("SIGN-NOT-A-DOCUMENT", what="ids of lines and cartons")
    if not lines:
        raise CannotUse("SIGN-NO-LINES")
    for number, line in enumerate(lines, start=1):
        _need_short_lots(number, line)


def _need_short_lots(number: int, line: dict) -> None:
    labels = [carton.get("label") for carton in line.get("cartons") or []]
    lots = [line.get("lot"), *(label.get("lot") for label in labels if isinstance(label, dict))]
    if any(len(str(lot)) > LONGEST_LOT for lot in lots if lot):
        raise CannotUse("SIGN-LONG-LOT", line=number, most=LONGEST_LOT)


def is_text_kept(document: dict) -> bool:
    """Whether every database can keep the text: no NUL, and no half of a surrogate pair."""
    text = json.dumps(document, ensure_ascii=False)
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return "\\u0000" not in text


def _need_head(document: dict, site: Site) -> None:
    supplier_id, order_id = document.get("supplier_id"), document.get("order_id")
    if not is_id(supplier_id) or not Supplier.objects.filter(pk=supplier_id).exists():
        raise CannotUse("SIGN-NO-SUPPLIER")
    if order_id is not None:
        orders = Order.objects.filter(site=site, supplier_id=supplier_id)
        if not is_id(order_id) or not orders.filter(pk=order_id).exists():
            raise CannotUse("SIGN-NO-ORDER")
    docket = document.get("docket_number")
    if not isinstance(docket, str) or not docket.strip():
        raise CannotUse("SIGN-NO-DOCKET")
    if len(docket.strip()) > LONGEST_DOCKET:
        raise CannotUse("SIGN-LONG-DOCKET", most=LONGEST_DOCKET)
    if moment(document.get("arrived_at")) is None:
        raise CannotUse("SIGN-NO-ARRIVAL")


def moment(text) -> datetime | None:
    """A moment with its offset from UTC; None for anything else, and for one whose UTC is outside the calendar."""
    try:
        found = datetime.fromisoformat(text)
        found.astimezone(UTC)
    except (TypeError, ValueError, OverflowError):
        return None
    return found if found.tzinfo is not None else None


def need_decisions(document: dict, judgement: dict) -> None:
    """Nothing, when every entry is usable and every line decided, with a reason where it departs.

    Raises
    ------
    CannotUse
        SIGN-UNUSABLE, SIGN-NO-DECISION, SIGN-NOT-COUNTED, SIGN-NO-REASON, SIGN-NOT-BALANCED, SIGN-CONTRADICTS.
    """
    if judgement["unusable"]:
        entries = [{**entry, "sentence": unusable_sentence(entry)} for entry in judgement["unusable"]]
        first = entries[0]
        raise CannotUse(
            "SIGN-UNUSABLE", count=len(entries), path=first["path"], why=first["sentence"], entries=entries
        )
    for number, (line, judged) in enumerate(zip(document["lines"], judgement["lines"], strict=True), start=1):
        _need_decision(number, line, judged["suggestion"])


def unusable_sentence(entry: dict) -> str:
    """The sentence of an entry that the judgement lists as unusable."""
    places = {name: str(value) for name, value in entry.get("facts", {}).items()}
    return filled(WORDS["unusable"].get(entry["code"], entry["code"]), places)


def _need_decision(number: int, line: dict, suggestion: str) -> None:
    decision = line.get("decision")
    if not isinstance(decision, dict) or decision.get("kind") not in Decision.values:
        raise CannotUse("SIGN-NO-DECISION", line=number)
    counted = line.get("cartons_counted")
    if counted is None:
        raise CannotUse("SIGN-NOT-COUNTED", line=number)
    reason = decision.get("reason") or ""
    if not isinstance(reason, str) or (decision["kind"] != suggestion and not reason.strip()):
        raise CannotUse("SIGN-NO-REASON", line=number)
    _need_balance(number, decision, counted)


def _need_balance(number: int, decision: dict, counted: int) -> None:
    parts = {name: decision.get(name) or 0 for name in ("accepted", "refused", "held")}
    whole = all(type(part) is int and part >= 0 for part in parts.values())
    if not whole or sum(parts.values()) != counted:
        total = sum(parts.values()) if whole else "no whole number"
        raise CannotUse("SIGN-NOT-BALANCED", line=number, counted=counted, sum=total, **parts)
    taken, kind = parts["accepted"], decision["kind"]
    if (kind == Decision.REJECT and taken) or (kind == Decision.ACCEPT and counted and not taken):
        raise CannotUse("SIGN-CONTRADICTS", line=number, decision=Decision(kind).label)


def _need_signatures(document: dict) -> None:
    signatures = document.get("signatures") or {}
    if not _is_signed(signatures.get("receiver")):
        raise CannotUse("SIGN-NO-RECEIVER")
    if not _has_declined(signatures.get("driver")) and not _is_signed(signatures.get("driver")):
        raise CannotUse("SIGN-NO-DRIVER")


def _has_declined(driver) -> bool:
    if not isinstance(driver, dict) or driver.get("refused") is not True:
        return False
    return bool(str(driver.get("reason") or "").strip())


def _is_signed(signature) -> bool:
    if not isinstance(signature, dict):
        return False
    return bool(signature.get("strokes")) and bool(str(signature.get("name") or "").strip())
