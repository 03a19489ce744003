"""Try the photo advisory on pictures whose answer is known.

`manage.py evaluate_advisory FOLDER` reads photos and labels.csv (file, label, species, presentation, cooked; label one
of dark, clean, not_prawn); `--scenes N --seed N --split held_out` draws pictures instead.
"""

from dataclasses import dataclass
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from imaging.evaluation.labels import UnusableLabels, read_labels
from imaging.evaluation.table import report
from imaging.evaluation.trials import Outcome, PhotoTrial, Picture, run


@dataclass(frozen=True, slots=True)
class SceneTrial:
    """A scene that is drawn when its turn comes, in the process that judges it."""

    request: object

    @property
    def name(self) -> str:
        """Seed and species, enough to draw it again."""
        return f"scene {self.request.seed} {self.request.species}"

    def picture(self) -> Picture:
        """Draw it."""
        from fixtures.scenes import draw_scene

        scene, request = draw_scene(self.request), self.request
        return Picture(
            scene.jpeg, self.name, scene.label, request.species, request.presentation, request.state,
            scene.truth_share if scene.label != "not_prawn" else None, request.illuminant, request.card,
        )  # fmt: skip


class Command(BaseCommand):
    help = "Try the photo advisory on labelled photos (FOLDER with labels.csv) or on drawn scenes (--scenes N)."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path, nargs="?")
        parser.add_argument("--scenes", type=int, help="draw so many scenes, each once with and once without card")
        parser.add_argument("--seed", type=int, default=1)
        parser.add_argument("--split", choices=("dev", "held_out"), default="held_out")
        parser.add_argument(
            "--light", choices=("soft", "hard"), default="soft", help="of drawn scenes: ceiling panels, or a bare lamp"
        )
        parser.add_argument("--workers", type=int, default=1)

    def handle(self, *args, **options):
        if (options["folder"] is None) == (options["scenes"] is None):
            raise CommandError("Give either a folder of photos or --scenes with a number. Nothing was tried.")
        if options["folder"] is not None:
            self._folder(options["folder"], options["workers"])
        else:
            self._scenes(options)

    def _folder(self, folder: Path, workers: int) -> None:
        try:
            photos, problems = read_labels(folder)
        except UnusableLabels as fault:
            raise CommandError(str(fault)) from fault
        outcomes = self._run([PhotoTrial(photo) for photo in photos], workers)
        self.stdout.write(report(outcomes, problems, title=str(folder)))

    def _scenes(self, options: dict) -> None:
        from fixtures.scenes import sample_requests

        for card in (True, False):
            requests = sample_requests(
                options["scenes"], options["seed"], split=options["split"], card=card, light=options["light"]
            )
            outcomes = self._run([SceneTrial(request) for request in requests], options["workers"])
            title = (
                f"Scenes {options['split']}, seed {options['seed']}, {options['light']} light, "
                f"{'with' if card else 'without'} card"
            )
            self.stdout.write(report(outcomes, title=title) + "\n\n")

    def _run(self, trials: list, workers: int) -> list[Outcome]:
        outcomes = []
        for outcome in run(trials, workers=workers):
            outcomes.append(outcome)
            if len(outcomes) % 50 == 0:
                self.stderr.write(f"{len(outcomes)} of {len(trials)}")
        return outcomes
