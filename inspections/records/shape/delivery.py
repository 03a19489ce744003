"""One delivery under one docket (schema 1): what is around the cartons."""
from typing import Annotated, Any, Literal

from msgspec import Meta

from inspections.records.shape.carton import Carton
from inspections.records.shape.parts import (
    Docket,
    Id,
    Moment,
    Named,
    Note,
    Number,
    Part,
    Receiver,
    Sha256,
    Text,
    ThermometerSnapshot,
    Whole,
    word,
    written,
)
from inspections.records.shape.plain import answers
from inspections.trade.facts import DECISIONS
from inspections.trade.sampling import PLAN_NAMES

SCHEMA = 1
MOST_LINES, MOST_CARTONS, MOST_PHOTOS = 200, 500, 500
PlanName = Annotated[str, word("PlanName", PLAN_NAMES)]
DecisionKind = Annotated[str, word("DecisionKind", DECISIONS)]
GateVerdict = Annotated[str, word("GateVerdict", ("usable", "blurred", "dark", "glared", "small", "empty"))]
#: Photos are filed by it, so it has to be known.
PhotoPurpose = Literal["load", "docket", "label", "top", "under_liner", "sample", "defect", "temperature", "signature"]


class Vehicle(answers("vehicle"), kw_only=True):
    thermometer_id: Named | None = None
    thermometer: ThermometerSnapshot | None = None
    seal_number: written(Text) = None
    note: written(Note) = None


class SamplingDrawn(Part, kw_only=True):
    plan: PlanName
    layers: written(Whole) = None
    seed: Text
    n: Whole
    acceptance: Whole
    positions: Annotated[list[Whole], Meta(max_length=5000)]
    #: Positions of the second stage, drawn by the same seed from what was not opened yet.
    more: written(Annotated[list[Whole], Meta(max_length=5000)]) = None
    #: Why no more cartons are opened and no more labels read.
    declined: written(Note) = None


class Sorted(Part, kw_only=True):
    """A load sorted by its labels: labels read in all, and how many of those cartons differ."""

    read: Whole
    differ: Whole


class LeftOut(Part, kw_only=True):
    """A check that the line must have and the receiver left out, with the reason."""

    check: Text
    reason: Note


class Decision(Part, kw_only=True):
    kind: DecisionKind
    accepted: Whole
    refused: Whole
    held: Whole
    reason: written(Note) = None
    decided_at: written(Moment, always=True) = None


#: The phone's own judgement. It is compared with the server's and read no further, so any JSON is kept.
Suggested = Annotated[dict[str, Any], Meta(extra_json_schema={"x-type": "LineVerdict"})]


class Line(Part, kw_only=True):
    id: Id
    order_line_id: Named | None = None
    specification_id: Named
    cartons_on_docket: Whole | None = None
    cartons_counted: Whole | None = None
    lot: written(Text) = None
    sampling: SamplingDrawn | None = None
    cartons: written(Annotated[list[Carton], Meta(max_length=MOST_CARTONS)]) = None
    sorted: Sorted | None = None
    left_out: written(Annotated[list[LeftOut], Meta(max_length=200)]) = None
    suggested: Suggested | None = None
    decision: Decision | None = None


class Gate(Part, kw_only=True):
    """What the phone measured of a photo before it kept it."""

    sharpness: Number
    exposure: Number
    glare: Number
    texture: written(Number, always=True) = None
    verdict: GateVerdict


class Photo(Part, kw_only=True):
    id: Id
    sha256: Sha256
    bytes: written(Whole, always=True) = None
    type: written(Text, always=True) = None
    purpose: PhotoPurpose
    line_id: Id | None = None
    carton_id: Id | None = None
    taken_at: written(Moment, always=True) = None
    gate: written(Gate, always=True) = None


#: [x, y, t]; x and y 0 to 1 of the pad's box, t in ms.
Point = tuple[Number, Number, Number]
Stroke = Annotated[list[Point], Meta(max_length=20_000)]
Strokes = Annotated[list[Stroke], Meta(max_length=500)]


class Signature(Part, kw_only=True):
    name: Text
    strokes: Strokes
    at: Moment


class Driver(Part, kw_only=True):
    """The driver's signature and own words, or that the driver would not sign and what was said."""

    name: Text | None = None
    strokes: Strokes | None = None
    words: written(Note) = None
    refused: bool | None = None
    reason: written(Note) = None
    at: Moment | None = None

    @property
    def has_declined(self) -> bool:
        return bool(self.refused and (self.reason or "").strip())


class Signatures(Part, kw_only=True):
    receiver: written(Signature, always=True) = None
    driver: written(Driver, always=True) = None


class Wording(Part, kw_only=True):
    text: Annotated[str, Meta(max_length=200_000)]
    copied_at: written(Moment, always=True) = None


class InspectionDocument(Part, kw_only=True):
    schema: Literal[1]
    id: Id
    site_id: Id
    #: Empty until a supplier is chosen; the server files nothing without one.
    supplier_id: Named
    order_id: Named | None = None
    limits_id: written(Named, always=True) = None
    docket_number: written(Docket, always=True) = None
    arrived_at: written(Moment, always=True) = None
    receiver: written(Receiver, always=True) = None
    device_id: Id
    separate_from: Id | None = None
    vehicle: written(Vehicle) = None
    lines: Annotated[list[Line], Meta(max_length=MOST_LINES)]
    photos: Annotated[list[Photo], Meta(max_length=MOST_PHOTOS)]
    wording: Wording | None = None
    signatures: Signatures | None = None
    notes: written(Note) = None
