"""How are moments, lengths of time and stretches of a log said?

On the clock of the site where the goods arrived; the zone is named once, above. Rounded to the minute here and
nowhere else.
"""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta, tzinfo
from typing import Any

from .wording import WORDS, counted, filled, shown_measure

WORDS_OF_A_LOG: dict[str, str] = WORDS["logger"]
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def local_time(at_s: float, zone: tzinfo) -> datetime:
    """A moment on the site's clock, rounded to the minute."""
    # Through UTC: the platform's own conversion fails for some years.
    utc = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(minutes=int(at_s // 60.0 + (at_s % 60.0 >= 30.0)))
    return utc.astimezone(zone)


def clock_text(at_s: float, zone: tzinfo) -> str:
    """A moment with its day.

    >>> from zoneinfo import ZoneInfo
    >>> clock_text(1795461000.0, ZoneInfo("Australia/Sydney"))
    'Tue 24 Nov 2026, 06:10'
    """
    at = local_time(at_s, zone)
    return f"{_DAYS[at.weekday()]} {at.day} {_MONTHS[at.month - 1]} {at.year}, {at:%H:%M}"


def span_text(from_s: float, to_s: float, zone: tzinfo) -> str:
    """From one moment to another, the day named once where it is the same.

    >>> from zoneinfo import ZoneInfo
    >>> span_text(1795461000.0, 1795461900.0, ZoneInfo("Australia/Sydney"))
    'Tue 24 Nov 2026, 06:10 to 06:25'
    """
    end = local_time(to_s, zone)
    is_same_day = local_time(from_s, zone).date() == end.date()
    return f"{clock_text(from_s, zone)} to {f'{end:%H:%M}' if is_same_day else clock_text(to_s, zone)}"


def day_text(at: datetime) -> str:
    """A day as it stands under the axis."""
    return f"{_DAYS[at.weekday()]} {at.day} {_MONTHS[at.month - 1]}"


def minutes_words(minutes: float) -> str:
    """A length of time as it is said.

    >>> [minutes_words(each) for each in (0.2, 1.0, 38.4, 119.6, 320.0, 3060.0)]
    ['under 1 minute', '1 minute', '38 minutes', '2 h', '5 h 20 min', '2 days 3 h']
    """
    if minutes < 0.5:
        return WORDS_OF_A_LOG["under_a_minute"]
    whole = int(minutes + 0.5)
    if whole < 120:
        return counted(whole, "minute")
    hours, rest = divmod(whole, 60)
    if hours < 48:
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    days, hours = divmod(int(minutes / 60.0 + 0.5), 24)
    return f"{counted(days, 'day')} {hours} h" if hours else counted(days, "day")


def said(code: str, **places: str) -> str:
    """A sentence of the log's own group with its places filled."""
    return filled(WORDS_OF_A_LOG[code], places)


def summary_of(figures: Mapping[str, Any], zone: tzinfo) -> str:
    """The journey in a few sentences, for whoever cannot see the plot."""
    told = [said(
        "summary", **{"from": clock_text(figures["from_s"], zone), "to": clock_text(figures["to_s"], zone)},
        coldest=shown_measure(figures["coldest_c"], "C"), warmest=shown_measure(figures["warmest_c"], "C"),
    )]  # fmt: skip
    for one in figures["limits"]:
        told.append(said(
            "summary_limit" if one["count"] else "summary_never", limit=shown_measure(one["limit_c"], "C"),
            minutes=minutes_words(one["minutes"]), times=counted(one["count"], "stretch"),
        ))  # fmt: skip
    return " ".join(told)
