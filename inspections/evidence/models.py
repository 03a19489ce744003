"""Seals, the keys they were made with, copies of photos that may be shown outside, and links for suppliers."""
from django.conf import settings
from django.db import models

from inspections.evidence.statement import Statement
from inspections.people.models import Site, new_id
from inspections.records.models import Delivery, Photo
from inspections.records.models.written_once import SignedOnce


class SealingKey(SignedOnce):
    """The public half of a key that seals were made with; kept so that old seals outlive their key."""

    id = models.CharField(max_length=64, primary_key=True, help_text="SHA-256 of the key in DER.")
    pem = models.TextField()
    first_used_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.id[:16]


class SealKind(models.TextChoices):
    DELIVERY = "delivery", "Delivery"
    ADDENDUM = "addendum", "Addendum"
    LOGGER = "logger", "Logger file"
    CLAIM = "claim", "Entry of a claim"
    KEY = "key", "Change of the sealing key"


class Seal(SignedOnce):
    """One sealed record in the chain of its site. Written once."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="seals")
    number = models.PositiveIntegerField(help_text="From 1 at each site, without gaps.")
    kind = models.CharField(max_length=10, choices=SealKind.choices)
    subject_id = models.UUIDField(help_text="Id of the delivery, addendum, logger file, claim entry or key change.")
    content = models.BinaryField(help_text="The sealed record in canonical JSON, byte for byte.")
    content_sha256 = models.CharField(max_length=64)
    previous_sha256 = models.CharField(max_length=64)
    sha256 = models.CharField(max_length=64, unique=True)
    signature = models.CharField(max_length=120, help_text="Ed25519, base64.")
    public_key = models.ForeignKey(SealingKey, on_delete=models.PROTECT, related_name="+")
    sealed_at = models.DateTimeField()

    class Meta:
        ordering = ["site", "number"]
        constraints = [
            models.UniqueConstraint(fields=["site", "number"], name="one_seal_number_per_site"),
            models.UniqueConstraint(fields=["kind", "subject_id"], name="one_seal_per_subject"),
        ]

    def __str__(self) -> str:
        return f"{self.site.code} {self.number}"

    def statement(self) -> Statement:
        """What was signed, made again from the row."""
        return Statement(
            site_id=str(self.site_id), number=self.number, kind=self.kind, subject_id=str(self.subject_id),
            content_sha256=self.content_sha256, previous_sha256=self.previous_sha256,
            public_key_id=self.public_key_id, sealed_at=self.sealed_at,
        )


class SharedCopy(SignedOnce):
    """What of a photo may leave the house: the photo as taken, or a copy without the place it was taken at."""

    class How(models.TextChoices):
        AS_TAKEN = "as_taken", "As taken"
        PLACE_REMOVED = "place_removed", "Place removed, picture untouched"
        REWRITTEN = "rewritten", "Place removed, picture written anew"
        WITHHELD = "withheld", "Not given out: it cannot be read, so a place in it cannot be taken out"

    photo = models.OneToOneField(Photo, on_delete=models.PROTECT, primary_key=True, related_name="shared_copy")
    how = models.CharField(max_length=16, choices=How.choices)
    sha256 = models.CharField(max_length=64, blank=True, help_text="Empty where it is withheld; so are the others.")
    content_type = models.CharField(max_length=40, blank=True)
    bytes = models.PositiveBigIntegerField()
    stored_name = models.CharField(max_length=160, blank=True)

    def __str__(self) -> str:
        return f"{self.photo_id[:12]} {self.how}"


class TimeStamp(SignedOnce):
    """An outside authority's word that a seal was there by then (RFC 3161)."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    seal = models.OneToOneField(Seal, on_delete=models.PROTECT, related_name="time_stamp")
    authority = models.CharField(max_length=300, help_text="The address that was asked.")
    at = models.DateTimeField(help_text="The time that the authority gave.")
    token = models.BinaryField(help_text="Its answer (TimeStampResp, DER), byte for byte.")

    def __str__(self) -> str:
        return f"{self.seal} by {self.at:%Y-%m-%d}"


class EvidenceLink(models.Model):
    """A supplier's way to one delivery. The token is shown once; only its hash is kept.

    Of who opened it only how often is kept, and the first and last moment: no address, no browser.
    """

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    token_hash = models.CharField(max_length=64, unique=True)
    delivery = models.ForeignKey(Delivery, on_delete=models.PROTECT, related_name="evidence_links")
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True)
    to_whom = models.CharField(max_length=120, blank=True, help_text="A note of the one who made it.")
    openings = models.PositiveIntegerField(default=0)
    first_opened_at = models.DateTimeField(null=True)
    last_opened_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-created_at"]

    def __str__(self) -> str:
        return f"link to {self.delivery}"
