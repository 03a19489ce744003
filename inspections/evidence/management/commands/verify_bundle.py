"""Checks an evidence bundle from the file alone; the exit code is 1 when something does not hold."""
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.evidence.anchors import read_anchor
from inspections.evidence.bundle_check import Checked, NotABundle, check_anchor, check_bundle
from inspections.messages import message

BESIDE = (
    "Beside the seal, what a machine made of the photos. It is advice. No seal covers it: that its pictures are whole "
    "is all that can be checked."
)

BROKEN = "This is not the evidence as sealed."
BROKEN_BESIDE = (
    "All that was sealed holds. The advice beside it is not as the installation wrote it: leave it out of account."
)


class Command(BaseCommand):
    help = (
        "Check signatures, hashes and photos of an evidence bundle, using nothing but the file. Advice that a machine "
        "gave on the photos is listed apart: no seal covers it."
    )
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--key-id", default="", help="The key's number as you know it from elsewhere.")
        parser.add_argument("--anchor", default="", help=message("evidence-verify-anchor"))

    def handle(self, *args: Any, file: Path, key_id: str, anchor: str, **options: Any) -> None:
        noted = read_anchor(anchor)
        if anchor and noted is None:
            raise CommandError(message("evidence-says-anchor-unread"))
        try:
            checked = check_bundle(file, expected_key_id=key_id)
        except NotABundle as trouble:
            raise CommandError(f"{file} is no evidence bundle: {trouble}. Nothing was changed. "
                               "Download it again and check once more.") from trouble
        self._list([one for one in checked if one.is_sealed])
        beside = [one for one in checked if not one.is_sealed]
        if beside:
            self.stdout.write(BESIDE)
            self._list(beside)
        broken = sum(not one.holds for one in checked)
        if broken:
            is_sealed = any(not one.holds and one.is_sealed for one in checked)
            raise CommandError(f"{broken} of {len(checked)} checks do not hold. "
                               + (BROKEN if is_sealed else BROKEN_BESIDE))
        if noted:
            agrees = check_anchor(file, noted)
            if agrees is False:
                raise CommandError(message("evidence-says-anchor-broken"))
            self.stdout.write(message("evidence-says-anchor-holds" if agrees else "evidence-says-anchor-beyond"))
        known = "" if key_id else " Whose key it is, only a number known from elsewhere can tell (--key-id)."
        self.stdout.write(f"All {len(checked)} checks hold.{known}")

    def _list(self, checked: list[Checked]) -> None:
        for one in checked:
            self.stdout.write(f"{'holds      ' if one.holds else 'DOES NOT   '} {one.what}")
