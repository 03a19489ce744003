"""What the device protocol keeps: open documents with every revision, photos on their way, answers given."""
from django.conf import settings
from django.db import models

from inspections.people.models import Site, new_id
from inspections.records.models import Supplier


class DocumentState(models.TextChoices):
    OPEN = "open", "Open"
    SIGNED = "signed", "Signed"


class Document(models.Model):
    """An inspection document as a phone last sent it; its id is made on the phone."""

    id = models.UUIDField(primary_key=True)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="+")
    docket_key = models.CharField(max_length=200, blank=True, help_text="Docket number without case, blanks, dashes.")
    separate_from = models.UUIDField(null=True, help_text="Another document on this docket, kept on purpose.")
    body = models.JSONField()
    body_sha256 = models.CharField(max_length=64)
    revision = models.PositiveIntegerField()
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    device_id = models.UUIDField()
    state = models.CharField(max_length=6, choices=DocumentState.choices, default=DocumentState.OPEN)
    created_at = models.DateTimeField(auto_now_add=True)
    updated_at = models.DateTimeField()

    class Meta:
        ordering = ["-updated_at"]
        # The second is for the docket of each new document; the constraint's own index knows only some of the rows.
        indexes = [models.Index(fields=["site", "state"]), models.Index(fields=["site", "supplier", "docket_key"])]
        constraints = [
            # Two phones that start on one docket in the same moment: the database lets one of them be first.
            models.UniqueConstraint(
                fields=["site", "supplier", "docket_key"], name="one_document_per_docket",
                condition=models.Q(separate_from__isnull=True) & ~models.Q(docket_key=""),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.docket_key} r{self.revision}"


class DocumentRevision(models.Model):
    """A document as it once was. Never removed."""

    id = models.BigAutoField(primary_key=True)
    document = models.ForeignKey(Document, on_delete=models.PROTECT, related_name="revisions")
    revision = models.PositiveIntegerField()
    base = models.PositiveIntegerField(help_text="The revision that the sender built on; 0 for the first.")
    is_replacement = models.BooleanField(default=False, help_text="Put on top of another device's on purpose.")
    body = models.JSONField()
    body_sha256 = models.CharField(max_length=64)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    device_id = models.UUIDField()
    received_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["document", "revision"]
        constraints = [models.UniqueConstraint(fields=["document", "revision"], name="one_revision_number")]

    def __str__(self) -> str:
        return f"revision {self.revision}"


class NamedPhoto(models.Model):
    """An open document names this photo; so advice can be asked for as soon as the photo is here."""

    id = models.BigAutoField(primary_key=True)
    document = models.ForeignKey(Document, on_delete=models.CASCADE, related_name="named_photos")
    sha256 = models.CharField(max_length=64, db_index=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["document", "sha256"], name="photo_named_once")]

    def __str__(self) -> str:
        return self.sha256[:12]


class Upload(models.Model):
    """A photo on its way. How much has arrived is the length of the part file, nothing else."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    sha256 = models.CharField(max_length=64)
    length = models.PositiveBigIntegerField()
    content_type = models.CharField(max_length=40, blank=True)
    device_id = models.UUIDField(null=True, help_text="As the app names it; empty from an app that does not.")
    is_stored = models.BooleanField(default=False)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["person", "sha256"], name="one_upload_per_person_and_photo")]
        indexes = [models.Index(fields=["created_at"])]

    def __str__(self) -> str:
        return self.sha256[:12]


class IdempotencyKey(models.Model):
    """The answer that a request with this key got; the same request gets it again."""

    id = models.BigAutoField(primary_key=True)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    key = models.CharField(max_length=255)
    request_sha256 = models.CharField(max_length=64)
    answer = models.JSONField(null=True, help_text="Written with the deed, in one transaction.")
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["person", "key"], name="one_answer_per_key")]

    def __str__(self) -> str:
        return self.key
