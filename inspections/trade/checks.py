"""What do the plain checks of a vehicle, a carton or a label show?

Method: each row of the registry is read from its place in the document, and what was answered is compared with its
limit, unrounded (CV-0-01). Prawns affected are counted among prawns looked at, and the interval that goes with so few
is given beside the share (Wilson, CV-9). With fewer prawns looked at than the group asks for (``looked_at``), a share
whose interval still reaches down to its limit is not called beyond: more prawns are asked for. Nothing answered is not
checked, never a pass (CV-0-06).
"""

from __future__ import annotations

from typing import Any

from .entries import Reader
from .findings import CANNOT_TELL, NOT_CHECKED, WITHIN, Finding, Judged
from .intervals import wilson
from .limits import Limit, Limits
from .quantities import MAX_PIECES
from .registry import Check, checks_on

Seen = dict[str, Any]


def read_checks(reader: Reader, entry: dict[str, Any], path: str, on: str) -> Seen:
    """What was answered to each plain check, by name; None where nothing usable was.

    Parameters
    ----------
    reader : Reader
        Lists what cannot be used.
    entry : dict
        Vehicle, carton or label of the document.
    path : str
        Where that stands.
    on : str
        vehicle, carton or label.

    Returns
    -------
    dict
        Words, tuples of words, whole numbers, and readings in °C, g or as a share 0 to 1.
    """
    holders: dict[str, dict[str, Any]] = {"": entry}
    seen: Seen = {}
    for check in checks_on(on):
        holder, _, key = check.at.rpartition(".")
        if holder not in holders:
            holders[holder] = reader.record(entry.get(holder), f"{path}.{holder}") or {}
        seen[check.name] = _read(reader, check, holders[holder].get(key), f"{path}.{check.at}", seen)
        if check.of:
            whole_g = reader.reading(holders[holder].get(check.of.rpartition(".")[2]), f"{path}.{check.of}", "mass")
            seen[check.name] = _part(reader, check, seen[check.name], whole_g, path)
    return seen


def _read(reader: Reader, check: Check, value: Any, path: str, seen: Seen) -> Any:
    if check.type == "choice":
        return reader.word(value, path, tuple(check.choices))
    if check.type == "flags":
        return _read_signs(reader, check, value, path)
    if check.type == "pieces":
        return _read_pieces(reader, value, path, seen["looked_at"])
    if check.type == "whole":
        return reader.whole(value, path, check.low, check.high)
    if check.type == "score":
        return _read_score(reader, value, path, check.scores)
    if check.type == "text":
        return reader.text(value, path) or None
    return reader.reading(value, path, "mass_or_zero" if check.type == "part" else check.quantity)


def _read_signs(reader: Reader, check: Check, value: Any, path: str) -> tuple[str, ...] | None:
    """The signs seen. One word by itself is how documents of before several could be given hold it."""
    if check.none and isinstance(value, str):
        one = reader.word(value, path, (check.none, *check.choices))
        return None if one is None else () if one == check.none else (one,)
    signs = reader.words(value, path, tuple(check.choices))
    # Signs of which none is known are not the answer that there was no sign.
    return None if value and not signs else signs


def _read_pieces(reader: Reader, value: Any, path: str, looked_at: int | None) -> int | None:
    number = reader.whole(value, path, 0, MAX_PIECES)
    if number is not None and looked_at is not None and number > looked_at:
        reader.refuse(path, "FACT-04", {"counted": number, "looked_at": looked_at})
        return None
    return number


def _read_score(reader: Reader, value: Any, path: str, scores: tuple[int, ...]) -> int | None:
    score = reader.whole(value, path, scores[0], scores[-1])
    if score is not None and score not in scores:
        reader.refuse(path, "FACT-02", {"known": list(scores)})
        return None
    return score


def _part(
    reader: Reader, check: Check, part_g: float | None, whole_g: float | None, path: str
) -> tuple[float, float] | None:
    if part_g is None or whole_g is None:
        return None
    if part_g > whole_g:
        reader.refuse(f"{path}.{check.at}", "FACT-07", dict(zip(check.numbers, (part_g, whole_g), strict=True)))
        return None
    return part_g, whole_g


def share_facts(affected: int, looked_at: int) -> dict[str, float]:
    """Prawns counted, with the interval of their share."""
    low, high = wilson(affected, looked_at)
    return {"affected": affected, "looked_at": looked_at, "low": low, "high": high}


