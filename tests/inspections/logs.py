"""Logger files to test with: numbers of our own, in the forms that loggers' programs write."""
from collections.abc import Callable
from datetime import datetime, timedelta

START = datetime(2026, 11, 24, 12, 0)
#: (minutes from the start, °C): steady, then warm for an hour and a half, then steady again.
WARM_SPELL = [(10 * i, -9.0 if 30 <= i < 39 else -20.0) for i in range(110)]


def csv_of(
    points: list[tuple[float, float]], *, start: datetime = START, heading: str = "Date/Time;Temp (°C)",
    stamp: str = "%Y-%m-%d %H:%M", number: Callable[[float], str] = lambda value: f"{value:.1f}".replace(".", ","),
) -> str:  # fmt: skip
    """A file of two columns from minutes and °C."""
    rows = (f"{start + timedelta(minutes=minutes):{stamp}};{number(celsius)}" for minutes, celsius in points)
    return "\n".join([heading, *rows, ""])


def a_log(**changed) -> bytes:
    """A file without zone that ends at 06:10 on the day after its start, an hour and a half of it warm."""
    return csv_of(WARM_SPELL, **changed).encode()
