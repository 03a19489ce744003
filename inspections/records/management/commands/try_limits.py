"""``manage.py try_limits``: what signed deliveries would have come to under another set of limits or another plan."""
import json
from datetime import date
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from inspections.people.models import Site
from inspections.records.selectors import deliveries_at
from inspections.records.tried_limits import Tried, table_of, try_limits
from inspections.trade.limits import PLANS, UnusableLimits


class Command(BaseCommand):
    help = "Judge signed deliveries again under another set of limits or plan. Nothing is changed."

    def add_arguments(self, parser):
        parser.add_argument("--limits", metavar="FILE", help="a limit set as JSON, as GET /api/limits gives it")
        parser.add_argument("--plan", choices=PLANS, default="", help="a plan of opening cartons")
        parser.add_argument("--site", metavar="CODE", help="only this site (default: all)")
        parser.add_argument("--from", dest="first", metavar="DAY", help="arrived on this day or later, 2026-03-31")
        parser.add_argument("--to", dest="last", metavar="DAY", help="arrived on this day or earlier")
        parser.add_argument("--most", type=int, default=50, help="changed lines that are listed (default 50)")

    def handle(self, *, limits, plan, site, first, last, most, **options):
        if not limits and not plan:
            raise CommandError("Nothing to try: name a file with --limits, or a plan with --plan. Nothing was judged.")
        sites = Site.objects.filter(code=site) if site else Site.objects.all()
        if site and not sites:
            raise CommandError(f"There is no site {site}. Nothing was judged.")
        found = deliveries_at(sites, first_day=_day(first), last_day=_day(last)).order_by("arrived_at", "pk")
        try:
            tried = try_limits(found.iterator(chunk_size=200), _set_in(limits) if limits else None, plan)
        except UnusableLimits as problem:
            raise CommandError(f"{limits}: {problem.code} {problem.facts}. This set cannot be judged by. Nothing was "
                               "changed. Correct the file and try again.") from None
        self._print(tried, most)

    def _print(self, tried: Tried, most: int) -> None:
        self.stdout.write(f"{tried.deliveries} deliveries, {tried.lines} lines; {tried.not_told} lines not told: "
                          "the plan asks for cartons that nobody opened.")
        rows = [("", "own", "tried"), *table_of(tried)]
        for what, before, after in rows:
            self.stdout.write(f"{what:<52} {before:>26} {after:>26}")
        self.stdout.write(f"{len(tried.changed)} lines would have changed.")
        for one in tried.changed[:most]:
            self.stdout.write(
                f"{one.delivery.docket_number or one.delivery.pk} line {one.line}: {one.before}, {one.refused_before} "
                f"refused -> {one.after}, {one.refused_after} refused  "
                f"{settings.PUBLIC_ADDRESS}/desk/deliveries/{one.delivery.pk}"
            )


def _set_in(path: str) -> dict:
    try:
        return json.loads(Path(path).read_text(encoding="utf-8"))
    except (OSError, ValueError) as trouble:
        raise CommandError(f"{path} could not be read as a limit set: {trouble}. Nothing was judged.") from None


def _day(entry: str | None) -> date | None:
    try:
        return date.fromisoformat(entry) if entry else None
    except ValueError:
        raise CommandError(f"“{entry}” is not a day. Nothing was judged. Write it like 2026-03-31.") from None
