"""``manage.py write_openapi``: the API's document, as ``/api/openapi.json`` serves it."""
import json
import sys
from pathlib import Path

from django.core.management.base import BaseCommand, CommandParser

from inspections import openapi


class Command(BaseCommand):
    help = "Write the API's document (OpenAPI 3.1, JSON)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", nargs="?", type=Path, help="where to; else it is printed")

    def handle(self, *args, file: Path | None, **options) -> None:
        text = json.dumps(openapi.document(), indent=1, ensure_ascii=False) + "\n"
        if file is None:
            sys.stdout.write(text)
        else:
            file.write_text(text, encoding="utf-8")
            self.stdout.write(f"Wrote {file}: {len(openapi.document()['paths'])} addresses, version {openapi.VERSION}.")
