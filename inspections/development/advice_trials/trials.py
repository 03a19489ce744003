"""Run the advice over labelled photos, and over painted copies of the sound ones."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from imaging.advice import Context, advise
from imaging.decode import SENTENCES, UnreadablePhoto, encode_jpeg, read_photo
from inspections.development.advice_trials.labels import LabelledPhoto
from inspections.development.advice_trials.painted import painted

SOUND = ("none", "naturally-dark")
_COPIES = 3  # painted, of each sound photo that the method can read
_HIT = 2.5  # radii of the disc that a frame's middle may lie from the true place


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the advice said of one photo; `problem` is the sentence where it could not be read.

    `figure` is 0 where no piece was found. `is_framed` is None where the true place is not known.
    """

    name: str
    label: str
    source: str
    kind: str
    figure: float = 0.0
    would_say: str = "cannot_tell"
    is_clear: bool = False
    is_framed: bool | None = None
    milliseconds: float = 0.0
    problem: str = ""


def outcomes(photos: Iterable[LabelledPhoto]) -> Iterator[Outcome]:
    """One outcome a photo, and after a sound one those of its painted copies, labelled painted."""
    for photo in photos:
        data = photo.path.read_bytes()
        one = _outcome(data, photo, photo.label, photo.place)
        yield one
        if photo.label in SOUND and one.is_clear:
            yield from _painted(data, photo)


def _painted(data: bytes, photo: LabelledPhoto) -> Iterator[Outcome]:
    chance = np.random.default_rng([ord(letter) for letter in photo.path.name])
    pixels = read_photo(data).pixels
    for _ in range(_COPIES):
        made = painted(pixels, chance)
        if made is not None:
            yield _outcome(encode_jpeg(made[0], 92), photo, "painted", made[1])


def _outcome(data: bytes, photo: LabelledPhoto, label: str, place: tuple[float, float] | None) -> Outcome:
    told = (photo.path.name, label, photo.source, photo.kind)
    advice = advise(data, Context("", photo.presentation, "cooked" if photo.kind == "cooked" else "raw"))
    unread = [reason["text"] for reason in advice["reasons"] if reason["code"] in SENTENCES]
    if unread:
        return Outcome(*told, problem=unread[0])
    return Outcome(
        *told, advice["figure"] or 0.0, advice["would_say"], advice["is_clear"],
        None if place is None else _is_framed(data, advice["frames"], place), advice["timing_ms"],
    )  # fmt: skip


def _is_framed(data: bytes, frames: list[dict[str, Any]], place: tuple[float, float]) -> bool:
    try:
        rows, cols = read_photo(data).pixels.shape[:2]
    except UnreadablePhoto:
        return False
    x, y = place[0], place[1] * rows / cols  # frames are told in widths
    return any(np.hypot(one["x"] - x, one["y"] - y) <= _HIT * one["radius"] for one in frames)
