"""Kitchens for simulated devices: run as a module in the environment of the form that shall hold them.

    python -m inspections.development.made_up_kitchens 40

Prints one JSON line with what the devices need: the password of all, and a user name for each.
"""
import json
import os
import sys

PASSWORD = "skillet-on-the-quay"
SITES = 4
SPECIFICATION = {
    "species_code": "PNV", "presentation": "HLSO", "state": "raw", "grade": "16/20", "carton_net_g": 10000,
    "units_per_carton": 5, "declared_glaze_percent": 10, "origin": ["EC"], "method": "farmed", "market": "EU",
    "min_life_share": None, "advisory": True, "overrides": {},
}


def furnish(devices: int) -> dict:
    """Sites, one supplier, one specification, a freezer each, and a receiver for each device."""
    from django.contrib.auth.hashers import make_password

    from inspections.people.models import Person, Role, Site
    from inspections.records.models import Freezer, Supplier
    from inspections.records.services.reference import publish_specification

    sites = [Site.objects.create(name=f"Kitchen {n}", code=f"K{n}", timezone="Europe/Lisbon") for n in range(SITES)]
    Supplier.objects.create(name="Northern Basin Seafoods", code="NBS")
    publish_specification(code="VAN-1620", name="Whiteleg, headless shell-on 16/20", person=None, data=SPECIFICATION)
    # Hashing a password is slow on purpose; one is enough for people who do not exist.
    hashed = make_password(PASSWORD)
    names = [f"receiver-{n}" for n in range(devices)]
    people = Person.objects.bulk_create(
        Person(username=name, email=f"{name}@kitchen.example", password=hashed, name=name, role=Role.RECEIVER)
        for name in names)
    for number, person in enumerate(people):
        person.sites.add(sites[number % SITES])
    Freezer.objects.bulk_create(Freezer(site=site, name="Walk-in 1") for site in sites)
    return {"password": PASSWORD, "usernames": names}


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django
    from django.core.management import call_command

    django.setup()
    call_command("ready_reference", verbosity=0)
    sys.stdout.write(json.dumps(furnish(int(sys.argv[1]))) + "\n")
