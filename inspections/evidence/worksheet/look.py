"""What the rows and sums of one opened carton are made from: the sealed entries, numbers and limits."""
from dataclasses import dataclass, replace
from typing import Any

from inspections.evidence.worksheet.earlier import FIRST_TO_REACH
from inspections.trade.basis import Basis
from inspections.trade.carton_facts import CartonFacts
from inspections.trade.facts import LineFacts
from inspections.trade.limits import Limit, Limits, limits_from_json
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
    version: int

    def number(self, name: str) -> float | None:
        """A derived number of the sealed judgement."""
        return self.derived.get(name)

    def edition(self, limit: Limit) -> str:
        """Whose bound it is, where the specification laid its own over the group's."""
        own = own_bounds(self.ordered)
        return "own" if limit.code in own and own[limit.code] == limit.bound else ""


def sealed_limits(data: dict[str, Any], version: int) -> Limits:
    """The limits that a record was judged by.

    A set sealed with an earlier edition of the judgement is read as it stands: it has limits that are no longer
    kept, and lacks later ones, which the present edition would read with their shipped bounds.
    """
    if version >= FIRST_TO_REACH:
        return limits_from_json(data)
    return Limits(str(data.get("id", "")), {entry["code"]: _as_it_stands(entry) for entry in data["limits"]})


def _as_it_stands(entry: dict[str, Any]) -> Limit:
    basis = Basis(*(entry["basis"].get(key, "") for key in ("source", "known", "cv", "words")))
    return Limit(entry["code"], entry["bound"], entry["unit"], entry["sense"], entry["severity"], basis)


def own_bounds(ordered: Ordered) -> dict[str, Any]:
    """The bounds that a specification lays over those of the limit set."""
    bounds = dict(ordered.overrides)
    if ordered.min_life_share is not None:
        bounds.setdefault("life_share", ordered.min_life_share)
    return bounds


def limits_in_force(ordered: Ordered, limits: Limits, unusable: list[dict[str, Any]]) -> Limits:
    """The sealed set with the specification's own bounds, unless the judgement could not use those (SPEC-01)."""
    if any(entry["code"] == "SPEC-01" and entry["path"] == f"specifications.{ordered.id}.overrides"
           for entry in unusable):
        return limits
    # A bound of a limit that is no longer kept has nothing to lie over.
    own = {code: replace(limits[code], bound=bound + 0.0) for code, bound in own_bounds(ordered).items()
           if code in limits.by_code}
    return Limits(limits.id, {**limits.by_code, **own})
