"""Hold the tallies of the comparison against the rows that they count, and mend them."""
from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.comparison.tallies import rebuild, wrong_deliveries, wrong_months


class Command(BaseCommand):
    help = "Count all docket lines and months again and mend tallies that differ; with --check only say which."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--check", action="store_true", help="change nothing; fails where a tally differs")

    def handle(self, *args, check: bool, **options) -> None:
        if not check:
            self.stdout.write(f"Tallies of {rebuild()} deliveries and months were made again; all others were right.")
            return
        wrong = list(wrong_deliveries())
        for delivery in wrong:
            self.stdout.write(f"delivery {delivery}")
        months = list(wrong_months())
        for site, month in months:
            self.stdout.write(f"{site.name}, {month:%Y-%m}")
        if wrong or months:
            raise CommandError(
                f"The tallies of {len(wrong)} deliveries and {len(months)} months are not what their "
                "rows say. The signed records are safe. "
                "Run rebuild_tallies without --check.")
        self.stdout.write("All tallies are what a fresh count gives.")
