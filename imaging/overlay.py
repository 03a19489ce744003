"""The photo with frames on its darkest places; the supplier, the desk and the phone show the same one."""

from __future__ import annotations

import cv2
import numpy as np

from imaging.advice import Analysis
from imaging.decode import encode_jpeg

_FRAME = 2.2  # half the side of a frame, in radii of the disc: clear of what it shows


def overlay_jpeg(analysis: Analysis) -> bytes | None:
    """JPEG of about 1000 px, each piece outlined and the darkest places framed; None without frames."""
    if analysis.photo is None or not analysis.advice["frames"]:
        return None
    picture = analysis.photo.pixels.copy()
    for one in analysis.pieces:
        at = (one.piece.left, one.piece.top)
        outlines, _ = cv2.findContours(one.piece.mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE, offset=at)
        outlines = [(outline * analysis.larger).astype(np.int32) for outline in outlines]
        cv2.polylines(picture, outlines, True, (255, 255, 255), 1, cv2.LINE_AA)
    for number, place in enumerate(analysis.frames, start=1):
        half = max(12, _FRAME * place.radius)
        corners = [(round(place.x + side * half), round(place.y + side * half)) for side in (-1, 1)]
        # Black, white, black: to be seen on any shell, without a colour that would have to be told.
        for colour, width in (((0, 0, 0), 6), ((255, 255, 255), 3)):
            cv2.rectangle(picture, corners[0], corners[1], colour, width)
            words = (corners[0][0], corners[0][1] - 6)
            cv2.putText(picture, str(number), words, cv2.FONT_HERSHEY_SIMPLEX, 0.8, colour, width)
    return encode_jpeg(picture, 82)
