"""Real photographs without a prawn: whatever the specification says, none of them is called darkened.

The photographs are those that come with scikit-image (public domain and CC0, see its data README).
"""

from pathlib import Path

import cv2
import pytest
import skimage

from imaging.advice import Context, advise
from imaging.answers import CannotTell, DarkeningSeen

FOLDER = Path(skimage.__file__).parent / "data"
PHOTOGRAPHS = (
    "astronaut.png", "brick.png", "chelsea.png", "coffee.png", "coins.png", "grass.png", "gravel.png",
    "hubble_deep_field.jpg", "ihc.png", "motorcycle_left.png", "retina.jpg", "rocket.jpg",
)  # fmt: skip
GOODS = (
    ("PNV", "HLSO", "raw"),
    ("GIT", "HOSO", "raw"),
    ("LAA", "HOSO", "raw"),
    ("PNV", "PD", "raw"),
    ("PNV", "HOSO", "cooked"),
    ("", "", ""),
)


def photograph(name: str, longest: int = 1200) -> bytes:
    """As a JPEG of a size that the gate lets through."""
    pixels = cv2.imread(str(FOLDER / name), cv2.IMREAD_COLOR)
    scale = longest / max(pixels.shape[:2])
    larger = cv2.resize(pixels, None, fx=scale, fy=scale, interpolation=cv2.INTER_CUBIC)
    return cv2.imencode(".jpg", larger)[1].tobytes()


@pytest.mark.parametrize("name", PHOTOGRAPHS)
def test_no_photograph_without_prawns_is_called_darkened(name):
    data = photograph(name)
    for species, presentation, state in GOODS:
        assert not isinstance(advise(data, Context(species, presentation, state)), DarkeningSeen)


@pytest.mark.parametrize("name", ["chelsea.png", "coffee.png"])
def test_fur_and_wood_are_too_coloured_for_a_pale_kind(name):
    """A cat and a wooden table: brown where the specification says whiteleg, and never even "none seen"."""
    advice = advise(photograph(name), Context("PNV", "HLSO", "raw"))
    assert isinstance(advice, CannotTell)
    assert advice.reasons[-1].code == "unsure_prawns"
