"""The checks of one opened carton, each against its limit, in the order of the walk.

Cold first, warmest bound first, because the first bound that a reading is past is the one that counts; then
wrapping, condition, species, label, weight, glaze, size.
"""
from collections.abc import Iterator
from dataclasses import replace

from inspections.evidence.worksheet.earlier import FIRST_TO_REACH
from inspections.evidence.worksheet.labels import label_rows
from inspections.evidence.worksheet.look import Look
from inspections.evidence.worksheet.numbers import written, written_apart
from inspections.evidence.worksheet.plain import plain_rows
from inspections.evidence.worksheet.rows import (
    BEYOND,
    CANNOT_TELL,
    NOT_CHECKED,
    WITHIN,
    Row,
    measured_row,
    open_row,
    range_row,
)
from inspections.evidence.worksheet.words import TERMS
from inspections.trade.answer import CannotTell
from inspections.trade.counts import count_sample
from inspections.trade.grades import Edges, edges_of
from inspections.trade.shortage import tolerance_for
from inspections.trade.size import ordered_grade, sample_of
from inspections.trade.temperature import is_sign_doubtful
from inspections.trade.weight import UNIT_STEPS, is_one_unit
from inspections.trade.wording import WORDS, filled

#: limit, finding, whether a reading between packs has its allowance
COLD_STEPS = (("product_c.reject", "TEMP-REJECT", True), ("product_c.tolerance", "TEMP-OUTSIDE", True),
              ("product_c.within", "TEMP-TOLERANCE", False))


def carton_rows(look: Look) -> list[Row]:
    """Every check of a carton as a row; what was not checked is a row as well."""
    parts = (_cold, _thermometer, _condition, label_rows, _weight, _size)
    return [row for part in parts for row in part(look)]


def _cold(look: Look) -> Iterator[Row]:
    measured = look.number("product_c")
    if measured is None:
        yield open_row("product_c")
    elif look.version >= FIRST_TO_REACH and is_sign_doubtful(look.facts, look.limits):
        words = look.limits["product_c.sign"].basis.words
        yield open_row("product_c", CANNOT_TELL, f"{written(measured)} °C", words)
    elif look.facts.probe == "surface":
        yield open_row("product_c", CANNOT_TELL, f"{written(measured)} °C",
                       WORDS["cannot_tell"]["TEMP-SURFACE"])
    else:
        for limit_code, code, is_eased in COLD_STEPS:
            limit = look.limits[limit_code]
            row = measured_row("product_c", measured - (allowance_c(look) if is_eased else 0.0), limit, code,
                               look.edition(limit))
            yield row
            if row.state == BEYOND:
                return


def _thermometer(look: Look) -> Iterator[Row]:
    """How the thermometer stood on the day: what is wrong with it is a note, and told with the notes."""
    if "thermometer" not in look.checks:
        return
    known, limit = look.facts.thermometer, look.limits.by_code.get("thermometer.ice_point")
    if known is None or limit is None or known.ice_c is None:
        yield open_row("thermometer", look.checks["thermometer"])
        return
    words = filled(TERMS["worksheet"]["ice_point"], {"bound": written(limit.bound or 0.0)})
    yield open_row("thermometer", look.checks["thermometer"], f"{written(known.ice_c)} °C", words)


def allowance_c(look: Look) -> float:
    """What is allowed for a reading between packs, °C; nothing where the sealed limits know no such allowance."""
    limit = look.limits.by_code.get("product_c.between_packs")
    return (limit.bound or 0.0) if limit is not None and look.facts.probe == "between_packs" else 0.0


def _condition(look: Look) -> Iterator[Row]:
    """The plain checks, and whether enough prawns were looked at."""
    seen = look.facts.seen
    yield from plain_rows("carton", seen, look.limits, look.checks, look.edition, look.ordered, look.version)
    if seen["looked_at"] is not None and seen["black_spot"] is not None:
        limit = look.limits["looked_at"]
        yield measured_row("looked_at", seen["looked_at"], limit, "LOOKED-AT-FEW", look.edition(limit))


