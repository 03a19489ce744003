"""Which pieces of a laid-out sample look darkened? Frames on the darkest places, and an answer that counts pieces.

Method, in order: decode; gate; card; pieces; darkest places; answer. Each step has its own file. What most pieces
show is the species, so what their middle shows beyond the usual is taken off every piece, up to a bound. A piece looks
darkened from one cut-off on. It is advice: a person decides (CV-0-03).
Does not hold: see the steps, and docs/method.md, which says on how many real photographs the figures rest.
"""

from __future__ import annotations

import json
import time
from dataclasses import asdict, dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from imaging import gate
from imaging.card import FoundCard, find_card
from imaging.darkest import Place, darkest_places
from imaging.decode import Photo, UnreadablePhoto, read_photo
from imaging.pieces import Ground, Piece, find_pieces, shrunk

METHOD_VERSION = "pieces-1"
HEAD_ON = ("HOSO",)
PRODUCT_PURPOSES = ("top", "under_liner", "sample", "defect")
LAID_OUT = "sample"  # the purpose whose shot the method can read; others are evidence
CUT_OFF = 0.64  # a piece looks darkened from here on; `Context.cut_off` may hold one learnt from use
NONE_BELOW = 0.35  # no piece looks darkened where none reaches this
USUAL, MOST_TAKEN_OFF = 0.40, 0.20  # what sound pieces show, and at most what is laid to the species beyond it
NEIGHBOURS = 5  # pieces, at least, before they say anything about each other
MOST_FRAMES = 3  # on a photo, unless more pieces look darkened
LEAST_AUC = 0.65  # lower end of its interval on photographs kept aside, before any answer is given
MEASURED = Path(__file__).parent / "docs" / "measured.json"
REASONS = {
    "not_product": "This photo is not of the prawns themselves, so it was not looked at for darkening.",
    "no_pieces": (
        "No pieces could be told from the ground. Lay the prawns that you counted side by side on a pale, plain tray, "
        "none touching, and take the photo again."
    ),
    "unclear_ground": (
        "The pieces do not stand clear of what lies around them. Use a pale, plain tray, with no hand in the picture."
    ),
    "touching": "Pieces that touch were counted but not looked at one by one. Part them to have them looked at.",
    "frames_only": "The darkest places are framed. Look at these. The method gives no answer of its own yet.",
}


@dataclass(frozen=True)
class Context:
    """What the photo is of, from the specification and the shot; `cut_off` is one learnt from receivers' findings.

    `may_answer` is None where the photographs kept aside decide whether an answer is given, else what use has shown.
    """

    species_code: str
    presentation: str
    state: str
    purpose: str = LAID_OUT
    cut_off: float = CUT_OFF
    may_answer: bool | None = None


@dataclass(frozen=True)
class LookedAt:
    """One piece with its darkest places (may be none), its figure less what its neighbours show, and at which end."""

    piece: Piece
    places: tuple[Place, ...]
    figure: float
    at_head: bool


@dataclass(frozen=True)
class Analysis:
    """What was read from a photo; `advice` is what is kept and sent, the rest serves the overlay.

    `larger`: times that the photo is larger than the copy that pieces were found in.
    """

    advice: dict[str, Any]
    photo: Photo | None = None
    larger: float = 1.0
    pieces: tuple[LookedAt, ...] = ()
    frames: tuple[Place, ...] = ()


def advise(photo: bytes, context: Context) -> dict[str, Any]:
    """Advice on one photo, as kept and sent; see `analyse`."""
    return analyse(photo, context).advice


