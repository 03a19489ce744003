"""Which dark places are blackened shell, and which are shade, folds or legs: by rim, inside, surroundings and colour.

Method: black spot is pigment in the shell (CV-6-10). Its place ends in a step, is even inside, lies on shell that is
lit like the rest, has another colour than shell in shade, and has the gloss of shell; shade between pieces fades on
the side away from the piece that throws it, changes all over, lies in shell that is shaded too, keeps the colour of
the shell, and runs together into one large place; folds, legs and plate edges are all rim and have no even inside.
All depths are measured by the photo's own contrast: soft light, blur and ice make black and shade paler alike. Each
sign of a connected dark place adds to the log odds that it is black spot, and it counts by the probability these
give; where a photo shows much black spot each place is likelier to be so too. A place whose rim is open over half
counts nothing.
Does not hold: black bands with sharp edges; shade with a step all round (under a finger, a flash from the side); a
black head out of focus, which has no step.
Sources: B. Horn, Computer Graphics and Image Processing 3 (1974) 277, and E. Land, J. McCann, J. Opt. Soc. Am. 61
(1971) 1: light changes slowly over a surface, pigment at a step; L* + 16 and C*ab both go with the cube root of the
light (CIE 15), so that less light leaves their ratio as it is; adding log odds is logistic regression, textbook;
M. Saerens, P. Latinne, C. Decaestecker, Neural Computation 14 (2002) 21, for reading the usual part anew in each photo;
the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

SCALE = 128  # of depth in eight bits, for one unit of the logarithm
COLOUR_SCALE, COLOUR_ZERO = 256, 128  # of colour in eight bits, for one unit of C*ab by L* + 16, and where it is none
REACH = 5  # px of the photo of 1000, across: a step is within it
CONTRASTS = (0.35, 1.2)  # depths are measured by the photo's contrast, but by no less and no more than these
DARK, CORE = 0.5, 0.7  # of the contrast: deeper is a dark place; and the core of one, where those that touch part
STEP, OPEN = 0.39, 0.24  # of the contrast, fall within REACH: from here on a step; less is no border, there light fades
CLOSED_RIM, OPEN_RIM = 0.25, 0.5  # part of the rim that is open: in full up to the first, nothing from the second
OUTLINE_WEIGHT = 0.25  # of a rim that is the outline of the prawns: there liner or ice begins, a step in any case
# What each sign adds to the log odds of a place.
START = -5.5
STEPPED_WORTH = 6.5  # the part of the rim that is a step
UNEVEN_WORTH = -18.0  # the mean fall anywhere in the place: pigment changes at its rim only, shade and folds all over
UNLIT_WORTH = -9.8  # depth of the shallowest surface within REACH of the rim: shade lies in shade
DEPTH_WORTH = 12.9  # mean depth
COLOUR_WORTH = -8.0  # C*ab by L* + 16, above that of the lit shell around: less light leaves it as it is
SIZE_WORTH = -0.48  # log of its area, in ten thousandths of the prawn surface: gaps run together, spots stay apart
CONTRAST_WORTH = 6.0  # of the whole photo: soft light alone makes no deep place
COVER_WORTH = -4.2  # part of the surface that is dark: much of it is a pile in hard light
# The part of dark surface that is black spot before anything is known of a photo, and how often it is read anew.
USUAL_PART, LOOKS = 0.25, 2
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
    """

    weight: np.ndarray
    core: np.ndarray
    counted: float
    cover: float


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
    cover = pixels.size / whole
    # Every second pixel of a rim is plenty for a mean.
    on_rim = np.flatnonzero(cv2.subtract(dark, cv2.erode(dark, _NEAR)).ravel()[pixels])[::2]
    odds, closed = _rim_signs(surface, fall, shallowest, pixels[on_rim], number[on_rim], count)
    odds += np.bincount(number, _inside_signs(surface, fall, pixels), count) / np.maximum(area, 1)
    odds += START + CONTRAST_WORTH * surface.contrast + COVER_WORTH * cover
    odds += SIZE_WORTH * np.log(10_000 * area / whole + 0.1)
    counts = _probabilities(odds, closed, area)
    weight = np.zeros_like(dark)
    weight.ravel()[pixels] = np.rint(255 * counts).astype(np.uint8)[number]
    core = cv2.bitwise_and(weight, weight, mask=cv2.compare(surface.depth, CORE * unit, cv2.CMP_GT))
    return Places(weight, core, float(area @ counts) / whole, cover)


def _probabilities(odds: np.ndarray, closed: np.ndarray, area: np.ndarray) -> np.ndarray:
    """Of each place, that it is black spot: where a photo shows much of it, each place is likelier to be so too.

    All of shape (places,): log odds, how far the rim is closed (0 to 1), and area in pixels.
    """
    dark = max(1, area.sum())
    usual = np.log(USUAL_PART / (1 - USUAL_PART))
    here = 0.0
    for _ in range(LOOKS + 1):
        counts = closed / (1 + np.exp(-np.clip(odds + here, -20, 20)))
        part = np.clip(area @ counts / dark, 0.002, 0.98)
        here += np.log(part / (1 - part)) - usual
    return counts


def _inside_signs(surface: Surface, fall: np.ndarray, pixels: np.ndarray) -> np.ndarray:
    """What the signs inside are worth together, at each dark pixel."""
    # Added up before the mean is taken: one sum over the pixels instead of three.
    unit = surface.unit * SCALE
    worth = fall.ravel()[pixels] * np.float32(UNEVEN_WORTH / unit)
    worth += surface.depth.ravel()[pixels] * np.float32(DEPTH_WORTH / unit)
    worth += surface.colour.ravel()[pixels] * np.float32(COLOUR_WORTH / COLOUR_SCALE)
    return worth - np.float32(COLOUR_WORTH * COLOUR_ZERO / COLOUR_SCALE)


def _rim_signs(
    surface: Surface, fall: np.ndarray, shallowest: np.ndarray, rim: np.ndarray, number: np.ndarray, count: int
) -> tuple[np.ndarray, np.ndarray]:
    """Of each place: what the signs at its rim are worth together, and how far its rim is closed, 0 to 1."""
    unit = surface.unit * SCALE
    worth = np.where(cv2.erode(surface.prawn, disc(REACH)).ravel()[rim] > 0, 1.0, OUTLINE_WEIGHT)
    whole = np.bincount(number, worth, count) + 1e-6
    falls = fall.ravel()[rim]
    signs = UNLIT_WORTH / unit * shallowest.ravel()[rim] + STEPPED_WORTH * (falls > STEP * unit)
    is_open = np.bincount(number, worth * (falls < OPEN * unit), count) / whole
    closed = np.clip((OPEN_RIM - is_open) / (OPEN_RIM - CLOSED_RIM), 0, 1)
    return np.bincount(number, worth * signs, count) / whole, closed


def disc(diameter: float) -> np.ndarray:
    """A round structuring element, uint8; `diameter` in px."""
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
