"""Laid-out samples drawn with known truth: geometry and colour only."""

from collections.abc import Iterator

import cv2
import numpy as np

from fixtures.scenes import SceneRequest, draw_scene
from fixtures.scenes.request import Scene
from imaging.advice import Analysis, Context, analyse

LAMPS = ("A", "D50", "D65", "F2", "F11", "LED-B3")


def request(number: int, lamp: str, *, card: bool, dark: bool, **more) -> SceneRequest:
    goods = (("PNV", "HOSO"), ("PNV", "HLSO"), ("GIT", "HLSO"), ("TIP", "HOSO"))[number % 4]
    kind = ("heads" if goods[1] == "HOSO" else "spots") if dark else "none"
    wanted = {
        "seed": 9000 + number, "species": goods[0], "presentation": goods[1], "layout": "laid_out",
        "surface": "pale_tray", "illuminant": lamp, "card": card, "dark_share": 0.1 if dark else 0.0,
        "dark_kind": kind, "width": 1280, "height": 960,
    }  # fmt: skip
    return SceneRequest(**{**wanted, **more})


def looked_at(wanted: SceneRequest) -> tuple[Scene, Analysis]:
    scene = draw_scene(wanted)
    return scene, analyse(scene.jpeg, Context(wanted.species, wanted.presentation, wanted.state))


def true_pieces(scene: Scene) -> int:
    """Bodies of the drawing, limbs and feelers opened away."""
    bodies = cv2.morphologyEx(scene.prawn_mask.astype(np.uint8), cv2.MORPH_OPEN, np.ones((9, 9), np.uint8))
    areas = cv2.connectedComponentsWithStats(bodies)[2][1:, cv2.CC_STAT_AREA]
    return int((areas > 0.25 * np.median(areas)).sum())


def black_of_pieces(scene: Scene, analysis: Analysis) -> Iterator[tuple[float, float]]:
    """Drawn black share and figure of each piece that was looked at."""
    scale = analysis.photo.pixels.shape[1] / analysis.larger / scene.dark_mask.shape[1]
    black = cv2.resize(scene.dark_mask.astype(np.float32), None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    for one in analysis.pieces:
        if one.places:
            piece = one.piece
            box = black[piece.top :, piece.left :][: piece.mask.shape[0], : piece.mask.shape[1]]
            yield float(box[piece.mask[: box.shape[0], : box.shape[1]] > 0].mean()), one.figure
