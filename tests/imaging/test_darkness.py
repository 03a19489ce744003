"""Black spot against what is only dark, on surfaces drawn here by the rules of light themselves.

Shade is less light on the same surface and fades; pigment ends in a step (B. Horn, Computer Graphics and Image
Processing 3 (1974) 277).
"""

import cv2
import numpy as np
import pytest

from imaging.balance import balance_by_surroundings
from imaging.baseline import documented_baseline
from imaging.darkness import Darkness, measure_darkness
from imaging.places import _probabilities
from imaging.regions import Regions

ROWS, COLS = 750, 1000
OWN = 60.0  # L* of the sound surface
SHADE = 10.0  # L* of the shade among the prawns, as in the open


COLOUR = (0.0, 10.0)  # a*, b* of the sound surface


def measured(
    lightness: np.ndarray,
    *,
    prawn: np.ndarray | None = None,
    colour: np.ndarray | None = None,
    shade: float = SHADE,
) -> Darkness:
    """Darkness of a surface given as L*, after the blur of a lens; `colour` is its C*ab by that of sound surface."""
    blurred = cv2.GaussianBlur(lightness.astype(np.float32), (0, 0), 0.8)
    levels = np.clip(np.rint(2 * blurred), 0, 200).astype(np.uint8)
    prawn = np.ones((ROWS, COLS), np.uint8) if prawn is None else prawn
    part = np.ones((ROWS, COLS), np.float32) if colour is None else colour.astype(np.float32)
    lab = cv2.resize(np.dstack([blurred, *(part * np.float32(c) for c in COLOUR)]), (COLS // 2, ROWS // 2))
    half = cv2.resize(prawn, (COLS // 2, ROWS // 2), interpolation=cv2.INTER_NEAREST) > 0
    regions = Regions(half, share=float(half.mean()), certainty=2.0, shade=shade)
    return measure_darkness(levels, lab, regions, documented_baseline("PNV", "HLSO", "raw"), "card", None)


def surface() -> np.ndarray:
    return np.full((ROWS, COLS), OWN, np.float32)


def spots(number: int, radius: int, lightness: float) -> tuple[np.ndarray, float]:
    """Surface with round spots well apart, and their share of it."""
    picture, black = surface(), np.zeros((ROWS, COLS), np.uint8)
    for i in range(number):
        cv2.circle(black, (50 + 90 * (i % 10), 60 + 90 * (i // 10)), radius, 1, -1)
    picture[black > 0] = lightness
    return picture, float(black.mean())


@pytest.mark.parametrize("radius", [10, 12, 25])
def test_spots_with_a_sharp_border_are_counted(radius):
    picture, share = spots(60, radius, 24.0)
    assert measured(picture).raw_share == pytest.approx(share, rel=0.35)


def test_as_much_dark_that_fades_is_shade_and_not_counted():
    across = np.abs((np.arange(COLS) % 100) - 50) / 50
    picture = surface() * (0.4 + 0.6 * across.astype(np.float32))
    found = measured(picture)
    assert found.raw_share < 0.005
    assert found.undecided > 0.2


def test_shade_beside_a_piece_has_a_step_on_one_side_only():
    fade = np.clip((np.arange(COLS) % 125) / 60, 0, 1)
    picture = surface() * (0.35 + 0.65 * fade.astype(np.float32))
    dark = float((picture < 0.68 * OWN).mean())
    assert dark > 0.1
    assert measured(picture).raw_share < 0.25 * dark


@pytest.mark.parametrize("exposure", [0.6, 0.8, 1.3])
def test_a_darker_or_lighter_photo_of_the_same_goods_gives_the_same_share(exposure):
    picture, _ = spots(60, 14, 24.0)
    assert measured(exposure * picture).raw_share == pytest.approx(measured(picture).raw_share, abs=0.01)


def test_a_spot_counts_alike_in_full_and_in_lesser_light():
    """L* + 16 goes with the cube root of the light (CIE 15): less light on shell and spot is one factor on both."""
    light = np.where(np.arange(COLS) < COLS // 2, 1.0, 0.8).astype(np.float32)
    picture, _ = spots(60, 14, 24.0)
    found = measured((picture + 16) * light - 16).dark
    lit, shaded = (float(half.mean()) for half in np.hsplit(found, 2))
    assert shaded == pytest.approx(lit, rel=0.25)


def test_a_wide_place_without_a_step_is_not_counted_for_its_width():
    picture = surface()
    picture -= 30 * cv2.GaussianBlur(cv2.circle(np.zeros_like(picture), (500, 375), 150, 1.0, -1), (0, 0), 40)
    found = measured(picture)
    assert found.undecided > 0.02
    assert found.raw_share < 0.005


def soft(picture: np.ndarray, blur: float) -> np.ndarray:
    """So far out of focus that one sign more or less decides; `blur` in px."""
    return cv2.GaussianBlur(picture.astype(np.float32), (0, 0), blur)


def test_an_even_place_counts_more_than_one_that_changes_all_over():
    """Pigment changes at its border only (Horn 1974); folds and shade change everywhere."""
    even, _ = spots(60, 14, 24.0)
    rows, cols = np.mgrid[:ROWS, :COLS]
    ripple = np.where(even < OWN, 24 * np.sin(rows / 2) * np.sin(cols / 2), 0)
    assert measured(soft(even, 5) + ripple).raw_share < 0.7 * measured(soft(even, 5)).raw_share


def test_dark_that_keeps_the_colour_of_the_shell_counts_less():
    """Less light takes lightness and leaves the colour of the shell; black pigment has hardly any."""
    picture, _ = spots(60, 14, 28.0)
    without, kept = (np.where(picture < OWN, part, 1.0) for part in (0.1, 0.9))
    dim = soft(picture, 4)
    assert measured(dim, colour=without).raw_share > 0.005
    assert measured(dim, colour=without).raw_share > 1.1 * measured(dim, colour=kept).raw_share


def test_a_network_of_gaps_counts_less_than_spots_of_the_same_darkness():
    """Gaps between pieces run together over the whole carton."""
    gaps, (apart, share) = surface(), spots(60, 14, 30.0)
    for at in range(20, COLS, 90):
        gaps[:, at : at + 14] = gaps[at : at + 14] = 30.0
    part = measured(soft(gaps, 5)).raw_share / float((gaps < OWN).mean())
    assert part < 0.7 * measured(soft(apart, 5)).raw_share / share


def gaps(lightness: float) -> np.ndarray:
    """Surface with wide gaps between rows of pieces."""
    picture = surface()
    for at in range(95, ROWS - 60, 90):
        picture[at : at + 22] = lightness
    return picture


def test_a_gap_is_darker_than_any_shell_and_not_counted():
    """A surface in air throws back some 4 % of the light whatever its pigment (Fresnel, index 1.5): less is a hole."""
    found = measured(gaps(3.0))
    assert found.undecided > 0.15
    assert found.raw_share < 0.005


def test_black_gaps_beside_black_spots_do_not_hide_them():
    picture, share = spots(60, 14, 24.0)
    deep = np.minimum(picture, gaps(3.0))
    assert measured(deep).raw_share == pytest.approx(share, rel=0.35)


def test_shade_with_steps_beside_dim_shell_is_hard_light():
    """One bare lamp: each piece is bright on one side, turns away from the light and throws a shadow with an edge."""
    across = (np.arange(COLS) % 125) / 125
    pieces = np.where(across < 0.25, 0.42, np.where(across < 0.9, 1.0, 1.0 - 3.0 * (across - 0.9)))
    hard = measured(surface() * pieces.astype(np.float32))
    fading = np.clip((np.arange(COLS) % 125) / 60, 0, 1)
    soft_light = measured(surface() * (0.35 + 0.65 * fading.astype(np.float32)))
    assert hard.hardness > soft_light.hardness + 1
    assert hard.share_high - hard.share_low > 0.1  # what is read in such light is less sure


def test_thin_dark_lines_are_plate_edges_and_legs():
    picture = surface()
    picture[::40] = 20.0
    assert measured(picture).raw_share < 0.005


def test_light_that_falls_off_over_the_photo_is_not_darkening():
    picture = surface() * np.linspace(1, 0.62, COLS, dtype=np.float32)
    assert measured(picture).share < 0.02


def test_reflections_on_a_black_place_do_not_hide_it():
    picture, share = spots(40, 20, 24.0)
    picture[60::90, 50::90] = 95.0
    assert measured(picture).raw_share == pytest.approx(share, rel=0.35)


def test_places_say_whether_the_dark_is_one_thing_or_many():
    many, one = spots(60, 12, 24.0)[0], surface()
    one[200:400, 300:600] = 24.0
    assert measured(many).places == pytest.approx(60, rel=0.1)
    assert measured(one).places == pytest.approx(1)


def test_dark_beside_the_prawns_is_not_looked_at():
    picture, prawn = surface(), np.zeros((ROWS, COLS), np.uint8)
    prawn[:, :500] = 1
    picture[:, 520:] = 10.0
    assert measured(picture, prawn=prawn).raw_share < 0.005


def test_range_holds_the_share_and_is_open_upwards_under_ice():
    """Ice adds light to everything (He, Sun and Tang 2011): black looks grey, and nothing looks blacker."""
    picture = spots(60, 12, 24.0)[0]
    clear, iced = measured(picture), measured(0.45 * picture + 40, colour=np.full((ROWS, COLS), 0.3), shade=40.0)
    for one in (clear, iced):
        assert one.share_low <= one.share <= one.share_high
    assert iced.veil > clear.veil + 0.3
    assert iced.share_high - iced.share > clear.share_high - clear.share


def test_under_ice_each_counted_place_stands_for_more():
    """Under ice less of the black is found; the share is put right for it (Rogan and Gladen 1978)."""
    picture = spots(60, 20, 24.0)[0]
    clear, iced = measured(picture), measured(0.45 * picture + 40, colour=np.full((ROWS, COLS), 0.3), shade=40.0)
    assert iced.raw_share == pytest.approx(clear.raw_share, rel=0.2)
    assert iced.share > 1.5 * clear.share


def test_much_black_spot_makes_each_place_likelier_to_be_so():
    """The part of the dark that is black spot in this photo is read anew (Saerens, Latinne and Decaestecker 2002)."""
    odds, closed, area = np.array([0.0, -1.0, 6.0]), np.ones(3), np.array([0, 100, 900])
    with_many, alone = (_probabilities(odds, closed, area * part)[1] for part in (1, np.array([1, 1, 0])))
    assert with_many > 0.8
    assert alone < 0.4


def test_lightness_alone_is_the_lightness_of_lab():
    """L* of CIE 15 (CV-10-07) by the other way; half a level of eight bits is a quarter of L*, the root's steps add."""
    photo = np.random.default_rng(7).integers(15, 150, (300, 400, 3), dtype=np.uint8)
    balance = balance_by_surroundings(photo)
    assert balance.curve[0, 150].max() < 1  # nothing is clipped, where the two ways must part
    assert np.abs(balance.lightness(photo) / 2.0 - balance.lab(photo)[..., 0]).max() < 1.0
