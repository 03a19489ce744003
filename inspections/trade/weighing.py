"""What weighs more, and what does each finding lead to?

The order of the codes below is the order in which reasons are shown within one severity; ``verdict`` says in
words why. The sets say what a finding leads to when its severity is major or critical.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .findings import Finding
from .limits import SEVERITIES
from .registry import OUTCOMES

# Findings of the modules; those of the plain checks stand where the registry puts them.
_OF_MODULES = (
    "TEMP-REJECT",
    "DATE-PAST",
    "SPECIES-LABEL",
    "DEFECTIVE-OVER",
    "TEMP-OUTSIDE",
    "TEMP-BETWEEN",
    "SPECIES-MARKS",
    "LABEL-CRUSTACEAN",
    "LIFE-SHORT",
    "CARTONS-SHORT",
    "NET-MEAN",
    "NET-UNIT",
    "COUNT-BEYOND",
    "NET-UNIT-NOTE",
    "GLAZE-OVER",
    "UNIFORMITY",
    "LABEL-DATES",
    "LABEL-PARTICULARS",
    "TEMP-TOLERANCE",
    "TEMP-NEAR",
    "TEMP-SURFACE",
    "TEMP-PROBE-DOUBT",
    "TEMP-PROBE-FAILED",
    "TEMP-PROBE-OVERDUE",
    "TEMP-PROBE-UNCHECKED",
    "TEMP-PROBE-UNKNOWN",
    "COUNT-UNSURE",
    "COUNT-GLAZED",
    "NET-MEAN-UNSURE",
    "NET-ONE-UNIT",
    "NET-NO-TABLE",
    "NET-UNLIKELY",
    "SPECIES-UNSURE",
    "LABEL-SULPHITES",
    "LABEL-SCAN",
    "LOOKED-AT-FEW",
    "CARTONS-OVER",
)


def _placed(codes: Iterable[str]) -> Iterator[str]:
    """Each code, and right behind it those that come after it; of several the last row is nearest."""
    for code in codes:
        yield code
        yield from _placed(_after(code))


def _after(code: str) -> list[str]:
    return [one.code for one in reversed(OUTCOMES.values()) if one.after == code]


ORDER = (*_placed(_after("")), *_placed(_OF_MODULES))


def codes_leading_to(what: str) -> frozenset[str]:
    """The findings of plain checks that lead to one thing: hazard, doubt, short_value, defect."""
    return frozenset(one.code for one in OUTCOMES.values() if one.leads_to == what)


def acts_on(code: str) -> str | None:
    """What a finding of a plain check falls on: pieces, carton, line or delivery; None for one of a module."""
    return OUTCOMES[code].acts_on if code in OUTCOMES else None


_PLACE = {code: place for place, code in enumerate(ORDER)}
_RANK = {severity: rank for rank, severity in enumerate(SEVERITIES)}
# Hold everything, never by a sampling plan (CV-1-39, CV-11-18).
HAZARDS = codes_leading_to("hazard")
# Stated on the label, so the whole line is other goods than ordered.
SUBSTITUTIONS = frozenset({"SPECIES-LABEL"})
# Somebody has to settle it before the goods are used or sent back (CV-5-32, CV-12-24). Weak evidence is here too:
# a group that makes it major gets a hold, never a rejection.
DOUBTS = codes_leading_to("doubt") | frozenset(
    {
        "TEMP-OUTSIDE",
        "TEMP-BETWEEN",
        "SPECIES-MARKS",
        "TEMP-PROBE-DOUBT",
        "TEMP-PROBE-FAILED",
        "TEMP-PROBE-OVERDUE",
        "TEMP-PROBE-UNCHECKED",
        "TEMP-PROBE-UNKNOWN",
    }
)
# Sound food, less of it than paid for: money, not refusal (CV-1-36, CV-1-37 have tallies of their own).
SHORT_VALUE = codes_leading_to("short_value") | frozenset(
    {"CARTONS-SHORT", "NET-MEAN", "NET-UNIT", "NET-UNIT-NOTE", "COUNT-BEYOND", "GLAZE-OVER"}
)


def is_serious(finding: Finding) -> bool:
    """Whether a finding is critical or major."""
    return finding.severity in ("critical", "major")


def is_defect(finding: Finding) -> bool:
    """Whether a finding makes its carton defective (counted once, CV-1-34)."""
    return finding.severity == "critical" or (
        finding.severity == "major" and finding.code not in SHORT_VALUE and finding.code not in DOUBTS
    )


def weight_key(finding: Finding, carton_place: int) -> tuple[int, int, int]:
    """Sort key: severity, then the order of codes, then the order of the cartons."""
    return _RANK[finding.severity], _PLACE[finding.code], carton_place
