"""How many cartons to open, how many bad ones the plan lets pass, and what the sample can show.

Plans are data (``data/plans.json``): Codex CXS 233 (AQL 6.5), ISO 2859-1 single sampling with the
arrows followed, and a house plan for 1 to 50 cartons that is trade habit. The cells to letter K were read, those
beyond it are from memory. Never for hazards (CXS 233 §2.1, CV-1-39). Which cartons: ``drawing``; the
arithmetic of chance: ``chances``.
"""

from dataclasses import asdict, dataclass, replace
from typing import Any

from .basis import load_table
from .chances import chance_of_acceptance, chance_of_double, most_bad_left, one_in_five
from .quantities import UnusablePlan

PLANS: dict[str, Any] = load_table("plans")
ISO_NAMES = ("iso_s1", "iso_s2", "iso_s3", "iso_s4", "iso_1", "iso_2", "iso_3")
DOUBLE = "_double"
DOUBLE_NAMES = tuple(name + DOUBLE for name in ISO_NAMES)
PLAN_NAMES = ("house", "codex_1", "codex_2", *ISO_NAMES, *DOUBLE_NAMES)
INSPECTIONS = ("normal", "tightened", "reduced")
DEFAULT_AQL = "6.5"
MAX_LOT = 1_000_000


@dataclass(frozen=True, slots=True)
class Plan:
    """A single sampling plan resolved for one lot.

    Attributes
    ----------
    name : str
        One of ``PLAN_NAMES``; the plan that was used, which differs from the one asked where the
        house plan ends.
    lot, n : int
        Cartons in the lot and cartons to open; n is never more than the lot.
    acceptance, rejection : int
        Accept at ``acceptance`` defective or fewer, reject at ``rejection`` or more. In reduced
        inspection a number between accepts this lot and ends reduced inspection.
    letter : str or None
        Code letter of ISO 2859-1.
    is_every_carton : bool
        The plan asks for as many as there are, or more (CV-2-51).
    basis : dict
        Source and how surely it is known.
    """

    name: str
    lot: int
    n: int
    acceptance: int
    rejection: int
    letter: str | None
    is_every_carton: bool
    basis: dict[str, Any]


def plan_for(
    name: str, lot: int, unit_net_g: float | None = None, aql: str = DEFAULT_AQL, inspection: str = "normal"
) -> Plan:
    """The plan for a lot.

    Parameters
    ----------
    name : str
        One of ``PLAN_NAMES``.
    lot : int
        Cartons (or sample units) in the lot, 1 to 1 000 000.
    unit_net_g : float, optional
        Net weight of one unit, g, for the weight class of Codex; the heaviest class (the most
        cautious) when not given.
    aql : str
        "1.0", "1.5", "2.5", "4.0", "6.5" or "10", ISO only.
    inspection : {"normal", "tightened", "reduced"}
        ISO only.

    Returns
    -------
    Plan

    Raises
    ------
    UnusablePlan
        SAMPLE-01 no such plan, AQL or inspection; SAMPLE-02 the lot is not a whole number from 1;
        SAMPLE-03 the lot is larger than 1 000 000.

    Examples
    --------
    >>> plan = plan_for("codex_1", 40, 10_000)
    >>> plan.n, plan.acceptance
    (6, 1)
    """
    if name not in PLAN_NAMES or inspection not in INSPECTIONS or aql not in PLANS["iso"]["aql"]:
        raise UnusablePlan("SAMPLE-01", {"plan": name})
    if not _is_whole(lot) or lot < 1:
        raise UnusablePlan("SAMPLE-02", {"lot": lot})
    if lot > MAX_LOT:
        raise UnusablePlan("SAMPLE-03", {"lot": lot, "plan": name})
    lot = int(lot)
    if name == "house":
        return _house(lot, unit_net_g)
    if name in ("codex_1", "codex_2"):
        return _codex(name, lot, unit_net_g)
    if name.endswith(DOUBLE):
        return _first_of_double(name, lot, aql)
    return _iso(name, lot, aql, inspection)


@dataclass(frozen=True, slots=True)
class Second:
    """The second stage of a plan: what the first count of bad cartons leads to, and what the second one.

    Attributes
    ----------
    rejection : int
        Bad cartons of the first stage that refuse the lot at once; fewer, and more than its acceptance number,
        ask for the second stage.
    total, acceptance : int
        Cartons opened over both stages, at most the lot; the lot passes with so many bad in all, or fewer.
    basis : dict
        Source of the two stages.
    """

    rejection: int
    total: int
    acceptance: int
    basis: dict[str, Any]


