"""The drawn scenes keep their promises: exact truth, same seed same picture, published light."""

import io
import json
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image, ImageOps

from fixtures.scenes import SceneRequest, draw_scene, sample_requests
from fixtures.scenes.light import illuminant_names, rendering, spectra
from fixtures.scenes.light_table import TABLE, table
from fixtures.scenes.palettes import PALETTES
from fixtures.scenes.request import (
    HELD_OUT_ILLUMINANTS,
    HELD_OUT_SPECIES,
    LAYOUTS,
    SUBJECTS,
)

SMALL = SceneRequest(seed=11, species="PNV", presentation="HOSO", width=480, height=360)


def upright(jpeg: bytes) -> np.ndarray:
    return np.asarray(ImageOps.exif_transpose(Image.open(io.BytesIO(jpeg))).convert("RGB")).astype(np.int16)


def test_same_request_gives_the_same_bytes():
    first, second = draw_scene(SMALL), draw_scene(SMALL)
    assert first.jpeg == second.jpeg
    assert (first.prawn_mask == second.prawn_mask).all()


def test_another_seed_gives_another_picture():
    assert draw_scene(SMALL).jpeg != draw_scene(replace(SMALL, seed=12)).jpeg


@pytest.mark.parametrize("kind", ["spots", "heads", "mixed"])
@pytest.mark.parametrize("wanted", [0.01, 0.08, 0.25])
def test_wanted_share_is_met_on_the_visible_surface(kind, wanted):
    scene = draw_scene(replace(SMALL, dark_kind=kind, dark_share=wanted, frost=0.0))
    assert scene.truth_share == pytest.approx(wanted, abs=0.004)
    assert scene.truth_share == scene.dark_mask.sum() / scene.prawn_mask.sum()


def test_dark_and_head_lie_on_prawn():
    scene = draw_scene(replace(SMALL, dark_kind="mixed", dark_share=0.2))
    assert not (scene.dark_mask & ~scene.prawn_mask).any()
    assert not (scene.head_mask & ~scene.prawn_mask).any()
    assert 0.15 < scene.head_mask.sum() / scene.prawn_mask.sum() < 0.6


def test_dark_heads_darken_heads_only():
    scene = draw_scene(replace(SMALL, dark_kind="heads", dark_share=0.12, layout="tray"))
    on_heads = (scene.dark_mask & scene.head_mask).sum() / scene.dark_mask.sum()
    assert on_heads > 0.9


def test_a_bare_lamp_changes_the_light_and_not_the_goods():
    """Same prawns, same truth; the gaps between them are darker by the prawns' own lightness."""
    scenes = [draw_scene(replace(SMALL, light=light, dark_kind="spots", dark_share=0.1)) for light in ("soft", "hard")]
    assert (scenes[0].prawn_mask == scenes[1].prawn_mask).all()
    assert (scenes[0].dark_mask == scenes[1].dark_mask).all()
    gaps = []
    for scene in scenes:
        surface = upright(scene.jpeg).mean(axis=2)[scene.prawn_mask & ~scene.dark_mask]
        gaps.append(np.percentile(surface, 3) / np.percentile(surface, 75))
    assert gaps[1] < 0.8 * gaps[0]


def test_darkened_places_are_darker_in_the_picture():
    clean = draw_scene(replace(SMALL, dark_kind="none"))
    dark = draw_scene(replace(SMALL, dark_kind="spots", dark_share=0.15))
    grey = upright(dark.jpeg).mean(-1)
    assert grey[dark.dark_mask].mean() < 0.75 * grey[dark.prawn_mask & ~dark.dark_mask].mean()
    assert clean.truth_share == 0
    assert not clean.dark_mask.any()
    assert clean.label == "clean"


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("presentation", ["HLSO", "PUD", "PTO", "BTTY"])
def test_headless_prawns_have_no_head(layout, presentation):
    scene = draw_scene(replace(SMALL, layout=layout, presentation=presentation))
    assert scene.prawn_mask.any()
    assert not scene.head_mask.any()


@pytest.mark.parametrize("subject", [subject for subject in SUBJECTS if subject != "prawns"])
def test_other_subjects_hold_no_prawn(subject):
    scene = draw_scene(replace(SMALL, subject=subject))
    assert scene.label == "not_prawn"
    assert not scene.prawn_mask.any()


@pytest.mark.parametrize("orientation", range(1, 9))
def test_stored_turned_and_read_upright(orientation):
    """EXIF 2.32, tag 0x0112: a reader that heeds the tag sees the same picture; Pillow is the reference reader."""
    plain = upright(draw_scene(replace(SMALL, orientation=1, jpeg_quality=98)).jpeg)
    turned = upright(draw_scene(replace(SMALL, orientation=orientation, jpeg_quality=98)).jpeg)
    assert turned.shape == plain.shape
    assert np.abs(turned - plain).mean() < 3


def test_masks_have_the_upright_size():
    scene = draw_scene(replace(SMALL, orientation=6))
    assert Image.open(io.BytesIO(scene.jpeg)).size == (360, 480)
    assert scene.prawn_mask.shape == (360, 480)


