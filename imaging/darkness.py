"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness is read from the photo itself (the bright end of their surface, locally where the
light falls off). Depth is how far log(L* + 16) lies below it: less light on the same surface is one factor, so a step
of pigment is as deep in shade as in full light. Every place deeper than a line is judged in places.py and counted in
full, in part or not at all. Two known errors are then taken out of the share, as for any test that misses some and
raises false alarms: what sound prawns of that kind show by themselves, and the part of black surface that is found,
which is less in soft light and more in hard. A small share is mostly shade that looks a little like black spot: it is
taken down where a stricter measure finds too little.
Does not hold: see places.py; and black spot under thick ice; gut contents seen through the shell (CV-6-47); ink.
Sources: L* + 16 goes with the cube root of the light (CIE 15); W. Rogan, B. Gladen, Am. J. Epidemiol. 107 (1978) 71,
for the correction; the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma
from imaging.places import COLOUR_SCALE, SCALE, disc, weigh_places

FOUND_SHARE = 0.375  # part of black surface that is found, at usual contrast
CONTRAST_SHARE = 0.98  # of the surface is less deep than the photo's contrast
USUAL_CONTRAST, CONTRAST_WORTH = 0.62, 0.8  # for 0.1 more contrast 0.08 more of the black surface is found
CONTRASTS = (0.4, 1.1)  # no more is read into softer or harder light
FOUND_SURELY, ENOUGH_SURELY = 0.25, 0.08  # part of black surface that surely counts; the share from which it is enough
_LEAST_CHROMA = 5.0
PATCH_WIDTH = 0.034  # of the photo's long side, without a card: wider is more than a spot
PATCH_MM = 12.0  # the same with a card
LEAST_DOUBT = {"card": 0.03, "surroundings": 0.04, "camera": 0.04}  # either way, whatever the share
DOUBT = 0.4  # of the share, either way, and upwards of the dark places that were not counted
_PLACE_LEVELS = (127, 63)  # of 255: places are counted at the one where they part best
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
        What was counted, before that.
    patch_share : float
        Part of `raw_share` in places wider than a spot.
    undecided : float
        Share of the surface in dark places that did not look like black spot and were not counted.
    places : float
        How many places of equal size would be as even as what was counted.
    own_lightness : float
        L* that the prawns' own surface was read to have.
    own_chroma : float
        C*ab of the middle of the surface.
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
    own_chroma: float
    shade: float
    dark: np.ndarray


def measure_darkness(
    lightness: np.ndarray,
    lab: np.ndarray,
    prawn: np.ndarray,
    baseline: Baseline,
    balance_kind: str,
    mm_per_pixel: float | None,
) -> Darkness:
    """Measure the dark share of the prawn surface.

    Parameters
    ----------
    lightness : ndarray of shape (rows, cols), uint8
        Balanced L* of the photo, 0 to 200 for 0 to 100. Not changed.
    lab : ndarray of shape (rows / 2, cols / 2, 3), float32
        Balanced Lab of the photo at half its size. Not changed.
    prawn : ndarray of shape (rows, cols), uint8
        1 where prawn; at least one.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera.
    mm_per_pixel : float or None
        Of `lightness`, from the card.

    Returns
    -------
    Darkness
    """
    lightness = _without_reflections(lightness)
    surface = _counts(lightness, prawn)
    own = max(10.0, _level_at(surface, 0.75))
    depth = _depth(lightness, prawn, own)
    line = float(np.log((own / 2 + _BLACK) / (baseline.dark_ratio * own / 2 + _BLACK)))
    colours = chroma(lab)
    own_chroma = _own_chroma(colours, prawn)
    places = weigh_places(depth, _by_own(colours, own_chroma, prawn.shape), prawn, line)
    area = float(cv2.countNonZero(prawn))
    undecided = cv2.countNonZero(places.dark) / area - places.counted
    contrast = _level_at(_counts(depth, prawn), CONTRAST_SHARE) / SCALE
    enough = min(1.0, places.surely / (FOUND_SURELY * ENOUGH_SURELY))
    share = enough * _true_share(places.counted, baseline.own_dark_share, contrast)
    low, high = _range(share, undecided, balance_kind)
    small = _on_squares(places.weight)
    patch = PATCH_MM / mm_per_pixel if mm_per_pixel else PATCH_WIDTH * max(prawn.shape)
    cores = cv2.morphologyEx(cv2.compare(small, 127, cv2.CMP_GT), cv2.MORPH_OPEN, disc(patch / 4))
    return Darkness(
        share=share,
        share_low=low,
        share_high=high,
        raw_share=places.counted,
        patch_share=16 * cv2.countNonZero(cores) / area,
        undecided=undecided,
        places=max(_equal_places(small, level) for level in _PLACE_LEVELS),
        own_lightness=own / 2,
        own_chroma=own_chroma,
        shade=_level_at(surface, 0.05) / own,
        dark=places.weight >= 128,
    )