def analyse(photo: bytes, context: Context) -> Analysis:
    """Look at one photo.

    Parameters
    ----------
    photo : bytes
        As taken. Not changed.
    context : Context

    Returns
    -------
    Analysis
        `advice` holds ``answer`` (darkening_seen, none_seen, look_here: frames alone, cannot_tell), ``would_say``
        (the answer at the cut-off, whether or not it may be given), ``pieces``, ``dark_pieces``, ``at_head``,
        ``figure`` (of the darkest piece), ``cut_off``, ``frames`` (x, y, radius as shares of the width, figure),
        ``is_clear``, ``length_mm``, ``reasons``, ``card_used``, ``method_version``, ``timing_ms``.
    """
    started = time.perf_counter()
    try:
        read = read_photo(photo)
    except UnreadablePhoto as trouble:
        return Analysis(_advice(context, started, reasons=[(trouble.code, trouble.sentence)]))
    if context.purpose not in PRODUCT_PURPOSES:
        return Analysis(_advice(context, started, reasons=[("not_product", REASONS["not_product"])]), read)
    grey = gate.grey_of(read.pixels)
    passed = gate.read_gate(gate.shrunk_for_gate(grey), min(read.width, read.height))
    if passed.verdict not in ("usable", "small"):
        return Analysis(_advice(context, started, reasons=_said(context, passed.verdict, passed.sentence)), read)
    card = find_card(grey)
    small = shrunk(read.pixels)
    ground, found = find_pieces(small, None if card is None else card.outline * small.shape[1] / grey.shape[1])
    larger = read.pixels.shape[1] / small.shape[1]
    pieces = _look_at(read.pixels, found, larger, context)
    frames = _frames(pieces, context)
    advice = _answer(context, started, read, larger, ground, pieces, frames, card)
    return Analysis(advice, read, larger, pieces, frames)


def _look_at(pixels: np.ndarray, found: list[Piece], larger: float, context: Context) -> tuple[LookedAt, ...]:
    places = [tuple(darkest_places(pixels, piece, larger)) if piece.number == 1 else () for piece in found]
    figures = [at[0].figure for at in places if at]
    taken_off = 0.0
    if len(figures) >= NEIGHBOURS:
        taken_off = float(np.clip(np.median(figures) - USUAL, 0, MOST_TAKEN_OFF))
    return tuple(
        LookedAt(piece, at, at[0].figure - taken_off if at else 0.0, _is_at_head(piece, at, larger, context))
        for piece, at in zip(found, places, strict=True)
    )


def _is_at_head(piece: Piece, places: tuple[Place, ...], larger: float, context: Context) -> bool:
    """Whether the darkest place lies at the end where the piece is thickest; False where no end is."""
    if context.presentation not in HEAD_ON or not places:
        return False
    depth = cv2.distanceTransform(np.pad(piece.mask, 1), cv2.DIST_L2, 3)[1:-1, 1:-1]
    body, thick = np.argwhere(piece.mask), np.argwhere(depth > 0.8 * depth.max())
    middle = body.mean(axis=0)
    towards = thick.mean(axis=0) - middle
    if np.hypot(*towards) < 0.15 * piece.root:
        return False
    place = np.array([places[0].y, places[0].x]) / larger - (piece.top, piece.left) - middle
    return bool(place @ towards > 0)


def _frames(pieces: tuple[LookedAt, ...], context: Context) -> tuple[Place, ...]:
    """The darkest places of the photo: of pieces that look darkened one each, and of all the three darkest."""
    dark = [one.places[0] for one in pieces if one.places and one.figure >= context.cut_off]
    every = sorted((place for one in pieces for place in one.places), key=lambda place: -place.figure)
    return tuple(dict.fromkeys([*dark, *every[:MOST_FRAMES]]))


