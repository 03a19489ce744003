"""Is this shot worth keeping? Sharpness, light, glare, size, and whether anything is in frame.

Method: a greyscale copy of at most 640 pixels; (1) sharpness by re-blurring: a sharp picture loses
most of its neighbouring differences when blurred once more, a blurred one hardly any; (2) exposure
from the bright end of the grey levels; (3) glare as the share at the very top of the scale;
(4) texture as the share of small squares with any structure. Whole numbers throughout, so that the
phone (camera/gate.ts) gets the very same answer from the same grey levels.
Does not hold: colour is not looked at; a sharp photo of something else passes.
Sources: F. Crete et al., "The blur effect", SPIE 6492 (2007); the limits are our own, from tried
photos and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np

GATE_SIDE = 640  # px, longest side of the greyscale
MIN_SHORT_SIDE = 600  # px of the photo as taken; at least this is fine
MIN_SHARPNESS = 0.36  # at least this is fine
DARK_LEVEL = 70  # the grey level that the brightest tenth must reach
GLARE_LEVEL = 250  # grey levels at or above count as glare
MAX_GLARE = 0.25  # at most this share is fine
MIN_TEXTURE = 0.04  # at least this share is fine
_REACH = 4  # half width of the re-blur, so 9 pixels
_SQUARE = 16  # px
_STRUCTURE = 24  # grey levels between the darkest and brightest pixel of a square

ADVICE = {
    "usable": "The photo can be used.",
    "blurred": "The photo is blurred. Hold still and take it again.",
    "dark": "The photo is too dark. Use more light and take it again.",
    "glared": "Too much of the photo is glare. Tilt away from the lamp and take it again.",
    "small": "The photo is too small. Go closer and use the camera's normal setting.",
    "empty": "Nothing can be made out in the photo. Point it at the prawns and take it again.",
}


@dataclass(frozen=True)
class GateReading:
    """What the gate measured.

    Attributes
    ----------
    sharpness : float
        0 (nothing but blur) to 1.
    exposure : float
        Grey level that the brightest tenth reaches, 0 to 255.
    glare, texture : float
        Shares, 0 to 1.
    verdict : str
        usable, blurred, dark, glared, small or empty.
    """

    sharpness: float
    exposure: float
    glare: float
    texture: float
    verdict: str

    @property
    def sentence(self) -> str:
        """What the person with the phone should do."""
        return ADVICE[self.verdict]

    def to_json(self) -> dict[str, Any]:
        """As kept with the photo in the inspection document."""
        return {
            "sharpness": self.sharpness,
            "exposure": self.exposure,
            "glare": self.glare,
            "texture": self.texture,
            "verdict": self.verdict,
        }


def grey_of(pixels: np.ndarray) -> np.ndarray:
    """Greyscale, uint8, from BGR pixels: (9798 R + 19235 G + 3735 B + 16384) >> 15 (Rec. 601 weights)."""
    return cv2.cvtColor(pixels, cv2.COLOR_BGR2GRAY)


def shrunk_for_gate(grey: np.ndarray) -> np.ndarray:
    """The greyscale brought to at most 640 px by averaging areas."""
    rows, cols = grey.shape
    scale = GATE_SIDE / max(rows, cols)
    if scale >= 1:
        return grey
    size = (max(1, int(cols * scale + 0.5)), max(1, int(rows * scale + 0.5)))
    return cv2.resize(grey, size, interpolation=cv2.INTER_AREA)


def read_gate(grey: np.ndarray, short_side: int) -> GateReading:
    """Measure a shot.

    Parameters
    ----------
    grey : ndarray of shape (rows, cols), uint8
        At most 640 px long. Not changed.
    short_side : int
        Short side of the photo as taken, px.

    Returns
    -------
    GateReading
    """
    sharpness = sharpness_of(grey)
    counts = cv2.calcHist([grey], [0], None, [256], [0, 256]).ravel()
    exposure = float(_level_reached(counts, grey.size))
    glare = int(counts[GLARE_LEVEL:].sum()) / grey.size
    texture = texture_of(grey)
    verdict = _verdict(short_side, sharpness, exposure, glare, texture)
    return GateReading(sharpness, exposure, glare, texture, verdict)


def _verdict(short_side: int, sharpness: float, exposure: float, glare: float, texture: float) -> str:
    if short_side < MIN_SHORT_SIDE:
        return "small"
    if exposure < DARK_LEVEL:
        return "dark"
    if glare > MAX_GLARE:
        return "glared"
    if texture < MIN_TEXTURE:
        return "empty"
    return "blurred" if sharpness < MIN_SHARPNESS else "usable"


def _level_reached(counts: np.ndarray, pixels: int) -> int:
    brighter = 0
    for level in range(255, -1, -1):
        brighter += int(counts[level])
        if brighter * 10 >= pixels:
            return level
    return 0


def sharpness_of(grey: np.ndarray) -> float:
    """Share of neighbouring differences that a further blur takes away, the lesser of both directions.

    Parameters
    ----------
    grey : ndarray of shape (rows, cols), uint8

    Returns
    -------
    float
        0 to 1; 0 for a picture without any difference or smaller than the blur.
    """
    across, down = _lost_share(grey), _lost_share(np.ascontiguousarray(grey.T))
    return min(across, down)


def _lost_share(grey: np.ndarray) -> float:
    reach = 2 * _REACH + 1
    if grey.shape[1] < reach + 2:
        return 0.0
    # The difference of two neighbours in the blurred row (sums of nine) is the pixel that enters
    # less the one that leaves; nine times the sharp difference makes the two comparable.
    blurred = cv2.absdiff(grey[:, reach:], grey[:, :-reach])
    sharp = cv2.absdiff(grey[:, _REACH + 1 : -_REACH], grey[:, _REACH : -_REACH - 1])
    total = int(cv2.sumElems(sharp)[0]) * reach
    if total == 0:
        return 0.0
    # Unsigned, so that a difference below nothing stays at nothing.
    lost = cv2.subtract(cv2.multiply(sharp, reach, dtype=cv2.CV_16U), cv2.add(blurred, 0, dtype=cv2.CV_16U))
    return int(cv2.sumElems(lost)[0]) / total


def texture_of(grey: np.ndarray) -> float:
    """Share of 16-pixel squares whose grey levels differ by 24 or more, 0 to 1."""
    rows, cols = grey.shape[0] // _SQUARE, grey.shape[1] // _SQUARE
    if rows == 0 or cols == 0:
        return 0.0
    squares = grey[: rows * _SQUARE, : cols * _SQUARE].reshape(rows, _SQUARE, cols, _SQUARE)
    # Rows first: whole rows at once, then only the sixteenth that is left.
    spread = squares.max(axis=1).max(axis=2).astype(np.int16) - squares.min(axis=1).min(axis=2)
    share: float = int((spread >= _STRUCTURE).sum()) / (rows * cols)
    return share
