"""Is there as much prawn in the carton as was paid for?

One unit is weighed with and without its glaze; the net weight is the weight without (CV-4-10). A single unit
may be short by the tolerance, the mean of the weighed units may not be short at all (CXS 92-1981 §9,
CV-1-37). A kitchen weighs one to three units, so this is a screening, not a legal net-contents test
(CV-4-98). The procedures and the published tolerance tables are in ``glaze``.
"""

from __future__ import annotations

from .facts import CartonFacts
from .findings import BEYOND, CANNOT_TELL, WITHIN, Finding, Judged
from .glaze import glaze_percent, glazed_g
from .limits import Limits
from .specification import Ordered

# Heavier than one and a half declared units: more than one unit was on the scale.
MOST_UNITS_ON_SCALE = 1.5


def glazed_weight_g(carton: CartonFacts) -> float | None:
    """Weight of the unit with its glaze, g: as weighed, or gross less tare (CV-4-02)."""
    if carton.glazed_g is not None:
        return carton.glazed_g
    if carton.gross_g is None or carton.tare_g is None or carton.gross_g <= carton.tare_g:
        return None
    return glazed_g(carton.gross_g, carton.tare_g)


def glaze_share_percent(carton: CartonFacts) -> float | None:
    """Glaze found, percent of the glazed weight (CV-4-03); None when not both were weighed, or more without."""
    with_glaze_g, without_glaze_g = glazed_weight_g(carton), carton.deglazed_g
    if with_glaze_g is None or without_glaze_g is None or without_glaze_g > with_glaze_g:
        return None
    return glaze_percent(with_glaze_g, without_glaze_g)


def is_one_unit(net_g: float, ordered_by: Ordered) -> bool:
    """Whether a net weight can be that of one unit."""
    return net_g <= ordered_by.unit_net_g * MOST_UNITS_ON_SCALE


def short_percent(net_g: float, declared_g: float) -> float:
    """How far a net weight is under the declared one, percent of the declared; negative = over (CV-4-07)."""
    return 100.0 * (declared_g - net_g) / declared_g


def judge_weight(carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> Judged:
    """Net weight of the weighed unit and its glaze against what was declared.

    Returns
    -------
    Judged
        Checks ``net_weight`` and ``glaze``; derived ``net_g``, ``glaze_percent``.
    """
    judged = Judged()
    _judge_net_weight(judged, carton, ordered_by, limits)
    _judge_glaze(judged, carton, ordered_by, limits)
    return judged


def _judge_net_weight(judged: Judged, carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> None:
    net_g, declared_g = carton.deglazed_g, ordered_by.unit_net_g
    judged.derived["net_g"] = net_g
    if net_g is None:
        judged.leave("net_weight")
        return
    facts = {"net_g": net_g, "declared_g": declared_g}
    if not is_one_unit(net_g, ordered_by):
        judged.checks["net_weight"] = CANNOT_TELL
        judged.findings.append(Finding("NET-UNLIKELY", limits["net_unlikely"], net_g, "g", facts=facts))
        return
    judged.measure("net_weight", short_percent(net_g, declared_g), "NET-UNIT", limits["net_unit_short_percent"], facts)


def _judge_glaze(judged: Judged, carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> None:
    percent = glaze_share_percent(carton)
    judged.derived["glaze_percent"] = percent
    if percent is None:
        is_backwards = glazed_weight_g(carton) is not None and carton.deglazed_g is not None
        judged.checks["glaze"] = CANNOT_TELL if is_backwards else "not_checked"
        return
    declared = ordered_by.declared_glaze_percent
    if declared is None:
        judged.checks["glaze"] = WITHIN
        return
    limit = limits["glaze_over_percent"]
    over = percent - declared
    judged.checks["glaze"] = WITHIN if limit.is_fine(over) else BEYOND
    if not limit.is_fine(over):
        facts = {"glaze_percent": percent, "declared_percent": declared}
        judged.findings.append(Finding("GLAZE-OVER", limit, over, limit.unit, limit.bound, limit.sense, facts))
