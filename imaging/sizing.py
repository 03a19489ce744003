"""How long the pieces are, in millimetres: a hint beside the weighed count, or nothing.

Method: the prawn surface falls into pieces; a piece that lies alone, whole and longer than wide is
measured as half its outline less its width, which holds for straight and curled pieces alike. The
card gives the millimetre. At least three such pieces are needed.
Does not hold: for pieces that touch or overlap (they are left out), pieces standing up, or a camera
held far from upright. Never a size grade: that is a weighed count.
Source: perimeter of a strip is twice length plus width; common practice for the limits.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

MIN_PIECES = 3
_DOUBT = 0.12  # share either way: outline on small squares, curl, lens


@dataclass(frozen=True)
class PieceLength:
    """Mean length of the pieces that lie alone: `mean_mm` (low, high) over `pieces` of them."""

    mean_mm: float
    low_mm: float
    high_mm: float
    pieces: int

    def to_json(self) -> dict:
        """As kept with the answer."""
        return {"mean": self.mean_mm, "low": self.low_mm, "high": self.high_mm, "pieces": self.pieces}


def piece_length(prawn: np.ndarray, mm_per_pixel: float | None) -> PieceLength | None:
    """Mean length of separately lying pieces.

    Parameters
    ----------
    prawn : ndarray of shape (rows, cols), bool
    mm_per_pixel : float or None
        From the card.

    Returns
    -------
    PieceLength or None
        None without a card, or with fewer than three pieces that lie alone.
    """
    if mm_per_pixel is None:
        return None
    outlines, _ = cv2.findContours(prawn.astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    lengths = [length for outline in outlines if (length := _length(outline, prawn.shape)) is not None]
    lengths = [length * mm_per_pixel for length in lengths if 25 <= length * mm_per_pixel <= 330]
    if len(lengths) < MIN_PIECES or np.std(lengths) > 0.35 * np.mean(lengths):
        return None
    mean = float(np.mean(lengths))
    return PieceLength(mean, mean * (1 - _DOUBT), mean * (1 + _DOUBT), len(lengths))


def _length(outline: np.ndarray, shape: tuple[int, int]) -> float | None:
    left, top, width, height = cv2.boundingRect(outline)
    if left <= 1 or top <= 1 or left + width >= shape[1] - 1 or top + height >= shape[0] - 1:
        return None
    smooth = cv2.approxPolyDP(outline, 2.0, True)
    area, around = cv2.contourArea(smooth), cv2.arcLength(smooth, True)
    # A strip of length l and width w: l w = area, 2 (l + w) = around.
    root = around * around / 16 - area
    if area < 60 or root <= 0:
        return None
    length = around / 4 + np.sqrt(root)
    return float(length) if 2.2 <= length * length / area <= 9 else None
