"""How a claim stands: read off its entries, one after the other, and who may say what next.

::

    drafted ─ send ─▶ sent ─ contest ─▶ contested ─ offer ─▶ offered ─ accept ─▶ agreed ─ credit ─▶ settled
                       └────────────── agree ───────────────────────────────▶┘

Either side offers, the other accepts or offers again. Only the kitchen withdraws, only before it is settled.
A question or a remark changes nothing. Nobody accepts an own offer.
"""
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from inspections.messages import message

DRAFTED, SENT, CONTESTED, OFFERED = "drafted", "sent", "contested", "offered"
AGREED, SETTLED, WITHDRAWN = "agreed", "settled", "withdrawn"
STATES = (DRAFTED, SENT, CONTESTED, OFFERED, AGREED, SETTLED, WITHDRAWN)
OPEN = (DRAFTED, SENT, CONTESTED, OFFERED, AGREED)
KITCHEN, SUPPLIER = "kitchen", "supplier"
_TALKED_OF = (SENT, CONTESTED, OFFERED)


@dataclass(frozen=True)
class Standing:
    """A claim after some entries; amounts in its currency, None while nobody named one."""

    state: str = DRAFTED
    claimed: Decimal | None = None
    offered: Decimal | None = None
    offered_by: str = ""
    agreed: Decimal | None = None
    credited: Decimal | None = None
    credit_note: str = ""


def state_words(state: str) -> str:
    """What a state is called, at the desk and on the supplier's page."""
    return message(f"claims-state-{state}")


def kind_words(kind: str) -> str:
    """What a kind of entry is called in the thread."""
    return message(f"claims-kind-{kind}")


def may_say(standing: Standing, side: str) -> tuple[str, ...]:
    """Kinds of entry that a side may add next."""
    state = standing.state
    if state == DRAFTED:
        return ("send",) if side == KITCHEN else ()
    if state in (SETTLED, WITHDRAWN):
        return ()
    talked = ("ask", "note")
    if state == AGREED:
        return (*talked, "credit") if side == KITCHEN else talked
    accept = ("accept",) if state == OFFERED and standing.offered_by != side else ()
    if side == KITCHEN:
        return (*accept, "offer", *talked, "withdraw")
    return ("agree", *accept, "contest", "offer", *talked)


def after(standing: Standing, entry: Mapping) -> Standing:
    """The standing once an entry (its sealed document) was added.

    >>> sent = after(Standing(), {"kind": "send", "side": "kitchen", "amount": "220.40"})
    >>> after(after(sent, {"kind": "offer", "side": "supplier", "amount": "150.00"}),
    ...       {"kind": "accept", "side": "kitchen"}).agreed
    Decimal('150.00')
    """
    kind = entry["kind"]
    amount = Decimal(entry["amount"]) if entry.get("amount") is not None else None
    match kind:
        case "send":
            return replace(standing, state=SENT, claimed=amount)
        case "agree":
            return replace(standing, state=AGREED, agreed=standing.claimed)
        case "contest":
            return replace(standing, state=CONTESTED)
        case "offer":
            return replace(standing, state=OFFERED, offered=amount, offered_by=entry["side"])
        case "accept":
            return replace(standing, state=AGREED, agreed=standing.offered)
        case "credit":
            return replace(standing, state=SETTLED, credited=amount, credit_note=entry["credit_note"])
        case "withdraw":
            return replace(standing, state=WITHDRAWN)
    return standing


def standing_of(entries: Iterable[Mapping]) -> Standing:
    """The standing after all entries, in their order."""
    standing = Standing()
    for entry in entries:
        standing = after(standing, entry)
    return standing
