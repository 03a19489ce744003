"""Particulars by market, dates, and the label against the order."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.carton_facts import PARTICULARS
from inspections.trade.entries import day_number
from inspections.trade.gs1 import UnusableDate, full_year, gs1_date
from inspections.trade.labels import TABLE, missing_particulars
from inspections.trade.wording import WORDS

from .deliveries import SPECIFICATION, carton, delivery, label
from .test_verdict import codes, line_of


@pytest.mark.parametrize("market", sorted(TABLE["markets"]))
def test_every_particular_of_a_market_names_its_source(market):
    profile = TABLE["markets"][market]
    for particular in (*profile["required"], *profile["when_caught"]):
        source, known, cv = profile["bases"][particular]
        assert source
        assert known in ("read", "from_memory", "common_practice")
        assert cv.startswith("CV-")
        assert particular in WORDS["particulars"]
    assert missing_particulars(PARTICULARS, market, "caught") == []


def test_gear_is_asked_of_caught_goods_only__CV_8_01():
    assert "gear" in missing_particulars((), "EU", "caught")
    assert "gear" not in missing_particulars((), "EU", "farmed")


@given(st.dates(date(1978, 1, 1), date(2076, 12, 31)))
def test_every_day_of_the_window_is_read_back(day):
    if full_year(day.year % 100, 2026) == day.year:
        assert gs1_date("17", day.strftime("%y%m%d"), 2026) == day.isoformat()


@given(st.text(alphabet="0123456789x ", max_size=8), st.sampled_from(["11", "13", "15", "17", "7006"]))
def test_six_signs_are_a_day_or_the_documented_error(digits, ai):
    try:
        answer = gs1_date(ai, digits, 2026)
    except UnusableDate as problem:
        answer = problem.code
    assert answer in ("DATE-01", "DATE-02", "DATE-03") or day_number((answer + "-01")[:10]) is not None


@given(st.dates(), st.integers(0, 800))
def test_day_numbers_count_days(day, more):
    if day < date(9990, 1, 1):
        later = day + timedelta(days=more)
        assert day_number(later.isoformat()) - day_number(day.isoformat()) == more


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"presentation": "HOSO"}, "LABEL-PRESENTATION"),
        ({"state": "cooked"}, "LABEL-STATE"),
        ({"method": "caught"}, "LABEL-METHOD"),
        ({"grade": "21/25"}, "LABEL-GRADE"),
        ({"origin": "TH"}, "LABEL-ORIGIN"),
        ({"net": {"entered": "9", "unit": "kg"}}, "LABEL-NET"),
        ({"lot": "L2"}, "LABEL-LOT"),
        ({"best_before": "2026-11-24"}, "DATE-PAST"),
        ({"production_date": "2026-11-26"}, "LABEL-DATES"),
        ({"shows": ["crustacean"]}, "LABEL-PARTICULARS"),
        ({"shows": []}, "LABEL-CRUSTACEAN"),
        ({"scan": "x", "lot": "ABC17280331"}, "LABEL-SCAN"),
    ],
)
def test_a_label_that_is_not_as_ordered_says_so(changes, code):
    assert code in codes(line_of(delivery(carton(3, label=label(**changes)), carton(11), carton(17))))


@pytest.mark.parametrize(
    "changes",
    [
        {"grade": "16 to 20"},
        {"lot": "l 1"},
        {"origin": "ec"},
        {"net": {"entered": "22.0462", "unit": "lb"}},
        {"net": {"entered": "2", "unit": "kg"}},
        {"best_before": "", "production_date": ""},
        {"species_code": ""},
    ],
)
def test_what_is_written_otherwise_or_not_at_all_is_no_difference(changes):
    assert codes(line_of(delivery(carton(3, label=label(**changes)), carton(11), carton(17)))) == []


def test_the_life_asked_for_is_the_specifications():
    short = label(production_date="2026-01-15", best_before="2027-06-14")
    document = delivery(*[carton(i, label=short) for i in (3, 11, 17)])
    assert "LIFE-SHORT" in codes(line_of(document))
    assert "LIFE-SHORT" not in codes(line_of(document, {**SPECIFICATION, "min_life_share": 0.1}))
