"""What a supplier reads: the sealed record of one delivery, line by line, in words.

Everything on the page but advice and the order's cartons and price comes out of the sealed bytes, not out of rows:
what is shown is what was sealed. What is not sealed is marked so.
"""
from dataclasses import dataclass, field, replace
from typing import Any
from zoneinfo import ZoneInfo

from inspections.evidence.addendum_page import addendum_page, moment_words
from inspections.evidence.anchors import latest_of
from inspections.evidence.carton_page import CartonPage, carton_page
from inspections.evidence.draws import hand_words
from inspections.evidence.entered import answered, entered
from inspections.evidence.found_page import Found, found_of, notes_of, with_photos
from inspections.evidence.logger_page import logger_pages
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.ordered import OrderedAt, prices_of
from inspections.evidence.photo_page import Shot, shots_of
from inspections.evidence.seals import content_of, seals_of
from inspections.evidence.species_names import species_named
from inspections.evidence.stamps import stamp_after
from inspections.evidence.worksheet import worksheet_of
from inspections.records.models import Delivery
from inspections.trade.wording import shown_measure, word


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
    apart: list[str] = field(default_factory=list)


def page_of(delivery: Delivery) -> dict[str, Any]:
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
    shots, prices = shots_of(record, zone), prices_of(delivery)
    vehicle_found = with_photos([found_of(reason) for reason in record["judgement"]["vehicle"]["reasons"]],
                                [shot for line_id, shot in shots if line_id is None])
    beside = [shot for found in vehicle_found for shot in found.photos]
    addenda = [addendum_page(seal, record, zone) for seal in seals if seal.kind == SealKind.ADDENDUM]
    return {
        "record": record,
        "document": document,
        "limits": f"{record['limits'].get('name', '')}, version {record['limits'].get('version', '')}",
        "arrived": moment_words(document["arrived_at"], zone),
        "signed": moment_words(record["signed_at"], zone),
        "zone": record["site"]["timezone"],
        "vehicle": _vehicle(document.get("vehicle") or {}),
        "vehicle_found": vehicle_found,
        "lines": [replace(line, apart=_apart(line, addenda)) for line in _lines(record, shots, prices)],
        "has_price": bool(prices),
        "other_photos": [shot for line_id, shot in shots if line_id is None and shot not in beside],
        "photo_count": len(shots),
        "has_advice": any(shot.answers for _, shot in shots),
        "tried": list(dict.fromkeys(one.tried for _, shot in shots for one in shot.answers if one.tried)),
        "wording": (document.get("wording") or {}).get("text") or record["judgement"]["wording"],
        "signatures": _signatures(document.get("signatures") or {}, zone),
        "differs": bool(record["difference"]),
        "noticed": [one["text"] for one in record.get("noticed", [])],
        "addenda": addenda,
        "logs": logger_pages([seal for seal in seals if seal.kind == SealKind.LOGGER], zone),
        "claims": _claims(seals),
        "seal": main,
        "latest": seals[-1],
        "site_latest": latest_of(delivery.site),
        "stamp": _stamp(main, zone),
        "is_demo": delivery.is_demo,
    }


def _stamp(seal: Seal, zone: ZoneInfo) -> dict[str, Any] | None:
    """The first time stamp from outside that speaks for the record, if there is one."""
    row = stamp_after(seal)
    if row is None:
        return None
    return {"at": moment_words(row.at.isoformat(), zone), "number": row.seal.number, "authority": row.authority}


def _claims(seals: list[Seal]) -> list[dict[str, Any]]:
    """Claims that were sent on this delivery, each with how many entries its thread has."""
    entries = [content_of(seal)["entry"] for seal in seals if seal.kind == SealKind.CLAIM]
    return [{"id": one["claim_id"], "number": one["claim_number"], "line": one["line_number"],
             "entries": sum(other["claim_id"] == one["claim_id"] for other in entries)}
            for one in entries if one["kind"] == "send"]


def _apart(line: LinePage, addenda: list[dict[str, Any]]) -> list[str]:
    """Where the refused and the held cartons of a line stand or went, oldest first; said too where nobody noted it."""
    told = [one for added in addenda for one in added["apart"] if one["line_id"] == line.id]
    silent = [kind for _, _, kind in line.split if kind != "accepted" and kind not in {one["part"] for one in told}]
    return [one["text"] for one in told] + [f"Where the {kind} cartons stand was not recorded." for kind in silent]


def _vehicle(vehicle: dict[str, Any]) -> list[tuple[str, str]]:
    told = [("Air in the vehicle", entered(vehicle.get("air"))), ("Load", answered("load", vehicle)),
            ("Vehicle seal", vehicle.get("seal_number") or ""), ("Note", vehicle.get("note") or "")]
    return [(name, value or "not checked") for name, value in told if value or name in {"Air in the vehicle", "Load"}]


