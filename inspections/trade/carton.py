"""What does one opened carton show, all judgements together?

Temperature first (CV-5-30 to CV-5-35), then condition, species, label, weight and count; each against the
limits of the set with the specification's own bounds laid over.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .carton_facts import CartonFacts
from .condition import judge_condition
from .findings import Judged
from .labels import judge_labels
from .limits import Limits
from .severity_ranking import effect, is_fault
from .size import judge_size
from .species import judge_species
from .specification import Ordered
from .temperature import judge_probe
from .weight import judge_weight
from .wording import WORDS


@dataclass(frozen=True)
class CartonJudged:
    """One carton with everything found in it."""

    facts: CartonFacts
    judged: Judged

    @property
    def is_defective(self) -> bool:
        """Whether it has a fault of its own: counted once, on one or several grounds (CV-1-34); short value is none."""
        return any(is_fault(finding) for finding in self.judged.findings)

    def leads_to(self, *effects: str) -> bool:
        """Whether any of its findings leads to one of these."""
        return any(effect(finding) in effects for finding in self.judged.findings)

    @property
    def settled_by(self) -> str:
        """What settles the carton whatever else it shows, as a key of the words ``settled``; "" while nothing does."""
        if self.leads_to("hazard"):
            return "carton_hazard"
        return "carton" if self.leads_to("unfit", "sort_refuse") else ""


def judge_carton(
    carton: CartonFacts, ordered_by: Ordered, docket_lot: str, arrived_day: int | None, limits: Limits
) -> CartonJudged:
    """Everything that one opened carton shows.

    Parameters
    ----------
    carton : CartonFacts
    ordered_by : Ordered
    docket_lot : str
    arrived_day : int or None
    limits : Limits
        With the specification's own bounds laid over.
    """
    judged = judge_probe(carton, arrived_day, limits)
    judged.join(judge_condition(carton, ordered_by, limits))
    judged.join(judge_species(carton, ordered_by.species_code, limits))
    judged.join(judge_labels(carton, ordered_by, docket_lot, arrived_day, limits))
    judged.join(judge_weight(carton, ordered_by, limits))
    judged.join(judge_size(carton, ordered_by, limits))
    return CartonJudged(carton, judged)


def carton_json(judged: CartonJudged, reasons: list[dict[str, Any]]) -> dict[str, Any]:
    """One carton as the verdict's JSON, with its reasons already ordered."""
    return {
        "carton_id": judged.facts.id,
        "position": judged.facts.position,
        "defective": judged.is_defective,
        "settled": WORDS["settled"].get(judged.settled_by, ""),
        "reasons": reasons,
        "checks": judged.judged.checks,
        "derived": judged.judged.derived,
    }
