"""What would signed deliveries have come to under another set of limits, or another plan of opening cartons?

Method: each signed delivery is judged twice by today's edition, from its sealed document: under the limits and plan of
its own, and under those that are tried. So a difference comes of limits or plan alone. What was never opened cannot be
judged: a line whose tried plan asks for more cartons than were opened is not told. A carton is bad where the tried
limits give it a fault. Where every carton of a line was opened, the bad ones that are refused or held are counted;
elsewhere they are estimated: the share bad among opened cartons times those that stayed closed, with Wilson's interval
(95 %). Does not hold: as a promise. Cartons of one delivery resemble each other, so the truth may lie further off than
the interval; a receiver who measures differently under other limits is not foreseen.
"""
from collections import Counter
from collections.abc import Iterable, Iterator
from copy import deepcopy
from dataclasses import dataclass, field
from typing import Any

from django.db.models import QuerySet

from inspections.errors import Unprocessable
from inspections.records.judging import limit_set_of, versions_of
from inspections.records.models import Delivery
from inspections.trade.intervals import wilson
from inspections.trade.limits import PLANS, UnusableLimits, limits_from_json
from inspections.trade.quantities import UnusablePlan
from inspections.trade.sampling import plan_for
from inspections.trade.verdict import judge_document

#: A page waits for its answer. Measured on two cores with deliveries of one line: 7 ms of work each, judged twice, so
#: 300 take 2 s on a quiet machine, and took 5 s beside heavy work; more lines and cartons take longer in proportion.
MOST_DELIVERIES = 300
MOST_CHANGED = 200


@dataclass
class Side:
    """Cartons of all lines told, under one set: refused, held, opened, bad among them; and where all were opened."""

    refused: int = 0
    held: int = 0
    opened: int = 0
    bad: int = 0
    known_bad: int = 0
    known_caught: int = 0
    closed_taken: int = 0
    opened_in_taken: int = 0
    bad_in_taken: int = 0
    suggestions: Counter[str] = field(default_factory=Counter)

    def add(self, line: dict[str, Any]) -> None:
        """Count one judged line."""
        sampling, split = line["sampling"], line["suggested_split"] or {"accepted": 0, "refused": 0, "held": 0}
        opened, bad, lot = sampling["opened"], sampling["defective"], sampling["lot"] or 0
        back = split["refused"] + split["held"]
        self.suggestions[line["suggestion"]] += 1
        self.refused, self.held = self.refused + split["refused"], self.held + split["held"]
        self.opened, self.bad = self.opened + opened, self.bad + bad
        if 0 < lot <= opened:
            self.known_bad, self.known_caught = self.known_bad + bad, self.known_caught + min(bad, back)
        elif split["accepted"]:
            self.closed_taken += min(split["accepted"], lot - opened)
            self.opened_in_taken, self.bad_in_taken = self.opened_in_taken + opened, self.bad_in_taken + bad

    def missed(self) -> tuple[float, float, float] | None:
        """Bad cartons among those taken unopened, with the ends of the interval; None where nothing was opened."""
        if not self.opened_in_taken:
            return None
        low, high = wilson(self.bad_in_taken, self.opened_in_taken)
        share = self.bad_in_taken / self.opened_in_taken
        return share * self.closed_taken, low * self.closed_taken, high * self.closed_taken


@dataclass(frozen=True)
class Changed:
    """A line whose suggestion or split would be another."""

    delivery: Delivery
    line: int
    before: str
    after: str
    refused_before: int
    refused_after: int


@dataclass
class Tried:
    """What the trial came to; ``not_told`` lines ask for cartons that nobody opened."""

    deliveries: int = 0
    lines: int = 0
    not_told: int = 0
    before: Side = field(default_factory=Side)
    after: Side = field(default_factory=Side)
    changed: list[Changed] = field(default_factory=list)


def try_limits(deliveries: Iterable[Delivery], limits: dict[str, Any] | None, plan: str = "") -> Tried:
    """Judge signed deliveries under their own limits and plan, and under others.

    Parameters
    ----------
    deliveries : iterable of Delivery
    limits : dict, optional
        A limit set, as published; None leaves each its own.
    plan : str
        Name of a sampling plan; "" leaves each line its own.

    Raises
    ------
    UnusableLimits
        The set cannot be judged by; nothing was tried.
    """
    tried = Tried()
    for delivery in deliveries:
        document, own = delivery.document, limit_set_of(delivery.document).to_json()
        specifications = [version.to_json() for version in versions_of(document).values()]
        other = _under(document, specifications, plan) if plan else document
        before = judge_document(document, specifications, own)["lines"]
        after = judge_document(other, specifications, limits or own)["lines"]
        tried.deliveries += 1
        for number, pair in enumerate(zip(before, after, strict=True), start=1):
            _compare(tried, delivery, number, *pair)
    return tried


