"""Reference data by hand, by role."""
import json

import pytest
from django.urls import reverse

from inspections.people.models import Person
from inspections.records.models import Freezer, SpecificationVersion, Thermometer
from tests.factories import SPECIFICATION

PAGES = ("supplier", "specification", "specificationversion", "order", "thermometer", "icepointcheck", "freezer")


@pytest.mark.parametrize(
    ("who", "opens"),
    [
        ("manager", {"order", "thermometer", "icepointcheck", "freezer"}),
        ("group", set(PAGES)),
        ("administrator", set(PAGES)),
    ],
)
def test_each_role_opens_what_it_may_change(cast, client, who, opens):
    client.force_login(cast.people[who])
    found = {page for page in PAGES if client.get(reverse(f"admin:records_{page}_changelist")).status_code == 200}
    assert found == opens


def test_a_receiver_is_sent_to_the_sign_in(cast, client):
    client.force_login(cast.receiver)
    assert client.get(reverse("admin:index")).status_code == 302


@pytest.mark.parametrize(("who", "status"), [("manager", 403), ("group", 403), ("administrator", 200)])
def test_people_are_for_administrators(cast, client, who, status):
    client.force_login(cast.people[who])
    assert client.get(reverse("admin:people_person_changelist")).status_code == status
    assert client.get(reverse("admin:people_person_add")).status_code == status


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


def test_a_manager_sees_only_their_own_freezers(cast, client):
    for site in (cast.quay, cast.bend):
        Freezer.objects.create(site=site, name=f"Freezer {site.code}")
    client.force_login(cast.manager)
    page = client.get(reverse("admin:records_freezer_changelist")).content.decode()
    assert "Freezer QUAY" in page
    assert "Freezer BEND" not in page


def test_a_manager_cannot_put_a_freezer_into_another_site(cast, client):
    client.force_login(cast.manager)
    client.post(reverse("admin:records_freezer_add"), {"site": str(cast.bend.pk), "name": "X", "in_use": "on"})
    assert not Freezer.objects.exists()


def test_adding_a_version_publishes_the_next_one(cast, client):
    client.force_login(cast.group)
    data = json.dumps({**SPECIFICATION, "grade": "21/25"})
    given = {"specification": str(cast.version.specification_id), "data": data}
    assert client.post(reverse("admin:records_specificationversion_add"), given).status_code == 302
    newest = SpecificationVersion.objects.order_by("-version").first()
    assert (newest.version, newest.data["grade"], newest.created_by) == (2, "21/25", cast.group)


def test_a_version_that_cannot_be_judged_by_is_refused_with_its_sentence(cast, client):
    client.force_login(cast.group)
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


@pytest.mark.parametrize("who", ["manager", "group", "administrator"])
def test_filed_checks_are_listed_as_typed_and_can_only_be_read(cast, client, check, who):
    client.force_login(cast.people[who])
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


def test_filed_checks_of_other_sites_are_not_listed(cast, client, check):
    client.force_login(cast.other_manager)
    assert "33,8" not in client.get(reverse("admin:records_icepointcheck_changelist")).content.decode()
    assert client.get(reverse("admin:records_icepointcheck_change", args=[check.pk])).status_code == 302
