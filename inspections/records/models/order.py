"""What is expected, where and when."""
from django.db import models

from inspections.people.models import Site, new_id
from inspections.records.models.specification import SpecificationVersion
from inspections.records.models.supplier import Supplier


class Order(models.Model):
    """One order of one supplier for one site."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    number = models.CharField(max_length=40)
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="orders")
    site = models.ForeignKey(Site, on_delete=models.PROTECT, related_name="orders")
    expected_on = models.DateField()
    source = models.CharField(max_length=20, default="typed", help_text="typed, import or demo")
    is_demo = models.BooleanField(default=False, editable=False)

    class Meta:
        ordering = ["expected_on", "number"]
        constraints = [
            models.UniqueConstraint(fields=["site", "supplier", "number"], name="one_order_number_per_supplier"),
        ]
        indexes = [models.Index(fields=["site", "expected_on"])]

    def __str__(self) -> str:
        return self.number


class OrderLine(models.Model):
    """One product of an order."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="lines")
    specification_version = models.ForeignKey(SpecificationVersion, on_delete=models.PROTECT, related_name="+")
    cartons = models.PositiveIntegerField()
    price_per_kg = models.DecimalField(max_digits=10, decimal_places=4, null=True, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(fields=["order", "specification_version"], name="one_order_line_per_product"),
            models.CheckConstraint(condition=models.Q(cartons__gte=1), name="order_line_has_cartons"),
            models.CheckConstraint(
                condition=models.Q(price_per_kg__isnull=True) | models.Q(price_per_kg__gte=0),
                name="price_not_negative",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.order.number}: {self.specification_version}"
