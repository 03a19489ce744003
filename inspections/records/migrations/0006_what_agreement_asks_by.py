"""Columns that the worth of the photo advice is asked by, so that no row's JSON is read for it."""
from datetime import UTC, datetime

import django.db.models.deletion
from django.db import migrations, models

BATCH = 500
TOLD = ("species_code", "presentation", "state", "purpose")


def fill_cartons(apps, schema_editor):
    carton = apps.get_model("records", "Carton")
    rows = carton.objects.filter(black_spot="").order_by("pk").only("pk", "data", "derived")
    _in_batches(carton, rows, lambda row: {"black_spot": _black_spot(row.data, row.derived)})


def fill_deliveries(apps, schema_editor):
    delivery = apps.get_model("records", "Delivery")
    rows = delivery.objects.filter(receiver_signed_at=None).order_by("pk").only("pk", "document")
    _in_batches(delivery, rows, lambda row: {"receiver_signed_at": _signed(row.document)})


def fill_advisories(apps, schema_editor):
    advisory = apps.get_model("records", "Advisory")
    rows = advisory.objects.filter(**dict.fromkeys(TOLD, "")).order_by("pk").only("pk", "context")
    _in_batches(advisory, rows, lambda row: {name: str(row.context.get(name) or "")[:40] for name in TOLD})


def _in_batches(model, rows, told_of):
    """Broken off and begun again it fills what is left: rows that are filled are not asked for."""
    last = None
    while True:
        batch = list((rows.filter(pk__gt=last) if last else rows)[:BATCH])
        if not batch:
            return
        # Few values, many rows: one update for each value that the batch has.
        same = {}
        for row in batch:
            same.setdefault(tuple(told_of(row).items()), []).append(row.pk)
        for told, keys in same.items():
            model.objects.filter(pk__in=keys).update(**dict(told))
        last = batch[-1].pk


def _black_spot(data, derived):
    """As ``black_spot.found_of`` reads it on the day of this migration."""
    data, derived = (one if isinstance(one, dict) else {} for one in (data, derived))
    pieces, looked_at, checks = data.get("pieces") or {}, data.get("looked_at"), derived.get("checks") or {}
    if not _is_count(looked_at) or looked_at == 0:
        return ""
    numbers = {name: pieces[name] for name in ("black_spot", "black_spot_meat")
               if _is_count(pieces.get(name)) and pieces[name] <= looked_at}
    if any(numbers.values()):
        return "beyond" if "beyond" in (checks.get("black_spot"), checks.get("black_spot_meat")) else "within"
    return "none" if "black_spot" in numbers else ""


def _is_count(value):
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0


def _signed(document):
    document = document if isinstance(document, dict) else {}
    told = ((document.get("signatures") or {}).get("receiver") or {}).get("at")
    try:
        found = datetime.fromisoformat(told)
        return found.astimezone(UTC) if found.tzinfo else None
    except (TypeError, ValueError, OverflowError):
        return None


def nothing(apps, schema_editor):
    """The columns go; there is nothing to take back."""


class Migration(migrations.Migration):

    dependencies = [("records", "0005_unwanted_jobs")]

    operations = [
        migrations.AddField(
            model_name="carton", name="black_spot",
            field=models.CharField(
                blank=True, default="", help_text="Empty: not looked at for it.", max_length=10,
                choices=[("beyond", "Black spot, beyond the limit"), ("within", "Black spot, within the limit"),
                         ("none", "None found")],
            ),
            preserve_default=False,
        ),
        migrations.AddField(
            model_name="delivery", name="receiver_signed_at",
            field=models.DateTimeField(
                blank=True, null=True, help_text="By the phone's clock; empty where the signature tells no time.",
            ),
        ),
        *(
            migrations.AddField(
                model_name="advisory", name=name, preserve_default=False,
                field=models.CharField(blank=True, default="", max_length=40),
            )
            for name in TOLD
        ),
        # The column stays as it is; only what Django knows of it changes.
        migrations.SeparateDatabaseAndState(state_operations=[
            migrations.RemoveField(model_name="photouse", name="carton_id"),
            migrations.AddField(
                model_name="photouse", name="carton",
                field=models.ForeignKey(
                    blank=True, null=True, db_constraint=False, db_index=False, related_name="photo_uses",
                    on_delete=django.db.models.deletion.DO_NOTHING, to="records.carton",
                ),
            ),
        ]),
        migrations.AddIndex(
            model_name="photouse", index=models.Index(fields=["carton"], name="records_pho_carton__bd1a0b_idx"),
        ),
        migrations.RunPython(fill_cartons, nothing),
        migrations.RunPython(fill_deliveries, nothing),
        migrations.RunPython(fill_advisories, nothing),
    ]
