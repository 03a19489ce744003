"""What one look at a carton gave: checks made, findings, and derived numbers.

The question: how do the judgements hand over what they found, so that a verdict can weigh it? A
``Finding`` is something past a limit or worth recording, with its measured value and the limit it met; a
``Judged`` collects them for one carton, with the state of every check.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from .limits import Limit

WITHIN, BEYOND, NOT_CHECKED, CANNOT_TELL = "within", "beyond", "not_checked", "cannot_tell"


@dataclass(frozen=True)
class Finding:
    """Something found, against a limit.

    ``measured`` and ``bound`` are unrounded, in ``unit``; None where the finding has no number. ``facts``
    are JSON values for the sentence.
    """

    code: str
    limit: Limit
    measured: float | None = None
    unit: str | None = None
    bound: float | None = None
    sense: str | None = None
    facts: dict[str, Any] = field(default_factory=dict)

    @property
    def severity(self) -> str:
        """Severity of the limit that was met."""
        return self.limit.severity


@dataclass
class Judged:
    """Checks by name, findings in the order made, derived numbers by name."""

    checks: dict[str, str] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    derived: dict[str, float | None] = field(default_factory=dict)

    def see(self, name: str, is_seen: bool, code: str, limit: Limit, facts: dict[str, Any] | None = None) -> None:
        """Record a yes/no finding: beyond when seen, within otherwise."""
        self.checks[name] = BEYOND if is_seen else WITHIN
        if is_seen:
            self.findings.append(Finding(code, limit, facts=facts or {}))

    def measure(
        self, name: str, measured: float, code: str, limit: Limit, facts: dict[str, Any] | None = None
    ) -> bool:
        """Record a measured value against its limit; True when it is past it."""
        is_fine = limit.is_fine(measured)
        self.checks[name] = WITHIN if is_fine else BEYOND
        if not is_fine:
            self.findings.append(
                Finding(code, limit, measured, limit.unit, limit.bound, limit.sense, facts or {})
            )
        return not is_fine

    def leave(self, *names: str) -> None:
        """Record checks that were not made."""
        for name in names:
            self.checks[name] = NOT_CHECKED

    def join(self, other: Judged) -> None:
        """Take over another judgement of the same carton."""
        self.checks.update(other.checks)
        self.findings.extend(other.findings)
        self.derived.update(other.derived)
