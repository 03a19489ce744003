"""What is said after a delivery was signed, and what is said beside deliveries."""
from typing import Annotated

from msgspec import Meta

from inspections.records.shape.parts import Id, Moment, Named, Note, Part, Reading, Receiver, Text, Whole, written


class PutAwayOfLine(Part, kw_only=True):
    line_id: Named
    count: Annotated[int, Meta(ge=1, le=5000)]
    freezer_id: written(Named, always=True) = None
    position: written(Text, always=True) = None
    liner_closed: written(bool, always=True) = None
    out_at: written(Moment, always=True) = None
    in_at: written(Moment, always=True) = None


class PutAwayBody(Part, kw_only=True):
    cartons: written(Annotated[list[PutAwayOfLine], Meta(max_length=1000)], always=True) = None
    freezer_air: Reading | None = None


class CorrectionBody(Part, kw_only=True):
    text: Note
    reason: written(Note, always=True) = None


class Addendum(Part, kw_only=True):
    id: Id
    delivery_id: Id
    at: Moment
    person: written(Receiver, always=True) = None
    device_id: Id


class PutAwayAddendum(Addendum, tag_field="kind", tag="put_away", kw_only=True):
    body: PutAwayBody


class CorrectionAddendum(Addendum, tag_field="kind", tag="correction", kw_only=True):
    body: CorrectionBody


class CheckedBy(Part, kw_only=True):
    """Who held the thermometer in ice; a name may be typed by a guest of the kitchen."""

    person_id: Whole | None = None
    name: Annotated[str, Meta(min_length=1, max_length=120)]


class IceCheck(Part, kw_only=True):
    id: Id
    thermometer_id: Id
    #: With this place's offset; its calendar gives the day.
    at: Moment
    reading: Reading
    person: CheckedBy
    device_id: Id
