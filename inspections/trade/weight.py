"""Is there as much prawn in the carton as was paid for?

One unit is weighed with and without its glaze; the net weight is the weight without (CV-4-10). How much a single
unit may be short, and how the mean of the units is judged, follows the market of the specification: Codex asks
for a mean not under the declared weight and for no unreasonable shortage (CXS 92-1981 §9, no number, CV-1-38);
EU and ANZ by 76/211/EEC and OIML R 87 (T1 noted, beyond T2 a fault, mean less its sample allowance); the United
States by NIST Handbook 133 (MAV, mean with the sample correction factor). For Codex the shortage of one unit is
held against the table of OIML R 87, as the standard leaves the number open.
A kitchen weighs one to three units, so this is a screening, not a legal net-contents test (CV-4-98). The formulas
are in ``glaze`` and ``shortage``, the steps in ``data/procedures.json``.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from .answer import Beyond, CannotTell, Within
from .carton_facts import CartonFacts
from .facts import LineFacts
from .findings import BEYOND, CANNOT_TELL, NOT_CHECKED, WITHIN, Finding, Judged
from .glaze import glaze_percent, glazed_g, judge_glaze
from .limits import Limits
from .shortage import (
    ROUNDING_G,
    is_short_beyond,
    judge_average_eu,
    judge_average_us,
    short_percent,
    shortage_g,
    spread_of_units,
    tolerance_for,
)
from .specification import Ordered

# Heavier than one and a half declared units: more than one unit was on the scale.
MOST_UNITS_ON_SCALE = 1.5
# Heaviest first: the first bound that a shortage is past gives the finding.
UNIT_STEPS = {
    "MAV": (("net_unit.mav", "NET-UNIT"),),
    "T": (("net_unit.t2", "NET-UNIT"), ("net_unit.t1", "NET-UNIT-NOTE")),
}
_MEANS: dict[str, tuple[Callable[[float, list[float]], Within | Beyond | CannotTell], str]] = {
    "US": (judge_average_us, "net_mean.us"),
    "EU": (judge_average_eu, "net_mean.eu"),
    "ANZ": (judge_average_eu, "net_mean.eu"),
}


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


def judge_weight(carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> Judged:
    """Net weight of the weighed unit and its glaze against what was declared.

    Returns
    -------
    Judged
        Checks ``net_weight`` and ``glaze``; derived ``net_g``, ``net_short_g`` (negative is over) and
        ``glaze_percent``, each None when it was not weighed.
    """
    judged = Judged()
    _judge_net_weight(judged, carton, ordered_by, limits)
    _judge_glaze(judged, carton, ordered_by, limits)
    return judged


def _judge_net_weight(judged: Judged, carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> None:
    net_g, declared_g = carton.deglazed_g, ordered_by.unit_net_g
    judged.derived["net_g"], judged.derived["net_short_g"] = net_g, None
    if net_g is None:
        judged.leave("net_weight")
        return
    facts: dict[str, Any] = {"net_g": net_g, "declared_g": declared_g}
    if not is_one_unit(net_g, ordered_by):
        judged.checks["net_weight"] = CANNOT_TELL
        judged.findings.append(Finding("NET-UNLIKELY", limits["net_unlikely"], net_g, "g", facts=facts))
        return
    short_g = shortage_g(declared_g, net_g)
    judged.derived["net_short_g"] = short_g
    tolerance = tolerance_for(ordered_by.market, declared_g)
    if tolerance is not None:
        facts |= {"tolerable_g": tolerance.tolerable_g, "table": tolerance.table, "table_known": tolerance.known}
        _judge_unit(judged, facts, limits)
    elif short_g > 0.0:
        judged.checks["net_weight"] = CANNOT_TELL
        judged.findings.append(Finding("NET-NO-TABLE", limits["net_unit.no_table"], short_g, "g", facts=facts))
    else:
        judged.checks["net_weight"] = WITHIN


def _judge_unit(judged: Judged, facts: dict[str, Any], limits: Limits) -> None:
    judged.checks["net_weight"] = WITHIN
    for code, finding in UNIT_STEPS[facts["table"]]:
        limit = limits[code]
        bound_g = (limit.bound or 0.0) * facts["tolerable_g"]
        if is_short_beyond(facts["declared_g"], facts["net_g"], bound_g):
            short_g = judged.derived["net_short_g"]
            judged.checks["net_weight"] = BEYOND
            judged.findings.append(Finding(finding, limit, short_g, "g", bound_g, limit.sense, facts))
            return


def _judge_glaze(judged: Judged, carton: CartonFacts, ordered_by: Ordered, limits: Limits) -> None:
    percent = glaze_share_percent(carton)
    judged.derived["glaze_percent"] = percent
    with_glaze_g, without_glaze_g = glazed_weight_g(carton), carton.deglazed_g
    if percent is None or with_glaze_g is None or without_glaze_g is None:
        is_backwards = with_glaze_g is not None and without_glaze_g is not None
        judged.checks["glaze"] = CANNOT_TELL if is_backwards else NOT_CHECKED
        return
    declared = ordered_by.declared_glaze_percent
    limit = limits["glaze_over_percent"]
    judged.checks["glaze"] = WITHIN
    if declared is None:
        return
    answer = judge_glaze(with_glaze_g, without_glaze_g, max(declared, 0.0), limit.bound or 0.0)
    if isinstance(answer, Beyond):
        judged.checks["glaze"] = BEYOND
        over = answer.facts["over_points"]
        facts = {"glaze_percent": percent, "declared_percent": declared}
        facts |= {"glazed_g": with_glaze_g, "deglazed_g": without_glaze_g}
        judged.findings.append(Finding("GLAZE-OVER", limit, over, limit.unit, limit.bound, limit.sense, facts))


def weighed_units(line: LineFacts, ordered_by: Ordered) -> list[float]:
    """Net weights of the units weighed, g, in the order opened; those that cannot be one unit are left out."""
    weights = (carton.deglazed_g for carton in line.cartons)
    return [net_g for net_g in weights if net_g is not None and is_one_unit(net_g, ordered_by)]


def mean_net(line: LineFacts, ordered_by: Ordered) -> float | None:
    """Mean net weight of the units weighed, g; None without any."""
    found_g = weighed_units(line, ordered_by)
    total_g = 0.0
    for net_g in found_g:
        total_g = total_g + net_g
    return total_g / len(found_g) if found_g else None


def mean_findings(line: LineFacts, ordered_by: Ordered, limits: Limits) -> list[Finding]:
    """The mean net weight of the weighed units of a line against the declared one, by the market's rule.

    Returns
    -------
    list of Finding
        None when the mean is not short by more than the contract tolerates (``net_mean_short_percent``);
        NET-MEAN, short; NET-MEAN-UNSURE, short by less than the sample allowance; NET-ONE-UNIT, one unit
        cannot tell a mean. Measured is the mean shortage, g.
    """
    found_g, declared_g = weighed_units(line, ordered_by), ordered_by.unit_net_g
    mean_g, tolerated = mean_net(line, ordered_by), limits["net_mean_short_percent"]
    if mean_g is None or tolerated.is_fine(short_percent(mean_g, declared_g)):
        return []
    spread = spread_of_units(declared_g, found_g)
    short_g = -spread.mean_error_g
    if not short_g > ROUNDING_G:
        return []
    facts = {"mean_g": mean_g, "declared_g": declared_g, "units": spread.units, "deviation_g": spread.deviation_g}
    if ordered_by.market not in _MEANS:
        bound_g = declared_g * (tolerated.bound or 0.0) / 100.0
        return [Finding("NET-MEAN", tolerated, short_g, "g", bound_g, "at_most", facts)]
    judge, code = _MEANS[ordered_by.market]
    answer = judge(declared_g, found_g)
    if isinstance(answer, CannotTell):
        return [Finding("NET-ONE-UNIT", limits["net_mean.unsure"], short_g, "g", facts=facts)]
    allowance_g = answer.facts["allowance_g"]
    facts |= {"factor": answer.facts["factor"], "allowance_g": allowance_g}
    if isinstance(answer, Beyond):
        return [Finding("NET-MEAN", limits[code], short_g, "g", allowance_g, "at_most", facts)]
    unsure = limits["net_mean.unsure"]
    return [Finding("NET-MEAN-UNSURE", unsure, short_g, "g", allowance_g, "at_most", facts)]
