"""A small group whose suppliers are compared, for the journeys at the desk; run as a script like ``kitchen.py``."""
import json
import os
import random
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

from kitchen import PASSWORD

LONG = "Kaldvik and Sons Frozen Seafood Importers (Northern Division)"
SHARES = {LONG: 0.05, "Abalone Bay": 0.06, "Bright Water": 0.45, "Coral Coast": 0.05}


def furnish() -> dict:
    """Four suppliers at two sites over a year, one of them far worse; a site with one supplier, and one with none."""
    from inspections.people.models import Person, Role
    from inspections.records.models import DocketLine, LineLot, SearchWord
    from tests.inspections.comparison.conftest import Dock

    dock, luck, now = Dock(), random.Random(3), datetime.now(UTC).replace(hour=6)
    for name, share in SHARES.items():
        for place in range(36):
            goods = (("HLSO raw", 20, 2 * (place % 9 == 0), 5, sum(luck.random() < share for _ in range(5))),
                     ("PUD cooked", 10, 0, 3, sum(luck.random() < share for _ in range(3))))
            dock.delivery(name, ("Harbour", "Hill")[place % 2], goods[place % 2],
                          arrived_at=now - timedelta(days=10 * place + 1))
    for place in range(6):
        dock.delivery("Abalone Bay", "Lone cove", ("HLSO raw", 20, 0, 4, 0), arrived_at=now - timedelta(days=5 + place))
    line = DocketLine.objects.filter(delivery__supplier=dock.supplier("Bright Water")).first()
    lot = LineLot.objects.create(line=line, lot="L2041", key="l2041", is_on_docket=True, labels=0)
    SearchWord.objects.create(delivery=line.delivery, lot=lot, word="l2041")
    for username, role, site in (("boss", Role.GROUP_OPERATIONS, ""), ("lone", Role.SITE_MANAGER, "Lone cove"),
                                 ("idle", Role.SITE_MANAGER, "New site")):
        person = Person.objects.create_user(username, password=PASSWORD, name=username.title(), role=role)
        if site:
            person.sites.add(dock.site(site))
    return {"site": str(dock.site("Harbour").pk), "supplier": str(dock.supplier("Bright Water").pk),
            "specification": str(dock.goods("PUD cooked").specification_id)}


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", verbosity=0)
    sys.stdout.write(json.dumps(furnish()) + "\n")
