"""Freezer air, thermometers, and what a log says about exposure (product readings: test_probing)."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.exposure import (
    LIFE,
    Logged,
    excursions,
    gap_minutes,
    life_used,
    life_used_of,
    mean_kinetic_c,
    mean_kinetic_of,
    minutes_above,
    storage_life_months,
)
from inspections.trade.freezer import judge_freezer
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.quantities import UnusableReading
from inspections.trade.thermometer import judge_ice_point, thermometer_on
from tests.published import published

from .printed import agrees, table

WORKED = [[-12.0, 4.0], [-18.0, 6.0], [-24.0, 12.0]]


@published("CV-5-22", source="common practice, no source", known="common practice")
def test_freezer_air_holds_the_house_limit__CV_5_22():
    limits = limits_from_json(DEFAULT_LIMITS)
    assert [judge_freezer(c, limits)["state"] for c in (-20.0, -19.9)] == ["cold", "near"]


@published("CV-5-56", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(
    ("reading", "allowed", "kind"),
    [(1.0, 1.0, "within"), (-1.0, 1.0, "within"), (1.1, 1.0, "beyond"), (0.6, 0.5, "beyond"), (-0.5, 0.5, "within")],
)
def test_the_ice_point_passes_within_its_limit__CV_5_56(reading, allowed, kind):
    assert judge_ice_point(reading, allowed).kind == kind


@pytest.mark.parametrize(
    ("day", "last", "reading", "due", "state"),
    [
        ("2026-11-25", "2026-11-01", 0.4, None, "passed"),
        ("2026-12-01", "2026-11-01", 0.4, None, "passed"),
        ("2026-12-02", "2026-11-01", 0.4, None, "overdue"),
        ("2026-12-02", "2026-11-01", 1.4, None, "failed"),
        ("2026-11-25", "2026-11-01", 0.0, "2026-11-25", "passed"),
        ("2026-11-26", "2026-11-01", 0.0, "2026-11-25", "overdue"),
        ("2026-11-26", None, None, "2026-11-25", "unchecked"),
    ],
)
def test_a_thermometer_stands_by_its_check_and_its_due_date(day, last, reading, due, state):
    found = thermometer_on(day, last, reading, due)
    assert found.state == state
    assert found.is_trusted is (state == "passed")


@given(st.dates(date(1, 1, 1), date(9999, 11, 1)), st.integers(0, 60))
def test_a_check_holds_thirty_days(checked, days):
    day = checked + timedelta(days=days)
    assert thermometer_on(day.isoformat(), checked.isoformat(), 0.0).state == ("passed" if days <= 30 else "overdue")


@pytest.mark.parametrize(
    ("call", "args", "code"),
    [
        (judge_ice_point, (-90.1,), "TEMP-01"),
        (judge_ice_point, (60.1,), "TEMP-02"),
        (judge_ice_point, (float("nan"),), "TEMP-02"),
        (thermometer_on, ("2026-02-30", "2026-01-01", 0.0), "DATE-01"),
        (thermometer_on, ("25.11.2026", None, None), "DATE-01"),
        (mean_kinetic_c, ([],), "EXPO-01"),
        (mean_kinetic_c, ([-18.0], [0.0]), "EXPO-01"),
        (life_used_of, ([Logged(0.0, -18.0)], "gold"), "EXPO-02"),
    ],
)
def test_what_cannot_be_is_refused_with_its_code(call, args, code):
    with pytest.raises(UnusableReading) as refused:
        call(*args)
    assert refused.value.code == code


@published("CV-5-70 to 74", source="pharmacopoeial formula of mean kinetic temperature", known="computed")
@pytest.mark.parametrize("row", table("mean_kinetic_temperature")["rows"], ids=lambda row: row["cv"])
def test_mean_kinetic_temperature_as_worked(row):
    assert agrees(mean_kinetic_c(row["celsius"], row["weights"]), row["mkt"])
    assert agrees(np.average(row["celsius"], weights=row["weights"]), row["mean"])


@published("CV-5-75", source="pharmacopoeial formula, R of 2018", known="computed")
def test_the_gas_constant_of_2018_gives_the_same_three_decimals__CV_5_75():
    """Independent check with NumPy and R = 8.314462618."""
    kelvin = np.array([-20, -19, -18, -16, -12, -18]) + 273.15
    ratio = 83_144 / 8.314462618
    assert agrees(ratio / -np.log(np.mean(np.exp(-ratio / kelvin))) - 273.15, "-16.620")


@published("CV-5-80 to 83", source="IIR Recommendations, 3rd ed. 1986", known="from memory")
@pytest.mark.parametrize("row", table("storage_life")["rows"], ids=lambda row: row["cv"])
def test_storage_life_at_the_printed_points__CV_5_80_to_83(row):
    """From memory: orders of magnitude. "More than" at the coldest point is taken as the number itself."""
    points = LIFE["products"][row["product"]]["points"]
    for celsius, months in zip((-12, -18, -24), row["months"], strict=True):
        assert storage_life_months(celsius, points) == pytest.approx(months, rel=1e-14)


@published("CV-5-86", source="IIR Recommendations, 3rd ed. 1986", known="computed")
@published("CV-5-85", source="IIR time-temperature-tolerance idea", known="from memory")
def test_storage_life_used__CV_5_86():
    assert agrees(storage_life_months(-20.0, WORKED), "7.560")
    assert agrees(life_used([[60, -20.0]], WORKED), "0.26076")
    assert agrees(life_used([[30, -18.0]], WORKED), "0.16427")
    assert agrees(life_used([[5, -12.0]], WORKED), "0.04107")
    assert agrees(life_used([[60, -20.0], [30, -18.0], [5, -12.0]], WORKED), "0.46610")
    assert storage_life_months(-40.0, WORKED) == 12.0  # no life is promised beyond the table


def test_minutes_above_run_straight_between_readings():
    log = [Logged(0, -20.0), Logged(600, -10.0), Logged(1200, -20.0), Logged(1800, -20.0)]
    assert minutes_above(log, -15.0) == 10.0
    assert minutes_above(log, -10.0) == 0.0  # touching is not warmer
    (found,) = excursions(log, -15.0)
    assert (found.from_s, found.to_s, found.warmest_c, found.minutes) == (300.0, 900.0, -10.0, 10.0)


def test_a_gap_says_nothing_and_is_counted_apart():
    log = [Logged(0, -10.0), Logged(600, -10.0), Logged(1200, -10.0), Logged(12_000, -10.0), Logged(12_600, -10.0)]
    assert gap_minutes(log) == 180.0
    assert minutes_above(log, -18.0) == 30.0
    assert [each.minutes for each in excursions(log, -18.0)] == [20.0, 10.0]


celsius = st.floats(-60, 30)
logs = st.lists(st.tuples(st.integers(1, 7200), celsius), min_size=1, max_size=30).map(
    lambda steps: [
        Logged(float(sum(step for step, _ in steps[: place + 1])), each) for place, (_, each) in enumerate(steps)
    ]
)


@published("CV-5-76", source="pharmacopoeial formula", known="computed")
@given(st.lists(celsius, min_size=1, max_size=20))
def test_mean_kinetic_temperature_is_never_below_the_mean__CV_5_76(readings):
    assert np.mean(readings) - 1e-9 <= mean_kinetic_c(readings) <= max(readings) + 1e-9


@given(celsius, st.floats(0.01, 10))
def test_warmer_keeps_less_long(cold, more):
    assert storage_life_months(cold + more, WORKED) <= storage_life_months(cold, WORKED) * (1 + 1e-12)


@given(logs, celsius)
def test_excursions_add_up_to_the_minutes_above(log, limit):
    found = excursions(log, limit)
    assert sum(each.minutes for each in found) == pytest.approx(minutes_above(log, limit), abs=1e-6)
    assert all(each.warmest_c > limit for each in found)
    span = (log[-1].at_s - log[0].at_s) / 60.0
    assert minutes_above(log, limit) <= span - gap_minutes(log) + 1e-6


@given(logs, celsius, st.floats(0, 10))
def test_a_warmer_limit_has_no_more_minutes(log, limit, more):
    assert minutes_above(log, limit + more) <= minutes_above(log, limit) + 1e-9


@given(logs.filter(lambda log: len(log) != 1))
def test_the_log_lies_between_its_coldest_and_its_warmest(log):
    value = mean_kinetic_of(log)
    assert min(each.celsius for each in log) - 1e-9 <= value <= max(each.celsius for each in log) + 1e-9


