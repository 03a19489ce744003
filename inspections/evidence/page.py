"""What a supplier reads: the sealed record of one delivery, line by line, in words.

Everything on the page but the advice comes out of the sealed bytes, not out of rows: what is shown is what
was sealed. Advice on photos is given later by a machine, is not sealed, and is marked so.
"""
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from inspections.evidence.addendum_page import addendum_page, moment_words
from inspections.evidence.advice import GivenAdvice, given_advice
from inspections.evidence.carton_page import CartonPage, carton_page
from inspections.evidence.draws import hand_words
from inspections.evidence.entered import answered, entered
from inspections.evidence.logger_page import logger_pages
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.rule import Rule, distance_words, rule_of
from inspections.evidence.seals import content_of, seals_of
from inspections.records.advising import PRAWN_PURPOSES
from inspections.records.models import Delivery
from inspections.records.photo_answers import UNREADABLE, answers_in
from inspections.trade.reasons import explain
from inspections.trade.wording import WORDS, filled, listed, shown_measure, word

PURPOSES = {
    "load": "The load", "docket": "The docket", "label": "Label", "top": "Top of the carton",
    "under_liner": "Under the liner", "sample": "Weighed sample", "defect": "A finding",
    "temperature": "Temperature", "signature": "Signature",
}
#: Findings against a bound that a reading between packs is given an allowance for.
EASED = ("TEMP-REJECT", "TEMP-OUTSIDE")


@dataclass(frozen=True)
class Found:
    """A finding against its limit."""

    text: str
    severity: str
    limit: str
    distance: str
    source: str
    words: str
    numbers: str
    rule: Rule | None


@dataclass(frozen=True)
class Shot:
    """A photo with where it belongs and the advice on it, if any: ``answers`` in full, ``earlier`` folded away.

    ``unreadable`` is the sentence of a file of which nothing can be shown, else empty; it has no shared copy.
    """

    sha256: str
    purpose: str
    carton: int | None
    taken: str
    how: str
    shared_sha256: str | None
    unreadable: str
    answers: list[GivenAdvice]
    earlier: list[tuple[GivenAdvice, str]]
    no_advice: str


@dataclass(frozen=True)
class LinePage:
    """One docket line: ordered, decided, found, opened."""

    number: int
    id: str
    name: str
    ordered: list[tuple[str, str]]
    decided: str
    split: list[tuple[int, str, str]]
    suggested: str
    departs_because: str
    found: list[Found]
    notes: list[str]
    sampling: str
    cartons: list[CartonPage]
    photos: list[Shot]
    wording: str


def page_of(delivery: Delivery) -> dict:
    """The page's parts for the template.

    Raises
    ------
    Seal.DoesNotExist
        The delivery has no seal, so there is nothing to show as evidence.
    """
    seals = seals_of(delivery)
    main = next((seal for seal in seals if seal.kind == SealKind.DELIVERY), None)
    if main is None:
        raise Seal.DoesNotExist(f"delivery {delivery.pk} has no seal")
    record = content_of(main)
    document, zone = record["document"], ZoneInfo(record["site"]["timezone"])
    shots = _shots(record, zone)
    return {
        "record": record,
        "document": document,
        "limits": f"{record['limits'].get('name', '')}, version {record['limits'].get('version', '')}",
        "arrived": moment_words(document["arrived_at"], zone),
        "signed": moment_words(record["signed_at"], zone),
        "zone": record["site"]["timezone"],
        "vehicle": _vehicle(document.get("vehicle") or {}),
        "vehicle_found": [found_of(reason) for reason in record["judgement"]["vehicle"]["reasons"]],
        "lines": _lines(record, shots),
        "other_photos": [shot for line_id, shot in shots if line_id is None],
        "photo_count": len(shots),
        "has_advice": any(shot.answers for _, shot in shots),
        "wording": (document.get("wording") or {}).get("text") or record["judgement"]["wording"],
        "signatures": _signatures(document.get("signatures") or {}, zone),
        "differs": bool(record["difference"]),
        "noticed": [one["text"] for one in record.get("noticed", [])],
        "addenda": [addendum_page(seal, record, zone) for seal in seals if seal.kind == SealKind.ADDENDUM],
        "logs": logger_pages([seal for seal in seals if seal.kind == SealKind.LOGGER], zone),
        "seal": main,
        "seals": seals,
        "is_demo": delivery.is_demo,
    }


