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
from inspections.evidence.worksheet.rows import (
    BEYOND,
    CANNOT_TELL,
    NOT_CHECKED,
    WITHIN,
    Row,
    measured_row,
    open_row,
    range_row,
    word_row,
)
from inspections.evidence.worksheet.words import TERMS
from inspections.trade.condition import SHARES, STRONG_SIGNS, dried_by, dried_share, shares_for
from inspections.trade.counts import count_sample
from inspections.trade.grades import Edges, edges_of
from inspections.trade.probing import is_sign_doubtful
from inspections.trade.shortage import tolerance_for
from inspections.trade.size import ordered_grade, sample_of
from inspections.trade.weight import UNIT_STEPS, is_one_unit
from inspections.trade.wording import WORDS, filled, listed, word

#: limit, finding, whether a reading between packs has its allowance
COLD_STEPS = (("product_c.reject", "TEMP-REJECT", True), ("product_c.tolerance", "TEMP-OUTSIDE", True),
              ("product_c.within", "TEMP-TOLERANCE", False))
#: check, what is fine, code of the limit and of the finding before the word seen
SEEN = (("liner", "closed", "liner.", "LINER-"), ("odour", "sound", "odour.", "ODOUR-"),
        ("foreign_matter", "none", "foreign.", "FOREIGN-"))


def carton_rows(look: Look) -> list[Row]:
    """Every check of a carton as a row; what was not checked is a row as well."""
    parts = (_cold, _thermometer, _wrapping, _condition, label_rows, _weight, _size)
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


def _wrapping(look: Look) -> Iterator[Row]:
    for check, fine, limit_code, code in SEEN:
        found = getattr(look.facts, check)
        if check == "liner" and look.checks.get(check) == WITHIN and found in (None, "missing"):
            yield open_row(check, WITHIN, found or "", TERMS["worksheet"]["sealed"])
        elif found is None:
            yield open_row(check)
        else:
            # A fine word has no limit of its own; the nearest fault's is shown beside it.
            limit = look.limits[limit_code + (found if found != fine else FIRST_FAULT[check])]
            state = WITHIN if found == fine else BEYOND
            yield word_row(check, found, "is", fine, state, limit, code + found.upper())
    yield _worded(look, "frost", look.facts.frost, "is_not", "heavy", "frost.heavy", "FROST-HEAVY")
    signs = look.facts.refreezing
    found = None if signs is None else listed([word("signs", sign) for sign in signs]) or "none"
    yield _worded(look, "refreezing", found, "is", "none", *_thaw(look))


def _thaw(look: Look) -> tuple[str, str]:
    """Limit and code of the signs seen: pooled ice and slumped blocks are strong, clumping is weak."""
    signs = look.facts.refreezing or ()
    if look.version < FIRST_TO_REACH or not signs or any(sign in STRONG_SIGNS for sign in signs):
        return "refreezing", "REFREEZING"
    return ("refreezing.frosted", "THAW-SIGNS") if look.facts.frost == "heavy" else ("refreezing.clumped", "CLUMPED")


FIRST_FAULT = {"liner": "missing", "odour": "off", "foreign_matter": "harmless"}


def _worded(look: Look, check: str, found: str | None, comparison: str, fine: str, limit: str, code: str) -> Row:
    if found is None:
        return open_row(check)
    is_within = (found == fine) if comparison == "is" else (found != fine)
    return word_row(check, found, comparison, fine, WITHIN if is_within else BEYOND, look.limits[limit], code)


def _condition(look: Look) -> Iterator[Row]:
    rows = shares_for(look.ordered) if look.version >= FIRST_TO_REACH else SHARES
    for check, kind, limit_code, code in rows:
        is_by_pieces = check != "dehydrated" or dried_by(look.facts) == "pieces"
        yield _share(look, check, kind, limit_code, code) if is_by_pieces else _dried(look)
        if check == "black_spot":
            yield _wide(look)
        if limit_code == "whole_share" and look.checks.get(check) == BEYOND:
            yield _share(look, check, kind, f"{check}_share", check.upper())
    if "broken" not in look.checks:
        return
    broken = _share(look, "broken", "broken", "broken_share", "BROKEN")
    yield broken
    if broken.state == WITHIN:
        yield _share(look, "broken", "broken", "broken_share.note", "BROKEN-NOTE")
    score = look.facts.black_spot_score
    limit = look.limits["black_spot_score"]
    yield open_row("black_spot_score") if score is None else measured_row(
        "black_spot_score", score, limit, "BLACK-SCORE", look.edition(limit))
    if look.facts.looked_at is not None and "black_spot" in look.facts.pieces:
        limit = look.limits["looked_at"]
        yield measured_row("looked_at", look.facts.looked_at, limit, "LOOKED-AT-FEW", look.edition(limit))


def _share(look: Look, check: str, kind: str, limit_code: str, code: str) -> Row:
    affected, looked_at = look.facts.pieces.get(kind), look.facts.looked_at
    if affected is None or looked_at is None:
        return open_row(check)
    limit = look.limits[limit_code]
    row = measured_row(check, affected / looked_at, limit, code, look.edition(limit))
    if row.state == BEYOND and look.checks.get(check) == CANNOT_TELL:
        return open_row(check, CANNOT_TELL, f"{row.number} %", TERMS["worksheet"]["few_pieces"])
    return row


def _dried(look: Look) -> Row:
    """Deep drying by weight or by the surface of a block, where either was entered."""
    share, limit_code, code = dried_share(look.facts)
    limit = look.limits[limit_code]
    return measured_row("dehydrated", share, limit, code, look.edition(limit))


def _wide(look: Look) -> Row:
    """Wide black spot; where it was not counted apart, the share with any spot stands as the most it can be."""
    counted, checked = look.facts.pieces.get("black_spot_wide"), look.checks.get("black_spot_wide")
    if counted is not None:
        return _share(look, "black_spot_wide", "black_spot_wide", "black_spot_wide_share", "BLACK-CODEX")
    if checked == WITHIN:
        return _share(look, "black_spot_wide", "black_spot", "black_spot_wide_share", "BLACK-CODEX")
    words = TERMS["worksheet"]["wide_unknown"] if checked == CANNOT_TELL else ""
    return open_row("black_spot_wide", checked or NOT_CHECKED, "", words)


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
    if grade is None or look.number("count_per_lb") is None or grade.kind == "broken" or grade.basis == "peeled_from":
        return open_row("count", CANNOT_TELL, "", TERMS["worksheet"]["no_count"])
    counted, edges = count_sample(sample, grade.per), edges_of(grade)
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
