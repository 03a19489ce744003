"""What the goods went through: against published examples, NumPy, and stretches reckoned by hand."""

import json
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import trapezoid
from scipy.interpolate import PchipInterpolator, interp1d

from inspections.trade import exposure, journey
from inspections.trade.exposure import (
    Course,
    Logged,
    excursions,
    gap_minutes,
    life_used_of,
    mean_kinetic_c,
    mean_kinetic_of,
    minutes_above,
    stretches,
    usual_interval_s,
)
from inspections.trade.journey import (
    Goods,
    Journey,
    between,
    explain_log,
    figures_of,
    gaps_of,
    journey_of,
    life_product,
    log_limits,
    need_clock,
)
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.logger_plot import PARTS, drawn_points, scale_of, ticks_of
from inspections.trade.logger_reading import reading_of
from inspections.trade.logger_words import WORDS_OF_A_LOG, minutes_words
from inspections.trade.loggers import LoggerFile, read_logger
from inspections.trade.quantities import UnusableReading

SYDNEY = ZoneInfo("Australia/Sydney")
LIMITS = log_limits(DEFAULT_LIMITS["limits"])
GOODS = [Goods("shell_on_cooked", "Whiteleg 16/20", False)]
ARRIVED = datetime(2026, 11, 25, 6, 10, tzinfo=SYDNEY).timestamp()
#: Ten minutes apart, from 20 hours before arrival.
STEADY = [Logged(ARRIVED - 72_000.0 + 600.0 * i, -20.0) for i in range(121)]
logs = st.lists(st.tuples(st.integers(1, 9000), st.integers(-400, 150)), min_size=2, max_size=40).map(
    lambda rows: [
        Logged(float(at_s), tenths / 10.0)
        for at_s, (_, tenths) in zip(np.cumsum([step for step, _ in rows]), rows, strict=True)
    ]
)


def file_of(logged, **changed) -> LoggerFile:
    return LoggerFile(tuple(logged), (), **{"unit": "C", "has_zone": True, "was_sorted": True, **changed})


def read(logged, left_s: float | None = None, **changed) -> dict:
    return reading_of(file_of(logged, **changed), Journey(ARRIVED, left_s), LIMITS, GOODS, SYDNEY)


def codes(reading: dict) -> list[str]:
    return [remark["code"] for remark in reading["remarks"]]


# ---- mean kinetic temperature -----------------------------------------------------------------------------
def by_numpy(celsius, weights) -> float:
    """The formula of check-values 5.4 with NumPy's exponentials, dH and R as the pharmacopoeial convention has them."""
    kelvin, ratio = np.asarray(celsius, float) + 273.15, 83.144e3 / 8.3144
    return ratio / -np.log(np.average(np.exp(-ratio / kelvin), weights=weights)) - 273.15


PUBLISHED = [
    # check-values 5.4, "computed" there from the formula beside it; dH/R = 10 000 K "from memory".
    pytest.param([-18.0] * 5, [1] * 5, -18.000, id="CV-5-70"),
    pytest.param([-20.0, -19.0, -18.0, -16.0, -12.0, -18.0], [1] * 6, -16.620, id="CV-5-71"),
    pytest.param([-18.0, -8.0], [22, 2], -16.372, id="CV-5-72"),
    pytest.param([-20.0, -5.0], [47.5, 0.5], -19.479, id="CV-5-73"),
    pytest.param([15.0, 25.0, 27.0, 29.0, 30.0], [1] * 5, 26.418, id="CV-5-74"),
]


@pytest.mark.parametrize(("celsius", "weights", "printed"), PUBLISHED)
def test_mean_kinetic_temperature_as_printed_and_by_numpy(celsius, weights, printed):
    found = mean_kinetic_c(celsius, weights)
    assert found == pytest.approx(printed, abs=0.0005)
    assert found == pytest.approx(by_numpy(celsius, weights), abs=1e-9)


def test_the_gas_constant_of_today_changes_no_printed_digit__CV_5_75():
    ratio = 83.144e3 / 8.314462618
    celsius = np.array([-20.0, -19.0, -18.0, -16.0, -12.0, -18.0]) + 273.15
    assert ratio / -np.log(np.mean(np.exp(-ratio / celsius))) - 273.15 == pytest.approx(-16.620, abs=0.0005)


