"""Colour in numbers: sRGB to CIE Lab and how far apart two colours look.

Method: sRGB decoding and matrix of IEC 61966-2-1, Lab of CIE 15 against D65 (CV-10-01 to CV-10-07).
`lab_of_linear` is OpenCV's single-precision conversion of linear light: it differs from the formula
by at most 0.04 (difference E*ab) over all 8-bit colours, and is checked for that in the tests.
Does not hold: a phone's picture is tone-mapped, so its Lab means something only after a balance.
Source of `delta_e_2000`: G. Sharma, W. Wu, E. Dalal, Color Research and Application 30 (2005) 21.
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


def chroma(lab: np.ndarray) -> np.ndarray:
    """C*ab of Lab pixels, float32, one dimension less."""
    return cv2.magnitude(lab[..., 1], lab[..., 2])


def delta_e_2000(lab_1: np.ndarray, lab_2: np.ndarray) -> np.ndarray:
    """CIEDE2000 colour difference, all weights 1.

    Parameters
    ----------
    lab_1, lab_2 : ndarray of shape (..., 3), float64
        L*, a*, b*. Not changed.

    Returns
    -------
    ndarray of shape (...), float64
    """
    l_1, a_1, b_1 = np.moveaxis(np.asarray(lab_1, np.float64), -1, 0)
    l_2, a_2, b_2 = np.moveaxis(np.asarray(lab_2, np.float64), -1, 0)
    c_mean = (np.hypot(a_1, b_1) + np.hypot(a_2, b_2)) / 2
    stretch = 1 + 0.5 * (1 - np.sqrt(c_mean**7 / (c_mean**7 + 25.0**7)))
    c_1, c_2 = np.hypot(stretch * a_1, b_1), np.hypot(stretch * a_2, b_2)
    h_1, h_2 = np.arctan2(b_1, stretch * a_1) % (2 * np.pi), np.arctan2(b_2, stretch * a_2) % (2 * np.pi)
    both = (c_1 * c_2) != 0
    turn = np.where(both, _shorter_turn(h_2 - h_1), 0.0)
    hue = np.where(both, (h_1 + turn / 2) % (2 * np.pi), h_1 + h_2)
    return _weighted(l_1, l_2, c_1, c_2, turn, hue)


def _shorter_turn(turn: np.ndarray) -> np.ndarray:
    """Turn of hue the short way round; opposite hues (half a turn, to rounding) stay as they come, as published."""
    edge = np.pi + 1e-9
    return turn - 2 * np.pi * (turn > edge) + 2 * np.pi * (turn < -edge)


def _weighted(l_1, l_2, c_1, c_2, turn, hue) -> np.ndarray:
    d_l, d_c = l_2 - l_1, c_2 - c_1
    d_h = 2 * np.sqrt(c_1 * c_2) * np.sin(turn / 2)
    l_off, c_bar = ((l_1 + l_2) / 2 - 50) ** 2, (c_1 + c_2) / 2
    ripple = (
        1
        - 0.17 * np.cos(hue - np.radians(30))
        + 0.24 * np.cos(2 * hue)
        + 0.32 * np.cos(3 * hue + np.radians(6))
        - 0.20 * np.cos(4 * hue - np.radians(63))
    )
    s_l = 1 + 0.015 * l_off / np.sqrt(20 + l_off)
    s_c, s_h = 1 + 0.045 * c_bar, 1 + 0.015 * c_bar * ripple
    bend = np.radians(30) * np.exp(-(((np.degrees(hue) - 275) / 25) ** 2))
    r_t = -2 * np.sqrt(c_bar**7 / (c_bar**7 + 25.0**7)) * np.sin(2 * bend)
    l_, c_, h_ = d_l / s_l, d_c / s_c, d_h / s_h
    return np.sqrt(l_**2 + c_**2 + h_**2 + r_t * c_ * h_)
