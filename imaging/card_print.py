"""The reference card as a picture and as a PDF to print.

Method: one list of rectangles and words in millimetres, drawn by Pillow for the PNG and written as
plain PDF drawing commands for the PDF, so no lossy compression touches a patch and the page is A6
(148 x 105 mm): "actual size" prints true.
Check with a ruler after printing: the scale must measure 80 mm.
Source: PDF 1.4 drawing operators (re, f, Tj; ISO 32000-1, 8.5 and 9.4); base font Helvetica.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass

import cv2
from PIL import Image, ImageDraw, ImageFont

from imaging import card

PIXELS_PER_MM = 12
_INK = (30, 30, 30)
_POINTS_PER_MM = 72 / 25.4


@dataclass(frozen=True)
class _Box:
    left: float
    top: float
    width: float
    height: float
    srgb: tuple[int, int, int]


@dataclass(frozen=True)
class _Words:
    middle: float
    top: float
    height: float
    text: str


def _boxes() -> Iterator[_Box]:
    yield _Box(0, 0, *card.CARD_MM, (190, 190, 190))
    yield _Box(0.15, 0.15, card.CARD_MM[0] - 0.3, card.CARD_MM[1] - 0.3, (255, 255, 255))
    for marker, place in card.MARKERS.items():
        yield from _marker_boxes(marker, *place)
    for patch in card.PATCHES:
        yield _Box(patch.left_mm, patch.top_mm, patch.side_mm, patch.side_mm, patch.srgb)
    for millimetre in range(round(card.SCALE_LENGTH_MM) + 1):
        length = 6.0 if millimetre % 10 == 0 else 4.0 if millimetre % 5 == 0 else 2.5
        yield _Box(card.SCALE_LEFT_MM + millimetre - 0.1, card.SCALE_TOP_MM, 0.2, length, _INK)


def _marker_boxes(marker: int, left: float, top: float) -> Iterator[_Box]:
    cells = cv2.aruco.generateImageMarker(cv2.aruco.getPredefinedDictionary(card.DICTIONARY), marker, 6)
    side = card.MARKER_MM / 6
    yield _Box(left, top, card.MARKER_MM, card.MARKER_MM, (0, 0, 0))
    for row, col in zip(*cells.nonzero(), strict=True):
        yield _Box(left + col * side, top + row * side, side, side, (255, 255, 255))


def _words() -> Iterator[_Words]:
    middle = card.CARD_MM[0] / 2
    yield _Words(middle, 70.5, 4.0, "Underlid reference card")
    yield _Words(middle, 76.0, 2.7, "Lay flat beside the prawns, in the same light. Scale in mm.")
    for number in range(0, round(card.SCALE_LENGTH_MM) + 1, 20):
        yield _Words(card.SCALE_LEFT_MM + number, card.SCALE_TOP_MM + 6.6, 2.8, str(number))
    yield _Words(middle, 94.0, 2.6, f"{card.CARD_VERSION}. Print at actual size. Keep clean; keep off the food.")


def card_picture(pixels_per_mm: int = PIXELS_PER_MM) -> Image.Image:
    """The card as an RGB picture of 148 x 105 mm."""
    size = (round(card.CARD_MM[0] * pixels_per_mm), round(card.CARD_MM[1] * pixels_per_mm))
    picture = Image.new("RGB", size, (255, 255, 255))
    draw = ImageDraw.Draw(picture)
    for box in _boxes():
        left, top = round(box.left * pixels_per_mm), round(box.top * pixels_per_mm)
        right = max(left, round((box.left + box.width) * pixels_per_mm) - 1)
        bottom = max(top, round((box.top + box.height) * pixels_per_mm) - 1)
        draw.rectangle([left, top, right, bottom], fill=box.srgb)
    for words in _words():
        place = (words.middle * pixels_per_mm, words.top * pixels_per_mm)
        font = ImageFont.load_default(size=words.height * pixels_per_mm)
        draw.text(place, words.text, fill=_INK, font=font, anchor="mt")
    return picture


def card_png() -> bytes:
    """The card as PNG bytes, 12 pixels a millimetre."""
    out = io.BytesIO()
    dots = PIXELS_PER_MM * 25.4
    card_picture().save(out, "PNG", dpi=(dots, dots), optimize=True)
    return out.getvalue()


def card_pdf() -> bytes:
    """The card as a one-page A6 PDF (vector drawing, exact patch values)."""
    width, height = (side * _POINTS_PER_MM for side in card.CARD_MM)
    drawing = "\n".join([*map(_box_operators, _boxes()), *map(_words_operators, _words())]).encode("latin-1")
    return _pdf_file(
        [
            b"<< /Type /Catalog /Pages 2 0 R >>",
            b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width:.3f} {height:.3f}] /Contents 4 0 R "
            "/Resources << /Font << /F1 5 0 R >> >> >>".encode("ascii"),
            b"<< /Length %d >>\nstream\n%s\nendstream" % (len(drawing), drawing),
            b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>",
            b"<< /Title (Underlid reference card) /Producer (Underlid) >>",
        ]
    )


def _box_operators(box: _Box) -> str:
    red, green, blue = (value / 255 for value in box.srgb)
    left, bottom = box.left * _POINTS_PER_MM, (card.CARD_MM[1] - box.top - box.height) * _POINTS_PER_MM
    size = f"{box.width * _POINTS_PER_MM:.3f} {box.height * _POINTS_PER_MM:.3f}"
    return f"{red:.5f} {green:.5f} {blue:.5f} rg {left:.3f} {bottom:.3f} {size} re f"


def _words_operators(words: _Words) -> str:
    # Helvetica's mean advance is about half its size: near enough to centre a line of small print.
    size = words.height * _POINTS_PER_MM
    left = words.middle * _POINTS_PER_MM - 0.25 * size * len(words.text)
    bottom = (card.CARD_MM[1] - words.top - 0.75 * words.height) * _POINTS_PER_MM
    return f"BT 0.118 g /F1 {size:.2f} Tf {left:.2f} {bottom:.2f} Td ({words.text}) Tj ET"


def _pdf_file(objects: list[bytes]) -> bytes:
    out = io.BytesIO()
    out.write(b"%PDF-1.4\n")
    offsets = []
    for number, body in enumerate(objects, start=1):
        offsets.append(out.tell())
        out.write(b"%d 0 obj\n%s\nendobj\n" % (number, body))
    start = out.tell()
    out.write(b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1))
    out.writelines(b"%010d 00000 n \n" % offset for offset in offsets)
    out.write(b"trailer << /Size %d /Root 1 0 R /Info %d 0 R >>\n" % (len(objects) + 1, len(objects)))
    out.write(b"startxref\n%d\n%%%%EOF\n" % start)
    return out.getvalue()
