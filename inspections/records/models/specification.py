"""What is bought, in versions; a delivery keeps the version that it was judged by."""
from django.conf import settings
from django.db import models

from inspections.people.models import new_id
from inspections.records.models.written_once import WrittenOnce


class Specification(models.Model):
    """A product as agreed with suppliers; what was agreed lies in its versions."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    code = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=160)
    is_active = models.BooleanField(default=True)
    is_demo = models.BooleanField(default=False, editable=False)

    class Meta:
        ordering = ["code"]

    def __str__(self) -> str:
        return self.code


class SpecificationVersion(WrittenOnce):
    """One agreed state of a specification; ``data`` as the judgements read it, without ids."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    specification = models.ForeignKey(Specification, on_delete=models.PROTECT, related_name="versions")
    version = models.PositiveIntegerField()
    data = models.JSONField()
    created_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["specification__code", "-version"]
        constraints = [
            models.UniqueConstraint(fields=["specification", "version"], name="one_specification_version"),
            models.CheckConstraint(condition=models.Q(version__gte=1), name="specification_version_from_1"),
        ]

    def __str__(self) -> str:
        return f"{self.specification.code} v{self.version}"

    def to_json(self) -> dict:
        """The specification as the judgements and the phone read it."""
        return {
            **self.data,
            "id": str(self.id),
            "specification_id": str(self.specification_id),
            "version": self.version,
            "code": self.specification.code,
            "name": self.specification.name,
        }
