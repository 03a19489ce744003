"""Colour in numbers: sRGB to CIE Lab.

Method: sRGB decoding and matrix of IEC 61966-2-1, Lab of CIE 15 against D65 (CV-10-01 to CV-10-07).
`lab_of_linear` is OpenCV's single-precision conversion of linear light: it differs from the formula
by at most 0.04 (difference E*ab) over all 8-bit colours, and is checked for that in the tests.
Does not hold: a phone's picture is tone-mapped, so only differences within one photo mean anything.
"""

from __future__ import annotations

import cv2
import numpy as np

_LEVELS = np.arange(256, dtype=np.float64) / 255
LINEAR_OF_LEVEL = np.where(_LEVELS <= 0.04045, _LEVELS / 12.92, ((_LEVELS + 0.055) / 1.055) ** 2.4)


def lab_of_linear(linear_bgr: np.ndarray) -> np.ndarray:
    """Lab of linear light.

    Parameters
    ----------
    linear_bgr : ndarray of shape (rows, cols, 3), float32
        B, G, R, 0 to 1. Not changed.

    Returns
    -------
    ndarray of shape (rows, cols, 3), float32
        L* 0 to 100, a* and b* -128 to 127, D65.
    """
    return cv2.cvtColor(linear_bgr, cv2.COLOR_LBGR2LAB)


def lab_of_srgb(pixels: np.ndarray) -> np.ndarray:
    """Lab of sRGB pixels.

    Parameters
    ----------
    pixels : ndarray of shape (rows, cols, 3), uint8
        BGR. Not changed.

    Returns
    -------
    ndarray of shape (rows, cols, 3), float32
        L* 0 to 100, a* and b* -128 to 127, D65.
    """
    return lab_of_linear(linear_of_srgb(pixels))


def linear_of_srgb(pixels: np.ndarray) -> np.ndarray:
    """Linear light, float32 0 to 1, of sRGB pixels, uint8; the shape stays."""
    return cv2.LUT(pixels, LINEAR_OF_LEVEL.astype(np.float32))
