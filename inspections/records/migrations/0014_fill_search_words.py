"""Words, lots and marks for deliveries that were signed before there were any."""
import re

from django.db import migrations
from django.db.models import Q

BATCH = 200
RUN = re.compile(r"[^\W\d_]+|\d+")


def fill(apps, schema_editor):
    """Broken off and begun again it fills what is left: deliveries that have words are not asked for."""
    delivery, word = (apps.get_model("records", name) for name in ("Delivery", "SearchWord"))
    done = set(word.objects.order_by().values_list("delivery_id", flat=True).distinct())
    ids = [pk for pk in delivery.objects.order_by("pk").values_list("pk", flat=True) if pk not in done]
    for start in range(0, len(ids), BATCH):
        _fill(apps, list(delivery.objects.filter(pk__in=ids[start : start + BATCH]).prefetch_related("lines")))


def mark(apps, schema_editor):
    delivery, line, carton = (apps.get_model("records", name) for name in ("Delivery", "DocketLine", "Carton"))
    short = line.objects.filter(Q(refused__gt=0) | Q(held__gt=0)).values("delivery_id")
    delivery.objects.filter(pk__in=short).update(has_refused=True)
    bad = carton.objects.filter(is_defective=True).values("line__delivery_id")
    delivery.objects.filter(pk__in=bad).update(has_defective=True)


def _fill(apps, deliveries):
    """As ``search_words.write_search_words`` writes it on the day of this migration."""
    lot_model, word_model = (apps.get_model("records", name) for name in ("LineLot", "SearchWord"))
    lots = [(each, lot) for each in deliveries for lot in _lots(lot_model, each)]
    lot_model.objects.bulk_create([lot for _, lot in lots])
    words = [word_model(delivery=each, word=word) for each in deliveries for word in _words(each.docket_number)]
    words += [word_model(delivery=each, lot=lot, word=word) for each, lot in lots for word in _words(lot.lot)]
    word_model.objects.bulk_create(words)


def _lots(model, delivery):
    entries = {str(entry.get("id")): entry for entry in (delivery.document or {}).get("lines") or []}
    for line in delivery.lines.all():
        entry, found = entries.get(str(line.pk)) or {}, {}
        if key := _key(str(entry.get("lot") or "")):
            found[key] = model(line=line, lot=str(entry["lot"]).strip()[:80], key=key, is_on_docket=True, labels=0)
        for carton in entry.get("cartons") or []:
            shown = str((carton.get("label") or {}).get("lot") or "").strip()[:80]
            if key := _key(shown):
                lot = found.setdefault(key, model(line=line, lot=shown, key=key, is_on_docket=False, labels=0))
                lot.labels += 1
        yield from found.values()


def _key(text):
    return "".join(RUN.findall(text.casefold()))[:80]


def _words(text):
    runs, whole = RUN.findall(text.casefold()), _key(text)
    found = {"".join(runs[place:])[:80] for place in range(len(runs))}
    return sorted((found | {whole[-length:] for length in (3, 4) if len(whole) > length}) - {""})


def nothing(apps, schema_editor):
    """Tables and columns go; there is nothing to take back."""


class Migration(migrations.Migration):

    dependencies = [("records", "0013_searching_and_lots")]

    operations = [migrations.RunPython(fill, nothing), migrations.RunPython(mark, nothing)]
