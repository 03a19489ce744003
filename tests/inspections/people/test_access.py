"""Which sites a person sees, and what a role may change."""
import pytest
from django.contrib.auth.models import AnonymousUser

from inspections.errors import Forbidden
from inspections.people.access import need_role, need_site, sites_for
from inspections.people.models import Person


@pytest.mark.parametrize(
    ("who", "codes"),
    [
        ("receiver", {"QUAY"}), ("other_receiver", {"BEND"}), ("manager", {"QUAY"}), ("group", {"QUAY", "BEND"}),
        ("administrator", {"QUAY", "BEND"}), ("stranger", set()),
    ],
)  # fmt: skip
def test_sites_follow_role_and_place(cast, who, codes):
    assert {site.code for site in sites_for(cast.people[who])} == codes


def test_nobody_sees_no_site(cast):
    assert not sites_for(AnonymousUser()).exists()


def test_somebody_who_left_sees_no_site(cast):
    cast.administrator.is_active = False
    assert not sites_for(cast.administrator).exists()


@pytest.mark.parametrize("site_id", ["", None, "7", "00000000-0000-7000-8000-0000000000ff", ["x"]])
def test_a_site_that_is_none_is_answered_like_one_of_others(cast, site_id):
    with pytest.raises(Forbidden) as caught:
        need_site(cast.receiver, site_id)
    assert caught.value.code == "NOT-YOURS"


def test_a_role_that_is_needed_is_named(cast):
    need_role(cast.administrator, "group_operations")
    with pytest.raises(Forbidden, match=r"This is for group operations or an administrator\."):
        need_role(cast.manager, "group_operations")
    with pytest.raises(Forbidden, match=r"This is for a site manager, group operations or an administrator\."):
        need_role(cast.receiver, "site_manager", "group_operations")
    with pytest.raises(Forbidden, match=r"This is for an administrator\."):
        need_role(cast.manager)


def test_the_operators_own_pages_are_for_administrators(cast):
    assert [name for name, person in cast.people.items() if person.is_staff] == ["administrator"]
    assert [name for name, person in cast.people.items() if person.has_perm("people.x")] == ["administrator"]


def test_djangos_own_command_makes_an_administrator(db):
    person = Person.objects.create_superuser("root", password="lantern-quay", name="Root")
    assert (person.role, person.is_superuser, person.is_staff) == ("administrator", True, True)
