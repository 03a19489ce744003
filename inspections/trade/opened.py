"""Were enough cartons opened, and what do the opened ones show?

The document carries the plan that was drawn. It is held against the plan's own table, so that a smaller
number or a larger acceptance number than the plan gives is not believed. Lot size is the cartons counted, or
those on the docket; where the two differ the easier one of the two plans is asked for. A plan with a second stage asks
for more cartons where the first count lies between its acceptance and its rejection number.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .basis import Basis
from .facts import LineFacts
from .quantities import UnusablePlan
from .sampling import PLAN_NAMES, Plan, plan_for, sampling_shown, second_stage
from .specification import Ordered


@dataclass(frozen=True)
class Stages:
    """Cartons to open and bad ones allowed: in the first stage, and in both together where there are two."""

    planned: int
    acceptance: int
    rejection: int
    total: int
    last_acceptance: int
    basis: Basis | None


def table_plans(line: LineFacts, unit_net_g: float) -> list[Plan]:
    """The drawn plan resolved for the cartons counted and for those on the docket."""
    plans: list[Plan] = []
    for lot in (line.cartons_counted, line.cartons_on_docket):
        if line.plan in PLAN_NAMES and lot is not None and lot > 0:
            try:
                plans.append(plan_for(line.plan, lot, unit_net_g))
            except UnusablePlan:
                continue
    return plans


def stages_of(line: LineFacts, ordered_by: Ordered) -> Stages:
    """Cartons to open (at least one, no more than counted), acceptance and rejection numbers.

    Parameters
    ----------
    line : LineFacts
    ordered_by : Ordered
        Gives the weight class of the Codex plans.
    """
    planned, acceptance = max(1, line.planned or 0), line.acceptance or 0
    plans = table_plans(line, ordered_by.unit_net_g)
    if plans:
        planned = max(planned, min(plan.n for plan in plans))
        acceptance = min(acceptance, max(plan.acceptance for plan in plans))
    if line.cartons_counted is not None:
        planned = min(planned, line.cartons_counted)
    if not plans:
        return Stages(planned, acceptance, acceptance + 1, planned, acceptance, None)
    # The second stage is that of the cartons counted, where they are.
    plan = plans[0]
    second = second_stage(plan, ordered_by.unit_net_g)
    if second is None:
        return Stages(planned, acceptance, acceptance + 1, planned, acceptance, Basis(**plan.basis))
    total = planned + second.total - plan.n
    if line.cartons_counted is not None:
        total = min(total, line.cartons_counted)
    return Stages(planned, acceptance, second.rejection, total, second.acceptance, Basis(**second.basis))


def opened_shown(line: LineFacts, stages: Stages, defective: int) -> dict[str, Any]:
    """What opening these cartons shows, in numbers for a sentence; the lot is what was counted, else the docket's."""
    lot = line.cartons_counted if line.cartons_counted is not None else line.cartons_on_docket
    shown = sampling_shown(lot, len(line.cartons), stages.planned, stages.acceptance, defective).to_json()
    later = {"rejection": stages.rejection, "total": stages.total, "last_acceptance": stages.last_acceptance}
    return {**shown, **later}
