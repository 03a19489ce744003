"""One opened carton as a supplier reads it: each check with what was found, and what was left unchecked."""
from dataclasses import dataclass

from inspections.evidence.entered import answered, entered
from inspections.trade.grades import customary_per, parse_grade
from inspections.trade.quantities import UnusableGrade
from inspections.trade.wording import shown, shown_measure, word

PROBE = {"between_packs": "between packs", "core": "in the core", "surface": "on the surface"}
#: Names that read otherwise once the check was made.
NAMES = {"count": "count on a weighed sample", "label": "label"}


@dataclass(frozen=True)
class Check:
    """One check of a carton: its name, what was found, and whether it keeps to the limit."""

    name: str
    found: str
    state: str
    state_words: str


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


def carton_page(carton: dict, judged: dict, ordered: dict) -> CartonPage:
    """A carton of the signed document with what was judged of it; the count in the unit of the size ordered."""
    derived = {**judged["derived"], "count": judged["derived"].get(f"count_per_{_count_unit(ordered)}")}
    made = [
        Check(_name(name), _found(name, carton, derived, _count_unit(ordered)), state, word("check", state))
        for name, state in judged["checks"].items()
    ]
    return CartonPage(
        position=carton.get("position"), is_defective=judged["defective"], label=_label(carton.get("label")),
        checks=[one for one in made if one.state in {"beyond", "cannot_tell"}],
        within=[f"{one.name} ({one.found})" if one.found else one.name for one in made if one.state == "within"],
        not_checked=[one.name for one in made if one.state == "not_checked"], note=carton.get("note") or "",
    )


def _name(check: str) -> str:
    return NAMES.get(check) or word("not_checked", check)


def _count_unit(ordered: dict) -> str:
    try:
        return parse_grade(ordered.get("grade") or "", customary_per(ordered.get("presentation") or "")).per
    except UnusableGrade:
        return "lb"


def _found(name: str, carton: dict, derived: dict, count_unit: str) -> str:
    if name == "count":
        return _derived("count", f"per_{count_unit}")(carton, derived)
    if name in FOUND:
        return FOUND[name](carton, derived)
    return answered(name, carton) or answered(name, carton.get("label") or {})


def _temperature(carton: dict, derived: dict) -> str:
    taken = carton.get("temperature") or {}
    where = PROBE.get(taken.get("method"), "")
    return ", ".join(filter(None, [entered(taken.get("product")), where]))


def _derived(key: str, unit: str):
    def found(carton: dict, derived: dict) -> str:
        value = derived.get(key)
        return "" if value is None else shown_measure(value, unit)

    return found


def _life(carton: dict, derived: dict) -> str:
    left = derived.get("life_days_left")
    share = derived.get("life_share")
    told = [f"best before {carton['label']['best_before']}"] if (carton.get("label") or {}).get("best_before") else []
    told += [f"{shown(left, 0)} days left"] if left is not None else []
    told += [f"{shown_measure(share, 'share')} of its life"] if share is not None else []
    return ", ".join(told)


def _marks(carton: dict, derived: dict) -> str:
    return {"agree": "agree with the species ordered", "disagree": "do not agree with the species ordered",
            "unsure": "not sure"}.get((carton.get("marks") or {}).get("answer"), "")


#: What is found by a judgement of its own; the rest is as answered.
FOUND = {
    "product_c": _temperature,
    "net_weight": _derived("net_g", "g"),
    "glaze": _derived("glaze_percent", "percent"),
    "uniformity": _derived("uniformity", "ratio"),
    "species": lambda carton, derived: (carton.get("label") or {}).get("species_code") or "",
    "life": _life,
    "marks": _marks,
}


def _label(label: dict | None) -> str:
    if not label:
        return ""
    parts = [label.get("scientific_name"), label.get("presentation"), label.get("grade"), entered(label.get("net")),
             f"lot {label['lot']}" if label.get("lot") else None]
    parts = [part for part in parts if part]
    how = "Label read by scanner" if label.get("source") == "scan" else "Label typed in"
    return f"{how}: {', '.join(parts)}." if parts else f"{how}."
