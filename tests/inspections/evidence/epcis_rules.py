"""What the published JSON schema of EPCIS 2.0, and the word lists that it leaves open, ask of an object event.

Written from the published rows (CV-8-130 to 142); the schema itself is not kept here.
"""
import re
from collections.abc import Iterator
from datetime import datetime
from typing import Any

STEPS = {"receiving", "arriving", "accepting", "inspecting", "unloading", "sampling", "storing", "holding"}
DISPOSITIONS = {"in_progress", "conformant", "non_conformant", "damaged", "returned", "recalled", "expired",
                "needs_replacement", "mismatch_quantity", "mismatch_class", "completeness_verified"}
PAPERS = {"po", "desadv", "inv", "bol", "recadv", "rma", "cert", "testres"}
PARTIES = {"owning_party", "possessing_party", "location"}
FIELDS = {"type", "eventID", "eventTime", "eventTimeZoneOffset", "recordTime", "action", "bizStep", "disposition",
          "persistentDisposition", "epcList", "quantityList", "readPoint", "bizLocation", "bizTransactionList",
          "sourceList", "destinationList", "sensorElementList", "ilmd"}
_OFFSET = re.compile(r"[+-](?:(?:0[0-9]|1[0-3]):[0-5][0-9]|14:00)\Z")
_UNIT = re.compile(r"[A-Z0-9]{2,3}\Z")
_ADDRESS = re.compile(r"[a-z][a-z0-9+.-]*:\S+\Z", re.IGNORECASE)


def problems(document: dict[str, Any]) -> list[str]:
    """What is wrong with an EPCIS document, a phrase each; empty when it is as published."""
    found = [f"document without {name}" for name in ("@context", "creationDate", "epcisBody") if name not in document]
    if document.get("type") != "EPCISDocument" or document.get("schemaVersion") != "2.0":
        found.append("not an EPCIS 2.0 document")
    prefixes = {name for part in document.get("@context", []) if isinstance(part, dict) for name in part}
    for event in document.get("epcisBody", {}).get("eventList", []):
        found += _of_event(event, prefixes)
    return found


def _of_event(event: dict[str, Any], prefixes: set[str]) -> Iterator[str]:
    for name in ("type", "eventTime", "eventTimeZoneOffset", "action"):
        if name not in event:
            yield f"event without {name}"
    has_what = "epcList" in event or event.get("quantityList")
    if not has_what and not (event.get("sensorElementList") and "readPoint" in event):
        yield "event says nothing of what"
    if event.get("action") not in ("ADD", "OBSERVE", "DELETE", None):
        yield "no such action"
    if "ilmd" in event and event.get("action") != "ADD":
        yield "ilmd without ADD"
    for name in set(event) - FIELDS:
        if name.partition(":")[0] not in prefixes or ":" not in name:
            yield f"{name} carries no declared prefix"
    yield from _of_times(event)
    yield from _of_words(event)
    yield from _of_numbers(event)


def _of_times(event: dict) -> Iterator[str]:
    if "eventTimeZoneOffset" in event and not _OFFSET.match(event["eventTimeZoneOffset"]):
        yield "no such time-zone offset"
    for name in ("eventTime", "recordTime"):
        if name in event and datetime.fromisoformat(event[name]).tzinfo is None:
            yield f"{name} without a zone"


def _of_words(event: dict) -> Iterator[str]:
    persistent = event.get("persistentDisposition", {})
    if set(persistent) - {"set", "unset"}:
        yield "persistentDisposition holds set and unset only"
    words = [(event.get("bizStep"), STEPS), (event.get("disposition"), DISPOSITIONS)]
    words += [(word, DISPOSITIONS) for kind in persistent.values() for word in kind]
    words += [(paper.get("type"), PAPERS) for paper in event.get("bizTransactionList", [])]
    words += [(side.get("type"), PARTIES) for name in ("sourceList", "destinationList") for side in event.get(name, [])]
    yield from (f"{word} is no word of the list" for word, allowed in words if word is not None and word not in allowed)
    named = [event.get("eventID"), *(event.get(place, {}).get("id") for place in ("readPoint", "bizLocation"))]
    named += [*event.get("epcList", []), *(each.get("epcClass") for each in event.get("quantityList", []))]
    yield from (f"{name} is no address" for name in named if name is not None and not _ADDRESS.match(name))


def _of_numbers(event: dict) -> Iterator[str]:
    for each in event.get("quantityList", []):
        if not isinstance(each.get("quantity"), (int, float)):
            yield "a quantity that is no number"
    reports = [report for part in event.get("sensorElementList", []) for report in part["sensorReport"]]
    for each in [*event.get("quantityList", []), *reports]:
        if "uom" in each and not _UNIT.match(each["uom"]):
            yield f"{each['uom']} is no unit code"
