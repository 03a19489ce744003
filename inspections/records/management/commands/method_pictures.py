"""Make the pictures of imaging/docs/method.md again, from one drawn scene."""

from pathlib import Path

import cv2
import numpy as np
from django.core.management.base import BaseCommand

import imaging
from fixtures.scenes import SceneRequest, draw_scene
from imaging import overlay
from imaging.advice import Context, analyse
from imaging.decode import encode_jpeg

FOLDER = Path(imaging.__file__).parent / "docs"
SCENE = SceneRequest(
    seed=2025, species="PNV", presentation="HOSO", state="raw", layout="rows", dark_share=0.15, dark_kind="mixed",
    illuminant="A", card=True, frost=0.1, glaze=0.1,
)  # fmt: skip


class Command(BaseCommand):
    help = "Draw one scene, analyse it, and write a picture of each step into imaging/docs/."

    def handle(self, *args, **options):
        scene = draw_scene(SCENE)
        analysis = analyse(scene.jpeg, Context("PNV", "HOSO", "raw"))
        for name, picture in pictures_of(analysis).items():
            (FOLDER / name).write_bytes(picture)
        advice = analysis.advice.to_json()
        self.stdout.write(f"drawn {scene.truth_share:.3f}, {advice['answer']} {advice['share']:.3f}")
        self.stdout.write(f"range {advice['share_low']:.3f} to {advice['share_high']:.3f}, {advice['where']}")


def pictures_of(analysis) -> dict[str, bytes]:
    """File name to JPEG or PNG bytes, one for each step."""
    photo = analysis.photo.pixels
    with_card = photo.copy()
    cv2.polylines(with_card, [analysis.card.outline.round().astype(np.int32)], True, (255, 0, 255), 4)
    lab = analysis.lab
    balanced = cv2.cvtColor(lab, cv2.COLOR_LAB2BGR)
    balanced = (np.clip(balanced, 0, 1) * 255).astype(np.uint8)
    rest = balanced.copy()
    rest[~analysis.regions.prawn] = rest[~analysis.regions.prawn] // 4 + 160
    return {
        "1-photo.jpg": _small(with_card),
        "2-balanced.jpg": _small(balanced),
        "3-prawn.jpg": _small(rest),
        "4-overlay.jpg": _small(
            cv2.imdecode(np.frombuffer(overlay.overlay_jpeg(analysis), np.uint8), cv2.IMREAD_COLOR)
        ),
        "5-histogram.png": overlay.histogram_png(analysis),
    }


def _small(picture: np.ndarray) -> bytes:
    size = (560, round(560 * picture.shape[0] / picture.shape[1]))
    return encode_jpeg(cv2.resize(picture, size, interpolation=cv2.INTER_AREA), 78)
