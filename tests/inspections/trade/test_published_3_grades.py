"""Section 3 of the published rows: size lists, presentations, what counts as broken, what only looks like a defect."""

import pytest

from inspections.trade.counts import count_per_kg, count_per_lb, judge_count
from inspections.trade.grades import customary_per, grade_met, parse_grade
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.quantities import GRAMS_PER_LB, UnusableGrade
from inspections.trade.specification import specifications_from_json
from inspections.trade.uniformity import Sample, uniformity_ratio
from inspections.trade.wording import WORDS
from tests.published import published

from .deliveries import SPECIFICATION, carton, delivery, label
from .printed import agrees
from .test_verdict import codes, line_of

LIMITS = limits_from_json(DEFAULT_LIMITS)


def judged(specification=SPECIFICATION, **changes):
    """A line of three cartons, the first of them changed."""
    return line_of(delivery(carton(3, **changes), carton(11), carton(17)), specification)


@published("CV-3-15", source="trade count-size lists", known="read")
@pytest.mark.parametrize(("text", "low", "high"), [("70/OV", 70, None), ("100/200", 100, 200)])
def test_open_and_wide_sizes_are_read(text, low, high):
    grade = parse_grade(text)
    assert (grade.low, grade.high) == (low, high)
    assert grade_met(150.0, "lb").text in ("100/200", "70/OV")


@published("CV-3-16", source="trade references", known="read")
def test_headless_is_counted_by_the_pound_and_head_on_by_the_kilogram():
    assert {code: customary_per(code) for code in ("HLSO", "HOSO", "PD")} == {"HLSO": "lb", "HOSO": "kg", "PD": "lb"}


@published("CV-3-17", source="trade references", known="read")
def test_a_peeled_from_size_is_not_the_count_of_the_goods_in_the_pack():
    answer = judge_count(Sample(40, 900.0, "deglazed"), parse_grade("16/20 peeled from"))
    assert answer.reasons == ("COUNT-PEELED-FROM",)
    assert judge_count(Sample(40, 1000.0, "deglazed", unit_g=1000.0), parse_grade("16/20")).kind == "within"


@published("CV-3-18", source="trade references", known="read")
@pytest.mark.parametrize("word", ["jumbo", "extra large", "colossal", "tiny"])
def test_a_size_in_words_is_no_size(word):
    with pytest.raises(UnusableGrade):
        parse_grade(word)


@published("CV-3-22 to 24", source="trade count-size lists, worked by hand", known="computed")
def test_worked_counts():
    counts = [count_per_lb(pieces, 5 * GRAMS_PER_LB) for pieces in (78, 84, 81)]
    assert all(agrees(count, printed) for count, printed in zip(counts, ("15.6", "16.8", "16.2"), strict=True))
    assert agrees(sum(counts) / 3, "16.2")
    assert agrees(count_per_lb(41, 1020.58), "18.222")
    assert agrees(count_per_kg(41, 1020.58), "40.17")
    assert agrees(count_per_lb(205, 2267.96), "41.0")
    assert grade_met(41.0, "lb").text == "41/50"


@published("CV-3-25", source="trade reference", known="read")
@pytest.mark.parametrize(("pieces", "holds"), [(155, True), (175, True), (152, False), (178, False)])
def test_a_five_pound_box_of_31_35_holds_155_to_175(pieces, holds):
    sample = Sample(pieces, 5 * GRAMS_PER_LB, "deglazed", unit_g=5 * GRAMS_PER_LB)
    assert (judge_count(sample, parse_grade("31/35")).kind == "within") is holds


@published("CV-3-30", source="trade references", known="read")
@published("CV-3-31", source="trade references", known="read; from memory")
@published("CV-3-32", source="trade references", known="from memory")
@published("CV-3-33 to 36", source="trade references", known="read")
@published("CV-3-37", source="trade references", known="from memory")
@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("HOSO", "head on, shell on"),
        ("HLSO", "headless, shell on"),
        ("EZP", "easy peel"),
        ("PTO", "peeled, tail on"),
        ("PDTO", "peeled and deveined, tail on"),
        ("PUD", "peeled, undeveined"),
        ("PD", "peeled and deveined"),
        ("BTTY", "butterflied"),
        ("PPV", "peeled, vein pulled"),
    ],
)
def test_each_presentation_has_its_words_and_can_be_ordered(code, words):
    assert WORDS["presentation"][code] == words
    by_id, unusable = specifications_from_json([{**SPECIFICATION, "presentation": code}])
    assert by_id["s1"].presentation == code
    assert unusable == []


