"""Count the docket lines that were signed before there were tallies."""
from datetime import timedelta
from zoneinfo import ZoneInfo

from django.db import migrations
from django.db.models import Count, Exists, OuterRef, Q

BATCH = 500


def fill(apps, schema_editor):
    """Broken off and begun again it fills what is left: deliveries that have tallies are not asked for."""
    delivery, tally = apps.get_model("records", "Delivery"), apps.get_model("comparison", "LineTally")
    rows = delivery.objects.filter(tallies=None, lines__isnull=False).distinct().order_by("pk")
    ids = list(rows.values_list("pk", flat=True))
    for start in range(0, len(ids), BATCH):
        tally.objects.bulk_create(_tallies(apps, ids[start : start + BATCH]))


def _tallies(apps, ids):
    """As ``tallies.fresh_tallies`` counts on the day of this migration."""
    line, tally = apps.get_model("records", "DocketLine"), apps.get_model("comparison", "LineTally")
    lines = list(line.objects.filter(delivery__in=ids).order_by("delivery", "number").values(
        "pk", "delivery_id", "delivery__supplier_id", "delivery__site_id", "delivery__site__timezone",
        "delivery__arrived_at", "specification_version__data", "cartons_counted", "refused", "held"))
    cartons = _cartons(apps, [each["pk"] for each in lines])
    known, opened = set(), set()
    for each in lines:
        found = cartons.get(each["pk"], {"opened": 0, "defective": 0, "with_product": 0, "with_sample": 0})
        day = each["delivery__arrived_at"].astimezone(ZoneInfo(each["delivery__site__timezone"])).date()
        goods, delivery = each["specification_version__data"], each["delivery_id"]
        yield tally(
            line_id=each["pk"], delivery_id=delivery, supplier_id=each["delivery__supplier_id"],
            site_id=each["delivery__site_id"], presentation=(goods.get("presentation") or "")[:20],
            state=(goods.get("state") or "")[:20], arrived_at=each["delivery__arrived_at"], day=day,
            week=day - timedelta(days=day.weekday()), month=day.replace(day=1), delivered=each["cartons_counted"],
            refused=each["refused"], held=each["held"], deliveries=int(delivery not in known),
            deliveries_opened=int(bool(found["opened"]) and delivery not in opened), **found,
        )
        known.add(delivery)
        if found["opened"]:
            opened.add(delivery)


def _cartons(apps, lines):
    carton, reading = apps.get_model("records", "Carton"), apps.get_model("records", "Reading")
    with_product, with_sample = (Exists(reading.objects.filter(carton=OuterRef("pk"), kind=kind)) for kind in ("product", "sample"))
    rows = carton.objects.filter(line__in=lines).order_by().values("line_id").annotate(
        opened=Count("id"), defective=Count("id", filter=Q(is_defective=True)),
        with_product=Count("id", filter=with_product), with_sample=Count("id", filter=with_sample))
    return {row.pop("line_id"): row for row in rows}


def nothing(apps, schema_editor):
    """The table goes; there is nothing to take back."""


class Migration(migrations.Migration):

    dependencies = [("comparison", "0001_line_tallies")]

    operations = [migrations.RunPython(fill, nothing)]
