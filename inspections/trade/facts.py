"""What was seen and measured, read from the inspection document.

The question: which entries can be judged, and which cannot be used? Method: walk the document once,
turn each entry into a frozen fact, and list every entry that cannot be used with its path instead of
stopping. An absent key or null stays None: not checked, never zero (CV-0-06).

Codes of unusable entries: ``entries``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .entries import Reader, Unusable
from .quantities import MAX_PIECES

LINERS = ("closed", "open", "torn", "missing")
FROSTS = ("none", "some", "heavy")
REFREEZING_SIGNS = ("ice_pool", "deformed", "clumped")
PROBES = ("between_packs", "core", "surface")
ODOURS = ("sound", "slight", "off", "chemical")
FOREIGN = ("none", "harmless", "hazard")
LOADS = ("sound", "shifted", "wet", "mixed", "dirty")
DECISIONS = ("accept", "accept_with_allowance", "hold", "reject")
SCORES = (0, 2, 4, 6, 8, 10)
ANSWERS = ("agree", "disagree", "unsure")
WEIGHT_KINDS = ("deglazed", "glazed", "unglazed")
PRESENTATIONS = ("HOSO", "HLSO", "EZP", "PTO", "PDTO", "PUD", "PD", "BTTY", "PPV")
STATES = ("raw", "part_cooked", "cooked")
METHODS = ("farmed", "caught", "caught_freshwater")
PIECE_KINDS = (
    "black_spot",
    "black_spot_wide",
    "black_spot_meat",
    "dehydrated",
    "broken",
    "soft",
    "heads",
    "legs",
    "tails",
)
PARTICULARS = (
    "name",
    "scientific_name",
    "method",
    "area",
    "gear",
    "state",
    "net_weight",
    "lot",
    "date",
    "storage",
    "crustacean",
    "sulphites",
    "producer",
    "approval",
    "origin",
)
MAX_CARTONS = 5000


@dataclass(frozen=True)
class LabelFacts:
    """What a label states; empty text where it states nothing, None where it was not looked for."""

    scan: str
    species_code: str
    scientific_name: str
    presentation: str | None
    state: str | None
    grade: str
    net_g: float | None
    lot: str
    production_day: int | None
    frozen_day: int | None
    best_before_day: int | None
    origin: str
    catch_area: str
    method: str | None
    shows: tuple[str, ...] | None


@dataclass(frozen=True)
class SampleFacts:
    """A counted and weighed sample; weights in g."""

    pieces: int | None
    weight_g: float | None
    weight_is: str | None
    largest_g: float | None
    smallest_g: float | None


@dataclass(frozen=True)
class CartonFacts:
    """One opened carton; temperatures in °C, weights in g, pieces as counted."""

    id: str
    position: int | None
    label: LabelFacts | None
    liner: str | None
    frost: str | None
    refreezing: tuple[str, ...] | None
    product_c: float | None
    probe: str | None
    looked_at: int | None
    pieces: dict[str, int]
    black_spot_score: int | None
    odour: str | None
    foreign_matter: str | None
    gross_g: float | None
    tare_g: float | None
    glazed_g: float | None
    deglazed_g: float | None
    sample: SampleFacts | None
    marks: str | None


@dataclass(frozen=True)
class DecisionFacts:
    """What the receiver decided, in cartons; accepted + refused + held = cartons counted (CV-12-42)."""

    kind: str
    accepted: int
    refused: int
    held: int


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
    decision: DecisionFacts | None
    cartons: tuple[CartonFacts, ...]


@dataclass(frozen=True)
class DeliveryFacts:
    """One delivery: the vehicle, its lines, and every entry that could not be used."""

    limits_id: str
    docket_number: str
    arrived_day: int | None
    air_c: float | None
    load: str | None
    lines: tuple[LineFacts, ...]
    unusable: tuple[Unusable, ...]


def _label(reader: Reader, value: Any, path: str) -> LabelFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    return LabelFacts(
        scan=reader.text(entry.get("scan"), f"{path}.scan"),
        species_code=reader.text(entry.get("species_code"), f"{path}.species_code"),
        scientific_name=reader.text(entry.get("scientific_name"), f"{path}.scientific_name"),
        presentation=reader.word(entry.get("presentation"), f"{path}.presentation", PRESENTATIONS),
        state=reader.word(entry.get("state"), f"{path}.state", STATES),
        grade=reader.text(entry.get("grade"), f"{path}.grade"),
        net_g=reader.reading(entry.get("net"), f"{path}.net", "mass"),
        lot=reader.text(entry.get("lot"), f"{path}.lot"),
        production_day=reader.day(entry.get("production_date"), f"{path}.production_date"),
        frozen_day=reader.day(entry.get("frozen_on"), f"{path}.frozen_on"),
        best_before_day=reader.day(entry.get("best_before"), f"{path}.best_before"),
        origin=reader.text(entry.get("origin"), f"{path}.origin"),
        catch_area=reader.text(entry.get("catch_area"), f"{path}.catch_area"),
        method=reader.word(entry.get("method"), f"{path}.method", METHODS),
        shows=reader.words(entry.get("shows"), f"{path}.shows", PARTICULARS),
    )


def _sample(reader: Reader, value: Any, path: str) -> SampleFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    largest_g = reader.reading(entry.get("largest"), f"{path}.largest", "mass")
    smallest_g = reader.reading(entry.get("smallest"), f"{path}.smallest", "mass")
    if largest_g is not None and smallest_g is not None and largest_g < smallest_g:
        reader.refuse(f"{path}.largest", "COUNT-02", {"largest_g": largest_g, "smallest_g": smallest_g})
        largest_g = smallest_g = None
    return SampleFacts(
        pieces=reader.whole(entry.get("pieces"), f"{path}.pieces", 1, MAX_PIECES),
        weight_g=reader.reading(entry.get("weight"), f"{path}.weight", "mass"),
        weight_is=reader.word(entry.get("weight_is"), f"{path}.weight_is", WEIGHT_KINDS),
        largest_g=largest_g,
        smallest_g=smallest_g,
    )


def _pieces(reader: Reader, value: Any, path: str, looked_at: int | None) -> dict[str, int]:
    entry = reader.record(value, path)
    counted: dict[str, int] = {}
    for kind in PIECE_KINDS if entry is not None else ():
        number = reader.whole(entry.get(kind), f"{path}.{kind}", 0, MAX_PIECES)
        if number is None:
            continue
        if looked_at is not None and number > looked_at:
            reader.refuse(f"{path}.{kind}", "FACT-04", {"counted": number, "looked_at": looked_at})
            continue
        counted[kind] = number
    return counted


def _score(reader: Reader, value: Any, path: str) -> int | None:
    score = reader.whole(value, path, 0, 10)
    if score is not None and score not in SCORES:
        reader.refuse(path, "FACT-02", {"known": list(SCORES)})
        return None
    return score


def _carton(reader: Reader, value: Any, path: str) -> CartonFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        if value is None:
            reader.refuse(path, "FACT-01", {"expected": "object"})
        return None
    temperature = reader.record(entry.get("temperature"), f"{path}.temperature") or {}
    weights = reader.record(entry.get("weights"), f"{path}.weights") or {}
    marks = reader.record(entry.get("marks"), f"{path}.marks") or {}
    looked_at = reader.whole(entry.get("looked_at"), f"{path}.looked_at", 1, MAX_PIECES)
    return CartonFacts(
        id=reader.text(entry.get("id"), f"{path}.id"),
        position=reader.whole(entry.get("position"), f"{path}.position", 1, MAX_CARTONS),
        label=_label(reader, entry.get("label"), f"{path}.label"),
        liner=reader.word(entry.get("liner"), f"{path}.liner", LINERS),
        frost=reader.word(entry.get("frost"), f"{path}.frost", FROSTS),
        refreezing=reader.words(entry.get("refreezing"), f"{path}.refreezing", REFREEZING_SIGNS),
        product_c=reader.reading(temperature.get("product"), f"{path}.temperature.product", "product"),
        probe=reader.word(temperature.get("method"), f"{path}.temperature.method", PROBES),
        looked_at=looked_at,
        pieces=_pieces(reader, entry.get("pieces"), f"{path}.pieces", looked_at),
        black_spot_score=_score(reader, entry.get("black_spot_score"), f"{path}.black_spot_score"),
        odour=reader.word(entry.get("odour"), f"{path}.odour", ODOURS),
        foreign_matter=reader.word(entry.get("foreign_matter"), f"{path}.foreign_matter", FOREIGN),
        gross_g=reader.reading(weights.get("gross"), f"{path}.weights.gross", "mass"),
        tare_g=reader.reading(weights.get("tare"), f"{path}.weights.tare", "mass"),
        glazed_g=reader.reading(weights.get("glazed"), f"{path}.weights.glazed", "mass"),
        deglazed_g=reader.reading(weights.get("deglazed"), f"{path}.weights.deglazed", "mass"),
        sample=_sample(reader, entry.get("sample"), f"{path}.sample"),
        marks=reader.word(marks.get("answer"), f"{path}.marks.answer", ANSWERS),
    )


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


def _line(reader: Reader, value: Any, path: str) -> LineFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        if value is None:
            reader.refuse(path, "FACT-01", {"expected": "object"})
        return None
    drawn = reader.record(entry.get("sampling"), f"{path}.sampling") or {}
    cartons = reader.items(entry.get("cartons"), f"{path}.cartons") or []
    read = [_carton(reader, carton, f"{path}.cartons[{i}]") for i, carton in enumerate(cartons)]
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
        air_c=reader.reading(vehicle.get("air"), "vehicle.air", "air"),
        load=reader.word(vehicle.get("load"), "vehicle.load", LOADS),
        lines=tuple(line for line in read if line is not None),
        unusable=tuple(reader.unusable),
    )