def found_of(reason: dict) -> Found:
    """A reason of the judgement as a finding against its limit."""
    why, allowed = explain(reason), reason["facts"].get("allowance_c") or 0.0
    is_eased = allowed > 0 and reason["code"] in EASED
    distance = distance_words(reason["measured"] - allowed if is_eased else reason["measured"], reason["bound"],
                              reason["unit"])
    return Found(
        text=reason["text"], severity=word("severity", reason["severity"]), limit=why["limit"],
        distance=f"{distance} with the allowance taken off" if is_eased else distance, source=why["source"],
        words=why["words"], numbers=why["numbers"],
        rule=rule_of(reason["measured"], reason["bound"], reason["sense"], reason["unit"]),
    )


def notes_of(reasons: list[dict]) -> list[str]:
    """Notes in a line each; one that holds for several cartons stands once, with their positions."""
    grouped: dict[tuple[str, str], list[int]] = {}
    for reason in reasons:
        if reason["severity"] == "note":
            where = filled(WORDS["where"], {"carton": str(reason["carton"])})
            told = (reason["text"].removeprefix(where), explain(reason)["source"])
            grouped.setdefault(told, []).extend([] if reason["carton"] is None else [reason["carton"]])
    return [f"{_cartons(places)}{text} {source}" for (text, source), places in grouped.items()]


def _cartons(places: list[int]) -> str:
    if not places:
        return ""
    return f"{'Carton' if len(places) == 1 else 'Cartons'} {listed([str(place) for place in places])}: "


def _vehicle(vehicle: dict) -> list[tuple[str, str]]:
    told = [("Air in the vehicle", entered(vehicle.get("air"))), ("Load", answered("load", vehicle)),
            ("Vehicle seal", vehicle.get("seal_number") or ""), ("Note", vehicle.get("note") or "")]
    return [(name, value or "not checked") for name, value in told if value or name in {"Air in the vehicle", "Load"}]


def _lines(record: dict, shots: list) -> list[LinePage]:
    ordered = {spec["id"]: spec for spec in record["specifications"]}
    lines = record["document"]["lines"]
    draws = record.get("draws") or [None] * len(lines)  # records sealed before the draw was repeated have none
    told = zip(lines, record["judgement"]["lines"], draws, strict=True)
    return [
        _line(number, line, judged, draw, ordered.get(line["specification_id"], {}), shots)
        for number, (line, judged, draw) in enumerate(told, start=1)
    ]


def _line(number: int, line: dict, judged: dict, draw: dict | None, ordered: dict, shots: list) -> LinePage:
    decision = line["decision"]
    by_id = {carton["id"]: carton for carton in line.get("cartons") or []}
    return LinePage(
        number=number, id=line["id"], name=ordered.get("name", ""), ordered=_ordered(line, ordered),
        decided=word("suggestion", decision["kind"]), split=_split(decision),
        suggested=word("suggestion", judged["suggestion"]),
        departs_because=decision.get("reason") or "" if decision["kind"] != judged["suggestion"] else "",
        found=[found_of(reason) for reason in judged["reasons"] if reason["severity"] != "note"],
        notes=notes_of(judged["reasons"]), sampling=_sampling(judged["sampling"], line, draw),
        cartons=[carton_page(by_id[one["carton_id"]], one, ordered) for one in judged["cartons"]],
        photos=[shot for line_id, shot in shots if line_id == line["id"]], wording=judged["wording"],
    )


