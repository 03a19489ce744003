"""Which parts of a photo are prawn, and which are liner, ice, cardboard, board, hand or label.

Method: the photo is cut into small squares; each has a mean colour in Lab and a roughness. For the
prawns (from their baseline) and for each documented surface the likelihood of such a square is a
product of bell curves; the likelier side wins, after averaging with the neighbours. Black squares
are of neither: they join the prawns when prawns lie around them, or when they are as rough as a head.
At the outlines each pixel goes to the side whose Lab histogram, in this very photo, holds more of its
colour. Reflections and the reference card are taken out.
Does not hold: for surfaces of prawn colour and prawn roughness (brown gravel, wood, fur), and for
prawns as pale and smooth as their tray; then too little is found and the answer is "cannot tell".
Sources: naive Bayes classification, textbook; M. Swain, D. Ballard, International Journal of Computer
Vision 7 (1991) 11, for the histograms; figures in baselines/*.json.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma

CELL = 4  # px of the half-size photo
PRAWN_ROUGH = (3.0, 0.9)
PRAWN_ODDS = 0.35  # log odds in favour of prawn: prawns are what these photos are taken of
VEIL = 0.45  # part of the light that comes from the ice over a veiled prawn
_RICH_CHROMA = 15.0  # C*ab of the baseline: paler kinds look like ice itself under a veil
_BLACKENED = ((30.0, 5.0, 5.0), (9.0, 5.0, 5.0))  # Lab and spread of blackened surface, as the card's black step
_LEAST_SHELL_ROUGH = 2.1
_SURE, _LEAST_SURE = 0.6, 25  # log odds, and squares: three pale pieces on a pale tray have no more
CELL_PART, COLOUR_PART = 0.25, 0.5  # what square and pixel say at an outline
_BINS = (18, 26, 26)  # of the Lab histograms: L* in steps of 6, a* and b* in steps of 4 from -40
_TO_BINS = np.array([[1 / 6, 0, 0, 0], [0, 1 / 4, 0, 10], [0, 0, 1 / 4, 10]])
_LEAST_SPREAD = np.array([5, 2, 2, 0.5], np.float32)
_BALANCE_DOUBT = {"card": 1.0, "surroundings": 1.35, "camera": 1.6}
_DATA = Path(__file__).parent / "baselines" / "surroundings.json"


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
        Mean log likelihood ratio over the prawn squares, prawn against the best other surface.
    """

    prawn: np.ndarray
    share: float
    certainty: float


@lru_cache(maxsize=1)
def surroundings() -> tuple[list[str], np.ndarray, np.ndarray]:
    """Names, middles and spreads (each of shape (n, 4): L*, a*, b*, roughness) of the documented surfaces."""
    surfaces = json.loads(_DATA.read_text("utf-8"))["surfaces"]
    middle = np.array([[*s["lab"], s["rough"][0]] for s in surfaces], np.float32)
    spread = np.array([[*s["spread"], s["rough"][1]] for s in surfaces], np.float32)
    return [s["name"] for s in surfaces], middle, spread


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
    odds = _odds(cells, baseline, _BALANCE_DOUBT[balance_kind])
    is_card = _outline_cells(card_outline, rows, cols)
    odds.prawn[is_card] = -4
    smooth = cv2.GaussianBlur(_as_in_this_photo(cells, odds.prawn), (0, 0), 1.2)
    is_dark = _is_blackened(cells, odds.blackened, baseline) & ~is_card
    prawn_cells = _with_adjoining_dark(smooth > 0, is_dark & (smooth <= 0), cells[..., 3])
    prawn_cells = _without_crumbs(prawn_cells & ~is_card)
    sound = prawn_cells & (smooth > 0)
    certainty = float(smooth[sound].mean()) if sound.any() else 0.0
    score = np.where(prawn_cells, np.maximum(smooth, 1), np.minimum(smooth, -1))
    prawn = _outlined(lab, score, prawn_cells, is_card)
    return Regions(prawn, float(prawn_cells.mean()), certainty)


def _to_cells(image: np.ndarray, rows: int, cols: int) -> np.ndarray:
    return cv2.resize(image, (cols, rows), interpolation=cv2.INTER_AREA)


@dataclass(frozen=True)
class _Odds:
    """Of each square: log odds of sound prawn and of blackened prawn against the likeliest other surface."""

    prawn: np.ndarray
    blackened: np.ndarray


def _odds(cells: np.ndarray, baseline: Baseline, doubt: float) -> _Odds:
    widen = np.array([1 + (doubt - 1) / 2, doubt, doubt, 1], np.float32)
    _, middles, spreads = surroundings()
    looks = _prawn_looks(baseline)
    middles = np.vstack([[[*lab, PRAWN_ROUGH[0]] for lab, _ in looks], middles]).astype(np.float32)
    spreads = np.vstack([[[*spread, PRAWN_ROUGH[1]] for _, spread in looks], spreads]).astype(np.float32) * widen
    logs = _log_bells(cells, middles, spreads)
    best = logs[..., len(looks) :].max(axis=2)
    prawn = np.clip(logs[..., 1 : len(looks)].max(axis=2) - best + PRAWN_ODDS, -4, 4)
    return _Odds(prawn, logs[..., 0] - best)


