"""The comparison as the desk asks for it: who may, which days count, and what the rows say."""
from datetime import UTC, datetime
from uuid import UUID

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from inspections.comparison.selectors import MOST_SEEN
from inspections.comparison.tallies import rebuild
from inspections.people.models import Role, Site
from inspections.records.models import Carton, Reading

YEAR = {"from_": "2026-01-01", "to": "2026-12-31"}
# CV-9-32 (computed): opened and defective, shell-on, peeled and cooked; forty cartons a delivery.
WORKED = {
    "Abalone Bay": {"HLSO raw": (120, 5), "PUD raw": (40, 3), "HLSO cooked": (40, 1)},
    "Bright Cove": {"HLSO raw": (30, 1), "PUD raw": (150, 14), "HLSO cooked": (20, 0)},
    "Cold Strand": {"HLSO raw": (60, 1), "PUD raw": (60, 1), "HLSO cooked": (80, 1)},
}
OPERATIONS = Role.GROUP_OPERATIONS


def deliver_worked_example(dock, site="Harbour"):
    for supplier, goods in WORKED.items():
        for form, (opened, defective) in goods.items():
            for part in range(2):
                share = opened // 2, (defective + part) // 2
                dock.delivery(supplier, site, (form, 100, share[1], *share))


def row_of(answer, name):
    return next(row for row in answer.json()["rows"] if row["supplier"]["name"] == name)


@pytest.mark.parametrize(
    ("supplier", "rate", "expected", "allowed"),
    # by hand from the table: own cartons in each kind at the others' rates there; then the others' plain rate
    [("Abalone Bay", 0.0450, 120 * 2 / 90 + 40 * 15 / 210 + 40 * 1 / 100, 18 / 400),
     ("Bright Cove", 0.0750, 30 * 6 / 180 + 150 * 4 / 100 + 20 * 2 / 120, 12 / 400),
     ("Cold Strand", 0.0150, 60 * 6 / 150 + 60 * 17 / 190 + 80 * 1 / 60, 24 / 400)],
)
def test_rows_compare_with_the_others_in_the_same_goods__CV_9_32(dock, person, ask, supplier, rate, expected, allowed):
    deliver_worked_example(dock)
    row = row_of(ask(person(OPERATIONS), **YEAR), supplier)
    assert (row["rate"], row["expected"]) == pytest.approx((rate, expected))
    assert row["ratio"] == pytest.approx(row["defective"] / expected)
    assert row["ratio_low"] < row["ratio"] < row["ratio_high"]
    assert row["allowed_rate"] == pytest.approx(row["ratio"] * allowed)


def test_a_row_counts_deliveries_cartons_and_refusals(dock, person, ask, client):
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 2, 3, 1), ("PUD raw", 12, 0, 2, 0))
    dock.delivery("Abalone Bay", "Hill", ("HLSO raw", 8, 0, 0, 0))
    answer = ask(person(OPERATIONS), **YEAR)
    row = row_of(answer, "Abalone Bay")
    counts = {name: row[name] for name in ("deliveries", "deliveries_opened", "delivered_cartons", "refused_cartons",
                                           "held_cartons", "cartons_opened", "defective")}
    assert counts == {"deliveries": 2, "deliveries_opened": 1, "delivered_cartons": 40, "refused_cartons": 2,
                      "held_cartons": 0, "cartons_opened": 5, "defective": 1}
    with CaptureQueriesContext(connection) as queries:
        parts = client.get(f"/api/comparison/suppliers/{row['supplier']['id']}", {"from": "2026-01-01"}).json()
    # the newest lines tell how alike cartons are: nothing that stands here asks for that
    assert not [each for each in queries if str(MOST_SEEN) in each["sql"]]
    assert [(site["name"], site["cartons_opened"]) for site in parts["by_site"]] == [("Harbour", 5), ("Hill", 0)]
    assert [(part["presentation"], part["share"]) for part in parts["mix"]] == [("HLSO", 0.6), ("PUD", 0.4)]
    assert answer.json()["threshold"] == {"cartons": 20, "deliveries": 5}


