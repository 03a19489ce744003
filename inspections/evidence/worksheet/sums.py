"""The sums between an entry and its check: each formula with the numbers put in."""
from collections.abc import Iterator
from typing import Any

from inspections.evidence.worksheet.cartons import allowance_c
from inspections.evidence.worksheet.labels import grade_read
from inspections.evidence.worksheet.look import Look
from inspections.evidence.worksheet.numbers import Number, exact, percent_of, written
from inspections.evidence.worksheet.words import TERMS, term
from inspections.trade.carton_facts import LabelFacts
from inspections.trade.checks import measured_of
from inspections.trade.counts import Z_95, Count, count_sample, deglazed_weight_g
from inspections.trade.entries import day_number
from inspections.trade.grades import SIZES
from inspections.trade.labels import TABLE
from inspections.trade.registry import checks_on
from inspections.trade.shortage import short_percent, tolerance_for
from inspections.trade.size import ordered_grade, sample_of
from inspections.trade.uniformity import LEAST_SPREAD, tenth_of
from inspections.trade.weight import UNIT_STEPS, glazed_weight_g, is_one_unit
from inspections.trade.wording import filled, listed, word

GRAMS = {"kg": "1000", "lb": "453.59237", "oz": "28.349523125"}
WEIGHED = (("gross", "gross_g"), ("tare", "tare_g"), ("glazed", "glazed_g"), ("deglazed", "deglazed_g"))
Sum = dict[str, str]


def carton_sums(look: Look) -> list[Sum]:
    """Every sum of a carton, in the order in which its checks need them."""
    return [*_cold(look), *_weights(look), *_shares(look), *_size(look), *_label(look)]


def sum_of(kind: str, name: str, value: Number | None, **places: str | Number) -> Sum:
    """A sum in words: ``{"name", "sum", "value"}``; the value as text, also for use further on."""
    told = {key: place if isinstance(place, str) else written(place) for key, place in places.items()}
    result = "" if value is None else written(value)
    return {"name": name, "sum": filled(TERMS["sums"][kind], {**told, "value": result}), "value": result}


def _cold(look: Look) -> Iterator[Sum]:
    product = (look.raw.get("temperature") or {}).get("product") or {}
    if look.number("product_c") is not None and product.get("unit") == "F":
        yield sum_of("fahrenheit", term("entries", "product"), look.number("product_c"), entered=_plain(product))
    measured, allowed = look.number("product_c"), allowance_c(look)
    if measured is not None and allowed:
        yield sum_of("between_packs", TERMS["worksheet"]["eased"], measured - allowed, measured=measured,
                     allowed=allowed)


def _plain(reading: dict[str, Any]) -> str:
    """An entry with its decimal comma as a point."""
    return str(reading.get("entered", "")).strip().replace(",", ".").replace("\u2212", "-")


def _in_grams(reading: dict[str, Any] | None, name: str, grams: float | None) -> Iterator[Sum]:
    if reading and grams is not None and reading.get("unit") in GRAMS:
        yield sum_of("to_grams", name, grams, entered=_plain(reading), unit=reading["unit"],
                     factor=GRAMS[reading["unit"]])


def _weights(look: Look) -> Iterator[Sum]:
    raw, facts, ordered = look.raw.get("weights") or {}, look.facts, look.ordered
    for key, name in WEIGHED:
        yield from _in_grams(raw.get(key), term("entries", f"weight_{key}"), getattr(facts, name))
    glazed = glazed_weight_g(facts)
    if facts.glazed_g is None and glazed is not None and facts.gross_g is not None and facts.tare_g is not None:
        yield sum_of("less_tare", term("entries", "weight_glazed"), glazed, gross=facts.gross_g, tare=facts.tare_g)
    net_g = facts.deglazed_g
    if net_g is not None and is_one_unit(net_g, ordered):
        short = short_percent(net_g, ordered.unit_net_g)
        yield sum_of("short", TERMS["worksheet"]["short"], short, declared=ordered.unit_net_g, net=net_g)
        yield from _tolerances(look)
    found = look.number("glaze_percent")
    if found is not None and glazed is not None and net_g is not None:
        yield sum_of("glaze", word("not_checked", "glaze"), found, glazed=glazed, deglazed=net_g)
        if ordered.declared_glaze_percent is not None:
            yield sum_of("glaze_over", TERMS["worksheet"]["over"], found - ordered.declared_glaze_percent,
                         found=found, declared=ordered.declared_glaze_percent)


def _tolerances(look: Look) -> Iterator[Sum]:
    """The least that one unit may weigh, from the published table of the market."""
    declared_g = look.ordered.unit_net_g
    tolerance = tolerance_for(look.ordered.market, declared_g)
    if tolerance is None:
        return
    for limit_code, _ in UNIT_STEPS[tolerance.table]:
        limit = look.limits.by_code.get(limit_code)
        if limit is not None:
            times = limit.bound or 0.0
            yield sum_of(f"least_{tolerance.table}", TERMS["worksheet"]["least"],
                         declared_g - times * tolerance.tolerable_g, declared=declared_g, times=times,
                         tolerable=tolerance.tolerable_g)


