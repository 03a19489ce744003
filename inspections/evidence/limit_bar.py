"""How far is a measured value from its limit? Geometry of a small rule drawn beside the numbers.

The rule goes with the numbers and never stands in their place: a fine part, a notch at the limit, a mark at
the measured value. Temperatures lie on one scale from -30 °C up, shares on one from nothing to all,
percentages and numbers of cartons start at nothing; so that two rules of a kind can be compared by eye.
"""
from dataclasses import dataclass

from inspections.trade.wording import shown, shown_measure

WIDTH = 240.0
MARGIN = 10.0
#: unit -> (more than the limit, less than the limit)
WORDS = {"C": ("warmer", "colder"), "score": ("higher", "lower")}
NO_SIZE = {"finding", "none", None, ""}


@dataclass(frozen=True)
class Rule:
    """Places along the rule, 0 to ``WIDTH``: the fine part from ``fine_x`` over ``fine_width``, notch, mark."""

    fine_x: str
    fine_width: str
    notch: str
    mark: str


def rule_of(measured: float | None, bound: float | None, sense: str | None, unit: str | None = None) -> Rule | None:
    """The rule for a value against its limit; None where either is missing or the limit is no number.

    Parameters
    ----------
    measured, bound : float or None
        In the same unit.
    sense : str or None
        ``at_most``, ``below``, ``at_least``, ``above``: the side that is fine.
    unit : str or None
        Gives the scale.
    """
    if measured is None or bound is None or sense not in {"at_most", "below", "at_least", "above"}:
        return None
    low, high = _ends(measured, bound, unit)

    def at(value: float) -> float:
        return MARGIN + (value - low) / (high - low) * (WIDTH - 2 * MARGIN)

    notch = at(bound)
    # A limit of nothing still has a fine end to be seen.
    start, end = (MARGIN - 4, notch) if sense in {"at_most", "below"} else (notch, WIDTH - MARGIN + 4)
    return Rule(shown(start, 1), shown(end - start, 1), shown(notch, 1), shown(at(measured), 1))


def _ends(measured: float, bound: float, unit: str | None) -> tuple[float, float]:
    least, most = min(measured, bound), max(measured, bound)
    if unit == "C":
        return min(-30.0, least), max(0.0, most)
    if unit == "share":
        return 0.0, 1.0
    if unit in {"percent", "points", "cartons", "readings", "score"} and least >= 0:
        return 0.0, most * 1.25 or 1.0
    span = most - least or abs(bound) * 0.1 or 1.0
    return least - span, most + span


def distance_words(measured: float | None, bound: float | None, unit: str | None) -> str:
    """By how much a value is away from its limit, in words; empty where there is no size.

    Examples
    --------
    >>> distance_words(-9.5, -12.0, "C")
    '2.5 °C warmer than the limit'
    >>> distance_words(0.073, 0.05, "share")
    '2.3 percentage points over the limit'
    """
    if measured is None or bound is None or not unit or unit in NO_SIZE:
        return ""
    apart = abs(measured - bound)
    if apart == 0:
        return "exactly at the limit"
    more, less = WORDS.get(unit, ("over", "under"))
    size = f"{shown(apart * 100, 1)} percentage points" if unit == "share" else shown_measure(apart, unit)
    if unit == "percent":
        size = size.replace("%", "percentage points")
    side = more if measured > bound else less
    than = " than" if unit in WORDS else ""
    return f"{size} {side}{than} the limit"
