"""How much of the prawn surface is blackened: a share with a range, in spots or whole heads.

Method: the prawns' own lightness is read from the photo itself (upper-middle L* of their surface,
locally where the light falls off). A place is dark when its L* is below a set share of that AND its
chroma is low: black spot pigment is dark and nearly colourless (CV-6-10), a brown band or a cooked
red keeps its colour. Lines thinner than a spot are folds and shade between pieces and are left out;
so are eyes where the card gives the millimetre. What sound prawns of that kind show by themselves is
taken off. The range is what the share becomes when the line is moved 4 L* up and down (7 without a card).
Does not hold: for banded species with black bands, deep shadows as wide as a spot, veins and gut
contents seen through the shell (CV-6-47), ink.
Source: common practice for the figures, no published source; share as "dark pixels of prawn pixels".
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from imaging.baseline import Baseline
from imaging.colour import chroma

LINE_MOVED = {"card": 4.0, "surroundings": 7.0, "camera": 7.0}
SPOT_MM = 1.6  # narrower dark places are folds or shade
PATCH_MM = 9.0  # wider dark places are more than a spot
_EYE_MM = (1.5, 4.5)


@dataclass(frozen=True)
class Darkness:
    """What looked dark.

    Attributes
    ----------
    share, share_low, share_high : float
        Of the prawn surface, 0 to 1, own share taken off.
    raw_share : float
        Before that.
    patch_share : float
        Part of `raw_share` in places wider than a spot.
    own_lightness : float
        L* that the prawns' own surface was read to have.
    dark : ndarray of shape (rows, cols), bool
    reference : ndarray of shape (rows, cols), float32
        Own L* at each place.
    """

    share: float
    share_low: float
    share_high: float
    raw_share: float
    patch_share: float
    own_lightness: float
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
    lightness = np.ascontiguousarray(lab[..., 0])
    own, reference = _own_lightness(lightness, prawn)
    colourless = chroma(lab) <= baseline.max_dark_chroma
    line = baseline.dark_ratio * reference
    moved = LINE_MOVED[balance_kind]
    spot = _disc(SPOT_MM / mm_per_pixel if mm_per_pixel else 3.0)
    masks = [
        _kept_places((lightness < line + step) & colourless & prawn, spot) for step in (-moved, 0.0, moved)
    ]
    surface = float(prawn.sum())
    low, middle, high = (float(mask.sum()) / surface for mask in masks)
    patch = _disc(PATCH_MM / mm_per_pixel if mm_per_pixel else lab.shape[1] * 0.022)
    wide = cv2.morphologyEx(masks[1].astype(np.uint8), cv2.MORPH_OPEN, patch)
    return Darkness(
        *(_less_own(value, baseline.own_dark_share) for value in (middle, low, high)),
        middle,
        float(wide.sum()) / surface,
        own,
        masks[1],
    )


def _less_own(share: float, own: float) -> float:
    return max(0.0, (share - own) / (1 - own))


def _own_lightness(lightness: np.ndarray, prawn: np.ndarray) -> tuple[float, np.ndarray]:
    """The prawns' own L*: over all, and at each place."""
    values = lightness[prawn]
    own = float(np.percentile(values, 62))
    sound = (prawn & (lightness > 0.6 * own)).astype(np.float32)
    size = (max(1, lightness.shape[1] // 8), max(1, lightness.shape[0] // 8))
    weight = cv2.resize(sound, size, interpolation=cv2.INTER_AREA)
    total = cv2.resize(sound * lightness, size, interpolation=cv2.INTER_AREA)
    reach = (max(3, size[0] // 4) | 1,) * 2
    weight, total = cv2.blur(weight, reach) + 0.05, cv2.blur(total, reach) + 0.05 * own
    local = cv2.resize(total / weight, lightness.shape[::-1], interpolation=cv2.INTER_LINEAR)
    return own, np.minimum(local, 1.1 * own)


def _disc(diameter: float) -> np.ndarray:
    side = max(1, int(diameter + 0.5))
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))


def _kept_places(dark: np.ndarray, spot: np.ndarray) -> np.ndarray:
    """Dark places at least as wide as a spot, with their full outline."""
    mask = dark.astype(np.uint8)
    core = cv2.morphologyEx(mask, cv2.MORPH_OPEN, spot)
    grown = cv2.dilate(core, np.ones((3, 3), np.uint8))
    return (grown & mask) > 0
