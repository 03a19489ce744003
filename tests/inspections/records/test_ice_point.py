"""Checks of a thermometer in ice: filed once, never altered, and its last check is read off them.

The limit (1.0 °C from 0 °C) and the 30 days are common practice, no source (CV-5-56, CV-5-60).
"""
from copy import deepcopy
from datetime import date, datetime, timedelta

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from inspections.errors import Conflict, Forbidden, Unprocessable
from inspections.records.models import IcePointCheck, LimitSet, Thermometer
from inspections.records.services.imports import import_rows
from inspections.records.thermometers import TOLD, thermometer_list_json, thermometers_at
from inspections.trade.limits import DEFAULT_LIMITS
from tests.factories import file_ice_point, fresh_id

DEVICE = "018f0000-0000-7000-8000-0000000000d1"


@pytest.fixture
def probe(cast) -> Thermometer:
    return Thermometer.objects.create(site=cast.quay, name="Probe blue")


def ago(**time) -> datetime:
    return (timezone.now() - timedelta(**time)).replace(microsecond=0)


def a_check(probe, entered="0.2", unit="C", **changes) -> dict:
    whole = {"id": fresh_id(), "thermometer_id": str(probe.pk), "at": ago(minutes=2).isoformat(),
             "reading": {"entered": entered, "unit": unit}, "person": {"person_id": 1, "name": "Mia Castel"},
             "device_id": DEVICE}  # fmt: skip
    return {**whole, **changes}


def file(cast, probe, check) -> IcePointCheck:
    return file_ice_point(thermometer=probe, check=check, person=cast.receiver)


@pytest.mark.parametrize(("entered", "unit", "celsius", "passed"), [
    ("0,2", "C", 0.2, True),
    ("1.0", "C", 1.0, True),        # end point in
    ("-1.0", "C", -1.0, True),
    ("1.1", "C", 1.1, False),
    ("-1,1", "C", -1.1, False),
    ("32", "F", 0.0, True),         # water freezes at 32 °F
    ("33.8", "F", 1.0, True),
    ("34", "F", 10 / 9, False),
])
def test_it_is_kept_as_typed_and_held_to_the_documented_limit(cast, probe, entered, unit, celsius, passed):
    row = file(cast, probe, a_check(probe, entered, unit))
    assert (row.entered, row.unit, row.passed, row.allowed_c) == (entered, unit, passed, 1.0)
    assert row.reading_c == pytest.approx(celsius, abs=1e-12)
    assert row.due_on == row.day + timedelta(days=30)
    assert (row.done_by, row.person, str(row.device_id)) == ("Mia Castel", cast.receiver, DEVICE)


def own_limit(bound: float | None) -> None:
    """The group publishes its own limit in ice (None takes the bound out)."""
    data = deepcopy(DEFAULT_LIMITS)
    [limit] = [one for one in data["limits"] if one["code"] == "thermometer.ice_point"]
    limit["bound"] = bound
    LimitSet.objects.update(is_current=False)
    LimitSet.objects.create(name="House", version=LimitSet.objects.count() + 1, data=data, is_current=True)


@pytest.mark.parametrize(("own", "entered", "allowed", "passed"), [
    (0.5, "0.5", 0.5, True),        # end point in
    (0.5, "-0.6", 0.5, False),
    (0.5, "0.8", 0.5, False),       # within the documented limit, past the group's
    (1.5, "1.2", 1.0, False),       # a laxer one does not count: the documented limit does
    (0.0, "0.8", 1.0, True),        # could never be kept to: it counts as none
    (None, "0.8", 1.0, True),
])
def test_a_stricter_limit_of_the_group_counts(cast, probe, own, entered, allowed, passed):
    own_limit(own)
    row = file(cast, probe, a_check(probe, entered))
    assert (row.allowed_c, row.passed) == (allowed, passed)


def test_a_later_limit_does_not_change_what_was_found(cast, probe):
    check = a_check(probe, "0.8")
    file(cast, probe, check)
    own_limit(0.5)
    again = file(cast, probe, check)
    assert (again.allowed_c, again.passed) == (1.0, True)


def test_a_limit_set_of_before_that_does_not_name_it_leaves_the_documented_one(cast, probe):
    LimitSet.objects.update(is_current=False)
    LimitSet.objects.create(name="Old", version=1, data={"limits": []}, is_current=True)
    assert file(cast, probe, a_check(probe, "0.8")).allowed_c == 1.0


def test_the_desk_is_told_what_is_allowed_now(cast, probe, signed_in):
    own_limit(0.5)
    assert signed_in(cast.manager).get("/api/thermometers").json()["allowed_c"] == 0.5


