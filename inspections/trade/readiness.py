"""What must still be checked before a line is ready for a verdict?

Missing is never a pass (CV-0-06): cartons counted, as many opened as the plan asks, three product temperatures
over the delivery (CV-12-17), liner and black spot in each opened carton, one count and one label a line.
Does not hold back a fault that was found: that counts even when other checks are missing.
"""

from __future__ import annotations

from .carton import CartonJudged
from .facts import DeliveryFacts, LineFacts
from .findings import NOT_CHECKED
from .limits import Limits
from .registry import CHECKS

# Checks of every opened carton, in the order in which they are asked for.
_EVERY_CARTON = tuple(check.answers for check in CHECKS if check.every_carton)


def needed_for(line: LineFacts, cartons: list[CartonJudged], planned: int, has_readings: bool) -> list[str]:
    """Checks that must be made before the line is ready, in the order in which they are asked for.

    Parameters
    ----------
    line : LineFacts
    cartons : list of CartonJudged
    planned : int
        Cartons that the plan opens.
    has_readings : bool
        Whether the delivery has enough product temperatures, see ``has_enough_readings``.
    """
    needed = []
    if line.cartons_counted is None:
        needed.append("cartons_counted")
    if len(cartons) < planned:
        needed.append("cartons_opened")
    if not has_readings:
        needed.append("product_readings")
    for name in _EVERY_CARTON:
        if any(carton.judged.checks.get(name) == NOT_CHECKED for carton in cartons):
            needed.append(name)
    if cartons and all(carton.judged.derived.get("count_per_lb") is None for carton in cartons):
        needed.append("count")
    if cartons and all(carton.facts.label is None for carton in cartons):
        needed.append("label")
    return needed


def not_checked_in(needed: list[str], cartons: list[CartonJudged]) -> list[str]:
    """What must be checked first, then every check that was left out in a carton, each once."""
    names = list(needed)
    for carton in cartons:
        for name, state in carton.judged.checks.items():
            if state == NOT_CHECKED and name not in names:
                names.append(name)
    return names


def has_enough_readings(delivery: DeliveryFacts, limits: Limits) -> bool:
    """Three product readings over the delivery's opened cartons, or one each where fewer are open (CV-12-17)."""
    cartons = [carton for line in delivery.lines for carton in line.cartons]
    readings = sum(1 for carton in cartons if carton.product_c is not None and carton.probe != "surface")
    asked = limits["product_readings"].bound or 0.0
    return readings >= min(asked, len(cartons))
