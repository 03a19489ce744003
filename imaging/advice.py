"""Is darkening to be seen in this photo? Seen, none seen, or cannot tell: with how much, where, why.

Method, in order: decode; gate; card; balance; regions; darkness; answer. Each step has its own file.
"Seen" needs a share of at least 9 % (10 % without a card, 18 % on banded kinds) whose range keeps
clear of nothing, on what is surely prawn; "none seen" a share under 9 %, a clear view and little else that is
dark; under ice a share under 3 %, and a card. Shadows of a bare lamp look like black spot: in hard light neither is
said. All between is "cannot tell". It is advice: a person decides (CV-0-03).
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
from imaging.darkness import LEAST_CHROMA, Darkness, measure_darkness
from imaging.decode import Photo, UnreadablePhoto, read_photo
from imaging.regions import Regions, find_prawns
from imaging.sizing import PieceLength, piece_length

METHOD_VERSION = "colour-6"
# At least this share is darkening; more on naturally banded kinds, where less may be their own bands.
SEEN_SHARE = {"card": 0.09, "no card": 0.10}
SEEN_SHARE_BANDED = {"card": 0.18, "no card": 0.18}
NONE_SHARE = 0.09  # below this "none seen"
# The same through ice, which hides black and makes none; without a card nothing is said but what is seen.
NONE_SHARE_VEILED = {"card": 0.03, "no card": 0.0}
# Unless more than this of the surface is dark without looking like black spot: in a pile, gaps and flanks in shade
# take a third of it.
NONE_UNDECIDED = 0.40
MIN_PRAWN_SHARE = 0.02  # of the photo, at least
MIN_CERTAINTY = {"card": 0.75, "no card": 1.0}  # mean log likelihood ratio of the prawn squares, at least
SURE_CERTAINTY = {"card": 1.0, "no card": 1.4}  # at least this before darkening is called seen
SURE_CERTAINTY_BANDED = {"card": 1.6, "no card": 1.8}  # hands, fur and wood have their brown
# At least this where little prawn is in the photo, or most of it is dark: a card is laid beside the goods.
VERY_SURE_CERTAINTY = {"card": 1.25, "no card": 2.0}
LITTLE_PRAWN = 0.05  # of the photo
MOSTLY_DARK = 0.6  # share
# Times the chroma of the kind (or of a pale one): more is fur, wood, fruit or cloth.
MOST_COLOURED = 2.2
_PALE_CHROMA = 8.0
# Fewer dark places may be one thing that is no prawn: a glove, a shadow, a gap. The more prawns are in view, the more
# places black spot has, until they run together; without the card the photo may be of anything.
MIN_PLACES = 3.0
MORE_PLACES = {"card": 4.0, "no card": 8.0}  # on top, where the whole photo is prawn
ENOUGH_PLACES = 6.0  # however much is prawn
UNSURE_PLACES = 3.0  # times as many where the prawns are less than very sure: joints of a floor, grain of wood
RUN_TOGETHER = 0.25  # with a card: from this share on, the least will do
VEIL = {"card": 0.47, "no card": 0.3}  # more than this is ice over the prawns; see `_is_veiled`
# Of the photo that is prawn, at least: a few pieces on a tray throw no shade on each other, ice or not.
VEIL_PRAWN_SHARE = 0.15
# The grain of bare ice: more dark places than that, on what is less coloured than so much of its kind.
GRAIN_PLACES, GRAIN_COLOUR = 80.0, 0.45
# Log odds that the light is hard, so that shade ends in steps as black spot does: more, and it is not told apart. A
# wrong flag costs more than a missed one, so less doubt is let pass before darkening is called seen.
HARD_LIGHT = {"seen": 0.3, "none": 3.5}
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

    @property
    def card_or_not(self) -> str:
        return "card" if self.balance is not None and self.balance.kind == "card" else "no card"

    def say(self, code: str, text: str | None = None) -> None:
        self.reasons.append(Reason(code, text or REASONS[code]))

    def closed(self, kind: type, **parts) -> Analysis:
        advice = kind(
            reasons=tuple(self.reasons),
            card_used=self.card_or_not == "card",
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
    mm_per_pixel = seen.card.mm_per_pixel if seen.card else None
    seen.darkness = measure_darkness(
        seen.balance.lightness(pixels),
        seen.lab,
        seen.regions,
        seen.baseline,
        seen.balance.kind,
        mm_per_pixel,
    )
    return _answer(seen, piece_length(seen.regions.prawn, 2 * mm_per_pixel if mm_per_pixel else None))


def _has_no_colour(pixels: np.ndarray) -> bool:
    # One pixel in nine is plenty for a mean.
    small = cv2.resize(np.ascontiguousarray(pixels[::3, ::3]), (32, 32), interpolation=cv2.INTER_AREA).astype(np.int16)
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
    if seen.regions.certainty < MIN_CERTAINTY[seen.card_or_not] or _is_too_coloured(seen):
        seen.say("unsure_prawns")
        return seen.closed(CannotTell, length=length)
    is_dark = _is_dark(seen)
    _say_share(seen, shares)
    veiled = _is_veiled(seen)
    if veiled and not is_dark and dark.share >= NONE_SHARE_VEILED[seen.card_or_not]:
        seen.say("veiled")
        return seen.closed(CannotTell, **shares, length=length)
    if veiled:
        seen.say("through_ice")
    if is_dark:
        doubt = _doubt(seen)
        if doubt is not None:
            seen.say(doubt)
            return seen.closed(CannotTell, **shares, length=length)
        return seen.closed(DarkeningSeen, **shares, where=_where(seen), length=length)
    why_not_none = _why_not_none(dark)
    if why_not_none is None:
        return seen.closed(NoneSeen, **shares, length=length)
    seen.say(why_not_none)
    return seen.closed(CannotTell, **shares, length=length)


def _is_dark(seen: _Seen) -> bool:
    needed = (SEEN_SHARE_BANDED if seen.baseline.pattern == "banded" else SEEN_SHARE)[seen.card_or_not]
    return seen.darkness.share >= needed


def _say_share(seen: _Seen, shares: dict[str, float]) -> None:
    words = {
        name: f"{100 * value:.0f} %" for name, value in zip(("share", "low", "high"), shares.values(), strict=True)
    }
    seen.say("share", REASONS["share"].format(**words))
    if seen.baseline.pattern in ("banded", "barred", "spotted", "speckled"):
        seen.say("own_pattern")


def _is_too_coloured(seen: _Seen) -> bool:
    """No lamp and no pond makes prawns twice as coloured as their kind: it is something else."""
    return seen.darkness.own_chroma > MOST_COLOURED * max(_PALE_CHROMA, seen.baseline.chroma)


def _is_veiled(seen: _Seen) -> bool:
    return seen.regions.share >= VEIL_PRAWN_SHARE and seen.darkness.veil > VEIL[seen.card_or_not]


def _doubt(seen: _Seen) -> str | None:
    """Why what is dark is not called darkening, or None: a wrong flag costs a good supplier money."""
    certainty, dark = seen.regions.certainty, seen.darkness
    sure = SURE_CERTAINTY_BANDED if seen.baseline.pattern == "banded" else SURE_CERTAINTY
    if certainty < sure[seen.card_or_not]:
        return "unsure_prawns"
    needs_more = seen.regions.share < LITTLE_PRAWN or dark.share > MOSTLY_DARK
    if needs_more and certainty < VERY_SURE_CERTAINTY[seen.card_or_not]:
        return "unsure_prawns"
    if dark.places > GRAIN_PLACES and dark.own_chroma < GRAIN_COLOUR * max(LEAST_CHROMA, seen.baseline.chroma):
        return "unsure_prawns"
    if _has_few_places(seen):
        return "few_places"
    # The range reaches down to nothing in hard light only.
    return "hard_light" if dark.hardness > HARD_LIGHT["seen"] or dark.share_low <= 0 else None


def _why_not_none(dark: Darkness) -> str | None:
    """Why what is not dark enough to be seen is not called none seen either, or None."""
    if dark.share >= NONE_SHARE or dark.undecided >= NONE_UNDECIDED:
        return "range_too_wide"
    return "hard_light" if dark.hardness > HARD_LIGHT["none"] else None


def _has_few_places(seen: _Seen) -> bool:
    dark, kind = seen.darkness, seen.card_or_not
    runs_together = kind == "card" and dark.share >= RUN_TOGETHER
    more = 0.0 if runs_together else MORE_PLACES[kind] * seen.regions.share
    needed = min(ENOUGH_PLACES, MIN_PLACES + more)
    return dark.places < needed * (UNSURE_PLACES if seen.regions.certainty < VERY_SURE_CERTAINTY["card"] else 1.0)


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
    size = analysis.lab.shape[1::-1]
    dark = cv2.resize(analysis.darkness.dark.astype(np.uint8), size, interpolation=cv2.INTER_NEAREST) > 0
    surface = analysis.lab[analysis.regions.prawn & ~dark]
    counts = np.histogram(surface[:, 0], bins=50, range=(0, 100))[0]
    middle = np.median(surface, axis=0)
    return AcceptedLook(tuple(int(n) for n in counts), float(middle[1]), float(middle[2]), analysis.darkness.raw_share)
