"""Thermometers and their checks in ice."""
from typing import TypedDict

from inspections.describe import Day, Moment, Uuid
from inspections.records.shape.parts import Reading


class ThermometerRow(TypedDict):
    """A site's thermometer with its last check in crushed ice; no moment for one that was only noted by its day."""

    id: Uuid
    site_id: Uuid
    name: str
    accuracy_c: float
    last_checked_on: Day | None
    last_check_c: float | None
    check_due_on: Day | None
    last_checked_at: Moment | None
    in_use: bool


class IceCheckRow(TypedDict):
    """A check in ice, as filed from a phone."""

    id: Uuid
    thermometer_id: Uuid
    at: Moment
    day: Day
    reading: Reading
    reading_c: float
    allowed_c: float
    passed: bool
    due_on: Day
    done_by: str
    sent_by: str


class SiteNamed(TypedDict):
    id: Uuid
    name: str


class ThermometerHere(ThermometerRow):
    site: SiteNamed
    #: By the site's clock.
    today: Day
    #: The newest that were filed, newest first.
    checks: list[IceCheckRow]


class ThermometersAnswer(TypedDict):
    allowed_c: float
    rows: list[ThermometerHere]
