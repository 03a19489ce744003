"""One opened carton as a supplier reads it: each check with what was found, and what was left unchecked."""
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from inspections.evidence.entered import answered, entered
from inspections.evidence.species_names import species_named
from inspections.trade.grades import customary_per, parse_grade
from inspections.trade.quantities import UnusableGrade
from inspections.trade.whose import limit_said, own_limits, whose_limit
from inspections.trade.wording import filled, shown, shown_measure, word

#: What was found, from the opened carton and the numbers derived from it.
FoundIn = Callable[[dict[str, Any], dict[str, Any]], str]
PROBE = {"between_packs": "between packs", "core": "in the core", "surface": "on the surface"}
#: Names that read otherwise once the check was made.
NAMES = {"count": "count on a weighed sample", "label": "label"}


@dataclass(frozen=True)
class Check:
    """One check of a carton: its name, what was found, the limit and whose it is, and whether it keeps to it.

    ``why`` says of a check that cannot tell what keeps it from telling.
    """

    name: str
    found: str
    limit: str
    whose: str
    state: str
    state_words: str
    why: str


@dataclass(frozen=True)
class CartonPage:
    """An opened carton: ``checks`` past a limit or in doubt, the others as words for a sentence."""

    position: int | None
    is_defective: bool
    label: str
    checks: list[Check]
    within: list[str]
    not_checked: list[str]
    note: str


def carton_page(
    carton: dict[str, Any], judged: dict[str, Any], ordered: dict[str, Any], rows: Sequence[dict[str, Any]] = (),
    limits: Sequence[dict[str, Any]] = (), *, asked: Sequence[str],
) -> CartonPage:
    """A carton of the signed document with what was judged of it; the count in the unit of the size ordered.

    ``asked`` names what was asked of the line and not done, ``rows`` are the worksheet's checks of the carton,
    ``limits`` the set as sealed.
    """
    derived = {**judged["derived"], "count": judged["derived"].get(f"count_per_{_count_unit(ordered)}")}
    by_code = {limit["code"]: limit for limit in limits}
    made = [
        _check(name, state, _found(name, carton, derived, _count_unit(ordered)),
               next((row for row in rows if row["check"] == name and row["state"] == state), {}), by_code, ordered)
        for name, state in judged["checks"].items()
    ]
    return CartonPage(
        position=carton.get("position"), is_defective=judged["defective"], label=_label(carton.get("label")),
        checks=[one for one in made if one.state in {"beyond", "cannot_tell"}],
        within=[f"{one.name} ({one.found})" if one.found else one.name for one in made if one.state == "within"],
        not_checked=[
            _name(name) for name, state in judged["checks"].items() if state == "not_checked" and name in asked
        ],
        note=carton.get("note") or "",
    )


def _check(
    name: str, state: str, found: str, row: dict[str, Any], limits: dict[str, dict[str, Any]], ordered: dict[str, Any]
) -> Check:
    limit = " ".join(filter(None, [row.get("comparison"), row.get("limit"), row.get("limit") and row.get("unit")]))
    whose, bound = row.get("source") or "", limits.get(f"{name}_share")
    is_open = state == "cannot_tell"
    if is_open and not limit and bound:
        # What could not be told has no row against its limit; the limit stands all the same.
        limit = filled(word("sense", bound["sense"]), {"bound": shown_measure(bound["bound"], bound["unit"])})
        whose = limit_said(bound["code"], bound["basis"], whose_limit(
            bound["code"], bound["basis"], is_own=bound["code"] in own_limits(ordered)))
    share = f"{shown(float(row['number']), 1)} %" if row.get("unit") == "%" and found.endswith(" prawns") else ""
    return Check(
        name=_name(name), found=f"{found}, {share}" if share else found, limit=limit, whose=whose, state=state,
        state_words=word("check", state), why=row.get("words", "") if is_open else "",
    )


def _name(check: str) -> str:
    return NAMES.get(check) or word("not_checked", check)


def _count_unit(ordered: dict[str, Any]) -> str:
    try:
        return parse_grade(ordered.get("grade") or "", customary_per(ordered.get("presentation") or "")).per
    except UnusableGrade:
        return "lb"


def _found(name: str, carton: dict[str, Any], derived: dict[str, Any], count_unit: str) -> str:
    if name == "count":
        return _derived("count", f"per_{count_unit}")(carton, derived)
    if name in FOUND:
        return FOUND[name](carton, derived)
    return answered(name, carton) or answered(name, carton.get("label") or {})


def _temperature(carton: dict[str, Any], derived: dict[str, Any]) -> str:
    taken = carton.get("temperature") or {}
    where = PROBE.get(taken.get("method", ""), "")
    return ", ".join(filter(None, [entered(taken.get("product")), where]))


def _derived(key: str, unit: str) -> FoundIn:
    def found(carton: dict[str, Any], derived: dict[str, Any]) -> str:
        value = derived.get(key)
        return "" if value is None else shown_measure(value, unit)

    return found


def _life(carton: dict[str, Any], derived: dict[str, Any]) -> str:
    left = derived.get("life_days_left")
    share = derived.get("life_share")
    told = [f"best before {carton['label']['best_before']}"] if (carton.get("label") or {}).get("best_before") else []
    told += [f"{shown(left, 0)} days left"] if left is not None else []
    told += [f"{shown_measure(share, 'share')} of its life"] if share is not None else []
    return ", ".join(told)


def _marks(carton: dict[str, Any], derived: dict[str, Any]) -> str:
    return {"agree": "agree with the species ordered", "disagree": "do not agree with the species ordered",
            "unsure": "not sure"}.get((carton.get("marks") or {}).get("answer", ""), "")


#: What is found by a judgement of its own; the rest is as answered.
FOUND: dict[str, FoundIn] = {
    "product_c": _temperature,
    "net_weight": _derived("net_g", "g"),
    "glaze": _derived("glaze_percent", "percent"),
    "uniformity": _derived("uniformity", "ratio"),
    "species": lambda carton, derived: species_named((carton.get("label") or {}).get("species_code") or ""),
    "life": _life,
    "marks": _marks,
}


def _label(label: dict[str, Any] | None) -> str:
    if not label:
        return ""
    told = [label.get("scientific_name"), label.get("presentation"), label.get("grade"), entered(label.get("net")),
             f"lot {label['lot']}" if label.get("lot") else None]
    parts = [part for part in told if part]
    how = "Label read by scanner" if label.get("source") == "scan" else "Label typed in"
    return f"{how}: {', '.join(parts)}." if parts else f"{how}."
