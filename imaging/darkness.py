"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness is read from the photo itself (the bright end of their surface,
locally where the light falls off). Depth is what a place lacks of it: 1 - L* / own L*. Every place
deeper than a line is then judged by what it is known to look like, and counted in full, in part or not
at all: black spot ends in a step, while shade between pieces fades on the side away from the piece
that throws it, so the part of the rim that is a step counts; shade is shallow; folds, legs and plate
edges are thin. On head-on goods the core of a wide, deep place is a black head whatever its rim is.
Two known errors are then taken out of the share, as for any test that misses some and raises false
alarms: what sound prawns of that kind show by themselves, and the part of black surface that is found.
Does not hold: black bands with sharp edges; shade with a step all round (under a finger, a flash from
the side); black spot under thick ice; gut contents seen through the shell (CV-6-47); ink.
Sources: B. Horn, Computer Graphics and Image Processing 3 (1974) 277: light changes slowly over a
surface, pigment at a step; W. Rogan, B. Gladen, Am. J. Epidemiol. 107 (1978) 71, for the correction;
the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline

FOUND_SHARE = 0.52  # part of black surface that is found
STEP = 0.24  # of the prawns' own L* within STEP_REACH pixels: a step
STEP_REACH = 5  # px of the photo of 1000
STEPPED = (0.52, 1.0)  # part of a rim that is a step: from nothing to full weight
OUTLINE_WEIGHT = 0.25  # of a rim that is the outline of the prawns: there liner or ice begins, a step in any case
DEEPER = (0.02, 0.13)  # mean depth beyond the line: from nothing to full weight
WIDTH = (1.0, 2.8)  # area by rim, px of the photo of 1000: from nothing to full weight
HEAD_DEPTH, HEAD_WIDTH = 0.46, 0.02  # of black heads; the width of the photo's long side
PATCH_WIDTH = 0.034  # of the photo's long side, without a card: wider is more than a spot
PATCH_MM = 12.0  # the same with a card
LEAST_DOUBT = {"card": 0.03, "surroundings": 0.04, "camera": 0.04}  # either way, whatever the share
DOUBT = 0.4  # of the share, either way, and upwards of the dark places that were not counted
_SCALE = 200  # depth 1 in eight bits
_NEAR = np.ones((3, 3), np.uint8)


@dataclass(frozen=True)
class Darkness:
    """What looked dark.

    Attributes
    ----------
    share, share_low, share_high : float
        Of the prawn surface, 0 to 1, known errors taken out.
    raw_share : float
        Before that.
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
    line = 1 - baseline.dark_ratio
    weight, is_deep = _weighed(depth, prawn, line)
    if has_heads:
        weight = cv2.max(weight, cv2.bitwise_and(_black_heads(depth), cv2.multiply(is_deep, 255)))
    area = float(cv2.countNonZero(prawn))
    raw = cv2.sumElems(weight)[0] / 255 / area
    undecided = cv2.countNonZero(is_deep) / area - raw
    dark = weight >= 128
    patch = PATCH_MM / mm_per_pixel if mm_per_pixel else PATCH_WIDTH * max(prawn.shape)
    share = _true_share(raw, baseline.own_dark_share)
    low, high = _range(share, undecided, balance_kind)
    shade = _level_at(surface, 0.05) / own
    small = _on_squares(dark)
    wide = 16 * cv2.countNonZero(cv2.morphologyEx(small, cv2.MORPH_OPEN, _disc(patch / 4))) / area
    return Darkness(share, low, high, raw, wide, undecided, _places(small), own / 2, shade, dark)


def _true_share(measured: float, own: float) -> float:
    """The share that must be there, when sound surface shows `own` and black surface is found in part."""
    return min(1.0, max(0.0, (measured - own) / (FOUND_SHARE - own)))


def _range(share: float, undecided: float, balance_kind: str) -> tuple[float, float]:
    least = LEAST_DOUBT[balance_kind]
    return max(0.0, (1 - DOUBT) * share - least), min(1.0, (1 + DOUBT) * share + least + DOUBT * max(0.0, undecided))


def _without_reflections(lightness: np.ndarray) -> np.ndarray:
    """L* without small bright specks: a reflection on a black place must not hide it."""
    return cv2.medianBlur(cv2.morphologyEx(lightness, cv2.MORPH_OPEN, _disc(3)), 3)


def _level_at(values: np.ndarray, share: float) -> float:
    """The value that `share` of the values lie below."""
    if values.size == 0:
        return 0.0
    counts = np.cumsum(np.bincount(values, minlength=256))
    return float(np.searchsorted(counts, share * counts[-1]))


def _depth(lightness: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """What each place lacks of the prawns' own L*, uint8, 0 to _SCALE; 0 beside the prawns."""
    gain = _SCALE / _own_at_each_place(lightness, prawn, own)
    gain = cv2.resize(gain, lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)
    kept = cv2.multiply(lightness, gain, dtype=cv2.CV_8U)
    depth = cv2.subtract(np.full_like(kept, _SCALE), kept)
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