def _answer(
    context: Context, started: float, photo: Photo, larger: float, ground: Ground, pieces: tuple[LookedAt, ...],
    frames: tuple[Place, ...], card: FoundCard | None,
) -> dict[str, Any]:  # fmt: skip
    is_clear = ground.is_clear and bool(frames)
    dark = [one for one in pieces if one.figure >= context.cut_off]
    figure = max((one.figure for one in pieces if one.places), default=None)
    would_say = _would_say(figure, context.cut_off) if is_clear else "cannot_tell"
    said = "no_pieces" if not frames else "unclear_ground" if not is_clear else None
    reasons = _said(context, said, REASONS[said]) if said else []
    if is_clear and any(one.piece.number > 1 for one in pieces):
        reasons.append(("touching", REASONS["touching"]))
    shown = is_clear or (context.purpose == LAID_OUT and frames)
    answer = "look_here" if shown else "cannot_tell"
    if is_clear and would_say != "cannot_tell" and _may_answer(context):
        answer = would_say
    elif shown:
        reasons.append(("frames_only", REASONS["frames_only"]))
    width = photo.pixels.shape[1]
    return _advice(
        context, started, answer=answer, would_say=would_say, is_clear=is_clear, figure=figure, reasons=reasons,
        pieces=sum(one.piece.number for one in pieces), dark_pieces=len(dark),
        at_head=sum(one.at_head for one in dark), card_used=card is not None,
        length_mm=_length_mm(pieces, card, larger),
        frames=[{name: value if name == "figure" else value / width for name, value in asdict(place).items()}
                for place in frames] if shown else [],
    )  # fmt: skip


def _advice(context: Context, started: float, **parts: Any) -> dict[str, Any]:
    reasons = [{"code": code, "text": text} for code, text in parts.pop("reasons", [])]
    empty = {
        "answer": "cannot_tell", "would_say": "cannot_tell", "is_clear": False, "figure": None, "pieces": None,
        "dark_pieces": None, "at_head": None, "frames": [], "card_used": False, "length_mm": None,
    }  # fmt: skip
    timing = (time.perf_counter() - started) * 1000
    return {**empty, **parts, "cut_off": context.cut_off, "reasons": reasons, "method_version": METHOD_VERSION,
            "timing_ms": timing}  # fmt: skip


def _said(context: Context, code: str, sentence: str) -> list[tuple[str, str]]:
    """What to do better, said of the shot that advice is given on; a photo into the carton is evidence as it is."""
    return [(code, sentence)] if context.purpose == LAID_OUT else []


def _would_say(figure: float | None, cut_off: float) -> str:
    if figure is None:
        return "cannot_tell"
    return "darkening_seen" if figure >= cut_off else "none_seen" if figure < NONE_BELOW else "cannot_tell"


def _may_answer(context: Context) -> bool:
    if context.may_answer is not None:
        return context.may_answer
    kept_aside = measured()["kept_aside"].get(context.state or "raw")
    return bool(kept_aside) and kept_aside["auc_low"] > LEAST_AUC


@lru_cache(maxsize=1)
def measured() -> dict[str, Any]:
    """What `evaluate_advisory` measured on real photographs; ``kept_aside`` is by state, empty until it is known."""
    told: dict[str, Any] = json.loads(MEASURED.read_text("utf-8"))
    return told


def _length_mm(pieces: tuple[LookedAt, ...], card: FoundCard | None, larger: float) -> dict[str, Any] | None:
    """Middle length of the pieces that lie alone, in mm: a hint beside the weighed count, never a grade."""
    if card is None:
        return None
    lengths = [length for one in pieces if one.piece.number == 1 and (length := _length(one.piece.mask))]
    if len(lengths) < 3:
        return None
    low, middle, high = np.percentile(np.array(lengths) * card.mm_per_pixel * larger, (10, 50, 90))
    return {"mean": float(middle), "low": float(low), "high": float(high), "pieces": len(lengths)}


def _length(mask: np.ndarray) -> float | None:
    """Length of a strip from its area and outline (2 (l + w) = outline, l w = area); None of a compact one."""
    outline, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    smooth = cv2.approxPolyDP(max(outline, key=cv2.contourArea), 1.5, True)
    area, around = cv2.contourArea(smooth), cv2.arcLength(smooth, True)
    root = around * around / 16 - area
    return float(around / 4 + np.sqrt(root)) if root > 0 else None