def test_the_day_is_that_of_the_place_where_it_was_done(cast, probe):
    evening = ago(days=3).replace(hour=20, minute=30, second=0)
    row = file(cast, probe, a_check(probe, at=f"{evening.date() + timedelta(days=1)}T06:30:00+10:00"))
    assert row.at == evening
    assert row.day == evening.date() + timedelta(days=1)


def test_the_same_again_is_the_same_row_whoever_sends_it(cast, probe):
    check = a_check(probe)
    first = file(cast, probe, check)
    again = file_ice_point(thermometer=probe, check=dict(check), person=cast.manager)
    assert (again.pk, again.person) == (first.pk, cast.receiver)
    assert IcePointCheck.objects.count() == 1


@pytest.mark.parametrize("change", [
    {"reading": {"entered": "0.3", "unit": "C"}}, {"reading": {"entered": "0.2", "unit": "F"}},
    {"at": ago(hours=5).isoformat()}, {"person": {"name": "Tom"}},
    {"device_id": "018f0000-0000-7000-8000-0000000000d2"},
])
def test_something_else_under_the_same_id_is_refused(cast, probe, change):
    check = a_check(probe, "0.2")
    file(cast, probe, check)
    changed = {**check, **change}
    with pytest.raises((Conflict, Unprocessable)) as caught:
        file(cast, probe, changed)
    assert caught.value.code == "CHECK-OTHER"
    assert IcePointCheck.objects.get().entered == "0.2"


@pytest.mark.parametrize(("change", "code"), [
    ({"id": "7"}, "CHECK-SHAPE"),
    ({"id": None}, "CHECK-SHAPE"),
    ({"device_id": 7}, "CHECK-SHAPE"),
    ({"thermometer_id": fresh_id()}, "CHECK-SHAPE"),
    ({"at": "2026-11-25"}, "CHECK-SHAPE"),
    ({"at": "2026-11-25T06:00:00"}, "CHECK-SHAPE"),           # without an offset
    ({"at": 7}, "CHECK-SHAPE"),
    ({"person": None}, "CHECK-SHAPE"),
    ({"person": {"name": "  "}}, "CHECK-SHAPE"),
    ({"person": {"name": "x" * 121}}, "CHECK-SHAPE"),
    ({"person": {"name": "Mia\x00"}}, "CHECK-SHAPE"),
    ({"reading": {"entered": "0.\x00", "unit": "C"}}, "CHECK-SHAPE"),
    ({"person": {"name": "\ud83d"}}, "CHECK-SHAPE"),
    ({"note": "\x00"}, "CHECK-SHAPE"),
    ({"reading": {"entered": " " * 30 + "0.2", "unit": "C"}}, "CHECK-SHAPE"),
    ({"reading": None}, "CHECK-SHAPE"),
    ({"reading": {"entered": 0.2, "unit": "C"}}, "CHECK-SHAPE"),
    ({"reading": {"entered": "cold", "unit": "C"}}, "CHECK-READING"),
    ({"reading": {"entered": "0.2", "unit": "g"}}, "CHECK-READING"),
    ({"reading": {"entered": "0.2", "unit": ["C"]}}, "CHECK-SHAPE"),
    ({"reading": {"entered": "-91", "unit": "C"}}, "CHECK-READING"),
    ({"reading": {"entered": "61", "unit": "C"}}, "CHECK-READING"),
    ({"at": (timezone.now() + timedelta(days=2)).isoformat()}, "CHECK-TIME"),
    ({"at": "1999-12-31T23:59:59+00:00"}, "CHECK-TIME"),
    ({"at": "0001-01-01T00:00:00+14:00"}, "CHECK-TIME"),
    ({"at": "9999-12-31T23:59:59-12:00"}, "CHECK-TIME"),
])
def test_what_cannot_be_filed_is_refused_in_a_sentence(cast, probe, change, code):
    with pytest.raises(Unprocessable) as caught:
        file(cast, probe, {**a_check(probe), **change})
    assert caught.value.code == code
    assert "is safe" in str(caught.value)
    assert not IcePointCheck.objects.exists()


@pytest.mark.parametrize("check", [None, [], "x", 7])
def test_what_is_no_check_at_all_is_refused(cast, probe, check):
    with pytest.raises(Unprocessable) as caught:
        file(cast, probe, check)
    assert caught.value.code == "CHECK-SHAPE"


def test_another_sites_thermometer_is_not_theirs(cast, probe):
    with pytest.raises(Forbidden):
        file_ice_point(thermometer=probe, check=a_check(probe), person=cast.other_receiver)


def test_a_filed_check_is_never_altered_nor_removed(cast, probe):
    row = file(cast, probe, a_check(probe))
    row.entered = "0.0"
    for deed in (row.save, row.delete, IcePointCheck.objects.all().delete,
                 lambda: IcePointCheck.objects.update(passed=False)):
        with pytest.raises(Conflict):
            deed()
    assert IcePointCheck.objects.get().entered == "0.2"


