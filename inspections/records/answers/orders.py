"""Orders and what came of them."""
from typing import TypedDict

from inspections.describe import Day, Uuid
from inspections.people.answers import Named


class OrderLineRow(TypedDict):
    id: Uuid
    specification: str
    specification_id: Uuid
    cartons: int
    price_per_kg: str | None


class DeliveryOfOrder(TypedDict):
    id: Uuid
    docket_number: str


class OrderRow(TypedDict):
    """An order; its prices are in ``currency`` (ISO 4217)."""

    id: Uuid
    number: str
    site: Named
    supplier: Named
    currency: str
    expected_on: Day
    source: str
    is_demo: bool
    lines: list[OrderLineRow]
    deliveries: list[DeliveryOfOrder]


class OrdersAnswer(TypedDict):
    rows: list[OrderRow]