def _ordered(line: dict, spec: dict) -> list[tuple[str, str]]:
    method = word("method", spec.get("method") or "")
    glaze, net = spec.get("declared_glaze_percent"), spec.get("carton_net_g")
    told = [
        ("Product", spec.get("name")), ("Code", spec.get("code")), ("Species", spec.get("species_code")),
        ("Form", ", ".join(filter(None, [word("presentation", spec.get("presentation") or ""),
                                         word("state", spec.get("state") or "")]))),
        ("Size", spec.get("grade")), ("Net per carton", shown_measure(net / 1000, "kg") if net else None),
        ("Declared glaze", shown_measure(glaze, "percent") if glaze is not None else None),
        ("Origin", ", ".join(spec.get("origin") or [])), ("Method", method),
        ("Cartons on the docket", line.get("cartons_on_docket")), ("Cartons counted", line.get("cartons_counted")),
        ("Lot", line.get("lot")),
    ]
    return [(name, str(value)) for name, value in told if value not in (None, "")]


def _split(decision: dict) -> list[tuple[int, str, str]]:
    """Count, word and kind of each part that is not empty."""
    parts = (("accepted", "accepted"), ("refused", "refused"), ("held", "held"))
    return [(decision[key], text, key) for key, text in parts if decision.get(key)]


def _sampling(sampling: dict, line: dict, draw: dict | None) -> str:
    lot, opened = sampling.get("lot"), sampling.get("opened")
    if not lot or not opened:
        return ""
    told = f"{opened} of {lot} cartons opened, {sampling.get('defective') or 0} of them defective."
    planned = (line.get("sampling") or {}).get("positions")
    if planned:
        told += f" The plan drew positions {', '.join(str(one) for one in planned)}."
    told += hand_words(draw)
    miss = sampling.get("miss_chance")
    if miss is not None:
        told += f" If 1 carton in 5 were bad, opening so many would miss it {shown_measure(miss, 'share')} of the time."
    return told


def _shots(record: dict, zone: ZoneInfo) -> list[tuple[str | None, Shot]]:
    """Photos in the document's order, each with the id of its line."""
    document = record["document"]
    shared = {entry["sha256"]: entry for entry in record["photos"]}
    positions = {carton["id"]: carton.get("position") for line in document["lines"]
                 for carton in line.get("cartons") or []}
    lines = {line["id"] for line in document["lines"]}
    answers, signed = answers_in(document), datetime.fromisoformat(record["signed_at"])
    return [
        (entry.get("line_id") if entry.get("line_id") in lines else None,
         _shot(entry, shared[entry["sha256"]], positions, given_advice(answers[entry["sha256"]], signed), zone))
        for entry in document["photos"]
    ]


def _shot(entry: dict, shared: dict, positions: dict, given: list[GivenAdvice] | str, zone: ZoneInfo) -> Shot:
    shows_prawns = entry["purpose"] in PRAWN_PURPOSES
    answers = given if isinstance(given, list) else []
    return Shot(
        sha256=entry["sha256"], purpose=PURPOSES.get(entry["purpose"], entry["purpose"]),
        carton=positions.get(entry.get("carton_id")), taken=moment_words(entry.get("taken_at"), zone),
        how=shared["shared_how"], shared_sha256=shared["shared_sha256"],
        unreadable=UNREADABLE[shared.get("unreadable") or "PHOTO-DAMAGED"] if shared["shared_sha256"] is None else "",
        answers=[one for one in answers if one.in_full],
        earlier=[(one, moment_words(one.at.isoformat(), zone)) for one in answers if not one.in_full],
        no_advice=given if isinstance(given, str) and shows_prawns else "",
    )


def _signatures(signatures: dict, zone: ZoneInfo) -> list[dict]:
    told = []
    for who, title in (("receiver", "Receiver"), ("driver", "Driver")):
        given = signatures.get(who) or {}
        told.append({
            "title": title, "name": given.get("name") or "", "at": moment_words(given.get("at"), zone),
            "has_refused": given.get("refused") is True, "reason": given.get("reason") or "",
            "strokes": [_stroke(stroke) for stroke in given.get("strokes") or []],
        })
    return told


def _stroke(points: list) -> str:
    """A stroke as the points of an SVG line in a box of 600 by 200."""
    return " ".join(f"{float(x) * 600:.1f},{float(y) * 200:.1f}" for x, y, *_ in points)
