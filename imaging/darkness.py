"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness is read from the photo itself (the bright end of their surface, locally where the
light falls off). Depth is how far log(L* + 16) lies below it: less light on the same surface is one factor, so a step
of pigment is as deep in shade as in full light. Every place deeper than half the photo's contrast is judged in
places.py and counted by the probability that it is black spot. Two known errors are then taken out of the share, as
for any test that misses some and raises false alarms: what sound prawns of that kind show by themselves, and the part
of black surface that is found, which is less under ice. Small shares are mostly shade that looks a little like black
spot, and are taken down. The range is wider in hard light, where shade looks like black spot.
Does not hold: see places.py; and black spot under thick ice; gut contents seen through the shell (CV-6-47); ink.
Sources: L* + 16 goes with the cube root of the light (CIE 15); W. Rogan, B. Gladen, Am. J. Epidemiol. 107 (1978) 71,
for the correction; K. He, J. Sun, X. Tang, IEEE Trans. Pattern Anal. Mach. Intell. 33 (2011) 2341, for ice told by
shade; the figures are our own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma
from imaging.places import COLOUR_SCALE, COLOUR_ZERO, SCALE, Surface, disc, weigh_places
from imaging.regions import Regions

CONTRAST_SHARE = 0.98  # of the surface is less deep than the photo's contrast
# How much blackened surface each part that was counted stands for, more or less by signs of the whole photo.
STANDS_FOR = 2.1
ICE_WORTH = 6.8  # veil above where ice begins to show: it takes most of the black away
LIT_WORTH = -0.8  # part of the surface that is near its own lightness
PRAWN_WORTH = -0.6  # part of the photo that is prawn: in a pile more of what counts is shade
STANDS_BOUNDS = (1.0, 5.0)
ICE_FROM, MOST_ICE = 0.2, 0.8  # veil
SMALL = 0.05  # share: smaller ones are mostly shade that looks a little like black spot, and are taken down
FADED_WORTH, PALE_SHADE_WORTH, PALE_SHADE = 0.8, 2.0, 0.9  # of the veil; see `_veil`
LIT = (0.8, 1.2)  # of the own L*: surface that is lit like the rest
_AROUND = 7  # px of an eighth of the photo, across: the lit shell around a place
_FAR = 0.05  # weight of all lit shell of the photo beside it
LEAST_CHROMA = 5.0  # that a kind is taken to have: less is no measure of how faded it is
PATCH_WIDTH = 0.034  # of the photo's long side, without a card: wider is more than a spot
PATCH_MM = 12.0  # the same with a card
LEAST_DOUBT = {"card": 0.03, "surroundings": 0.04, "camera": 0.04}  # either way, whatever the share
DOUBT = 0.4  # of the share, either way
ICE_DOUBT = 0.25  # of the ice, upwards: it hides black and makes none
HARD_DOUBT, HARD_FROM, MOST_HARD = 0.03, -1.0, 6.0  # for each unit of log odds of hard light above, either way; at most
_LEAST_COUNT = 63  # of 255: what counts less makes no place
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
    veil : float
        How far the prawns look as under ice; see `_veil`.
    hardness : float
        Log odds that the light is hard, so that shade looks like black spot.
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
    veil: float
    hardness: float
    dark: np.ndarray


