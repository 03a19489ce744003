"""What is written on the paper docket before signing?

Written with a pen while a driver waits: a line names the goods, the lot and the quantities, then at most 25 words of
what was measured, strongest first, like findings of several cartons in one phrase, in the units that were typed. Never
intent (CV-12-47), no instructions to staff; the rest stands in the record. The receiver's decision, where there is
one, gives the quantities; else the suggestion does.
"""

from __future__ import annotations

from typing import Any

from .facts import LineFacts
from .reasons import places_of, typed_shown
from .wording import WORDS, counted, filled, listed, shown, shown_measure, word

MOST_WORDS = 25
MOST_MISSING = 3
_DOCKET: dict[str, str] = WORDS["docket"]
_PHRASES: dict[str, str] = WORDS["docket_reasons"]


def _quantities(verdict: dict[str, Any], line: LineFacts) -> tuple[str, dict[str, int] | None]:
    """Kind of outcome and cartons, from the decision or else from the suggestion."""
    if line.decision is None:
        return verdict["suggestion"], verdict["suggested_split"]
    decided = line.decision
    return decided.kind, {"accepted": decided.accepted, "refused": decided.refused, "held": decided.held}


def _missing(names: list[str]) -> str:
    told = [word("docket_checks", name) for name in names[:MOST_MISSING]]
    if len(names) > MOST_MISSING:
        told.append(filled(_DOCKET["and_more"], {"number": str(len(names) - MOST_MISSING)}))
        return ", ".join(told[:-1]) + " " + told[-1]
    return listed(told)


def _outcome(verdict: dict[str, Any], line: LineFacts) -> str:
    kind, split = _quantities(verdict, line)
    if kind == "not_yet":
        next_step = verdict["next"]
        missing = _missing(verdict["needed"]) or word("docket_checks", "next_" + next_step["kind"])
        return filled(_DOCKET["not_yet"], {"missing": missing})
    if split is None:
        return _DOCKET["uncounted"]
    parts = [
        filled(_DOCKET[part], {"cartons": counted(split[part], "carton")})
        for part in ("accepted", "refused", "held")
        if split[part] > 0
    ]
    return ", ".join(parts) or _DOCKET["nothing"]


def _value(reason: dict[str, Any]) -> str:
    """What was measured, as it was counted or typed."""
    facts = reason["facts"]
    if "affected" in facts:
        return filled(_DOCKET["of"], places_of(facts, None, None, None))
    if facts.get("typed", ["", ""])[0]:
        return typed_shown(facts["typed"])
    if "net_g" in facts:
        return shown_measure(facts["net_g"], "g")
    return "" if reason["measured"] is None else shown_measure(reason["measured"], reason["unit"])


def _limit(reason: dict[str, Any]) -> str:
    """The limit, in the unit that was typed."""
    bound, unit = reason["bound"], reason["unit"]
    if bound is None:
        return ""
    if unit == "C" and reason["facts"].get("typed", ["", ""])[1] == "F":
        return filled(_DOCKET["limit"], {"bound": shown(bound * 9.0 / 5.0 + 32.0, 1) + " °F"})
    return filled(_DOCKET["limit"], {"bound": shown_measure(bound, unit)})


def _phrase(alike: list[dict[str, Any]]) -> str:
    """Like findings in one phrase: which cartons, what, how much, the limit."""
    first = alike[0]
    places = places_of(first["facts"], first["measured"], first["unit"], first["bound"])
    values = listed(list(dict.fromkeys(_value(reason) for reason in alike)))
    phrase = filled(_PHRASES[first["code"]], {**places, "values": values, "limit": _limit(first)})
    cartons = [shown(reason["carton"], 0) for reason in alike if reason["carton"] is not None]
    if not cartons:
        return phrase
    where = filled(_DOCKET["carton" if len(cartons) == 1 else "cartons"], {"cartons": ", ".join(cartons)})
    return f"{where}: {phrase}"


