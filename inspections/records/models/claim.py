"""What was said about a claim, by either side; each sealed on its own."""
from django.conf import settings
from django.db import models

from inspections.records.models.delivery import Delivery
from inspections.records.models.written_once import SignedOnce


class ClaimSide(models.TextChoices):
    KITCHEN = "kitchen", "Kitchen"
    SUPPLIER = "supplier", "Supplier"


class ClaimEntry(SignedOnce):
    """One entry of a claim's thread: sent, agreed, contested, asked, offered, credited. Never altered afterwards."""

    id = models.UUIDField(primary_key=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.PROTECT, related_name="claim_entries")
    claim_id = models.UUIDField(db_index=True)
    number = models.PositiveIntegerField(help_text="From 1 in each claim, without gaps.")
    kind = models.CharField(max_length=12)
    side = models.CharField(max_length=10, choices=ClaimSide.choices)
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+",
        help_text="Empty for the supplier, who has no account.",
    )
    at = models.DateTimeField()
    document = models.JSONField(help_text="The whole entry as sealed.")

    class Meta:
        ordering = ["claim_id", "number"]
        verbose_name_plural = "claim entries"
        constraints = [models.UniqueConstraint(fields=["claim_id", "number"], name="one_entry_number_per_claim")]

    def __str__(self) -> str:
        return f"{self.side} {self.kind}"
