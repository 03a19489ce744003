"""The plain checks as rows: what was answered, against the limit that its row of the registry names."""
from collections.abc import Callable, Iterator
from typing import Any

from inspections.evidence.worksheet.earlier import FIRST_TO_REACH
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
from inspections.trade.checks import Seen, measured_of
from inspections.trade.limits import Limit, Limits
from inspections.trade.registry import Check, Outcome, checks_on
from inspections.trade.wording import answer_word, listed

NO_CHECKS: dict[str, str] = {}


def _no_edition(limit: Limit) -> str:
    return ""


def plain_rows(
    on: str, seen: Seen, limits: Limits, checks: dict[str, str] = NO_CHECKS,
    edition: Callable[[Limit], str] = _no_edition, ordered: Any = None, version: int = FIRST_TO_REACH,
) -> Iterator[Row]:
    """Every plain check of a vehicle or carton that the judgement knew; what was not checked is a row as well.

    ``checks`` are the sealed states, ``edition`` says whose bound a limit has, ``version`` is the edition of the
    judgement.
    """
    rows = [check for check in checks_on(on) if not check.judged_by]
    for name in dict.fromkeys(check.answers for check in rows):
        if checks and name not in checks:
            continue
        ways = [check for check in rows if check.answers == name]
        made = next((check for check in ways if _is_made(check, seen, checks)), None)
        if made is not None:
            yield from _rows(made, seen, limits, checks, edition, _outcomes(made, seen, limits, ordered, version))
        elif checks.get(name) == WITHIN:
            yield open_row(name, WITHIN, "", TERMS["worksheet"]["sealed"])
        elif ways[-1].is_asked_for(ordered):
            yield open_row(name)


def _outcomes(check: Check, seen: Seen, limits: Limits, ordered: Any, version: int) -> list[Outcome]:
    """The outcomes of a row that an edition knew, for goods as ordered: the sealed limits lack the later ones."""
    known = check.outcomes_for(ordered) if version >= FIRST_TO_REACH else check.outcomes
    return [outcome for outcome in known if outcome.limit in limits.by_code]


def _is_made(check: Check, seen: Seen, checks: dict[str, str]) -> bool:
    if check.part_of and checks.get(check.answers, NOT_CHECKED) != NOT_CHECKED:
        return True
    return seen[check.name] is not None and (check.type != "pieces" or seen["looked_at"] is not None)


def _rows(check: Check, seen: Seen, limits: Limits, checks: dict[str, str],
          edition: Callable[[Limit], str], outcomes: list[Outcome]) -> Iterator[Row]:
    state = checks.get(check.answers, NOT_CHECKED)
    if check.type == "choice":
        yield _choice(check, seen[check.name], limits, state)
        return
    if check.type == "flags":
        yield from _flags(check, seen, limits, outcomes)
        return
    measured = measured_of(check, seen)
    if measured is None and state == CANNOT_TELL:
        yield open_row(check.answers, CANNOT_TELL, "", TERMS["worksheet"]["part_unknown"])
        return
    # Where the worse fault was not counted apart, the share with any stands as the most it can be.
    share = measured[0] if measured is not None else seen[check.part_of] / seen["looked_at"]
    for outcome in outcomes:
        limit = limits[outcome.limit]
        row = measured_row(check.answers, share, limit, outcome.code, edition(limit))
        if row.state == BEYOND and state == CANNOT_TELL:
            yield open_row(check.answers, CANNOT_TELL, f"{row.number} %", TERMS["worksheet"]["few_pieces"])
            return
        yield row
        if row.state == BEYOND:
            return


def _flags(check: Check, seen: Seen, limits: Limits, outcomes: list[Outcome]) -> Iterator[Row]:
    """Signs seen, against the strongest outcome that they are, or each against its own; none seen beside the first."""
    signs = seen[check.name]
    if not outcomes:
        yield from _each_sign(check, signs, limits)
        return
    outcome = next((one for one in outcomes if signs and one.fits(signs, seen)), outcomes[0])
    found = listed([answer_word(check.name, one) for one in signs])
    yield word_row(check.answers, found or "none", "is", "none", BEYOND if found else WITHIN, limits[outcome.limit],
                   outcome.code)


def _each_sign(check: Check, signs: tuple[str, ...], limits: Limits) -> Iterator[Row]:
    fine, nearest = answer_word(check.name, check.none), check.choices[check.nearest]
    found = [(sign, own) for sign in signs if (own := check.choices[sign]) is not None]
    for sign, own in found:
        yield word_row(check.answers, answer_word(check.name, sign), "is", fine, BEYOND, limits[own.limit], own.code)
    if not found and nearest is not None:
        yield word_row(check.answers, fine, "is", fine, WITHIN, limits[nearest.limit], "")


def _choice(check: Check, found: str, limits: Limits, state: str) -> Row:
    """A fine word has no limit of its own: the nearest fault's is shown beside it."""
    outcome = check.choices[found]
    fault = outcome or check.choices[check.nearest]
    if fault is None or (outcome is not None and state == WITHIN):
        return open_row(check.answers, WITHIN, answer_word(check.name, found), TERMS["worksheet"]["sealed"])
    fine = [word for word, leads_to in check.choices.items() if leads_to is None]
    comparison, wanted = ("is", fine[0]) if len(fine) == 1 else ("is_not", check.nearest)
    return word_row(check.answers, answer_word(check.name, found), comparison, answer_word(check.name, wanted),
                    BEYOND if outcome else WITHIN, limits[fault.limit], outcome.code if outcome else "")
