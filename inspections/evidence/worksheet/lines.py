"""A line on the worksheet: tally, what had to be checked, the steps to the suggestion, allowance, decision."""
from collections.abc import Iterator
from dataclasses import dataclass, replace

from inspections.evidence.worksheet.numbers import written
from inspections.evidence.worksheet.rows import BEYOND, CANNOT_TELL, Row, in_words, measured_row, open_row, reason_row
from inspections.evidence.worksheet.sums import Sum, sum_of
from inspections.evidence.worksheet.words import TERMS, term
from inspections.trade.facts import LineFacts
from inspections.trade.limits import Limits
from inspections.trade.opened import table_plans
from inspections.trade.shortage import short_percent
from inspections.trade.specification import Ordered
from inspections.trade.weighing import DOUBTS, HAZARDS, SHORT_VALUE, SUBSTITUTIONS
from inspections.trade.weight import mean_findings, mean_net, weighed_units
from inspections.trade.wording import counted, filled, listed, word

SERIOUS = ("critical", "major")
OF_THE_LINE = ("DEFECTIVE-OVER", "CARTONS-SHORT", "CARTONS-OVER", "NET-MEAN", "NET-MEAN-UNSURE", "NET-ONE-UNIT",
               "TEMP-PROBE-UNKNOWN")


@dataclass(frozen=True)
class LineSheet:
    """What a line's part of the worksheet is made from. ``readings``: asked for, read, over the delivery."""

    facts: LineFacts
    judged: dict
    ordered: Ordered | None
    limits: Limits
    cartons: list[dict]
    readings: tuple[int, int]


