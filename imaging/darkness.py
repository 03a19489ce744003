"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness is read from the photo itself (the bright end of their surface, locally where the
light falls off). Depth is how far log(L* + 16) lies below it: less light on the same surface is one factor, so a step
of pigment is as deep in shade as in full light. Every place deeper than a line is judged in places.py and counted in
full, in part or not at all. Hard light makes all dark places deeper and soft light all of them paler, so what is
counted is taken by the contrast of this very photo. Two known errors are then taken out of the share, as for any test
that misses some and raises false alarms: what sound prawns of that kind show by themselves, and the part of black
surface that is found.
Does not hold: see places.py; and black spot under thick ice; gut contents seen through the shell (CV-6-47); ink.
Sources: L* + 16 goes with the cube root of the light (CIE 15); W. Rogan, B. Gladen, Am. J. Epidemiol. 107 (1978) 71,
for the correction; the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.places import HEAD_WEIGHT, SCALE, black_heads, disc, weigh_places

FOUND_SHARE = 0.35  # part of black surface that is found, at usual contrast
CONTRAST_SHARE = 0.98  # of the surface is less deep than the photo's contrast
USUAL_CONTRAST, CONTRAST_WORTH = 0.65, 1.5  # what is measured falls by a factor e for 1 / CONTRAST_WORTH more of it
CONTRASTS = (0.45, 1.1)  # no more is read into softer or harder light
PATCH_WIDTH = 0.034  # of the photo's long side, without a card: wider is more than a spot
PATCH_MM = 12.0  # the same with a card
LEAST_DOUBT = {"card": 0.03, "surroundings": 0.04, "camera": 0.04}  # either way, whatever the share
DOUBT = 0.4  # of the share, either way, and upwards of the dark places that were not counted
_BLACK = 16.0  # L* + 16 goes with the cube root of the light (CIE 15): its logarithm falls by as much in any light
_LEVELS = np.rint(SCALE * np.log((np.arange(256) / 2 + _BLACK) / _BLACK)).clip(0, 255).astype(np.uint8)


@dataclass(frozen=True)
class Darkness:
    """What looked dark.

    Attributes
    ----------
    share, share_low, share_high : float
        Of the prawn surface, 0 to 1, known errors taken out.
    raw_share : float
        Before that, as if in light of usual contrast.
    patch_share : float
        Part of `raw_share` in places wider than a spot.
    undecided : float
        Share of the surface in dark places that did not look like black spot and were not counted.
    places : float
        How many places of equal size the counted dark would make: (sum of areas) squared / sum of squares.
    own_lightness : float
        L* that the prawns' own surface was read to have.
    shade : float
        L* that the darkest twentieth of the surface lies under, as a share of its own L*.
    dark : ndarray of shape (rows, cols), bool
        In pixels of the photo: places that count by half or more.
    """

    share: float
    share_low: float
    share_high: float
    raw_share: float
    patch_share: float
    undecided: float
    places: float
    own_lightness: float
    shade: float
    dark: np.ndarray


def measure_darkness(
    lightness: np.ndarray,
    prawn: np.ndarray,
    baseline: Baseline,
    balance_kind: str,
    mm_per_pixel: float | None,
    has_heads: bool,
) -> Darkness:
    """Measure the dark share of the prawn surface.

    Parameters
    ----------
    lightness : ndarray of shape (rows, cols), uint8
        Balanced L* of the photo, 0 to 200 for 0 to 100. Not changed.
    prawn : ndarray of shape (rows, cols), uint8
        1 where prawn; at least one.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera.
    mm_per_pixel : float or None
        Of `lightness`, from the card.
    has_heads : bool
        Whether the goods have their heads on.

    Returns
    -------
    Darkness
    """
    lightness = _without_reflections(lightness)
    surface = lightness[::2, ::2][prawn[::2, ::2] > 0]
    own = max(10.0, _level_at(surface, 0.75))
    depth = _depth(lightness, prawn, own)
    line = float(np.log((own / 2 + _BLACK) / (baseline.dark_ratio * own / 2 + _BLACK)))
    weight, is_deep = weigh_places(depth, prawn, line)
    if has_heads:
        weight = cv2.max(weight, cv2.multiply(cv2.bitwise_and(black_heads(depth), is_deep), HEAD_WEIGHT))
    area = float(cv2.countNonZero(prawn))
    counted = cv2.sumElems(weight)[0] / 255 / area
    undecided = cv2.countNonZero(is_deep) / area - counted
    raw = counted * _by_contrast(_level_at(depth[::2, ::2][prawn[::2, ::2] > 0], CONTRAST_SHARE) / SCALE)
    dark = weight >= 128
    patch = PATCH_MM / mm_per_pixel if mm_per_pixel else PATCH_WIDTH * max(prawn.shape)
    share = _true_share(raw, baseline.own_dark_share)
    low, high = _range(share, undecided, balance_kind)
    shade = _level_at(surface, 0.05) / own
    small = _on_squares(dark)
    wide = 16 * cv2.countNonZero(cv2.morphologyEx(small, cv2.MORPH_OPEN, disc(patch / 4))) / area
    return Darkness(share, low, high, raw, wide, undecided, _places(small), own / 2, shade, dark)