def test_the_database_itself_refuses_a_check_due_before_it_was_done(cast, probe):
    row = IcePointCheck(
        id=fresh_id(), thermometer=probe, at=ago(days=1), day=date(2026, 11, 20), entered="0", unit="C", reading_c=0.0,
        allowed_c=1.0, passed=True, due_on=date(2026, 11, 19), done_by="Mia", person=cast.receiver, device_id=DEVICE,
    )
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save(force_insert=True)


def test_the_last_check_is_the_newest_however_late_an_older_one_arrives(cast, probe):
    newest = file(cast, probe, a_check(probe, "0.4", at=ago(days=1).isoformat()))
    file(cast, probe, a_check(probe, "1.9", at=ago(days=9).isoformat()))
    last = Thermometer.objects.get().last_check
    assert (last.on, last.reading_c, last.due_on, last.at) == (newest.day, 0.4, newest.due_on, newest.at)


@pytest.mark.parametrize(("days", "reading", "counts"), [
    (-1, 0.7, "noted"), (0, 0.7, "filed"), (1, 0.7, "filed"), (-1, None, "filed"),
])
def test_a_check_noted_by_hand_counts_when_its_day_is_later(cast, probe, days, reading, counts):
    filed = file(cast, probe, a_check(probe, "0.4", at=ago(days=5).isoformat()))
    probe.last_checked_on, probe.last_check_c = filed.day - timedelta(days=days), reading
    probe.save()
    last = Thermometer.objects.get().last_check
    assert last.reading_c == (0.7 if counts == "noted" else 0.4)
    assert (last.at is None) == (counts == "noted")


def test_without_a_filed_check_what_was_noted_stands(probe):
    assert probe.last_check.on is probe.last_check.reading_c is probe.last_check.at is None
    probe.check_due_on = date(2026, 12, 1)
    assert probe.last_check.due_on == date(2026, 12, 1)


def test_a_table_still_comes_in_beside_filed_checks(cast, probe):
    filed = file(cast, probe, a_check(probe, "0.4"))
    day = filed.day.isoformat()
    head = "site;name;accuracy_c;last_checked_on;last_check_c;check_due_on"
    text = f"{head}\nQUAY;Probe blue;0,3;2026-01-14;-0,1;{day}\n"
    assert import_rows(kind="thermometers", content=text.encode(), person=cast.manager).changed == 1
    probe.refresh_from_db()
    assert (probe.accuracy_c, probe.last_check_c, probe.last_check.reading_c) == (0.3, -0.1, 0.4)


def test_the_admin_tells_the_last_check_on_record(cast, probe, client):
    filed = file(cast, probe, a_check(probe, "0.4"))
    client.force_login(cast.administrator)
    page = client.get(reverse("admin:records_thermometer_changelist")).content.decode()
    assert "0.4" in page
    assert filed.due_on.strftime("%Y") in page
    form = {"site": str(cast.quay.pk), "name": "Probe green", "accuracy_c": "0.5", "in_use": "on",
            "last_checked_on": "", "last_check_c": "", "check_due_on": ""}  # fmt: skip
    address = reverse("admin:records_thermometer_change", args=[probe.pk])
    assert client.post(address, form).status_code == 302
    assert Thermometer.objects.get().name == "Probe green"


def test_the_desk_is_told_the_newest_checks_and_today_at_the_site(cast, probe, signed_in):
    for days in range(TOLD + 2):
        file(cast, probe, a_check(probe, f"0.{days}", at=ago(days=days, minutes=1).isoformat()))
    (row,) = signed_in(cast.manager).get("/api/thermometers").json()["rows"]
    assert [check["reading"]["entered"] for check in row["checks"]] == [f"0.{days}" for days in range(TOLD)]
    told = row["checks"][0]
    assert (told["passed"], told["done_by"], told["sent_by"]) == (True, "Mia Castel", cast.receiver.name)
    assert (row["last_check_c"], row["site"]["name"]) == (0.0, cast.quay.name)
    late = datetime.fromisoformat("2026-11-25T20:00:00+00:00")
    Thermometer.objects.update(site=cast.bend)        # ten hours ahead of UTC
    (moved,) = thermometers_at([cast.bend])
    assert thermometer_list_json(moved, late)["today"] == date(2026, 11, 26)


def test_the_list_takes_as_many_queries_for_many_as_for_one(cast, probe):
    def queries() -> int:
        with CaptureQueriesContext(connection) as seen:
            [thermometer_list_json(row) for row in thermometers_at([cast.quay])]
        return len(seen)

    file(cast, probe, a_check(probe))
    for_one = queries()
    for number in range(4):
        other = Thermometer.objects.create(site=cast.quay, name=f"Probe {number}")
        file(cast, other, a_check(other))
    assert queries() == for_one == 2
