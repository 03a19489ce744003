"""Checks an evidence bundle from the file alone; the exit code is 1 when something does not hold."""
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from inspections.evidence.bundle_check import NotABundle, check_bundle


class Command(BaseCommand):
    help = "Check signatures, hashes and photos of an evidence bundle, using nothing but the file."
    requires_system_checks = []

    def add_arguments(self, parser):
        parser.add_argument("file", type=Path)
        parser.add_argument("--key-id", default="", help="The key's number as you know it from elsewhere.")

    def handle(self, *args, file: Path, key_id: str, **options):
        try:
            checked = check_bundle(file, expected_key_id=key_id)
        except NotABundle as trouble:
            raise CommandError(f"{file} is no evidence bundle: {trouble}. Nothing was changed. "
                               "Download it again and check once more.") from trouble
        for one in checked:
            self.stdout.write(f"{'holds      ' if one.holds else 'DOES NOT   '} {one.what}")
        broken = sum(not one.holds for one in checked)
        if broken:
            raise CommandError(f"{broken} of {len(checked)} checks do not hold. This is not the evidence as sealed.")
        known = "" if key_id else " Whose key it is, only a number known from elsewhere can tell (--key-id)."
        self.stdout.write(f"All {len(checked)} checks hold.{known}")
