"""The checks of a label as rows: what it states against what was ordered, asked for, and the day."""
from collections.abc import Iterator
from typing import Any

from inspections.evidence.worksheet.earlier import FIRST_TO_REACH
from inspections.evidence.worksheet.look import Look
from inspections.evidence.worksheet.numbers import written
from inspections.evidence.worksheet.rows import (
    BEYOND,
    CANNOT_TELL,
    NOT_CHECKED,
    WITHIN,
    Row,
    measured_row,
    open_row,
    word_row,
)
from inspections.evidence.worksheet.words import TERMS
from inspections.trade.carton_facts import LabelFacts
from inspections.trade.grades import customary_per, parse_grade
from inspections.trade.labels import LABEL_CHECKS, TRACED_BY, is_larger_grade, missing_particulars
from inspections.trade.quantities import UnusableGrade
from inspections.trade.registry import Check, checks_on
from inspections.trade.species import code_of_name, species_code
from inspections.trade.wording import answer_word, listed, word


def label_rows(look: Look) -> list[Row]:
    """Species and marks, particulars, what was ordered, and the life left."""
    label = look.facts.label
    rows = [_species(look), _marks(look)]
    if label is None:
        return [*rows, *(open_row(check) for check in LABEL_CHECKS)]
    return [*rows, *_shows(look, label), *(_stated(look, label, check) for check in checks_on("label")), *_life(look)]


def grade_read(look: Look, text: str) -> str | None:
    """A size in its one spelling; None where it cannot be read."""
    try:
        return parse_grade(text, customary_per(look.ordered.presentation)).text
    except UnusableGrade:
        return None


def _species(look: Look) -> Row:
    label = look.facts.label
    if label is None or (label.species_code == "" and label.scientific_name == ""):
        return open_row("species")
    codes = (species_code(label.species_code), code_of_name(label.scientific_name))
    stated = list(dict.fromkeys(code for code in codes if code))
    if not stated:
        return open_row("species", CANNOT_TELL, label.species_code or label.scientific_name)
    state = WITHIN if all(code == look.ordered.species_code for code in stated) else BEYOND
    return word_row("species", listed(stated), "is", look.ordered.species_code, state, look.limits["species.label"],
                    "SPECIES-LABEL")


def _marks(look: Look) -> Row:
    answer = look.facts.marks
    if answer is None:
        return open_row("marks")
    if answer == "unsure":
        return open_row("marks", CANNOT_TELL, answer, look.limits["species.unsure"].basis.words)
    state = WITHIN if answer == "agree" else BEYOND
    return word_row("marks", answer, "is", "agree", state, look.limits["species.marks"], "SPECIES-MARKS")


def _shows(look: Look, label: LabelFacts) -> Iterator[Row]:
    if label.shows is None:
        yield from (open_row(check) for check in ("particulars", "crustacean"))
        return
    missing = missing_particulars(label.shows, look.ordered.market, label.seen["method"])
    traced = [one for one in missing if one in (*TRACED_BY, "producer")] if "trace" in look.checks else []
    is_untraced = any(one in TRACED_BY for one in traced)
    told = ("crustacean", *(traced if is_untraced else ()))
    rest = [word("particulars", one) for one in missing if one not in told]
    limits, none = look.limits, TERMS["worksheet"]["none_missing"]
    yield word_row("particulars", f"{TERMS['worksheet']['missing']} {listed(rest)}" if rest else none, "is", none,
                   BEYOND if rest else WITHIN, limits["label.particulars"], "LABEL-PARTICULARS")
    if "trace" in look.checks:
        found = listed([word("particulars", one) for one in traced]) if is_untraced else none
        yield word_row("trace", found, "is", none, BEYOND if is_untraced else WITHIN, limits["label.trace"],
                       "LABEL-TRACE")
    is_missing = "crustacean" in missing
    shown = TERMS["worksheet"]["shown"]
    yield word_row("crustacean", TERMS["worksheet"]["not_shown"] if is_missing else shown, "is", shown,
                   BEYOND if is_missing else WITHIN, limits["label.crustacean"], "LABEL-CRUSTACEAN")


def _stated(look: Look, label: LabelFacts, check: Check) -> Row:
    """What the label states against what was ordered, as the judgement compared it."""
    found, state = label.seen[check.name], look.checks[check.name]
    if found is None or state == NOT_CHECKED:
        return open_row(check.name)
    if state == CANNOT_TELL:
        return open_row(check.name, CANNOT_TELL, str(found))
    if check.name == "net" and state == WITHIN and found > look.ordered.carton_net_g + 1.0:
        return open_row(check.name, WITHIN, f"{written(found)} g", TERMS["worksheet"]["more_than_ordered"])
    outcome = check.outcomes[0]
    limit, code = outcome.limit, outcome.code
    if check.comparison == "grade" and look.version >= FIRST_TO_REACH and state == BEYOND and is_larger_grade(
        found, look.ordered.grade, look.ordered.presentation
    ):
        limit, code = "count_larger", "LABEL-LARGER"
    shown, wanted = _told(look, check, found)
    comparison = "is" if check.comparison == "grade" else check.comparison
    return word_row(check.name, shown, comparison, wanted, state, look.limits[limit], code)


def _told(look: Look, check: Check, found: Any) -> tuple[str, str]:
    if check.comparison == "near":
        wanted = f"{written(look.ordered.carton_net_g)} g or {written(look.ordered.unit_net_g)} g"
        return f"{written(found)} g", wanted
    ordered = look.line.lot if check.ordered == "docket_lot" else getattr(look.ordered, check.ordered)
    if check.comparison == "grade":
        read = grade_read(look, found), grade_read(look, ordered)
        return read if all(read) else (found, ordered)  # type: ignore[return-value]  # all() leaves no None
    if check.choices:
        return answer_word(check.name, found), answer_word(check.name, ordered)
    return found, ", ".join(ordered) if isinstance(ordered, tuple) else ordered


def _life(look: Look) -> Iterator[Row]:
    left, share, state = look.number("life_days_left"), look.number("life_share"), look.checks["life"]
    if left is None:
        yield open_row("life", NOT_CHECKED)
        return
    limit = look.limits["life_days_left"]
    days = measured_row("days_left", left, limit, "DATE-PAST", look.edition(limit))
    yield days
    if share is not None:
        limit = look.limits["life_share"]
        little = look.limits.by_code.get("life_little")
        is_little = little is not None and limit.bound and not little.is_fine(share / limit.bound)
        code = "LIFE-LITTLE" if is_little and look.version >= FIRST_TO_REACH else "LIFE-SHORT"
        yield measured_row("life", share, limit, code, look.edition(limit))
    elif state == CANNOT_TELL:
        yield open_row("life", CANNOT_TELL, "", look.limits["label.dates"].basis.words)
