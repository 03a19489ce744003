"""What must still be checked before a line is ready for a verdict?

Missing is never a pass (CV-0-06). Which checks a line must have follows from what was ordered: cartons counted, as many
opened as the plan asks, three product temperatures over the delivery (CV-12-17); in each opened carton the wrapping
where the pack has a liner, signs of refreezing, foreign matter, and what a look at the prawns tells; once a line a
smell, a count, a label, and species marks where shell or head is left to show them. More
is asked for where what was done cannot tell: too few prawns looked at, a reading that lacks its minus, one between
packs that only passes with its allowance, a slight smell that was taken frozen.
Of a carton that is settled (``CartonJudged.settled_by``) nothing more is asked, and of a line that is settled
(``settled_words``) nothing at all: what is still open would change nothing.
A unit weighed without its glaze takes longer than a driver waits (CV-12-13), so it is no such check.
The receiver may say why a check was left out; then record and docket say so. A temperature that decides, the count of
cartons and the specification cannot be left out.
Does not hold back a fault that was found: that counts even when other checks are missing.
"""

from __future__ import annotations

from .carton import CartonJudged
from .facts import DeliveryFacts, LineFacts
from .findings import NOT_CHECKED
from .labels import LABEL_CHECKS
from .limits import Limits
from .registry import CHECKS
from .specification import WITHOUT_MARKS, Ordered
from .temperature import counts_as_reading
from .wording import WORDS

NEVER_LEFT_OUT = ("specification", "cartons_counted", "cartons_opened", "product_readings", "temperature_sign")
# Offered under “More checks”, asked of nobody.
OFFERED = ("net_weight", "glaze", "uniformity")
# Asked until one carton of the line has it.
ONCE_A_LINE = ("odour", "count", "marks", "species", *LABEL_CHECKS)
# One more look that a finding asks for.
_ASKED_BY = (
    ("TEMP-SIGN", "temperature_sign"),
    ("TEMP-BETWEEN", "core_reading"),
    ("PIECES-UNSURE", "more_pieces"),
    ("LABEL-DATES", "dates_again"),
)


def carton_checks(ordered_by: Ordered) -> tuple[str, ...]:
    """Checks that each opened carton must have, in the order in which they are asked for."""
    return tuple(check.answers for check in CHECKS if check.is_waited_for(ordered_by))


def must_have(ordered_by: Ordered) -> tuple[str, ...]:
    """Every check that a line must have, by its specification, in the order in which they are asked for."""
    once = ("odour", *(() if ordered_by.is_soft_and_broken else ("count",)), "label")
    marks = () if ordered_by.presentation in WITHOUT_MARKS else ("marks",)
    return ("cartons_counted", "cartons_opened", "product_readings", *carton_checks(ordered_by), *once, *marks)


def needed_for(
    line: LineFacts, ordered_by: Ordered, cartons: list[CartonJudged], planned: int, limits: Limits, *,
    has_readings: bool, about: list[CartonJudged],
) -> list[str]:  # fmt: skip
    """Checks that must be made before the line is ready, in the order in which they are asked for.

    Parameters
    ----------
    line : LineFacts
    ordered_by : Ordered
        Says which checks its pack, presentation and grade ask for.
    cartons : list of CartonJudged
    planned : int
        Cartons that the plan opens.
    limits : Limits
    has_readings : bool
        Whether the delivery has enough product temperatures, see ``has_enough_readings``.
    about : list of CartonJudged
        Those of the cartons that are asked about: all of them, or those that are not settled.
    """
    needed = []
    if line.cartons_counted is None:
        needed.append("cartons_counted")
    if len(cartons) < planned:
        needed.append("cartons_opened")
    codes = {finding.code for carton in about for finding in carton.judged.findings}
    # A missing minus is asked about by itself.
    if not has_readings and "TEMP-SIGN" not in codes:
        needed.append("product_readings")
    needed += [name for name in carton_checks(ordered_by) if any(_is_open(carton, name) for carton in about)]
    if about:
        needed += _once_a_line(ordered_by, cartons)
        needed += [name for code, name in _ASKED_BY if code in codes]
        needed += _asked_again(about, codes, limits)
    return needed


