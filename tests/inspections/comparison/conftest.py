"""Deliveries as the comparison counts them: rows only, no documents."""
import uuid
from datetime import UTC, datetime

import pytest

from inspections.comparison.tallies import tally_delivery
from inspections.people.models import Person, Role, Site
from inspections.records import models as records


class Dock:
    """Writes signed deliveries of named suppliers at named sites."""

    def __init__(self):
        self.limits = records.LimitSet.objects.create(name="house", version=1, data={}, is_current=True)
        self.receiver = Person.objects.create_user("rosa", name="Rosa", role=Role.RECEIVER)
        self._suppliers, self._sites, self._goods = {}, {}, {}

    def site(self, name: str, timezone: str = "UTC") -> Site:
        if name not in self._sites:
            self._sites[name] = Site.objects.create(name=name, code=name[:6].upper(), timezone=timezone)
        return self._sites[name]

    def supplier(self, name: str) -> records.Supplier:
        if name not in self._suppliers:
            self._suppliers[name] = records.Supplier.objects.create(name=name, code=name[:12].upper())
        return self._suppliers[name]

    def goods(self, form: str) -> records.SpecificationVersion:
        """A specification version of "PRESENTATION state"."""
        if form not in self._goods:
            presentation, state = form.split()
            product = records.Specification.objects.create(code=form, name=form)
            self._goods[form] = records.SpecificationVersion.objects.create(
                specification=product, version=1, data={"presentation": presentation, "state": state})
        return self._goods[form]

    def delivery(self, supplier, site, *lines, arrived_at=datetime(2026, 5, 4, 6, 0, tzinfo=UTC)):
        """One delivery; each line is (form, cartons delivered, refused, opened, defective)."""
        delivery = records.Delivery.objects.create(
            id=uuid.uuid4(), site=self.site(site), supplier=self.supplier(supplier), docket_number="DN-1",
            arrived_at=arrived_at, receiver=self.receiver, device_id=uuid.uuid4(), limit_set=self.limits,
            document={}, judgement={}, signed_at=arrived_at)
        for number, (form, delivered, refused, opened, defective) in enumerate(lines, 1):
            line = records.DocketLine.objects.create(
                id=uuid.uuid4(), delivery=delivery, number=number, specification_version=self.goods(form),
                cartons_on_docket=delivered, cartons_counted=delivered, suggested="accept", decided="accept",
                accepted=delivered - refused, refused=refused, held=0)
            records.Carton.objects.bulk_create(
                records.Carton(id=uuid.uuid4(), line=line, position=place, is_defective=place <= defective,
                               data={}, derived={}) for place in range(1, opened + 1))
        tally_delivery(delivery)
        return delivery


@pytest.fixture
def dock(db) -> Dock:
    return Dock()


@pytest.fixture
def person(db):
    """Makes somebody of a role, with sites."""
    def make(role, *sites):
        somebody = Person.objects.create_user(f"{role}-{len(sites)}", name=role, role=role)
        somebody.sites.set(sites)
        return somebody
    return make


@pytest.fixture
def ask(client):
    """Asks for the comparison as somebody."""
    def get(somebody=None, **query):
        if somebody is not None:
            client.force_login(somebody)
        return client.get("/api/comparison", {name.rstrip("_"): value for name, value in query.items()})
    return get
