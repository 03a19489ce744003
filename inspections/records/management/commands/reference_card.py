"""Write the printable reference card: `manage.py reference_card card.pdf` (or card.png)."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from imaging import card_print


class Command(BaseCommand):
    help = "Write the reference card for photos as an A6 PDF or PNG, by the ending of the file name."

    def add_arguments(self, parser):
        parser.add_argument("file", type=Path, help="card.pdf or card.png")

    def handle(self, *args, **options):
        file: Path = options["file"]
        makers = {".pdf": card_print.card_pdf, ".png": card_print.card_png}
        make = makers.get(file.suffix.lower())
        if make is None:
            raise CommandError("The file name must end in .pdf or .png. Nothing was written. Choose one of the two.")
        file.write_bytes(make())
        self.stdout.write(f"{file} written. Print it at actual size: the scale must measure 80 mm.")
