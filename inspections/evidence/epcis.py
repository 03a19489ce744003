"""A sealed delivery as EPCIS 2.0 events, for a group whose other systems trace goods by them.

One event says what arrived (``receiving``); one more for each part of a line says what was decided of it:
``accepting`` and conformant, ``inspecting`` and non-conformant for what was refused, ``holding`` for what waits.
All are observations: nothing is made or destroyed by receiving. Made from the sealed record alone, so that the
same delivery gives the same events for ever.

Goods with a scanned GTIN are named by their GS1 Digital Link. What has no number of its own (a lot without GTIN,
a site, a supplier, a docket) is named by an address below this installation's own, which need not lead anywhere.
Own fields carry the prefix ``rd``; among them are the particulars that a receiver keeps for tracing (21 CFR
1.1345(a)): lot code, quantity and unit, description, where from, where to, when, source of the lot code, papers.

Sources: EPCIS 2.0 examples and JSON schema (CV-8-130 to 142, read); words are those of the Core Business Vocabulary.
"""
import uuid
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote

from inspections.records.scans import UnusableScan, particulars_from_scan
from inspections.trade.quantities import Unusable, to_celsius

CONTEXT = "https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld"
#: Part of a line, its business step and its disposition.
DECIDED = (("accepted", "accepting", "conformant"), ("refused", "inspecting", "non_conformant"),
           ("held", "holding", "in_progress"))
_SPECIES = ("SPECIES-LABEL", "SPECIES-MARKS")


def epcis_document(record: dict[str, Any], *, base: str, recorded_at: datetime) -> dict[str, Any]:
    """The events of one delivery.

    Parameters
    ----------
    record : dict
        The sealed content of the delivery.
    base : str
        Address of this installation, without a slash at its end.
    recorded_at : datetime
        When it was sealed, aware.

    Returns
    -------
    dict
        An EPCISDocument as JSON-LD: the receiving event, then one for each decided part of each line.
    """
    written = _utc(recorded_at)
    events = [_receiving(record, base), *_decisions(record, base)]
    return {
        "@context": [CONTEXT, {"rd": f"{base}/how/receiving/"}],
        "type": "EPCISDocument",
        "schemaVersion": "2.0",
        "creationDate": written,
        "epcisBody": {"eventList": [{**event, "recordTime": written} for event in events]},
    }


def _receiving(record: dict[str, Any], base: str) -> dict[str, Any]:
    document = record["document"]
    wrong = sorted(_persistent(record))
    return {
        **_event(record, base, "receiving", document["arrived_at"], "receiving", "in_progress"),
        **({"persistentDisposition": {"set": wrong}} if wrong else {}),
        "quantityList": [
            {"epcClass": _goods(record, line, base), "quantity": line["cartons_counted"]} for line in document["lines"]
        ],
        "bizTransactionList": _papers(record, base),
        "sourceList": [{"type": "possessing_party", "source": _supplier(record, base)}],
        "destinationList": [{"type": "location", "destination": _site(record, base)}],
        **_sensors(document, base),
        "rd:lines": [_line_words(record, line) for line in document["lines"]],
        "rd:receivedFrom": record["supplier"]["name"],
        "rd:receivedAt": record["site"]["name"],
        "rd:receivedOn": document["arrived_at"][:10],
        "rd:lotCodeSource": record["supplier"]["name"],
        "rd:papers": [{"rd:type": "docket", "rd:number": document["docket_number"]},
                      *([{"rd:type": "order", "rd:number": record["order_number"]}] if record["order_number"] else [])],
    }


def _decisions(record: dict[str, Any], base: str) -> Iterator[dict[str, Any]]:
    for line in record["document"]["lines"]:
        decision = line["decision"]
        for part, step, disposition in DECIDED:
            if decision[part]:
                yield {
                    **_event(record, base, f"{line['id']} {part}", decision["decided_at"], step, disposition),
                    "quantityList": [{"epcClass": _goods(record, line, base), "quantity": decision[part]}],
                    "bizTransactionList": _papers(record, base),
                    "rd:decision": decision["kind"],
                    **({"rd:reason": decision["reason"]} if decision["reason"] else {}),
                }


def _event(record: dict[str, Any], base: str, part: str, at: str, step: str, disposition: str) -> dict[str, Any]:
    """What every event has; its id follows from the delivery's, so that a second export is no second event."""
    return {
        "type": "ObjectEvent",
        "eventID": f"urn:uuid:{uuid.uuid5(uuid.UUID(record['document']['id']), part)}",
        "eventTime": at,
        "eventTimeZoneOffset": _offset(at),
        "action": "OBSERVE",
        "bizStep": step,
        "disposition": disposition,
        "readPoint": {"id": _site(record, base)},
        "bizLocation": {"id": _site(record, base)},
    }