def measured_of(check: Check, seen: Seen) -> tuple[float, dict[str, Any]] | None:
    """The number that is held against the limits, with the facts of its sentence; None where none was given."""
    value = seen[check.name]
    facts: dict[str, Any] = {"counted_by": check.counted_by} if check.counted_by else {}
    if value is None or (check.type == "pieces" and seen["looked_at"] is None):
        return None
    if check.type == "pieces":
        return value / seen["looked_at"], share_facts(value, seen["looked_at"])
    if check.type == "part":
        return value[0] / value[1], {**facts, **dict(zip(check.numbers, value, strict=True))}
    return value + 0.0, facts


def tell_share(
    judged: Judged, name: str, share: float, code: str, limit: Limit, facts: dict[str, Any], few: Limit
) -> bool:
    """A share against its limit; True when past it. Too few prawns to tell are asked for, not judged."""
    is_unsure = not limit.is_fine(share) and not few.is_fine(facts["looked_at"]) and limit.is_fine(facts["low"])
    if not is_unsure:
        return judged.measure(name, share, code, limit, facts)
    judged.checks[name] = CANNOT_TELL
    asked = {**facts, "of": code, "least": int(few.bound or 0.0), "group": "pieces_of"}
    judged.findings.append(Finding("PIECES-UNSURE", few, share, limit.unit, limit.bound, limit.sense, asked))
    return True


def judge_checks(judged: Judged, on: str, seen: Seen, limits: Limits, ordered: Any = None) -> None:
    """Every plain check of a vehicle or carton against its limits.

    Parameters
    ----------
    judged : Judged
        Takes checks and findings, in the order of the registry.
    on : str
        vehicle or carton.
    seen : dict
        As ``read_checks`` gives it.
    limits : Limits
    ordered : Ordered or None
        What was ordered: a measure that is not asked for such goods is left out (the vein of undeveined ones), another
        check unless it was answered; one that cannot find anything in them is left out.
    """
    for check in checks_on(on):
        # The first way in which a check was made counts.
        if not check.judged_by and judged.checks.get(check.answers, NOT_CHECKED) == NOT_CHECKED:
            _judge(judged, check, seen, limits, ordered)


def _judge(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: Any) -> None:
    value = seen[check.name]
    if check.type == "choice" and value is not None:
        outcome = check.choices[value]
        if outcome is None or not outcome.is_for(ordered):
            judged.checks[check.answers] = WITHIN
        else:
            judged.see(check.answers, True, outcome.code, limits[outcome.limit])
    elif check.type == "flags" and value is not None:
        _judge_signs(judged, check, seen, limits, ordered)
    elif check.type in ("choice", "flags"):
        if check.is_asked_for(ordered):
            judged.leave(check.answers)
    elif check.is_asked_for(ordered):
        _judge_measured(judged, check, seen, limits, ordered)


def _judge_signs(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: Any) -> None:
    """A finding for each sign that has one of its own; else the first outcome that the signs fit."""
    signs = seen[check.name]
    judged.checks[check.answers] = WITHIN
    for own in (check.choices[sign] for sign in signs):
        if own is not None and own.is_for(ordered):
            judged.see(check.answers, True, own.code, limits[own.limit])
    for outcome in check.outcomes_for(ordered) if signs else ():
        if outcome.fits(signs, seen):
            judged.see(check.answers, True, outcome.code, limits[outcome.limit], {"signs": list(signs)})
            return


def _judge_measured(judged: Judged, check: Check, seen: Seen, limits: Limits, ordered: Any) -> None:
    outcomes, measured = check.outcomes_for(ordered), measured_of(check, seen)
    if measured is not None:
        share, facts = measured
        for outcome in outcomes:
            limit = limits[outcome.limit]
            if check.type == "pieces":
                is_past = tell_share(judged, check.answers, share, outcome.code, limit, facts, limits["looked_at"])
            else:
                is_past = judged.measure(check.answers, share, outcome.code, limit, facts)
            if is_past:
                return
    elif check.part_of and seen[check.part_of] is not None and seen["looked_at"] is not None:
        # Prawns with the worse fault are some of those with any, so their share cannot be higher.
        is_fine = limits[outcomes[0].limit].is_fine(seen[check.part_of] / seen["looked_at"])
        judged.checks[check.answers] = WITHIN if is_fine else CANNOT_TELL
    else:
        judged.leave(check.answers)
