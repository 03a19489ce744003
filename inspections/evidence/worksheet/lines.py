"""A line on the worksheet: tally, what had to be checked, the steps to the suggestion, allowance, decision."""
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from inspections.evidence.worksheet.earlier import EARLIER_CHECKS, FIRST_TO_REACH, steps_of
from inspections.evidence.worksheet.numbers import written
from inspections.evidence.worksheet.rows import (
    BEYOND,
    CANNOT_TELL,
    Row,
    effect_in,
    in_words,
    measured_row,
    open_row,
    reason_row,
)
from inspections.evidence.worksheet.sums import Sum, sum_of
from inspections.evidence.worksheet.words import TERMS, term
from inspections.trade.facts import LineFacts
from inspections.trade.limits import Limits
from inspections.trade.opened import stages_of, table_plans
from inspections.trade.readiness import must_have
from inspections.trade.shortage import short_percent
from inspections.trade.specification import Ordered
from inspections.trade.weight import mean_findings, mean_net, weighed_units
from inspections.trade.wording import filled, listed, word

OF_THE_LINE = ("DEFECTIVE-OVER", "CARTONS-SHORT", "CARTONS-OVER", "NET-MEAN", "NET-MEAN-UNSURE", "NET-ONE-UNIT",
               "TEMP-PROBE-UNKNOWN")


@dataclass(frozen=True)
class LineSheet:
    """What a line's part of the worksheet is made from."""

    facts: LineFacts
    judged: dict[str, Any]
    ordered: Ordered | None
    limits: Limits
    cartons: list[dict[str, Any]]
    version: int


def line_sheet(sheet: LineSheet, decision: dict[str, Any] | None) -> dict[str, Any]:
    """The line from its cartons to what was decided."""
    rows = list(_rows(sheet))
    shown = {row.code for row in rows if row.code} | {"DEFECTIVE-OVER"}
    of_line = [reason for reason in sheet.judged["reasons"]
               if reason["code"] in OF_THE_LINE and reason["code"] not in shown]
    others = [reason for reason in of_line if reason["severity"] != "note"]
    steps, reached = _steps(sheet)
    return {
        "ordered": _ordered(sheet.ordered), "cartons": sheet.cartons, "sums": list(_sums(sheet)),
        "checks": in_words([*rows, *(reason_row(reason) for reason in others)], sheet.version),
        "notes": [reason["text"] for reason in of_line if reason["severity"] == "note"], "plans": _plans(sheet),
        "tally": _tally(sheet), "must": _must(sheet), "steps": steps,
        "suggestion": word("suggestion", sheet.judged["suggestion"]), "agrees": reached == sheet.judged["suggestion"],
        "allowances": list(_allowances(sheet)), "split": _split_words(sheet.judged["suggested_split"]),
        "decision": _decision(sheet, decision),
    }


def _ordered(ordered: Ordered | None) -> list[dict[str, str]]:
    if ordered is None:
        return []
    told = [
        ("species_code", ordered.species_code), ("presentation", ordered.presentation), ("state", ordered.state),
        ("grade", ordered.grade), ("carton_net", f"{written(ordered.carton_net_g)} g"),
        ("units", str(ordered.units_per_carton)),
        ("declared_glaze", "" if ordered.declared_glaze_percent is None else
         f"{written(ordered.declared_glaze_percent)} %"),
        ("origin", ", ".join(ordered.origin)), ("method", ordered.method or ""), ("market", ordered.market),
    ]
    return [{"name": term("entries", name), "entered": value} for name, value in told if value]


def _weighed(sheet: LineSheet) -> list[float]:
    if sheet.ordered is None:
        return []
    return weighed_units(sheet.facts, sheet.ordered)


