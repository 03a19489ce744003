"""What the rows and sums of one opened carton are made from: the sealed entries, numbers and limits."""
from dataclasses import dataclass
from typing import Any

from inspections.trade.basis import Basis
from inspections.trade.facts import CartonFacts, LineFacts
from inspections.trade.limits import Limit, Limits, UnusableLimits, limits_for
from inspections.trade.specification import Ordered


@dataclass(frozen=True)
class Look:
    """One opened carton: as typed, as read, as judged, and what it was held against."""

    raw: dict[str, Any]
    facts: CartonFacts
    derived: dict[str, float | None]
    checks: dict[str, str]
    ordered: Ordered
    limits: Limits
    line: LineFacts
    arrived_day: int | None

    def number(self, name: str) -> float | None:
        """A derived number of the sealed judgement."""
        return self.derived.get(name)

    def edition(self, limit: Limit) -> str:
        """Whose bound it is, where the specification laid its own over the group's."""
        own = own_bounds(self.ordered)
        return "own" if limit.code in own and own[limit.code] == limit.bound else ""


def sealed_limits(data: dict) -> Limits:
    """The limits that were sealed, as they were: a set of an older judgement lacks limits that came later."""
    return Limits(str(data.get("id", "")), {
        entry["code"]: Limit(entry["code"], entry["bound"], entry["unit"], entry["sense"], entry["severity"],
                             Basis(*(entry["basis"].get(key, "") for key in ("source", "known", "cv", "words"))))
        for entry in data["limits"]
    })


def own_bounds(ordered: Ordered) -> dict[str, Any]:
    """The bounds that a specification lays over those of the limit set."""
    bounds = dict(ordered.overrides)
    if ordered.min_life_share is not None:
        bounds.setdefault("life_share", ordered.min_life_share)
    return bounds


def limits_in_force(ordered: Ordered, limits: Limits) -> Limits:
    """The set with the specification's own bounds; without them where they cannot be used (SPEC-01)."""
    try:
        return limits_for(limits, own_bounds(ordered))
    except UnusableLimits:
        return limits
