"""``manage.py advise_again``: let the current method look again at photos that an earlier one has answered."""
from datetime import date

from django.core.management.base import BaseCommand, CommandError

from imaging.advice import METHOD_VERSION
from inspections.people.models import Site
from inspections.records.judging import is_id
from inspections.records.models import Delivery
from inspections.records.selectors import deliveries_at
from inspections.records.services.reanalysis import Asked, ask_again


class Command(BaseCommand):
    help = (
        "Ask for photo advice anew on signed deliveries. Earlier answers are kept; evidence shows which one was there "
        "at signing. The running worker does the work."
    )

    def add_arguments(self, parser):
        parser.add_argument("--site", metavar="CODE", help="only this site (default: all)")
        parser.add_argument("--from", dest="first", metavar="DAY", help="arrived on this day or later, 2026-03-31")
        parser.add_argument("--to", dest="last", metavar="DAY", help="arrived on this day or earlier")
        parser.add_argument("--delivery", metavar="ID", help="only this delivery")
        parser.add_argument("--everything", action="store_true",
                            help="also photos that the current method has answered: after baselines were refined")
        parser.add_argument("--dry-run", action="store_true", help="only count")

    def handle(self, *, site, first, last, delivery, everything, dry_run, **options):
        sites = Site.objects.filter(code=site) if site else Site.objects.all()
        if site and not sites:
            known = ", ".join(Site.objects.values_list("code", flat=True)) or "none yet"
            raise CommandError(f"There is no site {site}. Nothing was asked. Sites here: {known}.")
        found = deliveries_at(sites, first_day=_day(first), last_day=_day(last))
        if delivery:
            found = found.filter(pk=_known(delivery))
        self.stdout.write(_told(ask_again(deliveries=found, everything=everything, is_dry_run=dry_run), dry_run))


def _day(entry: str | None) -> date | None:
    try:
        return date.fromisoformat(entry) if entry else None
    except ValueError:
        raise CommandError(f"“{entry}” is not a day. Nothing was asked. Write it like 2026-03-31.") from None


def _known(delivery: str) -> str:
    if not is_id(delivery) or not Delivery.objects.filter(pk=delivery).exists():
        raise CommandError(f"There is no delivery {delivery}. Nothing was asked. Its id stands in the desk's address.")
    return delivery


def _told(asked: Asked, is_dry_run: bool) -> str:
    begun = "would be looked at again" if is_dry_run else "are looked at again by the worker"
    return (
        f"{asked.photos} photos of prawns. {asked.asked} {begun}, by method {METHOD_VERSION}. "
        f"{asked.answered} have its answer already. {asked.switched_off} are of goods without photo advice. "
        f"{asked.not_here} are not stored here. Earlier answers are kept."
    )
