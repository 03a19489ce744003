"""The gate: the same vectors as the phone, and a blur measure that a general library shares."""

import json

import cv2
import numpy as np
import pytest
from skimage.measure import blur_effect

from imaging import gate
from tests.imaging.drawn import drawn


def test_vectors_are_met_exactly(vectors):
    for case in json.loads((vectors / "gate.json").read_text())["cases"]:
        reading = gate.read_gate(drawn(case["in"]["picture"]), case["in"]["short_side"])
        assert reading.to_json() == case["out"], case["id"]


def test_every_verdict_has_a_vector_and_a_sentence(vectors):
    cases = json.loads((vectors / "gate.json").read_text())["cases"]
    assert {case["out"]["verdict"] for case in cases} == set(gate.ADVICE)


def test_grey_is_the_whole_number_formula():
    pixels = np.random.default_rng(5).integers(0, 256, (300, 300, 3), dtype=np.uint8)
    blue, green, red = (pixels[..., i].astype(np.int64) for i in range(3))
    np.testing.assert_array_equal(gate.grey_of(pixels), (9798 * red + 19235 * green + 3735 * blue + 16384) >> 15)


@pytest.fixture
def textured() -> np.ndarray:
    """Sharp-edged blobs of every size: what a sharp photo is to a blur measure."""
    noise = np.random.default_rng(7).normal(size=(480, 640))
    layers = [cv2.GaussianBlur(noise, (0, 0), spread) > 0 for spread in (3, 6, 12)]
    return (40 + 60 * sum(layer.astype(np.uint8) for layer in layers)).astype(np.uint8)


def test_more_blur_is_always_less_sharp(textured):
    sharpness = [gate.sharpness_of(cv2.GaussianBlur(textured, (0, 0), s)) for s in (0.5, 1, 1.5, 2, 3, 5)]
    assert sharpness == sorted(sharpness, reverse=True)


def test_sharpness_goes_with_scikit_image_blur_effect(textured):
    for spread in (0.5, 1.0, 2.0, 3.0, 5.0):
        blurred = cv2.GaussianBlur(textured, (0, 0), spread)
        assert gate.sharpness_of(blurred) == pytest.approx(1 - blur_effect(blurred, h_size=9), abs=0.15)


def test_turning_the_picture_changes_nothing(textured):
    assert gate.sharpness_of(textured) == gate.sharpness_of(np.ascontiguousarray(textured.T))


def test_shrinking_keeps_small_pictures_as_they_are(textured):
    assert gate.shrunk_for_gate(textured) is textured
    assert gate.shrunk_for_gate(np.zeros((3024, 4032), np.uint8)).shape == (480, 640)
