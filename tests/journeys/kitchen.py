"""The small kitchen that the browser journeys work in; run as a script against an empty data folder.

    UNDERLID_DATA=FOLDER python tests/journeys/kitchen.py

Prints one JSON line with the ids and names that the journeys need.
"""
import json
import os
import sys
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

PASSWORD = "skillet-on-the-quay"
SPECIFICATION = {
    "species_code": "PNV", "presentation": "HLSO", "state": "raw", "grade": "16/20", "carton_net_g": 10000,
    "units_per_carton": 5, "declared_glaze_percent": 10, "origin": ["EC"], "method": "farmed", "market": "EU",
    "min_life_share": 0.5, "advisory": True, "overrides": {},
}


def furnish() -> dict:
    """Site, supplier, two specifications, orders for today, four people; what was made, by name."""
    from inspections.people.models import Market, Person, Role, Site
    from inspections.records.models import Freezer, Order, OrderLine, Supplier, Thermometer
    from inspections.records.services.reference import publish_specification

    site = Site.objects.create(name="Quayside", code="QUAY", timezone="Europe/Lisbon", currency="EUR", market=Market.EU)
    supplier = Supplier.objects.create(name="Northern Basin Seafoods", code="NBS")
    shell_on = publish_specification(code="VAN-1620", name="Whiteleg, headless shell-on 16/20", person=None,
                                     data=SPECIFICATION)
    larger = publish_specification(code="VAN-1315", name="Whiteleg, headless shell-on 13/15", person=None,
                                   data=SPECIFICATION | {"grade": "13/15"})
    today = datetime.now(ZoneInfo(site.timezone)).date()
    two_lines = [(shell_on, 6), (larger, 4)]
    # an order for each journey: one that is received is no longer expected
    for number, lines in (("PO-1", [(shell_on, 2)]), ("PO-2", two_lines), ("PO-3", two_lines), ("PO-4", two_lines),
                          ("PO-5", [(shell_on, 2)]), ("PO-20", two_lines),
                          *((f"PO-{number}", [(shell_on, 2)]) for number in (*range(6, 20), 21, 25))):
        order = Order.objects.create(number=number, supplier=supplier, site=site, expected_on=today)
        for version, cartons in lines:
            OrderLine.objects.create(order=order, specification_version=version, cartons=cartons)
    for name in ("Walk-in 1", "Chest by the fish bench"):
        Freezer.objects.create(site=site, name=name)
    Thermometer.objects.create(site=site, name="Probe A", accuracy_c="0.5", last_checked_on=today - timedelta(days=3),
                               last_check_c="0.1", check_due_on=date(today.year + 1, 1, 1))
    for username, name, role in (("rosa", "Rosa Lind", Role.RECEIVER), ("tomas", "Tomas Vale", Role.RECEIVER),
                                 ("mira", "Mira Holt", Role.SITE_MANAGER)):
        person = Person.objects.create_user(username, password=PASSWORD, name=name, role=role)
        person.sites.add(site)
    Person.objects.create_user("gil", password=PASSWORD, name="Gil Moor", role=Role.GROUP_OPERATIONS)
    return {"site": str(site.id), "supplier": str(supplier.id), "password": PASSWORD}


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", verbosity=0)
    call_command("ready_reference", verbosity=0, stdout=sys.stderr)
    sys.stdout.write(json.dumps(furnish()) + "\n")
