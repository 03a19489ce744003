"""Reference data in the operator's own pages; who opens them is in ``test_rights``."""
import json

import pytest
from django.urls import reverse

from inspections.people.models import Person
from inspections.records.models import SpecificationVersion, Thermometer
from tests.factories import SPECIFICATION

PAGES = ("supplier", "specification", "specificationversion", "order", "thermometer", "icepointcheck", "freezer")


@pytest.mark.parametrize("page", PAGES)
def test_an_administrator_opens_every_page(cast, client, page):
    client.force_login(cast.administrator)
    assert client.get(reverse(f"admin:records_{page}_changelist")).status_code == 200


def test_an_administrator_gives_a_role_and_sites(cast, client):
    client.force_login(cast.administrator)
    address = reverse("admin:people_person_change", args=[cast.stranger.pk])
    assert client.get(address).status_code == 200
    given = {"username": "stranger", "name": "Stranger", "role": "site_manager", "sites": [str(cast.bend.pk)],
             "is_active": "on"}  # fmt: skip
    assert client.post(address, given).status_code == 302
    cast.stranger.refresh_from_db()
    assert (cast.stranger.role, list(cast.stranger.sites.all())) == ("site_manager", [cast.bend])


def test_a_new_person_can_sign_in(cast, client):
    client.force_login(cast.administrator)
    given = {"username": "new", "name": "New", "role": "receiver", "sites": [str(cast.quay.pk)],
             "usable_password": "true", "password1": "lantern-quay", "password2": "lantern-quay"}  # fmt: skip
    assert client.post(reverse("admin:people_person_add"), given).status_code == 302
    person = Person.objects.get(username="new")
    assert person.check_password("lantern-quay")
    assert list(person.sites.all()) == [cast.quay]


def test_adding_a_version_publishes_the_next_one(cast, client):
    client.force_login(cast.administrator)
    data = json.dumps({**SPECIFICATION, "grade": "21/25"})
    given = {"specification": str(cast.version.specification_id), "data": data}
    assert client.post(reverse("admin:records_specificationversion_add"), given).status_code == 302
    newest = SpecificationVersion.objects.order_by("-version").first()
    assert (newest.version, newest.data["grade"], newest.created_by) == (2, "21/25", cast.administrator)


def test_a_version_that_cannot_be_judged_by_is_refused_with_its_sentence(cast, client):
    client.force_login(cast.administrator)
    data = json.dumps({**SPECIFICATION, "grade": "jumbo"})
    given = {"specification": str(cast.version.specification_id), "data": data}
    page = client.post(reverse("admin:records_specificationversion_add"), given).content.decode()
    assert "could not be read as a size grade" in page
    assert SpecificationVersion.objects.count() == 1


def test_a_published_version_can_be_read_and_not_changed(cast, client):
    client.force_login(cast.administrator)
    address = reverse("admin:records_specificationversion_change", args=[cast.version.pk])
    assert client.get(address).status_code == 200
    assert client.post(address, {"data": "{}"}).status_code == 403


def test_signed_deliveries_are_not_here(cast, client):
    client.force_login(cast.administrator)
    assert "Deliver" not in client.get(reverse("admin:index")).content.decode()


@pytest.fixture
def check(cast):
    from tests.factories import file_ice_point
    from tests.inspections.records.test_ice_point import a_check

    probe = Thermometer.objects.create(site=cast.quay, name="Probe blue")
    return file_ice_point(thermometer=probe, check=a_check(probe, "33,8", "F"), person=cast.receiver)


def test_filed_checks_are_listed_as_typed_and_can_only_be_read(cast, client, check):
    client.force_login(cast.administrator)
    page = client.get(reverse("admin:records_icepointcheck_changelist")).content.decode()
    assert "33,8 °F" in page
    assert "Kitchen QUAY" in page
    one = reverse("admin:records_icepointcheck_change", args=[check.pk])
    read = client.get(one)
    assert read.status_code == 200
    assert b'name="_save"' not in read.content
    assert client.post(one, {"entered": "0", "unit": "C"}).status_code == 403
    assert client.get(reverse("admin:records_icepointcheck_add")).status_code == 403
    away = reverse("admin:records_icepointcheck_delete", args=[check.pk])
    assert client.post(away, {"post": "yes"}).status_code == 403
    check.refresh_from_db()
    assert check.entered == "33,8"
