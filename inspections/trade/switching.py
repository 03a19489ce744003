"""When is a supplier's lots looked at harder, or less: normal, tightened and reduced inspection (ISO 2859-1).

Method: the lots are taken in the order received. Two rejected among five consecutive lots or fewer tighten
inspection; five accepted in a row bring it back. Lots that would have passed one AQL tighter add up to a score,
and at thirty reduced inspection may begin; any lot that fails, or passes only in the gap between Ac and Re,
ends it. Too long on tightened stops the scheme: the supplier mends the cause first.
Does not hold: for lots seen again after sorting (original lots only), nor where the reduced side is not wanted
(``is_steady`` false keeps it off). Needs the single plans of ``sampling``.
Sources: ISO 2859-1 §9.3 (from memory; the stopping rules differ, CV-2-56 uncertain), MIL-STD-105E 4.7.
"""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from .quantities import UnusablePlan
from .sampling import ISO_NAMES, PLANS, Plan, is_accepted, plan_for

RULES: dict[str, Any] = PLANS["iso"]["switching"]
EDITIONS = tuple(RULES["stop"])


@dataclass(frozen=True, slots=True)
class Standing:
    """How a supplier's next lot is inspected, and what led there.

    Attributes
    ----------
    inspection : {"normal", "tightened", "reduced"}
    recent : tuple of bool
        Accepted or not, the last lots under this inspection, five at most.
    accepted_in_a_row : int
        Under this inspection.
    score : int
        Switching score, normal inspection only.
    lots_on_tightened, rejected_on_tightened : int
        Since tightened inspection began.
    is_stopped : bool
        The scheme is discontinued until the supplier has mended the cause.
    """

    inspection: str = "normal"
    recent: tuple[bool, ...] = ()
    accepted_in_a_row: int = 0
    score: int = 0
    lots_on_tightened: int = 0
    rejected_on_tightened: int = 0
    is_stopped: bool = False


@dataclass(frozen=True, slots=True)
class LotSeen:
    """One lot of a run: how it was inspected, by which plan, whether it passed, and what follows."""

    plan: Plan
    defective: int
    accepted: bool
    next: Standing

    def to_json(self) -> dict[str, Any]:
        """The four fields as a JSON object."""
        return asdict(self)


def after_lot(
    standing: Standing,
    accepted: bool,
    *,
    passes_tighter: bool = False,
    acceptance: int = 0,
    in_gap: bool = False,
    is_steady: bool = True,
    edition: str = "iso",
) -> Standing:
    """How the next lot is inspected after one more original lot.

    Parameters
    ----------
    standing : Standing
        As it was for this lot.
    accepted : bool
    passes_tighter : bool
        The lot would also have passed at the next tighter AQL.
    acceptance : int
        Acceptance number of the plan used.
    in_gap : bool
        Reduced inspection only: accepted with a number between Ac and Re.
    is_steady : bool
        Production is steady and reduced inspection is wanted.
    edition : {"iso", "mil_105e"}
        Whose stopping rule.

    Returns
    -------
    Standing

    Raises
    ------
    UnusablePlan
        SAMPLE-01 another edition; SAMPLE-06 the scheme was stopped already.

    References
    ----------
    CV-2-54 to CV-2-56 (from memory).

    Examples
    --------
    >>> first = after_lot(Standing(), False)
    >>> after_lot(first, True).inspection, after_lot(first, False).inspection
    ('normal', 'tightened')
    """
    if edition not in EDITIONS:
        raise UnusablePlan("SAMPLE-01", {"plan": edition})
    if standing.is_stopped:
        raise UnusablePlan("SAMPLE-06", {"rejected_on_tightened": standing.rejected_on_tightened})
    if standing.inspection == "normal":
        return _after_normal(standing, accepted, passes_tighter, acceptance, is_steady)
    if standing.inspection == "tightened":
        return _after_tightened(standing, accepted, edition)
    keeps = accepted and not in_gap and is_steady
    return _counted(standing, accepted) if keeps else Standing()


