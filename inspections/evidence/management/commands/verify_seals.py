"""Checks every seal against rows and files; the exit code is 1 when something is not as it was sealed."""
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.evidence import guards
from inspections.evidence.anchors import latest_of, read_anchor
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import SealingKey
from inspections.messages import message
from inspections.people.models import Site


class Command(BaseCommand):
    help = "Recompute every seal from the stored rows and files, and name what does not match."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--site", default="", help="Code of one site; all sites without it.")
        parser.add_argument("--anchor", default="", help=message("evidence-verify-anchor"))

    def handle(self, *args: Any, site: str, anchor: str, **options: Any) -> None:
        noted = read_anchor(anchor)
        if anchor and noted is None:
            raise CommandError(message("evidence-says-anchor-unread"))
        sites = Site.objects.filter(code=site) if site else Site.objects.all()
        if site and not sites:
            raise CommandError(f"There is no site with the code {site}. Nothing was checked.")
        off = guards.missing()
        for name in off:
            self.stdout.write(f"the database's guard {name} is missing; python3 manage.py migrate puts it on")
        mismatches = len(off)
        for one in sites:
            found = verify_chain(one)
            mismatches += len(found)
            for mismatch in found:
                self.stdout.write(str(mismatch))
            last = latest_of(one)
            told = f"{last.number} seals, the last is {last.sha256}" if last else "no seals yet"
            self.stdout.write(f"{one.code}: {told}; {len(found) or 'nothing'} not as sealed")
        self.stdout.write(f"Keys used: {', '.join(SealingKey.objects.values_list('pk', flat=True)) or 'none'}")
        if noted:
            holders = [one.code for one in sites if noted.is_of(one)]
            mismatches += not holders
            self.stdout.write(message("evidence-anchor-of", number=noted.number, sites=", ".join(holders)) if holders
                              else message("evidence-anchor-of-none", number=noted.number, digits=noted.digits))
        if mismatches:
            raise CommandError(f"{mismatches} things are not as they were sealed. Nothing was changed. Compare with a "
                               "backup and with the copies that phones and suppliers hold.")
