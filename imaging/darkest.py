"""The darkest places of a piece: how much darker a disc is than the same piece's shell around it.

Method: the piece is brought to one size, so that all lengths are parts of it (of the root of its area). A disc of
radius 0.06 slides over it; the figure of a place is log(L* + 16) of the shell less its mean over the disc. The shell
is the ring around it on the same piece (0.09 to 0.25), and by three tenths the piece's middle, for black wider than
the ring. Half the light on the same shell gives about 0.2; black spot 0.5 and more. The rim,
0.07 wide, is left out: eyes, snout, fan and the shade under the belly lie there.
Does not hold: for black that covers a whole piece evenly, and in gaps between pieces that were taken for one.
Sources: L* + 16 goes with the cube root of the light (CIE 15), so its logarithm falls by as much in any light; the
disc was the strongest of several simple figures on 144 real photographs, and is not published.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.colour import lab_of_srgb
from imaging.pieces import Piece, disc

SIZE = 64.0  # px: root of the area that every piece is brought to
DISC, RING, RIM = 0.06, (0.09, 0.25), 0.07  # of that root
OWN = 0.3  # of the shell is the piece's middle
APART = 0.2  # of that root, between two places of a piece
_NOWHERE = -9.0


@dataclass(frozen=True)
class Place:
    """A dark place: its middle and the disc's radius in pixels of the photo, and its figure."""

    x: float
    y: float
    radius: float
    figure: float


def darkest_places(pixels: np.ndarray, piece: Piece, larger: float = 1.0, most: int = 3) -> list[Place]:
    """The darkest places of a piece, darkest first.

    Parameters
    ----------
    pixels : ndarray of shape (rows, cols, 3), uint8
        BGR. Not changed.
    piece : Piece
    larger : float
        Times that `pixels` is larger than the photo that the piece was found in.
    most : int
        At most so many, >= 1.

    Returns
    -------
    list of Place
        Empty where the piece is all rim.
    """
    rows, cols = piece.mask.shape
    scale = SIZE / piece.root
    size = (max(1, round(cols * scale)), max(1, round(rows * scale)))
    body = cv2.resize(piece.mask.astype(np.float32), size) > 0.5
    x, y, wide, high = (round(v * larger) for v in (piece.left, piece.top, cols, rows))
    crop = cv2.resize(pixels[y : y + high, x : x + wide], size, interpolation=cv2.INTER_AREA)
    figures = contrast(np.log(cv2.max(lab_of_srgb(crop)[..., 0], 0) + 16), body)
    places = []
    for _ in range(most):
        _, figure, _, (col, row) = cv2.minMaxLoc(figures)
        if figure <= _NOWHERE:
            break
        at = (piece.left + (col + 0.5) / scale) * larger, (piece.top + (row + 0.5) / scale) * larger
        places.append(Place(*at, DISC * piece.root * larger, float(figure)))
        cv2.circle(figures, (col, row), round(APART * SIZE), _NOWHERE, -1)
    return places


def contrast(logs: np.ndarray, body: np.ndarray) -> np.ndarray:
    """The figure of each place of a piece of that size: float32, -9 where the disc would reach the rim.

    `logs` is log(L* + 16), float32, `body` the piece, bool; both of shape (rows, cols).
    """
    body = body.view(np.uint8)
    sums = cv2.merge([logs * body, body.astype(np.float32)])
    spot = disc(DISC * SIZE).astype(np.float32)
    ring = disc(RING[1] * SIZE).astype(np.float32)
    hole = disc(RING[0] * SIZE)
    start = (ring.shape[0] - hole.shape[0]) // 2
    ring[start : start + hole.shape[0], start : start + hole.shape[1]] -= hole
    shell = (1 - OWN) * _mean(sums, ring) + OWN * float(np.median(logs[body > 0]))
    figures = shell - _mean(sums, spot)
    # beyond the photo's edge there is no piece
    framed = cv2.copyMakeBorder(body, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
    room = cv2.distanceTransform(framed, cv2.DIST_L2, 5)[1:-1, 1:-1] >= (DISC + RIM) * SIZE
    return np.where(room, figures, _NOWHERE).astype(np.float32)


def _mean(sums: np.ndarray, kernel: np.ndarray) -> np.ndarray:
    total, count = cv2.split(cv2.filter2D(sums, cv2.CV_32F, kernel, borderType=cv2.BORDER_CONSTANT))
    mean: np.ndarray = total / cv2.max(count, 1e-3)
    return mean
