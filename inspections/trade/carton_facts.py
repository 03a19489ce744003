"""What was seen and measured in one opened carton, read from the inspection document.

The question: which entries of a carton can be judged, and which cannot be used? Method as in ``facts``, which
reads the delivery around it: each entry becomes a frozen fact or is listed with its path.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .checks import Seen, read_checks
from .entries import Reader
from .quantities import MAX_PIECES

PROBES = ("between_packs", "core", "surface")
ANSWERS = ("agree", "disagree", "unsure")
WEIGHT_KINDS = ("deglazed", "glazed", "unglazed")
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
    production_day: int | None
    frozen_day: int | None
    best_before_day: int | None
    catch_area: str
    shows: tuple[str, ...] | None
    seen: Seen


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
class CartonFacts:
    """One opened carton; temperatures in °C, weights in g; ``seen`` is what its plain checks were answered with."""

    id: str
    position: int | None
    label: LabelFacts | None
    product_c: float | None
    product_typed: tuple[str, str]
    is_sign_sure: bool
    probe: str | None
    thermometer: ThermometerFacts | None
    seen: Seen
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
        production_day=reader.day(entry.get("production_date"), f"{path}.production_date"),
        frozen_day=reader.day(entry.get("frozen_on"), f"{path}.frozen_on"),
        best_before_day=reader.day(entry.get("best_before"), f"{path}.best_before"),
        catch_area=reader.text(entry.get("catch_area"), f"{path}.catch_area"),
        shows=reader.words(entry.get("shows"), f"{path}.shows", PARTICULARS),
        seen=read_checks(reader, entry, path, "label"),
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
    return CartonFacts(
        id=reader.text(entry.get("id"), f"{path}.id"),
        position=reader.whole(entry.get("position"), f"{path}.position", 1, MAX_CARTONS),
        label=_label(reader, entry.get("label"), f"{path}.label"),
        product_c=reader.reading(temperature.get("product"), f"{path}.temperature.product", "product"),
        product_typed=reader.typed(temperature.get("product")),
        is_sign_sure=temperature.get("is_above_zero") is True,
        probe=reader.word(temperature.get("method"), f"{path}.temperature.method", PROBES),
        thermometer=read_thermometer(reader, temperature.get("thermometer"), f"{path}.temperature.thermometer"),
        seen=read_checks(reader, entry, path, "carton"),
        gross_g=reader.reading(weights.get("gross"), f"{path}.weights.gross", "mass"),
        tare_g=reader.reading(weights.get("tare"), f"{path}.weights.tare", "mass"),
        glazed_g=reader.reading(weights.get("glazed"), f"{path}.weights.glazed", "mass"),
        deglazed_g=reader.reading(weights.get("deglazed"), f"{path}.weights.deglazed", "mass"),
        sample=_sample(reader, entry.get("sample"), f"{path}.sample"),
        marks=reader.word(marks.get("answer"), f"{path}.marks.answer", ANSWERS),
    )
