"""What signed deliveries come to under other limits."""
from typing import TypedDict

from inspections.describe import Moment, Uuid
from inspections.records.answers.words import Suggested


class TrialMissed(TypedDict):
    """Bad cartons taken unopened, estimated, with the ends of Wilson's interval (95 %)."""

    about: float
    low: float
    high: float
    closed: int


class TrialSide(TypedDict):
    """Lines by suggestion, and cartons, under one set."""

    suggestions: dict[str, int]
    refused: int
    held: int
    opened: int
    bad: int
    known_bad: int
    known_caught: int
    missed: TrialMissed | None


class TrialChange(TypedDict):
    """A line that would have come to something else."""

    delivery_id: Uuid
    docket_number: str
    arrived_at: Moment
    line: int
    before: Suggested
    after: Suggested
    refused_before: int
    refused_after: int


class Trial(TypedDict):
    """What signed deliveries come to under their own limits and plan, and under those tried."""

    deliveries: int
    lines: int
    not_told: int
    before: TrialSide
    after: TrialSide
    changed: list[TrialChange]
    changed_count: int
