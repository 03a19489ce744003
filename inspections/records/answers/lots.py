"""Where a lot went."""
from typing import Literal, TypedDict

from inspections.describe import Moment, Uuid
from inspections.people.answers import Named
from inspections.records.answers.words import Outcome


class LotLabel(TypedDict):
    position: int | None
    best_before: str
    production_date: str


class LotPutAway(TypedDict):
    count: int
    freezer: str
    position: str
    in_at: Moment | None
    by: str


class LotSetApart(TypedDict):
    """Where refused or held cartons stand, or who fetched them; ``at`` as it was entered."""

    count: int
    part: Literal["refused", "held"]
    event: Literal["stand", "fetched"]
    where: str
    by: str
    at: str


class LotRow(TypedDict):
    """A docket line that names a lot on its docket or on labels of its opened cartons."""

    lot: str
    is_on_docket: bool
    site: Named
    supplier: Named
    delivery_id: Uuid
    docket_number: str
    line: int
    order: str | None
    arrived_at: Moment
    timezone: str
    specification: str
    decided: Outcome
    cartons: int
    accepted: int
    refused: int
    held: int
    opened: int
    labels: list[LotLabel]
    signed_by: str
    signed_at: Moment
    put_away: list[LotPutAway]
    not_put_away: int
    set_apart: list[LotSetApart]
    is_demo: bool


class LotsAnswer(TypedDict):
    count: int
    most: int
    rows: list[LotRow]
