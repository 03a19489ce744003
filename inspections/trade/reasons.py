"""How does a finding read, and why does it hold?

A finding becomes a reason: measured value, bound, basis, and one sentence. ``explain`` gives the short "why"
of a reason: the numbers put into the formula, the limit, the source and how surely it is known, so that
anybody can do the sum again by hand.
"""

from __future__ import annotations

from typing import Any

from .findings import Finding
from .wording import WORDS, counted, filled, listed, shown, shown_measure, word

_FACT_UNITS = {
    "low": "share",
    "high": "share",
    "declared_g": "g",
    "net_g": "g",
    "mean_g": "g",
    "found_g": "g",
    "ordered_g": "g",
    "weight_g": "g",
    "deglazed_g": "g",
    "glaze_percent": "percent",
    "declared_percent": "percent",
    "accuracy_c": "C",
}
_FACT_NOUNS = {
    "days": "day",
    "total_days": "day",
    "units": "unit",
    "counted_cartons": "carton",
    "docket_cartons": "carton",
    "short": "carton",
    "over": "carton",
    "sample_pieces": "prawn",
}
_FACT_GROUPS = {"signs": "signs", "missing": "particulars"}
_FORMULAS = {
    "BLACK-HOUSE": "share",
    "BLACK-CODEX": "share",
    "BLACK-MEAT": "share",
    "DEHYDRATED": "share",
    "SOFT": "share",
    "BROKEN": "share",
    "BROKEN-NOTE": "share",
    "HEADS": "share",
    "LEGS": "share",
    "TAILS": "share",
    "COUNT-BEYOND": "count",
    "COUNT-UNSURE": "count",
    "NET-UNIT": "net",
    "NET-MEAN": "mean",
    "GLAZE-OVER": "glaze",
    "LIFE-SHORT": "life",
    "DEFECTIVE-OVER": "tally",
}


def _place(name: str, value: Any, group: str) -> str:
    """One fact as it is shown."""
    if isinstance(value, str):
        return word(group, value) if group and name in ("found", "ordered") else value
    if isinstance(value, list):
        return listed([word(_FACT_GROUPS.get(name, ""), entry) for entry in value])
    if value is None:
        return ""
    if name in _FACT_UNITS:
        return shown_measure(value, _FACT_UNITS[name])
    if name in _FACT_NOUNS:
        return counted(int(value), _FACT_NOUNS[name])
    return shown(value, 0)


def places_of(facts: dict[str, Any], measured: float | None, unit: str | None, bound: float | None) -> dict[str, str]:
    """Everything that a sentence may name, as shown text."""
    group = facts.get("group", "")
    places = {name: _place(name, value, group) for name, value in facts.items() if name != "group"}
    if unit is not None:
        if measured is not None:
            places["measured"] = shown_measure(measured, unit)
        if bound is not None:
            places["bound"] = shown_measure(bound, unit)
    return places


def where_words(carton: int | None) -> str:
    """"Carton 3: ", or the words for a carton without a position."""
    return WORDS["where_unknown"] if carton is None else filled(WORDS["where"], {"carton": shown(carton, 0)})


def reason_json(finding: Finding, carton: int | None, *, is_of_carton: bool) -> dict[str, Any]:
    """A finding as a reason with its sentence.

    Parameters
    ----------
    finding : Finding
    carton : int or None
        Position of the carton.
    is_of_carton : bool
        False for a reason of the line or the vehicle.
    """
    bound, basis = finding.bound, finding.limit.basis
    places = places_of(finding.facts, finding.measured, finding.unit, bound)
    places["where"] = where_words(carton) if is_of_carton else ""
    return {
        "code": finding.code,
        "severity": finding.severity,
        "carton": carton,
        "measured": finding.measured,
        "unit": finding.unit,
        "bound": bound,
        "sense": finding.sense,
        "limit": finding.limit.code,
        "basis": {"source": basis.source, "known": basis.known, "cv": basis.cv, "words": basis.words},
        "facts": finding.facts,
        "text": filled(WORDS["reasons"][finding.code], places),
    }


def explain(reason: dict[str, Any]) -> dict[str, str]:
    """The short "why" of a reason: sum, limit and source in words.

    Parameters
    ----------
    reason : dict
        A reason of the judgement.

    Returns
    -------
    dict
        ``numbers`` (the formula with its numbers in), ``limit``, ``source``, ``words`` (what the limit is for).

    Examples
    --------
    >>> explain({"code": "TEMP-REJECT", "measured": -9.5, "unit": "C", "bound": -12.0, "sense": "at_most",
    ...          "facts": {}, "basis": {"source": "CXC 8-1976 §4", "known": "from_memory", "words": "w"}})["numbers"]
    'Measured -9.5 °C.'
    """
    places = places_of(reason["facts"], reason["measured"], reason["unit"], reason["bound"])
    kind = _FORMULAS.get(reason["code"], "finding" if reason["measured"] is None else "value")
    if kind == "count":
        kind = f"count_{reason['unit']}"
    basis = reason["basis"]
    return {
        "numbers": filled(WORDS["why"][kind], places),
        "limit": _limit_words(reason, places),
        "source": filled(WORDS["why"]["source"], {"source": basis["source"], "known": word("known", basis["known"])}),
        "words": basis["words"],
    }


def _limit_words(reason: dict[str, Any], places: dict[str, str]) -> str:
    if reason["bound"] is None or reason["sense"] is None:
        return WORDS["why"]["none"]
    bound = filled(word("sense", reason["sense"]), places)
    return filled(WORDS["why"]["limit"], {"bound": bound})
