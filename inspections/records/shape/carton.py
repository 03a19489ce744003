"""One opened carton: the fields of the checks. Their words stand in ``trade``."""
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
from inspections.trade import carton_facts as known

Liner = Annotated[str, word("Liner", known.LINERS)]
Frost = Annotated[str, word("Frost", known.FROSTS)]
RefreezingSign = Annotated[str, word("RefreezingSign", known.REFREEZING_SIGNS)]
ProbeMethod = Annotated[str, word("ProbeMethod", known.PROBES)]
Odour = Annotated[str, word("Odour", known.ODOURS)]
ForeignMatter = Annotated[str, word("ForeignMatter", known.FOREIGN)]
Presentation = Annotated[str, word("Presentation", known.PRESENTATIONS, or_empty=True)]
State = Annotated[str, word("State", known.STATES, or_empty=True)]
Method = Annotated[str, word("Method", known.METHODS, or_empty=True)]
Particular = Annotated[str, word("Particular", known.PARTICULARS)]
Answer = Annotated[str, word("Answer", known.ANSWERS)]
WeightIs = Annotated[str, word("WeightIs", known.WEIGHT_KINDS)]
Source = Annotated[str, word("Source", ("scan", "typed"))]


class Label(Part, kw_only=True):
    """What stands on the label; empty where it states nothing, absent where it was not looked for."""

    source: Source
    scan: written(Note) = None
    species_code: written(Text) = None
    scientific_name: written(Text) = None
    presentation: written(Presentation) = None
    state: written(State) = None
    grade: written(Text) = None
    net: Reading | None = None
    lot: written(Text) = None
    production_date: written(Text) = None
    frozen_on: written(Text) = None
    best_before: written(Text) = None
    origin: written(Text) = None
    catch_area: written(Text) = None
    method: written(Method) = None
    shows: written(Annotated[list[Particular], Meta(max_length=100)]) = None


class Temperature(Part, kw_only=True):
    product: Reading
    method: ProbeMethod
    thermometer_id: Named | None = None
    thermometer: ThermometerSnapshot | None = None


class Pieces(Part, kw_only=True):
    """Prawns with a fault, of those looked at."""

    black_spot: Whole | None = None
    black_spot_wide: Whole | None = None
    black_spot_meat: Whole | None = None
    dehydrated: Whole | None = None
    broken: Whole | None = None
    soft: Whole | None = None
    heads: Whole | None = None
    legs: Whole | None = None
    tails: Whole | None = None


class Dehydration(Part, kw_only=True):
    """Deep drying as CXS 92-1981 words it: by weight of the prawns looked at, or by the surface of a block."""

    dried: Reading | None = None
    of: Reading | None = None
    block_surface: Reading | None = None


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


class Carton(Part, kw_only=True):
    id: Id
    position: Whole | None = None
    opened_at: written(Moment) = None
    label: Label | None = None
    liner: Liner | None = None
    frost: Frost | None = None
    refreezing: Annotated[list[RefreezingSign], Meta(max_length=20)] | None = None
    temperature: Temperature | None = None
    looked_at: Whole | None = None
    pieces: written(Pieces) = None
    dehydration: Dehydration | None = None
    #: Published 0 to 10 visual scale, even steps (see melanosis.json).
    black_spot_score: Whole | None = None
    odour: Odour | None = None
    foreign_matter: ForeignMatter | None = None
    foreign_note: written(Note) = None
    weights: written(Weights) = None
    sample: Sample | None = None
    marks: Marks | None = None
    note: written(Note) = None
