"""The reference card: what is printed on it, and where it lies in a photo.

Method: four ArUco markers of OpenCV's 4x4_50 dictionary stand in the corners of an A6 card; any two
of them fix the card's plane in the photo (a homography). Through it the millimetre is known
at the card's place, and the ground beside it.
Its patches are for the eye: advice compares a piece with itself and needs no colour from them.
Does not hold: on a card bent by more than a few millimetres, or when fewer than two markers are in view.
Source: ArUco dictionaries of OpenCV.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np

CARD_MM = (148.0, 105.0)  # A6, landscape (ISO 216)
CARD_VERSION = "card-1"
MARKER_MM = 20.0
MARGIN_MM = 5.0
QUIET_MM = 2.0  # white ring that the finder needs around each marker
DICTIONARY = cv2.aruco.DICT_4X4_50
# Id of the marker in each corner, as top-left corner in mm.
MARKERS = {
    31: (MARGIN_MM, MARGIN_MM),
    32: (CARD_MM[0] - MARGIN_MM - MARKER_MM, MARGIN_MM),
    33: (CARD_MM[0] - MARGIN_MM - MARKER_MM, CARD_MM[1] - MARGIN_MM - MARKER_MM),
    34: (MARGIN_MM, CARD_MM[1] - MARGIN_MM - MARKER_MM),
}


@dataclass(frozen=True)
class Patch:
    """One printed square: its name, its place on the card in mm, its sRGB value (0 to 255)."""

    name: str
    is_neutral: bool
    left_mm: float
    top_mm: float
    srgb: tuple[int, int, int]
    side_mm: float = 19.0


_COLUMNS = (31.0, 53.5, 76.0, 98.5)
_ROWS = (5.0, 27.0, 49.0)
# Neutral steps and colours alternate, so that light falling off across the card touches both alike.
# The colours are muted ones that an office printer reaches, near what lies in a carton.
PATCHES = (
    Patch("white", True, _COLUMNS[0], _ROWS[0], (243, 243, 243)),
    Patch("cooked orange", False, _COLUMNS[1], _ROWS[0], (224, 134, 92)),
    Patch("grey 5", True, _COLUMNS[2], _ROWS[0], (119, 119, 119)),
    Patch("liner blue", False, _COLUMNS[3], _ROWS[0], (92, 128, 178)),
    Patch("leaf green", False, _COLUMNS[0], _ROWS[1], (98, 140, 88)),
    Patch("grey 8", True, _COLUMNS[1], _ROWS[1], (200, 200, 200)),
    Patch("board brown", False, _COLUMNS[2], _ROWS[1], (164, 128, 88)),
    Patch("grey 3.5", True, _COLUMNS[3], _ROWS[1], (83, 83, 83)),
    Patch("black", True, _COLUMNS[0], _ROWS[2], (50, 50, 50)),
    Patch("shell red", False, _COLUMNS[1], _ROWS[2], (176, 84, 74)),
    Patch("grey 6.5", True, _COLUMNS[2], _ROWS[2], (160, 160, 160)),
    Patch("pale shell", False, _COLUMNS[3], _ROWS[2], (206, 190, 160)),
)
SCALE_LEFT_MM, SCALE_TOP_MM, SCALE_LENGTH_MM = 34.0, 82.0, 80.0


@dataclass(frozen=True)
class FoundCard:
    """The card in a photo.

    Attributes
    ----------
    to_photo : ndarray of shape (3, 3), float64
        Homography from card millimetres to photo pixels.
    outline : ndarray of shape (4, 2), float32
        Corners of the card in photo pixels.
    mm_per_pixel : float
        At the card's middle.
    markers : int
        How many of the four markers were seen, 2 to 4.
    """

    to_photo: np.ndarray
    outline: np.ndarray
    mm_per_pixel: float
    markers: int


@lru_cache(maxsize=2)
def _finder(smallest: int, largest: int) -> cv2.aruco.ArucoDetector:
    settings = cv2.aruco.DetectorParameters()
    settings.adaptiveThreshWinSizeMin = smallest
    settings.adaptiveThreshWinSizeMax = largest
    settings.adaptiveThreshWinSizeStep = 20
    settings.minMarkerPerimeterRate = 0.06
    settings.maxMarkerPerimeterRate = 1.2
    settings.errorCorrectionRate = 0.6
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    return cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(DICTIONARY), settings)


def _marker_corners_mm(marker: int) -> np.ndarray:
    x, y = MARKERS[marker]
    far = MARKER_MM
    return np.array([[x, y], [x + far, y], [x + far, y + far], [x, y + far]], np.float32)


def find_card(grey: np.ndarray) -> FoundCard | None:
    """Find the reference card in a photo, in any position.

    Parameters
    ----------
    grey : ndarray of shape (rows, cols), uint8
        Not changed.

    Returns
    -------
    FoundCard or None
        None when fewer than two of its markers are seen or they do not lie as printed.
    """
    seen = _markers(grey, 13, 13)
    if len(seen) == 1:  # a card there is: look again, closer, at three times the cost
        seen = _markers(grey, 7, 27)
    if len(seen) < 2:
        return None
    card = np.concatenate([_marker_corners_mm(marker) for marker in seen])
    photo = np.concatenate(list(seen.values())).astype(np.float32)
    to_photo, kept = cv2.findHomography(card, photo, cv2.RANSAC, max(2.0, 0.004 * max(grey.shape)))
    if to_photo is None or kept.sum() < 0.75 * len(card):
        return None
    return _placed(to_photo, len(seen))


def _markers(grey: np.ndarray, smallest: int, largest: int) -> dict[int, np.ndarray]:
    """Corners, shape (4, 2), of the card's markers by their id."""
    corners, ids, _ = _finder(smallest, largest).detectMarkers(grey)
    if ids is None:
        return {}
    return {int(i): c.reshape(4, 2) for i, c in zip(ids.ravel(), corners, strict=True) if int(i) in MARKERS}


def _placed(to_photo: np.ndarray, markers: int) -> FoundCard | None:
    width, height = CARD_MM
    outline = project(to_photo, np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float32))
    area = abs(cv2.contourArea(outline))
    if not np.isfinite(outline).all() or not cv2.isContourConvex(outline) or area < 400:
        return None
    return FoundCard(to_photo, outline, float(np.sqrt(width * height / area)), markers)


def project(to_photo: np.ndarray, points_mm: np.ndarray) -> np.ndarray:
    """Card millimetres to photo pixels; both of shape (n, 2), float32."""
    return cv2.perspectiveTransform(points_mm.reshape(-1, 1, 2).astype(np.float32), to_photo).reshape(-1, 2)
