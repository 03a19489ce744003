"""Work on photos that was given up."""
from typing import Literal, TypedDict

from inspections.describe import Moment, Sha256, Uuid


class ParkedDocket(TypedDict):
    id: Uuid
    docket_number: str


class ParkedJob(TypedDict):
    """A piece of work that was given up; the photo itself is kept as it was taken."""

    id: Uuid
    kind: Literal["analyse_photo", "small_pictures"]
    sha256: Sha256
    reason: str
    parked_at: Moment | None
    deliveries: list[ParkedDocket]


class ParkedAnswer(TypedDict):
    rows: list[ParkedJob]
