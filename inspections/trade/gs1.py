"""What do a date, a check digit and a lot in GS1 text mean?

Rules only; the text is taken apart at the door. Two-digit years lie within 49 years back and 50 ahead; day 00
is the last day of the month, or unknown; a lot that ends in a date has perhaps lost its separator.
Sources: GS1 General Specifications 7.9 and 7.12 (read in the reference checker), 3.4 (from memory).
"""

from __future__ import annotations

import re

from .quantities import Unusable

_SIX_DIGITS = re.compile(r"[0-9]{6}\Z")
# A lot that ends in a date identifier and a plausible date has perhaps swallowed them (CV-8-83).
_SWALLOWED_DATE = re.compile(r".+(?:1[1-7])([0-9]{2})(0[1-9]|1[0-2])([0-2][0-9]|3[01])\Z", re.DOTALL)
LAST_DAY_AIS = ("12", "15", "16", "17")
UNKNOWN_DAY_AIS = ("11", "13")


class UnusableDate(Unusable):
    """A GS1 date that is no day (codes DATE-01 not six digits, DATE-02 no such day, DATE-03 day 00)."""


def full_year(two_digits: int, current_year: int) -> int:
    """The year that two digits mean, within 49 years back and 50 ahead.

    Parameters
    ----------
    two_digits : int
        0 to 99.
    current_year : int
        Year of reading, four digits.

    Returns
    -------
    int

    Examples
    --------
    >>> full_year(76, 2026), full_year(77, 2026), full_year(10, 2060)        # CV-8-79, CV-8-80
    (2076, 1977, 2110)
    """
    century = current_year - current_year % 100
    ahead = two_digits - current_year % 100
    if ahead >= 51:
        return century - 100 + two_digits
    if ahead <= -50:
        return century + 100 + two_digits
    return century + two_digits


def _month_days(year: int, month: int) -> int:
    if month == 2:
        is_leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
        return 29 if is_leap else 28
    return 30 if month in (4, 6, 9, 11) else 31


def gs1_date(ai: str, digits: str, current_year: int) -> str:
    """The date that six digits of a date identifier mean, as YYYY-MM-DD, or YYYY-MM for an unknown day.

    Parameters
    ----------
    ai : str
        GS1 application identifier: 11, 12, 13, 15, 16, 17, or one that allows no day 00 (7006, 7007, 7003).
    digits : str
        YYMMDD.
    current_year : int
        Year of reading.

    Returns
    -------
    str
        Day 00 is the last day of the month for 12, 15, 16 and 17 and stays unknown for 11 and 13.

    Raises
    ------
    UnusableDate
        DATE-01 not six digits; DATE-02 no such day; DATE-03 day 00 where it is not allowed.

    Examples
    --------
    >>> gs1_date("15", "280200", 2026), gs1_date("11", "260100", 2026)        # CV-8-76, CV-8-77
    ('2028-02-29', '2026-01')
    """
    if not _SIX_DIGITS.match(digits):
        raise UnusableDate("DATE-01", {"ai": ai})
    year = full_year(int(digits[:2]), current_year)
    month, day = int(digits[2:4]), int(digits[4:])
    if not 1 <= month <= 12:
        raise UnusableDate("DATE-02", {"ai": ai, "digits": digits})
    if day == 0 and ai in UNKNOWN_DAY_AIS:
        return f"{year:04d}-{month:02d}"
    if day == 0 and ai not in LAST_DAY_AIS:
        raise UnusableDate("DATE-03", {"ai": ai, "digits": digits})
    last = _month_days(year, month)
    if day > last:
        raise UnusableDate("DATE-02", {"ai": ai, "digits": digits})
    return f"{year:04d}-{month:02d}-{day or last:02d}"


def has_swallowed_date(lot: str) -> bool:
    """Whether a scanned lot ends in a date identifier and a plausible date: a separator may be lost.

    Examples
    --------
    >>> has_swallowed_date("ABC17280331"), has_swallowed_date("PRN-24A")        # CV-8-83
    (True, False)
    """
    return _SWALLOWED_DATE.match(lot) is not None


def gs1_check_digit(body: str) -> int:
    """Check digit of the digits before it: weights 3, 1, 3, 1 … from the right (GS1 7.9).

    Raises
    ------
    UnusableDate
        DATE-01 when the body holds something else than digits.

    Examples
    --------
    >>> gs1_check_digit("1952123400017"), gs1_check_digit("952123454321")        # CV-8-71, CV-8-72
    (1, 3)
    """
    if not re.match(r"[0-9]+\Z", body):
        raise UnusableDate("DATE-01", {"ai": "01"})
    total = sum(int(digit) * (3 if i % 2 == 0 else 1) for i, digit in enumerate(reversed(body)))
    return (10 - total % 10) % 10
