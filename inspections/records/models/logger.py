"""A data logger's file that belongs to a delivery, and what it was read to say."""
from django.conf import settings
from django.db import models
from django.utils import timezone

from inspections.people.models import new_id
from inspections.records.models.delivery import Delivery
from inspections.records.models.photo import SHA256
from inspections.records.models.written_once import SignedOnce


class LoggerFile(SignedOnce):
    """One reading of one logger file. Written once; the same file read by another clock is another row.

    The bytes lie untouched under their hash (``storage.logger_file_name``), so anybody can read them again;
    ``reading`` is what ``method_version`` made of them when they came in, and is what was sealed.
    """

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    delivery = models.ForeignKey(Delivery, on_delete=models.PROTECT, related_name="logger_files")
    sha256 = models.CharField(max_length=64, validators=[SHA256], db_index=True)
    bytes = models.PositiveIntegerField()
    file_name = models.CharField(max_length=120, help_text="As it was called where it came from.")
    stored_name = models.CharField(max_length=160)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)
    zone_assumed = models.CharField(
        max_length=64, blank=True, help_text="The clock that the person named; empty where the file tells its own."
    )
    answers = models.JSONField(
        blank=True, help_text="What the person had to say about the file: zone, unit, day order, column …"
    )
    answers_key = models.CharField(max_length=64, help_text="SHA-256 of the answers.")
    method_version = models.CharField(max_length=20)
    reading = models.JSONField()

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["delivery", "sha256", "answers_key"], name="one_reading_of_a_logger_file",
            ),
        ]

    def __str__(self) -> str:
        return self.file_name
