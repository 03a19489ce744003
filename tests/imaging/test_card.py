"""The reference card: printed as defined, found in any position."""

import io

import cv2
import numpy as np
import pytest
from PIL import Image

from imaging import card, card_print

POSITIONS = {
    "flat": [[200, 150], [640, 150], [640, 462], [200, 462]],
    "upside down": [[640, 462], [200, 462], [200, 150], [640, 150]],
    "on its side": [[640, 100], [640, 540], [328, 540], [328, 100]],
    "seen aslant": [[220, 200], [620, 260], [560, 520], [180, 420]],
    "small in a corner": [[40, 40], [230, 60], [220, 196], [30, 176]],
}


def photographed(corners: list, *, noise: float = 2.0) -> np.ndarray:
    """The card on a grey table, as 8-bit BGR after JPEG."""
    printed = np.asarray(card_print.card_picture(6))[..., ::-1]
    rows, cols = printed.shape[:2]
    to_photo = cv2.getPerspectiveTransform(
        np.float32([[0, 0], [cols, 0], [cols, rows], [0, rows]]), np.float32(corners)
    )
    small = cv2.warpPerspective(
        cv2.GaussianBlur(printed, (0, 0), 1.2),
        to_photo,
        (1000, 750),
        np.full((750, 1000, 3), 110, np.uint8),
        borderMode=cv2.BORDER_TRANSPARENT,
    )
    level = small + np.random.default_rng(1).normal(0, noise, small.shape)
    data = cv2.imencode(".jpg", np.clip(level, 0, 255).astype(np.uint8), [cv2.IMWRITE_JPEG_QUALITY, 90])[1]
    return cv2.imdecode(data, cv2.IMREAD_COLOR)


@pytest.mark.parametrize("position", POSITIONS)
def test_card_is_found_where_it_lies(position):
    found = card.find_card(cv2.cvtColor(photographed(POSITIONS[position]), cv2.COLOR_BGR2GRAY))
    assert found is not None
    assert np.abs(found.outline - np.float32(POSITIONS[position])).max() < 4
    long_side = np.hypot(*np.subtract(POSITIONS[position][1], POSITIONS[position][0]))
    assert found.mm_per_pixel == pytest.approx(card.CARD_MM[0] / long_side, rel=0.12)


def test_half_covered_card_is_still_found():
    photo = photographed(POSITIONS["flat"])
    photo[:, 200:330] = (90, 110, 160)
    found = card.find_card(cv2.cvtColor(photo, cv2.COLOR_BGR2GRAY))
    assert found is not None
    assert found.markers == 2


def test_no_card_is_found_where_none_lies():
    noise = np.random.default_rng(2).integers(0, 256, (750, 1000), dtype=np.uint8)
    assert card.find_card(noise) is None
    assert card.find_card(np.full((750, 1000), 128, np.uint8)) is None


def test_png_holds_every_patch_to_the_level():
    with Image.open(io.BytesIO(card_print.card_png())) as image:
        dots = card_print.PIXELS_PER_MM
        for patch in card.PATCHES:
            place = (round((patch.left_mm + 9) * dots), round((patch.top_mm + 9) * dots))
            assert image.getpixel(place) == patch.srgb
        assert image.size == (148 * dots, 105 * dots)


def test_pdf_is_one_a6_page_with_the_patch_values():
    data = card_print.card_pdf()
    assert data.startswith(b"%PDF-1.4")
    assert data.endswith(b"%%EOF\n")
    assert b"/MediaBox [0 0 419.528 297.638]" in data  # 148 x 105 mm at 72 points an inch
    red, green, blue = (value / 255 for value in card.PATCHES[0].srgb)
    assert f"{red:.5f} {green:.5f} {blue:.5f} rg".encode() in data
    start = int(data.split(b"startxref\n")[1].split()[0])
    assert data[start : start + 4] == b"xref"


def test_patches_and_markers_do_not_touch():
    boxes = [(p.left_mm, p.top_mm, p.side_mm) for p in card.PATCHES]
    boxes += [
        (x - card.QUIET_MM, y - card.QUIET_MM, card.MARKER_MM + 2 * card.QUIET_MM) for x, y in card.MARKERS.values()
    ]
    for n, (x, y, side) in enumerate(boxes):
        assert x >= 0
        assert x + side <= card.CARD_MM[0]
        assert y >= 0
        assert y + side <= card.CARD_MM[1]
        for x_2, y_2, side_2 in boxes[n + 1 :]:
            assert x + side <= x_2 or x_2 + side_2 <= x or y + side <= y_2 or y_2 + side_2 <= y
