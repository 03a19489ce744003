"""Count the docket lines that were signed before there were measures and months."""
from collections import Counter, defaultdict
from datetime import timedelta
from zoneinfo import ZoneInfo

from django.db import migrations
from django.db.models import Sum

BATCH = 500
FAULTS = {
    "warm": ("product_c",), "short": ("net_weight",), "off_count": ("count",),
    "spot": ("black_spot", "black_spot_wide", "black_spot_meat", "black_spot_score"),
    "burn": ("dehydrated", "dehydrated_weight", "dehydrated_surface", "frost"), "soft": ("soft", "broken"),
}
KEYS = ("supplier_id", "site_id", "specification_id", "species", "presentation", "state", "month")
COUNTED = (
    "lines", "deliveries", "deliveries_opened", "due", "late", "delivered", "refused", "held", "opened", "defective",
    "with_product", "with_sample", *(name + tail for name in FAULTS for tail in ("_seen", "")), "product_cc", "net_g",
    "declared_g", "priced_g", "price_cents", "put_aways", "out_seconds",
)


def fill(apps, schema_editor):
    """Broken off and begun again it fills what is left: deliveries that have tallies are not asked for."""
    delivery, tally = apps.get_model("records", "Delivery"), apps.get_model("comparison", "LineTally")
    month = apps.get_model("comparison", "MonthTally")
    rows = delivery.objects.filter(tallies=None, lines__isnull=False).distinct().order_by("pk")
    ids = list(rows.values_list("pk", flat=True))
    for start in range(0, len(ids), BATCH):
        tally.objects.bulk_create(_tallies(apps, ids[start : start + BATCH]))
    month.objects.all().delete()
    sums = tally.objects.order_by().values_list(*KEYS).annotate(*(Sum(name) for name in COUNTED))
    month.objects.bulk_create(
        (month(**dict(zip((*KEYS, *COUNTED), row, strict=True))) for row in sums.iterator()), batch_size=BATCH)


def _tallies(apps, ids):
    """As ``tallies.fresh_tallies`` counts on the day of this migration."""
    line, tally = apps.get_model("records", "DocketLine"), apps.get_model("comparison", "LineTally")
    lines = list(line.objects.filter(delivery__in=ids).order_by("delivery", "number").values(
        "pk", "delivery_id", "delivery__supplier_id", "delivery__site_id", "delivery__site__timezone",
        "delivery__arrived_at", "delivery__order_id", "delivery__order__expected_on", "specification_version__data",
        "specification_version__specification_id", "cartons_counted", "refused", "held"))
    found = _below(apps, [each["pk"] for each in lines])
    prices = {
        (order, goods): int(price * 10_000) for order, goods, price in apps.get_model("records", "OrderLine").objects
        .filter(order__in={each["delivery__order_id"] for each in lines}, price_per_kg__isnull=False).order_by("pk")
        .values_list("order_id", "specification_version__specification_id", "price_per_kg")}
    known, opened = set(), set()
    for each in lines:
        day = each["delivery__arrived_at"].astimezone(ZoneInfo(each["delivery__site__timezone"])).date()
        goods, delivery, expected = (each[name] for name in (
            "specification_version__data", "delivery_id", "delivery__order__expected_on"))
        counts, is_first = found[each["pk"]], delivery not in known
        has_opened = bool(counts["opened"]) and delivery not in opened
        specification = each["specification_version__specification_id"]
        price, net_g = prices.get((each["delivery__order_id"], specification)), goods.get("carton_net_g")
        if price is not None and net_g:
            grams = round(net_g) * (each["cartons_counted"] - each["refused"])
            counts.update(priced_g=grams, price_cents=(price * grams + 50_000) // 100_000)
        yield tally(
            line_id=each["pk"], delivery_id=delivery, supplier_id=each["delivery__supplier_id"],
            site_id=each["delivery__site_id"], specification_id=specification,
            species=(goods.get("species_code") or "")[:20], presentation=(goods.get("presentation") or "")[:20],
            state=(goods.get("state") or "")[:20], arrived_at=each["delivery__arrived_at"], day=day,
            week=day - timedelta(days=day.weekday()), month=day.replace(day=1), delivered=each["cartons_counted"],
            refused=each["refused"], held=each["held"], deliveries=int(is_first), deliveries_opened=int(has_opened),
            due=int(is_first and expected is not None), late=int(is_first and expected is not None and day > expected),
            **counts)
        known.add(delivery)
        if counts["opened"]:
            opened.add(delivery)


def _below(apps, lines):
    """What stands below each line: its opened cartons, their readings, its put-aways."""
    counts, line_of, seen = defaultdict(Counter), {}, set()
    cartons = apps.get_model("records", "Carton").objects.filter(line__in=lines).order_by()
    for carton, line, is_defective, derived in cartons.values_list("pk", "line_id", "is_defective", "derived"):
        line_of[carton], derived = line, derived or {}
        counts[line].update(opened=1, defective=int(is_defective))
        for fault, names in FAULTS.items():
            answers = {(derived.get("checks") or {}).get(name) for name in names}
            counts[line].update({fault + "_seen": int(bool(answers & {"within", "beyond"})),
                                 fault: int("beyond" in answers)})
        net_g, short_g = derived.get("net_g"), derived.get("net_short_g")
        if net_g is not None and short_g is not None:
            counts[line].update(net_g=round(net_g), declared_g=round(net_g + short_g))
    readings = apps.get_model("records", "Reading").objects.filter(
        carton__line__in=lines, kind__in=("product", "sample")).order_by()
    for carton, kind, value in readings.values_list("carton_id", "kind", "value"):
        if (carton, kind) not in seen:
            counts[line_of[carton]].update({"with_" + kind: 1, "product_cc": round(100 * value) * (kind == "product")})
            seen.add((carton, kind))
    away = apps.get_model("records", "PutAway").objects.filter(
        line__in=lines, out_at__isnull=False, in_at__isnull=False).order_by()
    for line, out_at, in_at in away.values_list("line_id", "out_at", "in_at"):
        counts[line].update(put_aways=1, out_seconds=round((in_at - out_at).total_seconds()))
    return counts


def nothing(apps, schema_editor):
    """The tables go; there is nothing to take back."""


class Migration(migrations.Migration):

    dependencies = [("comparison", "0003_measures_and_months")]

    operations = [migrations.RunPython(fill, nothing)]
