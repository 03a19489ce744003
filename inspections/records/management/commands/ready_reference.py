"""``manage.py ready_reference``: an installation without limits gets the documented default."""
from django.core.management.base import BaseCommand

from inspections.records.services.reference import default_limits


class Command(BaseCommand):
    help = "Publish the shipped limits where there are none yet. Run again, it changes nothing."

    def handle(self, *args, **options):
        limits = default_limits()
        if options["verbosity"] > 0:
            self.stdout.write(f"Limits in use: {limits.name}, version {limits.version}.")