def _weight(look: Look) -> Iterator[Row]:
    net_g, ordered = look.facts.deglazed_g, look.ordered
    if net_g is None:
        yield open_row("net_weight")
    elif not is_one_unit(net_g, ordered):
        yield open_row("net_weight", CANNOT_TELL, "", TERMS["worksheet"]["two_units"])
    else:
        yield from _unit_rows(look, net_g)
    found, declared = look.number("glaze_percent"), ordered.declared_glaze_percent
    if found is None:
        yield open_row("glaze", look.checks.get("glaze", NOT_CHECKED))
    elif declared is None:
        yield open_row("glaze", WITHIN, f"{written(found)} %", TERMS["worksheet"]["no_glaze"])
    else:
        limit = look.limits["glaze_over_percent"]
        yield measured_row("glaze", found - declared, limit, "GLAZE-OVER", look.edition(limit))


def _unit_rows(look: Look, net_g: float) -> Iterator[Row]:
    """One unit against the table of its market, heaviest bound first, as far as it is past one."""
    tolerance = tolerance_for(look.ordered.market, look.ordered.unit_net_g)
    if tolerance is None or "net_unit.t1" not in look.limits.by_code:
        yield open_row("net_weight", look.checks.get("net_weight", NOT_CHECKED))
        return
    for limit_code, code in UNIT_STEPS[tolerance.table]:
        limit = look.limits[limit_code]
        least_g = look.ordered.unit_net_g - (limit.bound or 0.0) * tolerance.tolerable_g
        least = replace(limit, bound=least_g, unit="g", sense="at_least")
        row = measured_row("net_weight", net_g, least, code, look.edition(limit))
        yield row
        if row.state == BEYOND:
            return


def _size(look: Look) -> Iterator[Row]:
    yield _count(look)
    ratio, checked = look.number("uniformity"), look.checks.get("uniformity", NOT_CHECKED)
    if ratio is not None:
        limit = look.limits["uniformity"]
        yield measured_row("uniformity", ratio, limit, "UNIFORMITY", look.edition(limit))
    else:
        words = TERMS["worksheet"]["few_for_tenths"] if checked == CANNOT_TELL else ""
        yield open_row("uniformity", checked, "", words)


def _count(look: Look) -> Row:
    checked, sample, grade = look.checks.get("count", NOT_CHECKED), sample_of(look.facts), ordered_grade(look.ordered)
    if sample is None or checked == NOT_CHECKED:
        return open_row("count", checked)
    no_count = open_row("count", CANNOT_TELL, "", TERMS["worksheet"]["no_count"])
    if grade is None or look.number("count_per_lb") is None or grade.kind == "broken" or grade.basis == "peeled_from":
        return no_count
    counted, edges = count_sample(sample, grade.per), edges_of(grade)
    if isinstance(counted, CannotTell):
        return no_count
    values = [counted.value, counted.low, counted.high]
    told, bounds = written_apart(values, [edge for edge in (edges.low, edges.high) if edge is not None])
    number = filled(TERMS["worksheet"]["with_range"], dict(zip(("value", "low", "high"), told, strict=True)))
    is_small = edges.high is not None and counted.value >= edges.high
    is_larger = look.version >= FIRST_TO_REACH and checked == BEYOND and not is_small
    limit, code = ("count_larger", "COUNT-LARGER") if is_larger else ("count", "COUNT-BEYOND")
    return range_row("count", (number, _range_words(edges, bounds)), grade.unit, checked, look.limits[limit], code)


def _range_words(edges: Edges, bounds: list[str]) -> str:
    words = TERMS["worksheet"]
    places = dict(zip([name for name in ("low", "high") if getattr(edges, name) is not None], bounds, strict=True))
    kind = "range" if len(places) == 2 else "from" if "low" in places else "under"
    return filled(words[f"edges_{kind}"], places)
