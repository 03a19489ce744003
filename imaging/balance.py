"""What white, how bright, and which colours: from the card, or estimated from what lies around.

With the card: its neutral steps fix, for each colour channel, the curve from the photo's level to
linear light (a gain and an exponent: white balance, exposure and the phone's contrast in one); its
colours then fix a 3x3 mix that leaves neutrals alone and is held near no change.
Without: the brightest unclipped surfaces (liner, ice, paper, or the lamps' own reflections) are taken
as near white. That is a guess, so it is applied in part and the answer's range is widened.
Does not hold: where two lamps of different colour light the card and the prawns; where nothing pale
is in the photo.
Sources: von Kries scaling in linear light (CIE 15); ridge regression, textbook; the pale-surface rule
is common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging import card
from imaging.colour import LINEAR_OF_LEVEL, delta_e_2000, lab_of_linear

MIN_NEUTRALS = 4
MAX_CARD_ERROR = 6.0  # CIEDE2000, median over the neutral steps; at most this is fine
_HOLD = 0.02  # how strongly the 3x3 mix is held to no change
_PALE_LINEAR = 0.70  # linear light of a white liner or paper, L* about 87
_PART = 0.75  # share of the estimated correction that is applied without a card
_MAX_GAIN = 2.2
_LUMINANCE = np.array([[0.0722, 0.7152, 0.2126]])  # Y of linear B, G, R (CV-10-04)
# Twice L* by the square root of Y in eight bits: the root spreads the dark end over enough levels.
_LIGHTNESS_OF_ROOT = np.array(
    [round(2 * (116 * y ** (1 / 3) - 16 if y > 216 / 24389 else 24389 / 27 * y)) for y in (np.arange(256) / 255) ** 2],
    np.uint8,
)


@dataclass(frozen=True)
class Balance:
    """The way from a photo's levels to colours in daylight.

    Attributes
    ----------
    kind : str
        card, surroundings, or camera (left as the phone made it).
    curve : ndarray of shape (1, 256, 3), float32
        Linear light by level, B, G, R.
    mix : ndarray of shape (3, 3), float64
        Applied to linear B, G, R.
    error : float or None
        CIEDE2000 that is left on the neutral steps, median; None without a card.
    """

    kind: str
    curve: np.ndarray
    mix: np.ndarray
    error: float | None

    def lab(self, pixels: np.ndarray) -> np.ndarray:
        """Balanced Lab.

        Parameters
        ----------
        pixels : ndarray of shape (rows, cols, 3), uint8
            BGR. Not changed.

        Returns
        -------
        ndarray of shape (rows, cols, 3), float32
            L* 0 to 100, a* and b* -128 to 127, D65.
        """
        linear = cv2.LUT(pixels, self.curve)
        if self.kind == "card":
            linear = cv2.transform(linear, self.mix)
        return lab_of_linear(linear)

    def lightness(self, pixels: np.ndarray) -> np.ndarray:
        """Balanced L* alone, ten times cheaper: uint8, 0 to 200 for 0 to 100. Parameters as `lab`."""
        luminance = cv2.transform(cv2.LUT(pixels, self.curve), _LUMINANCE @ self.mix)
        return cv2.LUT(cv2.convertScaleAbs(cv2.sqrt(cv2.max(luminance, 0)), alpha=255), _LIGHTNESS_OF_ROOT)


def balance_by_card(photo: np.ndarray, found: card.FoundCard) -> Balance | None:
    """Balance from the reference card.

    Parameters
    ----------
    photo : ndarray of shape (rows, cols, 3), uint8
        BGR. Not changed.
    found : FoundCard

    Returns
    -------
    Balance or None
        None when fewer than four neutral steps can be used or they do not agree with each other.
    """
    samples = card.sample_patches(photo, found)
    neutrals = [p for p in card.PATCHES if p.is_neutral and p.name in samples]
    if len(neutrals) < MIN_NEUTRALS:
        return None
    curve = _neutral_curve(neutrals, samples)
    seen = [p for p in card.PATCHES if p.name in samples]
    light = np.array([_on_curve(curve, samples[p.name]) for p in seen])
    printed = np.array([linear_bgr_of(p.srgb) for p in seen])
    mix = _colour_mix(light, printed)
    error = _left_over(light @ mix.T, printed, np.array([p.is_neutral for p in seen]))
    if error > MAX_CARD_ERROR:
        return None
    return Balance("card", curve.astype(np.float32), mix, error)


def linear_bgr_of(srgb: tuple[int, int, int]) -> np.ndarray:
    """Linear B, G, R of an sRGB value given as R, G, B, 0 to 255."""
    return LINEAR_OF_LEVEL[list(srgb[::-1])]


def _neutral_curve(neutrals: list[card.Patch], samples: dict[str, np.ndarray]) -> np.ndarray:
    curve = np.empty((1, 256, 3))
    printed = np.log([linear_bgr_of(p.srgb)[0] for p in neutrals])
    for channel in range(3):
        levels = np.array([samples[p.name][channel] for p in neutrals])
        light = np.log(np.maximum(np.interp(levels, np.arange(256), LINEAR_OF_LEVEL), 1e-4))
        exponent, offset = _robust_line(light, printed)
        curve[0, :, channel] = np.exp(offset) * np.maximum(LINEAR_OF_LEVEL, 1e-5) ** exponent
    return np.clip(curve, 0, 1.5)


def _robust_line(x: np.ndarray, y: np.ndarray) -> tuple[float, float]:
    """Line through the steps; the one that fits worst is left out, as a reflection may lie on it."""
    keep = np.ones(len(x), bool)
    slope, offset = np.polyfit(x, y, 1)
    if len(x) > MIN_NEUTRALS:
        keep[np.argmax(np.abs(y - slope * x - offset))] = False
        slope, offset = np.polyfit(x[keep], y[keep], 1)
    return float(np.clip(slope, 0.5, 2.0)), float(offset)


def _on_curve(curve: np.ndarray, levels: np.ndarray) -> np.ndarray:
    return np.array([np.interp(levels[c], np.arange(256), curve[0, :, c]) for c in range(3)])


def _colour_mix(light: np.ndarray, printed: np.ndarray) -> np.ndarray:
    """3x3 whose rows add to 1 (neutrals stay), by ridge regression towards no change."""
    mix = np.eye(3)
    for row in range(3):
        others = [c for c in range(3) if c != row]
        spread = light[:, others] - light[:, [row]]
        left = spread.T @ spread + _HOLD * np.eye(2)
        share = np.linalg.solve(left, spread.T @ (printed[:, row] - light[:, row]))
        share = np.clip(share, -0.6, 0.6)
        mix[row, others] = share
        mix[row, row] = 1 - share.sum()
    return mix


def _left_over(light: np.ndarray, printed: np.ndarray, neutral: np.ndarray) -> float:
    labs = [lab_of_linear(np.clip(x, 0, 1)[None].astype(np.float32))[0] for x in (light, printed)]
    return float(np.median(delta_e_2000(labs[0][neutral], labs[1][neutral])))


def balance_by_surroundings(photo: np.ndarray) -> Balance:
    """Balance without a card, from the palest surfaces in the photo.

    Parameters
    ----------
    photo : ndarray of shape (rows, cols, 3), uint8
        BGR. Not changed.

    Returns
    -------
    Balance
        `kind` is camera when nothing pale enough was there.
    """
    small = cv2.resize(photo, (128, 96), interpolation=cv2.INTER_AREA).reshape(-1, 3)
    level = small.max(axis=1)
    open_to_use = level < 250
    if open_to_use.sum() < 400:
        return _as_the_camera_made_it()
    light = LINEAR_OF_LEVEL[small[open_to_use]]
    white = np.median(light[level[open_to_use] >= np.percentile(level[open_to_use], 95)], axis=0)
    part = _PART * _likely_pale(white)
    if part == 0:
        return _as_the_camera_made_it()
    gains = (white.mean() / white) ** part
    exposure = np.clip(_PALE_LINEAR / max(white.max(), 1e-3), 1 / _MAX_GAIN, _MAX_GAIN)
    curve = LINEAR_OF_LEVEL[None, :, None] * (gains * exposure)
    return Balance("surroundings", np.clip(curve, 0, 1.5).astype(np.float32), np.eye(3), None)


def _likely_pale(white: np.ndarray) -> float:
    """How far a bright colour may be a pale surface under a lamp and not a coloured surface, 0 to 1.

    A phone has taken out most of the lamp's colour already: what is left on a truly pale surface is
    small, and what is strong is the surface's own colour (a box full of cooked prawns).
    """
    if white.max() < 0.02:
        return 0.0
    lab = lab_of_linear((white / white.max() * 0.8)[None, None].astype(np.float32))[0, 0]
    return float(np.clip((22 - np.hypot(lab[1], lab[2])) / 12, 0, 1))


def _as_the_camera_made_it() -> Balance:
    curve = np.repeat(LINEAR_OF_LEVEL[None, :, None], 3, axis=2)
    return Balance("camera", curve.astype(np.float32), np.eye(3), None)
