"""Draw pictures with known truth into a folder: `manage.py make_scenes FOLDER --count 100 --seed 5`."""

import csv
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from fixtures.scenes import Scene, draw_scene, sample_requests


class Command(BaseCommand):
    help = "Draw scenes of prawns with known dark share, with a labels.csv that evaluate_advisory reads."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)
        parser.add_argument("--count", type=int, default=100)
        parser.add_argument("--seed", type=int, default=1)
        parser.add_argument("--split", choices=("dev", "held_out"), default="dev")

    def handle(self, *args, **options):
        folder: Path = options["folder"]
        if folder.exists() and any(folder.iterdir()):
            raise CommandError(f"{folder} is not empty. Nothing was written. Give a new or an empty folder.")
        if options["count"] < 1:
            raise CommandError("The count must be 1 or more. Nothing was written.")
        folder.mkdir(parents=True, exist_ok=True)
        requests = sample_requests(options["count"], options["seed"], split=options["split"])
        with (folder / "labels.csv").open("w", encoding="utf-8", newline="") as text:
            writer = csv.writer(text)
            writer.writerow(HEADING)
            for number, request in enumerate(requests, start=1):
                scene = draw_scene(request)
                name = f"scene_{number:05d}.jpg"
                (folder / name).write_bytes(scene.jpeg)
                writer.writerow(row(name, scene))
        self.stdout.write(f"{len(requests)} scenes and labels.csv written to {folder}.")


HEADING = (
    "file", "label", "species", "presentation", "cooked", "truth_share",
    "subject", "layout", "illuminant", "card", "dark_kind", "seed",
)  # fmt: skip


def row(name: str, scene: Scene) -> list:
    """A scene's row of labels.csv."""
    request = scene.request
    cooked, card = ("yes" if yes else "no" for yes in (request.is_cooked, request.card))
    return [
        name, scene.label, request.species, request.presentation, cooked, f"{scene.truth_share:.5f}",
        request.subject, request.layout, request.illuminant, card, request.dark_kind, request.seed,
    ]  # fmt: skip