@pytest.mark.parametrize("species", sorted(PALETTES))
@pytest.mark.parametrize("state", ["raw", "cooked"])
def test_each_species_is_drawn(species, state):
    scene = draw_scene(replace(SMALL, species=species, state=state, layout="tray"))
    assert scene.prawn_mask.mean() > 0.02


def test_banded_and_cooked_look_as_the_guides_say():
    """CV-6-40 (banded tiger darker than whiteleg, CV-6-46), CV-6-49 (cooked turns red and paler)."""
    colour = {}
    for name, species, state in (("white", "PNV", "raw"), ("tiger", "GIT", "raw"), ("cooked", "PNV", "cooked")):
        scenes = [draw_scene(replace(SMALL, seed=s, species=species, state=state, frost=0.0)) for s in (1, 2, 3)]
        colour[name] = np.mean([upright(s.jpeg)[s.prawn_mask].mean(0) for s in scenes], axis=0)
    assert colour["tiger"].mean() < colour["white"].mean()
    redness = {name: rgb[0] / rgb[2] for name, rgb in colour.items()}
    assert redness["cooked"] > 1.25 * redness["white"]


def test_what_cannot_be_drawn_is_refused_with_what_can():
    with pytest.raises(ValueError, match=r"presentation 'PEELED' can't be drawn; it may be: HOSO"):
        replace(SMALL, presentation="PEELED")
    with pytest.raises(ValueError, match="it may be: soft, hard"):
        replace(SMALL, light="dim")
    with pytest.raises(ValueError, match=r"0 to 0\.9"):
        replace(SMALL, dark_share=1.2)
    with pytest.raises(ValueError, match="4096"):
        replace(SMALL, width=9000)
    with pytest.raises(ValueError, match="it may be: dev, held_out"):
        sample_requests(3, 1, split="test")


def test_held_out_species_and_lamps_are_never_in_dev():
    dev = sample_requests(800, 3)
    held = sample_requests(800, 3, split="held_out")
    assert not {r.species for r in dev} & set(HELD_OUT_SPECIES)
    assert not {r.illuminant for r in dev} & set(HELD_OUT_ILLUMINANTS)
    assert set(HELD_OUT_SPECIES) <= {r.species for r in held}
    assert set(HELD_OUT_ILLUMINANTS) <= {r.illuminant for r in held}
    assert not {r.seed for r in dev} & {r.seed for r in held}


def test_sample_is_as_described_and_repeatable():
    requests = sample_requests(1500, 9)
    assert requests == sample_requests(1500, 9)
    prawns = [r for r in requests if r.subject == "prawns"]
    assert 0.08 < 1 - len(prawns) / len(requests) < 0.17
    assert 0.25 < sum(r.dark_share == 0 for r in prawns) / len(prawns) < 0.35
    assert 0.33 < sum(r.dark_share >= 0.1 for r in prawns) / len(prawns) < 0.47
    assert all(r.card for r in sample_requests(20, 9, card=True))
    hard = sample_requests(20, 9, light="hard")
    assert [replace(r, light="soft") for r in hard] == sample_requests(20, 9)


@pytest.mark.filterwarnings("ignore:\"Matplotlib\" related")  # colour-science can draw, which is not asked of it here
def test_spectra_are_those_of_the_published_tables():
    """Against colour-science: CIE 15 and CIE 018 illuminants, 1931 observer, Mallett and Yuksel 2019 basis."""
    assert json.loads(TABLE.read_text(encoding="utf-8")) == table()


def test_lamps_have_their_published_chromaticity():
    """CIE 15:2018 x, y (from memory) of A, D50, D65, F2, F11; the table is cut at 380 and 730 nm."""
    published = {
        "A": (0.44758, 0.40745),
        "D50": (0.34570, 0.35854),
        "D65": (0.31272, 0.32903),
        "F2": (0.37208, 0.37529),
        "F11": (0.38052, 0.37713),
    }
    for name, expected in published.items():
        xyz = spectra()[f"light:{name}"] @ spectra()["observer"]
        assert xyz[:2] / xyz.sum() == pytest.approx(expected, abs=0.0012), name


def test_grey_under_every_lamp_stays_near_grey():
    """A phone's white balance is imperfect, but a grey sheet does not turn orange or blue."""
    for name in illuminant_names():
        for seed in range(5):
            grey = rendering(name, np.random.default_rng(seed)).other @ np.full(3, 0.4)
            assert 0.7 < grey[0] / grey[1] < 1.5, name
            assert 0.5 < grey[2] / grey[1] < 1.45, name


def test_twelve_megapixels_can_be_drawn():
    scene = draw_scene(replace(SMALL, width=4032, height=3024, layout="tray"))
    assert Image.open(io.BytesIO(scene.jpeg)).size == (4032, 3024)
    assert scene.prawn_mask.any()


def test_faults_show():
    def sharpness(fault):
        grey = upright(draw_scene(replace(SMALL, fault=fault)).jpeg).mean(-1)
        return np.abs(np.diff(grey, axis=1)).mean(), grey.mean()

    sharp, mean = sharpness("none")
    assert sharpness("blurred")[0] < 0.6 * sharp
    assert sharpness("dim")[1] < 0.5 * mean
    assert sharpness("glared")[1] > 1.2 * mean
