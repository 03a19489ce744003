"""What was added after signing: put-away, corrections, where refused and held goods stand."""
from django.conf import settings
from django.db import models

from inspections.people.models import new_id
from inspections.records.models.delivery import Delivery, DocketLine
from inspections.records.models.equipment import Freezer
from inspections.records.models.written_once import SignedOnce


class AddendumKind(models.TextChoices):
    PUT_AWAY = "put_away", "Put-away"
    CORRECTION = "correction", "Correction"
    SET_APART = "set_apart", "Refused and held goods"
    THAWED = "thawed", "Found on thawing"


class Addendum(SignedOnce):
    """Something said about a signed delivery later; sealed on its own, never alters what was signed."""

    id = models.UUIDField(primary_key=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.PROTECT, related_name="addenda")
    kind = models.CharField(max_length=12, choices=AddendumKind.choices)
    body = models.JSONField()
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    device_id = models.UUIDField()
    at = models.DateTimeField()
    document = models.JSONField(help_text="The whole addendum as sent and sealed.")

    class Meta:
        ordering = ["at", "id"]
        verbose_name_plural = "addenda"

    def __str__(self) -> str:
        return self.get_kind_display()


class PutAway(SignedOnce):
    """Some cartons of one line in one freezer."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    addendum = models.ForeignKey(Addendum, on_delete=models.PROTECT, related_name="put_aways")
    line = models.ForeignKey(DocketLine, on_delete=models.PROTECT, related_name="put_aways")
    count = models.PositiveIntegerField()
    freezer = models.ForeignKey(Freezer, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    position = models.CharField(max_length=80, blank=True)
    liner_closed = models.BooleanField(null=True, blank=True)
    out_at = models.DateTimeField(null=True, blank=True)
    in_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(out_at__isnull=True)
                | models.Q(in_at__isnull=True)
                | models.Q(in_at__gte=models.F("out_at")),
                name="in_the_cold_after_out",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.count} cartons"

    @property
    def minutes_out(self) -> float | None:
        """Minutes out of the cold; None when either time was not noted."""
        if self.out_at is None or self.in_at is None:
            return None
        return (self.in_at - self.out_at).total_seconds() / 60
