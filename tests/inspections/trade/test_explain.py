"""Every reason explains itself: the sum with its numbers, the formula, each value, the limit and its source."""

import json
import re
from pathlib import Path

import pytest

from inspections.trade.counts import explain_count
from inspections.trade.findings import Finding
from inspections.trade.generated import cases
from inspections.trade.grades import parse_grade
from inspections.trade.intervals import wilson
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.pooled import KIND_OF
from inspections.trade.quantities import Unusable
from inspections.trade.reasons import explain, interval_words, reason_json, sum_of
from inspections.trade.sampling import explain_sample, plan_for
from inspections.trade.severity_ranking import ORDER
from inspections.trade.uniformity import Sample
from inspections.trade.verdict import judge_document
from inspections.trade.wording import WORDS

from .deliveries import carton, delivery, grams
from .test_verdict import line_of


@pytest.fixture(scope="module")
def reasons():
    """One reason of every code that made-up deliveries give, by code and sum."""
    found = {}
    for case in cases(1500, 1):
        try:
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
        except Unusable:
            continue
        told = [reason for line in judgement["lines"] for reason in line["reasons"]]
        for reason in (*told, *judgement["vehicle"]["reasons"]):
            found.setdefault((reason["code"], sum_of(reason)), reason)
    return found


def test_every_code_is_met(reasons):
    assert {code for code, _ in reasons} == set(ORDER)


def test_every_code_has_a_sum_and_a_formula(reasons):
    assert {sum_of(reason) for reason in reasons.values()} <= set(WORDS["why"])
    assert set(WORDS["formula"]) == {name for name in WORDS["why"] if name not in ("limit", "source", "none", "noted")}
    assert {kind for _, kind in reasons} == set(WORDS["formula"])


def test_every_why_is_that_of_the_vectors():
    vectors = Path(__file__).resolve().parents[3] / "fixtures" / "vectors" / "why.json"
    told = json.loads(vectors.read_text(encoding="utf-8"))["cases"]
    assert {case["in"]["reason"]["code"] for case in told} == set(ORDER)
    for case in told:
        assert json.loads(json.dumps(explain(case["in"]["reason"]))) == case["out"], case["id"]


def test_every_why_is_whole_and_shows_each_of_its_numbers(reasons):
    for reason in reasons.values():
        why = explain(reason)
        assert set(why) == {"numbers", "formula", "values", "limit", "source", "words"}
        texts = [why[name] for name in ("numbers", "formula", "limit", "source", "words")]
        assert all(texts), reason["code"]
        assert not any(re.search("[{}]", text) for text in texts), texts
        for value in why["values"]:
            assert isinstance(value["value"], float)
            assert value["words"] != value["name"] or value["name"] in WORDS["values"], value["name"]
            assert value["shown"]
        shown = [value["name"] for value in why["values"]]
        assert ("measured" in shown) == (reason["measured"] is not None)
        assert ("bound" in shown) == (reason["bound"] is not None)


def test_three_of_twenty_can_be_done_again_by_hand():
    line = line_of(delivery(carton(3, looked_at=20, pieces={"black_spot": 3}), carton(11), carton(17)))
    reason = next(reason for reason in line["reasons"] if reason["code"] == "BLACK-HOUSE")
    values = {value["name"]: value["value"] for value in explain(reason)["values"]}
    assert values["affected"] / values["looked_at"] == values["measured"]
    assert (values["low"], values["high"]) == wilson(3, 20)
    assert reason["text"].endswith("Examining 20 leaves 5.2 % to 36.0 % possible for the carton.")


def test_a_short_mean_can_be_done_again_by_hand():
    cartons = [carton(k + 1, weights={"deglazed": grams(each)}) for k, each in enumerate(("1990", "1991", "1992"))]
    reason = next(reason for reason in line_of(delivery(*cartons))["reasons"] if reason["code"].startswith("NET-MEAN"))
    values = {value["name"]: value["value"] for value in explain(reason)["values"]}
    assert values["declared_g"] - values["mean_g"] == pytest.approx(values["measured"])
    assert values["factor"] * values["deviation_g"] == pytest.approx(values["bound"])


def test_every_reason_that_counts_prawns_says_what_so_few_leave_possible(reasons):
    counted = [reason for (_, kind), reason in reasons.items() if kind == "share"]
    assert {reason["code"] for reason in counted} == {*KIND_OF, "PIECES-UNSURE"}
    for reason in counted:
        assert interval_words(reason)
        assert reason["text"].endswith(interval_words(reason))