@given(logs)
def test_of_a_log_it_is_the_integral_of_the_rates(logged):
    kept = [each for each in logged if not gaps_of(logged)]
    if len(kept) > 1:
        at_s, celsius = np.array([(each.at_s, each.celsius) for each in kept]).T
        rates = np.exp(-1e4 / (celsius + 273.15))
        mean = trapezoid(rates, at_s) / (at_s[-1] - at_s[0])
        assert mean_kinetic_of(kept) == pytest.approx(1e4 / -np.log(mean) - 273.15, abs=1e-9)


@given(logs)
def test_it_lies_between_coldest_and_warmest(logged):
    found = figures_of(logged, LIMITS, ["shell_on_cooked"])
    assert found["coldest_c"] - 1e-9 <= found["mean_kinetic_c"] <= found["warmest_c"] + 1e-9


# ---- minutes and stretches --------------------------------------------------------------------------------
@given(logs)
def test_a_lower_limit_is_never_passed_for_a_shorter_time(logged):
    minutes = [one["minutes"] for one in figures_of(logged, LIMITS, ["shell_on_cooked"])["limits"]]
    assert [one.limit_c for one in LIMITS] == [-18.0, -15.0, -12.0]
    assert minutes == sorted(minutes, reverse=True)


@given(logs)
def test_the_stretches_add_up_to_the_minutes(logged):
    for one in figures_of(logged, LIMITS, ["shell_on_cooked"])["limits"]:
        assert sum(each["minutes"] for each in one["excursions"]) == pytest.approx(one["minutes"], abs=1e-6)
        assert len(one["excursions"]) == one["count"]
        assert all(each["warmest_c"] > one["limit_c"] for each in one["excursions"])


def test_two_stretches_by_hand():
    # Up over -15 °C half way from -20 to -10, down again likewise: 5 + 10 + 5 min; then a single reading: 5 + 5 min.
    celsius = [-20, -10, -10, -20, -20, -10, -20]
    logged = [Logged(600.0 * i, float(c)) for i, c in enumerate(celsius)]
    at_15 = figures_of(logged, LIMITS, ["shell_on_cooked"])["limits"][1]
    told = [(one["from_s"], one["to_s"], one["minutes"]) for one in at_15["excursions"]]
    assert told == [(300.0, 1500.0, 20.0), (2700.0, 3300.0, 10.0)]
    assert at_15["minutes"] == 30.0


@given(logs, st.integers(-30, 0))
def test_minutes_by_a_fine_grid_of_scipy(logged, limit):
    if gaps_of(logged):
        return
    at_s, celsius = np.array([(each.at_s, each.celsius) for each in logged]).T
    grid = np.linspace(at_s[0], at_s[-1], 20_001)
    share = np.mean(interp1d(at_s, celsius)(grid) > limit + 0.05)
    found = figures_of(logged, log_limits([]), ["shell_on_cooked"])
    total = (at_s[-1] - at_s[0]) / 60.0
    assert found["minutes"] == pytest.approx(total)
    assert minutes_above(logged, limit + 0.05) == pytest.approx(share * total, abs=total * 0.01)


def test_life_used_against_scipy_s_interpolation():
    # CV-5-80 (IIR 1986, from memory): 4, 6 and 12 months; ln(life) straight in °C, days / (30.4375 x life).
    celsius = np.array([-23.0, -20.0, -17.5, -13.0])
    months = np.exp(interp1d([-24.0, -18.0, -12.0], np.log([12.0, 6.0, 4.0]))((celsius[1:] + celsius[:-1]) / 2))
    logged = [Logged(86_400.0 * i, c) for i, c in enumerate(celsius)]
    found = figures_of(logged, LIMITS, ["shell_on_cooked"])["life"][0]
    assert found["share"] == pytest.approx(np.sum(1.0 / (30.4375 * months)), rel=1e-12)
    assert found["days_at_18"] == pytest.approx(found["share"] * 6.0 * 30.4375)


# ---- what is counted --------------------------------------------------------------------------------------
def test_readings_before_leaving_and_after_arrival_do_not_count():
    warm = [Logged(ARRIVED - 80_000.0 + 600.0 * i, 20.0) for i in range(13)]
    after = [Logged(ARRIVED + 600.0 * i, 15.0) for i in range(1, 7)]
    whole = read([*warm, *STEADY, *after], left_s=ARRIVED - 72_000.0)
    assert whole["counted"]["warmest_c"] == -20.0
    assert [one["minutes"] for one in whole["counted"]["limits"]] == [0.0, 0.0, 0.0]
    assert {"before_leaving", "after_arrival"} <= set(codes(whole))
    assert [mark["kind"] for mark in whole["plot"]["marks"]] == ["left", "arrived"]
    assert whole["plot"]["is_cut"]