@published("CV-3-41", source="trade references", known="read")
@pytest.mark.parametrize(("units", "unit_g"), [(5, 2000.0), (10, 1000.0)])
def test_inner_units_and_the_master_carton_are_both_kept(units, unit_g):
    by_id, _ = specifications_from_json([{**SPECIFICATION, "units_per_carton": units}])
    assert (by_id["s1"].carton_net_g, by_id["s1"].unit_net_g) == (10_000.0, unit_g)
    # a label on either may state its own weight
    for stated in ("10", "2"):
        assert "LABEL-NET" not in codes(judged(label=label(net={"entered": stated, "unit": "kg"})))
    assert "LABEL-NET" in codes(judged(label=label(net={"entered": "5", "unit": "kg"})))


@published("CV-3-55", source="trade reference", known="read")
def test_the_ten_largest_and_ten_smallest_are_the_same_ratio():
    """The variant weighs ten of each of a kilogram: two weights and their ratio, as here."""
    assert agrees(uniformity_ratio(301.0, 231.0), "1.3030")


@published("CV-3-57", source="CXS 37-1991 §2.3", known="read")
@pytest.mark.parametrize(("broken", "is_broken_style"), [(4, False), (5, True)])
def test_more_than_a_tenth_in_pieces_is_a_broken_pack(broken, is_broken_style):
    line = judged(pieces={"black_spot": 0, "broken": broken})
    assert ("BROKEN" in codes(line)) is is_broken_style
    assert LIMITS["broken_share"].basis.source.startswith("CXS 37-1991 §2.3")


@published("CV-3-61", source="NOAA; trade article comparing Codex, US and Japan", known="read; from memory")
@pytest.mark.parametrize("kind", ["heads", "legs", "tails", "soft"])
def test_the_other_factors_are_counted_and_have_their_limit(kind):
    assert kind.upper() in codes(judged(pieces={"black_spot": 0, kind: 40}))
    assert kind.upper() not in codes(judged(pieces={"black_spot": 0, kind: 0}))


@published("CV-3-63", source="one published trade specification for peeled goods", known="read")
def test_commercial_limits_seen_are_the_default_where_the_house_follows_them():
    assert (LIMITS["broken_share.note"].bound, LIMITS["tails_share"].bound) == (0.02, 0.03)
    assert LIMITS["black_spot_meat_share"].bound == 0.0
    assert LIMITS["vein_share"].bound == 0.02
    assert (LIMITS["clumps_share"].bound, LIMITS["clumps_share"].sense) == (0.01, "below")
    for code in ("broken_share.note", "tails_share", "black_spot_meat_share", "vein_share", "clumps_share"):
        assert LIMITS[code].basis.source.startswith("one published trade specification")


@published("CV-3-80", source="US military food-inspection course", known="read")
@published("CV-6-15", source="US military course", known="read")
def test_black_spot_on_the_shell_is_looks_and_on_the_meat_a_defect():
    shell = judged(pieces={"black_spot": 2, "black_spot_meat": 0})
    meat = judged(pieces={"black_spot": 2, "black_spot_meat": 1})
    assert codes(shell) == []
    assert "BLACK-MEAT" in codes(meat)
    assert meat["cartons"][0]["defective"] is True


@published("CV-3-82", source="trade article; US military course", known="read")
def test_a_slight_smell_is_noted_and_is_no_decay():
    assert judged(odour="slight")["needed"] == ["odour_thawed"]
    line = judged(odour="slight", odour_taken="thawed")
    assert (line["reasons"][0]["code"], line["reasons"][0]["severity"]) == ("ODOUR-SLIGHT", "minor")
    assert line["suggestion"] == "accept"
    assert "iodine of feed organisms" in LIMITS["odour.slight"].basis.words


@published("CV-6-07", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(("score", "complains"), [(2, False), (4, True), (6, True)])
def test_a_score_of_four_is_the_complaint_line(score, complains):
    assert ("BLACK-SCORE" in codes(judged(black_spot_score=score))) is complains
