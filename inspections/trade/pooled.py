"""What do the opened cartons show together, where one carton's handful of prawns cannot tell?

Prawns affected and looked at are added over the opened cartons; the share is shown past its limit where the lower end
of its Wilson interval (95 %) is. A carton a little over the limit counts against the plan, but a line is refused for it
only where it is shown: else the goods keep their lower value. A limit of none is passed by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .carton import CartonJudged
from .findings import Finding
from .intervals import wilson
from .registry import CHECKS

# Code of a finding to the check whose prawns were counted.
KIND_OF: dict[str, str] = {
    outcome.code: check.name for check in CHECKS if check.type == "pieces" for outcome in check.outcomes
}


@dataclass(frozen=True)
class Pooled:
    """Prawns affected of prawns looked at over the opened cartons, with the lower end of the interval."""

    affected: int
    looked_at: int
    low: float

    @property
    def share(self) -> float:
        """Share affected, 0 to 1."""
        return self.affected / self.looked_at


def pooled_of(cartons: Sequence[CartonJudged], kind: str) -> Pooled | None:
    """The prawns of a kind over the cartons that were looked at for it; None without any."""
    affected, looked_at = 0, 0
    for carton in cartons:
        number, of = carton.facts.seen[kind], carton.facts.seen["looked_at"]
        if number is not None and of is not None:
            affected, looked_at = affected + number, looked_at + of
    return Pooled(affected, looked_at, wilson(affected, looked_at)[0]) if looked_at > 0 else None


def is_shown(finding: Finding, cartons: Sequence[CartonJudged]) -> bool:
    """Whether a fault is past its limit beyond chance: by its own carton's interval, or over all opened ones."""
    kind = KIND_OF.get(finding.code)
    if kind is None or "low" not in finding.facts or not finding.limit.is_fine(finding.facts["low"]):
        return True
    together = pooled_of(cartons, kind)
    return together is None or not finding.limit.is_fine(together.low)
