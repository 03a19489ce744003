"""Photos and the advice on them."""
from typing import Any, NotRequired, TypedDict

from inspections.describe import Moment, Sha256, Uuid
from inspections.records.answers.limits import Coded
from inspections.records.answers.words import AdviceAnswer


class Mean(TypedDict):
    mean: float
    pieces: int


class AdvicePictures(TypedDict, total=False):
    overlay: str | None
    histogram: str | None
    thumb: str


class Advice(AdvicePictures):
    """What the photo advisory says; ``share`` (0 to 1) is of methods that gave a share of the surface."""

    answer: AdviceAnswer
    frames: list[Any]
    reasons: list[Coded]
    method_version: NotRequired[str | None]
    pieces: NotRequired[int | None]
    dark_pieces: NotRequired[int | None]
    at_head: NotRequired[int | None]
    length_mm: NotRequired[Mean | None]
    share: NotRequired[float | None]
    share_low: NotRequired[float | None]
    share_high: NotRequired[float | None]
    where: NotRequired[list[str]]


class EarlierAdvice(TypedDict):
    """An answer that a later one stands beside."""

    id: Uuid
    method_version: str
    answer: AdviceAnswer
    share: float | None
    share_low: float | None
    share_high: float | None
    pieces: int | None
    dark_pieces: int | None
    at: Moment
    overlay: str | None


class DeskPhoto(TypedDict):
    """A photo of a delivery; ``unreadable`` says why nothing can be shown, ``earlier`` is newest first."""

    id: str
    sha256: Sha256
    purpose: str
    line_id: str | None
    carton_id: str | None
    taken_at: str | None
    is_stored: bool
    unreadable: str | None
    advice: Advice | None
    earlier: list[EarlierAdvice]
