"""The forms that loggers' programs write, and what is asked rather than guessed."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.logger_tables import decoded
from inspections.trade.logger_times import day_orders_of, offset_in, read_time
from inspections.trade.loggers import LoggerFile, read_logger, read_logger_bytes
from inspections.trade.quantities import Unusable, UnusableReading

from .calls import attempt

SIX = datetime(2026, 11, 24, 6, 0, tzinfo=UTC).timestamp()
FORMS = {
    "iso": "Time,Temp (°C)\n{0},-18.5\n{1},-17.9\n",
    "serial number, trip and alarms above": 'Serial;TL-0417;\n"Trip; 12";;\nHighest alarm;-15 °C;\n\n'
    "Index;Date/Time;Temp. [°C];\n1;{0};-18,5;\n2;{1};-17,9;\n",
    "separator line": "sep=;\nDate/Time;Temperature(℃)\n{0};-18,5\n{1};-17,9\n",
    "unit row below": "Time,Ambient temperature,Humidity\nhh:mm,°C,%RH\n{0},-18.5,50\n{1},-17.9,51\n",
    "unit above": "Temperature unit;°C\nTime;Temp\n{0};-18,5\n{1};-17,9\n",
    "unit column": "Timestamp|Temp|Temp unit\n{0}|-18.5|Celsius\n{1}|-17.9|Celsius\n",
    "one channel": "No.,Time,CH1,Unit\n1,{0},-18.5,C\n2,{1},-17.9,C\n",
    "a column in UTC and one on some clock": "Local time;UTC time;Temp °C\n2026-11-24 07:00;{0};-18,5\n"
    "2026-11-24 07:10;{1};-17,9\n",
    "one letter": "Datum Uhrzeit;T;Unit\n{0};-18,5;°C\n{1};-17,9;°C\n",
    "a lettered probe": "Time;Probe A;Unit\n{0};-18,5;C\n{1};-17,9;C\n",
    "setpoint and dew point are none": "Time,Set point °C,Dew point °C,Return air °C,Max °C\n"
    "{0},-20,-30,-18.5,1\n{1},-20,-30,-17.9,1\n",
    "summary below": "Time,Temp C\n{0},-18.5\n{1},-17.9\nAverage,-18.2\n",
    "trailing separators": "Time;Temp °C;;\n{0};-18,5;;\n{1};-17,9;;;;\n",
    "event column left off": "Time;Temp °C;Event\n{0};-18,5\n{1};-17,9;door\n",
}
STAMPS = {
    "iso": ("2026-11-24T06:00:00Z", "2026-11-24T06:10:00Z"),
    "iso, offset": ("2026-11-24T17:00:00+11:00", "2026-11-24T17:10:00+11:00"),
    "offset without colon": ("2026-11-24 17:00 +1100", "2026-11-24 17:10 +1100"),
    "UTC behind": ("24.11.2026 06:00 UTC", "24.11.2026 06:10 UTC"),
    "UTC and hours": ("24 Nov 2026 08:00:00 UTC+2", "24 Nov 2026 08:10:00 UTC+2"),
    "name of the day": ("Tue 24 November 2026 06:00 GMT", "Tue 24 November 2026 06:10 GMT"),
    "basic form": ("20261124T060000Z", "20261124T0610+0000"),
    "day without marks": ("20261124 06:00:00Z", "20261124 06:10:00Z"),
    "seconds since 1970": ("1795500000", "1795500600000"),
    "month before the day": ("Nov 24 2026 06:00:00.000 AM UTC", "Nov 24 2026 06:10:00.000 AM UTC"),
}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("stamp", STAMPS)
def test_each_form_gives_the_same_readings(form, stamp):
    found = read_logger(FORMS[form].format(*STAMPS[stamp]))
    assert [(each.at_s, each.celsius) for each in found.readings] == [(SIX, -18.5), (SIX + 600.0, -17.9)]
    assert found.has_zone


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_each_encoding_gives_the_same_readings(encoding):
    text = "Datum/Uhrzeit;Temperatur °C\r\n24.11.2026 06:00:00;-18,5\r\n24.11.2026 06:10:00;-17,9\r\n"
    found = read_logger_bytes(text.encode(encoding))
    assert [each.celsius for each in found.readings] == [-18.5, -17.9]
    assert found.column == "Temperatur °C"


@pytest.mark.parametrize(
    ("heading", "offset"),
    [
        ("Time (UTC+11),Temp C", 660),
        ("Date/Time [GMT-03:30],Temp C", -210),
        ("Timestamp UTC,Temp C", 0),
        ("Time zone,UTC+11\nTime,Temp C", 660),
        ("Time Zone: (GMT+05:30) local\nTime,Temp C", 330),
    ],
)
def test_a_zone_named_once_holds_for_all_rows(heading, offset):
    found = read_logger(f"{heading}\n2026-11-24 06:00,-18\n", zone_minutes=-60)
    assert found.has_zone
    assert found.readings[0].at_s == SIX - offset * 60


@pytest.mark.parametrize(
    ("text", "clock"),
    [("12:10:00 AM", (0, 10)), ("12:10 p.m.", (12, 10)), ("1:05:30 PM", (13, 5)), ("11:59 pm", (23, 59))],
)
def test_a_clock_of_twelve_hours_is_read(text, clock):
    at = datetime.fromtimestamp(read_time(f"2026-11-24 {text}")[0], UTC)
    assert (at.hour, at.minute) == clock


@pytest.mark.parametrize("text", ["13:00 PM", "0:10 AM", "06:60", "24:01"])
def test_a_time_that_no_clock_shows_is_not_read(text):
    with pytest.raises(UnusableReading):
        read_time(f"2026-11-24 {text}")


@pytest.mark.parametrize("text", ["24.11.26 06:00", "24/11/26 06:00", "30 Foo 2026 06:00", "1969-12-31 06:00"])
def test_a_short_year_or_no_month_is_not_guessed(text):
    with pytest.raises(UnusableReading) as refused:
        read_time(text, day_order="day_first")
    assert refused.value.code == "LOG-12"


def test_day_and_month_are_asked_unless_some_row_tells():
    rows = "Time,Temp C\n03/04/2026 06:00,-18\n04/04/2026 06:00,-18\n"
    with pytest.raises(UnusableReading) as refused:
        read_logger(rows)
    assert (refused.value.code, refused.value.facts) == ("LOG-08", {"entered": "03/04/2026 06:00"})
    april = datetime(2026, 4, 3, 6, tzinfo=UTC).timestamp()
    march = datetime(2026, 3, 4, 6, tzinfo=UTC).timestamp()
    assert read_logger(rows, day_order="day_first").readings[0].at_s == april
    assert read_logger(rows, day_order="month_first").readings[0].at_s == march
    assert read_logger(rows + "13/04/2026 06:00,-18\n", day_order="month_first").readings[0].at_s == april
    assert day_orders_of(["13/04/2026 06:00", "04/13/2026 06:00"])[0] == set()


def test_of_several_temperature_columns_one_is_chosen():
    text = "Time,Probe 1 °C,Probe 2 °C,Probe 2 °C\n2026-11-24 06:00,-18,-19,-20\n"
    with pytest.raises(UnusableReading) as refused:
        read_logger(text)
    columns = ["Probe 1 °C", "Probe 2 °C (column 3)", "Probe 2 °C (column 4)"]
    assert (refused.value.code, refused.value.facts["columns"]) == ("LOG-10", columns)
    for name, celsius in zip(columns, (-18.0, -19.0, -20.0), strict=True):
        found = read_logger(text, column=name)
        assert (found.readings[0].celsius, found.column) == (celsius, name)
        assert set(found.other_columns) == set(columns) - {name}
    with pytest.raises(UnusableReading):
        read_logger(text, column="Probe 3")


@pytest.mark.parametrize("cell", ["---", "ERR", "NaN", "OL", "", "-18..5", "1e3", "--18", "٤"])
def test_a_cell_that_is_no_number_leaves_its_row_out(cell):
    found = read_logger(f"Time;Temp °C\n2026-11-24 06:00;-18\n2026-11-24 06:10;{cell}\n")
    assert [(row.line, row.code) for row in found.unread] == [(3, "LOG-14")]


@pytest.mark.parametrize(("cell", "code"), [("999,9", "TEMP-02"), ("-273,2", "TEMP-01"), ("60,1", "TEMP-02")])
def test_a_broken_sensor_s_number_leaves_its_row_out(cell, code):
    found = read_logger(f"Time;Temp °C\n2026-11-24 06:00;-18\n2026-11-24 06:10;{cell}\n")
    assert [row.code for row in found.unread] == [code]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "LOG-01"),
        (b"\xef\xbb\xbf \r\n", "LOG-01"),
        (b"%PDF-1.4", "LOG-09"),
        (b"PK\x03\x04rest", "LOG-09"),
        (b"\xff\xfe\x00\xd8", "LOG-09"),
        (b"\x01\x02\x03\x04" * 50, "LOG-09"),
    ],
)
def test_what_is_no_text_is_said_to_be_none(content, code):
    with pytest.raises(UnusableReading) as refused:
        read_logger_bytes(content)
    assert refused.value.code == code


@pytest.mark.parametrize("line", [
    '2026-11-24 06:00:00;"-18,5"', '"2026-11-24 06:00:00";-18,5', "2026-11-24 06:00:00;-18,5;",
    "2026-11-24 06:00:00; -18,5 ",
])
def test_a_row_with_and_without_quotes_is_the_same_row(line):
    log = read_logger(f"Time;Temp °C\n{line}\n")
    assert [each.celsius for each in log.readings] == [-18.5]


def test_a_cell_that_no_table_holds_leaves_its_row_out_and_no_other():
    log = read_logger(f"Time;Temp °C\n2026-11-24 06:00:00;-18,5\n2026-11-24 06:10:00;{'9' * 200_000}\n")
    assert ([each.celsius for each in log.readings], [(row.line, row.code) for row in log.unread]) == (
        [-18.5], [(3, "LOG-11")]
    )  # fmt: skip


def test_a_heading_names_no_zone_by_chance():
    assert offset_in("Time") is None
    assert offset_in("Time (UTC+99)") is None


def test_lines_with_dates_and_numbers_are_no_heading():
    text = "Date;24.11.2026;Temperature;-15\nTime;Temp °C\n2026-11-24 06:00;-18\n"
    assert len(read_logger(text).readings) == 1


PIECES = st.sampled_from(
    ["Time,Temp C\n", "2026-11-24 06:00,-18\n", "\xff\xfe", "\0", "sep=;\n", ";", "\t", '"', "24.11.2026 06:00;-18,5\n",
     "Date;Time;Temp °F\n", "03/04/2026 06:00 PM,1\n", "Time zone;UTC+25\n", "9999-12-31 23:59,1\n", "CH1,CH2,Time\n"]
)  # fmt: skip


@given(
    st.binary(max_size=400)
    | st.lists(PIECES | st.text(max_size=8), max_size=30).map(lambda parts: "".join(parts).encode("utf-8", "replace"))
    | st.lists(PIECES, max_size=12).map(lambda parts: "".join(parts).encode("utf-16", "replace")),
    st.sampled_from([None, "C", "F"]),
    st.sampled_from([None, "day_first", "month_first"]),
    st.sampled_from([None, 0, -840, 840]),
    st.none() | st.text(max_size=5),
)
def test_no_bytes_raise_anything_but_the_documented_error(content, unit, day_order, zone_minutes, column):
    found = attempt(
        lambda: read_logger_bytes(content, unit=unit, day_order=day_order, zone_minutes=zone_minutes, column=column)
    )
    assert isinstance(found, (Unusable, LoggerFile))
    if isinstance(found, LoggerFile):
        assert all(before.at_s < after.at_s for before, after in zip(found.readings, found.readings[1:], strict=False))
        assert all(-90.0 <= each.celsius <= 60.0 for each in found.readings)


@given(st.binary(max_size=600))
def test_text_comes_out_or_the_documented_error(content):
    assert isinstance(attempt(decoded, content), (Unusable, str))
