"""How much each small square of a photo looks like prawn, sound or blackened, rather than like anything else.

Method: for the prawns (from their baseline) and for each documented surface the likelihood of a square, by
its Lab colour and its roughness, is a product of bell curves. Print is rough all over, so a rough square is
no print unless its neighbours look so too. Where even the shade among the prawns is not dark, ice lies over
them, and prawns are looked for as they are under as much ice: paler, less coloured, more alike. Then the
colours that this very photo turned out to have are given half the say.
Does not hold: for surfaces of prawn colour and prawn roughness (brown gravel, wood, fur), for prawns as pale
and smooth as their tray, and for ice without a prawn under it, which has no dark shade either.
Sources: naive Bayes classification, textbook; K. He, J. Sun, X. Tang, IEEE Trans. Pattern Anal. Mach. Intell.
33 (2011) 2341, for a veil told by the darkest point of a neighbourhood; figures in baselines/*.json and here
are documented defaults, common practice, no published source.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np

from imaging.baseline import Baseline

PRAWN_ROUGH = (3.0, 0.9)
BLACKENED = ((30.0, 5.0, 5.0), (9.0, 5.0, 5.0))  # Lab and spread of blackened surface, as the card's black step
VEIL = 0.45  # part of the light that comes from the ice over a veiled prawn, where ice lies in patches
VEILED_SHADE = 36.0  # L*: where the darkest within three squares is, by half, paler than this, ice lies over all
VEIL_PRAWN_SHARE = 0.1  # of the photo, at least: a few pieces on a tray throw no shade on each other, ice or not
_SHADE_LIGHT = 0.2  # part of the lightness of that shade that is its own: no shade is quite black
_NEAR_SHADE = np.ones((7, 7), np.uint8)
_RICH_CHROMA = 15.0  # C*ab of the baseline: paler kinds look like ice itself under a veil
PRINTED = ("printed label", "bar code or print")
_PRINT_WIDTH = 9  # squares; text and bars are rough all over, an outline or a black spot in a narrow strip only
_UNLIKELY = -12.0  # log likelihood: no single square of a print counts as less
_SURE, _LEAST_SURE = 0.6, 25  # log odds, and squares: three pale pieces on a pale tray have no more
_LEAST_SPREAD = np.array([5, 1.5, 1.5], np.float32)  # of the colours of this photo
_BALANCE_DOUBT = {"card": 1.0, "surroundings": 1.35, "camera": 1.6}
_DATA = Path(__file__).parent / "baselines" / "surroundings.json"


@dataclass(frozen=True)
class Odds:
    """What each square looks like.

    Attributes
    ----------
    prawn, blackened : ndarray of shape (rows, cols), float32
        Log odds of sound prawn, held within 4 either way, and of blackened prawn, against the likeliest other surface.
    shade : float
        L* of the darkest square within three squares of each prawn square, the middle one of them all; 0 without any.
    """

    prawn: np.ndarray
    blackened: np.ndarray
    shade: float


@lru_cache(maxsize=1)
def surroundings() -> tuple[list[str], np.ndarray, np.ndarray]:
    """Names, middles and spreads (each of shape (n, 4): L*, a*, b*, roughness) of the documented surfaces."""
    surfaces = json.loads(_DATA.read_text("utf-8"))["surfaces"]
    middle = np.array([[*s["lab"], s["rough"][0]] for s in surfaces], np.float32)
    spread = np.array([[*s["spread"], s["rough"][1]] for s in surfaces], np.float32)
    return [s["name"] for s in surfaces], middle, spread


def odds_of(cells: np.ndarray, baseline: Baseline, balance_kind: str, is_card: np.ndarray) -> Odds:
    """Odds of each square, for prawns in the open or under ice, whichever this photo shows.

    Parameters
    ----------
    cells : ndarray of shape (rows, cols, 4), float32
        Mean L*, a*, b* and roughness of each square.
    baseline : Baseline
    balance_kind : str
        card, surroundings or camera: the less sure the balance, the wider the bell curves.
    is_card : ndarray of shape (rows, cols), bool
        Squares of the reference card: surely no prawn.

    Returns
    -------
    Odds
    """
    doubt = _BALANCE_DOUBT[balance_kind]
    widen = np.array([1 + (doubt - 1) / 2, doubt, doubt, 1], np.float32)
    other = _log_surroundings(cells, widen)
    other[is_card] = np.inf
    sound, black = _looks_in_the_open(baseline), [BLACKENED]
    odds = _sound(cells, sound, widen, other)
    found = cv2.GaussianBlur(odds, (0, 0), 1.2) > 0
    darkest = cv2.erode(np.ascontiguousarray(cells[..., 0]), _NEAR_SHADE)
    shade = float(np.median(darkest[found])) if found.any() else 0.0
    if shade > VEILED_SHADE and found.mean() > VEIL_PRAWN_SHARE:
        # Ice adds its light, as the shade shows, and flattens all differences by as much.
        veil = (1 - _SHADE_LIGHT) * shade / _ice()[0]
        sound.append(_veiled(baseline.lab, baseline.spread, veil, 1 - veil))
        black.append(_veiled(*BLACKENED, veil, 1 - veil))
        odds = _sound(cells, sound, widen, other)
    return Odds(odds, _against(cells, black, widen, other), shade)


def _log_surroundings(cells: np.ndarray, widen: np.ndarray) -> np.ndarray:
    """Log likelihood of the likeliest documented surface; a print must be likely in the squares around as well."""
    names, middles, spreads = surroundings()
    logs = log_bells(cells, middles, spreads * widen)
    for k in map(names.index, PRINTED):
        around = cv2.blur(np.maximum(logs[..., k], _UNLIKELY), (_PRINT_WIDTH, _PRINT_WIDTH))
        logs[..., k] = np.minimum(logs[..., k], around)
    return logs.max(axis=2)


def _sound(cells: np.ndarray, looks: list[tuple], widen: np.ndarray, other: np.ndarray) -> np.ndarray:
    # Held within bounds: a single square that looks like nothing known must not outweigh its neighbours.
    return np.clip(_against(cells, looks, widen, other), -4, 4)


def _against(cells: np.ndarray, looks: list[tuple], widen: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Log odds of the likeliest of some looks of prawn."""
    middles = np.array([[*lab, PRAWN_ROUGH[0]] for lab, _ in looks], np.float32)
    spreads = np.array([[*spread, PRAWN_ROUGH[1]] for _, spread in looks], np.float32) * widen
    return log_bells(cells, middles, spreads).max(axis=2) - other


