"""Which parts of a photo are prawn, and which are liner, ice, cardboard, board, hand or label.

Method: the photo is cut into small squares; each has a mean colour in Lab and a roughness. For the
prawns (from their baseline) and for each documented surface the likelihood of such a square is a
product of bell curves; the likelier side wins, after averaging with the neighbours. Black squares
are of neither: they join the prawns when prawns lie around them. Reflections and the reference card
are taken out.
Does not hold: for surfaces of prawn colour and prawn roughness (brown gravel, some wood chips), and
for prawns as pale and smooth as their tray; then too little is found and the answer is "cannot tell".
Source: naive Bayes classification, textbook; figures in baselines/*.json.
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
_LEAST_SHELL_ROUGH = 1.8
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
    surface : str
        The commonest other surface.
    """

    prawn: np.ndarray
    share: float
    certainty: float
    surface: str


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
    ratio, other = _likelihood_ratio(cells, baseline, _BALANCE_DOUBT[balance_kind])
    is_card = _outline_cells(card_outline, rows, cols)
    ratio[is_card] = -4
    smooth = cv2.GaussianBlur(_as_in_this_photo(cells, ratio), (0, 0), 1.2)
    is_dark = (cells[..., 0] < 0.62 * baseline.lab[0]) & (chroma(cells[..., :3]) < 18) & ~is_card
    prawn_cells = _with_adjoining_dark(smooth > 0, is_dark & (smooth <= 0), cells[..., 3])
    prawn_cells = _without_crumbs(prawn_cells & ~is_card)
    names = surroundings()[0]
    outside = other[~prawn_cells & ~is_card]
    surface = names[int(np.bincount(outside, minlength=len(names)).argmax())] if outside.size else ""
    certainty = float(smooth[prawn_cells].mean()) if prawn_cells.any() else 0.0
    # Half a square either side is settled by the smooth score, so that outlines are not stairs.
    score = np.where(prawn_cells, np.maximum(smooth, 1), np.minimum(smooth, -1))
    prawn = cv2.resize(score, lab.shape[1::-1], interpolation=cv2.INTER_LINEAR) > 0
    return Regions(prawn, float(prawn_cells.mean()), certainty, surface)


def _to_cells(image: np.ndarray, rows: int, cols: int) -> np.ndarray:
    return cv2.resize(image, (cols, rows), interpolation=cv2.INTER_AREA)


def _likelihood_ratio(cells: np.ndarray, baseline: Baseline, doubt: float) -> tuple[np.ndarray, np.ndarray]:
    """Log likelihood of prawn less that of the likeliest surface, cut to -4 to 4; and that surface."""
    widen = np.array([1 + (doubt - 1) / 2, doubt, doubt, 1], np.float32)
    _, middles, spreads = surroundings()
    prawn_middle = np.array([[*baseline.lab, PRAWN_ROUGH[0]]], np.float32)
    prawn_spread = np.array([[*baseline.spread, PRAWN_ROUGH[1]]], np.float32)
    middles, spreads = np.vstack([prawn_middle, middles]), np.vstack([prawn_spread, spreads]) * widen
    logs = _log_bells(cells, middles, spreads)
    return np.clip(logs[..., 0] - logs[..., 1:].max(axis=2), -4, 4), logs[..., 1:].argmax(axis=2)


def _as_in_this_photo(cells: np.ndarray, ratio: np.ndarray) -> np.ndarray:
    """Ratio by the colours that the sure squares of this very photo have, half and half with the documented one."""
    smooth = cv2.GaussianBlur(ratio, (0, 0), 1.6)
    sure_prawn, sure_other = cells[smooth > 0.8], cells[smooth < -0.8]
    if min(len(sure_prawn), len(sure_other)) < 60:
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
    # einsum and not @: a product this small must not wake the threads of a matrix library.
    logs = np.einsum("ij,kj->ik", flat, middles * weight) - 0.5 * np.einsum("ij,kj->ik", flat * flat, weight) + constant
    return logs.reshape(*cells.shape[:2], -1)


def _outline_cells(outline: np.ndarray | None, rows: int, cols: int) -> np.ndarray:
    cover = np.zeros((rows, cols), np.uint8)
    if outline is not None:
        cv2.fillConvexPoly(cover, (outline / CELL).round().astype(np.int32), 1)
        cover = cv2.dilate(cover, np.ones((3, 3), np.uint8))
    return cover > 0


def _with_adjoining_dark(prawn: np.ndarray, dark: np.ndarray, rough: np.ndarray) -> np.ndarray:
    """Prawn squares, and the dark patches that belong to prawns: a spot inside, a black head on a pale body.

    A dark patch joins when enough of its rim is prawn and it is no smooth shade, and when it is not a
    dark floor: longer at the frame than at the prawns, or larger than all the prawns together.
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
    area = stats[:, cv2.CC_STAT_AREA]
    mean_rough = np.bincount(numbered.ravel(), rough.ravel(), minlength=labels) / area
    inside = by_prawn > 1.2 * by_rest
    grown_on = (by_prawn > 0.2 * by_rest) & (mean_rough > _LEAST_SHELL_ROUGH) & (area < 0.5 * prawn.sum())
    joins = inside | grown_on
    joins[0] = False
    return prawn | joins[numbered]


def _without_crumbs(prawn: np.ndarray) -> np.ndarray:
    """Leave out pieces smaller than a five-hundredth of the frame."""
    labels, numbered, stats, _ = cv2.connectedComponentsWithStats(prawn.astype(np.uint8), connectivity=4)
    keep = stats[:, cv2.CC_STAT_AREA] >= prawn.size / 500
    keep[0] = False
    return keep[numbered] if labels > 1 else prawn
