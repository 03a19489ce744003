"""Black spot painted on sound real prawns: more positives, of known place, kept apart from real ones in every table.

Method: a lobed patch, 0.05 to 0.13 of the root of the piece's area, on the piece by its own outline. Its light is
taken down to an eighth to a third of what was there and most of its colour with it, so shading and gloss stay.
Does not hold: as a measure of real black spot; a painted patch is cleaner than a real one. The figures are common
practice, no published source.
"""

import cv2
import numpy as np

from imaging.colour import linear_of_srgb
from imaging.pieces import find_pieces, shrunk


def painted(pixels: np.ndarray, chance: np.random.Generator) -> tuple[np.ndarray, tuple[float, float]] | None:
    """A copy with one patch on its largest piece, and the patch's middle as shares of width and height.

    Parameters
    ----------
    pixels : ndarray of shape (rows, cols, 3), uint8
        BGR, a sound prawn on plain ground. Not changed.
    chance : numpy.random.Generator

    Returns
    -------
    tuple of ndarray and (x, y), or None
        None where no piece was found to paint on.
    """
    _, pieces = find_pieces(shrunk(pixels))
    if not pieces:
        return None
    rows, cols = pixels.shape[:2]
    small, piece = np.zeros(shrunk(pixels).shape[:2], np.uint8), pieces[0]
    small[piece.top :, piece.left :][: piece.mask.shape[0], : piece.mask.shape[1]] = piece.mask
    mask = cv2.resize(small, (cols, rows), interpolation=cv2.INTER_NEAREST)
    root = float(np.sqrt(mask.sum()))
    radius = root * chance.uniform(0.05, 0.13)
    open_to_use = np.argwhere(cv2.distanceTransform(mask, cv2.DIST_L2, 5) > max(0.1 * root, 0.7 * radius))
    if not len(open_to_use):
        return None
    row, col = open_to_use[chance.integers(len(open_to_use))]
    part = _patch((rows, cols), (row, col), radius, chance)[..., None] * mask[..., None]
    light = linear_of_srgb(pixels)
    black = chance.uniform(0.12, 0.35) * (0.4 * light + 0.6 * light.mean(axis=2, keepdims=True))
    mixed = (1 - part) * light + part * black
    levels = np.where(mixed <= 0.0031308, 12.92 * mixed, 1.055 * np.maximum(mixed, 1e-9) ** (1 / 2.4) - 0.055)
    return np.clip(np.rint(255 * levels), 0, 255).astype(np.uint8), (col / cols, row / rows)


def _patch(shape: tuple[int, int], at: tuple[int, int], radius: float, chance: np.random.Generator) -> np.ndarray:
    y, x = np.mgrid[: shape[0], : shape[1]] - np.array(at)[:, None, None]
    turn, first, second = np.arctan2(y, x), *chance.uniform(0, 6, 2)
    edge = radius * (1 + 0.25 * np.sin(2 * turn + first) + 0.15 * np.sin(5 * turn + second))
    share: np.ndarray = 1 / (1 + np.exp(np.clip((np.hypot(x, y) - edge) / (0.12 * radius), -30, 30)))
    return share