def line_sheet(sheet: LineSheet, decision: dict | None) -> dict:
    """The line from its cartons to what was decided."""
    rows = list(_rows(sheet))
    shown = {row.code for row in rows if row.code} | {"DEFECTIVE-OVER"}
    of_line = [reason for reason in sheet.judged["reasons"]
               if reason["code"] in OF_THE_LINE and reason["code"] not in shown]
    others = [reason for reason in of_line if reason["severity"] != "note"]
    steps, reached = _steps(sheet)
    return {
        "ordered": _ordered(sheet.ordered), "cartons": sheet.cartons, "sums": list(_sums(sheet)),
        "checks": in_words([*rows, *(reason_row(reason) for reason in others)]),
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
    if mean is not None:
        yield sum_of("mean", words["mean_net"], mean, nets=" + ".join(written(one) for one in weighed),
                     units=len(weighed))
        yield sum_of("short", words["short"], short_percent(mean, ordered.unit_net_g),
                     declared=ordered.unit_net_g, net=mean)
        yield from _allowance_of_chance(sheet, weighed, mean)


def _allowance_of_chance(sheet: LineSheet, weighed: list[float], mean_g: float) -> Iterator[Sum]:
    """How far a mean of so few units can be under the declared weight by chance, where the market's rule asks it."""
    for found in mean_findings(sheet.facts, sheet.ordered, sheet.limits) if _is_later(sheet) else ():
        yield sum_of("short_g", TERMS["worksheet"]["short"], found.measured, declared=sheet.ordered.unit_net_g,
                     net=mean_g)
        if "allowance_g" in found.facts:
            squares = " + ".join(f"({written(net_g)} - {written(mean_g)})^2" for net_g in weighed)
            yield sum_of("deviation", TERMS["worksheet"]["deviation"], found.facts["deviation_g"], squares=squares,
                         less=len(weighed) - 1)
            yield sum_of("chance", TERMS["worksheet"]["chance"], found.facts["allowance_g"],
                         factor=found.facts["factor"], deviation=found.facts["deviation_g"], units=len(weighed),
                         market=sheet.ordered.market)


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
        yield _mean_row(sheet, mean)


def _mean_row(sheet: LineSheet, mean_g: float) -> Row:
    """The mean by the market's rule: in g against the sample allowance where it is under the declared weight."""
    for found in mean_findings(sheet.facts, sheet.ordered, sheet.limits) if _is_later(sheet) else ():
        if found.bound is not None:
            limit = replace(found.limit, bound=found.bound, unit="g", sense="at_most")
            return measured_row("net_mean", found.measured, limit, found.code)
        return open_row("net_mean", CANNOT_TELL, f"{written(found.measured or 0.0)} g", found.limit.basis.words)
    short_by = short_percent(mean_g, sheet.ordered.unit_net_g)
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
    sampling, limit = sheet.judged["sampling"], sheet.limits["defective_cartons"]
    is_over = sampling["defective"] > sampling["acceptance"]
    return {
        "opened": str(sampling["opened"]), "planned": _number(sampling["planned"]),
        "acceptance": str(sampling["acceptance"]), "defective": str(sampling["defective"]),
        "answer": word("check", BEYOND if is_over else "within"),
        "source": f"{limit.basis.source} ({word('known', limit.basis.known)})",
    }


def _must(sheet: LineSheet) -> list[dict[str, str]]:
    """What has to be checked before a line is ready: how many were, how many are asked."""
    facts, cartons, opened = sheet.facts, sheet.judged["cartons"], len(sheet.judged["cartons"])
    if sheet.ordered is None:
        return [_asked("specification", 0, 1)]
    asked, read = sheet.readings
    checked = {name: sum(1 for one in cartons if one["checks"].get(name) != "not_checked")
               for name in ("liner", "black_spot")}
    counts = sum(1 for one in cartons if one["derived"].get("count_per_lb") is not None)
    labels = sum(1 for one in facts.cartons if one.label is not None)
    return [
        _asked("cartons_counted", int(facts.cartons_counted is not None), 1),
        _asked("cartons_opened", opened, sheet.judged["sampling"]["planned"] or 0),
        _asked("product_readings", read, asked),
        _asked("liner", checked["liner"], opened), _asked("black_spot", checked["black_spot"], opened),
        _asked("count", counts, min(1, opened)), _asked("label", labels, min(1, opened)),
    ]


def _asked(name: str, made: int, asked: int) -> dict[str, str]:
    return {"name": word("not_checked", name), "made": str(made), "asked": str(asked),
            "answer": TERMS["worksheet"]["done" if made >= asked else "missing_check"]}


def _steps(sheet: LineSheet) -> tuple[list[dict[str, str]], str]:
    """The steps a to g in order up to the first that is true, and what that one suggests."""
    told, reached = [], ""
    for letter, suggestion, because in _asked_in_order(sheet):
        is_true = because is not None
        answer = "not_reached" if reached else "yes" if is_true else "no"
        told.append({
            "letter": letter, "when": TERMS["steps"][letter], "suggestion": word("suggestion", suggestion),
            "answer": TERMS["worksheet"][answer], "because": (because or "") if answer == "yes" else "",
        })
        reached = reached or (suggestion if is_true else "")
    return told, reached


def _asked_in_order(sheet: LineSheet) -> Iterator[tuple[str, str, str | None]]:
    """Letter, suggestion, and the reason why the step is true (None: it is not)."""
    judged, reasons = sheet.judged, sheet.judged["reasons"]
    serious = [reason for reason in reasons if reason["severity"] in SERIOUS]
    sampling = judged["sampling"]
    yield "a", "hold", _texts(reason for reason in reasons if reason["code"] in HAZARDS)
    yield "b", "reject", _texts(reason for reason in serious
                                if reason["severity"] == "critical" or reason["code"] in SUBSTITUTIONS)
    over = f"{sampling['defective']} > {sampling['acceptance']}"
    yield "c", "reject", over if sampling["defective"] > sampling["acceptance"] else None
    yield "d", "hold", _texts(reason for reason in serious if reason["code"] in DOUBTS)
    yield "e", "not_yet", listed([word("not_checked", name) for name in judged["needed"]]) or None
    yield "f", "accept_with_allowance", _allowance_because(sheet, serious)
    yield "g", "accept", ""


def _allowance_because(sheet: LineSheet, serious: list[dict]) -> str | None:
    told, facts = [], sheet.facts
    defective = sheet.judged["sampling"]["defective"]
    if defective:
        told.append(f"{counted(defective, 'carton')} {TERMS['worksheet']['defective']}.")
    docket, found = facts.cartons_on_docket, facts.cartons_counted
    if docket is not None and found is not None and found < docket:
        told.append(f"{counted(docket - found, 'carton')} {TERMS['worksheet']['short_of_docket']}.")
    valued = [reason for reason in sheet.judged["reasons"] if reason["code"] == "NET-MEAN"
              or (reason["code"] == "COUNT-BEYOND" and reason["sense"] != "at_least")
              or (reason in serious and reason["code"] in SHORT_VALUE)]
    told += [reason["text"] for reason in valued]
    return " ".join(told) or None


def _texts(reasons: Iterator[dict]) -> str | None:
    return " ".join(reason["text"] for reason in reasons) or None


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
    if mean is None:
        return {"name": term("allowance_basis", "short_weight"), "value": written(quantity),
                "sum": " + ".join(written(reason["measured"]) for reason in sheet.judged["reasons"]
                                  if reason["code"] == "NET-UNIT") + f" = {written(quantity * 1000)} g"}
    kept = max(0, (sheet.facts.cartons_counted or 0) - sheet.judged["sampling"]["defective"])
    return sum_of("short_weight", term("allowance_basis", "short_weight"), quantity,
                  declared=sheet.ordered.unit_net_g, mean=mean["facts"]["mean_g"], units=sheet.ordered.units_per_carton,
                  kept=kept)


def _grade_taken_off(sheet: LineSheet, quantity: float) -> Sum:
    beyond = [reason for reason in sheet.judged["reasons"]
              if reason["code"] == "COUNT-BEYOND" and reason["sense"] != "at_least"]
    return sum_of("smaller", term("allowance_basis", "grade"), quantity,
                  counts=" + ".join(written(reason["measured"]) for reason in beyond), number=len(beyond),
                  bound=beyond[0]["bound"])


def _split_words(split: dict | None) -> str:
    if split is None:
        return ""
    return ", ".join(f"{split[part]} {TERMS['worksheet'][part]}" for part in ("accepted", "refused", "held"))


def _decision(sheet: LineSheet, decision: dict | None) -> dict[str, str] | None:
    if not decision:
        return None
    departs = decision["kind"] != sheet.judged["suggestion"]
    return {"words": word("suggestion", decision["kind"]), "split": _split_words(decision),
            "reason": (decision.get("reason") or "") if departs else "", "departs": "yes" if departs else ""}