def _true_share(measured: float, own: float, contrast: float) -> float:
    """The share that must be there, when sound surface shows `own` and black surface is found in part.

    Soft light, blur and thin ice make black paler, so less of it passes the line: the lower the contrast of this photo,
    the smaller the part that is found.
    """
    found = FOUND_SHARE + CONTRAST_WORTH * (float(np.clip(contrast, *CONTRASTS)) - USUAL_CONTRAST)
    return min(1.0, max(0.0, (measured - own) / (found - own)))


def _range(share: float, undecided: float, balance_kind: str) -> tuple[float, float]:
    least = LEAST_DOUBT[balance_kind]
    return max(0.0, (1 - DOUBT) * share - least), min(1.0, (1 + DOUBT) * share + least + DOUBT * max(0.0, undecided))


def _without_reflections(lightness: np.ndarray) -> np.ndarray:
    """L* without small bright specks: a reflection on a black place must not hide it."""
    return cv2.medianBlur(cv2.morphologyEx(lightness, cv2.MORPH_OPEN, disc(3)), 3)


def _counts(levels: np.ndarray, prawn: np.ndarray) -> np.ndarray:
    """How many pixels of the prawns have each level or less, one pixel in four looked at."""
    image, mask = (np.ascontiguousarray(one[::2, ::2]) for one in (levels, prawn))
    return np.cumsum(cv2.calcHist([image], [0], mask, [256], [0, 256]))


def _level_at(counts: np.ndarray, share: float) -> float:
    """The level that `share` of the pixels lie below."""
    return float(np.searchsorted(counts, share * counts[-1])) if counts[-1] else 0.0


def _own_chroma(colours: np.ndarray, prawn: np.ndarray) -> float:
    few = colours[::4, ::4]  # one pixel in sixteen is plenty for a middle
    surface = few[cv2.resize(prawn, few.shape[::-1], interpolation=cv2.INTER_NEAREST) > 0]
    return float(np.median(surface)) if surface.size else 0.0


def _by_own(colours: np.ndarray, own: float, shape: tuple[int, int]) -> np.ndarray:
    """C*ab of each pixel as a share of the prawns' own, uint8, by COLOUR_SCALE."""
    levels = cv2.convertScaleAbs(cv2.blur(colours, (3, 3)), alpha=COLOUR_SCALE / max(_LEAST_CHROMA, own))
    return cv2.resize(levels, shape[::-1], interpolation=cv2.INTER_LINEAR)


def _depth(lightness: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """How far the log of the light lies below the prawns' own, uint8, by SCALE; 0 beside the prawns."""
    sound = SCALE * np.log((_own_at_each_place(lightness, prawn, own) / 2 + _BLACK) / _BLACK)
    sound = cv2.resize(np.rint(sound).astype(np.uint8), lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)
    depth = cv2.subtract(sound, cv2.LUT(lightness, _LEVELS))
    return cv2.bitwise_and(depth, depth, mask=prawn)


def _own_at_each_place(lightness: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """The prawns' own L* where light falls off over the photo, on squares of 8 px: never far from the whole."""
    size = (max(1, lightness.shape[1] // 8), max(1, lightness.shape[0] // 8))
    small = lightness[::4, ::4]  # one pixel in sixteen is plenty for a mean
    sound = (small > 0.8 * own) & (prawn[::4, ::4] > 0)
    weight = cv2.resize(sound.astype(np.float32), size, interpolation=cv2.INTER_AREA)
    total = cv2.resize(np.where(sound, small, 0).astype(np.float32), size, interpolation=cv2.INTER_AREA)
    reach = (max(3, size[0] // 6) | 1,) * 2
    local = (cv2.blur(total, reach) + 0.05 * own) / (cv2.blur(weight, reach) + 0.05)
    return np.clip(local, 0.8 * own, 1.15 * own).astype(np.float32)


def _on_squares(weight: np.ndarray) -> np.ndarray:
    """Weights on squares of 4 px, uint8: finer is not needed to tell how wide and how many places are."""
    size = (max(1, weight.shape[1] // 4), max(1, weight.shape[0] // 4))
    return cv2.resize(weight, size, interpolation=cv2.INTER_AREA)


def _equal_places(small: np.ndarray, level: int) -> float:
    """How many places of equal size would be as even as those above `level`: (sum of areas)^2 / sum of squares.

    One glove or one shadow is one place at every level; spots joined by a little shade part at a higher one.
    """
    count, number = cv2.connectedComponents(cv2.compare(small, level, cv2.CMP_GT), connectivity=8)
    counted = np.bincount(number.ravel(), small.ravel(), count)[1:]
    return float(counted.sum() ** 2 / (counted**2).sum()) if counted.size else 0.0
