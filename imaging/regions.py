"""Which parts of a photo are prawn, and which are liner, ice, cardboard, board, hand or label.

Method: the photo is cut into small squares; likeness.py says how much each looks like prawn. The odds are
averaged with the neighbours. Black squares are of neither side: they join the prawns when prawns lie around
them, or when they are as rough as a head. At the outlines each pixel goes to the side whose Lab histogram, in
this very photo, holds more of its colour; any prawn may carry some black. The reference card is taken out.
Does not hold: see likeness.py; then too little is found and the answer is "cannot tell".
Sources: M. Swain, D. Ballard, International Journal of Computer Vision 7 (1991) 11, for the histograms; the
figures are documented defaults, common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma
from imaging.likeness import BLACKENED, as_in_this_photo, odds_of

CELL = 4  # px of the half-size photo
_LEAST_SHELL_ROUGH = 2.1
_LEAST_PIECE = 1000  # of the photo, one part in as many: half a small piece on a tray, when a black band cuts it in two
ONE_KIND = 0.6  # part of the documented scatter of a* and b* that one photo's prawns show at most; ponds differ too
BLACK_PART = 0.05  # of the prawns' histogram: any prawn may carry black spot, so darkness alone is no sign of the rest
CELL_PART, COLOUR_PART = 0.25, 0.5  # what square and pixel say at an outline
_OUTLINE = np.ones((5, 5), np.uint8)  # squares: two either side of where prawn squares end
_BINS = (18, 26, 26)  # of the Lab histograms: L* in steps of 6, a* and b* in steps of 4 from -40
_TO_BINS = np.array([[1 / 6, 0, 0, 0], [0, 1 / 4, 0, 10], [0, 0, 1 / 4, 10]])


@dataclass(frozen=True)
class Regions:
    """Where the prawns are.

    Attributes
    ----------
    prawn : ndarray of shape (rows, cols), bool
        Prawn surface, reflections left out.
    share : float
        Of the photo that is prawn, 0 to 1.
    certainty : float
        Mean log likelihood ratio over the prawn squares, prawn against the best other surface; taken down where their
        colours scatter more than those of one kind do.
    shade : float
        L* of the darkest square within three squares of each prawn square, the middle one of them all: packed prawns
        have deep shade among them, and none of it shows through ice.
    """

    prawn: np.ndarray
    share: float
    certainty: float
    shade: float


def roughness(lightness: np.ndarray) -> np.ndarray:
    """log2(1 + standard deviation of L* within 9 x 9 pixels); float32, same shape."""
    mean = cv2.blur(lightness, (9, 9))
    square = cv2.blur(lightness * lightness, (9, 9))
    return cv2.log(1 + cv2.sqrt(cv2.max(square - mean * mean, 0))) / np.float32(np.log(2))


def find_prawns(lab: np.ndarray, baseline: Baseline, balance_kind: str, card_outline: np.ndarray | None) -> Regions:
    """Find the prawn surface.

    Parameters
    ----------
    lab : ndarray of shape (rows, cols, 3), float32
        Balanced Lab of the half-size photo. Not changed.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera: the less sure the balance, the wider the bell curves.
    card_outline : ndarray of shape (4, 2) or None
        The reference card in pixels of `lab`.

    Returns
    -------
    Regions
    """
    rows, cols = lab.shape[0] // CELL, lab.shape[1] // CELL
    rough = roughness(np.ascontiguousarray(lab[..., 0]))
    cells = np.dstack([_to_cells(lab, rows, cols), _to_cells(rough, rows, cols)])
    is_card = _outline_cells(card_outline, rows, cols)
    odds = odds_of(cells, baseline, balance_kind, is_card)
    smooth = cv2.GaussianBlur(as_in_this_photo(cells, odds.prawn), (0, 0), 1.2)
    is_dark = _is_blackened(cells, odds.blackened, baseline) & ~is_card
    prawn_cells = _with_adjoining_dark(smooth > 0, is_dark & (smooth <= 0), cells[..., 3])
    prawn_cells = _without_crumbs(prawn_cells & ~is_card)
    sound = prawn_cells & (smooth > 0)
    certainty = _certainty(smooth[sound], cells[sound], baseline)
    score = np.where(prawn_cells, np.maximum(smooth, 1), np.minimum(smooth, -1))
    prawn = _outlined(lab, score, prawn_cells, is_card)
    return Regions(prawn, float(prawn_cells.mean()), certainty, odds.shade)


def _certainty(ratio: np.ndarray, cells: np.ndarray, baseline: Baseline) -> float:
    """Mean log odds of sound squares, less so the more their colours scatter: one photo shows one kind.

    Wood, skin and cardboard together have as many browns as all prawns of a kind from all ponds.
    """
    if len(cells) == 0:
        return 0.0
    scatter = float(np.hypot(*cells[:, 1:3].std(axis=0)))
    return float(ratio.mean()) * min(1.0, ONE_KIND * float(np.hypot(*baseline.spread[1:])) / max(scatter, 1e-3))


def _to_cells(image: np.ndarray, rows: int, cols: int) -> np.ndarray:
    return cv2.resize(image, (cols, rows), interpolation=cv2.INTER_AREA)


def _is_blackened(cells: np.ndarray, odds: np.ndarray, baseline: Baseline) -> np.ndarray:
    black = (cells[..., 0] < 0.62 * baseline.lab[0]) & (chroma(cells[..., :3]) < 18)
    return black | (odds > 0)


def _outline_cells(outline: np.ndarray | None, rows: int, cols: int) -> np.ndarray:
    cover = np.zeros((rows, cols), np.uint8)
    if outline is not None:
        cv2.fillConvexPoly(cover, (outline / CELL).round().astype(np.int32), 1)
        cover = cv2.dilate(cover, np.ones((3, 3), np.uint8))
    return cover > 0


def _with_adjoining_dark(prawn: np.ndarray, dark: np.ndarray, rough: np.ndarray) -> np.ndarray:
    """Prawn squares, and the dark patches that belong to prawns: a spot inside, a black head on a pale body.

    A patch wide enough to have a core shows there whether it is a head, rough with plates, legs and
    reflections, or a glove or shadow, which are smooth. One without a core must lie inside the prawns: along
    their outline it is the shade they throw. A dark floor is left out too: it is longer at the frame than at
    the prawns, or larger than all of them together.
    """
    labels, numbered, stats, _ = cv2.connectedComponentsWithStats(dark.astype(np.uint8), connectivity=4)
    if labels <= 1:
        return prawn
    near = np.ones((3, 3), np.uint8)
    touches_prawn = cv2.dilate(prawn.astype(np.uint8), near) > 0
    rest = (~prawn & ~dark).astype(np.uint8)
    framed = cv2.copyMakeBorder(rest, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=1)
    touches_rest = cv2.dilate(framed, near)[1:-1, 1:-1] > 0
    by_prawn = np.bincount(numbered[dark & touches_prawn], minlength=labels)
    by_rest = np.bincount(numbered[dark & touches_rest], minlength=labels)
    in_core = cv2.erode(dark.astype(np.uint8), near) > 0
    core = np.bincount(numbered[in_core], minlength=labels)
    core_rough = np.bincount(numbered[in_core], rough[in_core], minlength=labels) / np.maximum(core, 1)
    inside = (by_prawn > 1.2 * by_rest) & ((core < 4) | (core_rough > _LEAST_SHELL_ROUGH))
    grown_on = (by_prawn > 0.2 * by_rest) & (core_rough > _LEAST_SHELL_ROUGH)
    joins = (inside | grown_on) & (stats[:, cv2.CC_STAT_AREA] < prawn.sum())
    joins[0] = False
    return prawn | joins[numbered]


def _without_crumbs(prawn: np.ndarray) -> np.ndarray:
    """Leave out pieces smaller than a thousandth of the frame."""
    labels, numbered, stats, _ = cv2.connectedComponentsWithStats(prawn.astype(np.uint8), connectivity=4)
    keep = stats[:, cv2.CC_STAT_AREA] >= prawn.size / _LEAST_PIECE
    keep[0] = False
    return keep[numbered] if labels > 1 else prawn


def _outlined(lab: np.ndarray, score: np.ndarray, prawn_cells: np.ndarray, is_card: np.ndarray) -> np.ndarray:
    """Prawn surface by pixel: at the outlines, the colours that this photo's prawns and surroundings have decide."""
    size = lab.shape[1::-1]
    coarse = cv2.resize(score.astype(np.float32), size, interpolation=cv2.INTER_LINEAR)
    cells = prawn_cells.astype(np.uint8)
    near = np.ones((3, 3), np.uint8)
    inner, outer = cv2.erode(cells, near), 1 - cv2.dilate(cells | is_card.astype(np.uint8), near)
    if min(inner.sum(), outer.sum()) < 60:
        return coarse > 0
    small = (size[0] // 2, size[1] // 2)
    masks = [cv2.resize(mask, small, interpolation=cv2.INTER_NEAREST) for mask in (inner, outer)]
    shares = _histograms(cv2.resize(lab, small, interpolation=cv2.INTER_AREA), masks)
    prawn_share = (1 - BLACK_PART) * shares[0] + BLACK_PART * _blackened_share()
    ratio = np.clip(np.log(prawn_share / shares[1]), -4, 4)
    fine = cv2.GaussianBlur(ratio.ravel()[_bins_of(lab)], (0, 0), 1.0)
    at_outline = cv2.morphologyEx(cells, cv2.MORPH_GRADIENT, _OUTLINE)
    at_outline = cv2.resize(at_outline, size, interpolation=cv2.INTER_NEAREST) > 0
    return np.where(at_outline, CELL_PART * coarse + COLOUR_PART * fine, coarse) > 0


def _histograms(lab: np.ndarray, masks: list[np.ndarray]) -> np.ndarray:
    """For each mask the share of each bin of a Lab histogram, smoothed over the neighbouring bins; never zero."""
    numbers = _bins_of(lab)
    counts = np.stack([np.bincount(numbers[mask > 0], minlength=np.prod(_BINS)) for mask in masks])
    counts = counts.reshape(-1, *_BINS).astype(np.float32)
    for axis in (1, 2, 3, 1, 2, 3):
        counts = counts / 2 + (np.roll(counts, 1, axis) + np.roll(counts, -1, axis)) / 4
    return (counts + 0.05) / counts.sum(axis=(1, 2, 3), keepdims=True)


@lru_cache(maxsize=1)
def _blackened_share() -> np.ndarray:
    """Share of each bin of a Lab histogram in blackened surface."""
    middles = [np.arange(n) * width + start for n, width, start in zip(_BINS, (6, 4, 4), (0, -40, -40), strict=True)]
    bells = [np.exp(-0.5 * ((m - at) / wide) ** 2) for m, at, wide in zip(middles, *BLACKENED, strict=True)]
    share = np.einsum("i,j,k", *bells)
    return (share / share.sum()).astype(np.float32)


def _bins_of(lab: np.ndarray) -> np.ndarray:
    """Number of the histogram bin that each pixel falls into, uint16."""
    levels = cv2.add(cv2.transform(lab, _TO_BINS), 0, dtype=cv2.CV_8U)
    first, second, third = (cv2.min(level, size - 1) for level, size in zip(cv2.split(levels), _BINS, strict=True))
    number = cv2.addWeighted(first, _BINS[1] * _BINS[2], second, _BINS[2], 0, dtype=cv2.CV_16U)
    return cv2.add(number, third, dtype=cv2.CV_16U)
