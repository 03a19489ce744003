"""What was seen and measured in one opened carton, read from the inspection document.

The question: which entries of a carton can be judged, and which cannot be used? Method as in ``facts``, which
reads the delivery around it: each entry becomes a frozen fact or is listed with its path.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .entries import Reader
from .quantities import MAX_PIECES

LINERS = ("closed", "open", "torn", "missing")
FROSTS = ("none", "some", "heavy")
REFREEZING_SIGNS = ("ice_pool", "deformed", "clumped")
PROBES = ("between_packs", "core", "surface")
ODOURS = ("sound", "slight", "off", "chemical")
ODOUR_TAKEN = ("frozen", "thawed")
FOREIGN = ("none", "harmless", "hazard")
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
class ThermometerFacts:
    """How a thermometer stood when a reading was taken; days as numbers, ice point in °C."""

    name: str
    checked_day: int | None
    ice_c: float | None
    due_day: int | None


@dataclass(frozen=True)
class DryingFacts:
    """Deep drying as CXS 92-1981 words it: weights in g, surface of a block as a share 0 to 1."""

    dried_g: float | None
    of_g: float | None
    block_share: float | None


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
    product_typed: tuple[str, str]
    is_sign_sure: bool
    probe: str | None
    thermometer: ThermometerFacts | None
    looked_at: int | None
    pieces: dict[str, int]
    drying: DryingFacts | None
    black_spot_score: int | None
    odour: str | None
    odour_taken: str | None
    foreign_matter: str | None
    gross_g: float | None
    tare_g: float | None
    glazed_g: float | None
    deglazed_g: float | None
    sample: SampleFacts | None
    marks: str | None


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


def read_thermometer(reader: Reader, value: Any, path: str) -> ThermometerFacts | None:
    """The standing of a thermometer as it was kept with a reading, or None."""
    entry = reader.record(value, path)
    if entry is None:
        return None
    return ThermometerFacts(
        name=reader.text(entry.get("name"), f"{path}.name"),
        checked_day=reader.day(entry.get("checked_at"), f"{path}.checked_at"),
        ice_c=reader.reading(entry.get("ice_point"), f"{path}.ice_point", "ice"),
        due_day=reader.day(entry.get("due_at"), f"{path}.due_at"),
    )


def _drying(reader: Reader, value: Any, path: str) -> DryingFacts | None:
    entry = reader.record(value, path)
    if entry is None:
        return None
    dried_g = reader.reading(entry.get("dried"), f"{path}.dried", "mass_or_zero")
    of_g = reader.reading(entry.get("of"), f"{path}.of", "mass")
    if dried_g is not None and of_g is not None and dried_g > of_g:
        reader.refuse(f"{path}.dried", "FACT-07", {"dried_g": dried_g, "of_g": of_g})
        dried_g = None
    percent = reader.reading(entry.get("block_surface"), f"{path}.block_surface", "percent")
    return DryingFacts(dried_g, of_g, None if percent is None else percent / 100.0)


def read_carton(reader: Reader, value: Any, path: str) -> CartonFacts | None:
    """One opened carton; None (and listed) when the entry is none."""
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
        product_typed=reader.typed(temperature.get("product")),
        is_sign_sure=temperature.get("is_above_zero") is True,
        probe=reader.word(temperature.get("method"), f"{path}.temperature.method", PROBES),
        thermometer=read_thermometer(reader, temperature.get("thermometer"), f"{path}.temperature.thermometer"),
        looked_at=looked_at,
        pieces=_pieces(reader, entry.get("pieces"), f"{path}.pieces", looked_at),
        drying=_drying(reader, entry.get("dehydration"), f"{path}.dehydration"),
        black_spot_score=_score(reader, entry.get("black_spot_score"), f"{path}.black_spot_score"),
        odour=reader.word(entry.get("odour"), f"{path}.odour", ODOURS),
        odour_taken=reader.word(entry.get("odour_taken"), f"{path}.odour_taken", ODOUR_TAKEN),
        foreign_matter=reader.word(entry.get("foreign_matter"), f"{path}.foreign_matter", FOREIGN),
        gross_g=reader.reading(weights.get("gross"), f"{path}.weights.gross", "mass"),
        tare_g=reader.reading(weights.get("tare"), f"{path}.weights.tare", "mass"),
        glazed_g=reader.reading(weights.get("glazed"), f"{path}.weights.glazed", "mass"),
        deglazed_g=reader.reading(weights.get("deglazed"), f"{path}.weights.deglazed", "mass"),
        sample=_sample(reader, entry.get("sample"), f"{path}.sample"),
        marks=reader.word(marks.get("answer"), f"{path}.marks.answer", ANSWERS),
    )
