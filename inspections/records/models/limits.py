"""Sets of limits, in versions; one set is current, a delivery keeps the one that it was judged by."""
from django.conf import settings
from django.db import models

from inspections.people.models import new_id
from inspections.records.models.written_once import WrittenOnce


class LimitSet(WrittenOnce):
    """Bounds with severity and published basis; ``data`` holds ``default_plan`` and ``limits``."""

    MAY_ALTER = frozenset({"is_current"})

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    name = models.CharField(max_length=120)
    version = models.PositiveIntegerField()
    data = models.JSONField()
    is_current = models.BooleanField(default=False)
    created_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name", "-version"]
        constraints = [
            models.UniqueConstraint(fields=["name", "version"], name="one_limit_set_version"),
            models.UniqueConstraint(
                fields=["is_current"], condition=models.Q(is_current=True), name="one_current_limit_set"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name} v{self.version}"

    def to_json(self) -> dict:
        """The limit set as the judgements and the phone read it."""
        return {**self.data, "id": str(self.id), "name": self.name, "version": self.version}