def test_what_was_not_measured_is_counted_as_not_measured__CV_0_06(dock, person, ask):
    delivery = dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 4, 0))
    first, second, *_ = Carton.objects.filter(line__delivery=delivery)
    for carton, kind in [(first, "product"), (first, "sample"), (second, "product"), (second, "gross")]:
        Reading.objects.create(delivery=delivery, carton=carton, kind=kind, value=1, unit="C", entered="1",
                               entered_unit="C")
    rebuild()
    answer = ask(person(OPERATIONS), **YEAR)
    row, site = row_of(answer, "Abalone Bay"), answer.json()["sites"][0]
    for counts in (row, site):
        assert [counts[name] for name in ("cartons_opened", "cartons_with_product", "cartons_with_sample")] == [4, 2, 1]


def test_no_carton_opened_is_no_data_and_not_nought__CV_9_14(dock, person, ask):
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 0, 0))
    row = row_of(ask(person(OPERATIONS), **YEAR), "Abalone Bay")
    assert [row[name] for name in ("rate", "low", "high", "ratio", "shrunk", "alone_share")] == [None] * 6
    assert row["comparable"] is None
    assert row["too_few"] is True


def test_small_numbers_are_marked_and_exactly_the_stated_ones_are_not__CV_12_81(dock, person, ask):
    for _ in range(5):
        dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 4, 0))
        dock.delivery("Bright Cove", "Harbour", ("HLSO raw", 20, 0, 3, 1))
    for _ in range(4):
        dock.delivery("Cold Strand", "Harbour", ("HLSO raw", 40, 0, 10, 0))
    marked = {row["supplier"]["name"]: row["too_few"] for row in ask(person(OPERATIONS), **YEAR).json()["rows"]}
    assert marked == {"Abalone Bay": False, "Bright Cove": True, "Cold Strand": True}


def test_a_strict_site_shows_as_a_site_and_not_against_its_supplier(dock, person, ask):
    for _ in range(10):
        dock.delivery("Abalone Bay", "Strict", ("HLSO raw", 60, 0, 12, 6))
        dock.delivery("Abalone Bay", "Usual", ("HLSO raw", 60, 0, 4, 0))
        dock.delivery("Bright Cove", "Strict", ("HLSO raw", 60, 0, 4, 2))
        dock.delivery("Bright Cove", "Usual", ("HLSO raw", 60, 0, 12, 0))
    answer = ask(person(OPERATIONS), **YEAR)
    rows = {row["supplier"]["name"]: row for row in answer.json()["rows"]}
    assert rows["Abalone Bay"]["rate"] == 3 * rows["Bright Cove"]["rate"]
    assert rows["Abalone Bay"]["ratio"] == rows["Bright Cove"]["ratio"] == 1.0
    sites = {site["name"]: site for site in answer.json()["sites"]}
    assert sites["Strict"]["apart"]
    # the other site found nothing: no ratio can be said, yet more were found than expected
    assert (sites["Strict"]["expected"], sites["Strict"]["ratio"]) == (0.0, None)


def test_goods_that_only_one_supplier_brings_are_said_to_stand_alone(dock, person, ask):
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 6, 1), ("PPV cooked", 20, 0, 2, 1))
    dock.delivery("Bright Cove", "Harbour", ("HLSO raw", 20, 0, 4, 1))
    answer = ask(person(OPERATIONS), **YEAR)
    assert row_of(answer, "Abalone Bay")["alone_share"] == 0.25
    assert row_of(answer, "Bright Cove")["alone_share"] == 0.0


def test_days_are_those_of_the_sites_own_clock(dock, person, ask):
    dock.site("East", "Australia/Sydney")
    # 22:30 UTC on 31 May is 08:30 on 1 June there
    dock.delivery("Abalone Bay", "East", ("HLSO raw", 9, 0, 3, 0), arrived_at=datetime(2026, 5, 31, 22, 30, tzinfo=UTC))
    boss = person(OPERATIONS)
    june, may = {"from_": "2026-06-01", "to": "2026-06-30"}, {"from_": "2026-05-01", "to": "2026-05-31"}
    assert [len(ask(boss, **month).json()["rows"]) for month in (june, may)] == [1, 0]


