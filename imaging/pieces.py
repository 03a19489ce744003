"""The pieces that lie on a plain ground: each prawn's outline by itself, and whatever its shell encloses.

Method: the colours along the frame (and around the reference card) are the ground, as up to five clusters of
lightness and chroma. Each pixel's distance to its nearest cluster, in that cluster's standard deviations, is cut by
Otsu's threshold. Shadow is ground with less light: log(L* + 16) falls, a* and b* keep their ratio to L* + 16, and on
a coloured ground only the colour counts against it. What the outline encloses belongs to the piece, black as it may
be; legs and feelers are opened away. A piece much larger than its neighbours is several that touch.
Does not hold: on patterned or cluttered ground, in a heap, for glass-clear prawns; most of these are not `is_clear`.
Sources: N. Otsu, IEEE Trans. SMC 9 (1979) 62; L* + 16 goes with the cube root of the light (CIE 15); k-means of OpenCV;
the figures are set by eye on real photographs, no published source.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace

import cv2
import numpy as np

from imaging.colour import lab_of_srgb

SIDE = 500  # px, longest side that pieces are looked for at
_CLUSTERS = 5
_LEAST_CLUSTER = 0.12  # of the frame's border: less is a piece that the frame cuts
_BORDER = 0.04  # of the short side
_LIGHT, _COLOUR = 30.0, 70.0  # scale of log(L* + 16), and of a* and b* by L* + 16
_LEAST_SPREAD = np.array([3.0, 1.5, 1.5], np.float32)  # in those units: noise and grain of any ground
_SHADE = 3.5  # of log(L* + 16) by that scale: a third less light, as on the dim side of a tray
_COLOURED = 8.0  # chroma of a ground, in the same units, from which its colour tells more than its lightness
_THRESHOLD = (1.0, 3.0, 7.0)  # standard deviations: least on quiet ground, least on other, most
_QUIET = 95  # per cent of the sure ground lie below half of the least threshold
_FINE = 16  # levels a standard deviation for the threshold: beyond 16 all count alike
_LEAST_PIECE, _MOST_PIECE = 0.002, 0.6  # of the photo
_LEGS = 0.06  # of the root of a piece's area: what is narrower than twice that is legs and feelers
_TOUCHING = 1.6  # times the middle area of four pieces and more
_MOST_CUT = 0.35  # of the outline along the frame: more is ground taken for a piece
_PLAIN, _STANDS_OUT = 0.9, 10.0  # at least, before an outline is trusted


@dataclass(frozen=True)
class Piece:
    """One piece.

    Attributes
    ----------
    mask : ndarray of shape (rows, cols), uint8
        1 on the piece with all that its outline encloses, in the box around it.
    left, top : int
        Where that box lies in the looked-at photo, px.
    number : int
        Pieces in it: more than one where some touch.
    """

    mask: np.ndarray
    left: int
    top: int
    number: int = 1

    @property
    def root(self) -> float:
        """Root of its area, px."""
        return float(np.sqrt(cv2.countNonZero(self.mask)))


@dataclass(frozen=True)
class Ground:
    """How much of what lies beside the pieces is plain (0 to 1), and how many times less like it they are."""

    plain: float
    stands_out: float

    @property
    def is_clear(self) -> bool:
        """Whether outlines on it can be trusted."""
        return self.plain >= _PLAIN and self.stands_out >= _STANDS_OUT


def shrunk(pixels: np.ndarray) -> np.ndarray:
    """A photo brought to at most 500 px: what pieces are looked for in."""
    scale = SIDE / max(pixels.shape[:2])
    size = (max(1, round(pixels.shape[1] * scale)), max(1, round(pixels.shape[0] * scale)))
    return cv2.resize(pixels, size, interpolation=cv2.INTER_AREA) if scale < 1 else pixels


def find_pieces(small: np.ndarray, card_outline: np.ndarray | None = None) -> tuple[Ground, list[Piece]]:
    """Outline the pieces, largest first.

    Parameters
    ----------
    small : ndarray of shape (rows, cols, 3), uint8
        BGR, as `shrunk` gives it. Not changed.
    card_outline : ndarray of shape (4, 2) or None
        Corners of the reference card in its pixels.

    Returns
    -------
    tuple of Ground and list of Piece
    """
    card = _card_mask(small.shape[:2], card_outline)
    distance = ground_distance(small, card)
    threshold, _ = cv2.threshold(cv2.convertScaleAbs(distance, alpha=_FINE), 0, 255, cv2.THRESH_OTSU)
    quiet = 2 * np.percentile(distance[_ground_seen(card)], _QUIET)
    cut = float(np.clip(threshold / _FINE, np.clip(quiet, *_THRESHOLD[:2]), _THRESHOLD[2]))
    found = _filled(cv2.morphologyEx((distance > cut).astype(np.uint8), cv2.MORPH_CLOSE, disc(2)))
    pieces = sorted(_bodies(found), key=lambda piece: -piece.root)
    middle = float(np.median([piece.root**2 for piece in pieces])) if len(pieces) >= 4 else np.inf
    return _ground(distance, pieces, cut), [_counted(piece, middle) for piece in pieces]


def _ground(distance: np.ndarray, pieces: list[Piece], cut: float) -> Ground:
    covered = np.zeros(distance.shape, np.uint8)
    for piece in pieces:
        rows, cols = piece.mask.shape
        covered[piece.top : piece.top + rows, piece.left : piece.left + cols] |= piece.mask
    beside = distance[cv2.dilate(covered, disc(8)) == 0]
    if not pieces or beside.size == 0:
        return Ground(0.0, 0.0)
    stands_out = float(np.median(distance[covered > 0]) / max(np.median(beside), 1e-3))
    return Ground(float((beside < cut / 2).mean()), stands_out)


def ground_distance(small: np.ndarray, card: np.ndarray) -> np.ndarray:
    """How unlike the ground each pixel is: standard deviations, float32; `card` is a mask, 0 or 1, left out."""
    lightness, *chroma = cv2.split(lab_of_srgb(cv2.medianBlur(small, 5)))
    above = cv2.max(lightness, 0) + 16
    features = [_LIGHT * cv2.log(above), *(_COLOUR * cv2.divide(plane, above) for plane in chroma)]
    seen = _ground_seen(card)
    samples = np.column_stack([plane[seen][::11] for plane in features])
    cv2.setRNGSeed(1)  # the same photo gives the same answer
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 20, 0.1)
    _, labels, middles = cv2.kmeans(samples, _CLUSTERS, None, stop, 2, cv2.KMEANS_PP_CENTERS)
    parts = np.bincount(labels.ravel(), minlength=_CLUSTERS) / len(labels)
    squares = [
        _square_distance(features, middles[i], samples[labels.ravel() == i].std(axis=0) + _LEAST_SPREAD)
        for i in np.flatnonzero(parts >= _LEAST_CLUSTER)
    ]
    distance: np.ndarray = cv2.sqrt(functools.reduce(cv2.min, squares))
    distance[card > 0] = 0
    return distance


def _square_distance(features: list[np.ndarray], middle: np.ndarray, spread: np.ndarray) -> np.ndarray:
    """Squared distance to one ground; shade is let pass as far as its colour bears it out."""
    light, *colours = features
    at, *chroma = map(float, middle)
    size = math.hypot(*chroma)
    first, second = (chroma[0] / size, chroma[1] / size) if size > 0 else (1.0, 0.0)
    light = light - np.float32(at)
    outwards = cv2.addWeighted(colours[0], first, colours[1], second, -size)
    sideways = cv2.addWeighted(colours[0], -second, colours[1], first, 0)
    grey = 1 / (1 + (size / _COLOURED) ** 2)
    # A lit surface is hazed over by its own gloss, so a shadow on it is more coloured, not less.
    along = cv2.bitwise_and(cv2.compare(light, 0, cv2.CMP_LT), cv2.compare(outwards, 0, cv2.CMP_GT))
    cv2.copyTo(cv2.multiply(outwards, 0.25 + 0.75 * grey), along, outwards)
    # beyond the step that shade makes, what is darker counts in full, and within it a quarter
    shade = cv2.addWeighted(cv2.min(light, -_SHADE), 1, cv2.max(light, -_SHADE), 1 / 4, _SHADE)
    light = cv2.addWeighted(cv2.max(light, 0), 0.7, cv2.min(shade, 0), math.sqrt(grey), 0)
    turn = np.array([[first, second], [-second, first]]) ** 2
    parts = 1 / np.array([spread[0] ** 2, *(turn @ spread[1:] ** 2)])
    squared: np.ndarray = cv2.multiply(light, light, scale=parts[0])
    for plane, part in zip((outwards, sideways), parts[1:], strict=True):
        squared = cv2.add(squared, cv2.multiply(plane, plane, scale=part))
    return squared


def _card_mask(shape: tuple[int, int], outline: np.ndarray | None) -> np.ndarray:
    card = np.zeros(shape, np.uint8)
    if outline is not None:
        cv2.fillConvexPoly(card, outline.round().astype(np.int32), 1)
    return cv2.dilate(card, disc(3)) if outline is not None else card


def _ground_seen(card: np.ndarray) -> np.ndarray:
    """Where ground is sure to show: along the frame, and beside the card."""
    wide = max(4, int(_BORDER * min(card.shape)))
    seen = cv2.dilate(card, disc(wide / 2)) > 0
    seen[:wide] = seen[-wide:] = True
    seen[:, :wide] = seen[:, -wide:] = True
    ground: np.ndarray = seen & (card == 0)
    return ground


def _filled(mask: np.ndarray) -> np.ndarray:
    outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    return cv2.drawContours(np.zeros_like(mask), outlines, -1, 1, -1)


def _bodies(found: np.ndarray) -> list[Piece]:
    """The bodies, without legs, feelers and crumbs, and without ground that was taken for a piece."""
    least, bodies = _LEAST_PIECE * found.size, []
    for whole in _parts(found, least):
        reach = disc(max(1.0, _LEGS * whole.root))
        edge = reach.shape[0]
        inner = np.pad(whole.mask, edge)
        _go_on_behind_the_frame(inner, whole, edge, found.shape)
        opened = cv2.morphologyEx(inner, cv2.MORPH_OPEN, reach)[edge:-edge, edge:-edge]
        bodies += _parts(opened, max(least, 0.2 * whole.root**2), whole.left, whole.top)
    return [
        body for body in bodies if body.root**2 < _MOST_PIECE * found.size and _part_cut(body, found.shape) <= _MOST_CUT
    ]


def _go_on_behind_the_frame(padded: np.ndarray, piece: Piece, edge: int, frame: tuple[int, int]) -> None:
    """What the frame cuts is taken to go on behind it, so that opening does not round it off there."""
    rows, cols = piece.mask.shape
    if piece.top == 0:
        padded[:edge] = padded[edge]
    if piece.top + rows == frame[0]:
        padded[-edge:] = padded[-edge - 1]
    if piece.left == 0:
        padded[:, :edge] = padded[:, edge : edge + 1]
    if piece.left + cols == frame[1]:
        padded[:, -edge:] = padded[:, -edge - 1 : -edge]


def _parts(mask: np.ndarray, least: float, left: int = 0, top: int = 0) -> list[Piece]:
    number, labels, stats, _ = cv2.connectedComponentsWithStats(np.ascontiguousarray(mask), connectivity=4)
    parts = []
    for i in range(1, number):
        x, y, cols, rows, area = stats[i]
        if area >= least:
            parts.append(Piece((labels[y : y + rows, x : x + cols] == i).astype(np.uint8), left + x, top + y))
    return parts


def _part_cut(piece: Piece, frame: tuple[int, int]) -> float:
    """Part of a piece's outline that lies along the frame."""
    rows, cols = piece.mask.shape
    sides = (
        (piece.top == 0, piece.mask[0]), (piece.top + rows == frame[0], piece.mask[-1]),
        (piece.left == 0, piece.mask[:, 0]), (piece.left + cols == frame[1], piece.mask[:, -1]),
    )  # fmt: skip
    outline = cv2.countNonZero(piece.mask) - cv2.countNonZero(cv2.erode(piece.mask, disc(1), borderValue=0))
    return sum(int(side.sum()) for at_frame, side in sides if at_frame) / max(1, outline)


def _counted(piece: Piece, middle: float) -> Piece:
    area = piece.root**2
    return replace(piece, number=max(1, round(area / middle))) if area > _TOUCHING * middle else piece


@functools.lru_cache(maxsize=64)
def disc(radius: float) -> np.ndarray:
    """A disc as ones in a square of uint8, about `radius` px."""
    y, x = np.mgrid[-int(radius) : int(radius) + 1, -int(radius) : int(radius) + 1]
    inside: np.ndarray = x * x + y * y <= radius * radius + 0.5
    return inside.astype(np.uint8)