def second_stage(plan: Plan, unit_net_g: float | None = None, aql: str = DEFAULT_AQL) -> Second | None:
    """The second stage that goes with a plan; None where the published plan has one stage only.

    The house plan opens as many again; Codex level I goes on to level II, which CXS 233 keeps for disputes (CV-2-02);
    a double plan of MIL-STD-105E has its own. A single plan of ISO 2859-1 decides by itself.

    >>> second = second_stage(plan_for("house", 20))
    >>> second.rejection, second.total, second.acceptance
    (2, 6, 1)
    """
    if plan.is_every_carton:
        return None
    if plan.name == "house":
        row = next(row for row in PLANS["house"]["rows"] if plan.lot <= row["lot_at_most"])
        if "second" not in row:
            return None
        more, rejection, acceptance = row["second"]
        return Second(rejection, min(plan.n + more, plan.lot), acceptance, PLANS["house"]["basis_second"])
    if plan.name == "codex_1":
        referee = _codex("codex_2", plan.lot, unit_net_g)
        return Second(referee.acceptance + 1, referee.n, referee.acceptance, PLANS["codex"]["basis"]["referee"])
    if plan.name.endswith(DOUBLE):
        single = _iso(plan.name.removesuffix(DOUBLE), plan.lot, aql, "normal")
        numbers = PLANS["iso"]["double"]["numbers_of"].get(str(single.acceptance))
        if numbers is None or single.is_every_carton:
            return None
        return Second(numbers[1], min(2 * plan.n, plan.lot), numbers[2], PLANS["iso"]["double"]["basis"])
    return None


def chance_of_passing(plan: Plan, bad: int, second: Second | None = None) -> float:
    """Chance that a lot with so many bad cartons passes, in one stage or in two (hypergeometric).

    >>> plan = plan_for("house", 20)
    >>> round(chance_of_passing(plan, 4), 4), round(chance_of_passing(plan, 4, second_stage(plan)), 4)
    (0.4912, 0.7166)
    """
    if second is None:
        return chance_of_acceptance(plan.lot, bad, plan.n, plan.acceptance)
    stages = (plan.n, plan.acceptance, second.rejection), (second.total - plan.n, second.acceptance)
    return chance_of_double(plan.lot, bad, *stages)


def is_accepted(plan: Plan, defective: int) -> bool:
    """Whether a lot passes with so many defective cartons (CV-2-05, end point in).

    >>> is_accepted(plan_for("codex_2", 40, 10_000), 2), is_accepted(plan_for("codex_2", 40, 10_000), 3)
    (True, False)
    """
    return defective <= plan.acceptance if plan.rejection == plan.acceptance + 1 else defective < plan.rejection


def what_a_sample_shows(lot: int, opened: int, defective: int) -> dict[str, Any]:
    """What a sample leaves possible, in plain numbers for a sentence.

    Returns
    -------
    dict
        ``upper_bad``: most bad cartons that such a sample would still miss with 5 % chance;
        ``miss_chance``: chance to open no bad carton if one in five (``bad_if_one_in_five``) were bad.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 numbers that don't fit together.

    Examples
    --------
    >>> facts = what_a_sample_shows(20, 3, 0)
    >>> facts["upper_bad"], facts["bad_if_one_in_five"], round(facts["miss_chance"], 4)
    (11, 4, 0.4912)
    """
    bad = one_in_five(lot)
    return {
        "lot": lot,
        "opened": opened,
        "defective": defective,
        "upper_bad": most_bad_left(lot, opened, defective),
        "bad_if_one_in_five": bad,
        "miss_chance": chance_of_acceptance(lot, bad, opened, 0),
    }


@dataclass(frozen=True, slots=True)
class SamplingShown:
    """What stands on a verdict about its sample; the last two None where the numbers don't fit together."""

    lot: int | None
    opened: int
    planned: int | None
    acceptance: int
    defective: int
    upper_bad: int | None
    miss_chance: float | None

    def to_json(self) -> dict[str, Any]:
        """The seven fields as a JSON object."""
        return asdict(self)


