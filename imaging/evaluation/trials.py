"""Run the advisory over pictures with a known answer, one or several at a time.

Method: a trial knows how to get its picture (read a file, draw a scene) and what is known of it; each outcome keeps
the answer, the share and the time of the advisory alone. A picture that can't be read is an outcome with its sentence,
not a stop. With workers, each is a process of its own.
"""

import multiprocessing
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol

from .labels import LabelledPhoto

ANSWERS = ("darkening_seen", "none_seen", "cannot_tell")


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture and what is known of it.

    Attributes
    ----------
    data : bytes
    name : str
    label : str
        dark, clean or not_prawn.
    species, presentation, state : str
        As the advisory is told them.
    truth_share : float or None
    group : str
        Free word for grouping, such as the lamp.
    has_card : bool or None
        Whether the reference card was laid in; None when not known.
    """

    data: bytes
    name: str
    label: str
    species: str
    presentation: str
    state: str
    truth_share: float | None = None
    group: str = ""
    has_card: bool | None = None


class Trial(Protocol):
    """Something that can get its picture; it must be able to travel to another process."""

    name: str

    def picture(self) -> Picture:
        """Read or draw it; raises OSError when it can't be read."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the advisory said of one picture; ``answer`` is empty and ``problem`` a sentence when it said nothing."""

    name: str
    label: str
    species: str
    group: str
    truth_share: float | None
    answer: str
    share: float | None
    low: float | None
    high: float | None
    card_used: bool
    seconds: float
    problem: str
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PhotoTrial:
    """A labelled photo of a folder."""

    photo: LabelledPhoto

    @property
    def name(self) -> str:
        """File name."""
        return self.photo.path.name

    def picture(self) -> Picture:
        """Read the file."""
        photo = self.photo
        state = "cooked" if photo.is_cooked else "raw"
        data = photo.path.read_bytes()
        return Picture(data, self.name, photo.label, photo.species, photo.presentation, state, photo.truth_share)


def run(trials: Iterable[Trial], *, workers: int = 1) -> Iterator[Outcome]:
    """Outcomes in the order of the trials.

    Parameters
    ----------
    trials : iterable of Trial
    workers : int
        Processes, >= 1; with 1 all happens in this one.

    Yields
    ------
    Outcome
    """
    if workers <= 1:
        yield from map(outcome_of, trials)
        return
    # Fresh processes: a forked one would inherit OpenCV's threads in an unknown state.
    with multiprocessing.get_context("spawn").Pool(workers) as pool:
        yield from pool.imap(outcome_of, trials, chunksize=2)


def outcome_of(trial: Trial) -> Outcome:
    """The advisory on one picture."""
    try:
        picture = trial.picture()
    except OSError as fault:
        return _silent(trial.name, f"{trial.name} could not be read from disk ({fault.strerror}). Check the file.")
    from ..advice import Context, advise
    from ..decode import SENTENCES

    context = Context(
        species_code=picture.species, presentation=picture.presentation, state=picture.state, purpose="top"
    )
    began = time.perf_counter()
    told = advise(picture.data, context).to_json()
    seconds = time.perf_counter() - began
    for reason in told["reasons"]:
        if reason["code"] in SENTENCES:  # no picture at all, so nothing was judged
            return _silent(picture.name, reason["text"], picture)
    return _outcome(picture, told, seconds)


def _outcome(picture: Picture, told: dict, seconds: float) -> Outcome:
    return Outcome(
        name=picture.name,
        label=picture.label,
        species=picture.species,
        group=picture.group,
        truth_share=picture.truth_share,
        answer=told["answer"],
        share=told.get("share"),
        low=told.get("share_low"),
        high=told.get("share_high"),
        card_used=bool(told.get("card_used")),
        seconds=seconds,
        problem="",
        reasons=tuple(reason["code"] for reason in told.get("reasons") or ()),
    )


def _silent(name: str, sentence: str, picture: Picture | None = None) -> Outcome:
    return Outcome(
        name=name,
        label=picture.label if picture else "",
        species=picture.species if picture else "",
        group=picture.group if picture else "",
        truth_share=None,
        answer="",
        share=None,
        low=None,
        high=None,
        card_used=False,
        seconds=0.0,
        problem=sentence,
    )