@given(logs, st.floats(0, 1), st.floats(0, 1))
def test_what_is_cut_out_starts_and_ends_where_it_was_cut(logged, one, other):
    first, last = logged[0].at_s, logged[-1].at_s
    from_s, to_s = sorted(first + share * (last - first) for share in (one, other))
    kept = between(logged, from_s, to_s)
    assert all(from_s <= each.at_s <= to_s for each in kept)
    assert kept == sorted(kept, key=lambda each: each.at_s)
    if kept:
        assert max(each.celsius for each in kept) <= max(each.celsius for each in logged)


def test_a_cut_agrees_with_a_line_drawn_by_scipy():
    logged = [Logged(0.0, -20.0), Logged(600.0, -10.0), Logged(1200.0, -16.0)]
    line = interp1d([0.0, 600.0, 1200.0], [-20.0, -10.0, -16.0])
    assert [(each.at_s, each.celsius) for each in between(logged, 150.0, 1000.0)] == [
        (150.0, pytest.approx(float(line(150.0)))), (600.0, -10.0), (1000.0, pytest.approx(float(line(1000.0)))),
    ]  # fmt: skip
    # Not the curve through the points: nothing is drawn that was not read.
    assert float(PchipInterpolator([0.0, 600.0, 1200.0], [-20.0, -10.0, -16.0])(150.0)) != pytest.approx(-17.5)


def test_a_clock_without_zone_must_be_told():
    log = read_logger("Time;Temp °C\n2026-11-25 06:00;-18\n")
    with pytest.raises(UnusableReading) as refused:
        need_clock(log, None)
    assert refused.value.code == "LOG-07"
    assert need_clock(log, 660).readings[0].at_s == datetime(2026, 11, 24, 19, tzinfo=UTC).timestamp()


# ---- what is said -----------------------------------------------------------------------------------------
def test_a_sound_file_that_covers_the_way_gives_no_remark():
    swaying = [Logged(each.at_s, each.celsius + 0.1 * (i % 3)) for i, each in enumerate(STEADY)]
    assert codes(read(swaying, left_s=ARRIVED - 72_000.0)) == []


GAPPED = [each for i, each in enumerate(STEADY) if not 40 < i < 50]
JUMPING = [Logged(each.at_s, -2.0 if i == 60 else -20.0) for i, each in enumerate(STEADY)]
FROZEN_SENSOR = [Logged(each.at_s, -85.0) for each in STEADY]
SAID = [
    pytest.param(STEADY, None, {}, ["start_unknown"], id="nobody told when the goods left"),
    pytest.param(STEADY[:80], ARRIVED - 72_000.0, {}, ["ends_early"], id="ends before arrival"),
    pytest.param(STEADY[30:], ARRIVED - 72_000.0, {}, ["starts_late"], id="begins after leaving"),
    pytest.param(GAPPED, ARRIVED - 72_000.0, {}, ["one_gap"], id="gap"),
    pytest.param(GAPPED[:60] + GAPPED[70:], ARRIVED - 72_000.0, {}, ["gaps"], id="gaps"),
    pytest.param(JUMPING, ARRIVED - 72_000.0, {}, ["jumps"], id="jump"),
    pytest.param(FROZEN_SENSOR, ARRIVED - 72_000.0, {}, ["unlikely", "alike"], id="cold"),
    pytest.param(STEADY[::12], ARRIVED - 72_000.0, {}, ["sparse"], id="sparse"),
    pytest.param(STEADY, ARRIVED - 72_000.0, {"was_sorted": False}, ["unsorted"], id="unsorted"),
    pytest.param(STEADY, ARRIVED - 72_000.0, {"unit": "mixed"}, ["mixed_units"], id="two units"),
    pytest.param(STEADY, ARRIVED - 72_000.0, {"other_columns": ("Probe 2",)}, ["other_columns"], id="columns"),
    pytest.param([Logged(each.at_s + 1e6, -20.0) for each in STEADY], None, {}, ["outside"], id="after arrival"),
]


@pytest.mark.parametrize(("logged", "left_s", "changed", "expected"), SAID)
def test_what_is_odd_is_said(logged, left_s, changed, expected):
    logged = [Logged(each.at_s, each.celsius + (i % 2) * 0.1 * (each.celsius > -80)) for i, each in enumerate(logged)]
    reading = read(logged, left_s, **changed)
    assert codes(reading) == expected
    assert all("{" not in remark["text"] for remark in reading["remarks"])