def _looks_in_the_open(baseline: Baseline) -> list[tuple]:
    """Lab and spread of sound surface and, for coloured kinds, of sound surface under a patch of ice."""
    looks = [(baseline.lab, baseline.spread)]
    if baseline.chroma >= _RICH_CHROMA:
        looks.append(_veiled(baseline.lab, baseline.spread, VEIL, 1))
    return looks


def _veiled(lab: tuple, spread: tuple, veil: float, flatter: float) -> tuple[np.ndarray, np.ndarray]:
    """Lab and spread of a surface when part of its light comes from the ice over it."""
    return (1 - veil) * np.array(lab) + veil * _ice(), flatter * np.array(spread)


def _ice() -> np.ndarray:
    names, middles, _ = surroundings()
    return middles[names.index("ice or frost"), :3]


def as_in_this_photo(cells: np.ndarray, odds: np.ndarray) -> np.ndarray:
    """Log odds by the colours that the sure squares of this very photo have, half and half with the documented ones.

    By colour alone: the flat flank of a piece is no less prawn than its edges.
    """
    smooth = cv2.GaussianBlur(odds, (0, 0), 1.6)
    colours = np.ascontiguousarray(cells[..., :3])
    sure_prawn, sure_other = colours[smooth > _SURE], colours[smooth < -_SURE]
    if min(len(sure_prawn), len(sure_other)) < _LEAST_SURE:
        return odds
    middles = np.stack([sure_prawn.mean(axis=0), sure_other.mean(axis=0)])
    spreads = np.maximum(np.stack([sure_prawn.std(axis=0), sure_other.std(axis=0)]), _LEAST_SPREAD)
    logs = log_bells(colours, middles, spreads)
    return np.clip((odds + np.clip(logs[..., 0] - logs[..., 1], -4, 4)) / 2, -4, 4)


def log_bells(cells: np.ndarray, middles: np.ndarray, spreads: np.ndarray) -> np.ndarray:
    """Log of the bell curves, shape (rows, cols, bells): the squares multiplied out, so two products do it."""
    weight = 1 / (spreads * spreads)
    constant = -0.5 * (middles * middles * weight).sum(axis=1) - np.log(spreads).sum(axis=1)
    flat = cells.reshape(-1, cells.shape[2])
    # gemm and not @: a product this small must not wake the threads of a matrix library.
    parts = np.hstack([flat, flat * flat])
    logs = cv2.gemm(
        parts, np.hstack([middles * weight, -0.5 * weight]).astype(np.float32), 1, None, 0, flags=cv2.GEMM_2_T
    )
    return (logs + constant.astype(np.float32)).reshape(*cells.shape[:2], -1)
