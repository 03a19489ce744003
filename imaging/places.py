"""Which dark places are blackened shell, and which are shade, folds or legs: by rim, surroundings and width.

Method: black spot is pigment in the shell (CV-6-10). Its place ends in a step, on shell that is lit like the rest;
shade between pieces fades on the side away from the piece that throws it, and lies in shell that is shaded too;
folds, legs and plate edges are thin. Four signs of each connected dark place are added up to a part from 0 to 1 that
it counts. On head-on goods the core of a wide, deep place is a black head whatever its rim is.
Does not hold: black bands with sharp edges; shade with a step all round (under a finger, a flash from the side).
Sources: B. Horn, Computer Graphics and Image Processing 3 (1974) 277, and E. Land, J. McCann, J. Opt. Soc. Am. 61
(1971) 1: light changes slowly over a surface, pigment at a step; the figures are our own, set on drawn scenes and
common practice, no published source.
"""

from __future__ import annotations

import cv2
import numpy as np

SCALE = 128  # of depth and level in eight bits, for one unit of the logarithm
REACH = 5  # px of the photo of 1000, across: a step is within it
STEP = 0.24  # fall of log(L* + 16) within REACH: a step
OUTLINE_WEIGHT = 0.25  # of a rim that is the outline of the prawns: there liner or ice begins, a step in any case
# What each sign is worth. Together they are the part that counts, from 0 to 1.
STEPPED_WORTH = 0.75  # the part of the rim that is a step
FALL_WORTH = 0.65  # the mean fall at the rim
UNLIT_WORTH = -2.0  # depth of the shallowest surface within REACH of the rim: shade lies in shade
WIDTH_WORTH = 0.35  # log of area by length of rim, px of the photo of 1000
WIDTHS = (0.4, 5.0)  # wider says no more: a shadow is wide as well
START = -0.65
HEAD_DEPTH, HEAD_WIDTH = 0.55, 0.02  # of black heads; the width of the photo's long side
HEAD_WEIGHT = 128  # of 255: such a core may be deep shade as well
_NEAR = np.ones((3, 3), np.uint8)


def weigh_places(depth: np.ndarray, prawn: np.ndarray, line: float) -> tuple[np.ndarray, np.ndarray]:
    """Weigh each connected dark place.

    Parameters
    ----------
    depth : ndarray of shape (rows, cols), uint8
        How far log(L* + 16) lies below that of sound shell at this place, by `SCALE`; 0 beside the prawns.
    prawn : ndarray of shape (rows, cols), uint8
        1 where prawn.
    line : float
        Depth from which a place is dark.

    Returns
    -------
    weight : ndarray of shape (rows, cols), uint8
        How far each place counts, 0 to 255.
    dark : ndarray of shape (rows, cols), uint8
        1 where dark.
    """
    dark = cv2.compare(depth, line * SCALE, cv2.CMP_GT) & 1
    reach = disc(REACH)
    shallowest = cv2.erode(depth, reach)
    fall = cv2.subtract(cv2.dilate(depth, reach), shallowest)
    count, numbered = cv2.connectedComponents(dark, connectivity=4)
    # Only the dark pixels are looked at from here on: a tenth of the photo.
    places = np.flatnonzero(dark.view(bool))
    number = numbered.ravel()[places]
    on_rim = cv2.subtract(dark, cv2.erode(dark, _NEAR)).ravel()[places] > 0
    rim, at_rim = places[on_rim], number[on_rim]
    worth = np.where(cv2.erode(prawn, reach).ravel()[rim] > 0, 1.0, OUTLINE_WEIGHT)
    whole = np.bincount(at_rim, worth, count) + 1e-6

    def mean_at_rim(values: np.ndarray) -> np.ndarray:
        return np.bincount(at_rim, worth * values, count) / whole

    falls = fall.ravel()[rim]
    width = np.bincount(number, minlength=count) / (np.bincount(at_rim, minlength=count) + 1e-6)
    part = (
        START
        + STEPPED_WORTH * mean_at_rim(falls > STEP * SCALE)
        + FALL_WORTH * mean_at_rim(falls) / SCALE
        + UNLIT_WORTH * mean_at_rim(shallowest.ravel()[rim]) / SCALE
        + WIDTH_WORTH * np.log(np.clip(width, *WIDTHS))
    )
    weight = np.zeros_like(dark)
    weight.ravel()[places] = np.rint(255 * np.clip(part, 0, 1)).astype(np.uint8)[number]
    return weight, dark


def black_heads(depth: np.ndarray) -> np.ndarray:
    """255 in the core of places as deep and wide as a black head, on squares of 4 px; `depth` as above."""
    size = (depth.shape[1] // 4, depth.shape[0] // 4)
    deep = cv2.compare(cv2.resize(depth, size, interpolation=cv2.INTER_AREA), HEAD_DEPTH * SCALE, cv2.CMP_GT)
    core = cv2.morphologyEx(deep, cv2.MORPH_OPEN, disc(HEAD_WIDTH * max(size)))
    return cv2.resize(cv2.dilate(core, _NEAR), depth.shape[::-1], interpolation=cv2.INTER_NEAREST)


def disc(diameter: float) -> np.ndarray:
    """A round structuring element, uint8; `diameter` in px."""
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