def _prawn_looks(baseline: Baseline) -> list[tuple]:
    """Lab and spread of blackened surface, of sound surface and, for coloured kinds, of sound surface under ice."""
    looks = [_BLACKENED, (baseline.lab, baseline.spread)]
    if float(np.hypot(*baseline.lab[1:])) >= _RICH_CHROMA:
        ice = surroundings()[1][surroundings()[0].index("ice or frost")][:3]
        looks.append((tuple((1 - VEIL) * np.array(baseline.lab) + VEIL * ice), baseline.spread))
    return looks


def _is_blackened(cells: np.ndarray, odds: np.ndarray, baseline: Baseline) -> np.ndarray:
    black = (cells[..., 0] < 0.62 * baseline.lab[0]) & (chroma(cells[..., :3]) < 18)
    return black | (odds > 0)


def _as_in_this_photo(cells: np.ndarray, ratio: np.ndarray) -> np.ndarray:
    """Ratio by the colours that the sure squares of this very photo have, half and half with the documented one."""
    smooth = cv2.GaussianBlur(ratio, (0, 0), 1.6)
    sure_prawn, sure_other = cells[smooth > _SURE], cells[smooth < -_SURE]
    if min(len(sure_prawn), len(sure_other)) < _LEAST_SURE:
        return ratio
    middles = np.stack([sure_prawn.mean(axis=0), sure_other.mean(axis=0)])
    spreads = np.maximum(np.stack([sure_prawn.std(axis=0), sure_other.std(axis=0)]), _LEAST_SPREAD)
    logs = _log_bells(cells, middles, spreads)
    return np.clip((ratio + np.clip(logs[..., 0] - logs[..., 1], -4, 4)) / 2, -4, 4)


def _log_bells(cells: np.ndarray, middles: np.ndarray, spreads: np.ndarray) -> np.ndarray:
    """Log of the bell curves, shape (rows, cols, bells): the squares multiplied out, so two products do it."""
    weight = 1 / (spreads * spreads)
    constant = -0.5 * (middles * middles * weight).sum(axis=1) - np.log(spreads).sum(axis=1)
    flat = cells.reshape(-1, cells.shape[2])
    # gemm and not @: a product this small must not wake the threads of a matrix library.
    parts = np.hstack([flat, flat * flat])
    logs = cv2.gemm(
        parts, np.hstack([middles * weight, -0.5 * weight]).astype(np.float32), 1, None, 0, flags=cv2.GEMM_2_T
    )
    return (logs + constant.astype(np.float32)).reshape(*cells.shape[:2], -1)


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
    """Leave out pieces smaller than a five-hundredth of the frame."""
    labels, numbered, stats, _ = cv2.connectedComponentsWithStats(prawn.astype(np.uint8), connectivity=4)
    keep = stats[:, cv2.CC_STAT_AREA] >= prawn.size / 500
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
    small = cv2.resize(lab, (size[0] // 2, size[1] // 2), interpolation=cv2.INTER_AREA)
    shares = [
        _histogram(small, cv2.resize(m, small.shape[1::-1], interpolation=cv2.INTER_NEAREST)) for m in (inner, outer)
    ]
    ratio = np.clip(np.log(shares[0] / shares[1]), -4, 4)
    fine = cv2.GaussianBlur(ratio.ravel()[_bins_of(lab)], (0, 0), 1.0)
    at_outline = cv2.resize(cv2.dilate(cells, near) - inner, size, interpolation=cv2.INTER_NEAREST) > 0
    return np.where(at_outline, CELL_PART * coarse + COLOUR_PART * fine, coarse) > 0


def _histogram(lab: np.ndarray, mask: np.ndarray) -> np.ndarray:
    """Share of each bin of a Lab histogram, smoothed over the neighbouring bins; never zero."""
    counts = np.bincount(_bins_of(lab)[mask > 0], minlength=np.prod(_BINS)).reshape(_BINS).astype(np.float32)
    for axis in (0, 1, 2, 0, 1, 2):
        counts = counts / 2 + (np.roll(counts, 1, axis) + np.roll(counts, -1, axis)) / 4
    return ((counts + 0.05) / counts.sum()).astype(np.float32)


def _bins_of(lab: np.ndarray) -> np.ndarray:
    """Number of the histogram bin that each pixel falls into, uint16."""
    levels = cv2.add(cv2.transform(lab, _TO_BINS), 0, dtype=cv2.CV_8U)
    first, second, third = (cv2.min(level, size - 1) for level, size in zip(cv2.split(levels), _BINS, strict=True))
    number = cv2.addWeighted(first, _BINS[1] * _BINS[2], second, _BINS[2], 0, dtype=cv2.CV_16U)
    return cv2.add(number, third, dtype=cv2.CV_16U)