def _sums(sheet: LineSheet) -> Iterator[Sum]:
    facts, ordered, weighed = sheet.facts, sheet.ordered, _weighed(sheet)
    words = TERMS["worksheet"]
    if ordered is not None:
        yield sum_of("unit", words["unit_net"], ordered.unit_net_g, carton=ordered.carton_net_g,
                     units=ordered.units_per_carton)
    if facts.cartons_on_docket is not None and facts.cartons_counted is not None:
        yield sum_of("missing", words["cartons_missing"], facts.cartons_on_docket - facts.cartons_counted,
                     docket=facts.cartons_on_docket, counted=facts.cartons_counted)
    mean = mean_net(facts, ordered) if ordered else None
    if ordered is not None and mean is not None:
        yield sum_of("mean", words["mean_net"], mean, nets=" + ".join(written(one) for one in weighed),
                     units=len(weighed))
        yield sum_of("short", words["short"], short_percent(mean, ordered.unit_net_g),
                     declared=ordered.unit_net_g, net=mean)
        yield from _allowance_of_chance(sheet, ordered, weighed, mean)


def _allowance_of_chance(
    sheet: LineSheet, ordered: Ordered, weighed: list[float], mean_g: float
) -> Iterator[Sum]:
    """How far a mean of so few units can be under the declared weight by chance, where the market's rule asks it."""
    for found in mean_findings(sheet.facts, ordered, sheet.limits) if _is_later(sheet) else ():
        yield sum_of("short_g", TERMS["worksheet"]["short"], found.measured, declared=ordered.unit_net_g,
                     net=mean_g)
        if "allowance_g" in found.facts:
            squares = " + ".join(f"({written(net_g)} - {written(mean_g)})^2" for net_g in weighed)
            yield sum_of("deviation", TERMS["worksheet"]["deviation"], found.facts["deviation_g"], squares=squares,
                         less=len(weighed) - 1)
            yield sum_of("chance", TERMS["worksheet"]["chance"], found.facts["allowance_g"],
                         factor=found.facts["factor"], deviation=found.facts["deviation_g"], units=len(weighed),
                         market=ordered.market)


def _is_later(sheet: LineSheet) -> bool:
    """Whether the mean was judged by its market's rule; a set sealed with an earlier edition knows none."""
    return "net_mean.unsure" in sheet.limits.by_code


def _rows(sheet: LineSheet) -> Iterator[Row]:
    facts, limits = sheet.facts, sheet.limits
    if sheet.ordered is None:
        return
    if facts.cartons_on_docket is None or facts.cartons_counted is None:
        yield open_row("cartons_short")
    else:
        short = facts.cartons_on_docket - facts.cartons_counted
        yield measured_row("cartons_short", short, limits["cartons_short"], "CARTONS-SHORT")
    mean = mean_net(facts, sheet.ordered)
    if mean is None:
        yield open_row("net_mean")
    else:
        yield _mean_row(sheet, sheet.ordered, mean)


def _mean_row(sheet: LineSheet, ordered: Ordered, mean_g: float) -> Row:
    """The mean by the market's rule: in g against the sample allowance where it is under the declared weight."""
    for found in mean_findings(sheet.facts, ordered, sheet.limits) if _is_later(sheet) else ():
        if found.bound is not None and found.measured is not None:
            limit = replace(found.limit, bound=found.bound, unit="g", sense="at_most")
            return measured_row("net_mean", found.measured, limit, found.code)
        return open_row("net_mean", CANNOT_TELL, f"{written(found.measured or 0.0)} g", found.limit.basis.words)
    short_by = short_percent(mean_g, ordered.unit_net_g)
    return measured_row("net_mean", short_by, sheet.limits["net_mean_short_percent"], "NET-MEAN")


def _plans(sheet: LineSheet) -> list[dict[str, str]]:
    """The plan as drawn and as its own table gives it, for the cartons counted and for those on the docket."""
    facts = sheet.facts
    drawn = {"name": TERMS["worksheet"]["drawn"], "open": _number(facts.planned), "accept": _number(facts.acceptance),
             "source": ""}
    # Counted and docket are mostly the same number, and then the same table row.
    tables = dict.fromkeys((plan.name, plan.lot, plan.n, plan.acceptance, plan.basis["source"], plan.basis["known"])
                           for plan in (table_plans(facts, sheet.ordered.unit_net_g) if sheet.ordered else []))
    return [drawn, *({
        "name": filled(TERMS["worksheet"]["table"], {"plan": term("plan", name), "lot": str(lot)}),
        "open": str(to_open), "accept": str(acceptance), "source": f"{source} ({word('known', known)})",
    } for name, lot, to_open, acceptance, source, known in tables)]


