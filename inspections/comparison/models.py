"""What each docket line came to, counted when it was signed, and the same by month: nobody who looks counts again."""
from django.db import models

from inspections.claims.models import Message
from inspections.people.models import Person, Site
from inspections.records.models import Delivery, DocketLine, Specification, Supplier

#: What may be found beyond its limit in an opened carton, and the names of the checks that tell it.
FAULTS = {
    "warm": ("product_c",),
    "short": ("net_weight",),
    "off_count": ("count",),
    "spot": ("black_spot", "black_spot_wide", "black_spot_meat", "black_spot_score"),
    "burn": ("dehydrated", "dehydrated_weight", "dehydrated_surface", "frost"),
    "soft": ("soft", "broken"),
}


class Counts(models.Model):
    """Sums over docket lines of one kind of goods, supplier, site and month.

    Each is a copy of what the rows say, made in the transaction that writes them and never by hand;
    ``manage.py rebuild_tallies --check`` proves that all say the same. Only whole numbers, so that sums are exact.
    What was delivered twice on one docket counts once: a delivery's own figures stand on one of its lines. No sum is
    forbidden to be negative: a wrong tally is found and mended, it must not keep a receiver from signing.
    """

    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="+", db_index=False)
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="+", db_index=False)
    specification = models.ForeignKey(Specification, on_delete=models.PROTECT, related_name="+", db_index=False)
    species = models.CharField(max_length=20, blank=True)
    presentation = models.CharField(max_length=20, blank=True)
    state = models.CharField(max_length=20, blank=True)
    month = models.DateField(help_text="The first of the month of arrival, by the site's own clock.")
    lines = models.IntegerField(default=1)
    deliveries = models.IntegerField(default=0)
    deliveries_opened = models.IntegerField(default=0)
    due = models.IntegerField(default=0, help_text="Deliveries with an order that names a day.")
    late = models.IntegerField(default=0, help_text="Of those, the ones that came after that day.")
    delivered = models.IntegerField(default=0)
    refused = models.IntegerField(default=0)
    held = models.IntegerField(default=0)
    opened = models.IntegerField(default=0)
    defective = models.IntegerField(default=0)
    with_product = models.IntegerField(default=0)
    with_sample = models.IntegerField(default=0)
    warm_seen = models.IntegerField(default=0, help_text="Opened cartons looked at for it; so for the next.")
    warm = models.IntegerField(default=0, help_text="Of those, beyond the limit.")
    short_seen = models.IntegerField(default=0)
    short = models.IntegerField(default=0)
    off_count_seen = models.IntegerField(default=0)
    off_count = models.IntegerField(default=0)
    spot_seen = models.IntegerField(default=0)
    spot = models.IntegerField(default=0)
    burn_seen = models.IntegerField(default=0)
    burn = models.IntegerField(default=0)
    soft_seen = models.IntegerField(default=0)
    soft = models.IntegerField(default=0)
    product_cc = models.BigIntegerField(default=0, help_text="Product temperatures added up, in hundredths of a °C.")
    net_g = models.BigIntegerField(default=0, help_text="Net weights found, without glaze, added up, g.")
    declared_g = models.BigIntegerField(default=0, help_text="What the same should have weighed, g.")
    priced_g = models.BigIntegerField(default=0, help_text="Declared weight of kept cartons with a price, g.")
    price_cents = models.BigIntegerField(default=0, help_text="Their price, in hundredths of the site's currency.")
    put_aways = models.IntegerField(default=0, help_text="Put-aways with both times noted.")
    out_seconds = models.BigIntegerField(default=0, help_text="Their times out of the cold, added up.")
    thawed_faults = models.IntegerField(default=0, help_text="Faults found on thawing, added after signing.")

    class Meta:
        abstract = True


#: What sums are told apart by.
KEYS = ("supplier_id", "site_id", "specification_id", "species", "presentation", "state", "month")
#: What is added up.
COUNTED = tuple(field.name for field in Counts._meta.local_fields if field.attname not in KEYS)


class LineTally(Counts):
    """A docket line in numbers."""

    line = models.OneToOneField(DocketLine, on_delete=models.CASCADE, primary_key=True, related_name="tally")
    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="tallies")
    arrived_at = models.DateTimeField()
    day = models.DateField(help_text="Of arrival, by the site's own clock.")
    week = models.DateField(help_text="The Monday before or on that day.")

    class Meta:
        ordering = ["-day", "delivery", "line"]
        verbose_name_plural = "line tallies"
        indexes = [
            models.Index(fields=["day", "delivery"]), models.Index(fields=["site", "day"]),
            models.Index(fields=["supplier", "arrived_at"]),
        ]
        constraints = [
            models.CheckConstraint(condition=models.Q(defective__lte=models.F("opened")), name="no_more_bad_than_open"),
        ]

    def __str__(self) -> str:
        return f"{self.opened} opened, {self.defective} defective"


class MonthTally(Counts):
    """All docket lines of one month with the same supplier, site and goods: what the desk's pages add up."""

    class Meta:
        ordering = ["month", "id"]
        verbose_name_plural = "month tallies"
        indexes = [models.Index(fields=["site", "month"]), models.Index(fields=["supplier", "month"])]
        constraints = [models.UniqueConstraint(
            fields=["month", "supplier", "site", "specification", "species", "presentation", "state"],
            name="one_tally_a_month_and_goods")]

    def __str__(self) -> str:
        return f"{self.month:%Y-%m}: {self.opened} opened, {self.defective} defective"


class TallyState(models.Model):
    """How often the tallies of a site were changed: what was worked out from them holds as long as this stands."""

    site = models.OneToOneField(Site, on_delete=models.CASCADE, primary_key=True, related_name="+")
    changes = models.PositiveBigIntegerField(default=0)

    class Meta:
        ordering = ["site"]

    def __str__(self) -> str:
        return f"{self.changes}"


class SummaryWish(models.Model):
    """Somebody who wants the month's summary by mail."""

    person = models.OneToOneField(Person, on_delete=models.CASCADE, primary_key=True, related_name="summary_wish")

    def __str__(self) -> str:
        return str(self.person)


class SummaryMail(models.Model):
    """The summary of one month to one reader, sent at most once."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="+")
    month = models.DateField(help_text="Its first day.")
    state = models.CharField(max_length=8, choices=Message.State.choices, default=Message.State.WAITING)
    attempts = models.PositiveSmallIntegerField(default=0)
    taken_at = models.DateTimeField(null=True)
    sentence = models.TextField(blank=True)

    class Meta:
        ordering = ["-month", "person"]
        constraints = [models.UniqueConstraint(fields=["person", "month"], name="one_summary_a_month_and_reader")]

    def __str__(self) -> str:
        return f"{self.month:%Y-%m} to {self.person}"
