"""Who works here, where, and on which phone.

A person's role says what they may do, their sites say where. Nothing else grants a right: there are no
groups and no single permissions, so what a person may do can be read off one line.
"""
import re
import uuid
from zoneinfo import available_timezones

from django.contrib.auth.models import AbstractUser, UserManager
from django.core.exceptions import ValidationError
from django.db import models
from uuid6 import uuid7


def new_id() -> uuid.UUID:
    """A fresh UUIDv7: ids made later sort later."""
    return uuid.UUID(int=uuid7().int)


def check_timezone(name: str) -> None:
    """Refuse a time zone that the tz database does not know."""
    if name not in available_timezones():
        raise ValidationError(f"“{name}” is no time zone of the tz database. Write it like Europe/Lisbon.")


def check_currency(code: str) -> None:
    """Refuse what cannot be a currency code of ISO 4217."""
    if not re.fullmatch(r"[A-Z]{3}", code):
        raise ValidationError(f"“{code}” is no currency code. Write three capital letters, like EUR (ISO 4217).")


class Market(models.TextChoices):
    """Whose label and sulphite rules a site works under."""

    EU = "EU", "European Union"
    US = "US", "United States"
    ANZ = "ANZ", "Australia and New Zealand"
    CODEX = "CODEX", "Codex (elsewhere)"


class Site(models.Model):
    """A kitchen that receives."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    name = models.CharField(max_length=80, unique=True)
    code = models.CharField(max_length=12, unique=True, help_text="Short, as printed on seals: three to six letters.")
    timezone = models.CharField(max_length=64, default="UTC", validators=[check_timezone])
    currency = models.CharField(
        max_length=3, default="EUR", validators=[check_currency],
        help_text="What prices of this site's orders are in: three letters (ISO 4217).",
    )
    market = models.CharField(max_length=8, choices=Market.choices, default=Market.CODEX)
    is_demo = models.BooleanField(default=False, editable=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    """What a person does, from the dock to the office."""

    RECEIVER = "receiver", "Receiver"
    SITE_MANAGER = "site_manager", "Site manager"
    GROUP_OPERATIONS = "group_operations", "Group operations"
    ADMINISTRATOR = "administrator", "Administrator"
    SUPPLIER = "supplier", "Supplier's person"


#: Roles that answer for every site.
SEES_ALL = frozenset({Role.GROUP_OPERATIONS, Role.ADMINISTRATOR})


class People(UserManager):
    """Makes people; ``create_superuser`` (Django's own command) makes an administrator."""

    def create_superuser(self, username, email=None, password=None, **more):
        more.update(role=Role.ADMINISTRATOR)
        return self.create_user(username, email, password, **more)

    def _create_user_object(self, username, email, password, **more):
        # Django's own passes two flags that follow from the role here.
        more = {key: value for key, value in more.items() if key not in {"is_staff", "is_superuser"}}
        return super()._create_user_object(username, email, password, **more)


class Person(AbstractUser):
    """Somebody who signs in. Of a supplier only those who were invited do (``claims.models.SupplierPerson``)."""

    first_name = last_name = groups = user_permissions = None
    name = models.CharField(max_length=120, help_text="As it stands on the docket.")
    role = models.CharField(max_length=20, choices=Role.choices, default=Role.RECEIVER)
    sites = models.ManyToManyField(Site, blank=True, related_name="people")
    pin = models.CharField(max_length=128, blank=True, editable=False, help_text="Hashed; for shared devices only.")
    wrong_pins = models.PositiveIntegerField(default=0, editable=False, help_text="Since the last sign-in.")
    is_demo = models.BooleanField(default=False, editable=False)

    objects = People()
    REQUIRED_FIELDS = ["name"]

    class Meta:
        ordering = ["name"]
        verbose_name_plural = "people"

    def __str__(self) -> str:
        return self.name or self.username

    def get_full_name(self) -> str:
        return self.name

    def get_short_name(self) -> str:
        return self.name

    @property
    def is_staff(self) -> bool:
        """May open the operator's own pages (/admin/); all others keep what is theirs at the desk."""
        return self.role == Role.ADMINISTRATOR

    @property
    def is_superuser(self) -> bool:
        """May do everything there."""
        return self.role == Role.ADMINISTRATOR

    def has_perm(self, perm: str, obj=None) -> bool:
        """In the operator's own pages: everything for an administrator, nothing for anybody else."""
        return self.is_active and self.is_superuser

    def has_perms(self, perm_list, obj=None) -> bool:
        return self.has_perm("")

    def has_module_perms(self, app_label: str) -> bool:
        return self.has_perm("")


class Device(models.Model):
    """A phone or browser that keeps documents; its id is made there. With a site it is one that a dock shares."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="devices", help_text="Who used it last.")
    label = models.CharField(max_length=80, blank=True)
    last_seen = models.DateTimeField()
    site = models.ForeignKey(Site, on_delete=models.PROTECT, null=True, blank=True, related_name="shared_devices")
    key_hash = models.CharField(max_length=64, blank=True, help_text="Of the key in a shared device's cookie.")
    enrolled_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    enrolled_at = models.DateTimeField(null=True, blank=True)
    revoked_by = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-last_seen"]

    def __str__(self) -> str:
        return self.label or str(self.id)


class Passkey(models.Model):
    """The public half of a key that a person's phone, computer or security key holds; see ``passkeys``."""

    id = models.BigAutoField(primary_key=True)
    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="passkeys")
    credential_id = models.CharField(max_length=1400, unique=True, help_text="Base64url, 1023 bytes at most.")
    public_key = models.BinaryField(help_text="COSE.")
    sign_count = models.PositiveBigIntegerField()
    label = models.CharField(max_length=80)
    created_at = models.DateTimeField(auto_now_add=True)
    last_used_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["id"]

    def __str__(self) -> str:
        return self.label


class EnrolmentCode(models.Model):
    """A manager's leave to make one device a shared one; told once, used once, for a quarter of an hour."""

    id = models.BigAutoField(primary_key=True)
    code_hash = models.CharField(max_length=64, unique=True)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+")
    label = models.CharField(max_length=80)
    created_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return self.label


class AppendOnlyQuerySet(models.QuerySet):
    """Rows are added and read; nothing else."""

    def update(self, **values):
        raise TypeError("the trail is only added to")

    bulk_update = delete = update


class Deed(models.Model):
    """Who saw or did what, and when. Never altered, never removed; see ``trail``."""

    id = models.BigAutoField(primary_key=True)
    at = models.DateTimeField(auto_now_add=True, db_index=True)
    what = models.CharField(max_length=40)
    about = models.CharField(max_length=200, blank=True)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, related_name="+")
    site = models.ForeignKey(Site, on_delete=models.PROTECT, null=True, related_name="+")
    device = models.ForeignKey(Device, on_delete=models.PROTECT, null=True, related_name="+", db_constraint=False)
    address = models.CharField(max_length=45)

    objects = AppendOnlyQuerySet.as_manager()

    class Meta:
        ordering = ["-id"]

    def __str__(self) -> str:
        return f"{self.what} {self.about}"

    def save(self, *args, **kwargs):
        if not self._state.adding:
            raise TypeError("the trail is only added to")
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise TypeError("the trail is only added to")
