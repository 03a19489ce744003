"""What does each finding act on, what does it lead to, and which weighs more?

A row a finding: those of the plain checks are in the registry, those of the modules in ``data/findings.json``, whose
order is the order in which reasons are shown within one severity; a plain check's finding stands where its row puts it.
``acts_on`` is where a finding belongs and acts first: pieces, carton, line or delivery. ``leads_to`` is what it leads
to when its severity is critical or major:

hazard       everything is held, never by a sampling plan (CV-1-39, CV-11-18)
unfit        the carton is refused; in some cartons the rest is held until more is known
sort_refuse  read on the label: refused by label, the rest taken
sort_hold    read on the label: held by label until papers and goods agree
hold         somebody settles it before the goods are used or sent back (CV-5-32, CV-12-24)
doubt        weak evidence: a hold where a group makes it one, never a fault of the carton
defect       the carton counts against the acceptance number of the plan (CV-1-34)
wrap         rewrap or use first; where the prawns suffered, that has a finding of its own
value        sound food, less than was paid for: money, not refusal (CV-1-36, CV-1-37 have tallies of their own)

and, of any severity but a note: ``quality``, a price of the lower quality where the line as a whole shows it; ``ask``,
one more look. ``tally`` is the count of the defective cartons, ``note`` is recorded and changes nothing.
Common practice, no source, but for the rows named.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .basis import load_table
from .findings import Finding
from .limits import SEVERITIES
from .registry import OUTCOMES

_OF_MODULES: list[dict[str, str]] = load_table("findings")
FINDINGS: dict[str, dict[str, str]] = {
    **{row["code"]: row for row in _OF_MODULES},
    **{one.code: {"code": one.code, "acts_on": one.acts_on, "leads_to": one.leads_to} for one in OUTCOMES.values()},
}


def _placed(codes: Iterable[str]) -> Iterator[str]:
    """Each code, and right behind it those that come after it; of several the last row is nearest."""
    for code in codes:
        yield code
        yield from _placed(_after(code))


def _after(code: str) -> list[str]:
    return [one.code for one in reversed(OUTCOMES.values()) if one.after == code]


ORDER = (*_placed(_after("")), *_placed(row["code"] for row in _OF_MODULES))
_PLACE = {code: place for place, code in enumerate(ORDER)}
_RANK = {severity: rank for rank, severity in enumerate(SEVERITIES)}
# A carton with one of these has a fault of its own and is counted as one; short value and wrapping are none.
HOLDS = ("hold", "doubt")
FAULTS = ("hazard", "unfit", "sort_refuse", "sort_hold", "hold", "defect")


def codes_that(leads_to: str) -> frozenset[str]:
    """Codes of the findings that lead to something."""
    return frozenset(code for code, row in FINDINGS.items() if row["leads_to"] == leads_to)


HAZARDS = codes_that("hazard")


def is_serious(finding: Finding) -> bool:
    """Whether a finding is critical or major."""
    return finding.severity in ("critical", "major")


def effect_of(code: str, severity: str) -> str:
    """What a finding of a code and severity leads to; a hazard is one at any severity."""
    leads_to = FINDINGS[code]["leads_to"]
    if leads_to in ("hazard", "ask", "note") or severity in ("critical", "major"):
        return leads_to
    return leads_to if leads_to in ("quality", "value") and severity == "minor" else "note"


def effect(finding: Finding) -> str:
    """What a finding leads to, its severity considered."""
    return effect_of(finding.code, finding.severity)


def is_fault(finding: Finding) -> bool:
    """Whether a finding gives its carton a fault of its own (counted once, CV-1-34)."""
    return effect(finding) in FAULTS


def weight_key(finding: Finding, carton_place: int) -> tuple[int, int, int]:
    """Sort key: severity, then the order of codes, then the order of the cartons."""
    return _RANK[finding.severity], _PLACE[finding.code], carton_place
