"""Uses of photos that a signed document does not name were left from earlier versions of it; the seal speaks for none."""
from django.db import migrations


def drop(apps, schema_editor):
    """Run again, it finds nothing."""
    uses, deliveries = apps.get_model("records", "PhotoUse"), apps.get_model("records", "Delivery")
    signed = uses.objects.order_by().values_list("delivery_id", flat=True).distinct()
    for delivery in deliveries.objects.filter(pk__in=signed).only("pk", "document").iterator(chunk_size=50):
        named = [entry["id"] for entry in delivery.document.get("photos") or []]
        uses.objects.filter(delivery_id=delivery.pk).exclude(pk__in=named).delete()


class Migration(migrations.Migration):

    dependencies = [("records", "0010_jobs_in_order_of_need")]

    operations = [migrations.RunPython(drop, migrations.RunPython.noop)]
