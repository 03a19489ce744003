"""The reference card: printed as defined, found in any position, and true colours from it under any lamp."""

import io
import warnings

import cv2
import numpy as np
import pytest
from PIL import Image

from imaging import balance, card, card_print
from imaging.colour import LINEAR_OF_LEVEL, delta_e_2000
from tests.imaging.files import lab_of_srgb

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # colour-science warns that it can't draw plots
    import colour

POSITIONS = {
    "flat": [[200, 150], [640, 150], [640, 462], [200, 462]],
    "upside down": [[640, 462], [200, 462], [200, 150], [640, 150]],
    "on its side": [[640, 100], [640, 540], [328, 540], [328, 100]],
    "seen aslant": [[220, 200], [620, 260], [560, 520], [180, 420]],
    "small in a corner": [[40, 40], [230, 60], [220, 196], [30, 176]],
}


def photographed(corners: list, lamp: np.ndarray = np.ones(3), *, noise: float = 2.0) -> np.ndarray:
    """The card on a grey table under a lamp (linear B, G, R of white), as 8-bit BGR after JPEG."""
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
    light = LINEAR_OF_LEVEL[small] * lamp
    level = 255 * np.where(light <= 0.0031308, 12.92 * light, 1.055 * np.maximum(light, 1e-9) ** (1 / 2.4) - 0.055)
    level += np.random.default_rng(1).normal(0, noise, level.shape)
    data = cv2.imencode(".jpg", np.clip(level, 0, 255).astype(np.uint8), [cv2.IMWRITE_JPEG_QUALITY, 90])[1]
    return cv2.imdecode(data, cv2.IMREAD_COLOR)


def lamp_of(name: str) -> np.ndarray:
    """Linear B, G, R that a D65 camera sees of white under a CIE illuminant, brightest channel 0.95."""
    x, y = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"][name]
    seen = colour.XYZ_to_sRGB(np.array([x / y, 1, (1 - x - y) / y]), apply_cctf_encoding=False)
    return np.maximum(seen, 0.02)[::-1] / seen.max() * 0.95


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


@pytest.mark.parametrize("lamp", ["A", "FL11", "FL2", "D50", "D65"])
def test_neutral_steps_come_within_delta_e_3_under_every_lamp(lamp):
    photo = photographed(POSITIONS["seen aslant"], lamp_of(lamp))
    found = card.find_card(cv2.cvtColor(photo, cv2.COLOR_BGR2GRAY))
    correction = balance.balance_by_card(photo, found)
    lab = correction.lab(photo)
    for patch in (p for p in card.PATCHES if p.is_neutral):
        middle = (
            card.project(found.to_photo, np.array([[patch.left_mm + 9.5, patch.top_mm + 9.5]]))[0].round().astype(int)
        )
        seen = np.median(lab[middle[1] - 4 : middle[1] + 5, middle[0] - 4 : middle[0] + 5].reshape(-1, 3), axis=0)
        printed = lab_of_srgb(np.array(patch.srgb[::-1], np.uint8).reshape(1, 1, 3))[0, 0]
        assert delta_e_2000(seen, printed) <= 3, (lamp, patch.name)


def test_card_under_full_glare_is_not_used():
    photo = photographed(POSITIONS["flat"])
    found = card.find_card(cv2.cvtColor(photo, cv2.COLOR_BGR2GRAY))
    photo[150:400, 280:560] = 255
    assert balance.balance_by_card(photo, found) is None


def test_a_photo_full_of_red_is_not_turned_grey():
    red = np.full((300, 400, 3), (60, 80, 200), np.uint8)
    red[::3] = (70, 95, 225)
    assert balance.balance_by_surroundings(red).kind == "camera"


def test_a_pale_liner_under_a_warm_lamp_is_turned_towards_white():
    liner = np.full((300, 400, 3), (190, 210, 225), np.uint8)
    liner[100:200, 100:300] = (80, 90, 100)
    before, after = lab_of_srgb(liner), balance.balance_by_surroundings(liner).lab(liner)
    assert np.hypot(*after[0, 0, 1:]) < 0.5 * np.hypot(*before[0, 0, 1:])


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