def _shares(look: Look) -> Iterator[Sum]:
    for check in checks_on("carton"):
        measured = measured_of(check, look.facts.seen) if check.type in ("pieces", "part") else None
        if measured is None:
            continue
        share, facts = measured
        if check.type == "part":
            part, of = (facts[name] for name in check.numbers)
            yield sum_of("dried", word("not_checked", check.answers), percent_of(share), dried=part, of=of)
        else:
            yield sum_of("share", word("not_checked", check.answers), percent_of(share), affected=facts["affected"],
                         looked_at=facts["looked_at"])
    low, high = look.number("black_share_low"), look.number("black_share_high")
    if low is not None and high is not None:
        yield sum_of("interval", TERMS["worksheet"]["interval"], None, low=written(percent_of(low), 1),
                     high=written(percent_of(high), 1))


def _size(look: Look) -> Iterator[Sum]:
    sample, grade = sample_of(look.facts), ordered_grade(look.ordered)
    if sample is None:
        return
    raw = look.raw.get("sample") or {}
    for key, grams in (("weight", sample.weight_g), ("largest", sample.largest_g), ("smallest", sample.smallest_g)):
        yield from _in_grams(raw.get(key), term("entries", f"sample_{key}"), grams)
    deglazed = deglazed_weight_g(sample)
    if sample.weight_is == "glazed" and deglazed is not None and sample.glaze_percent is not None:
        yield sum_of("without_glaze", TERMS["worksheet"]["sample_net"], deglazed, weight=sample.weight_g,
                     glaze=sample.glaze_percent)
    ratio = look.number("uniformity")
    if ratio is not None and sample.largest_g is not None and sample.smallest_g is not None:
        yield sum_of("uniformity", word("not_checked", "uniformity"), ratio, largest=sample.largest_g,
                     smallest=sample.smallest_g, tenth=tenth_of(sample.pieces))
    if grade is not None and look.number("count_per_lb") is not None:
        counted = count_sample(sample, grade.per)
        yield from _count(counted, ratio) if isinstance(counted, Count) else ()


def _count(counted: Count, ratio: float | None) -> Iterator[Sum]:
    yield sum_of(f"count_{counted.per}", TERMS["worksheet"]["count"], counted.value, pieces=counted.pieces,
                 deglazed=counted.deglazed_g)
    if counted.spread_from == "tenths" and ratio is not None:
        tail = _tail_mean(counted.pieces)
        estimate = (ratio - 1.0) / (tail * (ratio + 1.0))
        yield sum_of("spread_tenths", TERMS["worksheet"]["spread"], counted.spread, ratio=ratio, tail=tail,
                     estimate=estimate, least=LEAST_SPREAD, pieces=counted.pieces)
    else:
        yield sum_of("spread_default", TERMS["worksheet"]["spread"], counted.spread)
    error = exact(counted.value) / exact(counted.low) - 1
    yield sum_of("count_error", TERMS["worksheet"]["error"], error, z=written(Z_95, 3), spread=counted.spread,
                 pieces=counted.pieces)
    yield sum_of("count_range", TERMS["worksheet"]["range"], None, count=counted.value, error=error, low=counted.low,
                 high=counted.high)


def _tail_mean(pieces: int) -> float:
    """Mean of the outer tenth of so many numbers of a normal law, from the table that the count uses."""
    table, place = SIZES["tail_means_from_10"], pieces - SIZES["least_pieces_for_tenths"]
    mean: float = table[place] if place < len(table) else SIZES["tail_mean_large"]
    return mean


def _label(look: Look) -> Iterator[Sum]:
    label = look.facts.label
    if label is None:
        return
    yield from _in_grams((look.raw.get("label") or {}).get("net"), term("entries", "net"), label.seen["net"])
    grade = label.seen["grade"]
    read = grade_read(look, grade) if grade else None
    if read and read != grade:
        yield sum_of("read_as", term("entries", "grade"), None, entered=grade, read=read)
    if label.shows is not None:
        yield _particulars(look, label)
    yield from _life(look)


def _particulars(look: Look, label: LabelFacts) -> Sum:
    profile = TABLE["markets"][look.ordered.market]
    is_caught = label.seen["method"] in ("caught", "caught_freshwater")
    asked = [*profile["required"], *(profile["when_caught"] if is_caught else [])]
    return sum_of("asked", word("not_checked", "particulars"), None, market=look.ordered.market,
                  asked=listed([word("particulars", one) for one in asked]))


def _life(look: Look) -> Iterator[Sum]:
    raw, left, share = look.raw.get("label") or {}, look.number("life_days_left"), look.number("life_share")
    if left is None:
        return
    yield sum_of("days_left", TERMS["worksheet"]["days_left"], left, best_before=str(raw.get("best_before")))
    if share is not None:
        start = raw.get("production_date") or raw.get("frozen_on")
        total = (day_number(str(raw["best_before"]).strip()) or 0) - (day_number(str(start).strip()) or 0)
        yield sum_of("life", word("not_checked", "life"), percent_of(share), left=left, total=total,
                     best_before=str(raw.get("best_before")), start=str(start))
