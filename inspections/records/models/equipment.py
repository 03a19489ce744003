"""What a site measures with and where it puts things."""
from dataclasses import dataclass
from datetime import date, datetime

from django.conf import settings
from django.db import models
from django.utils import timezone

from inspections.people.models import Site, new_id
from inspections.records.models.written_once import WrittenOnce


@dataclass(frozen=True)
class LastCheck:
    """What is known of the last look into ice water; all None where nothing is.

    ``at`` is None for a check that was only noted (import, reference data): those name a day, no time.
    """

    on: date | None
    reading_c: float | None
    due_on: date | None
    at: datetime | None = None


class Thermometer(models.Model):
    """A probe or infrared thermometer, with its last check in ice water (0 °C).

    The three fields of the last check are what was noted by hand or came in by a table. Checks that were filed
    from a phone are rows of their own; ``last_check`` says which of all is the last.
    """

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

    @property
    def last_check(self) -> LastCheck:
        """The last check on record: the newest that was filed, unless a later day is noted with its reading.

        On the same day the filed one counts, for it tells who read what and when.
        """
        noted = LastCheck(self.last_checked_on, self.last_check_c, self.check_due_on)
        filed = self._newest_filed()
        if filed is None or (noted.on is not None and noted.reading_c is not None and noted.on > filed.day):
            return noted
        return LastCheck(filed.day, filed.reading_c, filed.due_on, filed.at)

    def _newest_filed(self) -> "IcePointCheck | None":
        """Without a query where the checks were read along (``thermometers.with_newest_checks``)."""
        told = self.__dict__.get("newest_checks")
        return self.ice_point_checks.first() if told is None else next(iter(told), None)


class IcePointCheck(WrittenOnce):
    """One thermometer once in crushed ice: what it read, and whether that is near enough to 0 °C.

    Written once: a check that was wrong is followed by another, never altered. ``allowed_c`` is the limit
    that it was held to, so that a later limit does not change what was found.
    """

    id = models.UUIDField(primary_key=True)
    thermometer = models.ForeignKey(Thermometer, on_delete=models.PROTECT, related_name="ice_point_checks")
    at = models.DateTimeField()
    day = models.DateField(help_text="By the clock where the check was done.")
    entered = models.CharField("reading as typed", max_length=20)
    unit = models.CharField(max_length=1, choices=[("C", "°C"), ("F", "°F")])
    reading_c = models.FloatField("reading, °C")
    allowed_c = models.FloatField("allowed from 0 °C, ± °C")
    passed = models.BooleanField()
    due_on = models.DateField("next check due on")
    done_by = models.CharField(max_length=120, help_text="As it stands on the phone.")
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", help_text="Who was signed in at sending."
    )
    device_id = models.UUIDField()
    received_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ["-at", "-id"]
        constraints = [
            models.CheckConstraint(condition=models.Q(allowed_c__gt=0), name="ice_point_limit_above_zero"),
            models.CheckConstraint(condition=models.Q(due_on__gte=models.F("day")), name="check_due_after_check"),
        ]

    def __str__(self) -> str:
        return f"{self.thermometer}, {self.day.isoformat()}"


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