def settled_words(step: str) -> str:
    """What ends the questions of a line, in words, from its step (``outcome``): a hazard, or that it is refused."""
    return str(WORDS["settled"].get({"a": "hazard", "b": "refused"}.get(step), ""))


def _is_open(carton: CartonJudged, name: str) -> bool:
    return carton.judged.checks.get(name, NOT_CHECKED) == NOT_CHECKED


def _once_a_line(ordered_by: Ordered, cartons: list[CartonJudged]) -> list[str]:
    needed = ["odour"] if all(_is_open(carton, "odour") for carton in cartons) else []
    if not ordered_by.is_soft_and_broken and all(
        carton.judged.derived.get("count_per_lb") is None for carton in cartons
    ):
        needed.append("count")
    if all(carton.facts.label is None for carton in cartons):
        needed.append("label")
    if ordered_by.presentation not in WITHOUT_MARKS and all(_is_open(carton, "marks") for carton in cartons):
        needed.append("marks")
    return needed


def _asked_again(cartons: list[CartonJudged], codes: set[str], limits: Limits) -> list[str]:
    """More prawns, a larger sample, or the smell again after thaw."""
    asked = []
    looked_at = [carton.facts.seen["looked_at"] for carton in cartons if carton.facts.seen["looked_at"] is not None]
    if looked_at and "PIECES-UNSURE" not in codes and not limits["looked_at"].is_fine(sum(looked_at)):
        asked.append("more_pieces")
    if "COUNT-UNSURE" in codes and not any(
        carton.judged.checks.get("count") in ("within", "beyond") for carton in cartons
    ):
        asked.append("count_more")
    if "NET-UNLIKELY" in codes and not any(
        carton.judged.checks.get("net_weight") in ("within", "beyond") for carton in cartons
    ):
        asked.append("net_again")
    slight = [carton for carton in cartons if any(one.code == "ODOUR-SLIGHT" for one in carton.judged.findings)]
    if any(carton.facts.seen["odour_taken"] != "thawed" for carton in slight):
        asked.append("odour_thawed")
    return asked


def left_out_of(line: LineFacts, needed: list[str]) -> list[dict[str, str]]:
    """Checks needed that the receiver left out, each with the reason given."""
    reasons = dict(line.left_out)
    return [
        {"check": name, "reason": reasons[name]} for name in needed if name in reasons and name not in NEVER_LEFT_OUT
    ]


def not_checked_in(needed: list[str], cartons: list[CartonJudged], ordered_by: Ordered) -> list[str]:
    """What was asked and not done: what must be checked first, then every other check open in a carton, each once.

    Parameters
    ----------
    needed : list of str
        Checks that the line waits for, and those left out with a reason.
    cartons : list of CartonJudged
        Opened cartons that are not settled: of the others nothing more is asked.
    ordered_by : Ordered
    """
    names = list(needed)
    offered = (*OFFERED, *(check.answers for check in CHECKS if check.is_offered(ordered_by)))
    for carton in cartons:
        for name in carton.judged.checks:
            asked_of = cartons if name in ONCE_A_LINE else [carton]
            if name not in (*offered, *names) and all(_is_open(one, name) for one in asked_of):
                names.append(name)
        seen = carton.facts.seen
        if seen["odour"] is not None and seen["odour_taken"] is None and "odour_taken" not in names:
            names.append("odour_taken")
    return names


def has_enough_readings(delivery: DeliveryFacts, limits: Limits) -> bool:
    """Three product readings over the delivery's opened cartons, or one each where fewer are open (CV-12-17)."""
    cartons = [carton for line in delivery.lines for carton in line.cartons]
    readings = sum(1 for carton in cartons if counts_as_reading(carton, limits))
    asked = limits["product_readings"].bound or 0.0
    return readings >= min(asked, len(cartons))
