"""The worksheet of a delivery: its lines in order, each from entries to decision."""
from dataclasses import dataclass
from typing import Any

from inspections.evidence.worksheet.cartons import carton_rows
from inspections.evidence.worksheet.earlier import FIRST_TO_REACH
from inspections.evidence.worksheet.entries import carton_entries, line_entries, vehicle_entries
from inspections.evidence.worksheet.lines import LineSheet, line_sheet
from inspections.evidence.worksheet.look import Look, limits_in_force, sealed_limits
from inspections.evidence.worksheet.plain import plain_rows
from inspections.evidence.worksheet.rows import (
    Row,
    in_words,
    open_row,
    reason_row,
)
from inspections.evidence.worksheet.sums import carton_sums
from inspections.evidence.worksheet.words import TERMS
from inspections.trade.carton import judge_carton
from inspections.trade.facts import DeliveryFacts, LineFacts, facts_from_document
from inspections.trade.limits import Limits
from inspections.trade.opened import stages_of
from inspections.trade.outcome import LineJudged
from inspections.trade.reasons import explain, where_words
from inspections.trade.specification import Ordered, specifications_from_json
from inspections.trade.wording import filled

#: Checks that have no limit of their own: what they find is a note.
ROWLESS = ("sulphites",)
DEFECTIVE = ("hazard", "reject", "unfit", "sort_refuse", "sort_hold", "hold", "defect")


@dataclass(frozen=True)
class Given:
    """The sealed record, read: the delivery, what was ordered by id, limits, and what could not be used."""

    delivery: DeliveryFacts
    ordered: dict[str, Ordered]
    limits: Limits
    unusable: list[dict[str, Any]]
    version: int


def worksheet_of(record: dict[str, Any]) -> dict[str, Any]:
    """The worksheet of a sealed delivery.

    Parameters
    ----------
    record : dict
        Of the sealed content: ``document``, ``specifications``, ``limits``, ``judgement``.

    Returns
    -------
    dict
        ``limits`` (name and version), ``vehicle``, ``lines``; all numbers as text as printed.
    """
    document, judgement = record["document"], record["judgement"]
    by_id, _ = specifications_from_json(record["specifications"])
    limits = sealed_limits(record["limits"], judgement["judgement_version"])
    given = Given(facts_from_document(document), by_id, limits, judgement["unusable"],
                  judgement["judgement_version"])
    raw_lines = [line for line in document.get("lines") or [] if isinstance(line, dict)]
    return {
        "limits": filled(TERMS["worksheet"]["limits"], {
            "name": str(record["limits"].get("name", "")), "version": str(record["limits"].get("version", "")),
        }),
        "vehicle": _vehicle(document.get("vehicle") or {}, given, judgement["vehicle"]["reasons"]),
        "lines": [
            _line(number, raw, facts, judged, given)
            for number, (raw, facts, judged) in enumerate(
                zip(raw_lines, given.delivery.lines, judgement["lines"], strict=True), start=1)
        ],
    }


def _vehicle(raw: dict[str, Any], given: Given, reasons: list[dict[str, Any]]) -> dict[str, Any]:
    rows = list(plain_rows("vehicle", given.delivery.seen, given.limits))
    return {"entries": vehicle_entries(raw), "checks": in_words([*rows, *_others(rows, reasons)], given.version)}


def _others(rows: list[Row], reasons: list[dict[str, Any]]) -> list[Row]:
    """Findings of the sealed judgement that none of the rows shows; notes are told apart."""
    shown = {row.code for row in rows if row.code}
    return [reason_row(reason) for reason in reasons if reason["code"] not in shown and reason["severity"] != "note"]


def _notes(rows: list[Row], reasons: list[dict[str, Any]]) -> list[str]:
    shown = {row.code for row in rows if row.code}
    return [
        f"{reason['text'].removeprefix(where_words(reason['carton']))} {explain(reason)['source']}"
        for reason in reasons if reason["severity"] == "note" and reason["code"] not in shown
    ]


def _line(number: int, raw: dict[str, Any], facts: LineFacts, judged: dict[str, Any], given: Given) -> dict[str, Any]:
    cartons, in_force, ordered = [], given.limits, given.ordered.get(facts.specification_id)
    if ordered is not None:
        in_force = limits_in_force(ordered, given.limits, given.unusable)
        shown = _shown_bad(facts, ordered, in_force, given)
        opened = [carton for carton in raw.get("cartons") or [] if isinstance(carton, dict)]
        cartons = [
            _carton(Look(entry, one, sealed["derived"], sealed["checks"], ordered, in_force, facts,
                         given.delivery.arrived_day, given.version), sealed, is_shown)
            for entry, one, sealed, is_shown in zip(opened, facts.cartons, judged["cartons"], shown, strict=True)
        ]
    sheet = LineSheet(facts, judged, ordered, in_force, cartons, given.version)
    return {"number": number, "name": ordered.name if ordered else "", "entries": line_entries(raw),
            **line_sheet(sheet, raw.get("decision"))}


def _carton(look: Look, sealed: dict[str, Any], is_shown: bool) -> dict[str, Any]:
    rows = carton_rows(look)
    rows += _others(rows, sealed["reasons"])
    rows += [open_row(check, state) for check, state in sealed["checks"].items()
             if check not in {row.check for row in rows} and check not in ROWLESS]
    faults = [row.name for row in rows if row.leads_to(look.version) in _faults(look.version)]
    return {
        "position": sealed["position"], "entries": carton_entries(look.raw), "sums": carton_sums(look),
        "checks": in_words(rows, look.version), "notes": _notes(rows, sealed["reasons"]),
        "is_defective": sealed["defective"],
        "is_beyond_chance": is_shown,
        "because": faults,
    }


def _faults(version: int) -> tuple[str, ...]:
    """What makes a carton defective by an edition: a doubt did not, before."""
    return DEFECTIVE if version >= FIRST_TO_REACH else tuple(one for one in DEFECTIVE if one != "hold")


def _shown_bad(facts: LineFacts, ordered: Ordered, limits: Limits, given: Given) -> list[bool]:
    """Which cartons are bad beyond chance, worked out anew from what was entered."""
    if given.version < FIRST_TO_REACH:
        return [False for _ in facts.cartons]
    cartons = [judge_carton(one, ordered, facts.lot, given.delivery.arrived_day, limits) for one in facts.cartons]
    line = LineJudged(facts, cartons, [], [], stages_of(facts, ordered))
    return [line.is_shown_bad(one) for one in cartons]