def _persistent(record: dict[str, Any]) -> set[str]:
    """What was found not to be as the papers say."""
    found = set()
    for line, verdict in zip(record["document"]["lines"], record["judgement"]["lines"], strict=True):
        if line["cartons_counted"] != line["cartons_on_docket"]:
            found.add("mismatch_quantity")
        if any(reason["code"] in _SPECIES for reason in verdict["reasons"]):
            found.add("mismatch_class")
    return found


def _goods(record: dict[str, Any], line: dict[str, Any], base: str) -> str:
    """The class of goods: GTIN and lot where a label was scanned, else specification and lot at this installation."""
    gtin, lot = _scanned(line, record["document"]["arrived_at"])
    lot = lot or line["lot"]
    start = f"https://id.gs1.org/01/{gtin}" if gtin else f"{base}/goods/{line['specification_id']}"
    return f"{start}/10/{quote(lot, safe='')}" if lot else start


def _scanned(line: dict[str, Any], arrived_at: str) -> tuple[str, str]:
    """GTIN and lot of the first label that was scanned and can be read."""
    for carton in line["cartons"]:
        text = (carton.get("label") or {}).get("scan") or ""
        try:
            read = particulars_from_scan(text, int(arrived_at[:4])) if text else {}
        except UnusableScan:
            continue
        # A GTIN of the contents, on a pallet's label, names the same goods.
        gtin = read.get("gtin") or read.get("content_gtin")
        if gtin:
            return gtin, read.get("lot", "")
    return "", ""


def _papers(record: dict[str, Any], base: str) -> list[dict[str, Any]]:
    site, docket = record["site"]["id"], record["document"]["docket_number"]
    papers = [{"type": "desadv", "bizTransaction": f"{base}/dockets/{site}/{quote(docket, safe='')}"}]
    if record["order_number"]:
        order = quote(record["order_number"], safe="")
        papers.insert(0, {"type": "po", "bizTransaction": f"{base}/orders/{site}/{order}"})
    return papers


def _sensors(document: dict[str, Any], base: str) -> dict[str, Any]:
    """Product temperatures, each with its time and thermometer, then all together; nothing where none was read."""
    reports, values = [], []
    for carton in (carton for line in document["lines"] for carton in line["cartons"]):
        entry = carton.get("temperature") or {}
        try:
            value = round(to_celsius(entry.get("product") or {}), 2)
        except Unusable:
            continue
        values.append(value)
        probe = entry.get("thermometer_id")
        device: dict[str, Any] = {"deviceID": f"{base}/thermometers/{probe}"} if probe else {}
        reports.append({
            "sensorMetadata": {"time": carton["opened_at"]} | device,
            "sensorReport": [{"type": "Temperature", "value": value, "uom": "CEL"}],
        })
    if not values:
        return {}
    together = {"type": "Temperature", "minValue": min(values), "maxValue": max(values),
                "meanValue": round(sum(values) / len(values), 2), "uom": "CEL"}
    return {"sensorElementList": [*reports, {"sensorReport": [together]}]}


def _line_words(record: dict[str, Any], line: dict[str, Any]) -> dict[str, Any]:
    """A line in words: description, lot, cartons delivered and on the docket, declared net weight of a carton."""
    wanted = line["specification_id"]
    ordered: dict[str, Any] = next((each for each in record["specifications"] if each["id"] == wanted), {})
    return {
        "rd:description": ordered.get("name", ""), "rd:species": ordered.get("species_code", ""),
        "rd:lotCode": line["lot"], "rd:quantity": line["cartons_counted"], "rd:unit": "cartons",
        "rd:onDocket": line["cartons_on_docket"], "rd:cartonNetGrams": ordered.get("carton_net_g"),
    }


def _site(record: dict[str, Any], base: str) -> str:
    return f"{base}/sites/{record['site']['id']}"


def _supplier(record: dict[str, Any], base: str) -> str:
    return f"{base}/suppliers/{record['supplier']['id']}"


def _offset(at: str) -> str:
    """Sign and hh:mm of a time as the phone wrote it; Z is +00:00."""
    return "+00:00" if at.endswith("Z") else at[-6:]


def _utc(at: datetime) -> str:
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
