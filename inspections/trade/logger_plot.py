"""What of a log is drawn: few enough points for a phone, no peak lost, the axis in the site's time.

The time from first to last reading is cut into equal parts; of each part the coldest and the warmest reading
are kept, and of each unbroken stretch the first and the last. So the drawn warmest is the warmest. Page, paper
and desk draw from this one set.
"""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from itertools import pairwise
from typing import Any

from .exposure import GAP_FACTOR, Logged, usual_interval_s
from .logger_words import day_text, local_time

PARTS = 200
MOST_STRETCHES = 60
MOST_TICKS = 9
_TICK_HOURS = (1, 2, 3, 4, 6, 12, 24, 48, 72, 168, 336, 672)
_SCALE_STEPS = (1, 2, 5, 10, 20, 50)
_MOST_LINES = 7


def drawn_points(logged: Sequence[Logged], parts: int = PARTS) -> list[list[list[float]]]:
    """Unbroken stretches of ``[seconds, °C]``, thinned so that every peak and every trough stays.

    Parameters
    ----------
    logged : sequence of Logged
        In time order, one or more.
    parts : int
        Equal parts of the time; each gives at most two points, and each stretch two more.

    Examples
    --------
    >>> log = [Logged(60.0 * i, -5.0 if i == 777 else -20.0) for i in range(2000)]
    >>> points = drawn_points(log)[0]
    >>> len(points) <= 402, max(c for _, c in points)
    (True, -5.0)
    """
    span_s = logged[-1].at_s - logged[0].at_s
    return [_thinned(stretch, logged[0].at_s, span_s / parts) for stretch in _unbroken(logged)]


def _unbroken(logged: Sequence[Logged]) -> list[list[Logged]]:
    """Stretches without a gap; of very many gaps only the longest break the line, so that the drawing stays small."""
    steps = [after.at_s - before.at_s for before, after in pairwise(logged)]
    longest = usual_interval_s(logged) * GAP_FACTOR
    breaking = sorted((step for step in steps if step > longest), reverse=True)
    if len(breaking) >= MOST_STRETCHES:
        longest = breaking[MOST_STRETCHES - 1]
    found = [[logged[0]]]
    for each, step in zip(logged[1:], steps, strict=True):
        if step > longest:
            found.append([])
        found[-1].append(each)
    return found


def _thinned(stretch: Sequence[Logged], start_s: float, part_s: float) -> list[list[float]]:
    parts: dict[int, list[Logged]] = {}
    for each in stretch:
        parts.setdefault(int((each.at_s - start_s) / part_s) if part_s > 0.0 else 0, []).append(each)
    kept = {stretch[0].at_s: stretch[0], stretch[-1].at_s: stretch[-1]}
    for part in parts.values():
        for each in (min(part, key=_celsius), max(part, key=_celsius)):
            kept[each.at_s] = each
    return [[at_s, kept[at_s].celsius] for at_s in sorted(kept)]


def _celsius(each: Logged) -> float:
    return each.celsius


def ticks_of(from_s: float, to_s: float, zone: tzinfo) -> list[dict[str, Any]]:
    """Places on the time axis on whole hours of the site's clock, nine at most.

    Returns
    -------
    list of dict
        ``at_s``, ``text`` ("06:00") and ``day`` ("Tue 24 Nov").
    """
    hours = next((h for h in _TICK_HOURS if (to_s - from_s) / 3600.0 / h < MOST_TICKS), None)
    if hours is None:
        # A log of years: whatever gives so few; such a file is odd and is said to be.
        hours = (int((to_s - from_s) / 3600.0 / 24.0 / MOST_TICKS) + 1) * 24
    start = local_time(from_s, zone)
    wall = datetime(start.year, start.month, start.day)
    ticks: list[dict[str, Any]] = []
    while (at_s := _seconds_at(wall, zone)) <= to_s:
        if at_s >= from_s:
            ticks.append({"at_s": at_s, "text": f"{wall:%H:%M}", "day": day_text(wall)})
        wall += timedelta(hours=hours)
    return ticks


def _seconds_at(wall: datetime, zone: tzinfo) -> float:
    epoch = datetime(1970, 1, 1, tzinfo=UTC)
    return (wall.replace(tzinfo=zone) - epoch) / timedelta(seconds=1)


def scale_of(celsius: Sequence[float]) -> dict[str, float]:
    """A temperature scale in round steps that holds all the values: ``from``, ``to`` and ``step``, °C.

    >>> scale_of([-21.4, -9.4, -18.0, -15.0, -12.0])
    {'from': -22.0, 'to': -8.0, 'step': 2.0}
    """
    low, high = min(celsius), max(celsius)
    step = next((s for s in _SCALE_STEPS if (high - low) / s <= _MOST_LINES - 1), _SCALE_STEPS[-1])
    bottom, top = (low // step) * step, -(-high // step) * step
    return {"from": float(bottom), "to": float(top if top > bottom else bottom + step), "step": float(step)}