def test_what_stands_on_the_docket_has_no_interval():
    line = line_of(delivery(carton(3, looked_at=20, pieces={"black_spot": 3}), carton(11), carton(17)))
    assert "Looking at" not in line["wording"]


def test_a_count_names_the_nearest_size_and_how_much_more_to_weigh():
    sample = {"pieces": 41, "weight": grams("921"), "weight_is": "deglazed"}
    line = line_of(delivery(carton(3, sample=sample), carton(11), carton(17)))
    unsure = next(reason for reason in line["reasons"] if reason["code"] == "COUNT-UNSURE")
    assert re.search(r"Weigh [0-9]+ prawns more\.$", unsure["text"])
    small = {"pieces": 88, "weight": grams("1760"), "weight_is": "deglazed"}
    line = line_of(delivery(carton(3, sample=small), carton(11), carton(17)))
    beyond = next(reason for reason in line["reasons"] if reason["code"] == "COUNT-BEYOND")
    assert "did not meet the size ordered: 16/20. Nearest size: 21/25." in beyond["text"]  # CV-1-57: 22.68 to the pound
    assert beyond["facts"]["price_percent"] == pytest.approx(100 * (88 / (1760 / 453.59237) - 20) / 20)
    assert line["allowance"]["basis"] == "grade"


def test_head_on_prawns_are_counted_by_the_kilogram_and_headless_by_the_pound__CV_3_16():
    from .deliveries import SPECIFICATION

    sample = {"pieces": 50, "weight": grams("1000"), "weight_is": "deglazed"}
    head_on = {**SPECIFICATION, "presentation": "HOSO", "grade": "30/40"}
    document = delivery(carton(3, sample=sample), carton(11), carton(17))
    beyond = next(one for one in line_of(document, head_on)["reasons"] if one["code"] == "COUNT-BEYOND")
    assert (beyond["unit"], beyond["measured"], beyond["facts"]["grade"]) == ("per_kg", 50.0, "30/40 per kg")
    headless = next(one for one in line_of(document)["reasons"] if one["code"] == "COUNT-BEYOND")
    assert headless["unit"] == "per_lb"
    assert headless["measured"] == pytest.approx(22.68, abs=0.005)


def test_a_finding_without_a_name_for_its_thermometer_reads_well():
    limit = limits_from_json(DEFAULT_LIMITS)["thermometer.unknown"]
    facts = {"what": "product", "thermometer": "", "due_on": ""}
    text = reason_json(Finding("TEMP-PROBE-UNCHECKED", limit, facts=facts), 3, is_of_carton=True)["text"]
    assert text.startswith("Carton 3: product temperature measured with a thermometer without a name, which")


@pytest.mark.parametrize(
    "why",
    [
        explain_count(Sample(88, 1760.0, "deglazed"), parse_grade("16/20")),
        explain_sample(plan_for("house", 20), 3, 0),
    ],
    ids=["size", "sampling"],
)
def test_what_the_phone_explains_has_formula_numbers_limit_and_source(why):
    assert set(why) >= {"formula", "numbers", "limit", "source"}
    assert why["formula"]
    assert why["numbers"]
    assert all(basis["source"] and basis["known"] for basis in why["source"])


def test_every_kind_of_reason_shows_its_sum_with_its_numbers():
    """Whatever the generator finds: no place left open, the measured value and what it should be in the sum."""
    seen: dict[str, dict] = {}
    for case in cases(600, 1):
        try:
            judgement = judge_document(case["document"], case["specifications"], case["limits"])
        except Unusable:
            continue
        told = [*judgement["vehicle"]["reasons"], *(one for line in judgement["lines"] for one in line["reasons"])]
        seen = {**{reason["code"]: reason for reason in told}, **seen}
    assert len(seen) >= 80
    for code, reason in seen.items():
        why = explain(reason)
        assert all(why[part] for part in ("numbers", "formula", "limit", "source")), code
        assert "{" not in why["numbers"], code
        shown = {value["name"]: value["shown"] for value in why["values"]}
        if reason["measured"] is not None:
            # A day past is said without its sign.
            assert shown["measured"].split()[0].lstrip("-") in why["numbers"], (code, why["numbers"])
        if code.startswith("LABEL-") and {"found", "ordered"} <= set(reason["facts"]):
            assert ", it should state " in why["numbers"], code
    assert explain(seen["SPECIES-MARKS"])["numbers"] == "Seen by the receiver, not measured."
