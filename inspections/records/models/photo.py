"""Photos as taken, who sent them, what they show, and the advice that was given on them."""
from django.conf import settings
from django.core.validators import RegexValidator
from django.db import models

from inspections.people.models import Site, new_id
from inspections.records.models.delivery import Carton
from inspections.records.models.written_once import SignedOnce

SHA256 = RegexValidator(r"\A[0-9a-f]{64}\Z", "A SHA-256 is 64 hexadecimal digits in small letters.")


class Photo(SignedOnce):
    """The bytes of one photo, stored under their hash; never altered."""

    sha256 = models.CharField(max_length=64, primary_key=True, validators=[SHA256])
    bytes = models.PositiveBigIntegerField()
    content_type = models.CharField(max_length=40)
    width = models.PositiveIntegerField(
        help_text="Pixels, as stored (before turning by EXIF); 0 where the file does not tell.",
    )
    height = models.PositiveIntegerField()
    unreadable = models.CharField(
        max_length=30, blank=True, help_text="Why nothing can be shown of the file, which is kept as it came.",
    )
    stored_name = models.CharField(max_length=160)
    received_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.sha256[:12]


class PhotoReceipt(models.Model):
    """A site has the bytes of a photo: somebody of it sent them whole, or could see them already.

    Whoever only knows a photo's hash has no receipt, and a document of a site without one opens no photo.
    """

    id = models.BigAutoField(primary_key=True)
    photo = models.ForeignKey(Photo, on_delete=models.PROTECT, related_name="receipts")
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+")
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+",
        help_text="Through whom; empty where it came before receipts were kept, or with the demo.",
    )
    received_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["photo", "site"], name="one_receipt_per_site_and_photo")]

    def __str__(self) -> str:
        return f"{self.photo_id[:12]} at {self.site}"


class PhotoUse(models.Model):
    """Where a photo belongs.

    The delivery may still be open, so its id is kept without a foreign key, and that of the carton with one that
    the database does not hold anybody to: it leads to a row once the delivery is signed.
    """

    id = models.UUIDField(primary_key=True)
    photo = models.ForeignKey(Photo, on_delete=models.PROTECT, related_name="uses")
    delivery_id = models.UUIDField(db_index=True)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+")
    line_id = models.UUIDField(null=True, blank=True)
    carton = models.ForeignKey(
        Carton, on_delete=models.DO_NOTHING, db_constraint=False, db_index=False, null=True, blank=True,
        related_name="photo_uses",
    )
    purpose = models.CharField(max_length=20)
    taken_at = models.DateTimeField(null=True, blank=True)
    gate = models.JSONField(null=True, blank=True, help_text="What the phone's own check of the shot said.")

    class Meta:
        ordering = ["taken_at", "id"]
        indexes = [models.Index(fields=["carton"])]

    def __str__(self) -> str:
        return self.purpose


class Answer(models.TextChoices):
    """The three things a photo advisory may say."""

    DARKENING_SEEN = "darkening_seen", "Darkening seen"
    NONE_SEEN = "none_seen", "None seen"
    CANNOT_TELL = "cannot_tell", "Cannot tell"


class Advisory(models.Model):
    """Advice on one photo by one version of the method; later ones do not replace earlier ones.

    What the method was told stands in ``context`` as it was told, and once more in columns to ask by, empty where
    it was not told.
    """

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    photo = models.ForeignKey(Photo, on_delete=models.PROTECT, related_name="advisories")
    method_version = models.CharField(max_length=40)
    baseline_version = models.CharField(max_length=40, blank=True)
    answer = models.CharField(max_length=20, choices=Answer.choices)
    share = models.FloatField(null=True, blank=True)
    share_low = models.FloatField(null=True, blank=True)
    share_high = models.FloatField(null=True, blank=True)
    context = models.JSONField(help_text="Species, presentation, state and purpose that the method was told.")
    species_code = models.CharField(max_length=40, blank=True)
    presentation = models.CharField(max_length=40, blank=True)
    state = models.CharField(max_length=40, blank=True)
    purpose = models.CharField(max_length=40, blank=True)
    body = models.JSONField(help_text="The whole advice as given.")
    look = models.JSONField(
        null=True, blank=True,
        help_text="How the prawns looked, where a card was in the photo; teaches the baseline.",
    )
    overlay_name = models.CharField(max_length=200, blank=True)
    histogram_name = models.CharField(max_length=200, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["created_at", "id"]
        verbose_name_plural = "advisories"
        indexes = [models.Index(fields=["photo", "created_at"])]

    def __str__(self) -> str:
        return self.get_answer_display()
