"""The checks of a label as rows: what it states against what was ordered, asked for, and the day."""
from collections.abc import Iterator

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
from inspections.trade.grades import customary_per, parse_grade
from inspections.trade.labels import LABEL_CHECKS, TRACED_BY, is_larger_grade, missing_particulars
from inspections.trade.quantities import UnusableGrade
from inspections.trade.species import code_of_name, species_code
from inspections.trade.wording import listed, word


def label_rows(look: Look) -> list[Row]:
    """Species and marks, particulars, what was ordered, and the life left."""
    label = look.facts.label
    rows = [_species(look), _marks(look)]
    if label is None:
        return [*rows, *(open_row(check) for check in LABEL_CHECKS)]
    return [
        *rows, *_shows(look), _stated(look, "presentation", label.presentation, look.ordered.presentation),
        _stated(look, "state", label.state, look.ordered.state),
        _stated(look, "method", label.method, look.ordered.method), _grade(look), _net(look),
        _lot(look), _origin(look), *_life(look),
    ]


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


def _shows(look: Look) -> Iterator[Row]:
    label = look.facts.label
    if label.shows is None:
        yield from (open_row(check) for check in ("particulars", "crustacean"))
        return
    missing = missing_particulars(label.shows, look.ordered.market, label.method)
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


def _stated(look: Look, check: str, found: str | None, ordered: str | None) -> Row:
    if found is None or ordered is None:
        return open_row(check)
    state = WITHIN if found == ordered else BEYOND
    return word_row(check, word(check, found), "is", word(check, ordered), state, look.limits[f"label.{check}"],
                    f"LABEL-{check.upper()}")


def _grade(look: Look) -> Row:
    label = look.facts.label
    if label.grade == "":
        return open_row("grade")
    state = look.checks["grade"]
    if state == CANNOT_TELL:
        return open_row("grade", CANNOT_TELL, label.grade)
    found, ordered = grade_read(look, label.grade), grade_read(look, look.ordered.grade)
    pair = (found, ordered) if found and ordered else (label.grade, look.ordered.grade)
    is_larger = look.version >= FIRST_TO_REACH and state == BEYOND and is_larger_grade(
        label.grade, look.ordered.grade, look.ordered.presentation)
    limit, code = ("count_larger", "LABEL-LARGER") if is_larger else ("label.grade", "LABEL-GRADE")
    return word_row("grade", pair[0], "is", pair[1], state, look.limits[limit], code)


def _net(look: Look) -> Row:
    label = look.facts.label
    if label.net_g is None:
        return open_row("net")
    if look.checks["net"] == WITHIN and label.net_g > look.ordered.carton_net_g + 1.0:
        return open_row("net", WITHIN, f"{written(label.net_g)} g", TERMS["worksheet"]["more_than_ordered"])
    wanted = f"{written(look.ordered.carton_net_g)} g or {written(look.ordered.unit_net_g)} g"
    return word_row("net", f"{written(label.net_g)} g", "near", wanted, look.checks["net"], look.limits["label.net"],
                    "LABEL-NET")


def _lot(look: Look) -> Row:
    label = look.facts.label
    if label.lot == "" or look.line.lot == "":
        return open_row("lot")
    return word_row("lot", label.lot, "alike", look.line.lot, look.checks["lot"], look.limits["label.lot"],
                    "LABEL-LOT")


def _origin(look: Look) -> Row:
    label = look.facts.label
    if label.origin == "" or not look.ordered.origin:
        return open_row("origin")
    return word_row("origin", label.origin, "one_of", ", ".join(look.ordered.origin), look.checks["origin"],
                    look.limits["label.origin"], "LABEL-ORIGIN")


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
