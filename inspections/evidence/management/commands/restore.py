"""Restores a backup into an empty installation and checks it by its seals."""
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import CommandParser, call_command
from django.core.management.base import BaseCommand, CommandError

from inspections.deployment.backup import CannotBackUp, restore
from inspections.deployment.data_folder import CannotUseFolder, held


class Command(BaseCommand):
    help = "Put a backup into an empty data folder (and an empty PostgreSQL database), then check every seal."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("backup", type=Path, help="The folder that manage.py backup wrote.")

    def handle(self, *args: Any, backup: Path, **options: Any) -> None:
        try:
            with held(settings.DATA, "the restoring of a backup"):
                restore(backup.expanduser().resolve())
                call_command("migrate", interactive=False, verbosity=0)
        except (CannotBackUp, CannotUseFolder) as trouble:
            raise CommandError(str(trouble)) from trouble
        self.stdout.write("The backup is restored. Its seals:")
        call_command("verify_seals", stdout=self.stdout)
