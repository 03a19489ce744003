"""Did as many cartons come as the docket states, and how did the load look on arrival?

Cartons are counted before signing; fewer are short value, more are noted (CV-12-04, CV-12-25). Vehicle air and the
state of the load prompt more probing and never decide (CV-5-40, CV-12-02).
"""

from __future__ import annotations

from .checks import judge_checks
from .facts import DeliveryFacts, LineFacts
from .findings import Finding, Judged
from .limits import Limits
from .temperature import judge_thermometer


def carton_count_findings(line: LineFacts, limits: Limits) -> list[Finding]:
    """Cartons short (against the group's limit) or over, of those on the docket."""
    docket, counted = line.cartons_on_docket, line.cartons_counted
    if docket is None or counted is None:
        return []
    limit, short = limits["cartons_short"], docket - counted
    facts = {"docket_cartons": docket, "counted_cartons": counted}
    if not limit.is_fine(short):
        measured, facts = short + 0.0, {**facts, "short": short}
        return [Finding("CARTONS-SHORT", limit, measured, limit.unit, limit.bound, limit.sense, facts)]
    if short < 0:
        return [Finding("CARTONS-OVER", limits["cartons_over"], facts={**facts, "over": -short})]
    return []


def vehicle_findings(delivery: DeliveryFacts, limits: Limits) -> list[Finding]:
    """Vehicle air, the thermometer that measured it, and the state of the load."""
    judged = Judged()
    judge_checks(judged, "vehicle", delivery.seen, limits)
    if delivery.seen["air_c"] is not None:
        judge_thermometer(judged, delivery.air_thermometer, delivery.arrived_day, limits, "air")
    return judged.findings