def _number(value: int | None) -> str:
    return "" if value is None else str(value)


def _tally(sheet: LineSheet) -> dict[str, str]:
    """Cartons opened and bad ones, against the plan that was used; ``shown`` are bad beyond chance."""
    sampling, limit = sheet.judged["sampling"], sheet.limits["defective_cartons"]
    told = {"opened": str(sampling["opened"]), "planned": _number(sampling["planned"]),
            "acceptance": str(sampling["acceptance"]), "defective": str(sampling["defective"])}
    if sheet.version < FIRST_TO_REACH:
        is_over = sampling["defective"] > sampling["acceptance"]
        return {**told, "bad": told["defective"], "shown": told["defective"], "rejection": "", "total": "", "last": "",
                "answer": word("check", BEYOND if is_over else "within"), "source": _sourced(limit.basis.to_json())}
    bad = sum(1 for carton in sheet.judged["cartons"] if _is_bad(carton))
    stages = stages_of(sheet.facts, sheet.ordered) if sheet.ordered is not None else None
    basis = stages.basis if stages is not None and stages.basis is not None else limit.basis
    is_over = any(reason["code"] == "DEFECTIVE-OVER" for reason in sheet.judged["reasons"])
    shown = sum(1 for carton in sheet.cartons if carton["is_beyond_chance"])
    return {**told, "bad": str(bad), "shown": str(shown), "rejection": str(sampling["rejection"]),
            "total": str(sampling["total"]), "last": str(sampling["last_acceptance"]),
            "answer": word("check", BEYOND if is_over else "within"),
            "source": _sourced(basis.to_json())}


def _is_bad(carton: dict[str, Any]) -> bool:
    return any(reason["leads_to"] in ("unfit", "defect") for reason in carton["reasons"])


def _sourced(basis: dict[str, str]) -> str:
    return f"{basis['source']} ({word('known', basis['known'])})"


def _must(sheet: LineSheet) -> list[dict[str, str]]:
    """What has to be checked before a line is ready, and whether it was; what was left out says why."""
    left_out = {one["check"]: one["reason"] for one in sheet.judged.get("left_out", [])}
    needed, unasked = sheet.judged["needed"], sheet.judged.get("unasked", [])
    states = {**dict.fromkeys(unasked, "unasked"), **dict.fromkeys(needed, "missing_check"),
              **dict.fromkeys(left_out, "left_out")}
    every = EARLIER_CHECKS if sheet.version < FIRST_TO_REACH else must_have(sheet.ordered) if sheet.ordered else ()
    answers = TERMS["worksheet"]
    return [
        {"name": word("not_checked", name), "reason": left_out.get(name, ""),
         "answer": answers[states.get(name, "done")]}
        for name in dict.fromkeys([*every, *needed, *unasked, *left_out])
    ]


def _steps(sheet: LineSheet) -> tuple[list[dict[str, str]], str]:
    """The steps a to g in order up to the first that is true, and what that one suggests."""
    told, reached = [], ""
    words = "steps" if sheet.version >= FIRST_TO_REACH else "earlier_steps"
    for letter, suggestion, is_true in _asked_in_order(sheet):
        answer = "not_reached" if reached else "yes" if is_true else "no"
        told.append({
            "letter": letter, "when": TERMS[words][letter], "suggestion": word("suggestion", suggestion),
            "answer": TERMS["worksheet"][answer], "because": _because(sheet, letter) if answer == "yes" else "",
        })
        reached = reached or (suggestion if is_true else "")
    return told, reached


