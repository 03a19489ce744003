"""What is said after a delivery was signed, and what is said beside deliveries."""
from typing import Annotated, Literal

from msgspec import Meta

from inspections.records.shape.parts import (
    Id,
    Moment,
    Named,
    Note,
    Part,
    Reading,
    Receiver,
    Sha256,
    Text,
    Whole,
    written,
)


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


class SetApartOfLine(Part, kw_only=True):
    line_id: Named
    part: Literal["refused", "held"]
    count: Annotated[int, Meta(ge=1, le=5000)]


class SetApartBody(Part, kw_only=True):
    """Refused and held goods: where they stand, who fetched them, who released or refused held ones later, and why."""

    event: Literal["stand", "fetched", "released", "refused"]
    #: When it happened; it may be entered later.
    happened_at: Moment
    cartons: Annotated[list[SetApartOfLine], Meta(min_length=1, max_length=1000)]
    where: Text
    by: Text
    reason: written(Text) = None


class LaterPhoto(Part, kw_only=True):
    id: Id
    sha256: Sha256


class ThawedBody(Part, kw_only=True):
    """A fault that showed when goods of a lot were thawed, days after they were signed for."""

    line_id: Named
    lot: Text
    thawed_at: Moment
    fault: Literal["black_spot", "soft", "smell", "broken", "dried", "short_weight", "size", "foreign", "other"]
    how_many: Literal["few", "half", "most"]
    note: Note
    photos: Annotated[list[LaterPhoto], Meta(max_length=6)]


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


class SetApartAddendum(Addendum, tag_field="kind", tag="set_apart", kw_only=True):
    body: SetApartBody


class ThawedAddendum(Addendum, tag_field="kind", tag="thawed", kw_only=True):
    body: ThawedBody


#: Every kind of addendum that a device may send.
AnyAddendum = PutAwayAddendum | CorrectionAddendum | SetApartAddendum | ThawedAddendum


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