def _weighed(depth: np.ndarray, prawn: np.ndarray, line: float) -> tuple[np.ndarray, np.ndarray]:
    """How far each place beyond the line counts, uint8, 0 to 255; and where the line is passed, uint8, 0 or 1."""
    dark = cv2.compare(depth, line * _SCALE, cv2.CMP_GT) & 1
    reach = _disc(STEP_REACH)
    step = cv2.subtract(cv2.dilate(depth, reach), cv2.erode(depth, reach))
    count, numbered = cv2.connectedComponents(dark, connectivity=4)
    # Only the dark pixels are looked at from here on: a tenth of the photo.
    places = np.flatnonzero(dark.view(bool))
    number = numbered.ravel()[places]
    on_rim = cv2.subtract(dark, cv2.erode(dark, _NEAR)).ravel()[places] > 0
    rim, at_rim = places[on_rim], number[on_rim]
    worth = np.where(cv2.erode(prawn, reach).ravel()[rim] > 0, 1.0, OUTLINE_WEIGHT)
    is_step = step.ravel()[rim] > STEP * _SCALE
    stepped = np.bincount(at_rim, worth * is_step, count) / (np.bincount(at_rim, worth, count) + 1e-6)
    area = np.maximum(np.bincount(number, minlength=count), 1)
    deeper = np.bincount(number, depth.ravel()[places], count) / (area * _SCALE) - line
    width = area / (np.bincount(at_rim, minlength=count) + 1e-6)
    weight = _between(stepped, *STEPPED) * _between(deeper, *DEEPER) * _between(width, *WIDTH)
    weighed = np.zeros_like(dark)
    weighed.ravel()[places] = np.rint(255 * weight).astype(np.uint8)[number]
    return weighed, dark


def _between(value: np.ndarray, nothing: float, full: float) -> np.ndarray:
    return np.clip((value - nothing) / (full - nothing), 0, 1)


def _black_heads(depth: np.ndarray) -> np.ndarray:
    """255 in the core of places as deep and wide as a black head, on squares of 4 px."""
    size = (depth.shape[1] // 4, depth.shape[0] // 4)
    deep = cv2.compare(cv2.resize(depth, size, interpolation=cv2.INTER_AREA), HEAD_DEPTH * _SCALE, cv2.CMP_GT)
    core = cv2.morphologyEx(deep, cv2.MORPH_OPEN, _disc(HEAD_WIDTH * max(size)))
    return cv2.resize(cv2.dilate(core, _NEAR), depth.shape[::-1], interpolation=cv2.INTER_NEAREST)


def _on_squares(dark: np.ndarray) -> np.ndarray:
    """Dark places on squares of 4 px, uint8, 0 or 1: finer is not needed to tell how wide and how many they are."""
    size = (max(1, dark.shape[1] // 4), max(1, dark.shape[0] // 4))
    return cv2.compare(cv2.resize(dark.view(np.uint8) * 255, size, interpolation=cv2.INTER_AREA), 127, cv2.CMP_GT) & 1


def _places(small: np.ndarray) -> float:
    stats = cv2.connectedComponentsWithStats(small, connectivity=8)[2]
    area = stats[1:, cv2.CC_STAT_AREA].astype(float)
    return float(area.sum() ** 2 / (area**2).sum()) if area.size else 0.0


def _disc(diameter: float) -> np.ndarray:
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