def _asked_in_order(sheet: LineSheet) -> Iterator[tuple[str, str, bool]]:
    """Letter, suggestion, and whether the step is true, by the edition that judged the record."""
    if sheet.version < FIRST_TO_REACH:
        docket, found = sheet.facts.cartons_on_docket, sheet.facts.cartons_counted
        yield from steps_of(sheet.judged, is_short=docket is not None and found is not None and found < docket)
        return
    more = "hold" if sheet.facts.declined else "not_yet"
    suggested = zip("abcdefg", ("hold", "reject", "hold", more, "not_yet", "accept_with_allowance", "accept"),
                    strict=True)
    for letter, suggestion in suggested:
        yield letter, suggestion, letter == sheet.judged["step"]


_LED_BY = {"a": ("hazard",), "b": ("unfit", "sort_refuse", "defect", "tally", "reject"),
           "c": ("hold", "doubt", "sort_hold", "unfit"), "d": ("sort_refuse", "sort_hold", "unfit", "defect"),
           "f": ("value", "wrap", "quality", "defect", "unfit", "sort_refuse", "sort_hold", "hold")}


def _because(sheet: LineSheet, letter: str) -> str:
    """The reasons that make a step true; where something is not checked, what that is."""
    if letter == "e":
        return listed([word("not_checked", name) for name in sheet.judged["needed"]])
    led = _LED_BY.get(letter, ())
    return " ".join(reason["text"] for reason in sheet.judged["reasons"]
                    if effect_in(reason, sheet.version) in led)


def _allowances(sheet: LineSheet) -> Iterator[Sum]:
    for allowance in sheet.judged["allowances"]:
        maker = {"short_weight": _weight_taken_off, "grade": _grade_taken_off}.get(allowance["basis"])
        if maker is not None:
            yield maker(sheet, allowance["quantity"])
        else:
            yield {"name": term("allowance_basis", allowance["basis"]), "sum": allowance["formula"],
                   "value": written(allowance["quantity"])}


def _weight_taken_off(sheet: LineSheet, quantity: float) -> Sum:
    mean = next((reason for reason in sheet.judged["reasons"] if reason["code"] == "NET-MEAN"), None)
    if mean is None or sheet.ordered is None:
        return {"name": term("allowance_basis", "short_weight"), "value": written(quantity),
                "sum": " + ".join(written(reason["measured"]) for reason in sheet.judged["reasons"]
                                  if reason["code"] == "NET-UNIT") + f" = {written(quantity * 1000)} g"}
    kept = _kept(sheet)
    return sum_of("short_weight", term("allowance_basis", "short_weight"), quantity,
                  declared=sheet.ordered.unit_net_g, mean=mean["facts"]["mean_g"], units=sheet.ordered.units_per_carton,
                  kept=kept)


def _kept(sheet: LineSheet) -> int:
    """Cartons that stay: as decided, or as suggested."""
    if sheet.version < FIRST_TO_REACH:
        return max(0, (sheet.facts.cartons_counted or 0) - int(sheet.judged["sampling"]["defective"]))
    decided, split = sheet.facts.decision, sheet.judged["suggested_split"]
    kept: int = decided.accepted if decided is not None else split["accepted"] if split else 0
    return kept


def _grade_taken_off(sheet: LineSheet, quantity: float) -> Sum:
    beyond = [reason for reason in sheet.judged["reasons"]
              if reason["code"] == "COUNT-BEYOND" and reason["sense"] != "at_least"]
    return sum_of("smaller", term("allowance_basis", "grade"), quantity,
                  counts=" + ".join(written(reason["measured"]) for reason in beyond), number=len(beyond),
                  bound=beyond[0]["bound"])


def _split_words(split: dict[str, Any] | None) -> str:
    if split is None:
        return ""
    return ", ".join(f"{split[part]} {TERMS['worksheet'][part]}" for part in ("accepted", "refused", "held"))


def _decision(sheet: LineSheet, decision: dict[str, Any] | None) -> dict[str, str] | None:
    if not decision:
        return None
    departs = decision["kind"] != sheet.judged["suggestion"]
    return {"words": word("suggestion", decision["kind"]), "split": _split_words(decision),
            "reason": (decision.get("reason") or "") if departs else "", "departs": "yes" if departs else ""}
