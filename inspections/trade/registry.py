"""Which plain checks are there?

A plain check is a thing looked at or read, compared with one limit or with the order. It is a row of
``data/checks.json`` and nothing else: both languages read it from the document, judge it, show it and ask for it by
its row. What takes more than one comparison (count, net weight, temperature, life, species) has a module.

A row: ``name``; ``on`` what it stands (vehicle, carton, label) and ``at`` which path below that; ``type`` (choice,
flags, whole, score, pieces, reading, part, text) with its choices, range, scores or quantity; ``answers`` another check
in a second way, the first way entered counts; ``none`` the word for no sign at all, which stood alone in documents
written when one sign only could be given; ``outcomes``, tried in order, with limit, finding, the finding it stands
``after`` in the order of weight, what it ``leads_to``, the goods it is ``for`` (as ``asked_for``), the signs of which
it needs ``any_of``, and the answers to other checks it needs ``beside`` it; ``acts_on`` (pieces, carton, line,
delivery); ``asked_for`` (attribute of the order to the values for which it is asked); ``every_carton`` whether a line
waits for it, ``offered`` whether it is offered and asked of nobody, or for which goods; ``since`` the day from which
sets of limits know it (an older set is read with the shipped limit); ``step`` and ``place`` of its question in the
walk. Its words stand under its name in ``wording_en.json``, its bound in ``limits.json``.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any


def _are(ordered: Any, goods: dict[str, list[Any]]) -> bool:
    """Whether each attribute named has one of its values."""
    return all(getattr(ordered, key) in values for key, values in goods.items())


def _is_so(told: bool | dict[str, list[Any]], ordered: Any) -> bool:
    """Whether a row says so: of all goods, or of those named."""
    return _are(ordered, told) if isinstance(told, dict) else told


@dataclass(frozen=True)
class Outcome:
    """What an answer past its limit is found to be, and what comes of that."""

    code: str
    limit: str
    after: str
    leads_to: str
    acts_on: str
    sum: str
    goods: dict[str, list[Any]]
    any_of: tuple[str, ...]
    beside: dict[str, list[str]]

    def is_for(self, ordered: Any) -> bool:
        """Whether goods as ordered can be found to be this."""
        return _are(ordered, self.goods)

    def fits(self, signs: tuple[str, ...], seen: dict[str, Any]) -> bool:
        """Whether these signs, beside what else was seen, are this."""
        is_among = not self.any_of or any(sign in self.any_of for sign in signs)
        return is_among and all(seen[name] in values for name, values in self.beside.items())


@dataclass(frozen=True)
class Check:
    """One row; empty where a type has no use for an entry."""

    name: str
    on: str
    at: str
    type: str
    answers: str
    acts_on: str
    outcomes: tuple[Outcome, ...]
    choices: dict[str, Outcome | None]
    scores: tuple[int, ...] = ()
    low: int = 0
    high: int = 0
    quantity: str = ""
    of: str = ""
    numbers: tuple[str, ...] = ()
    counted_by: str = ""
    part_of: str = ""
    comparison: str = ""
    ordered: str = ""
    judged_by: str = ""
    note: str = ""
    none: str = ""
    since: str = ""
    nearest: str = ""
    every_carton: bool | dict[str, list[Any]] = False
    offered: bool | dict[str, list[Any]] = False
    asked_for: dict[str, list[Any]] = field(default_factory=dict)

    def is_asked_for(self, ordered: Any) -> bool:
        """Whether goods as ordered are asked about this, and can be found to be anything by it."""
        return _are(ordered, self.asked_for) and (not self.outcomes or bool(self.outcomes_for(ordered)))

    def is_waited_for(self, ordered: Any) -> bool:
        """Whether a line of such goods waits for it in every carton."""
        return self.is_asked_for(ordered) and _is_so(self.every_carton, ordered)

    def is_offered(self, ordered: Any) -> bool:
        """Whether it is offered for such goods and asked of nobody: black on the meat under a shell."""
        return _is_so(self.offered, ordered)

    def outcomes_for(self, ordered: Any) -> list[Outcome]:
        """The row's outcomes that goods as ordered can have, in the order in which they are tried."""
        return [outcome for outcome in self.outcomes if outcome.is_for(ordered)]

    @property
    def all_outcomes(self) -> tuple[Outcome, ...]:
        """Outcomes of the row and of its choices."""
        return (*self.outcomes, *(one for one in self.choices.values() if one is not None))


# The kind of sum that explains a finding, by the type of its check: a key of ``why`` in the file of sentences.
_SUMS = {
    "choice": "seen", "flags": "seen", "pieces": "share",
    "part": "weight_share", "reading": "value", "score": "score",
}
# What only the walk reads, and what an outcome holds.
_LEFT_ASIDE = {"step", "place", "sum"}


def _outcome(row: dict[str, Any], entry: dict[str, Any]) -> Outcome | None:
    if "code" not in entry:
        return None
    acts_on, leads_to = entry.get("acts_on", row["acts_on"]), entry.get("leads_to", "defect")
    kind = "label" if "comparison" in row else row.get("sum", _SUMS[row["type"]])
    conditions = (entry.get("for", {}), tuple(entry.get("any_of", ())), entry.get("beside", {}))
    return Outcome(entry["code"], entry["limit"], entry["after"], leads_to, acts_on, kind, *conditions)


def check_from_row(row: dict[str, Any]) -> Check:
    """A row of the registry as a check."""
    made = {
        "answers": row["name"],
        "acts_on": "",
        **{key: tuple(value) if isinstance(value, list) else value for key, value in row.items()},
        "outcomes": tuple(filter(None, (_outcome(row, entry) for entry in row.get("outcomes", ())))),
        "choices": {value: _outcome(row, entry) for value, entry in row.get("choices", {}).items()},
    }
    return Check(**{key: value for key, value in made.items() if key not in _LEFT_ASIDE})


def _rows() -> tuple[Check, ...]:
    with open(Path(__file__).parent / "data" / "checks.json", encoding="utf-8") as file:
        return tuple(check_from_row(row) for row in json.load(file)["checks"])


CHECKS: tuple[Check, ...] = _rows()
BY_NAME: dict[str, Check] = {check.name: check for check in CHECKS}
OUTCOMES: dict[str, Outcome] = {one.code: one for check in CHECKS for one in check.all_outcomes}


def checks_on(on: str) -> list[Check]:
    """The rows of a vehicle, carton or label, in the order in which they are judged."""
    return [check for check in CHECKS if check.on == on]


def choices_of(name: str) -> tuple[str, ...]:
    """The words that a check may be answered with."""
    return tuple(BY_NAME[name].choices)