def test_a_stuck_sensor_is_said():
    assert codes(read(STEADY[:100] + [Logged(ARRIVED, -20.0)], left_s=ARRIVED - 72_000.0))[-1] == "alike"


def test_of_rows_left_out_number_share_and_sentence_are_told():
    text = "Time;Temp °C\n" + "".join(f"2026-11-24T{h:02}:00Z;{'x' if h == 5 else '-20'}\n" for h in range(20))
    reading = reading_of(read_logger(text), Journey(ARRIVED), LIMITS, GOODS, SYDNEY)
    assert "1 row of the file could not be read and are left out (5.0 %)." in [r["text"] for r in reading["remarks"]]
    assert reading["file"]["unread_rows"] == [
        {"line": 7, "code": "LOG-14", "text": "Row left out: “x” is not a temperature. The other rows are kept. "
         "Look at the row in the file."},
    ]  # fmt: skip


def test_every_word_of_a_log_is_used():
    code = "".join(file.read_text("utf-8") for file in Path(journey.__file__).parent.glob("*.py"))
    built = ("limit_", "row_", "mark_")
    assert [key for key in WORDS_OF_A_LOG if f'"{key}"' not in code and not key.startswith(built)] == []


def test_the_summary_tells_what_the_plot_shows():
    warm = [Logged(each.at_s, -9.0 if 30 <= i < 36 else -20.0) for i, each in enumerate(STEADY)]
    reading = read(warm, left_s=ARRIVED - 72_000.0)
    assert reading["summary"] == (
        "From Tue 24 Nov 2026, 10:10 to Wed 25 Nov 2026, 06:10 the logger read -20.0 °C to -9.0 °C. "
        "Warmer than -18.0 °C for 66 minutes, in 1 stretch. Warmer than -15.0 °C for 61 minutes, in 1 stretch. "
        "Warmer than -12.0 °C for 55 minutes, in 1 stretch."
    )
    assert [one["text"] for one in reading["plot"]["shaded"]] == ["61 minutes, to -9.0 °C"]
    json.dumps(reading, allow_nan=False)


def test_activation_energy_and_sources_are_stated():
    told = explain_log()
    assert "dH = 83.144 kJ/mol and R = 8.3144 J/(mol K)" in told["mean_kinetic"]
    assert (told["mean_kinetic_basis"]["known"], told["life_basis"]["known"]) == ("from_memory", "from_memory")
    assert "orders of magnitude" in told["caution"]


def test_the_house_s_own_limits_stand_beside_the_published_ones():
    limits = DEFAULT_LIMITS["limits"]
    changed = [{**one, "bound": -20.0} if one["code"] == "product_c.within" else one for one in limits]
    told = [(one.limit_c, one.names) for one in log_limits(changed)]
    assert told[:2] == [(-20.0, ("house: within",)), (-18.0, ("quick-frozen",))]


@pytest.mark.parametrize(
    ("presentation", "row"), [("HLSO", "shell_on_cooked"), ("HOSO", "shell_on_cooked"), ("PUD", "peeled_cooked"),
                              ("PTO", "peeled_cooked"), ("", "peeled_cooked")],
)  # fmt: skip
def test_each_presentation_has_its_nearest_row(presentation, row):
    assert life_product(presentation) == row


@given(st.floats(0, 5e6))
def test_a_length_of_time_is_said_without_a_zero_part(minutes):
    assert " 0 " not in f" {minutes_words(minutes)} "


# ---- what is drawn ----------------------------------------------------------------------------------------
@given(st.lists(st.integers(-400, 200), min_size=1, max_size=900))
def test_thinning_keeps_peak_trough_and_ends(tenths):
    logged = [Logged(300.0 * i, value / 10.0) for i, value in enumerate(tenths)]
    (points,) = drawn_points(logged)
    assert (min(c for _, c in points), max(c for _, c in points)) == (min(tenths) / 10.0, max(tenths) / 10.0)
    assert (points[0][0], points[-1][0]) == (logged[0].at_s, logged[-1].at_s)
    assert len(points) <= 2 * (PARTS + 1) + 2
    assert {tuple(point) for point in points} <= {(each.at_s, each.celsius) for each in logged}


@given(logs)
def test_no_line_is_drawn_over_a_gap(logged):
    stretches = drawn_points(logged)
    assert len(stretches) == len(gaps_of(logged)) + 1
    assert sum(len(stretch) for stretch in stretches) <= 2 * (PARTS + 1) + 2 * len(stretches)


