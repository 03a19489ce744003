"""What a cell of a spreadsheet may say."""
from datetime import date
from decimal import Decimal

import pytest

from inspections.records import csv_fields
from inspections.records.csv_fields import UnusableCell


@pytest.mark.parametrize(
    ("cell", "expected"),
    [
        ("2026-11-25", date(2026, 11, 25)),
        ("2026-11-25 00:00:00", date(2026, 11, 25)),
        ("25.11.2026", date(2026, 11, 25)),
        ("5.4.2026", date(2026, 4, 5)),
        ("25/11/2026", date(2026, 11, 25)),
        ("11/25/2026", date(2026, 11, 25)),
        ("04/04/2026", date(2026, 4, 4)),
        # The 1900 date system, as Microsoft's support pages give it (from memory): 1 January 2008 is 39448.
        ("39448", date(2008, 1, 1)),
        ("46351", date(2026, 11, 25)),
        ("46351.0", date(2026, 11, 25)),
    ],
)
def test_a_day_is_read_as_spreadsheets_write_it(cell, expected):
    assert csv_fields.day(cell) == expected


@pytest.mark.parametrize("cell", ["", "tomorrow", "2026-02-30", "31.11.2026", "25-11-26", "123", "٢٠٢٦-١١-٢٥"])
def test_what_is_no_day_is_refused(cell):
    with pytest.raises(UnusableCell):
        csv_fields.day(cell)


def test_a_day_that_can_be_read_two_ways_says_so():
    with pytest.raises(UnusableCell, match="two ways"):
        csv_fields.day("04/05/2026")


@pytest.mark.parametrize(
    ("cell", "expected"),
    # 1 lb = 453.59237 g exactly (international avoirdupois pound, 1959).
    [("10 kg", 10000.0), ("10", 10000.0), ("2,5kg", 2500.0), ("5 lb", 2267.96185), ("500 G", 500.0)],
)
def test_a_weight_carries_its_unit_or_is_in_kg(cell, expected):
    assert csv_fields.grams(cell) == expected


@pytest.mark.parametrize("cell", ["ten kg", "-1 kg", "500 kg", "10 stone", ""])
def test_what_is_no_weight_is_refused(cell):
    with pytest.raises(UnusableCell):
        csv_fields.grams(cell)


def test_a_price_has_a_comma_or_a_point_and_four_decimals():
    assert csv_fields.price_or_none("9,80") == csv_fields.price_or_none("9.8") == Decimal("9.8")
    assert csv_fields.price_or_none("1.23456") == Decimal("1.2346")
    assert csv_fields.price_or_none("") is None
    with pytest.raises(UnusableCell):
        csv_fields.price_or_none("-1")


@pytest.mark.parametrize("cell", ["0", "5001", "2.5", "ten", ""])
def test_a_whole_number_outside_its_range_is_refused(cell):
    with pytest.raises(UnusableCell):
        csv_fields.whole(1, 5000)(cell)


def test_yes_and_no_are_words():
    assert csv_fields.yes_no("") is csv_fields.yes_no("YES") is True
    assert csv_fields.yes_no("no") is False
    with pytest.raises(UnusableCell):
        csv_fields.yes_no("perhaps")
