"""What was entered, as it was typed: the first column of the worksheet.

Nothing is converted here. An entry that was not made is left out; what that means is said by the check.
"""
from collections.abc import Iterable
from typing import Any

from inspections.evidence.entered import answer_shown, entered
from inspections.evidence.worksheet.words import TERMS, term
from inspections.trade.registry import checks_on
from inspections.trade.wording import WORDS, listed, word

LABEL_TEXTS = (
    "species_code", "scientific_name", "presentation", "state", "grade", "lot", "production_date", "frozen_on",
    "best_before", "origin", "catch_area", "method",
)
WEIGHTS = ("gross", "tare", "glazed", "deglazed")
Entry = dict[str, str]


def vehicle_entries(vehicle: dict[str, Any]) -> list[Entry]:
    """Air and load of the vehicle, and the thermometer that measured the air."""
    return [
        *_plain_entries("vehicle", vehicle), *_thermometer_entries(vehicle.get("thermometer") or {}),
    ]


def line_entries(line: dict[str, Any]) -> list[Entry]:
    """Cartons on the docket and counted, the lot, and the draw of the cartons to open."""
    drawn = line.get("sampling") or {}
    positions = drawn.get("positions") or []
    return _made([
        ("cartons_on_docket", line.get("cartons_on_docket")), ("cartons_counted", line.get("cartons_counted")),
        ("lot", line.get("lot")), ("plan", drawn.get("plan")), ("planned", drawn.get("n")),
        ("acceptance", drawn.get("acceptance")), ("seed", drawn.get("seed")), ("layers", drawn.get("layers")),
        ("positions", ", ".join(str(one) for one in positions)),
        ("more", ", ".join(str(one) for one in drawn.get("more") or [])), ("declined", drawn.get("declined")),
        ("sorted", _sorted(line.get("sorted") or {})),
        ("left_out", "; ".join(f"{word('not_checked', one.get('check', ''))}: {one.get('reason', '')}"
                               for one in line.get("left_out") or [])),
    ])


def _sorted(told: dict[str, Any]) -> str:
    return f"{told['read']}, {told['differ']}" if "read" in told and "differ" in told else ""


def carton_entries(carton: dict[str, Any]) -> list[Entry]:
    """Everything that was entered for an opened carton, in the order of the walk."""
    return [
        *_label_entries(carton.get("label")),
        *_plain_entries("carton", carton),
        *_temperature_entries(carton.get("temperature") or {}),
        *_made([(f"weight_{name}", entered((carton.get("weights") or {}).get(name))) for name in WEIGHTS]),
        *_sample_entries(carton.get("sample") or {}),
        *_made([("marks", (carton.get("marks") or {}).get("answer"))]),
    ]


def _made(pairs: Iterable[tuple[str, object]]) -> list[Entry]:
    """Entries that were made, with the name of each in words."""
    return [
        {"name": TERMS["entries"].get(name) or word("not_checked", name), "entered": str(value)}
        for name, value in pairs if value not in (None, "")
    ]


def _plain_entries(on: str, holder: dict[str, Any]) -> list[Entry]:
    """What each plain check was answered with, and the note beside it."""
    told = []
    for check in checks_on(on):
        told += [(check.name, answer_shown(check, holder)), (check.note, holder.get(check.note))]
    return _made(told)


def _label_entries(label: dict[str, Any] | None) -> list[Entry]:
    if not label:
        return []
    shows = label.get("shows")
    told = None if shows is None else listed([word("particulars", one) for one in shows]) or WORDS["sense"]["none"]
    return _made([
        ("label", label.get("source")), *[(name, label.get(name)) for name in LABEL_TEXTS],
        ("net", entered(label.get("net"))), ("shows", told),
    ])


def _temperature_entries(taken: dict[str, Any]) -> list[Entry]:
    told = [("product", entered(taken.get("product"))),
            ("is_above_zero", "yes" if taken.get("is_above_zero") is True else ""),
            ("probe", term("probe", taken.get("method") or ""))]
    return [*_made(told), *_thermometer_entries(taken.get("thermometer") or {})]


def _thermometer_entries(thermometer: dict[str, Any]) -> list[Entry]:
    return _made([
        ("thermometer", thermometer.get("name")), ("checked_at", thermometer.get("checked_at")),
        ("ice_point", entered(thermometer.get("ice_point"))), ("due_at", thermometer.get("due_at")),
    ])


def _sample_entries(sample: dict[str, Any]) -> list[Entry]:
    return _made([
        ("sample_pieces", sample.get("pieces")), ("sample_weight", entered(sample.get("weight"))),
        ("sample_weight_is", sample.get("weight_is")), ("sample_largest", entered(sample.get("largest"))),
        ("sample_smallest", entered(sample.get("smallest"))),
    ])