def _true_share(measured: float, own: float) -> float:
    """The share that must be there, when sound surface shows `own` and black surface is found in part."""
    return min(1.0, max(0.0, (measured - own) / (FOUND_SHARE - own)))


def _range(share: float, undecided: float, balance_kind: str) -> tuple[float, float]:
    least = LEAST_DOUBT[balance_kind]
    return max(0.0, (1 - DOUBT) * share - least), min(1.0, (1 + DOUBT) * share + least + DOUBT * max(0.0, undecided))


def _without_reflections(lightness: np.ndarray) -> np.ndarray:
    """L* without small bright specks: a reflection on a black place must not hide it."""
    return cv2.medianBlur(cv2.morphologyEx(lightness, cv2.MORPH_OPEN, disc(3)), 3)


def _level_at(values: np.ndarray, share: float) -> float:
    """The value that `share` of the values lie below."""
    if values.size == 0:
        return 0.0
    counts = np.cumsum(np.bincount(values, minlength=256))
    return float(np.searchsorted(counts, share * counts[-1]))


def _by_contrast(contrast: float) -> float:
    """Hard light or a hard camera makes dark places deeper, so more and wider ones pass the line; soft light fewer."""
    return float(np.exp(-CONTRAST_WORTH * (np.clip(contrast, *CONTRASTS) - USUAL_CONTRAST)))


def _depth(lightness: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """How far the log of the light lies below the prawns' own, uint8, by SCALE; 0 beside the prawns."""
    sound = SCALE * np.log((_own_at_each_place(lightness, prawn, own) / 2 + _BLACK) / _BLACK)
    sound = cv2.resize(np.rint(sound).astype(np.uint8), lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)
    depth = cv2.subtract(sound, cv2.LUT(lightness, _LEVELS))
    return cv2.bitwise_and(depth, depth, mask=prawn)


def _own_at_each_place(lightness: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """The prawns' own L* where light falls off over the photo, on squares of 8 px: never far from the whole."""
    size = (max(1, lightness.shape[1] // 8), max(1, lightness.shape[0] // 8))
    small = lightness[::2, ::2]
    sound = (small > 0.8 * own) & (prawn[::2, ::2] > 0)
    weight = cv2.resize(sound.astype(np.float32), size, interpolation=cv2.INTER_AREA)
    total = cv2.resize(np.where(sound, small, 0).astype(np.float32), size, interpolation=cv2.INTER_AREA)
    reach = (max(3, size[0] // 6) | 1,) * 2
    local = (cv2.blur(total, reach) + 0.05 * own) / (cv2.blur(weight, reach) + 0.05)
    return np.clip(local, 0.8 * own, 1.15 * own).astype(np.float32)


def _on_squares(dark: np.ndarray) -> np.ndarray:
    """Dark places on squares of 4 px, uint8, 0 or 1: finer is not needed to tell how wide and how many they are."""
    size = (max(1, dark.shape[1] // 4), max(1, dark.shape[0] // 4))
    return cv2.compare(cv2.resize(dark.view(np.uint8) * 255, size, interpolation=cv2.INTER_AREA), 127, cv2.CMP_GT) & 1


def _places(small: np.ndarray) -> float:
    stats = cv2.connectedComponentsWithStats(small, connectivity=8)[2]
    area = stats[1:, cv2.CC_STAT_AREA].astype(float)
    return float(area.sum() ** 2 / (area**2).sum()) if area.size else 0.0
