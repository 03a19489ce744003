"""What do the findings of the opened cartons mean for the line?

A finding acts where it belongs (``weighing``). A bad carton is refused, not its neighbours; what was read on labels is
sorted by label; a second stage (``opened``) stands between taking the line and refusing it. Heaviest first:

a. a hazard in any carton: hold everything.
b. refuse: every opened carton differs by its label; or as many bad cartons as the plan refuses at, or every opened one,
   and beyond chance (``pooled``).
c. hold: a doubt that somebody must settle; papers and goods that do not agree on any label; food unfit in some cartons.
d. more to do: labels differ in some cartons (sort), or more bad ones than the first stage accepts (open more). A
   receiver without time declines: hold.
e. something that must be checked is not, and the receiver has not said why.
f. accept with allowance: bad cartons set aside, or less value than was paid for.
g. accept.

Where every carton was opened each is judged by itself, and a published limit takes the count as it is. Hazards are
never weighed against a number of cartons.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from .carton import CartonJudged
from .facts import LineFacts
from .findings import Finding
from .opened import Stages
from .pooled import is_shown
from .reasons import whose_limit
from .severity_ranking import HAZARDS, HOLDS, effect, is_serious

_SUGGESTIONS = {
    "a": "hold",
    "b": "reject",
    "c": "hold",
    "e": "not_yet",
    "f": "accept_with_allowance",
    "g": "accept",
}


@dataclass(frozen=True)
class LineJudged:
    """A line with everything found in it. ``needed``: what must still be checked, without what was left out."""

    facts: LineFacts
    cartons: list[CartonJudged]
    line_findings: list[Finding]
    needed: list[str]
    stages: Stages

    @cached_property
    def findings(self) -> list[Finding]:
        """Findings of the line and of all its cartons."""
        return [*self.line_findings, *(one for carton in self.cartons for one in carton.judged.findings)]

    @property
    def defective(self) -> int:
        """Opened cartons with a fault of their own."""
        return sum(1 for carton in self.cartons if carton.is_defective)

    @property
    def is_whole(self) -> bool:
        """Whether every carton that came was opened."""
        counted = self.facts.cartons_counted
        return counted is not None and len(self.cartons) >= counted > 0

    @property
    def is_sorted(self) -> bool:
        """Whether the labels of all cartons were read."""
        counted, told = self.facts.cartons_counted, self.facts.sorted_by_label
        return counted is not None and told is not None and told.read >= counted

    def count(self, *effects: str) -> int:
        """Opened cartons with a finding that leads to one of these."""
        return sum(1 for carton in self.cartons if carton.leads_to(*effects))

    @cached_property
    def bad(self) -> int:
        """Opened cartons that count against the plan."""
        return self.count("unfit", "defect")

    @cached_property
    def shown_bad(self) -> int:
        """Those of the bad ones that are bad beyond chance."""
        return sum(1 for carton in self.cartons if self.is_shown_bad(carton))

    def is_shown_bad(self, carton: CartonJudged) -> bool:
        """Whether a carton is bad beyond chance."""
        return carton.leads_to("unfit") or any(
            effect(finding) == "defect" and is_shown(finding, self.cartons) for finding in carton.judged.findings
        )

    @property
    def is_low_throughout(self) -> bool:
        """Whether every opened carton is a little over a limit, none of them beyond chance."""
        return self.bad == len(self.cartons) > 0 and self.shown_bad == 0

    @property
    def is_clumped(self) -> bool:
        """Whether prawns frozen singly are clumped in every opened carton: not as bought."""
        clumped = [one for one in self.findings if one.code == "CLUMPED" and effect(one) == "quality"]
        return len(clumped) == len(self.cartons) > 0

    @property
    def is_hazard(self) -> bool:
        """Whether something that can hurt was found."""
        return any(finding.code in HAZARDS for finding in self.findings)

    def is_refused(self, carton: CartonJudged) -> bool:
        """Whether this carton is refused, whatever becomes of the others."""
        if carton.leads_to("unfit", "sort_refuse"):
            return True
        return carton.leads_to("defect") and (
            self.is_shown_bad(carton)
            or (self.is_whole and _is_defective_as_published(carton))
            or not (self.is_whole or self.is_low_throughout)
        )

    def is_over(self, bad: int) -> bool:
        """Whether so many bad cartons refuse the line by the plan."""
        opened, stages = len(self.cartons), self.stages
        if bad == 0:
            return False
        if opened >= stages.planned and bad == opened:
            return True
        return bad >= stages.rejection or (opened >= stages.total and bad > stages.last_acceptance)

    @property
    def is_second_stage_due(self) -> bool:
        """Whether the plan asks for more cartons: more bad than it accepts, not as many as it refuses at."""
        stages = self.stages
        return self.bad > stages.acceptance and len(self.cartons) < stages.total and not self.is_low_throughout


def _is_defective_as_published(carton: CartonJudged) -> bool:
    """Whether a published limit makes it a defective unit: that takes the count as it is, chance or not (CXS 92 §8)."""
    return any(
        effect(finding) == "defect" and whose_limit(finding) == "published" for finding in carton.judged.findings
    )


def _is_refused(line: LineJudged) -> bool:
    cartons = line.cartons
    if line.is_whole:
        return all(line.is_refused(carton) for carton in cartons)
    counted, told = line.facts.cartons_counted, line.facts.sorted_by_label
    differing = line.count("sort_refuse")
    if differing > 0 and len(cartons) >= line.stages.planned and differing == len(cartons):
        return True
    if differing > 0 and line.is_sorted and told is not None and told.differ >= (counted or 0):
        return True
    return line.is_over(line.bad) and line.is_over(line.shown_bad)


def _is_held(line: LineJudged) -> bool:
    if line.is_whole:
        left = [carton for carton in line.cartons if not line.is_refused(carton)]
        return any(effect(finding) in HOLDS for finding in line.line_findings) or (
            bool(left) and all(carton.leads_to(*HOLDS, "sort_hold") for carton in left)
        )
    papers = line.count("sort_hold")
    is_all = papers > 0 and papers == len(line.cartons) and papers >= line.stages.planned
    return is_all or line.count("unfit") > 0 or any(effect(finding) in HOLDS for finding in line.findings)


def has_more_to_do(line: LineJudged) -> bool:
    """Whether labels are to be sorted or more cartons to be opened before anything final is said."""
    if line.is_whole:
        return False
    return line.is_second_stage_due or (line.count("sort_refuse", "sort_hold") > 0 and not line.is_sorted)


def suggestion_of(step: str, line: LineJudged) -> str:
    """What a step suggests."""
    if step == "d":
        return "hold" if line.facts.declined else "not_yet"
    return _SUGGESTIONS[step]


def step_of(line: LineJudged, *, has_allowance: bool) -> str:
    """The first step that is true, "a" to "g", heaviest consequence first; see the module's own words."""
    if line.is_hazard:
        return "a"
    if _is_refused(line):
        return "b"
    if _is_held(line):
        return "c"
    if has_more_to_do(line):
        return "d"
    if line.needed:
        return "e"
    is_less = line.is_clumped or any(
        is_serious(finding) and effect(finding) in ("value", "wrap") for finding in line.findings
    )
    is_set_aside = any(line.is_refused(carton) or carton.leads_to(*HOLDS, "sort_hold") for carton in line.cartons)
    return "f" if is_less or is_set_aside or has_allowance else "g"


