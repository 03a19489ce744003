"""Backs the installation up while it runs."""
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.deployment.backup import CannotBackUp, back_up


class Command(BaseCommand):
    help = "Write a backup (database, photos, keys) into a new folder below FOLDER, while the server runs."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("folder", type=Path, help="Best on another disk; whoever reads it holds the sealing key.")

    def handle(self, *args: Any, folder: Path, **options: Any) -> None:
        try:
            done = back_up(folder.expanduser().resolve())
        except CannotBackUp as trouble:
            raise CommandError(str(trouble)) from trouble
        self.stdout.write(f"The backup lies in {done}.")
        if settings.S3_BUCKET:
            self.stdout.write(f"The photos are not in it: they lie in the bucket {settings.S3_BUCKET}. Switch its "
                              "versioning on, or copy it with the storage's own tool after this backup.")
