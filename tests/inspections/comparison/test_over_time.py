"""What the comparison says of luck, and of a supplier over time, as the desk asks for it."""
from datetime import UTC, datetime, timedelta

import pytest

from inspections.comparison import case_mix, control_charts
from inspections.people.models import Role

YEAR = {"from_": "2026-01-01", "to": "2026-12-31"}
OPERATIONS = Role.GROUP_OPERATIONS
WHEN = datetime(2026, 1, 15, 6, 0, tzinfo=UTC)


def months(dock, supplier, *bad, opened=20, site="Harbour"):
    """One delivery a month, from January."""
    for month, defective in enumerate(bad, 1):
        dock.delivery(supplier, site, ("HLSO raw", 100, 0, opened, defective), arrived_at=WHEN.replace(month=month))


def row_of(answer, name):
    return next(row for row in answer.json()["rows"] if row["supplier"]["name"] == name)


def test_a_supplier_far_out_is_more_than_luck_and_the_others_are_within(dock, person, ask):
    for name in ("Abalone Bay", "Bright Cove", "Cold Strand"):
        months(dock, name, *[1] * 12)
    months(dock, "Dark Reef", *[4] * 12)
    answer = ask(person(OPERATIONS), **YEAR)
    far = row_of(answer, "Dark Reef")["luck"]
    assert (far["says"], far["compared"]) == ("more", 4)
    assert far["one_in"] > 1000
    assert row_of(answer, "Dark Reef")["defective"] == 48
    assert row_of(answer, "Dark Reef")["expected"] == pytest.approx(240 * 36 / 720)
    assert row_of(answer, "Dark Reef")["ratio"] == pytest.approx(4.0)
    for name in ("Abalone Bay", "Bright Cove", "Cold Strand"):
        # 12 found where 21 were expected, three times over: held together, that is fewer than luck explains
        assert row_of(answer, name)["luck"]["says"] in ("within", "fewer")
        assert (row_of(answer, name)["luck"]["among"] > 0.05) == (row_of(answer, name)["luck"]["says"] == "within")


def test_few_cartons_get_no_word_of_luck(dock, person, ask):
    months(dock, "Abalone Bay", *[1] * 12)
    months(dock, "Bright Cove", 2, 2)
    assert row_of(ask(person(OPERATIONS), **YEAR), "Bright Cove")["luck"] is None


def test_deliveries_all_bad_or_all_sound_widen_what_luck_explains(dock, person, ask):
    """The same totals: spread evenly they stand out, in whole bad deliveries they need not."""
    months(dock, "Abalone Bay", *[1] * 12)
    months(dock, "Bright Cove", *[0, 0, 0, 0, 0, 0, 20, 0, 0, 0, 0, 12])
    found = row_of(ask(person(OPERATIONS), **YEAR), "Bright Cove")["luck"]
    assert found["design_effect"] > 3
    assert found["says"] == "within"


def test_months_are_charted_with_their_limits(dock, person, ask):
    months(dock, "Abalone Bay", 2, 1, 2, 1, 2, 1, 2, 14, opened=60)
    drawn = row_of(ask(person(OPERATIONS), **YEAR), "Abalone Bay")["over_time"]
    assert drawn["by"] == "month"
    assert [point["from"] for point in drawn["points"]] == [f"2026-0{month}-01" for month in range(1, 9)]
    assert drawn["centre"] == pytest.approx(25 / 480)
    assert [point["is_out"] for point in drawn["points"]] == [False] * 7 + [True]
    expected = control_charts.chart([case_mix.Tally(60, bad) for bad in (2, 1, 2, 1, 2, 1, 2, 14)])
    assert [point["high"] for point in drawn["points"]] == [point.high for point in expected.points]


def test_few_points_are_drawn_without_limits(dock, person, ask):
    months(dock, "Abalone Bay", 2, 1, 2)
    drawn = row_of(ask(person(OPERATIONS), **YEAR), "Abalone Bay")["over_time"]
    assert (drawn["centre"], drawn["needed"]) == (None, 5)
    assert [(point["defective"], point["high"], point["is_out"]) for point in drawn["points"]] == [
        (2, None, False), (1, None, False), (2, None, False)]


