"""What was found, as a supplier reads it: what was wrong, by how much, against which limit, with what photos."""
from dataclasses import dataclass, field, replace
from typing import Any

from inspections.evidence.limit_bar import Rule, distance_words, rule_of
from inspections.evidence.photo_page import Shot
from inspections.trade.reasons import explain
from inspections.trade.whose import HOUSE, limit_said, own_limits, whose_limit
from inspections.trade.wording import WORDS, filled, listed, word

#: What shows a finding, by the start of its code: the kinds of photo, taken of the same carton.
SHOWN_ON = (
    ("TEMP", ("temperature",)), ("BLACK", ("sample", "defect", "top")), ("LABEL", ("label",)), ("LIFE", ("label",)),
    ("DATE", ("label",)), ("SPECIES-LABEL", ("label",)), ("LINER", ("under_liner", "top", "defect")),
    ("NET", ("sample",)), ("GLAZE", ("sample",)), ("CARTONS", ("docket", "load")), ("LOAD", ("load",)),
    ("AIR", ("load", "temperature")), ("DEFECTIVE", ()), ("", ("sample", "defect", "top", "under_liner")),
)
#: Findings against a bound that a reading between packs is given an allowance for.
EASED = ("TEMP-REJECT", "TEMP-OUTSIDE")


@dataclass(frozen=True)
class Found:
    """A finding against its limit; ``photos`` show it, ``above`` are those shown beside an earlier finding."""

    text: str
    severity: str
    limit: str
    distance: str
    whose: str
    words: str
    numbers: str
    rule: Rule | None
    photos: list[Shot] = field(default_factory=list)
    above: list[Shot] = field(default_factory=list)
    carton: int | None = None
    code: str = ""


def found_of(reason: dict[str, Any], ordered: dict[str, Any] | None = None, plan: str = "") -> Found:
    """A reason of the judgement as a finding against its limit.

    ``ordered`` is the specification as sealed, ``plan`` the one that cartons were opened by.
    """
    why, allowed = explain(reason), reason["facts"].get("allowance_c") or 0.0
    is_eased = allowed > 0 and reason["code"] in EASED
    distance = distance_words(reason["measured"] - allowed if is_eased else reason["measured"], reason["bound"],
                              reason["unit"])
    return Found(
        text=reason["text"], severity=word("severity", reason["severity"]), limit=why["limit"],
        distance=f"{distance} with the allowance taken off" if is_eased else distance,
        whose=_whose(reason, ordered or {}, plan), words=why["words"],
        numbers=why["numbers"], carton=reason["carton"], code=reason["code"],
        rule=rule_of(reason["measured"], reason["bound"], reason["sense"], reason["unit"]),
    )


def _whose(reason: dict[str, Any], ordered: dict[str, Any], plan: str) -> str:
    judged = HOUSE if reason["code"] == "DEFECTIVE-OVER" and plan == "house" else reason.get("whose", "")
    whose = whose_limit(reason["limit"], reason["basis"], is_own=reason["limit"] in own_limits(ordered), judged=judged)
    said = limit_said(reason["limit"], reason["basis"], whose)
    return f"{said[0].upper()}{said[1:]}."


def with_photos(found: list[Found], shots: list[Shot]) -> list[Found]:
    """Each finding with the photos that show it; a photo is shown once, and named where it shows another finding."""
    told, shown_ids = [], set()
    for one in found:
        fitting = [shot for shot in shots if _shows(shot, one)]
        told.append(replace(one, photos=[shot for shot in fitting if shot.number not in shown_ids],
                            above=[shot for shot in fitting if shot.number in shown_ids]))
        shown_ids |= {shot.number for shot in fitting}
    return told


def _shows(shot: Shot, found: Found) -> bool:
    kinds = next((kinds for start, kinds in SHOWN_ON if found.code.startswith(start)), ())
    return shot.carton == found.carton and shot.kind in kinds


def notes_of(reasons: list[dict[str, Any]], ordered: dict[str, Any], plan: str = "") -> list[str]:
    """Notes in a line each; one that holds for several cartons stands once, with their positions."""
    grouped: dict[tuple[str, str], list[int]] = {}
    for reason in reasons:
        if reason["severity"] == "note":
            where = filled(WORDS["where"], {"carton": str(reason["carton"])})
            told = (reason["text"].removeprefix(where), _whose(reason, ordered, plan))
            grouped.setdefault(told, []).extend([] if reason["carton"] is None else [reason["carton"]])
    return [f"{_cartons(places)}{text} {whose}" for (text, whose), places in grouped.items()]


def _cartons(places: list[int]) -> str:
    if not places:
        return ""
    return f"{'Carton' if len(places) == 1 else 'Cartons'} {listed([str(place) for place in places])}: "
