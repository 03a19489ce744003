"""Which dark places are blackened shell, and which are shade, gaps, folds or legs: by rim, inside, surroundings.

Method: black spot is pigment in the shell (CV-6-10). Its place ends in a step, is even inside, lies on shell that is
lit like the shell around, and has another colour than shell in shade; it still throws back some light. Shade between
pieces fades on the side away from the piece that throws it, changes all over, lies beside shell that is turned away
from the light too, keeps the colour of the shell, and runs together into one large place; a gap deep enough is darker
than any shell; folds, legs and plate edges are all rim and have no even inside. Depths in a place are measured by the
photo's own contrast: soft light, blur and ice make black and shade paler alike. Each sign of a connected dark place
adds to the log odds that it is black spot, and it counts by the probability these give; where a photo shows much black
spot each place is likelier to be so too. A place whose rim is open over half counts nothing. In hard light, from one
bare lamp or the sun, shade ends in steps like pigment: how far this is so is told with the answer.
Does not hold: black bands with sharp edges; shade with a step all round (under a finger, a flash from the side); a
black head out of focus, which has no step.
Sources: B. Horn, Computer Graphics and Image Processing 3 (1974) 277, and E. Land, J. McCann, J. Opt. Soc. Am. 61
(1971) 1: light changes slowly over a surface, pigment at a step; L* + 16 and C*ab both go with the cube root of the
light (CIE 15), so that less light leaves their ratio as it is; a surface in air throws back some 4 % of the light
whatever its pigment (Fresnel, for an index of 1.5, textbook), so what is darker is a hole; adding log odds is logistic
regression, textbook; M. Saerens, P. Latinne, C. Decaestecker, Neural Computation 14 (2002) 21, for reading the usual
part anew in each photo; the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

SCALE = 128  # of depth in eight bits, for one unit of the logarithm
COLOUR_SCALE, COLOUR_ZERO = 256, 128  # of colour in eight bits, for one unit of C*ab by L* + 16, and where it is none
REACH = 5  # px of the photo of 1000, across: a step is within it
AROUND = 25  # px of the photo of 1000, across: the shell around a rim
CONTRASTS = (0.35, 0.8)  # depths are measured by the photo's contrast, but by no less and no more: gaps may be black
DARK, CORE = 0.5, 0.7  # of the contrast: deeper is a dark place; and the core of one, where those that touch part
STEP, OPEN = 0.39, 0.24  # of the contrast, fall within REACH: from here on a step; less is no border, there light fades
HOLE = 0.95  # depth beyond which nothing is shell, however black
CLOSED_RIM, OPEN_RIM = 0.25, 0.5  # part of the rim that is open: in full up to the first, nothing from the second
OUTLINE_WEIGHT = 0.25  # of a rim that is the outline of the prawns: there liner or ice begins, a step in any case
# What each sign adds to the log odds of a place.
START = 4.9
STEPPED_WORTH = 7.7  # the part of the rim that is a step
UNEVEN_WORTH = -21.0  # the mean fall anywhere in the place: pigment changes at its rim only, shade and folds all over
SPREAD_WORTH = 40.0  # standard deviation of depth: black shell is lit and shaded like any, the floor of a gap is not
HOLE_WORTH = -25.0  # part that is darker than any shell
UNLIT_WORTH = -8.2  # depth of the palest surface beside the rim, above that of the shell around: shade lies in shade
PHOTO_UNLIT_WORTH = -31.0  # the same, mean of all dark places of the photo
COLOUR_WORTH = -4.6  # C*ab by L* + 16, above that of the lit shell around: less light leaves it as it is
SIZE_WORTH = -0.74  # log of its area, in ten thousandths of the prawn surface: gaps run together, spots stay apart
COVER_WORTH = -5.8  # part of the surface that is dark: much of it is a pile in hard light
# What each sign, of the dark places that do not count as black spot, adds to the log odds that the light is hard.
HARD_START = -20.4
HARD_STEPPED, HARD_UNLIT, HARD_SIZE = 15.0, 70.0, 1.5
# The part of dark surface that is black spot before anything is known of a photo.
USUAL_PART = 0.25
_NEAR = np.ones((3, 3), np.uint8)


@dataclass(frozen=True)
class Surface:
    """What is known of the prawn surface, each of shape (rows, cols), uint8.

    Attributes
    ----------
    depth : ndarray
        How far log(L* + 16) lies below that of sound shell at this place, by `SCALE`; 0 beside the prawns.
    colour : ndarray
        C*ab by L* + 16 less that of the lit shell around, by `COLOUR_SCALE`, none at `COLOUR_ZERO`.
    prawn : ndarray
        1 where prawn; at least one.
    contrast : float
        Depth that 2 % of the surface lie beyond.
    """

    depth: np.ndarray
    colour: np.ndarray
    prawn: np.ndarray
    contrast: float

    @property
    def unit(self) -> float:
        """Contrast that depths are measured by: hardly any contrast is no measure, nor is a hole."""
        return float(np.clip(self.contrast, *CONTRASTS))


@dataclass(frozen=True)
class Places:
    """Dark places, and how far they count.

    Attributes
    ----------
    weight, core : ndarray of shape (rows, cols), uint8
        How far each counts as black spot, 0 to 255; and the same in the cores alone.
    counted, cover : float
        Share of the prawn surface that counts; and that is dark.
    hardness : float
        Log odds that the light is hard, so that shade looks like pigment.
    """

    weight: np.ndarray
    core: np.ndarray
    counted: float
    cover: float
    hardness: float


@dataclass(frozen=True)
class _Rims:
    """Of the rim of each place, each of shape (places,).

    The part of it that is a step, how far it is closed, and the depth of the palest surface beside it above that of the
    shell around, by the contrast.
    """

    stepped: np.ndarray
    closed: np.ndarray
    unlit: np.ndarray


def weigh_places(surface: Surface) -> Places:
    """Weigh each connected dark place."""
    unit = surface.unit * SCALE
    dark = cv2.compare(surface.depth, DARK * unit, cv2.CMP_GT) & 1
    shallowest = cv2.erode(surface.depth, disc(REACH))
    fall = cv2.subtract(cv2.dilate(surface.depth, disc(REACH)), shallowest)
    count, numbered = cv2.connectedComponents(dark, connectivity=4)
    # Only the dark pixels are looked at from here on: a fifth of the photo.
    pixels = np.flatnonzero(dark.view(bool))
    number = numbered.ravel()[pixels].astype(np.intp)
    area = np.bincount(number, minlength=count)
    whole = cv2.countNonZero(surface.prawn)
    # Every fourth pixel of a rim is plenty for a mean, and every second inside.
    on_rim = np.flatnonzero(cv2.subtract(dark, cv2.erode(dark, _NEAR)).ravel()[pixels])[::4]
    rims = _rims(surface, dark, fall, shallowest, pixels[on_rim], number[on_rim], count)
    size = np.log(10_000 * area / whole + 0.1)
    odds = START + _inside_worth(surface, fall, pixels[::2], number[::2], count)
    odds += STEPPED_WORTH * rims.stepped + UNLIT_WORTH * rims.unlit
    odds += PHOTO_UNLIT_WORTH * (area @ rims.unlit) / max(1, area.sum())
    odds += COVER_WORTH * pixels.size / whole + SIZE_WORTH * size
    counts = _probabilities(odds, rims.closed, area)
    weight = np.zeros_like(dark)
    weight.ravel()[pixels] = np.rint(255 * counts).astype(np.uint8)[number]
    core = cv2.bitwise_and(weight, weight, mask=cv2.compare(surface.depth, CORE * unit, cv2.CMP_GT))
    hardness = _hardness(rims, size, area * (1 - counts))
    return Places(weight, core, float(area @ counts) / whole, pixels.size / whole, hardness)


def _inside_worth(
    surface: Surface, fall: np.ndarray, pixels: np.ndarray, number: np.ndarray, count: int
) -> np.ndarray:
    """What the inside of each place adds to its log odds."""
    looked_at = np.maximum(1, np.bincount(number, minlength=count))
    depth = surface.depth.ravel()[pixels].astype(np.float32)
    # Added up before the mean is taken: one sum over the pixels instead of three.
    worth = fall.ravel()[pixels] * np.float32(UNEVEN_WORTH / surface.unit / SCALE)
    worth += (surface.colour.ravel()[pixels] - np.float32(COLOUR_ZERO)) * np.float32(COLOUR_WORTH / COLOUR_SCALE)
    worth += (depth > HOLE * SCALE) * np.float32(HOLE_WORTH)
    middle = np.bincount(number, depth, count) / looked_at
    spread = np.sqrt(np.maximum(0, np.bincount(number, depth**2, count) / looked_at - middle**2))
    return np.bincount(number, worth, count) / looked_at + SPREAD_WORTH / SCALE * spread


def _probabilities(odds: np.ndarray, closed: np.ndarray, area: np.ndarray) -> np.ndarray:
    """Of each place, that it is black spot: where a photo shows much of it, each place is likelier to be so too.

    All of shape (places,): log odds, how far the rim is closed (0 to 1), and area in pixels.
    """
    counts = closed * _logistic(odds)
    part = np.clip(area @ counts / max(1, area.sum()), 0.002, 0.98)
    return closed * _logistic(odds + np.log(part / (1 - part)) - np.log(USUAL_PART / (1 - USUAL_PART)))


def _logistic(odds: np.ndarray) -> np.ndarray:
    return 1 / (1 + np.exp(-np.clip(odds, -20, 20)))


def _hardness(rims: _Rims, size: np.ndarray, shade: np.ndarray) -> float:
    """Log odds that the light is hard; `shade` is the area of each place that does not count as black spot."""
    signs = HARD_STEPPED * rims.stepped + HARD_UNLIT * rims.unlit + HARD_SIZE * size
    return HARD_START + float(shade @ signs) / max(1.0, shade.sum())


def _rims(
    surface: Surface,
    dark: np.ndarray,
    fall: np.ndarray,
    shallowest: np.ndarray,
    rim: np.ndarray,
    number: np.ndarray,
    count: int,
) -> _Rims:
    unit = surface.unit * SCALE
    worth = np.where(cv2.erode(surface.prawn, disc(REACH)).ravel()[rim] > 0, 1.0, OUTLINE_WEIGHT)
    whole = np.bincount(number, worth, count) + 1e-6
    falls = fall.ravel()[rim]
    around = _depth_around(surface, dark, rim)
    is_open = np.bincount(number, worth * (falls < OPEN * unit), count) / whole
    return _Rims(
        np.bincount(number, worth * (falls > STEP * unit), count) / whole,
        np.clip((OPEN_RIM - is_open) / (OPEN_RIM - CLOSED_RIM), 0, 1),
        np.bincount(number, worth * (shallowest.ravel()[rim] - around), count) / whole / unit,
    )


def _depth_around(surface: Surface, dark: np.ndarray, rim: np.ndarray) -> np.ndarray:
    """Mean depth of the shell that is not dark around each pixel of `rim`, of its shape."""
    # One pixel in four is plenty for a neighbourhood.
    few, is_dark, prawn = (np.ascontiguousarray(image[::2, ::2]) for image in (surface.depth, dark, surface.prawn))
    shell = cv2.compare(prawn, is_dark, cv2.CMP_GT)
    side = (AROUND // 2 + 1,) * 2
    depth, part = cv2.blur(cv2.bitwise_and(few, shell), side), cv2.blur(shell, side)
    rows, cols = np.divmod(rim, dark.shape[1])
    at = rows // 2 * few.shape[1] + cols // 2
    return depth.ravel()[at] * 255.0 / (part.ravel()[at] + 0.02 * 255)


def disc(diameter: float) -> np.ndarray:
    """A round structuring element, uint8; `diameter` in px."""
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
