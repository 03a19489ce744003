"""Where does fine end, and who says so?

The question: which bound applies to what was measured? Method: a limit set is data, versioned, edited by
the group; it is read here, checked, and laid over the specification's own bounds. Each limit carries the
severity of going past it and its basis, so that no verdict rests on an unnamed number (CV-0-05).
Does not hold: for hazards. No limit makes a hazard acceptable (CV-1-39), so its severity cannot be lowered.

Codes of ``UnusableLimits``
---------------------------
LIMITS-01  the set or one of its entries is not built as a limit set
LIMITS-02  a limit that this judgement does not know
LIMITS-03  a bound that this limit cannot have
LIMITS-04  a severity that this limit cannot have
LIMITS-05  the bounds contradict each other
LIMITS-06  a limit is there twice or is missing
LIMITS-07  a limit without a source
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .answer import Sense, is_fine
from .basis import KNOWN, Basis
from .quantities import Unusable
from .registry import CHECKS, OUTCOMES

SEVERITIES = ("critical", "major", "minor", "note")
PLANS = ("house", "codex_1", "codex_2", "iso_s2", "iso_s3", "iso_s4", "iso_1", "iso_2", "iso_1_double", "iso_2_double")
# Never lowered by a site: the plan must not be used to accept a hazard (CV-1-39, CV-11-18).
HAZARDS = frozenset(one.limit for one in OUTCOMES.values() if one.leads_to == "hazard")
# Weak evidence never rejects by itself, so a site may raise these to major (a hold) and no further.
EVIDENCE = (
    "product_c.between_packs",
    "thermometer.ice_point",
    "thermometer.overdue",
    "thermometer.unknown",
    "thermometer.doubt",
)
# Came after the first sets were published: a set without them is judged with the shipped ones.
LATER = (
    *EVIDENCE,
    "dehydrated_weight_share",
    "dehydrated_surface_share",
    "net_unit.t1",
    "net_unit.t2",
    "net_unit.mav",
    "net_unit.no_table",
    "net_mean.eu",
    "net_mean.us",
    "net_mean.unsure",
    "product_c.sign",
    "refreezing.clumped",
    "refreezing.frosted",
    "black_spot_share.soft_broken",
    "whole_share",
    "count_larger",
    "label.trace",
    "life_little",
    "freezer_air_c.wanted",
    "freezer_air_c",
    *(one.limit for check in CHECKS if check.since for one in check.all_outcomes),
)
# Held by sets published earlier, judged by other limits now.
RETIRED = ("net_unit_short_percent",)
# Range that a bound of a unit can have, both ends in.
RANGES = {
    "C": (-60.0, 10.0),
    "degrees": (0.0, 10.0),
    "share": (0.0, 1.0),
    "score": (0.0, 10.0),
    "ratio": (1.0, 10.0),
    "percent": (0.0, 100.0),
    "times": (0.0, 10.0),
    "points": (0.0, 100.0),
    "cartons": (0.0, 5000.0),
    "pieces": (1.0, 2000.0),
    "readings": (1.0, 50.0),
    "days": (-365.0, 3650.0),
}
DATA = Path(__file__).parent / "data"


class UnusableLimits(Unusable):
    """A limit set that cannot be judged by; code and facts say which entry and why."""


@dataclass(frozen=True)
class Limit:
    """One bound, the side that is fine, and what going past it means.

    ``bound`` is in ``unit``; the end point is fine for ``at_most`` and ``at_least``. Sense ``none`` is a
    finding without a number (bound None), or a bound that comes from elsewhere, such as the grade.
    ``is_ordered``: the specification laid its own bound over the group's.
    """

    code: str
    bound: float | None
    unit: str
    sense: Sense
    severity: str
    basis: Basis
    is_ordered: bool = False

    def is_fine(self, measured: float) -> bool:
        """Whether an unrounded value is on the fine side (CV-0-01, CV-0-02)."""
        return self.bound is None or is_fine(measured, self.bound, self.sense)


@dataclass(frozen=True)
class Limits:
    """A limit set by code; the order is the order of the shipped default."""

    id: str
    by_code: dict[str, Limit]

    def __getitem__(self, code: str) -> Limit:
        return self.by_code[code]


def _default() -> dict[str, Any]:
    with open(DATA / "limits.json", encoding="utf-8") as file:
        table: dict[str, Any] = json.load(file)
    return table


DEFAULT_LIMITS: dict[str, Any] = _default()
_KNOWN_LIMITS: dict[str, dict[str, Any]] = {limit["code"]: limit for limit in DEFAULT_LIMITS["limits"]}


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _basis(code: str, value: Any) -> Basis:
    if not isinstance(value, dict):
        raise UnusableLimits("LIMITS-07", {"limit": code})
    parts: list[Any] = [value.get(key) for key in ("source", "known", "cv", "words")]
    if not all(isinstance(part, str) for part in parts) or not parts[0].strip() or parts[1] not in KNOWN:
        raise UnusableLimits("LIMITS-07", {"limit": code})
    return Basis(*parts)


def _bound(code: str, value: Any, unit: str, has_bound: bool) -> float | None:
    if not has_bound:
        if value is not None:
            raise UnusableLimits("LIMITS-03", {"limit": code})
        return None
    low, high = RANGES[unit]
    if not _is_number(value) or not low <= value <= high:
        raise UnusableLimits("LIMITS-03", {"limit": code, "low": low, "high": high, "unit": unit})
    number: float = value + 0.0
    return number


def _limit(entry: Any) -> Limit:
    if not isinstance(entry, dict) or not isinstance(entry.get("code"), str):
        raise UnusableLimits("LIMITS-01", {})
    code = entry["code"]
    known = _KNOWN_LIMITS.get(code)
    if known is None:
        raise UnusableLimits("LIMITS-02", {"limit": code})
    if entry.get("unit") != known["unit"] or entry.get("sense") != known["sense"]:
        raise UnusableLimits("LIMITS-01", {"limit": code, "unit": known["unit"], "sense": known["sense"]})
    severity = entry.get("severity")
    is_lowered = code in HAZARDS and severity != "critical"
    is_raised = code in EVIDENCE and severity == "critical"
    if severity not in SEVERITIES or is_lowered or is_raised:
        raise UnusableLimits("LIMITS-04", {"limit": code})
    bound = _bound(code, entry.get("bound"), known["unit"], known["bound"] is not None)
    return Limit(code, bound, known["unit"], known["sense"], severity, _basis(code, entry.get("basis")))


def _check_order(by_code: dict[str, Limit], warmer: str, colder: str) -> None:
    first, second = by_code[colder].bound, by_code[warmer].bound
    if first is not None and second is not None and first > second:
        raise UnusableLimits("LIMITS-05", {"limit": colder, "other": warmer})


def _check_orders(by_code: dict[str, Limit]) -> None:
    _check_order(by_code, "product_c.reject", "product_c.tolerance")
    _check_order(by_code, "product_c.tolerance", "product_c.within")
    _check_order(by_code, "broken_share", "broken_share.note")
    _check_order(by_code, "vein_share.most", "vein_share")
    _check_order(by_code, "freezer_air_c", "freezer_air_c.wanted")
    _check_order(by_code, "net_unit.t2", "net_unit.t1")


def limits_from_json(data: Any) -> Limits:
    """Read a limit set, or say what is wrong with it.

    Parameters
    ----------
    data : dict
        ``{"id", "limits": [{"code", "bound", "unit", "sense", "severity", "basis"}]}``; every limit of the
        shipped default exactly once. Unit and sense are fixed, bound and severity are the group's. A set
        published before a limit existed (``LATER``) is read with the shipped one.

    Returns
    -------
    Limits

    Raises
    ------
    UnusableLimits
        LIMITS-01 to LIMITS-07, with the limit's code in its facts.

    Examples
    --------
    >>> limits_from_json(DEFAULT_LIMITS)["product_c.reject"].bound        # CV-5-20
    -12.0
    """
    if not isinstance(data, dict) or not isinstance(data.get("limits"), list):
        raise UnusableLimits("LIMITS-01", {})
    read: dict[str, Limit] = {}
    for entry in data["limits"]:
        if isinstance(entry, dict) and entry.get("code") in RETIRED:
            continue
        limit = _limit(entry)
        if limit.code in read:
            raise UnusableLimits("LIMITS-06", {"limit": limit.code})
        read[limit.code] = limit
    for code in _KNOWN_LIMITS:
        if code in read:
            continue
        if code not in LATER:
            raise UnusableLimits("LIMITS-06", {"limit": code})
        read[code] = _limit(_KNOWN_LIMITS[code])
    _check_orders(read)
    set_id = data.get("id")
    return Limits(set_id if isinstance(set_id, str) else "", {code: read[code] for code in _KNOWN_LIMITS})


def limits_for(limits: Limits, overrides: Any) -> Limits:
    """The set with a specification's own bounds laid over it.

    Parameters
    ----------
    limits : Limits
    overrides : dict or None
        Limit code to bound, in the limit's unit.

    Raises
    ------
    UnusableLimits
        LIMITS-01, LIMITS-02, LIMITS-03 or LIMITS-05.
    """
    if overrides is None:
        return limits
    if not isinstance(overrides, dict):
        raise UnusableLimits("LIMITS-01", {})
    if not overrides:
        return limits
    by_code = dict(limits.by_code)
    for code, value in overrides.items():
        if code in RETIRED:
            continue
        known = by_code.get(code)
        if known is None or known.bound is None:
            raise UnusableLimits("LIMITS-02", {"limit": code})
        bound = _bound(code, value, known.unit, True)
        by_code[code] = Limit(code, bound, known.unit, known.sense, known.severity, known.basis, True)
    _check_orders(by_code)
    return Limits(limits.id, by_code)