def run_of_lots(
    name: str, aql: str, lots: Sequence[Sequence[int]], is_steady: bool = True, edition: str = "iso"
) -> list[LotSeen]:
    """A run of lots of one supplier, each inspected as the lots before it ask.

    Parameters
    ----------
    name : str
        One of ``sampling.ISO_NAMES``.
    aql : str
        As ``plan_for``.
    lots : sequence of (lot, defective)
        Cartons in the lot, and defective ones among those opened, in the order received.
    is_steady, edition
        As ``after_lot``.

    Returns
    -------
    list of LotSeen
        As long as ``lots``, or shorter when the scheme stops before.

    Raises
    ------
    UnusablePlan
        As ``plan_for`` and ``after_lot``; SAMPLE-01 for a plan that has no AQL.

    Examples
    --------
    >>> seen = run_of_lots("iso_2", "6.5", [(200, 6), (200, 0), (200, 7), (200, 4)])
    >>> [(each.plan.acceptance, each.accepted) for each in seen], seen[-1].next.inspection
    ([(5, False), (5, True), (5, False), (3, False)], 'tightened')
    """
    if name not in ISO_NAMES:
        raise UnusablePlan("SAMPLE-01", {"plan": name})
    standing, seen = Standing(), []
    for lot, defective in lots:
        if standing.is_stopped:
            break
        plan = plan_for(name, lot, aql=aql, inspection=standing.inspection)
        accepted = is_accepted(plan, defective)
        standing = after_lot(
            standing,
            accepted,
            passes_tighter=accepted and _passes_tighter(name, lot, aql, defective),
            acceptance=plan.acceptance,
            in_gap=accepted and defective > plan.acceptance,
            is_steady=is_steady,
            edition=edition,
        )
        seen.append(LotSeen(plan, defective, accepted, standing))
    return seen


def _after_normal(
    standing: Standing, accepted: bool, passes_tighter: bool, acceptance: int, is_steady: bool
) -> Standing:
    counted = _counted(standing, accepted)
    if counted.recent.count(False) >= RULES["reject_to_tighten"]:
        return Standing(inspection="tightened")
    gained = RULES["score_when_small"] if acceptance <= 1 else RULES["score_when_tighter_passes"]
    earned = accepted and (acceptance <= 1 or passes_tighter)
    score = standing.score + gained if earned else 0
    if score >= RULES["score_to_reduce"] and is_steady:
        return Standing(inspection="reduced")
    return Standing("normal", counted.recent, counted.accepted_in_a_row, score)


def _after_tightened(standing: Standing, accepted: bool, edition: str) -> Standing:
    counted = _counted(standing, accepted)
    if counted.accepted_in_a_row >= RULES["accept_to_normal"]:
        return Standing()
    lots = standing.lots_on_tightened + 1
    rejected = standing.rejected_on_tightened + (0 if accepted else 1)
    stop = RULES["stop"][edition]
    stopped = rejected >= stop.get("rejected_on_tightened", rejected + 1)
    stopped = stopped or lots >= stop.get("lots_on_tightened", lots + 1)
    return Standing("tightened", counted.recent, counted.accepted_in_a_row, 0, lots, rejected, stopped)


def _counted(standing: Standing, accepted: bool) -> Standing:
    recent = (*standing.recent, accepted)[-RULES["within_lots"] :]
    return Standing(standing.inspection, recent, standing.accepted_in_a_row + 1 if accepted else 0)


def _passes_tighter(name: str, lot: int, aql: str, defective: int) -> bool:
    """Whether the lot would pass one AQL tighter; at the tightest held here that can't be shown."""
    place = PLANS["iso"]["aql"].index(aql)
    return place > 0 and is_accepted(plan_for(name, lot, aql=PLANS["iso"]["aql"][place - 1]), defective)
