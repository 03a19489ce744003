"""A signed delivery and everything found in it, taken apart into rows.

``Delivery.document`` is what was signed and sealed; the rows below it are made from it in the same
transaction, so that desk, comparison and lots can ask questions in SQL. They are never edited.
"""
from django.conf import settings
from django.db import models

from inspections.people.models import Site
from inspections.records.models.equipment import Thermometer
from inspections.records.models.limits import LimitSet
from inspections.records.models.order import Order
from inspections.records.models.specification import SpecificationVersion
from inspections.records.models.supplier import Supplier
from inspections.records.models.written_once import SignedOnce


class Decision(models.TextChoices):
    """What a receiver may decide on a docket line."""

    ACCEPT = "accept", "Accept"
    ALLOWANCE = "accept_with_allowance", "Accept with allowance"
    HOLD = "hold", "Hold"
    REJECT = "reject", "Reject"


class Suggestion(models.TextChoices):
    """What the limits may suggest; ``not_yet`` when too little was checked."""

    ACCEPT = "accept", "Accept"
    ALLOWANCE = "accept_with_allowance", "Accept with allowance"
    HOLD = "hold", "Hold"
    REJECT = "reject", "Reject"
    NOT_YET = "not_yet", "Not yet"


class State(models.TextChoices):
    SIGNED = "signed", "Signed"
    PUT_AWAY = "put_away", "Put away"


class Severity(models.TextChoices):
    CRITICAL = "critical", "Critical"
    MAJOR = "major", "Major"
    MINOR = "minor", "Minor"
    NOTE = "note", "Note"


class BlackSpot(models.TextChoices):
    """What the receiver found in a carton; empty where its pieces were not looked at for black spot."""

    BEYOND = "beyond", "Black spot, beyond the limit"
    WITHIN = "within", "Black spot, within the limit"
    NONE = "none", "None found"


class Delivery(SignedOnce):
    """One arrival under one docket; its id is the document's, made on the phone."""

    MAY_ALTER = frozenset({"state"})

    id = models.UUIDField(primary_key=True)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="deliveries")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="deliveries")
    order = models.ForeignKey(Order, on_delete=models.PROTECT, null=True, blank=True, related_name="deliveries")
    docket_number = models.CharField(max_length=60)
    arrived_at = models.DateTimeField()
    receiver = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="received")
    device_id = models.UUIDField()
    limit_set = models.ForeignKey(LimitSet, on_delete=models.PROTECT, related_name="+")
    document = models.JSONField(help_text="As signed.")
    judgement = models.JSONField(help_text="As the server judged it at signing.")
    difference = models.JSONField(null=True, blank=True, help_text="Where the phone had judged otherwise.")
    noticed = models.JSONField(
        default=list, blank=True, help_text="What did not go together at signing: moments, or the receiver's name.",
    )
    state = models.CharField(max_length=10, choices=State.choices, default=State.SIGNED)
    signed_at = models.DateTimeField()
    receiver_signed_at = models.DateTimeField(
        null=True, blank=True, help_text="By the phone's clock; empty where the signature tells no time.",
    )
    separate_from = models.UUIDField(null=True, blank=True)
    is_demo = models.BooleanField(default=False)

    class Meta:
        ordering = ["-arrived_at", "-id"]
        verbose_name_plural = "deliveries"
        indexes = [
            models.Index(fields=["site", "-arrived_at"]),
            models.Index(fields=["supplier", "-arrived_at"]),
            models.Index(fields=["docket_number"]),
        ]

    def __str__(self) -> str:
        return self.docket_number


class DocketLine(SignedOnce):
    """One line of the docket: what was on it, suggested and decided."""

    id = models.UUIDField(primary_key=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="lines")
    number = models.PositiveSmallIntegerField(help_text="From 1, as on the docket.")
    specification_version = models.ForeignKey(SpecificationVersion, on_delete=models.PROTECT, related_name="+")
    cartons_on_docket = models.PositiveIntegerField()
    cartons_counted = models.PositiveIntegerField()
    lot = models.CharField(max_length=80, blank=True)
    suggested = models.CharField(max_length=24, choices=Suggestion.choices)
    decided = models.CharField(max_length=24, choices=Decision.choices)
    departed_because = models.TextField(blank=True)
    accepted = models.PositiveIntegerField()
    refused = models.PositiveIntegerField()
    held = models.PositiveIntegerField()

    class Meta:
        ordering = ["delivery", "number"]
        constraints = [
            models.UniqueConstraint(fields=["delivery", "number"], name="one_line_number_per_delivery"),
            models.CheckConstraint(
                condition=models.Q(cartons_counted=models.F("accepted") + models.F("refused") + models.F("held")),
                name="line_quantities_balance",
            ),
            models.CheckConstraint(
                condition=models.Q(suggested=models.F("decided")) | ~models.Q(departed_because=""),
                name="departure_has_a_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"line {self.number}"


class Carton(SignedOnce):
    """An opened carton; ``data`` as entered, ``derived`` as judged, ``black_spot`` read from both."""

    id = models.UUIDField(primary_key=True)
    line = models.ForeignKey(DocketLine, on_delete=models.CASCADE, related_name="cartons")
    position = models.PositiveIntegerField(null=True, blank=True)
    is_defective = models.BooleanField()
    black_spot = models.CharField(
        max_length=10, choices=BlackSpot.choices, blank=True, help_text="Empty: not looked at for it.",
    )
    data = models.JSONField()
    derived = models.JSONField()

    class Meta:
        ordering = ["line", "position", "id"]

    def __str__(self) -> str:
        return f"carton {self.position}"


class Reading(SignedOnce):
    """A measured value: as entered, and in °C or g."""

    id = models.BigAutoField(primary_key=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="readings")
    carton = models.ForeignKey(Carton, on_delete=models.CASCADE, null=True, blank=True, related_name="readings")
    kind = models.CharField(max_length=30)
    value = models.FloatField()
    unit = models.CharField(max_length=10, help_text="C or g")
    entered = models.CharField(max_length=40)
    entered_unit = models.CharField(max_length=10)
    method = models.CharField(max_length=30, blank=True)
    thermometer = models.ForeignKey(Thermometer, on_delete=models.PROTECT, null=True, blank=True, related_name="+")

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return f"{self.kind} {self.value} {self.unit}"


class Finding(SignedOnce):
    """Something that went beyond a limit, or that the receiver should know: of a carton, a line or the vehicle."""

    id = models.BigAutoField(primary_key=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="findings")
    line = models.ForeignKey(DocketLine, on_delete=models.CASCADE, null=True, blank=True, related_name="findings")
    carton = models.ForeignKey(Carton, on_delete=models.CASCADE, null=True, blank=True, related_name="findings")
    kind = models.CharField(max_length=40, help_text="The code of the reason.")
    severity = models.CharField(max_length=10, choices=Severity.choices)
    measured = models.FloatField(null=True, blank=True)
    unit = models.CharField(max_length=10, blank=True)
    limit_code = models.CharField(max_length=60, blank=True)
    bound = models.FloatField(null=True, blank=True)
    basis = models.JSONField(null=True, blank=True)
    text = models.TextField(blank=True)

    class Meta:
        ordering = ["id"]
        indexes = [models.Index(fields=["kind"])]

    def __str__(self) -> str:
        return self.kind
