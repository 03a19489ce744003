"""Is darkening to be seen in this photo? Seen, none seen, or cannot tell: with how much, where, why.

Method, in order: decode; gate; card; balance; regions; darkness; answer. Each step has its own file.
"Seen" needs a share of at least 5 % (10 % on naturally banded kinds) whose lower end is at least 2 %;
"none seen" a share under 5 % whose upper end stays under 14 %; all between is "cannot tell". It is advice:
a person decides (CV-0-03).
Does not hold: see the steps, and docs/method.md.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, field

import cv2
import numpy as np

from imaging import gate
from imaging.answers import REASONS, Advice, CannotTell, DarkeningSeen, NoneSeen, Reason
from imaging.balance import Balance, balance_by_card, balance_by_surroundings
from imaging.baseline import HEAD_ON, AcceptedLook, Baseline, documented_baseline
from imaging.card import FoundCard, find_card
from imaging.darkness import Darkness, measure_darkness
from imaging.decode import Photo, UnreadablePhoto, read_photo
from imaging.regions import Regions, find_prawns
from imaging.sizing import PieceLength, piece_length

METHOD_VERSION = "colour-1"
SEEN_SHARE = 0.05  # at least this share is darkening
SEEN_SHARE_BANDED = 0.10  # the same for naturally banded kinds: less than this may be their own bands
SEEN_LOW = 0.02  # and its lower end at least this
NONE_HIGH = 0.14  # below this the upper end still says "none seen"
MIN_PRAWN_SHARE = 0.04  # of the photo, at least
MIN_CERTAINTY = 0.75  # mean log likelihood ratio of the prawn squares, at least
SURE_CERTAINTY = 1.2  # at least this before darkening is called seen
VERY_SURE_CERTAINTY = 2.0  # at least this where little prawn is in the photo, or more than half of it is dark
FULL_FRAME = 0.3  # of the photo that is prawn: from here on shade between pieces is always in the picture
# A pile of prawns in clear air is never this evenly lit: then ice veils it.
VEIL_SHARE = 0.2  # of the photo that is prawn, at least
VEIL_SHADE = 0.65  # of the prawns' own L*: the shade is lighter than this
VEIL_CONTRAST = 0.27  # of the prawns' own L*: the contrast is less than this
MIN_COLOUR = 1.5  # mean C*ab of a photo below this has no colour in it
PRODUCT_PURPOSES = ("top", "under_liner", "sample", "defect")


@dataclass(frozen=True)
class Context:
    """What the photo is of, from the specification and the shot; `baseline` overrides the documented one."""

    species_code: str
    presentation: str
    state: str
    purpose: str = "top"
    baseline: Baseline | None = None

    def look(self) -> Baseline:
        """The baseline to compare with."""
        return self.baseline or documented_baseline(self.species_code, self.presentation, self.state)


@dataclass(frozen=True)
class Analysis:
    """The advice, and what it was read from (for the overlay and the histogram); None where not reached."""

    advice: Advice
    photo: Photo | None = None
    gate: gate.GateReading | None = None
    card: FoundCard | None = None
    balance: Balance | None = None
    lab: np.ndarray | None = None
    regions: Regions | None = None
    darkness: Darkness | None = None


@dataclass
class _Seen:
    context: Context
    baseline: Baseline
    started: float
    photo: Photo | None = None
    gate: gate.GateReading | None = None
    card: FoundCard | None = None
    balance: Balance | None = None
    lab: np.ndarray | None = None
    regions: Regions | None = None
    darkness: Darkness | None = None
    reasons: list[Reason] = field(default_factory=list)

    def say(self, code: str, text: str | None = None) -> None:
        self.reasons.append(Reason(code, text or REASONS[code]))

    def closed(self, kind: type, **parts) -> Analysis:
        advice = kind(
            reasons=tuple(self.reasons),
            card_used=self.balance is not None and self.balance.kind == "card",
            method_version=METHOD_VERSION,
            baseline_version=self.baseline.version,
            timing_ms=(time.perf_counter() - self.started) * 1000,
            **parts,
        )
        return Analysis(advice, self.photo, self.gate, self.card, self.balance, self.lab, self.regions, self.darkness)


def advise(photo: bytes, context: Context) -> Advice:
    """Advice on one photo.

    Parameters
    ----------
    photo : bytes
        As taken. Not changed.
    context : Context

    Returns
    -------
    DarkeningSeen or NoneSeen or CannotTell
        A photo that cannot be read gives CannotTell with that sentence.
    """
    return analyse(photo, context).advice


def analyse(photo: bytes, context: Context) -> Analysis:
    """Advice on one photo, with what it was read from. Parameters as `advise`."""
    seen = _Seen(context, context.look(), time.perf_counter())
    try:
        seen.photo = read_photo(photo)
    except UnreadablePhoto as trouble:
        seen.say(trouble.code, trouble.sentence)
        return seen.closed(CannotTell)
    if context.purpose not in PRODUCT_PURPOSES:
        seen.say("not_product")
        return seen.closed(CannotTell)
    return _look_at(seen)


def _look_at(seen: _Seen) -> Analysis:
    pixels = seen.photo.pixels
    grey = gate.grey_of(pixels)
    seen.gate = gate.read_gate(gate.shrunk_for_gate(grey), min(seen.photo.width, seen.photo.height))
    if seen.gate.verdict != "usable":
        seen.say(seen.gate.verdict, seen.gate.sentence)
        return seen.closed(CannotTell)
    _balance(seen, pixels, grey)
    half = cv2.resize(pixels, (pixels.shape[1] // 2, pixels.shape[0] // 2), interpolation=cv2.INTER_AREA)
    if _has_no_colour(half):
        seen.say("no_colour")
        return seen.closed(CannotTell)
    seen.lab = seen.balance.lab(half)
    outline = seen.card.outline / 2 if seen.card else None
    seen.regions = find_prawns(seen.lab, seen.baseline, seen.balance.kind, outline)
    if seen.regions.share < MIN_PRAWN_SHARE:
        seen.say("no_prawns")
        return seen.closed(CannotTell)
    mm_per_pixel = seen.card.mm_per_pixel * 2 if seen.card else None
    seen.darkness = measure_darkness(seen.lab, seen.regions.prawn, seen.baseline, seen.balance.kind, mm_per_pixel)
    return _answer(seen, piece_length(seen.regions.prawn, mm_per_pixel))


def _has_no_colour(pixels: np.ndarray) -> bool:
    small = cv2.resize(pixels, (64, 64), interpolation=cv2.INTER_AREA).astype(np.int16)
    return float((small.max(axis=2) - small.min(axis=2)).mean()) < MIN_COLOUR


def _balance(seen: _Seen, pixels: np.ndarray, grey: np.ndarray) -> None:
    seen.card = find_card(grey)
    seen.balance = balance_by_card(pixels, seen.card) if seen.card else None
    if seen.balance is not None:
        seen.say("card_used")
        return
    if seen.card is not None:
        seen.say("card_unusable")
    seen.balance = balance_by_surroundings(pixels)
    seen.say("no_card" if seen.balance.kind == "surroundings" else "as_the_camera_made_it")


def _answer(seen: _Seen, length: PieceLength | None) -> Analysis:
    dark = seen.darkness
    shares = {"share": dark.share, "share_low": dark.share_low, "share_high": dark.share_high}
    if seen.regions.certainty < MIN_CERTAINTY:
        seen.say("unsure_prawns")
        return seen.closed(CannotTell, length=length)
    words = {
        name: f"{100 * value:.0f} %" for name, value in zip(("share", "low", "high"), shares.values(), strict=True)
    }
    seen.say("share", REASONS["share"].format(**words))
    if seen.baseline.pattern in ("banded", "barred", "spotted", "speckled"):
        seen.say("own_pattern")
    needed = SEEN_SHARE_BANDED if seen.baseline.pattern == "banded" else SEEN_SHARE
    if dark.share >= needed and dark.share_low >= SEEN_LOW:
        if not _is_surely_prawn(seen):
            seen.say("unsure_prawns")
            return seen.closed(CannotTell, **shares, length=length)
        return seen.closed(DarkeningSeen, **shares, where=_where(seen), length=length)
    if _is_veiled(seen):
        seen.say("veiled")
        return seen.closed(CannotTell, length=length)
    if dark.share < SEEN_SHARE and dark.share_high < NONE_HIGH:
        return seen.closed(NoneSeen, **shares, length=length)
    seen.say("range_too_wide")
    return seen.closed(CannotTell, **shares, length=length)


def _is_veiled(seen: _Seen) -> bool:
    dark = seen.darkness
    evenly_lit = dark.shade > VEIL_SHADE and dark.contrast < VEIL_CONTRAST
    return seen.regions.share >= VEIL_SHARE and evenly_lit


def _is_surely_prawn(seen: _Seen) -> bool:
    """A wrong flag costs a good supplier money: what is called dark must surely be prawn."""
    if seen.regions.share < 0.07 or seen.darkness.share > 0.5:
        return seen.regions.certainty >= VERY_SURE_CERTAINTY
    # Who lays the card down photographs the goods; with true colours a full frame needs no more proof.
    if seen.balance.kind == "card" and seen.regions.share >= FULL_FRAME:
        return True
    return seen.regions.certainty >= SURE_CERTAINTY


def _where(seen: _Seen) -> tuple[str, ...]:
    dark = seen.darkness
    in_patches = dark.patch_share / max(dark.raw_share, 1e-9)
    where = []
    if in_patches >= 0.3:
        seen.say("patches")
        where.append("head" if seen.context.presentation in HEAD_ON else "patches")
    if in_patches <= 0.7:
        seen.say("spots")
        where.append("spots")
    return tuple(where)


def accepted_look(analysis: Analysis) -> AcceptedLook | None:
    """What an accepted carton's photo teaches about the baseline; None where no prawn surface was measured."""
    if analysis.darkness is None or analysis.balance.kind != "card":
        return None
    surface = analysis.lab[analysis.regions.prawn & ~analysis.darkness.dark]
    counts = np.histogram(surface[:, 0], bins=50, range=(0, 100))[0]
    middle = np.median(surface, axis=0)
    return AcceptedLook(tuple(int(n) for n in counts), float(middle[1]), float(middle[2]), analysis.darkness.raw_share)
