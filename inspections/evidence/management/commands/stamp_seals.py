"""Has each site's latest seal stamped by the authority for time stamps that is set."""
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from inspections.evidence.anchors import latest_of
from inspections.evidence.stamps import CannotStamp, stamp
from inspections.people.models import Site


class Command(BaseCommand):
    help = "Have each site's latest seal time-stamped (RFC 3161) by the authority in UNDERLID_TSA, and keep the stamps."

    def handle(self, *args: Any, **options: Any) -> None:
        for site in Site.objects.order_by("code"):
            newest = latest_of(site)
            if newest is None:
                self.stdout.write(f"{site.code}: no seals yet")
                continue
            try:
                row = stamp(newest)
            except CannotStamp as trouble:
                raise CommandError(str(trouble)) from trouble
            self.stdout.write(f"{site.code}: seal {newest.number} was stamped at {row.at:%Y-%m-%d %H:%M:%S} UTC")
