"""``import_data KIND FILE``: read a CSV file of suppliers, specifications, orders or thermometers."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from inspections.errors import ApiProblem
from inspections.records.services.imports import NEEDED_ROLES, import_rows


class Command(BaseCommand):
    help = "Read a CSV file; nothing is written when a line is bad, unless --keep-good is given."

    def add_arguments(self, parser):
        parser.add_argument("kind", choices=sorted(NEEDED_ROLES))
        parser.add_argument("file", type=Path)
        parser.add_argument("--keep-good", action="store_true", help="write the good lines although others are bad")

    def handle(self, *, kind, file, keep_good, **options):
        try:
            report = import_rows(kind=kind, content=file.read_bytes(), person=None, keep_good=keep_good)
        except OSError as trouble:
            raise CommandError(f"{file} could not be read ({trouble.strerror}). Nothing was changed.") from trouble
        except ApiProblem as refusal:
            raise CommandError(str(refusal)) from refusal
        for error in report.errors:
            where = f"line {error.line}" + (f", {error.column} “{error.value}”" if error.column else "")
            self.stderr.write(f"{where}: {error.sentence}")
        if not report.is_written:
            raise CommandError(f"Nothing was written: {len(report.errors)} cells cannot be used.")
        self.stdout.write(f"{report.added} added, {report.changed} changed, {report.unchanged} as before.")
