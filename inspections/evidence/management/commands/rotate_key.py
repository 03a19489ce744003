"""Puts a new sealing key in the place of the present one."""
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.evidence.rotation import rotate_key


class Command(BaseCommand):
    help = "Seal with a new key from now on. The old public key stays published and every earlier seal stays valid."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("why", help="Why, for the sealed record: “the yearly change”.")

    def handle(self, *args: Any, why: str, **options: Any) -> None:
        if not why.strip():
            raise CommandError("Say why the key is changed. Nothing was changed.")
        changed = rotate_key(why.strip())
        self.stdout.write(
            f"From now on records are sealed with key {changed.new_key_id}.\n"
            f"The old key, {changed.old_key_id}, sealed the change at {changed.sites} "
            f"{'site' if changed.sites == 1 else 'sites'} and is gone from this server; its public half stays "
            "published at /e/keys, and every earlier seal can still be checked.\n"
            "Make a backup now, and tell suppliers the number of the new key."
        )