def split_for(line: LineJudged, suggestion: str) -> dict[str, int] | None:
    """Cartons accepted, refused and held; they add up to the cartons counted (CV-12-42)."""
    counted = line.facts.cartons_counted
    if counted is None or suggestion == "not_yet":
        return None
    if suggestion == "reject":
        return {"accepted": 0, "refused": counted, "held": 0}
    refused, held = _set_aside(line)
    refused, held = min(refused, counted), min(held, max(0, counted - refused))
    if suggestion == "hold":
        is_known_apart = (bool(line.facts.declined) or line.is_whole) and not line.is_hazard
        refused = refused if is_known_apart else 0
        return {"accepted": 0, "refused": refused, "held": counted - refused}
    return {"accepted": counted - refused - held, "refused": refused, "held": held}


def _set_aside(line: LineJudged) -> tuple[int, int]:
    """Cartons refused and held of those known, those sorted out by label among the unopened ones counted in."""
    refused = [carton for carton in line.cartons if line.is_refused(carton)]
    held = [carton for carton in line.cartons if carton not in refused and carton.leads_to(*HOLDS, "sort_hold")]
    told = line.facts.sorted_by_label
    if told is None:
        return len(refused), len(held)
    by_label = sum(1 for carton in refused if carton.leads_to("sort_refuse"))
    if line.count("sort_refuse") > 0:
        return len(refused) + max(0, told.differ - by_label), len(held)
    return len(refused), max(len(held), told.differ)