def phrases_of(reasons: list[dict[str, Any]]) -> list[str]:
    """What is serious or costs money, strongest first, like findings together."""
    groups: dict[str, list[dict[str, Any]]] = {}
    for reason in reasons:
        is_written = reason["severity"] in ("critical", "major") or reason["code"] == "CARTONS-SHORT"
        if is_written and reason["code"] in _PHRASES:
            groups.setdefault(_PHRASES[reason["code"]] + str(reason["facts"].get("found", "")), []).append(reason)
    return [_phrase(alike) for alike in groups.values()]


def _lots(verdict: dict[str, Any], line: LineFacts) -> list[str]:
    """The lot of the docket, or those of the labels where it states none."""
    lots = [line.lot] if line.lot else list(dict.fromkeys(
        carton.label.seen["lot"] for carton in line.cartons if carton.label is not None and carton.label.seen["lot"]
    ))  # fmt: skip
    if not lots:
        return []
    return [filled(_DOCKET["lot" if len(lots) == 1 else "lots"], {"lot": lots[0], "lots": ", ".join(lots)})]


def line_wording(verdict: dict[str, Any], line: LineFacts, name: str) -> str:
    """The docket words of one line.

    Parameters
    ----------
    verdict : dict
        Line verdict without its wording.
    line : LineFacts
    name : str
        Name of what was ordered, "" when it is not known.

    Returns
    -------
    str
        Goods, lot and quantities, then at most ``MOST_WORDS`` words of findings and allowances.
    """
    head = filled(_DOCKET["line"], {"name": name}) if name else _DOCKET["line_unnamed"]
    start = ", ".join([head, *_lots(verdict, line)]) + ": " + _outcome(verdict, line) + "."
    left_out = [one["check"] for one in verdict["left_out"]]
    told = [_allowance(one) for one in verdict["allowances"]]
    told += [filled(_DOCKET["left_out"], {"missing": _missing(left_out)})] if left_out else []
    # What is short comes first: a docket signed without it is a receipt for what never came.
    reasons = sorted(verdict["reasons"], key=lambda reason: reason["code"] != "CARTONS-SHORT")
    return " ".join([start, *(_sentence(one) for one in _fitting(phrases_of(reasons), told))])


def _allowance(allowance: dict[str, Any]) -> str:
    quantity = (
        counted(int(allowance["quantity"]), "carton")
        if allowance["unit"] == "cartons"
        else shown_measure(allowance["quantity"], allowance["unit"])
    )
    what = filled(WORDS["docket_allowances"][allowance["basis"]], {"quantity": quantity})
    return filled(_DOCKET["allowance"], {"what": what})


def _fitting(findings: list[str], told: list[str]) -> list[str]:
    """Findings, then allowances and what was left out, as far as the words go; that more is known is said."""
    kept: list[str] = []
    left = MOST_WORDS - _words_in(_DOCKET["more"])
    everything = [*findings[:1], *told, *findings[1:]]
    for phrase in everything:
        if _words_in(phrase) <= left:
            kept.append(phrase)
            left = left - _words_in(phrase)
    return kept if len(kept) == len(everything) else [*kept, _DOCKET["more"]]


def _words_in(phrase: str) -> int:
    return sum(1 for one in phrase.split(" ") if one)


def _sentence(phrase: str) -> str:
    first = phrase[:1]
    return (first.upper() if "a" <= first <= "z" else first) + phrase[1:] + "."


def delivery_wording(docket_number: str, lines: list[dict[str, Any]], vehicle: list[dict[str, Any]]) -> str:
    """The docket words of the whole delivery, one line of text for each docket line."""
    head = [filled(_DOCKET["head"], {"docket": docket_number})] if docket_number else []
    seen = [word("docket_vehicle", reason["code"]) for reason in vehicle if reason["severity"] != "note"]
    texts = [line["wording"] for line in lines] or [_DOCKET["no_lines"]]
    return "\n".join([*head, *([_sentence(", ".join(seen))] if seen else []), *texts])
