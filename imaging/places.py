"""Which dark places are blackened shell, and which are shade, folds or legs: by rim, inside, surroundings and colour.

Method: black spot is pigment in the shell (CV-6-10). Its place ends in a step, is even inside, lies on shell that is
lit like the rest, and has less colour than shell; shade between pieces fades on the side away from the piece that
throws it, changes all over, lies in shell that is shaded too, keeps the colour of the shell, and runs together into
one large place; folds, legs and plate edges are all rim and have no even inside. Six signs of each connected dark
place are added up to a part from 0 to 1 that it counts; a place whose rim is open over half counts nothing.
Does not hold: black bands with sharp edges; shade with a step all round (under a finger, a flash from the side); a
black head out of focus, which has no step.
Sources: B. Horn, Computer Graphics and Image Processing 3 (1974) 277, and E. Land, J. McCann, J. Opt. Soc. Am. 61
(1971) 1: light changes slowly over a surface, pigment at a step; the figures are our own, set on drawn scenes and
common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

SCALE = 128  # of depth and level in eight bits, for one unit of the logarithm
COLOUR_SCALE = 64  # of colour in eight bits, for the prawns' own C*ab
REACH = 5  # px of the photo of 1000, across: a step is within it
STEP = 0.24  # fall of log(L* + 16) within REACH: a step
OPEN = 0.15  # fall within REACH: less is no border at all, there the light fades
CLOSED_RIM, OPEN_RIM = 0.25, 0.5  # part of the rim that is open: in full up to the first, nothing from the second
OUTLINE_WEIGHT = 0.25  # of a rim that is the outline of the prawns: there liner or ice begins, a step in any case
# What each sign is worth. Together they are the part that counts, from 0 to 1.
STEPPED_WORTH = 0.45  # the part of the rim that is a step
FALL_WORTH = 2.7  # the mean fall at the rim
UNEVEN_WORTH = -3.3  # the mean fall anywhere in the place: pigment changes at its rim only, shade and folds all over
UNLIT_WORTH = -1.0  # depth of the shallowest surface within REACH of the rim: shade lies in shade
COLOUR_WORTH = -0.2  # C*ab inside, by the prawns' own: shade keeps the colour of the shell
SIZE_WORTH = -0.03  # log of its area, in ten thousandths of the prawn surface: gaps run together, spots stay apart
START = 0.45
STRICT = 0.2  # less, for what is surely black spot
_NEAR = np.ones((3, 3), np.uint8)


@dataclass(frozen=True)
class Places:
    """Dark places, and how far they count.

    Attributes
    ----------
    weight : ndarray of shape (rows, cols), uint8
        How far each counts as black spot, 0 to 255.
    dark : ndarray of shape (rows, cols), uint8
        1 where dark.
    counted, surely : float
        Share of the prawn surface that counts; and that counts by a stricter measure.
    """

    weight: np.ndarray
    dark: np.ndarray
    counted: float
    surely: float


def weigh_places(depth: np.ndarray, colour: np.ndarray, prawn: np.ndarray, line: float) -> Places:
    """Weigh each connected dark place.

    Parameters
    ----------
    depth : ndarray of shape (rows, cols), uint8
        How far log(L* + 16) lies below that of sound shell at this place, by `SCALE`; 0 beside the prawns.
    colour : ndarray of shape (rows, cols), uint8
        C*ab as a share of the prawns' own, by `COLOUR_SCALE`.
    prawn : ndarray of shape (rows, cols), uint8
        1 where prawn; at least one.
    line : float
        Depth from which a place is dark.

    Returns
    -------
    Places
    """
    dark = cv2.compare(depth, line * SCALE, cv2.CMP_GT) & 1
    shallowest = cv2.erode(depth, disc(REACH))
    fall = cv2.subtract(cv2.dilate(depth, disc(REACH)), shallowest)
    count, numbered = cv2.connectedComponents(dark, connectivity=4)
    # Only the dark pixels are looked at from here on: a tenth of the photo.
    pixels = np.flatnonzero(dark.view(bool))
    number = numbered.ravel()[pixels]
    on_rim = cv2.subtract(dark, cv2.erode(dark, _NEAR)).ravel()[pixels] > 0
    at_rim, closed = _rim_signs(fall, shallowest, prawn, pixels[on_rim], number[on_rim], count)
    area = np.bincount(number, minlength=count)
    inside = (UNEVEN_WORTH / SCALE) * fall.ravel()[pixels] + (COLOUR_WORTH / COLOUR_SCALE) * colour.ravel()[pixels]
    surface = cv2.countNonZero(prawn)
    size = SIZE_WORTH * np.log(10_000 * area / surface + 0.1)
    part = START + at_rim + np.bincount(number, inside, count) / np.maximum(area, 1) + size
    counts, surely = (closed * np.clip(part - less, 0, 1) for less in (0.0, STRICT))
    weight = np.zeros_like(dark)
    weight.ravel()[pixels] = np.rint(255 * counts).astype(np.uint8)[number]
    return Places(weight, dark, float(area @ counts) / surface, float(area @ surely) / surface)


def _rim_signs(
    fall: np.ndarray, shallowest: np.ndarray, prawn: np.ndarray, rim: np.ndarray, number: np.ndarray, count: int
) -> tuple[np.ndarray, np.ndarray]:
    """Of each place: what the signs at its rim are worth together, and how far its rim is closed, 0 to 1."""
    worth = np.where(cv2.erode(prawn, disc(REACH)).ravel()[rim] > 0, 1.0, OUTLINE_WEIGHT)
    whole = np.bincount(number, worth, count) + 1e-6
    falls = fall.ravel()[rim]
    # The signs are added up before the mean is taken: one sum over the pixels instead of three.
    signs = FALL_WORTH / SCALE * falls + UNLIT_WORTH / SCALE * shallowest.ravel()[rim]
    signs += STEPPED_WORTH * (falls > STEP * SCALE)
    is_open = np.bincount(number, worth * (falls < OPEN * SCALE), count) / whole
    closed = np.clip((OPEN_RIM - is_open) / (OPEN_RIM - CLOSED_RIM), 0, 1)
    return np.bincount(number, worth * signs, count) / whole, closed


def disc(diameter: float) -> np.ndarray:
    """A round structuring element, uint8; `diameter` in px."""
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