def test_the_usual_period_is_twelve_months_up_to_today(dock, person, ask):
    period = ask(person(OPERATIONS), to="2026-03-14").json()["period"]
    assert period == {"from": "2025-04-01", "to": "2026-03-14"}


@pytest.mark.parametrize(
    ("query", "code"),
    [({"from_": "yesterday"}, "PERIOD-DATE"), ({"to": "2026-02-30"}, "PERIOD-DATE"),
     ({"from_": "20260101"}, "PERIOD-DATE"), ({"from_": "2026-02-01", "to": "2026-01-31"}, "PERIOD-ORDER")],
)
def test_a_period_that_cannot_be_read_gets_a_sentence(dock, person, ask, query, code):
    answer = ask(person(OPERATIONS), **query)
    assert (answer.status_code, answer.json()["code"]) == (422, code)
    assert "Nothing was changed." in answer.json()["sentence"]


@pytest.mark.parametrize(
    ("role", "status"),
    [(Role.RECEIVER, 403), (Role.SITE_MANAGER, 200), (Role.GROUP_OPERATIONS, 200), (Role.ADMINISTRATOR, 200)],
)
def test_only_those_who_answer_for_a_site_may_compare(dock, person, ask, role, status):
    assert ask(person(role, dock.site("Harbour"))).status_code == status


def test_a_stranger_is_asked_to_sign_in(db, ask):
    answer = ask()
    assert answer.status_code in (401, 403)
    assert answer.json()["code"] == "SIGN-IN-FIRST"


def test_a_manager_sees_own_sites_and_nothing_of_the_others(dock, person, ask):
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 3, 0))
    dock.delivery("Bright Cove", "Hill", ("HLSO raw", 20, 0, 3, 3))
    manager = person(Role.SITE_MANAGER, dock.site("Harbour"))
    answer = ask(manager, **YEAR).json()
    assert [row["supplier"]["name"] for row in answer["rows"]] == ["Abalone Bay"]
    assert [site["name"] for site in answer["sites"]] == ["Harbour"]
    assert answer["common"]["cartons_opened"] == 3
    refused = ask(manager, site=str(dock.site("Hill").pk), **YEAR)
    assert (refused.status_code, refused.json()["code"]) == (403, "NOT-YOURS")


def test_one_site_may_be_asked_for(dock, person, ask):
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 3, 0))
    dock.delivery("Abalone Bay", "Hill", ("HLSO raw", 20, 0, 4, 0))
    answer = ask(person(OPERATIONS), site=str(dock.site("Hill").pk), **YEAR)
    assert row_of(answer, "Abalone Bay")["cartons_opened"] == 4


@pytest.mark.parametrize(("site", "code"), [("no-such-site", "FIELDS"), (str(UUID(int=0)), "NOT-YOURS")])
def test_a_site_that_is_none_is_refused(dock, person, ask, site, code):
    assert ask(person(OPERATIONS), site=site).json()["code"] == code


def test_queries_do_not_grow_with_deliveries(dock, person, ask, django_assert_max_num_queries):
    boss = person(OPERATIONS)
    for month in range(1, 13):
        for supplier in WORKED:
            for site in ("Harbour", "Hill", "Quay"):
                when = datetime(2026, month, 3, 6, 0, tzinfo=UTC)
                dock.delivery(supplier, site, ("HLSO raw", 20, 1, 3, 1), ("PUD raw", 12, 0, 2, 0), arrived_at=when)
    ask(boss, **YEAR)
    # six of the comparison itself, two of the session and the person
    with django_assert_max_num_queries(10):
        answer = ask(None, **YEAR)
    assert answer.json()["common"]["cartons_opened"] == 12 * 3 * 3 * 5


def test_nothing_delivered_is_an_empty_comparison(dock, person, ask):
    dock.site("Harbour")
    answer = ask(person(OPERATIONS), **YEAR).json()
    assert answer["rows"] == []
    assert answer["common"]["rate"] is None
    assert Site.objects.count() == len(answer["sites"]) == 1