def sampling_shown(lot: int | None, opened: int, planned: int | None, acceptance: int, defective: int) -> SamplingShown:
    """What the opened cartons of a line show; never raises, as a document may hold odd numbers.

    >>> shown = sampling_shown(20, 3, 3, 0, 1)
    >>> shown.upper_bad, round(shown.miss_chance, 2)
    (16, 0.49)
    """
    if lot is None or lot < 1 or not 0 <= defective <= opened <= lot:
        return SamplingShown(lot, opened, planned, acceptance, defective, None, None)
    facts = what_a_sample_shows(lot, opened, defective)
    return SamplingShown(lot, opened, planned, acceptance, defective, facts["upper_bad"], facts["miss_chance"])


def operating_characteristic(plan: Plan, bad: tuple[int, ...] | None = None) -> list[dict[str, Any]]:
    """Chance of acceptance for numbers of bad cartons (every number up to the lot, at most 101 points)."""
    points = bad or tuple((plan.lot * i) // min(plan.lot, 100) for i in range(min(plan.lot, 100) + 1))
    return [{"bad": each, "chance": chance_of_acceptance(plan.lot, each, plan.n, plan.acceptance)} for each in points]


def explain_sample(plan: Plan, opened: int, defective: int) -> dict[str, Any]:
    """Why: formula, numbers, limit and sources of a sample, as JSON; errors as ``what_a_sample_shows``."""
    return {
        "formula": "P(at most c) = sum over k = 0..c of C(D, k) C(N - D, n - k) / C(N, n)",
        "numbers": {"planned": plan.n, **what_a_sample_shows(plan.lot, opened, defective)},
        "limit": {"acceptance": plan.acceptance, "rejection": plan.rejection, "plan": plan.name, "letter": plan.letter},
        "source": [plan.basis, PLANS["statement"]["basis"]],
    }


def _house(lot: int, unit_net_g: float | None) -> Plan:
    for row in PLANS["house"]["rows"]:
        if lot <= row["lot_at_most"]:
            cell = (row["n"], row["acceptance"], row["acceptance"] + 1)
            return _plan("house", lot, cell, None, PLANS["house"]["basis"])
    return _codex(PLANS["house"]["above"], lot, unit_net_g)


def _codex(name: str, lot: int, unit_net_g: float | None) -> Plan:
    codex = PLANS["codex"]
    place = len(codex["unit_at_most_g"]) - 1
    if unit_net_g is not None:
        place = next(i for i, most in enumerate(codex["unit_at_most_g"]) if most is None or unit_net_g <= most)
    level = "level_2" if name == "codex_2" else "level_1"
    row = next(row for row in codex["rows"] if row["lot_at_most"][place] is None or lot <= row["lot_at_most"][place])
    n, acceptance = row[level]
    basis = codex["basis"]["level_2_small" if level == "level_2" and place == 0 else "other"]
    return _plan(name, lot, (n, acceptance, acceptance + 1), None, basis)


def _iso(name: str, lot: int, aql: str, inspection: str) -> Plan:
    iso = PLANS["iso"]
    if lot == 1:
        return _plan(name, 1, (1, 0, 1), None, iso["basis"])
    place = iso["levels"].index(name[4:])
    letter = next(row[2 + place] for row in iso["letters"] if row[1] is None or lot <= row[1])
    n, acceptance, rejection = iso[inspection][letter]["cells"][iso["aql"].index(aql)]
    was_read = letter <= iso["read_to"]["letter"] and lot <= iso["read_to"]["lot"]
    return _plan(name, lot, (n, acceptance, rejection), letter, iso["basis" if was_read else "basis_beyond"])


def _first_of_double(name: str, lot: int, aql: str) -> Plan:
    """First stage of the double plan of the same letter; the single plan where that has acceptance number 0."""
    single = _iso(name.removesuffix(DOUBLE), lot, aql, "normal")
    double = PLANS["iso"]["double"]
    numbers = double["numbers_of"].get(str(single.acceptance))
    if numbers is None or single.is_every_carton:
        return replace(single, name=name)
    # The single plan's own n is that of its letter: n is below the lot here.
    first_n = double["first_n_of"][str(single.n)]
    return _plan(name, lot, (first_n, numbers[0], numbers[1]), single.letter, double["basis"])


def _plan(name: str, lot: int, cell: tuple[int, int, int], letter: str | None, basis: dict[str, Any]) -> Plan:
    n, acceptance, rejection = cell
    return Plan(name, lot, min(n, lot), acceptance, rejection, letter, n >= lot, basis)


def _is_whole(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and value % 1 == 0
