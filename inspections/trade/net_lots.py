"""How many packs does an official test of net contents weigh, and how many may be short?

Plans of the United States (HB 133 plan A), of OIML R 87 and of 76/211/EEC where packs must be opened, and
whether a scale is fine enough for them. A kitchen weighs a few units (``weighing``, ``shortage``): that is
screening. These plans say what the authority, or a claim that goes so far, would have to weigh (CV-4-98).
Does not hold: R 87 of 2016 has other plans for small lots, not held here (U-09). Tables:
``data/net_plans.json``, from memory but for the scale and the share beyond T1.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from .basis import load_table
from .quantities import UnusablePlan
from .sampling import MAX_LOT
from .shortage import (
    judge_average_eu,
    judge_average_us,
    maximum_allowable_variation,
    shortage_g,
    tolerable_deficiency,
)
from .uniformity import check_weight

NET_PLANS: dict[str, Any] = load_table("net_plans")
SCHEMES = ("us", "oiml", "eu_destructive")


@dataclass(frozen=True, slots=True)
class NetPlan:
    """Packs to weigh of a lot, how many may be short beyond the single-pack tolerance, and the source."""

    scheme: str
    lot: int
    n: int
    beyond_allowed: int
    basis: dict[str, str]


@dataclass(frozen=True, slots=True)
class NetLot:
    """A lot by both requirements: on average, and pack by pack (CV-4-08, CV-4-22).

    Attributes
    ----------
    average : str
        "within", "beyond" or "cannot_tell".
    beyond, beyond_t2 : int
        Packs short beyond the single-pack tolerance, and beyond twice it (European schemes).
    passes : bool or None
        None where fewer packs were weighed than the plan asks, or a tolerance is not held here.
    """

    average: str
    beyond: int | None
    beyond_t2: int
    passes: bool | None


def net_plan(scheme: str, lot: int) -> NetPlan:
    """The plan of a scheme for a lot.

    Parameters
    ----------
    scheme : {"us", "oiml", "eu_destructive"}
    lot : int
        Packs in the lot, 1 to 1 000 000.

    Returns
    -------
    NetPlan

    Raises
    ------
    UnusablePlan
        SAMPLE-01 no such scheme; SAMPLE-02 the lot is not a whole number from 1; SAMPLE-03 the lot is
        larger than 1 000 000; SAMPLE-07 the scheme has no plan for so small a lot.

    Examples
    --------
    >>> [net_plan("us", lot).n for lot in (8, 12, 250, 251, 3201)]        # CV-4-27
    [8, 12, 12, 24, 48]
    """
    if scheme not in SCHEMES:
        raise UnusablePlan("SAMPLE-01", {"plan": scheme})
    if isinstance(lot, bool) or not isinstance(lot, int) or lot < 1:
        raise UnusablePlan("SAMPLE-02", {"lot": lot})
    if lot > MAX_LOT:
        raise UnusablePlan("SAMPLE-03", {"lot": lot, "plan": scheme})
    table = NET_PLANS[scheme]
    if lot < table.get("lot_at_least", 1):
        raise UnusablePlan("SAMPLE-07", {"lot": lot, "plan": scheme, "least": table["lot_at_least"]})
    row = next(row for row in table["rows"] if row["lot_at_most"] is None or lot <= row["lot_at_most"])
    return NetPlan(scheme, lot, lot if row["n"] is None else row["n"], row["beyond_allowed"], table["basis"])


def judge_net_lot(plan: NetPlan, declared_g: float, found_g: Sequence[float]) -> NetLot:
    """A lot of packs by average and by single pack.

    Parameters
    ----------
    plan : NetPlan
    declared_g : float
        Declared net weight of one pack, g.
    found_g : sequence of float
        Net weights found, g.

    Returns
    -------
    NetLot

    Raises
    ------
    UnusableReading
        As ``shortage.spread_of_units``.

    Examples
    --------
    >>> judge_net_lot(net_plan("us", 40), 907.0, [905.0] * 11 + [870.0])
    NetLot(average='within', beyond=1, beyond_t2=0, passes=False)
    """
    shortages = [shortage_g(declared_g, each) for each in found_g]
    if plan.scheme == "us":
        average = judge_average_us(declared_g, found_g).kind
        allowed_g, most_g = maximum_allowable_variation(declared_g), None
    else:
        average = judge_average_eu(declared_g, found_g).kind
        allowed_g = tolerable_deficiency(declared_g).tolerable_g
        most_g = 2.0 * allowed_g
    beyond = None if allowed_g is None else sum(each > allowed_g for each in shortages)
    beyond_t2 = 0 if most_g is None else sum(each > most_g for each in shortages)
    is_unsure = beyond is None or average == "cannot_tell" or len(shortages) < plan.n
    fails = average == "beyond" or beyond_t2 > 0 or (beyond is not None and beyond > plan.beyond_allowed)
    # A fault that was found counts even where too few were weighed to pass the lot.
    return NetLot(average, beyond, beyond_t2, False if fails else None if is_unsure else True)


def most_beyond_t1(packs: int, place: str) -> int:
    """How many of a lot may be short beyond T1: 2 % in Germany (DE), 2.5 % in the UK guidance (CV-4-81).

    Errors: SAMPLE-01 another place; SAMPLE-02 no pack.

    >>> most_beyond_t1(400, "DE"), most_beyond_t1(400, "UK")
    (8, 10)
    """
    shares = NET_PLANS["share_beyond_t1"]
    if place not in shares or place == "basis":
        raise UnusablePlan("SAMPLE-01", {"plan": place})
    if isinstance(packs, bool) or not isinstance(packs, int) or packs < 1:
        raise UnusablePlan("SAMPLE-02", {"lot": packs})
    # In whole thousandths, so that 2.5 % of 400 is ten and not a hair under it.
    return packs * int(shares[place] * 1000) // 1000


def is_scale_fine_enough(division_g: float, largest_g: float, label_g: float) -> bool | None:
    """Whether a scale may decide on a pack: 100 divisions or more, each at most a sixth of the MAV (CV-4-20).

    Parameters
    ----------
    division_g, largest_g : float
        Smallest step and capacity of the scale, g, both above 0.
    label_g : float
        Declared net weight, g.

    Returns
    -------
    bool or None
        None where no tolerance for the label weight is held here.

    Raises
    ------
    UnusableReading
        WEIGHT-01, WEIGHT-02 for a weight that cannot be.

    Examples
    --------
    >>> is_scale_fine_enough(5.0, 6000.0, 1000.0), is_scale_fine_enough(10.0, 6000.0, 1000.0)
    (True, False)
    """
    allowed_g = maximum_allowable_variation(label_g)
    for weight_g in (division_g, largest_g):
        check_weight(weight_g)
    if allowed_g is None:
        return None
    return is_division_fine_enough(division_g, largest_g, allowed_g)


def is_division_fine_enough(division_g: float, largest_g: float, allowed_g: float) -> bool:
    """The rule of ``is_scale_fine_enough`` for a tolerance that is known.

    >>> is_division_fine_enough(1.0, 1000.0, 7.2), is_division_fine_enough(2.0, 1000.0, 7.2)        # CV-4-21
    (True, False)
    """
    rule = NET_PLANS["scale"]
    enough = largest_g >= rule["least_divisions"] * division_g
    return enough and rule["largest_share_of_mav"] * division_g <= allowed_g
