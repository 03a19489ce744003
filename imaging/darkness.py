"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness and chroma are read from the photo itself (the bright end of their
surface, locally where the light falls off). A place is dark when its L*, as a share of the prawns'
own, lies under a line; black spot pigment is dark and nearly colourless (CV-6-10), so low chroma
counts towards dark and full chroma against it: a brown band or a cooked red keeps its colour. Dark
places narrower than 1.4 % of the photo's long side are folds, legs, eyes or the shade between pieces
more often than not, and are left out. Two known errors are then taken out of the share, as for any
test that misses some and raises false alarms: what sound prawns of that kind show by themselves, and
the part of black surface that is found at all. The range is the share with the line moved down and up.
Does not hold: small spots photographed from afar; bands that are black, deep shade as wide as a spot,
gut contents seen through the shell (CV-6-47), ink.
Sources: W. Rogan, B. Gladen, Am. J. Epidemiol. 107 (1978) 71, for the correction; the figures are our
own, set on drawn scenes and common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma

LINE_MOVED = {"card": 0.04, "surroundings": 0.06, "camera": 0.06}  # of the prawns' own L*, either way
FOUND_SHARE = 0.50  # part of black surface that is found
SPOT_WIDTH = 0.014  # of the photo's long side: narrower is left out
PATCH_WIDTH = 0.034  # of the photo's long side, without a card: wider is more than a spot
PATCH_MM = 12.0  # the same with a card
_CHROMA_WEIGHT = 0.1  # on grey prawns, whose chroma says little
_MORE_CHROMA_WEIGHT = 0.2  # added on prawns of full colour
_GREY_CHROMA, _RICH_CHROMA = 6.0, 20.0  # own C*ab between which that is added
_LEAST_CHROMA = 8.0
_FULL_CHROMA, _USUAL_CHROMA = 1.2, 0.8  # of the prawns' own


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
    own_lightness : float
        L* that the prawns' own surface was read to have.
    shade, contrast : float
        L* that the darkest twentieth of the surface lies under, and the spread between its quartiles, both as
        shares of its own L*: where ice or frost lies over it like a veil, the one is high and the other low.
    dark : ndarray of shape (rows, cols), bool
    """

    share: float
    share_low: float
    share_high: float
    raw_share: float
    patch_share: float
    own_lightness: float
    shade: float
    contrast: float
    dark: np.ndarray


def measure_darkness(
    lab: np.ndarray, prawn: np.ndarray, baseline: Baseline, balance_kind: str, mm_per_pixel: float | None
) -> Darkness:
    """Measure the dark share of the prawn surface.

    Parameters
    ----------
    lab : ndarray of shape (rows, cols, 3), float32
        Balanced Lab of the half-size photo. Not changed.
    prawn : ndarray of shape (rows, cols), bool
        At least one pixel true.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera.
    mm_per_pixel : float or None
        Of `lab`, from the card.

    Returns
    -------
    Darkness
    """
    lightness = _without_reflections(lab)
    index, own = _blackness_index(lab, lightness, prawn)
    moved = LINE_MOVED[balance_kind]
    spot = _disc(SPOT_WIDTH * max(prawn.shape))
    low, middle, high = (
        _wide_places((index < baseline.dark_ratio + step) & prawn, spot) for step in (-moved, 0.0, moved)
    )
    surface = float(prawn.sum())
    patch = _disc(PATCH_MM / mm_per_pixel if mm_per_pixel else PATCH_WIDTH * max(prawn.shape))
    shares = [float(mask.sum()) / surface for mask in (middle, low, high)]
    return Darkness(
        *(_true_share(share, baseline.own_dark_share) for share in shares),
        shares[0],
        float(_wide_places(middle, patch).sum()) / surface,
        own,
        *_veil_signs(lightness[prawn], own),
        middle,
    )


def _veil_signs(surface: np.ndarray, own: float) -> tuple[float, float]:
    shade, low, high = (_level_at(surface, share) / own for share in (0.05, 0.25, 0.75))
    return shade, high - low


def _true_share(measured: float, own: float) -> float:
    """The share that must be there, when sound surface shows `own` and black surface is found in part."""
    return min(1.0, max(0.0, (measured - own) / (FOUND_SHARE - own)))


def _without_reflections(lab: np.ndarray) -> np.ndarray:
    """L* without small bright specks: a reflection on a black place must not hide it."""
    opened = cv2.morphologyEx(np.ascontiguousarray(lab[..., 0]), cv2.MORPH_OPEN, _disc(3))
    return cv2.medianBlur(opened, 3)


def _blackness_index(lab: np.ndarray, lightness: np.ndarray, prawn: np.ndarray) -> tuple[np.ndarray, float]:
    """L* as a share of the prawns' own, less where chroma is low; and that own L*."""
    # The bright end, because with many black heads the middle of all surface is no longer sound.
    own = max(1.0, 0.9 * _level_at(lightness[prawn], 0.80))
    colour = chroma(lab)
    sound = prawn & (lightness > 0.75 * own)
    own_chroma = _level_at(colour[sound], 0.5)
    kept = cv2.min(colour / max(_LEAST_CHROMA, own_chroma), _FULL_CHROMA) - _USUAL_CHROMA
    richness = min(1.0, max(0.0, (own_chroma - _GREY_CHROMA) / (_RICH_CHROMA - _GREY_CHROMA)))
    weight = _CHROMA_WEIGHT + _MORE_CHROMA_WEIGHT * richness
    return lightness / _own_at_each_place(lightness, sound, own) + weight * kept, own


def _level_at(values: np.ndarray, share: float) -> float:
    """The value that `share` of the values lie below, to a quarter (a histogram; sorting takes ten times longer)."""
    if values.size == 0:
        return 0.0
    counts = np.cumsum(np.bincount((values * 4).astype(np.int32)))
    return float(np.searchsorted(counts, share * counts[-1])) / 4


def _own_at_each_place(lightness: np.ndarray, sound: np.ndarray, own: float) -> np.ndarray:
    """The prawns' own L* where light falls off over the photo: never more than a fifth from the whole."""
    size = (max(1, lightness.shape[1] // 8), max(1, lightness.shape[0] // 8))
    weight = cv2.resize(sound.astype(np.float32), size, interpolation=cv2.INTER_AREA)
    total = cv2.resize(sound * lightness, size, interpolation=cv2.INTER_AREA)
    reach = (max(3, size[0] // 3) | 1,) * 2
    weight, total = cv2.blur(weight, reach) + 0.05, cv2.blur(total, reach) + 0.05 * own
    local = total / weight
    middle = float(np.median(local))
    local = np.clip(local * (own / max(middle, 1e-3)), 0.9 * own, 1.1 * own)
    return cv2.resize(local, lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)


def _disc(diameter: float) -> np.ndarray:
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))


def _wide_places(dark: np.ndarray, disc: np.ndarray) -> np.ndarray:
    """Dark places into which the disc fits."""
    return cv2.morphologyEx(dark.astype(np.uint8), cv2.MORPH_OPEN, disc) > 0
