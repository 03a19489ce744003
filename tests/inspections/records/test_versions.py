"""What judged a delivery is never altered; new versions are published beside it."""
from copy import deepcopy

import pytest

from inspections.errors import Conflict, Unprocessable
from inspections.records.models import LimitSet, Specification, SpecificationVersion
from inspections.records.services.reference import default_limits, publish_limits, publish_specification
from inspections.trade.limits import DEFAULT_LIMITS
from tests.factories import SPECIFICATION, a_specification, current_limits


def limits(**changes) -> dict:
    """The documented default with other bounds, named by limit code with _ for the point."""
    data = deepcopy(DEFAULT_LIMITS)
    for limit in data["limits"]:
        if limit["code"] in changes:
            limit["bound"] = changes[limit["code"]]
    return data


def test_a_version_cannot_be_saved_again(db):
    version = a_specification()
    version.data = {}
    with pytest.raises(Conflict) as caught:
        version.save()
    assert caught.value.code == "WRITTEN-ONCE"
    assert SpecificationVersion.objects.get().data["grade"] == "16/20"


@pytest.mark.parametrize("act", [
    lambda rows: rows.update(data={}), lambda rows: rows.delete(), lambda rows: rows.get().delete(),
    lambda rows: rows.bulk_update(list(rows), ["data"]),
])  # fmt: skip
def test_versions_cannot_be_altered_or_removed_in_bulk_either(db, act):
    a_specification()
    with pytest.raises(Conflict):
        act(SpecificationVersion.objects.all())


def test_limits_cannot_be_altered_but_may_become_current(db):
    limit_set = current_limits()
    with pytest.raises(Conflict):
        LimitSet.objects.filter(pk=limit_set.pk).update(data={})
    assert LimitSet.objects.filter(pk=limit_set.pk).update(is_current=False) == 1


def test_other_data_make_the_next_version_and_keep_the_first(db):
    first = a_specification()
    second = a_specification(grade="21/25")
    assert (first.version, second.version) == (1, 2)
    assert SpecificationVersion.objects.get(pk=first.pk).data["grade"] == "16/20"


def test_the_same_data_make_no_version(db):
    assert a_specification() == a_specification()
    assert SpecificationVersion.objects.count() == 1


@pytest.mark.parametrize(
    ("changes", "code", "field"),
    [
        ({"species_code": "QQQ"}, "SPEC-SPECIES", "species_code"),
        ({"grade": "jumbo"}, "SPEC-GRADE", "grade"),
        ({"presentation": "WHOLE"}, "SPEC-FIELD", "presentation"),
        ({"carton_net_g": -5}, "SPEC-FIELD", "carton_net_g"),
        ({"carton_net_g": None}, "SPEC-FIELD", "carton_net_g"),
        ({"units_per_carton": 0}, "SPEC-FIELD", "units_per_carton"),
        ({"min_life_share": 1.5}, "SPEC-FIELD", "min_life_share"),
        ({"glazing": 10}, "SPEC-FIELD", "glazing"),
        ({"overrides": {"no.such.limit": 1}}, "SPEC-LIMITS", "overrides"),
        ({"overrides": {"product_c.reject": 40}}, "SPEC-LIMITS", "overrides"),
    ],
)
def test_a_specification_that_cannot_be_judged_by_is_refused(db, changes, code, field):
    with pytest.raises(Unprocessable) as caught:
        publish_specification(code="X", name="X", data={**SPECIFICATION, **changes}, person=None)
    assert (caught.value.code, caught.value.facts["field"]) == (code, field)
    assert not Specification.objects.exists()


def test_a_new_installation_starts_with_the_documented_default(db):
    limit_set = default_limits()
    assert (limit_set.version, limit_set.is_current) == (1, True)
    assert limit_set.data["limits"] == DEFAULT_LIMITS["limits"]
    assert default_limits() == limit_set


def test_a_new_version_of_limits_becomes_the_only_current_one(db):
    first = current_limits()
    second = publish_limits(data=limits(**{"product_c.reject": -14}), person=None)
    assert list(LimitSet.objects.filter(is_current=True)) == [second]
    assert (first.version, second.version) == (1, 2)


def test_going_back_to_an_earlier_set_tells_who_went_back(cast):
    publish_limits(data={**limits(), "name": "Other"}, person=None)
    again = publish_limits(data=limits(), person=cast.group)
    assert (again.version, again.is_current, again.created_by) == (2, True, cast.group)
    assert list(LimitSet.objects.filter(is_current=True)) == [again]
    assert publish_limits(data=limits(), person=cast.administrator).created_by == cast.group


@pytest.mark.parametrize(
    ("data", "code"),
    [
        ([], "LIMITS-01"),
        ({"name": "x", "limits": "none"}, "LIMITS-01"),
        ({**DEFAULT_LIMITS, "name": " "}, "LIMITS-NAME"),
        ({**DEFAULT_LIMITS, "default_plan": "guess"}, "LIMITS-PLAN"),
        ({"name": "x", "limits": DEFAULT_LIMITS["limits"][1:]}, "LIMITS-06"),
        (limits(**{"product_c.reject": 99}), "LIMITS-03"),
        (limits(**{"product_c.reject": -20}), "LIMITS-05"),
    ],
)
def test_limits_that_cannot_be_judged_by_are_refused(db, data, code):
    with pytest.raises(Unprocessable) as caught:
        publish_limits(data=data, person=None)
    assert caught.value.code == code
    assert not LimitSet.objects.exists()
