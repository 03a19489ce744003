"""Signed deliveries: the list, and one whole."""
from typing import Any, Literal, TypedDict

from inspections.describe import Moment, Uuid
from inspections.people.answers import Named
from inspections.records.answers.judgement import Difference, Judgement
from inspections.records.answers.limits import Coded, LimitSet, Specification
from inspections.records.answers.photos import DeskPhoto
from inspections.records.answers.words import DeliveryState, Outcome, Suggested
from inspections.records.shape.delivery import InspectionDocument


class LineRow(TypedDict):
    number: int
    specification: str
    suggested: Suggested
    decided: Outcome
    departed_because: str
    accepted: int
    refused: int
    held: int


class DeliveryRow(TypedDict):
    id: Uuid
    site: Named
    supplier: Named
    docket_number: str
    arrived_at: Moment
    signed_at: Moment
    receiver: str
    state: DeliveryState
    is_demo: bool
    differs: bool
    lines: list[LineRow]


class DeliveryPage(TypedDict):
    page: int
    pages: int
    count: int
    rows: list[DeliveryRow]


class OrderOfDelivery(TypedDict):
    id: Uuid
    number: str


class SiteWithClock(Named):
    timezone: str


class DeskAddendum(TypedDict):
    id: Uuid
    kind: Literal["put_away", "correction", "set_apart", "thawed"]
    at: Moment
    person: str
    body: dict[str, Any]


class DeliveryDetail(TypedDict):
    id: Uuid
    site: SiteWithClock
    supplier: Named
    docket_number: str
    arrived_at: Moment
    signed_at: Moment
    receiver: str
    state: DeliveryState
    is_demo: bool
    differs: bool
    lines: list[LineRow]
    order: OrderOfDelivery | None
    document: InspectionDocument
    judgement: Judgement
    #: Null: phone and server agree.
    difference: list[Difference] | None
    #: What did not go together at signing: moments, or the receiver's name.
    noticed: list[Coded]
    specifications: list[Specification]
    limit_set: LimitSet
    photos: list[DeskPhoto]
    addenda: list[DeskAddendum]
