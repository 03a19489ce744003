"""Data-logger files as loggers write them, with bad rows listed and the rest kept."""

from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.exposure import Logged
from inspections.trade.logger_times import read_time
from inspections.trade.loggers import LoggerFile, read_logger
from inspections.trade.quantities import Unusable, UnusableReading

from .calls import attempt

PLAIN = "Time,Temp (°C)\n2026-11-24 06:00,-18.5\n2026-11-24 06:10,-17.9\n"


@pytest.mark.parametrize(
    "text",
    [
        PLAIN,
        "Datum;Zeit;Temperatur °C\r\n24.11.2026;06:00:00;-18,5\r\n24.11.2026;06:10:00;-17,9\r\n",
        "timestamp\ttemperature\tunit\n2026-11-24T06:00:00\t-18,5\tC\n2026-11-24T06:10:00\t-17,9\tC\n",
        '\ufeffLogger no. 12\nTrip, 4\n\nDate/Time,Temperature [C]\n2026/11/24 06:00,"-18,5"\n2026/11/24 06:10,-17.9\n',
        "Time,Temp\n2026-11-24 06:00,-18.5 °C\n2026-11-24 06:10,-17.9 C\n",
    ],
    ids=["comma", "semicolon", "tab", "preamble", "unit in the row"],
)
def test_the_usual_forms_give_the_same_readings(text):
    found = read_logger(text)
    assert [each.celsius for each in found.readings] == [-18.5, -17.9]
    assert found.readings[1].at_s - found.readings[0].at_s == 600.0
    assert (found.unread, found.unit, found.has_zone, found.was_sorted) == ((), "C", False, True)


def test_fahrenheit_is_turned_to_celsius():
    found = read_logger("Time,Temperature °F\n2026-11-24 06:00,-0.4\n2026-11-24 06:10,5\n")
    assert [each.celsius for each in found.readings] == [-18.0, -15.0]
    assert found.unit == "F"


def test_the_caller_may_tell_the_unit_and_must_where_nothing_does():
    text = "Time,Temp\n2026-11-24 06:00,-0.4\n"
    assert read_logger(text, unit="F").readings[0].celsius == -18.0
    with pytest.raises(UnusableReading) as refused:
        read_logger(text)
    assert refused.value.code == "LOG-04"


def test_a_zone_is_kept_and_a_missing_one_is_said():
    zoned = read_logger("Time,Temp C\n2026-11-24T06:00:00+11:00,-18\n2026-11-24T06:10:00+11:00,-18\n")
    assert zoned.has_zone
    assert zoned.readings[0].at_s == datetime(2026, 11, 23, 19, tzinfo=timezone.utc).timestamp()  # noqa: UP017
    told = read_logger("Time,Temp C\n2026-11-24 06:00,-18\n", zone_minutes=660)
    assert told.has_zone
    assert told.readings[0].at_s == zoned.readings[0].at_s
    assert read_logger("Time (UTC),Temp C\n2026-11-23 19:00,-18\n").readings[0].at_s == zoned.readings[0].at_s


def test_bad_rows_are_listed_with_their_line_and_the_rest_is_kept():
    text = (
        "Time,Temp C\n2026-11-24T06:00Z,-18\nyesterday,-18\n2026-11-24T06:10Z,cold\n2026-11-24T06:20Z\n"
        "2026-11-24T06:30,-18\n2026-11-24T06:00Z,-17\n2026-02-30T06:00Z,-18\n2026-11-24T06:40Z,-95\n2026-11-24T06:50Z,-18,5\n2026-11-24T07:00Z,-16\n"
    )
    found = read_logger(text)
    assert [each.celsius for each in found.readings] == [-18.0, -16.0]
    assert [(row.line, row.code) for row in found.unread] == [
        (3, "LOG-12"),
        (4, "LOG-14"),
        (5, "LOG-11"),
        (6, "LOG-13"),
        (7, "LOG-15"),
        (8, "LOG-12"),
        (9, "TEMP-01"),
        (10, "LOG-11"),
    ]


def test_a_file_that_runs_backwards_is_put_in_order():
    found = read_logger("Time,Temp C\n2026-11-24 06:10,-17\n2026-11-24 06:00,-18\n")
    assert [each.celsius for each in found.readings] == [-18.0, -17.0]
    assert not found.was_sorted


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "LOG-01"),
        (" \n\n", "LOG-01"),
        ("a,b\n1,2\n", "LOG-02"),
        ("Time,Humidity\n2026-11-24 06:00,50\n", "LOG-03"),
        ("Time,Temp C\n", "LOG-06"),
        ("Time,Temp C\nx,y\n", "LOG-06"),
        ("Time,Temp C\n" + "x\n" * 200_001, "LOG-05"),
    ],
)
def test_a_file_without_readings_is_refused(text, code):
    with pytest.raises(UnusableReading) as refused:
        read_logger(text)
    assert refused.value.code == code


@pytest.mark.parametrize(
    "text", ["03/04/2026 06:00", "2026-13-01 06:00", "2026-11-24 25:00", "2026-11-24", "٢٠٢٦-11-24 06:00", ""]
)
def test_a_time_is_never_guessed(text):
    with pytest.raises(UnusableReading) as refused:
        read_time(text)
    assert refused.value.code == "LOG-12"


@given(st.datetimes(datetime(1970, 1, 2), datetime(2200, 1, 1)), st.integers(-720, 720))
def test_iso_times_read_as_the_standard_library_reads_them(moment, offset):
    zoned = moment.replace(microsecond=0, tzinfo=timezone(timedelta(minutes=offset)))
    assert read_time(zoned.isoformat()) == (zoned.timestamp(), True)
    assert read_time(zoned.isoformat(" "))[0] == zoned.timestamp()


@given(st.lists(st.integers(-900, 300), min_size=1, max_size=40))
def test_what_is_written_is_read(tenths):
    rows = [
        f"2026-11-24T{i // 60:02d}:{i % 60:02d}:00Z;{value / 10:.1f}".replace(".", ",")
        for i, value in enumerate(tenths)
    ]
    found = read_logger("Time;Temp °C\n" + "\n".join(rows))
    assert [each.celsius for each in found.readings] == [value / 10 for value in tenths]


@given(
    st.text(max_size=300)
    | st.text(alphabet='Time,;\t\n"°CF0123456789-:.+Z tempda', max_size=300).map(lambda tail: PLAIN + tail)
)
def test_nothing_but_the_documented_error_comes_out(text):
    found = attempt(read_logger, text)
    assert isinstance(found, (Unusable, LoggerFile))
    if isinstance(found, LoggerFile):
        assert found.readings
        assert all(isinstance(each, Logged) for each in found.readings)
