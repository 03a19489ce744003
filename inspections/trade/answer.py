"""What can a check say? Within, beyond, cannot tell, or not checked.

Missing is a variant of the type, never null in a comparison and never a pass (CV-0-06).
None of the four has a truth value: ``if answer:`` is an error, not a quiet pass.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, ClassVar, Literal

Sense = Literal["at_most", "below", "at_least", "above"]


class _NoTruthValue:
    __slots__ = ()

    def __bool__(self) -> bool:
        raise TypeError("An answer is neither true nor false; match its kind.")


@dataclass(frozen=True, slots=True)
class NotChecked(_NoTruthValue):
    """Nothing was measured or looked at."""

    what: str
    kind: ClassVar[str] = "not_checked"


@dataclass(frozen=True, slots=True)
class Within(_NoTruthValue):
    """Measured, and on the fine side of the limit."""

    measured: float
    unit: str
    facts: Mapping[str, Any] = field(default_factory=dict)
    kind: ClassVar[str] = "within"


@dataclass(frozen=True, slots=True)
class Beyond(_NoTruthValue):
    """Measured, and past the limit ``bound``; ``sense`` is the side that would have been fine."""

    measured: float
    unit: str
    bound: float | None
    sense: Sense | None
    facts: Mapping[str, Any] = field(default_factory=dict)
    kind: ClassVar[str] = "beyond"


@dataclass(frozen=True, slots=True)
class CannotTell(_NoTruthValue):
    """Measured, and not enough to say; ``reasons`` are sentence codes, first one foremost."""

    reasons: tuple[str, ...]
    facts: Mapping[str, Any] = field(default_factory=dict)
    kind: ClassVar[str] = "cannot_tell"


Answer = NotChecked | Within | Beyond | CannotTell


def is_fine(measured: float, bound: float, sense: Sense) -> bool:
    """Whether an unrounded value is on the fine side of its limit (CV-0-01, CV-0-02).

    Parameters
    ----------
    measured, bound : float
        Same unit, unrounded.
    sense : {"at_most", "below", "at_least", "above"}
        The fine side; ``at_most`` and ``at_least`` hold the end point.

    Raises
    ------
    ValueError
        Another word for the sense.

    Examples
    --------
    >>> is_fine(25.0, 25.0, "at_most"), is_fine(25.0, 25.0, "below")
    (True, False)
    """
    if sense == "at_most":
        return measured <= bound
    if sense == "below":
        return measured < bound
    if sense == "at_least":
        return measured >= bound
    if sense == "above":
        return measured > bound
    raise ValueError(f"Not a sense of a limit: {sense!r}")


def against_limit(
    measured: float, unit: str, bound: float, sense: Sense, facts: Mapping[str, Any] | None = None
) -> Within | Beyond:
    """Within or beyond one limit, unrounded."""
    if is_fine(measured, bound, sense):
        return Within(measured, unit, dict(facts or {}))
    return Beyond(measured, unit, bound, sense, dict(facts or {}))
