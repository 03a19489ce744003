"""What each docket line came to, counted when it was signed, so that nobody who looks has to count again."""
from django.db import models

from inspections.people.models import Site
from inspections.records.models import Delivery, DocketLine, Supplier


class LineTally(models.Model):
    """A docket line in numbers.

    A copy of what the rows say, made in the transaction that writes them and never by hand;
    ``manage.py rebuild_tallies --check`` proves that both say the same. ``deliveries`` and ``deliveries_opened`` are
    1 on one line of a delivery and 0 on its others, so that sums count deliveries and not lines.
    """

    line = models.OneToOneField(DocketLine, on_delete=models.CASCADE, primary_key=True, related_name="tally")
    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="tallies")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="+", db_index=False)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+", db_index=False)
    presentation = models.CharField(max_length=20, blank=True)
    state = models.CharField(max_length=20, blank=True)
    arrived_at = models.DateTimeField()
    day = models.DateField(help_text="Of arrival, by the site's own clock.")
    week = models.DateField(help_text="The Monday before or on that day.")
    month = models.DateField(help_text="The first of that month.")
    deliveries = models.PositiveSmallIntegerField()
    deliveries_opened = models.PositiveSmallIntegerField()
    delivered = models.PositiveIntegerField()
    refused = models.PositiveIntegerField()
    held = models.PositiveIntegerField()
    opened = models.PositiveIntegerField()
    defective = models.PositiveIntegerField()
    with_product = models.PositiveIntegerField()
    with_sample = models.PositiveIntegerField()

    class Meta:
        ordering = ["-day", "delivery", "line"]
        verbose_name_plural = "line tallies"
        indexes = [models.Index(fields=["day", "delivery"]), models.Index(fields=["site", "day"])]
        constraints = [
            models.CheckConstraint(condition=models.Q(defective__lte=models.F("opened")), name="no_more_bad_than_open"),
        ]

    def __str__(self) -> str:
        return f"{self.opened} opened, {self.defective} defective"