def trial_json(deliveries: QuerySet[Delivery], limits: dict[str, Any] | None, plan: str) -> dict[str, Any]:
    """A trial for the desk (``answers.Trial``).

    Raises
    ------
    Unprocessable
        TRIAL-NOTHING, TRIAL-MANY, LIMITS-PLAN, LIMITS-01 to LIMITS-07: nothing was judged.
    """
    if not limits and not plan:
        raise Unprocessable("TRIAL-NOTHING")
    if plan and plan not in PLANS:
        raise Unprocessable("LIMITS-PLAN", plan=plan, known=", ".join(PLANS))
    count = deliveries.count()
    if count > MOST_DELIVERIES:
        raise Unprocessable("TRIAL-MANY", count=count, most=MOST_DELIVERIES)
    try:
        if limits:
            limits_from_json(limits)
    except UnusableLimits as trouble:
        raise Unprocessable(trouble.code, **trouble.facts) from trouble
    tried = try_limits(deliveries.order_by("arrived_at", "pk"), limits, plan)
    return {
        "deliveries": tried.deliveries, "lines": tried.lines, "not_told": tried.not_told,
        "before": _side_json(tried.before), "after": _side_json(tried.after),
        "changed": [_change_json(one) for one in tried.changed[:MOST_CHANGED]], "changed_count": len(tried.changed),
    }


def _side_json(side: Side) -> dict[str, Any]:
    names = ("refused", "held", "opened", "bad", "known_bad", "known_caught")
    found = side.missed()
    missed = None if found is None else {**dict(zip(("about", "low", "high"), found, strict=True)),
                                         "closed": side.closed_taken}
    return {"suggestions": dict(side.suggestions), **{name: getattr(side, name) for name in names}, "missed": missed}


def _change_json(one: Changed) -> dict[str, Any]:
    return {
        "delivery_id": str(one.delivery.pk), "docket_number": one.delivery.docket_number,
        "arrived_at": one.delivery.arrived_at.isoformat(), "line": one.line, "before": one.before, "after": one.after,
        "refused_before": one.refused_before, "refused_after": one.refused_after,
    }


def _compare(tried: Tried, delivery: Delivery, number: int, before: dict[str, Any], after: dict[str, Any]) -> None:
    tried.lines += 1
    if "cartons_opened" in after["needed"]:
        tried.not_told += 1
        return
    tried.before.add(before)
    tried.after.add(after)
    one, other = (line["suggested_split"] or {"refused": 0} for line in (before, after))
    if (before["suggestion"], one) != (after["suggestion"], other):
        tried.changed.append(Changed(
            delivery, number, before["suggestion"], after["suggestion"], one["refused"], other["refused"]))


def _under(document: dict[str, Any], specifications: list[dict[str, Any]], plan: str) -> dict[str, Any]:
    """The document with each line drawn by another plan; the cartons opened stay those that were."""
    other, units = deepcopy(document), {one["id"]: _unit_g(one) for one in specifications}
    for line in other["lines"]:
        lot = line.get("cartons_counted")
        if lot:
            try:
                asked = plan_for(plan, lot, units.get(line["specification_id"]))
            except UnusablePlan:
                continue
            line["sampling"] = {**(line.get("sampling") or {}), "plan": plan, "n": asked.n,
                                "acceptance": asked.acceptance}
    return other


def _unit_g(specification: dict[str, Any]) -> float | None:
    net_g, units = specification.get("carton_net_g"), specification.get("units_per_carton")
    return net_g / units if net_g and units else None


def table_of(tried: Tried) -> Iterator[tuple[str, str, str]]:
    """Rows of the plain table: what, before, after."""
    before, after = tried.before, tried.after
    for kind in ("accept", "accept_with_allowance", "hold", "reject", "not_yet"):
        yield f"lines: {kind.replace('_', ' ')}", str(before.suggestions[kind]), str(after.suggestions[kind])
    yield "cartons refused", str(before.refused), str(after.refused)
    yield "cartons held", str(before.held), str(after.held)
    yield "opened cartons bad", f"{before.bad} of {before.opened}", f"{after.bad} of {after.opened}"
    yield "bad ones refused or held, where all were opened", _caught(before), _caught(after)
    yield "bad ones taken unopened, estimated (95 % interval)", _estimate(before), _estimate(after)


def _caught(side: Side) -> str:
    return f"{side.known_caught} of {side.known_bad}"


def _estimate(side: Side) -> str:
    found = side.missed()
    if found is None:
        return "nothing was taken unopened"
    about, low, high = found
    return f"{about:.0f} of {side.closed_taken} ({low:.0f} to {high:.0f})"