@pytest.mark.parametrize("hours", [0.5, 5, 20, 47, 24 * 7, 24 * 40, 24 * 365 * 50])
@pytest.mark.parametrize("zone", ["Australia/Sydney", "Europe/Lisbon", "Asia/Kolkata", "America/Chicago"])
def test_the_axis_has_few_ticks_on_whole_hours_of_the_site(hours, zone):
    there = ZoneInfo(zone)
    ticks = ticks_of(ARRIVED - hours * 3600.0, ARRIVED, there)
    assert (0 if hours < 1 else 2) <= len(ticks) <= 10
    for tick in ticks:
        at = datetime.fromtimestamp(tick["at_s"], there)
        assert (f"{at:%H:%M}", at.minute) == (tick["text"], 0)


def test_the_axis_holds_when_the_clock_is_changed():
    there = ZoneInfo("Europe/Lisbon")
    from_s = datetime(2026, 10, 24, 18, tzinfo=there).timestamp()
    ticks = ticks_of(from_s, from_s + 17 * 3600.0, there)
    assert [datetime.fromtimestamp(tick["at_s"], there).hour for tick in ticks] == [18, 20, 22, 0, 2, 4, 6, 8, 10]


@given(st.lists(st.floats(-90, 60), min_size=1, max_size=5))
def test_the_scale_holds_all_values_in_few_round_steps(values):
    scale = scale_of(values)
    assert scale["from"] <= min(values) <= max(values) <= scale["to"]
    assert 1 <= (scale["to"] - scale["from"]) / scale["step"] <= 8


@given(logs, st.none() | st.integers(-100_000, 400_000), st.integers(-10_000, 400_000))
def test_any_log_and_journey_give_a_whole_reading(logged, left, arrived):
    left_s = None if left is None or left >= arrived else float(left)
    reading = reading_of(file_of(logged), Journey(float(arrived), left_s), LIMITS, GOODS, SYDNEY)
    json.dumps(reading, allow_nan=False)
    assert (reading["counted"] is None) == (len(journey_of(file_of(logged), Journey(float(arrived), left_s))) < 2)


# ---- long files ---------------------------------------------------------------------------------------------
@given(logs, st.floats(-40.0, 15.0))
def test_a_course_answers_as_the_plain_readings_do(logged, limit_c):
    course = Course(logged)
    assert course == tuple(logged)
    assert usual_interval_s(course) == usual_interval_s(logged)
    for factor in (exposure.GAP_FACTOR, 1.0):
        assert stretches(course, factor) == stretches(logged, factor)
        assert gap_minutes(course, factor) == gap_minutes(logged, factor)
    assert minutes_above(course, limit_c) == minutes_above(logged, limit_c)
    assert excursions(course, limit_c) == excursions(logged, limit_c)
    assert mean_kinetic_of(course) == mean_kinetic_of(logged)
    assert life_used_of(course, "shell_on_cooked") == life_used_of(logged, "shell_on_cooked")


@given(logs, st.floats(-100.0, 400_000.0), st.floats(-100.0, 400_000.0))
def test_a_part_of_a_log_is_found_as_by_looking_at_every_reading(logged, one, other):
    from_s, to_s = min(one, other), max(one, other)
    kept = [each for each in logged if from_s <= each.at_s <= to_s]
    for before, after in stretches(logged):
        for at_s in (from_s, to_s):
            if before.at_s < at_s < after.at_s:
                share = (at_s - before.at_s) / (after.at_s - before.at_s)
                kept.append(Logged(at_s, before.celsius + (after.celsius - before.celsius) * share))
    assert between(logged, from_s, to_s) == sorted(kept, key=lambda each: each.at_s)


def test_the_intervals_of_a_long_file_are_put_in_order_once_and_not_for_every_question(monkeypatch):
    """Once for the whole file and once for the part on the way."""
    asked = []
    plain = exposure._usual_s
    monkeypatch.setattr(exposure, "_usual_s", lambda logged: asked.append(len(logged)) or plain(logged))
    rows = "".join(f"{datetime.fromtimestamp(one.at_s, UTC):%Y-%m-%d %H:%M:%S}Z;{one.celsius}\n" for one in STEADY)
    log = read_logger("Time;Temp °C\n" + rows)
    reading_of(log, Journey(ARRIVED, ARRIVED - 36_000.0), LIMITS, GOODS, SYDNEY)
    assert asked == [121, 61]
