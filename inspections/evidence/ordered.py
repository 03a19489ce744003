"""What was ordered and at what price, from the supplier's own order.

The sealed record names the order; cartons and price stand in the order itself and are not sealed, and the page says
so. No other order and no other supplier's price is read.
"""
from dataclasses import dataclass

from inspections.records.models import Delivery, OrderLine


@dataclass(frozen=True)
class OrderedAt:
    """Cartons ordered of one product, and the price in words, "" where the order has none."""

    cartons: int
    price: str


def prices_of(delivery: Delivery) -> dict[str, OrderedAt]:
    """By the id of the specification's version; empty without an order of this supplier."""
    rows = OrderLine.objects.filter(order=delivery.order_id, order__supplier=delivery.supplier_id)
    return {str(row.specification_version_id): OrderedAt(row.cartons, _price(row, delivery)) for row in rows}


def _price(row: OrderLine, delivery: Delivery) -> str:
    if row.price_per_kg is None:
        return ""
    # As it was agreed, to the last figure that says something, and never shorter than a price is written.
    whole, _, part = f"{row.price_per_kg:f}".partition(".")
    return f"{whole}.{part.rstrip('0').ljust(2, '0')} {delivery.site.currency} per kg"
