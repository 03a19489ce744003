"""What a site measures with and where it puts things."""
from django.db import models

from inspections.people.models import Site, new_id


class Thermometer(models.Model):
    """A probe or infrared thermometer, with its last check in ice water (0 °C)."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="thermometers")
    name = models.CharField(max_length=60)
    accuracy_c = models.FloatField("accuracy, ± °C", default=0.5)
    last_checked_on = models.DateField(null=True, blank=True)
    last_check_c = models.FloatField("reading in ice water, °C", null=True, blank=True)
    check_due_on = models.DateField(null=True, blank=True)
    in_use = models.BooleanField(default=True)

    class Meta:
        ordering = ["site__name", "name"]
        constraints = [
            models.UniqueConstraint(fields=["site", "name"], name="one_thermometer_name_per_site"),
            models.CheckConstraint(condition=models.Q(accuracy_c__gt=0), name="accuracy_above_zero"),
        ]

    def __str__(self) -> str:
        return self.name


class Freezer(models.Model):
    """Where cartons are put away."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="freezers")
    name = models.CharField(max_length=60)
    in_use = models.BooleanField(default=True)

    class Meta:
        ordering = ["site__name", "name"]
        constraints = [models.UniqueConstraint(fields=["site", "name"], name="one_freezer_name_per_site")]

    def __str__(self) -> str:
        return self.name