def test_a_short_period_is_charted_by_weeks_of_the_sites_own_clock(dock, person, ask):
    dock.site("East", "Australia/Sydney")
    monday = datetime(2026, 6, 1, 6, 0, tzinfo=UTC)
    for week in range(5):
        dock.delivery("Abalone Bay", "East", ("HLSO raw", 40, 0, 10, 1), arrived_at=monday + timedelta(weeks=week))
    # 22:00 UTC on Sunday 7 June is Monday 8 June there
    dock.delivery("Abalone Bay", "East", ("HLSO raw", 40, 0, 10, 1), arrived_at=datetime(2026, 6, 7, 22, 0, tzinfo=UTC))
    answer = ask(person(OPERATIONS), from_="2026-06-01", to="2026-07-31")
    points = row_of(answer, "Abalone Bay")["over_time"]["points"]
    assert [(point["from"], point["opened"]) for point in points][:2] == [("2026-06-01", 10), ("2026-06-08", 20)]


def test_the_difference_to_the_others_has_its_interval(dock, person, ask):
    """CV-9-16 (Newcombe's second example, computed): 9 of 60 beside 3 of 80."""
    for bad in (2, 2, 2, 1, 1, 1):
        dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 40, 0, 10, bad))
    for bad in (1, 1, 1, 0):
        dock.delivery("Bright Cove", "Harbour", ("HLSO raw", 40, 0, 20, bad))
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 40, 0, 0, 0))
    answer = ask(person(OPERATIONS), **YEAR)
    found = row_of(answer, "Abalone Bay")["difference"]
    assert [found[name] for name in ("share", "low", "high")] == pytest.approx([0.1125, 0.0163, 0.2263], abs=5e-5)
    dock.delivery("Cold Strand", "Harbour", ("HLSO raw", 40, 0, 0, 0))
    assert row_of(ask(None, **YEAR), "Cold Strand")["difference"] is None


def test_a_shift_that_no_week_shows_is_told_with_its_moment(dock, person, ask):
    """0 of 54 over ten weeks, then 1 of 3 and 3 of 6, told by the page that the desk asks for."""
    monday = datetime(2026, 3, 2, 6, 0, tzinfo=UTC)
    clean = [(opened, 0) for opened in (6, 5, 5, 6, 5, 6, 5, 5, 6, 5)]
    for week, (opened, bad) in enumerate([*clean, (3, 1), (6, 3)]):
        when = monday + timedelta(weeks=week)
        dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 40, 0, opened, bad), arrived_at=when)
    drawn = row_of(ask(person(OPERATIONS), from_="2026-03-01", to="2026-06-30"), "Abalone Bay")["over_time"]
    assert not any(point["is_out"] for point in drawn["points"])
    assert drawn["shift"]["from"] == "2026-05-11"
    before, since = drawn["shift"]["before"], drawn["shift"]["since"]
    assert (before["defective"], before["opened"], since["defective"], since["opened"]) == (0, 54, 4, 9)
    assert drawn["shift"]["one_in"] == 210


def test_the_whole_group_has_its_own_chart(dock, person, ask):
    months(dock, "Abalone Bay", 1, 1, 1, 1, 1, 6, opened=40)
    months(dock, "Bright Cove", 1, 1, 1, 1, 1, 7, opened=40)
    drawn = ask(person(OPERATIONS), **YEAR).json()["over_time"]
    assert [point["defective"] for point in drawn["points"]] == [2, 2, 2, 2, 2, 13]
    assert drawn["points"][-1]["is_out"]


def test_deliveries_that_were_all_refused_are_told_though_few_were_opened(dock, person, ask):
    for day, refused in enumerate([0, 20, 20, 14], 1):
        total = 14 if refused == 14 else 20
        dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", total, refused, 2, 0), arrived_at=WHEN.replace(day=day))
    row = row_of(ask(person(OPERATIONS), **YEAR), "Abalone Bay")
    assert row["too_few"]
    assert row["refused_run"] == {"deliveries": 3, "cartons": 54, "since": "2026-01-02T06:00:00+00:00"}
    dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 0, 2, 0), arrived_at=WHEN.replace(day=9))
    assert row_of(ask(None, **YEAR), "Abalone Bay")["refused_run"] is None
