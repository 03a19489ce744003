"""What was seen and measured, read from the inspection document.

The question: which entries can be judged, and which cannot be used? Method: walk the document once,
turn each entry into a frozen fact, and list every entry that cannot be used with its path instead of
stopping. An absent key or null stays None: not checked, never zero (CV-0-06).

Codes of unusable entries: ``entries``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .carton_facts import MAX_CARTONS, CartonFacts, ThermometerFacts, read_carton, read_thermometer
from .checks import Seen, read_checks
from .entries import Reader, Unusable

DECISIONS = ("accept", "accept_with_allowance", "hold", "reject")


@dataclass(frozen=True)
class DecisionFacts:
    """What the receiver decided, in cartons; accepted + refused + held = cartons counted (CV-12-42)."""

    kind: str
    accepted: int
    refused: int
    held: int


@dataclass(frozen=True)
class SortedFacts:
    """A load sorted by its labels: labels read, and how many of those cartons differ."""

    read: int
    differ: int


@dataclass(frozen=True)
class LineFacts:
    """One docket line and its opened cartons."""

    id: str
    specification_id: str
    cartons_on_docket: int | None
    cartons_counted: int | None
    lot: str
    plan: str | None
    planned: int | None
    acceptance: int | None
    declined: str
    sorted_by_label: SortedFacts | None
    left_out: tuple[tuple[str, str], ...]
    decision: DecisionFacts | None
    cartons: tuple[CartonFacts, ...]


@dataclass(frozen=True)
class DeliveryFacts:
    """One delivery: what was seen of the vehicle, its lines, and every entry that could not be used."""

    limits_id: str
    docket_number: str
    arrived_day: int | None
    air_thermometer: ThermometerFacts | None
    seen: Seen
    lines: tuple[LineFacts, ...]
    unusable: tuple[Unusable, ...]


def _decision(reader: Reader, value: Any, path: str, counted: int | None) -> DecisionFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    kind = reader.word(entry.get("kind"), f"{path}.kind", DECISIONS)
    accepted, refused, held = (
        reader.whole(entry.get(key), f"{path}.{key}", 0, MAX_CARTONS) for key in ("accepted", "refused", "held")
    )
    if kind is None or accepted is None or refused is None or held is None:
        return None
    if counted is not None and accepted + refused + held != counted:
        reader.refuse(path, "FACT-06", {"sum": accepted + refused + held, "counted": counted})
        return None
    return DecisionFacts(kind, accepted, refused, held)


def _sorted(reader: Reader, value: Any, path: str) -> SortedFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    read = reader.whole(entry.get("read"), f"{path}.read", 1, MAX_CARTONS)
    differ = reader.whole(entry.get("differ"), f"{path}.differ", 0, MAX_CARTONS)
    if read is None or differ is None:
        return None
    if differ > read:
        reader.refuse(f"{path}.differ", "FACT-08", {"differ": differ, "read": read})
        return None
    return SortedFacts(read, differ)


def _left_out(reader: Reader, value: Any, path: str) -> tuple[tuple[str, str], ...]:
    """Checks that the receiver left out, each with the reason; one without a reason does not count."""
    told: list[tuple[str, str]] = []
    for i, one in enumerate(reader.items(value, path) or []):
        entry = reader.record(one, f"{path}[{i}]") or {}
        check = reader.text(entry.get("check"), f"{path}[{i}].check")
        reason = reader.text(entry.get("reason"), f"{path}[{i}].reason")
        if check and reason and check not in [name for name, _ in told]:
            told.append((check, reason))
    return tuple(told)


def _line(reader: Reader, value: Any, path: str) -> LineFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        if value is None:
            reader.refuse(path, "FACT-01", {"expected": "object"})
        return None
    drawn = reader.record(entry.get("sampling"), f"{path}.sampling") or {}
    cartons = reader.items(entry.get("cartons"), f"{path}.cartons") or []
    read = [read_carton(reader, carton, f"{path}.cartons[{i}]") for i, carton in enumerate(cartons)]
    counted = reader.whole(entry.get("cartons_counted"), f"{path}.cartons_counted", 0, MAX_CARTONS)
    return LineFacts(
        id=reader.text(entry.get("id"), f"{path}.id"),
        specification_id=reader.text(entry.get("specification_id"), f"{path}.specification_id"),
        cartons_on_docket=reader.whole(entry.get("cartons_on_docket"), f"{path}.cartons_on_docket", 0, MAX_CARTONS),
        cartons_counted=counted,
        lot=reader.text(entry.get("lot"), f"{path}.lot"),
        plan=reader.text(drawn.get("plan"), f"{path}.sampling.plan") or None,
        planned=reader.whole(drawn.get("n"), f"{path}.sampling.n", 0, MAX_CARTONS),
        acceptance=reader.whole(drawn.get("acceptance"), f"{path}.sampling.acceptance", 0, MAX_CARTONS),
        declined=reader.text(drawn.get("declined"), f"{path}.sampling.declined"),
        sorted_by_label=_sorted(reader, entry.get("sorted"), f"{path}.sorted"),
        left_out=_left_out(reader, entry.get("left_out"), f"{path}.left_out"),
        decision=_decision(reader, entry.get("decision"), f"{path}.decision", counted),
        cartons=tuple(carton for carton in read if carton is not None),
    )


def facts_from_document(document: Any) -> DeliveryFacts:
    """Read a delivery as it was entered; list what cannot be used.

    Parameters
    ----------
    document : dict
        Inspection document, schema 1. Anything else is listed as unusable, never raised.

    Returns
    -------
    DeliveryFacts
        Facts in g, °C, pieces and day numbers.
    """
    reader = Reader()
    entry = reader.record(document, "") or {}
    if not entry and document is None:
        reader.refuse("", "FACT-01", {"expected": "object"})
    vehicle = reader.record(entry.get("vehicle"), "vehicle") or {}
    lines = reader.items(entry.get("lines"), "lines") or []
    read = [_line(reader, line, f"lines[{i}]") for i, line in enumerate(lines)]
    return DeliveryFacts(
        limits_id=reader.text(entry.get("limits_id"), "limits_id"),
        docket_number=reader.text(entry.get("docket_number"), "docket_number"),
        arrived_day=reader.day(entry.get("arrived_at"), "arrived_at"),
        air_thermometer=read_thermometer(reader, vehicle.get("thermometer"), "vehicle.thermometer"),
        seen=read_checks(reader, vehicle, "vehicle", "vehicle"),
        lines=tuple(line for line in read if line is not None),
        unusable=tuple(reader.unusable),
    )
