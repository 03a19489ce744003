"""What did the goods go through: excursions, minutes above a limit, mean kinetic temperature, life used?

Works on readings in time order. Between two readings the temperature is taken to run straight; a
gap much longer than usual says nothing and is counted apart. Mean kinetic temperature was made for
medicines and is an index of exposure only; storage life figures are orders of magnitude (IIR 1986,
from memory). Neither ever sets a verdict.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Any

from .basis import load_table
from .exponentials import natural_exp, natural_log
from .quantities import UnusableReading

TOLERANCES: dict[str, Any] = load_table("tolerances")
LIFE: dict[str, Any] = TOLERANCES["storage_life"]
KELVIN = 273.15
ACTIVATION_K = 10_000.0
GAP_FACTOR = 4.0


@dataclass(frozen=True, slots=True)
class Logged:
    """One reading of a data logger: seconds since 1970 (or of a clock without zone), and °C."""

    at_s: float
    celsius: float


class Course(tuple[Logged, ...]):
    """A log whose intervals are reckoned once, however many questions are asked of it; else a plain tuple."""

    @cached_property
    def usual_s(self) -> float:
        """As ``usual_interval_s``."""
        return _usual_s(self)

    @cached_property
    def unbroken(self) -> list[tuple[Logged, Logged]]:
        """As ``stretches``."""
        return _stretches(self, self.usual_s * GAP_FACTOR)


@dataclass(frozen=True, slots=True)
class Excursion:
    """A stretch warmer than a limit: begin and end in seconds, warmest reading in °C."""

    from_s: float
    to_s: float
    warmest_c: float

    @property
    def minutes(self) -> float:
        """Length in minutes."""
        return (self.to_s - self.from_s) / 60.0


def mean_kinetic_c(celsius: Sequence[float], weights: Sequence[float] | None = None) -> float:
    """Mean kinetic temperature of some readings, dH/R = 10 000 K.

    Parameters
    ----------
    celsius : sequence of float
        °C, -200 to 200.
    weights : sequence of float, optional
        Time at each reading in any one unit, 0 or more, not all 0; equal when not given.

    Returns
    -------
    float
        °C; never below the weighted mean (CV-5-76).

    Raises
    ------
    UnusableReading
        EXPO-01 no reading, or numbers outside those ranges.

    Examples
    --------
    >>> round(mean_kinetic_c([-18.0, -8.0], [22.0, 2.0]), 3)        # CV-5-72
    -16.372
    """
    times = [1.0] * len(celsius) if weights is None else list(weights)
    if len(times) != len(celsius) or any(not time >= 0.0 for time in times):
        raise UnusableReading("EXPO-01")
    top = total = 0.0
    for each, time in zip(celsius, times, strict=True):
        top = top + time * _rate(each)
        total = total + time
    return _from_rate(top, total)


def usual_interval_s(logged: Sequence[Logged]) -> float:
    """The middle interval between readings, s (the upper one of two); 0 for fewer than two readings."""
    return logged.usual_s if isinstance(logged, Course) else _usual_s(logged)


def _usual_s(logged: Sequence[Logged]) -> float:
    steps = sorted(after.at_s - before.at_s for before, after in pairwise(logged))
    return steps[len(steps) // 2] if steps else 0.0


def stretches(logged: Sequence[Logged], gap_factor: float = GAP_FACTOR) -> list[tuple[Logged, Logged]]:
    """Neighbouring readings no further apart than ``gap_factor`` usual intervals, in order."""
    if isinstance(logged, Course) and gap_factor == GAP_FACTOR:
        return logged.unbroken
    return _stretches(logged, usual_interval_s(logged) * gap_factor)


def _stretches(logged: Sequence[Logged], longest_s: float) -> list[tuple[Logged, Logged]]:
    return [(before, after) for before, after in pairwise(logged) if after.at_s - before.at_s <= longest_s]


def gap_minutes(logged: Sequence[Logged], gap_factor: float = GAP_FACTOR) -> float:
    """Minutes that no reading vouches for."""
    longest = usual_interval_s(logged) * gap_factor
    total = 0.0
    for before, after in pairwise(logged):
        if after.at_s - before.at_s > longest:
            total = total + (after.at_s - before.at_s)
    return total / 60.0


def minutes_above(logged: Sequence[Logged], limit_c: float) -> float:
    """Minutes strictly warmer than a limit, the temperature running straight between readings.

    >>> minutes_above([Logged(0.0, -20.0), Logged(600.0, -10.0)], -15.0)
    5.0
    """
    total = 0.0
    for before, after in stretches(logged):
        total = total + (after.at_s - before.at_s) * _share_above(before.celsius, after.celsius, limit_c)
    return total / 60.0


def excursions(logged: Sequence[Logged], limit_c: float) -> list[Excursion]:
    """Stretches strictly warmer than a limit, with the crossing times drawn straight; a gap ends one."""
    found: list[Excursion] = []
    last: Logged | None = None
    for before, after in stretches(logged):
        share = _share_above(before.celsius, after.celsius, limit_c)
        if share > 0.0:
            length = (after.at_s - before.at_s) * share
            from_s = before.at_s if before.celsius > limit_c else after.at_s - length
            to_s = after.at_s if after.celsius > limit_c else before.at_s + length
            warmer = max(before.celsius, after.celsius)
            if found and last is before and before.celsius > limit_c:
                found[-1] = Excursion(found[-1].from_s, to_s, max(found[-1].warmest_c, warmer))
            else:
                found.append(Excursion(from_s, to_s, warmer))
        last = after
    return found


def mean_kinetic_of(logged: Sequence[Logged]) -> float:
    """Mean kinetic temperature of a log, °C: each interval weighs half its two ends' rates.

    Raises
    ------
    UnusableReading
        EXPO-01 no reading.
    """
    if len(logged) == 1:
        return mean_kinetic_c([logged[0].celsius])
    top = total = 0.0
    for before, after in stretches(logged):
        time = after.at_s - before.at_s
        top = top + time * ((_rate(before.celsius) + _rate(after.celsius)) / 2.0)
        total = total + time
    return _from_rate(top, total)


def storage_life_months(celsius: float, points: Sequence[Sequence[float]]) -> float:
    """Practical storage life at a temperature, months, ln(life) running straight in °C.

    Parameters
    ----------
    celsius : float
        °C. Colder than the coldest point counts as that point (no life is promised beyond the table);
        warmer than the warmest runs on along the last two points.
    points : sequence of pairs
        °C and months, warmest first.

    Examples
    --------
    >>> round(storage_life_months(-20.0, [[-12.0, 4.0], [-18.0, 6.0], [-24.0, 12.0]]), 3)      # CV-5-86
    7.56
    """
    if celsius <= points[-1][0]:
        return points[-1][1]
    warm, cold = points[0], points[1]
    for place in range(1, len(points) - 1):
        if celsius < points[place][0]:
            warm, cold = points[place], points[place + 1]
    share = (celsius - warm[0]) / (cold[0] - warm[0])
    log_warm, log_cold = natural_log(warm[1]), natural_log(cold[1])
    return natural_exp(log_warm + share * (log_cold - log_warm))


def life_used(spells: Sequence[Sequence[float]], points: Sequence[Sequence[float]]) -> float:
    """Share of storage life used by spells of (days, °C); 1 is all of it (additive rule, CV-5-85).

    >>> table = [[-12.0, 4.0], [-18.0, 6.0], [-24.0, 12.0]]
    >>> round(life_used([[60.0, -20.0], [30.0, -18.0], [5.0, -12.0]], table), 5)      # CV-5-86
    0.4661
    """
    total = 0.0
    months: dict[float, float] = {}
    for days, celsius in spells:
        if celsius not in months:
            months[celsius] = storage_life_months(celsius, points)
        total = total + days / (LIFE["days_per_month"] * months[celsius])
    return total


def life_used_of(logged: Sequence[Logged], product: str) -> float:
    """Share of storage life used over a log, each interval at its middle temperature.

    ``product`` is a key of ``storage_life.products``; raises UnusableReading EXPO-02 for another.
    """
    row = LIFE["products"].get(product)
    if row is None:
        raise UnusableReading("EXPO-02", {"product": product})
    spells = [
        ((after.at_s - before.at_s) / 86_400.0, (before.celsius + after.celsius) / 2.0)
        for before, after in stretches(logged)
    ]
    return life_used(spells, row["points"])


@lru_cache(maxsize=4096)  # a logger writes the same few hundred values over and over
def _rate(celsius: float) -> float:
    if not -200.0 <= celsius <= 200.0:
        raise UnusableReading("EXPO-01")
    return natural_exp(-ACTIVATION_K / (celsius + KELVIN))


def _from_rate(top: float, total: float) -> float:
    if not total > 0.0:
        raise UnusableReading("EXPO-01")
    return ACTIVATION_K / -natural_log(top / total) - KELVIN


def _share_above(before_c: float, after_c: float, limit_c: float) -> float:
    """Share of an interval strictly warmer than the limit; 0 when it only touches it."""
    if before_c > limit_c and after_c > limit_c:
        return 1.0
    if before_c <= limit_c and after_c <= limit_c:
        return 0.0
    warm, cold = (before_c, after_c) if before_c > after_c else (after_c, before_c)
    if cold == limit_c:
        return 1.0
    return (warm - limit_c) / (warm - cold)
