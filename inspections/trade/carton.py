"""What does one opened carton show, all judgements together?

Temperature first (CV-5-30 to CV-5-35), then condition, species, label, weight and count; each against the
limits of the set with the specification's own bounds laid over. A surface reading never decides (CV-5-51).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .condition import judge_condition
from .facts import CartonFacts
from .findings import CANNOT_TELL, WITHIN, Finding, Judged
from .labels import judge_labels
from .limits import Limits
from .size import judge_size
from .species import judge_species
from .specification import Ordered
from .weighing import is_defect
from .weight import judge_weight

# Warmest first: the first bound that a reading is past gives the finding.
_COLD_STEPS = (
    ("product_c.reject", "TEMP-REJECT"),
    ("product_c.tolerance", "TEMP-OUTSIDE"),
    ("product_c.within", "TEMP-TOLERANCE"),
)


@dataclass(frozen=True)
class CartonJudged:
    """One carton with everything found in it."""

    facts: CartonFacts
    judged: Judged

    @property
    def is_defective(self) -> bool:
        """Counted once, on one or several grounds (CV-1-34); short value alone is no defect."""
        return any(is_defect(finding) for finding in self.judged.findings)


def judge_temperature(carton: CartonFacts, limits: Limits) -> Judged:
    """The product reading of a carton against the three bounds, warmest first.

    Returns
    -------
    Judged
        Check ``product_c``; derived ``product_c`` (°C or None). A surface reading is "cannot tell".
    """
    judged = Judged()
    measured = carton.product_c
    judged.derived["product_c"] = measured
    if measured is None:
        judged.leave("product_c")
    elif carton.probe == "surface":
        judged.checks["product_c"] = CANNOT_TELL
        judged.findings.append(Finding("TEMP-SURFACE", limits["product_c.surface"], measured, "C"))
    else:
        for code, finding in _COLD_STEPS:
            if judged.measure("product_c", measured, finding, limits[code]):
                break
        # Past -18 °C but inside the transport tolerance is within: noted, not a fault (CV-5-31).
        if limits["product_c.tolerance"].is_fine(measured):
            judged.checks["product_c"] = WITHIN
        _note_near_bound(judged, measured, limits)
    return judged


def _note_near_bound(judged: Judged, measured: float, limits: Limits) -> None:
    """A reading closer to a bound than the thermometer can tell is said to be near it (CV-5-35)."""
    accuracy = limits["product_c.accuracy"].bound
    for code, _ in _COLD_STEPS[:2]:
        bound = limits[code].bound
        if bound is not None and accuracy is not None and abs(measured - bound) < accuracy:
            limit = limits["product_c.accuracy"]
            judged.findings.append(
                Finding("TEMP-NEAR", limit, measured, "C", bound, limits[code].sense, {"accuracy_c": accuracy})
            )
            return


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
    judged = judge_temperature(carton, limits)
    judged.join(judge_condition(carton, limits))
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
        "reasons": reasons,
        "checks": judged.judged.checks,
        "derived": judged.judged.derived,
    }
