"""``load_demo --password WORD``: load the invented scenario, or what is missing of it."""
from django.core.management.base import BaseCommand, CommandError

from fixtures.demo.claimed import load_claims
from fixtures.demo.load import DELIVERIES, load
from fixtures.demo.logged import load_log
from fixtures.demo.photos import draw_demo_photos
from fixtures.demo.scenario import PEOPLE
from inspections.claims.services import Said, change_claim, draft_claim, say
from inspections.evidence.logger_files import add_logger_file
from inspections.sync.signing import add, sign


class Command(BaseCommand):
    help = "Load an invented restaurant group with past deliveries and today's orders; loading it again adds the day's."

    def add_arguments(self, parser):
        parser.add_argument("--password", required=True, help="for every person of the scenario, 8 signs or more")
        parser.add_argument("--deliveries", type=int, default=DELIVERIES)

    def handle(self, *, password, deliveries, **options):
        if len(password) < 8:
            raise CommandError("The password is shorter than 8 signs. Nothing was loaded. Give a longer one.")
        load(
            password=password, sign=sign, add=add, draw=draw_demo_photos, deliveries=deliveries,
            tell=self.stdout.write,
        )
        load_log(keep=add_logger_file, tell=self.stdout.write)
        load_claims(draft=draft_claim, change=change_claim, say=say, said=Said, tell=self.stdout.write)
        self.stdout.write("sign in as " + ", ".join(f"{one.username} ({one.role})" for one in PEOPLE))
