"""How does a finding read, and why does it hold?

A finding becomes a reason: measured value, bound, basis, and one sentence. ``explain`` gives the short "why"
of a reason: the numbers put into the formula, the limit, the source and how surely it is known, so that
anybody can do the sum again by hand.
"""

from __future__ import annotations

from typing import Any

from .findings import Finding
from .registry import OUTCOMES
from .severity_ranking import FINDINGS, effect
from .wording import WORDS, counted, filled, listed, shown, shown_measure, word

_FACT_UNITS = {
    "low": "share",
    "high": "share",
    "declared_g": "g",
    "net_g": "g",
    "mean_g": "g",
    "deviation_g": "g",
    "allowance_g": "g",
    "tolerable_g": "g",
    "found_g": "g",
    "ordered_g": "g",
    "weight_g": "g",
    "glazed_g": "g",
    "deglazed_g": "g",
    "dried_g": "g",
    "of_g": "g",
    "glaze_percent": "percent",
    "declared_percent": "percent",
    "price_percent": "percent",
    "accuracy_c": "C",
    "allowance_c": "C",
    "ice_c": "C",
    "corrected_c": "C",
    "meant_c": "C",
    "factor": "ratio",
    "spread": "ratio",
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
# Code to the sum that explains it; the registry has that of a plain check.
_SUMS = {
    "TEMP-REJECT": "temperature",
    "TEMP-OUTSIDE": "temperature",
    "TEMP-TOLERANCE": "temperature",
    "TEMP-BETWEEN": "between",
    "TEMP-NEAR": "near",
    "TEMP-SURFACE": "value",
    "TEMP-SIGN": "value",
    "PIECES-UNSURE": "share",
    "SPECIES-MARKS": "seen",
    "SPECIES-UNSURE": "seen",
    "TEMP-PROBE-OVERDUE": "due",
    "TEMP-PROBE-FAILED": "ice",
    "TEMP-PROBE-UNCHECKED": "unchecked",
    "TEMP-PROBE-UNKNOWN": "unknown",
    "TEMP-PROBE-DOUBT": "doubt",
    "COUNT-BEYOND": "count",
    "COUNT-UNSURE": "count",
    "COUNT-LARGER": "count",
    "COUNT-GLAZED": "glazed",
    "UNIFORMITY": "uniformity",
    "NET-UNIT": "net",
    "NET-UNIT-NOTE": "net",
    "NET-NO-TABLE": "no_table",
    "NET-ONE-UNIT": "one_unit",
    "NET-MEAN": "mean",
    "NET-MEAN-UNSURE": "mean",
    "NET-UNLIKELY": "unlikely",
    "GLAZE-OVER": "glaze",
    "LIFE-SHORT": "life",
    "LIFE-LITTLE": "life",
    "DATE-PAST": "past",
    "DEFECTIVE-OVER": "tally",
    "CARTONS-SHORT": "cartons",
    "CARTONS-OVER": "cartons",
    "LOOKED-AT-FEW": "few",
}


def _text_place(name: str, value: str, group: str) -> str:
    if name == "what":
        return word("what", value)
    if name == "thermometer" and value == "":
        return str(WORDS["unnamed_thermometer"])
    if name == "of":
        return word(group, value)
    return word(group, value) if group and name in ("found", "ordered") else value


def _weigh_more(pieces: int | None) -> str:
    if pieces is None:
        return str(WORDS["weigh_unit"])
    return filled(WORDS["weigh_pieces"], {"pieces": counted(pieces, "prawn")})


def _place(name: str, value: Any, group: str) -> str:
    """One fact as it is shown."""
    if isinstance(value, str):
        return _text_place(name, value, group)
    if name == "typed":
        return typed_shown(value)
    if isinstance(value, list):
        return listed([word(_FACT_GROUPS.get(name, ""), entry) for entry in value])
    if name == "weigh_more":
        return _weigh_more(value)
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
    allowed = facts.get("allowance_c")
    places["allowed"] = filled(WORDS["allowed"], places) if allowed else ""
    if unit in ("per_lb", "per_kg"):
        places |= {f"{name}_count": shown_measure(facts[name], unit) for name in ("low", "high") if name in facts}
    if unit is not None:
        if measured is not None:
            places["measured"] = shown_measure(measured, unit)
        if bound is not None:
            places["bound"] = shown_measure(bound, unit)
    return places


def typed_shown(typed: list[str]) -> str:
    """A reading as it was typed, with its unit.

    >>> typed_shown(["-14,9", "C"])
    '-14,9 °C'
    """
    entered, unit = typed
    return f"{entered} {word('typed_units', unit)}" if entered else ""


def whose_limit(finding: Finding) -> str:
    """Whose limit was met: "ordered", "published" or "house" (trade habit, a group's own)."""
    if finding.limit.is_ordered:
        return "ordered"
    return "house" if finding.limit.basis.known == "common_practice" else "published"


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
    reason = {
        "code": finding.code,
        "severity": finding.severity,
        "carton": carton,
        "measured": finding.measured,
        "unit": finding.unit,
        "bound": bound,
        "sense": finding.sense,
        "limit": finding.limit.code,
        "whose": whose_limit(finding),
        "acts_on": FINDINGS[finding.code]["acts_on"],
        "leads_to": effect(finding),
        "basis": {"source": basis.source, "known": basis.known, "cv": basis.cv, "words": basis.words},
        "facts": finding.facts,
    }
    sentence = sentence_of(reason, is_of_carton=is_of_carton)
    return {**reason, "text": " ".join(filter(None, (sentence, interval_words(reason))))}


def sentence_of(reason: dict[str, Any], *, is_of_carton: bool) -> str:
    """The one sentence of a reason, as it is written on the docket: without the interval behind a share."""
    places = places_of(reason["facts"], reason["measured"], reason["unit"], reason["bound"])
    places["whose"] = word("whose", reason.get("whose", "unsaid"))
    places["where"] = where_words(reason["carton"]) if is_of_carton else ""
    return filled(WORDS["reasons"][reason["code"]], places)


def interval_words(reason: dict[str, Any]) -> str:
    """What so few prawns leave possible for the carton (Wilson, 95 %), or "" where nothing was counted."""
    facts = reason["facts"]
    if "looked_at" not in facts or "low" not in facts:
        return ""
    return filled(WORDS["interval"], places_of(facts, None, None, None))


def sum_of(reason: dict[str, Any]) -> str:
    """The kind of sum that explains a reason: a key of ``why`` and ``formula`` in the file of sentences."""
    code = reason["code"]
    kind = OUTCOMES[code].sum if code in OUTCOMES else _SUMS.get(code, "label")
    if kind == "count":
        return f"count_{reason['unit']}" if reason["unit"] else "glazed"
    return "mean_codex" if kind == "mean" and "factor" not in reason["facts"] else kind


def explain(reason: dict[str, Any]) -> dict[str, Any]:
    """The "why" of a reason: everything that a sceptic needs to do the sum again by hand.

    Parameters
    ----------
    reason : dict
        A reason of the judgement.

    Returns
    -------
    dict
        ``numbers`` (the sum with its numbers in), ``formula`` (the sum in words), ``values`` (each number:
        ``name``, ``words``, ``value`` unrounded, ``unit``, ``shown``), ``limit``, ``source`` (with how surely it
        is known) and ``words`` (what the limit is for).

    Examples
    --------
    >>> why = explain({"code": "TEMP-REJECT", "severity": "critical", "measured": -9.5, "unit": "C", "bound": -12.0,
    ...     "sense": "at_most", "facts": {},
    ...     "basis": {"source": "CXC 8-1976 §4", "known": "from_memory", "words": "w"}})
    >>> why["numbers"], [one["shown"] for one in why["values"]]
    ('Measured -9.5 °C.', ['-9.5 °C', '-12.0 °C'])
    """
    places = places_of(reason["facts"], reason["measured"], reason["unit"], reason["bound"])
    kind, basis = sum_of(reason), reason["basis"]
    return {
        "numbers": whole_sentences(filled(WORDS["why"][kind], places)),
        "formula": WORDS["formula"][kind],
        "values": _values(reason, places),
        "limit": _limit_words(reason, places),
        "source": filled(WORDS["why"]["source"], {"source": source_words(basis)}),
        "words": basis["words"],
    }


def source_words(basis: dict[str, str]) -> str:
    """A source with how surely it is known; "common practice" is said once.

    Examples
    --------
    >>> source_words({"source": "CXS 92-1981 §9", "known": "read"})
    'CXS 92-1981 §9 (read in the source)'
    >>> source_words({"source": "common practice, no source", "known": "common_practice"})
    'common practice, no source'
    """
    if basis["known"] == "common_practice" and "common practice" in basis["source"]:
        return basis["source"]
    return f"{basis['source']} ({word('known', basis['known'])})"


def whole_sentences(text: str) -> str:
    """The sentences without a place left open: a record of an earlier edition lacks some facts.

    >>> whole_sentences("1.5 kg short. The table gives {tolerable_g}.")
    '1.5 kg short.'
    """
    kept = [sentence for sentence in text.removesuffix(".").split(". ") if "{" not in sentence]
    return ". ".join(kept) + "." if kept else ""


def _values(reason: dict[str, Any], places: dict[str, str]) -> list[dict[str, Any]]:
    """Every number of a reason, measured and limit first, then the facts in their order."""
    unit = reason["unit"]
    numbers = [("measured", reason["measured"], unit), ("bound", reason["bound"], unit)]
    is_count = unit in ("per_lb", "per_kg")
    for name, value in reason["facts"].items():
        own = unit if is_count and name in ("low", "high") else _FACT_UNITS.get(name, _FACT_NOUNS.get(name, "number"))
        numbers.append((name, value, own))
    return [
        {
            "name": name,
            "words": word("values", name),
            "value": value + 0.0,
            "unit": own,
            "shown": places[f"{name}_count"] if is_count and name in ("low", "high") else places[name],
        }
        for name, value, own in numbers
        if own is not None and isinstance(value, (int, float)) and not isinstance(value, bool)
    ]


def _limit_words(reason: dict[str, Any], places: dict[str, str]) -> str:
    if reason["bound"] is None or reason["sense"] is None:
        return str(WORDS["why"]["noted" if reason["severity"] == "note" else "none"])
    return filled(WORDS["why"]["limit"], {"bound": filled(word("sense", reason["sense"]), places)})
