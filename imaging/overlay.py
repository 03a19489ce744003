"""Pictures of what was looked at: the photo with marks, and the histogram of lightness.

Method: prawn surface is outlined, dark places are filled and outlined, and a strip of words below
says what each mark means, so nothing rests on colour alone.
"""

from __future__ import annotations

import io

import cv2
import numpy as np
from PIL import Image, ImageDraw, ImageFont

from imaging.advice import Analysis
from imaging.decode import encode_jpeg

_OUTLINE = (255, 255, 255)
_DARK = (220, 0, 200)  # BGR: a colour that neither prawns nor cartons have
_STRIP = 34


def overlay_jpeg(analysis: Analysis) -> bytes | None:
    """The photo with what looked dark, as JPEG of about 1000 px; None when no prawn surface was measured."""
    if analysis.darkness is None:
        return None
    picture = analysis.photo.pixels.copy()
    size = picture.shape[1::-1]
    prawn = cv2.resize(analysis.regions.prawn.astype(np.uint8), size, interpolation=cv2.INTER_NEAREST)
    dark = analysis.darkness.dark.astype(np.uint8)
    picture[dark > 0] = (0.45 * picture[dark > 0] + 0.55 * np.array(_DARK)).astype(np.uint8)
    for mask, colour, width in ((prawn, (0, 0, 0), 3), (prawn, _OUTLINE, 1), (dark, _DARK, 1)):
        outlines, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_SIMPLE)
        cv2.drawContours(picture, outlines, -1, colour, width)
    return encode_jpeg(np.vstack([picture, _words_strip(size[0], analysis)]), 82)


def _words_strip(width: int, analysis: Analysis) -> np.ndarray:
    dark = analysis.darkness
    words = (
        f"White line: read as prawn. Violet: looked dark, {100 * dark.share:.0f} % "
        f"({100 * dark.share_low:.0f} to {100 * dark.share_high:.0f} %). Advice only."
    )
    strip = Image.new("RGB", (width, _STRIP), (255, 255, 255))
    draw = ImageDraw.Draw(strip)
    size = min(20.0, 20.0 * width / max(1.0, 9.6 * len(words)))
    draw.text((8, _STRIP / 2), words, fill=(0, 0, 0), font=ImageFont.load_default(size=size), anchor="lm")
    return np.asarray(strip)[..., ::-1]


def histogram_png(analysis: Analysis) -> bytes | None:
    """Histogram of L* over the prawn surface, dark places filled in; PNG, None as `overlay_jpeg`."""
    if analysis.darkness is None:
        return None
    lightness = analysis.lab[..., 0]
    every = np.histogram(lightness[analysis.regions.prawn], bins=50, range=(0, 100))[0]
    is_dark = cv2.resize(
        analysis.darkness.dark.astype(np.uint8), lightness.shape[::-1], interpolation=cv2.INTER_NEAREST
    )
    dark = np.histogram(lightness[is_dark > 0], bins=50, range=(0, 100))[0]
    picture = Image.new("RGB", (560, 260), (255, 255, 255))
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=15)
    for number, (whole, part) in enumerate(zip(every, dark, strict=True)):
        left = 30 + number * 10
        for count, colour in ((whole, (190, 190, 190)), (part, (200, 0, 220))):
            draw.rectangle([left, 200 - 170 * count / max(1, every.max()), left + 8, 200], fill=colour)
    own = 30 + analysis.darkness.own_lightness * 5
    draw.line([own, 22, own, 200], fill=(0, 0, 0))
    draw.text((own, 4), "the prawns' own L*", fill=(0, 0, 0), font=font, anchor="ma")
    for level in range(0, 101, 20):
        draw.text((30 + level * 5, 204), str(level), fill=(0, 0, 0), font=font, anchor="ma")
    draw.text(
        (280, 230), "Lightness L*. Grey: prawn surface. Violet: looked dark.", fill=(0, 0, 0), font=font, anchor="ma"
    )
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()
