"""What is written on the paper docket before signing?

Exact quantities and "measured …, did not meet …", never intent (CV-12-47). The receiver's decision, where
there is one, gives the numbers; else the suggestion does. Only what is serious or costs money is written;
notes stay in the record, and so does what a count on a few prawns leaves possible: it does not fit on paper.
"""

from __future__ import annotations

from typing import Any

from .facts import LineFacts
from .reasons import sentence_of
from .weighing import SHORT_VALUE
from .wording import WORDS, counted, filled, listed, word


def _quantities(verdict: dict[str, Any], line: LineFacts) -> tuple[str, dict[str, int] | None]:
    """Kind of outcome and cartons, from the decision or else from the suggestion."""
    if line.decision is None:
        return verdict["suggestion"], verdict["suggested_split"]
    decided = line.decision
    return decided.kind, {"accepted": decided.accepted, "refused": decided.refused, "held": decided.held}


def _outcome(verdict: dict[str, Any], line: LineFacts) -> list[str]:
    kind, split = _quantities(verdict, line)
    if kind == "not_yet":
        missing = listed([word("not_checked", name) for name in verdict["needed"]])
        return [filled(WORDS["docket"]["not_yet"], {"missing": missing})]
    if split is None:
        return [WORDS["docket"]["uncounted"]]
    parts = [
        filled(WORDS["docket"][part], {"cartons": counted(split[part], "carton")})
        for part in ("accepted", "refused", "held")
        if split[part] > 0
    ]
    return parts or [WORDS["docket"]["nothing"]]


def _is_written(reason: dict[str, Any]) -> bool:
    return reason["severity"] in ("critical", "major") or reason["code"] in SHORT_VALUE


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
        Sentences, one after the other.
    """
    head = filled(WORDS["docket"]["line"], {"name": name}) if name else WORDS["docket"]["line_unnamed"]
    lot = [filled(WORDS["docket"]["lot"], {"lot": line.lot})] if line.lot else []
    written = [reason for reason in verdict["reasons"] if _is_written(reason)]
    # the sentences of the line itself have no place for a carton
    reasons = [sentence_of(reason, is_of_carton=True) for reason in written]
    allowances = [
        filled(WORDS["docket"]["allowance"], {"formula": allowance["formula"]}) for allowance in verdict["allowances"]
    ]
    return " ".join([head, *lot, *_outcome(verdict, line), *reasons, *allowances])


def delivery_wording(docket_number: str, lines: list[dict[str, Any]], vehicle: list[dict[str, Any]]) -> str:
    """The docket words of the whole delivery, one line of text for each docket line."""
    head = [filled(WORDS["docket"]["head"], {"docket": docket_number})] if docket_number else []
    seen = [reason["text"] for reason in vehicle if reason["severity"] != "note"]
    texts = [line["wording"] for line in lines] or [WORDS["docket"]["no_lines"]]
    return "\n".join([*head, *([" ".join(seen)] if seen else []), *texts])
