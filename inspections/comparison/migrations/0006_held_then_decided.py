"""Held cartons that were refused or released later: count them as such in what was signed before."""
from collections import Counter

from django.db import migrations
from django.db.models import F

KEYS = ("supplier_id", "site_id", "specification_id", "species", "presentation", "state", "month")


def count_decided(apps, schema_editor):
    """Begun again it finds what is left: a line that says what its rows say is not touched."""
    addendum, tally = apps.get_model("records", "Addendum"), apps.get_model("comparison", "LineTally")
    decided = Counter()
    for body in addendum.objects.filter(kind="set_apart").values_list("body", flat=True).iterator():
        for entry in body["cartons"] if body["event"] in ("refused", "released") else ():
            decided[entry["line_id"], body["event"]] += entry["count"]
    for line in {line for line, _ in decided}:
        row = tally.objects.select_related("line__specification_version", "line__delivery").filter(line=line).first()
        if row is not None:
            _mend(apps, row, decided[line, "refused"], decided[line, "released"])


def _mend(apps, row, refused, released):
    line = row.line
    fresh = {"refused": line.refused + refused, "held": line.held - refused - released,
             **_money(apps, line, line.refused + refused)}
    changed = {name: count - getattr(row, name) for name, count in fresh.items() if count != getattr(row, name)}
    if changed:
        more = {name: F(name) + count for name, count in changed.items()}
        apps.get_model("comparison", "LineTally").objects.filter(pk=row.pk).update(**more)
        apps.get_model("comparison", "MonthTally").objects.filter(
            **{name: getattr(row, name) for name in KEYS}).update(**more)


def _money(apps, line, refused):
    version = line.specification_version
    price = apps.get_model("records", "OrderLine").objects.filter(
        order=line.delivery.order_id, specification_version__specification=version.specification_id,
        price_per_kg__isnull=False).order_by("-pk").values_list("price_per_kg", flat=True).first()
    net_g = version.data.get("carton_net_g")
    if price is None or not net_g:
        return {}
    grams = round(net_g) * (line.cartons_counted - refused)
    return {"priced_g": grams, "price_cents": (int(price * 10_000) * grams + 50_000) // 100_000}


class Migration(migrations.Migration):

    dependencies = [
        ("comparison", "0005_thawed_faults"),
        ("records", "0015_set_apart"),
    ]

    operations = [migrations.RunPython(count_decided, migrations.RunPython.noop)]
