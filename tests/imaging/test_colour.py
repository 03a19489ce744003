"""Colour arithmetic against published pairs and two general colour libraries."""

import json
import warnings

import numpy as np
import pytest
from skimage.color import rgb2lab

from imaging.colour import delta_e_2000
from tests.imaging.files import lab_of_srgb
from tests.published import published

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # colour-science warns that it can't draw plots
    import colour


@pytest.fixture(scope="module")
def million() -> np.ndarray:
    return np.random.default_rng(20251125).integers(0, 256, (1000, 1000, 3), dtype=np.uint8)


def largest_difference(lab: np.ndarray, other: np.ndarray) -> float:
    return float(np.sqrt(((lab - other) ** 2).sum(axis=-1)).max())


def test_lab_of_a_million_colours_is_that_of_scikit_image(million):
    assert largest_difference(lab_of_srgb(million), rgb2lab(million[..., ::-1])) < 0.05


def test_lab_of_a_million_colours_is_that_of_colour_science(million):
    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    lab = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(million[..., ::-1] / 255), white)
    assert largest_difference(lab_of_srgb(million), lab) < 0.05


def test_ciede2000_pairs_of_sharma_wu_dalal_to_the_last_digit(vectors):
    cases = [c for c in json.loads((vectors / "colour.json").read_text())["cases"] if "lab_1" in c["in"]]
    assert len(cases) == 34
    for case in cases:
        found = delta_e_2000(np.array(case["in"]["lab_1"]), np.array(case["in"]["lab_2"]))
        assert abs(float(found) - case["out"]["delta_e_2000"]) <= 0.00005, case["id"]


def test_ciede2000_is_the_same_both_ways():
    lab = np.random.default_rng(3).uniform((0, -90, -90), (100, 90, 90), (500, 3))
    other = lab[::-1]
    np.testing.assert_allclose(delta_e_2000(lab, other), delta_e_2000(other, lab), atol=1e-9)


@published("CV-10-10 to 25", source="IEC 61966-2-1; CIE 15", known="computed")
def test_srgb_to_lab_of_the_check_values__CV_10_10_to_25(vectors):
    cases = [c for c in json.loads((vectors / "colour.json").read_text())["cases"] if "srgb" in c["in"]]
    assert len(cases) == 16
    for case in cases:
        pixel = np.array(case["in"]["srgb"][::-1], np.uint8).reshape(1, 1, 3)
        assert largest_difference(lab_of_srgb(pixel)[0, 0], np.array(case["out"]["lab"])) < 0.05, case["id"]
