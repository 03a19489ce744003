"""The photos of a delivery as a supplier sees them: where each belongs, what it shows, the advice on it."""
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from inspections.evidence.addendum_page import moment_words
from inspections.evidence.advice import GivenAdvice, given_advice
from inspections.records.advising import PRAWN_PURPOSES
from inspections.records.photo_answers import UNREADABLE, answers_in

PURPOSES = {
    "load": "The load", "docket": "The docket", "label": "Label", "top": "Top of the carton",
    "under_liner": "Under the liner", "sample": "Weighed sample", "defect": "A finding",
    "temperature": "Temperature", "signature": "Signature",
}


@dataclass(frozen=True)
class Shot:
    """A photo with where it belongs and the advice on it, if any: ``answers`` in full, ``earlier`` folded away.

    ``unreadable`` is the sentence of a file of which nothing can be shown, else empty; it has no shared copy.
    """

    number: int
    sha256: str
    purpose: str
    kind: str
    carton: int | None
    taken: str
    how: str
    shared_sha256: str | None
    unreadable: str
    answers: list[GivenAdvice]
    earlier: list[tuple[GivenAdvice, str]]
    no_advice: str


def shots_of(record: dict[str, Any], zone: ZoneInfo) -> list[tuple[str | None, Shot]]:
    """Photos in the document's order, each with the id of its line."""
    document = record["document"]
    shared = {entry["sha256"]: entry for entry in record["photos"]}
    positions = {carton["id"]: carton.get("position") for line in document["lines"]
                 for carton in line.get("cartons") or []}
    lines = {line["id"] for line in document["lines"]}
    answers, signed = answers_in(document), datetime.fromisoformat(record["signed_at"])
    return [
        (entry.get("line_id") if entry.get("line_id") in lines else None,
         _shot(number, entry, shared[entry["sha256"]], positions, given_advice(answers[entry["sha256"]], signed), zone))
        for number, entry in enumerate(document["photos"], start=1)
    ]


def _shot(
    number: int, entry: dict[str, Any], shared: dict[str, Any], positions: dict[str, Any],
    given: list[GivenAdvice] | str, zone: ZoneInfo,
) -> Shot:
    shows_prawns = entry["purpose"] in PRAWN_PURPOSES
    answers = given if isinstance(given, list) else []
    return Shot(
        number=number, sha256=entry["sha256"], purpose=PURPOSES.get(entry["purpose"], entry["purpose"]),
        kind=entry["purpose"],
        carton=positions.get(entry.get("carton_id", "")), taken=moment_words(entry.get("taken_at"), zone),
        how=shared["shared_how"], shared_sha256=shared["shared_sha256"],
        unreadable=UNREADABLE[shared.get("unreadable") or "PHOTO-DAMAGED"] if shared["shared_sha256"] is None else "",
        answers=[one for one in answers if one.in_full],
        earlier=[(one, moment_words(one.at.isoformat(), zone)) for one in answers if not one.in_full],
        no_advice=given if isinstance(given, str) and shows_prawns else "",
    )
