"""``manage.py ready_reference``: an installation without limits gets the documented default."""
from django.core.management.base import BaseCommand

from inspections.records.acts.reference import publish_limits
from inspections.records.models import LimitSet
from inspections.trade.limits import DEFAULT_LIMITS


class Command(BaseCommand):
    help = "Publish the shipped limits where there are none yet. Run again, it changes nothing."

    def handle(self, *args, **options):
        if LimitSet.objects.filter(is_current=True).exists():
            return
        published = publish_limits(data=DEFAULT_LIMITS, person=None)
        self.stdout.write(f"Limits in use: {published.name}, version {published.version}.")
