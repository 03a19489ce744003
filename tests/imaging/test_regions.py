"""Prawn told from what lies around it: on drawn scenes with known truth, and on squares made for one rule each.

The veil is the published model of haze, I = J t + A (1 - t): K. He, J. Sun, X. Tang, IEEE Trans. Pattern Anal.
Mach. Intell. 33 (2011) 2341, equation 1. The other limits are common practice, no published source.
"""

from functools import lru_cache

import cv2
import numpy as np
import pytest

from fixtures.scenes import SceneRequest, draw_scene
from imaging.advice import Context, analyse
from imaging.baseline import documented_baseline
from imaging.likeness import VEILED_SHADE, odds_of, surroundings
from imaging.regions import find_prawns

WHITELEG = documented_baseline("PNV", "HLSO", "raw")
NO_CARD = np.zeros((60, 80), bool)
ICE = np.array([85.0, -2.0, -3.0], np.float32)  # L*, a*, b* of ice or frost, common practice


@lru_cache(maxsize=16)
def seen(
    layout: str,
    seed: int = 1,
    dark_kind: str = "spots",
    species: str = "PNV",
    state: str = "raw",
    presentation: str = "HLSO",
):
    """Lab at half size, card outline, and truth of prawn and of blackened surface, for one drawn scene."""
    request = SceneRequest(
        seed=seed, species=species, presentation=presentation, state=state, card=True, layout=layout,
        width=900, height=675, dark_share=0.2, dark_kind=dark_kind, frost=0.0, glaze=0.0,
    )  # fmt: skip
    scene = draw_scene(request)
    analysis = analyse(scene.jpeg, Context(species, presentation, state))
    size = analysis.lab.shape[1::-1]
    truth = [
        cv2.resize(mask.astype(np.float32), size, interpolation=cv2.INTER_AREA) > 0.5
        for mask in (scene.prawn_mask > 0, scene.dark_mask > 0)
    ]
    return analysis.lab, analysis.card.outline / 2, *truth


def found_in(lab, card, species="PNV", state="raw", presentation="HLSO"):
    return find_prawns(lab, documented_baseline(species, presentation, state), "card", card)


def squares(*look: float) -> np.ndarray:
    """Sixty by eighty squares that all look alike: L*, a*, b*, roughness."""
    return np.full((60, 80, 4), look, np.float32)


@pytest.mark.parametrize("layout", ["packed", "rows", "tray"])
def test_most_of_the_prawns_and_little_else_is_found(layout):
    shares = []
    for seed in (1, 2, 3):
        lab, card, prawn, _ = seen(layout, seed)
        found = found_in(lab, card).prawn
        shares.append(((found & prawn).sum() / prawn.sum(), (found & prawn).sum() / found.sum()))
    of_the_prawns, of_what_is_found = np.mean(shares, axis=0)
    assert of_the_prawns > 0.9
    # The shade that a piece throws on a pale liner is taken for prawn, a few pixels wide all round.
    assert of_what_is_found > 0.75


@pytest.mark.parametrize(
    "kind",
    [
        {"species": "PRA", "state": "cooked", "presentation": "PUD"},
        {"species": "PRA", "state": "cooked", "presentation": "HOSO", "dark_kind": "heads"},
        {"species": "LAA", "presentation": "HOSO", "dark_kind": "heads"},
    ],
    ids=["spots on cooked meat", "black heads, cooked", "black heads, red raw"],
)
def test_black_on_pale_and_orange_kinds_stays_with_the_prawns(kind):
    lab, card, _, black = seen("packed", **kind)
    found = found_in(lab, card, kind["species"], kind.get("state", "raw"), kind["presentation"])
    assert (found.prawn & black).sum() > 0.85 * black.sum()


def test_a_strip_as_rough_as_print_is_no_print_but_a_field_of_it_is():
    rough_grey = (55, 1, 5, 4.6)
    strip, field = squares(*WHITELEG.lab, 3.0), squares(*rough_grey)
    strip[:, 40:42] = rough_grey
    assert odds_of(strip, WHITELEG, "card", NO_CARD).prawn[5:-5, 40].min() > 0
    assert odds_of(field, WHITELEG, "card", NO_CARD).prawn.max() < 0


def test_ice_shows_by_the_shade_that_it_lightens_and_prawns_under_it_are_found():
    lab, card, prawn, black = seen("packed")
    through = 0.55
    veiled = through * lab + (1 - through) * ICE
    is_card = np.zeros(lab.shape[:2], np.uint8)
    cv2.fillConvexPoly(is_card, card.round().astype(np.int32), 1)
    veiled[is_card > 0] = lab[is_card > 0]
    clear, under_ice = found_in(lab, card), found_in(veiled, card)
    assert clear.shade < VEILED_SHADE < under_ice.shade
    assert under_ice.shade == pytest.approx(through * clear.shade + (1 - through) * ICE[0], abs=4)
    assert (under_ice.prawn & prawn).sum() > 0.8 * prawn.sum()
    assert (under_ice.prawn & black).sum() > 0.8 * black.sum()


def test_many_browns_are_less_sure_to_be_one_kind():
    def scene(browns):
        lab = np.empty((240, 320, 3), np.float32)
        lab[:] = surroundings()[1][0, :3]
        for k, brown in enumerate(browns):
            lab[40:200, 20 + 70 * k : 90 + 70 * k] = brown
        # Plates and reflections: prawns are rough.
        lab[..., 0] += 8 * np.sign(np.sin(np.arange(320) * 1.3)) * (lab[..., 2] > 4)
        return find_prawns(lab, WHITELEG, "card", None)

    one, many = scene([(56, 1, 7)] * 4), scene([(56, 1, 7), (50, -9, 16), (56, 1, 7), (60, 10, 16)])
    assert one.share == pytest.approx(40 * 70 / (60 * 80), abs=0.06)
    assert many.certainty < 0.8 * one.certainty


def test_an_empty_surface_has_no_prawns():
    lab = np.empty((240, 320, 3), np.float32)
    lab[:] = surroundings()[1][0, :3]
    regions = find_prawns(lab, WHITELEG, "card", None)
    assert not regions.prawn.any()
    assert (regions.share, regions.certainty) == (0.0, 0.0)