def _lines(record: dict[str, Any], shots: list[tuple[str | None, Shot]], prices: dict[str, Any]) -> list[LinePage]:
    ordered = {spec["id"]: spec for spec in record["specifications"]}
    lines = record["document"]["lines"]
    draws = record.get("draws") or [None] * len(lines)  # records sealed before the draw was repeated have none
    sheets, limits = worksheet_of(record)["lines"], record["limits"]["limits"]
    told = zip(lines, record["judgement"]["lines"], draws, sheets, strict=True)
    return [
        _line(number, line, judged, draw, Context(
            ordered.get(line["specification_id"], {}), [shot for line_id, shot in shots if line_id == line["id"]],
            [carton["checks"] for carton in sheet["cartons"]], limits, prices.get(line["specification_id"]),
        ))
        for number, (line, judged, draw, sheet) in enumerate(told, start=1)
    ]


@dataclass(frozen=True)
class Context:
    """What a line is told with: specification, photos, the worksheet's checks by carton, limits, order and price."""

    ordered: dict[str, Any]
    shots: list[Shot]
    rows: list[list[dict[str, Any]]]
    limits: list[dict[str, Any]]
    price: OrderedAt | None


def _line(
    number: int, line: dict[str, Any], judged: dict[str, Any], draw: dict[str, Any] | None, around: Context
) -> LinePage:
    decision, ordered, plan = line["decision"], around.ordered, (line.get("sampling") or {}).get("plan") or ""
    told = [found_of(reason, ordered, plan) for reason in judged["reasons"] if reason["severity"] != "note"]
    found = with_photos(told, around.shots)
    beside = [shot for one in found for shot in one.photos]
    # A line whose product is not known has no worksheet for its cartons.
    rows = around.rows or [[] for _ in judged["cartons"]]
    by_id = {carton["id"]: carton for carton in line.get("cartons") or []}
    return LinePage(
        number=number, id=line["id"], name=ordered.get("name", ""), ordered=_ordered(line, ordered, around.price),
        decided=word("suggestion", decision["kind"]), split=_split(decision),
        suggested=word("suggestion", judged["suggestion"]),
        departs_because=decision.get("reason") or "" if decision["kind"] != judged["suggestion"] else "",
        found=found, notes=notes_of(judged["reasons"], ordered, plan),
        sampling=_sampling(judged["sampling"], line, draw),
        cartons=[carton_page(by_id[one["carton_id"]], one, ordered, checks, around.limits, asked=judged["not_checked"])
                 for one, checks in zip(judged["cartons"], rows, strict=True)],
        photos=[shot for shot in around.shots if shot not in beside], wording=judged["wording"],
    )


def _ordered(line: dict[str, Any], spec: dict[str, Any], at: OrderedAt | None) -> list[tuple[str, str]]:
    method = word("method_us" if spec.get("market") == "US" else "method", spec.get("method") or "")
    glaze, net = spec.get("declared_glaze_percent"), spec.get("carton_net_g")
    told = [
        ("Product", spec.get("name")), ("Code", spec.get("code")),
        ("Species", species_named(spec.get("species_code") or "", spec.get("market") or "")),
        ("Form", ", ".join(filter(None, [word("presentation", spec.get("presentation") or ""),
                                         word("state", spec.get("state") or "")]))),
        ("Size", spec.get("grade")), ("Net per carton", shown_measure(net / 1000, "kg") if net else None),
        ("Declared glaze", shown_measure(glaze, "percent") if glaze is not None else None),
        ("Origin", ", ".join(spec.get("origin") or [])), ("Method", method),
        ("Cartons ordered", at and at.cartons), ("Price", at and at.price),
        ("Cartons on the docket", line.get("cartons_on_docket")), ("Cartons counted", line.get("cartons_counted")),
        ("Lot", line.get("lot")),
    ]
    return [(name, str(value)) for name, value in told if value not in (None, "")]


def _split(decision: dict[str, Any]) -> list[tuple[int, str, str]]:
    """Count, word and kind of each part that is not empty."""
    parts = (("accepted", "accepted"), ("refused", "refused"), ("held", "held"))
    return [(decision[key], text, key) for key, text in parts if decision.get(key)]


def _sampling(sampling: dict[str, Any], line: dict[str, Any], draw: dict[str, Any] | None) -> str:
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


def _signatures(signatures: dict[str, Any], zone: ZoneInfo) -> list[dict[str, Any]]:
    told = []
    for who, title in (("receiver", "Receiver"), ("driver", "Driver")):
        given = signatures.get(who) or {}
        told.append({
            "title": title, "name": given.get("name") or "", "at": moment_words(given.get("at"), zone),
            "has_refused": given.get("refused") is True, "reason": given.get("reason") or "",
            "words": given.get("words") or "",
            "strokes": [_stroke(stroke) for stroke in given.get("strokes") or []],
        })
    return told


def _stroke(points: list[Any]) -> str:
    """A stroke as the points of an SVG line in a box of 600 by 200."""
    return " ".join(f"{float(x) * 600:.1f},{float(y) * 200:.1f}" for x, y, *_ in points)
