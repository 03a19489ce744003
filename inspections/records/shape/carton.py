"""One opened carton: the plain checks come from the registry, the rest stands here. Their words are in ``trade``."""
from typing import Annotated

from msgspec import Meta

from inspections.records.shape.parts import (
    Id,
    Moment,
    Named,
    Note,
    Part,
    Reading,
    Text,
    ThermometerSnapshot,
    Whole,
    word,
    written,
)
from inspections.records.shape.plain import answers
from inspections.trade import carton_facts as known

ProbeMethod = Annotated[str, word("ProbeMethod", known.PROBES)]
Particular = Annotated[str, word("Particular", known.PARTICULARS)]
Answer = Annotated[str, word("Answer", known.ANSWERS)]
WeightIs = Annotated[str, word("WeightIs", known.WEIGHT_KINDS)]
Source = Annotated[str, word("Source", ("scan", "typed"))]


class Label(answers("label"), kw_only=True):
    """What stands on the label; empty where it states nothing, absent where it was not looked for."""

    source: Source
    scan: written(Note) = None
    species_code: written(Text) = None
    scientific_name: written(Text) = None
    production_date: written(Text) = None
    frozen_on: written(Text) = None
    best_before: written(Text) = None
    catch_area: written(Text) = None
    shows: written(Annotated[list[Particular], Meta(max_length=100)]) = None


class Temperature(Part, kw_only=True):
    product: Reading
    method: ProbeMethod
    #: The receiver says that a reading above zero is one, and no minus was left out.
    is_above_zero: written(bool) = None
    thermometer_id: Named | None = None
    thermometer: ThermometerSnapshot | None = None


class Weights(Part, kw_only=True):
    gross: Reading | None = None
    tare: Reading | None = None
    glazed: Reading | None = None
    deglazed: Reading | None = None


class Sample(Part, kw_only=True):
    pieces: Whole | None
    weight: Reading | None
    weight_is: WeightIs
    largest: Reading | None = None
    smallest: Reading | None = None


class Marks(Part, kw_only=True):
    answer: Answer
    seen: written(Annotated[dict[Annotated[str, Meta(max_length=80)], bool], Meta(max_length=200)]) = None


class Carton(answers("carton"), kw_only=True):
    id: Id
    position: Whole | None = None
    opened_at: written(Moment) = None
    label: Label | None = None
    temperature: Temperature | None = None
    weights: written(Weights) = None
    sample: Sample | None = None
    marks: Marks | None = None
    note: written(Note) = None
