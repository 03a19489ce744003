"""Try the photo advice on real photographs whose darkening a person has judged.

`manage.py evaluate_advisory FOLDER --labels TABLE.csv` prints the table; `--write open` keeps it in the method's page,
`--write kept_aside` those of photographs that nobody who chose the method has seen, which decide whether it answers.
"""

import json
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from imaging.advice import MEASURED, METHOD_VERSION
from inspections.development.advice_trials.labels import UnusableLabels, read_labels
from inspections.development.advice_trials.table import figures, report
from inspections.development.advice_trials.trials import outcomes

PAGE = MEASURED.with_name("method.md")
STATES = {"raw": ("", "raw", "live"), "cooked": ("cooked",)}


class Command(BaseCommand):
    help = "Try the photo advice on labelled photographs (FOLDER, and labels.csv in it or --labels TABLE)."

    def add_arguments(self, parser):
        parser.add_argument("folder", type=Path)
        parser.add_argument("--labels", type=Path, help="the table, when it is not labels.csv in the folder")
        parser.add_argument("--each", action="store_true", help="a line for each photo first")
        parser.add_argument("--write", choices=("open", "kept_aside"), help="keep the figures and the table")

    def handle(self, *args, **options):
        try:
            photos, problems = read_labels(options["folder"], options["labels"])
        except UnusableLabels as fault:
            raise CommandError(str(fault)) from fault
        found = []
        for one in outcomes(photos):
            found.append(one)
            if options["each"]:
                clear = "clear" if one.is_clear else "unclear"
                self.stdout.write(f"{one.label:<15}{one.name:<32}{one.figure:6.2f}  {one.would_say:<15}{clear:<8}"
                                  f"{one.milliseconds:5.0f} ms {one.problem}")
        table = report(found, problems)
        self.stdout.write(table)
        if options["write"]:
            _keep(options["write"], found, table)


def _keep(part: str, found: list, table: str) -> None:
    known = json.loads(MEASURED.read_text("utf-8"))
    by_state = {state: figures([o for o in found if o.kind in kinds]) for state, kinds in STATES.items()}
    by_state = {state: {"method": METHOD_VERSION, **one} for state, one in by_state.items() if "auc" in one}
    known[part] = by_state if part == "kept_aside" else {"method": METHOD_VERSION, **figures(found)}
    MEASURED.write_text(json.dumps(known, indent=1) + "\n", "utf-8")
    start, end = f"<!-- {part}: made by evaluate_advisory -->", f"<!-- {part} ends -->"
    page = PAGE.read_text("utf-8")
    before, rest = page.split(start)
    PAGE.write_text(f"{before}{start}\n{table}\n{end}{rest.split(end)[1]}", "utf-8")