def measure_darkness(
    lightness: np.ndarray,
    lab: np.ndarray,
    regions: Regions,
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
    regions : Regions
        At the size of `lab`, with some prawn.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera.
    mm_per_pixel : float or None
        Of `lightness`, from the card.

    Returns
    -------
    Darkness
    """
    half = regions.prawn.astype(np.uint8)
    prawn = cv2.resize(half, lightness.shape[::-1], interpolation=cv2.INTER_NEAREST)
    lightness = _without_reflections(lightness)
    levels = _counts(lightness, prawn)
    own = max(10.0, _level_at(levels, 0.75))
    depth = _depth(lightness, prawn, own)
    contrast = _level_at(_counts(depth, prawn), CONTRAST_SHARE) / SCALE
    lit = _lit(lab, half, own / 2)
    colour = cv2.resize(_colour_by_lit(lab, lit), lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)
    places = weigh_places(Surface(depth, colour, prawn, contrast))
    own_chroma = _own_chroma(lab, half)
    veil = _veil(own_chroma, _level_at(levels, 0.05) / own, 2 * regions.shade / own, baseline)
    ice = float(np.clip(veil - ICE_FROM, 0, MOST_ICE))
    stands_for = _stands_for(ice, cv2.countNonZero(lit) / cv2.countNonZero(half), regions.share)
    share = _share(stands_for, places.counted, baseline.own_dark_share)
    low, high = _range(share, ice, places.hardness, balance_kind)
    small = _on_squares(places.weight)
    return Darkness(
        share=share,
        share_low=low,
        share_high=high,
        raw_share=places.counted,
        patch_share=_in_patches(small, mm_per_pixel, max(prawn.shape)) / cv2.countNonZero(prawn),
        undecided=places.cover - places.counted,
        places=max(_equal_places(small), _equal_places(_on_squares(places.core))),
        own_lightness=own / 2,
        own_chroma=own_chroma,
        veil=veil,
        hardness=places.hardness,
        dark=places.weight >= 128,
    )


def _stands_for(ice: float, lit: float, prawn: float) -> float:
    """How much blackened surface each part that was counted stands for: the part that is found, turned over."""
    return float(np.clip(STANDS_FOR + ICE_WORTH * ice + LIT_WORTH * lit + PRAWN_WORTH * prawn, *STANDS_BOUNDS))


def _share(stands_for: float, counted: float, own: float) -> float:
    share = float(np.clip(stands_for * (counted - own), 0, 1))
    return share * min(1.0, share / SMALL)


def _veil(own_chroma: float, dark_end: float, shade_among: float, baseline: Baseline) -> float:
    """Ice or frost adds white light everywhere: prawns look less coloured than their kind, and nothing is in shade.

    `dark_end` is the L* that the darkest twentieth of the surface lies under, `shade_among` that of the shade among the
    prawns, both by the prawns' own L*.
    """
    faded = 1 - own_chroma / max(LEAST_CHROMA, baseline.chroma)
    return FADED_WORTH * faded + PALE_SHADE_WORTH * (dark_end - PALE_SHADE) + shade_among


def _range(share: float, ice: float, hardness: float, balance_kind: str) -> tuple[float, float]:
    doubt = LEAST_DOUBT[balance_kind] + DOUBT * share + HARD_DOUBT * float(np.clip(hardness - HARD_FROM, 0, MOST_HARD))
    return max(0.0, share - doubt), min(1.0, share + doubt + ICE_DOUBT * ice)


def _lit(lab: np.ndarray, prawn: np.ndarray, own: float) -> np.ndarray:
    """1 where the prawns are lit like the rest, uint8, at the size of `lab`."""
    level = np.ascontiguousarray(lab[..., 0])
    return cv2.inRange(level, LIT[0] * own, LIT[1] * own) & prawn


def _colour_by_lit(lab: np.ndarray, lit: np.ndarray) -> np.ndarray:
    """C*ab by L* + 16, above that of the lit shell around; uint8 at the size of `lab`, by COLOUR_SCALE.

    Less light on shell takes a*, b* and L* + 16 down by one factor; black spot has its own colour.
    """
    level, a, b = cv2.split(lab)
    level += _BLACK
    by_light = [cv2.blur(cv2.divide(axis, level), (3, 3)) for axis in (a, b)]
    few = (max(1, lit.shape[1] // 4), max(1, lit.shape[0] // 4))  # one pixel in sixteen is plenty for a neighbourhood
    is_lit = lit.astype(np.float32)
    weight = cv2.resize(is_lit, few, interpolation=cv2.INTER_AREA)
    around = cv2.blur(weight, (_AROUND, _AROUND)) + _FAR
    shell = []
    for axis in by_light:
        total = cv2.resize(cv2.multiply(axis, is_lit), few, interpolation=cv2.INTER_AREA)
        middle = float(total.sum() / max(1.0, weight.sum()))
        shell.append((cv2.blur(total, (_AROUND, _AROUND)) + _FAR * middle) / around)
    own = cv2.resize(cv2.magnitude(*shell), lit.shape[::-1], interpolation=cv2.INTER_LINEAR)
    above = cv2.max(cv2.magnitude(*by_light) - own, -COLOUR_ZERO / COLOUR_SCALE)
    return cv2.convertScaleAbs(above, alpha=COLOUR_SCALE, beta=COLOUR_ZERO)


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


def _own_chroma(lab: np.ndarray, prawn: np.ndarray) -> float:
    surface = lab[::4, ::4][prawn[::4, ::4] > 0]  # one pixel in sixteen is plenty for a middle
    return float(np.median(chroma(surface))) if surface.size else 0.0


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
    cols, rows = (max(1, side // 4) for side in weight.shape[::-1])
    # Whole squares only, which is many times faster.
    return cv2.resize(weight[: 4 * rows, : 4 * cols], (cols, rows), interpolation=cv2.INTER_AREA)


def _in_patches(small: np.ndarray, mm_per_pixel: float | None, longest: int) -> int:
    """Pixels of the photo in places wider than a spot."""
    patch = PATCH_MM / mm_per_pixel if mm_per_pixel else PATCH_WIDTH * longest
    cores = cv2.morphologyEx(cv2.compare(small, 127, cv2.CMP_GT), cv2.MORPH_OPEN, disc(patch / 4))
    return 16 * cv2.countNonZero(cores)


def _equal_places(small: np.ndarray) -> float:
    """How many places of equal size would be as even as those that count: (sum of areas)^2 / sum of squares.

    One glove or one shadow is one place, in its core as well; spots joined by a little shade part there.
    """
    count, number = cv2.connectedComponents(cv2.compare(small, _LEAST_COUNT, cv2.CMP_GT), connectivity=8)
    counted = np.bincount(number.ravel(), small.ravel(), count)[1:]
    return float(counted.sum() ** 2 / (counted**2).sum()) if counted.size else 0.0
