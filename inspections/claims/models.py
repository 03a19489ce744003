"""Claims as they stand now, the terms of each supplier, and the messages that go out.

What was said is in ``records.ClaimEntry``, sealed; a ``Claim`` row is read off those entries (``standing``) so that
lists can be sorted and counted. Only a drafted claim holds anything of its own.
"""
from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from inspections.claims import standing
from inspections.people.models import Device, check_currency, new_id
from inspections.records.models import ClaimSide, Delivery, DocketLine, Supplier

#: Common practice, no source: CV-12-61 (the same day to 24 hours) and CV-12-63 (24 to 48 hours).
USUAL_NOTICE_H, USUAL_ANSWER_H = 24, 48
MOST_HOURS = 24 * 366


class SupplierTerms(models.Model):
    """What was agreed with a supplier about claims; hours are counted from the arrival, and from the sending."""

    supplier = models.OneToOneField(Supplier, on_delete=models.CASCADE, primary_key=True, related_name="claim_terms")
    currency = models.CharField(max_length=3, validators=[check_currency], blank=True, help_text="Empty: the site's.")
    notice_hours = models.PositiveIntegerField(validators=[MinValueValidator(1), MaxValueValidator(MOST_HOURS)])
    answer_hours = models.PositiveIntegerField(validators=[MinValueValidator(1), MaxValueValidator(MOST_HOURS)])

    def __str__(self) -> str:
        return f"terms of {self.supplier}"


class SupplierPerson(models.Model):
    """Whose claims and evidence somebody sees who was invited from a supplier."""

    person = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, primary_key=True,
                                  related_name="of_supplier")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="people")
    invited_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    invited_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["person__name"]

    def __str__(self) -> str:
        return f"{self.person} of {self.supplier}"


class Claim(models.Model):
    """A claim on one docket line."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    number = models.CharField(max_length=24, unique=True, help_text="Site's code and a running number.")
    delivery = models.ForeignKey(Delivery, on_delete=models.PROTECT, related_name="claims")
    line = models.ForeignKey(DocketLine, on_delete=models.PROTECT, related_name="claims")
    state = models.CharField(max_length=10, default=standing.DRAFTED,
                             choices=[(state, state) for state in standing.STATES])
    currency = models.CharField(max_length=3, validators=[check_currency])
    found = models.JSONField(help_text="What fell short, and against which limit, as judged.")
    items = models.JSONField(help_text="Ground, figures, amount, and the reason of a changed one.")
    notice_until = models.DateTimeField()
    notice_basis = models.CharField(max_length=160)
    answer_hours = models.PositiveIntegerField()
    answer_until = models.DateTimeField(null=True)
    claimed = models.DecimalField(max_digits=18, decimal_places=4, null=True)
    offered = models.DecimalField(max_digits=18, decimal_places=4, null=True)
    offered_by = models.CharField(max_length=10, blank=True)
    agreed = models.DecimalField(max_digits=18, decimal_places=4, null=True)
    credited = models.DecimalField(max_digits=18, decimal_places=4, null=True)
    credit_note = models.CharField(max_length=60, blank=True)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    sent_at = models.DateTimeField(null=True)
    closed_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-created_at"]
        indexes = [models.Index(fields=["state", "-created_at"])]
        constraints = [
            models.UniqueConstraint(
                fields=["line"], condition=~models.Q(state=standing.WITHDRAWN), name="one_claim_for_a_line"),
        ]

    def __str__(self) -> str:
        return self.number


class PushSubscription(models.Model):
    """A browser whose owner has asked for notifications, as its push service knows it."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    endpoint = models.TextField(help_text="Whoever has it and the key can write to this browser.")
    endpoint_sha256 = models.CharField(max_length=64, unique=True)
    p256dh = models.CharField(max_length=100)
    auth = models.CharField(max_length=30)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    device = models.ForeignKey(Device, on_delete=models.SET_NULL, null=True, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    revoked_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["created_at"]

    def __str__(self) -> str:
        return f"{self.person}, {self.device}" if self.device and self.device.label else str(self.person)


class Message(models.Model):
    """A mail or a notification that a claim or an invitation causes, written with what causes it, sent at most once.

    Its words and its link are made when it is sent, so nothing that opens a record lies here.
    """

    class State(models.TextChoices):
        WAITING = "waiting"
        SENDING = "sending"
        SENT = "sent"
        UNSURE = "unsure"
        FAILED = "failed"

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    claim = models.ForeignKey(Claim, on_delete=models.CASCADE, null=True, related_name="mails")
    invited = models.ForeignKey(SupplierPerson, on_delete=models.CASCADE, null=True, related_name="mails",
                                help_text="Whom an invitation is for; it has no claim.")
    kind = models.CharField(max_length=16, help_text="Kind of the entry, reminder_notice, reminder_answer, invitation.")
    key = models.CharField(max_length=160, unique=True, help_text="What causes it and to whom: never written twice.")
    entry_id = models.UUIDField(null=True)
    side = models.CharField(max_length=10, choices=ClaimSide.choices, help_text="Who reads it.")
    to = models.CharField(max_length=254, help_text="Address, or whose browser.")
    subscription = models.ForeignKey(PushSubscription, on_delete=models.CASCADE, null=True, related_name="+",
                                     help_text="None for a mail.")
    state = models.CharField(max_length=8, choices=State.choices, default=State.WAITING)
    attempts = models.PositiveSmallIntegerField(default=0)
    not_before = models.DateTimeField()
    taken_at = models.DateTimeField(null=True)
    sent_at = models.DateTimeField(null=True)
    sentence = models.TextField(blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["created_at", "id"]
        indexes = [models.Index(fields=["state", "not_before"])]

    def __str__(self) -> str:
        return f"{self.kind} to {self.to}"
