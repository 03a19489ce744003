"""Codes, names, marks and the key; what a difference means; what the advisory must not misread."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.trade.species import (
    BY_CODE,
    KEY,
    MARKS,
    TABLE,
    UnusableAnswer,
    candidates,
    code_of_name,
    marks_to_check,
    next_question,
    species_code,
)
from tests.published import published

from .deliveries import SPECIFICATION, carton, delivery, label
from .test_verdict import codes, line_of


def test_codes_and_names_are_the_faos__CV_7_01_to_23(published):
    rows = json.loads((published / "species_codes.json").read_text(encoding="utf-8"))["rows"]
    assert len(rows) >= 14
    for code, name, scientific in rows:
        assert (BY_CODE[code]["name"], BY_CODE[code]["scientific_name"]) == (name, scientific)
        assert code_of_name(scientific) == code


@pytest.mark.parametrize("code", sorted(BY_CODE))
def test_each_species_is_told_whole(code):
    species = BY_CODE[code]
    assert set(species["names"]) == {"EU", "US", "ANZ", "CODEX"}
    assert species["source"]
    assert set(species["source"]) <= {"farmed", "caught"}
    assert species["headless"]
    assert set(species["traits"]) == {row["trait"] for row in KEY}
    assert all(mark in MARKS for mark in (*species["head_on"], *species["headless"]))
    assert species["mistaken_for"]
    assert all(other in BY_CODE and other != code for other in species["mistaken_for"])


@published("CV-1-03", source="CXS 92 §2.1 and the FAO ASFIS family list", known="read")
@pytest.mark.parametrize("code", ["LAA", "ARS", "ARA"])
def test_families_outside_the_codex_standard__CV_1_03(code):
    assert not BY_CODE[code]["is_codex_family"]


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Litopenaeus vannamei", "PNV"),
        ("Marsupenaeus japonicus", "KUP"),
        ("Melicertus latisulcatus", "WKP"),
        ("Fenneropenaeus indicus", "PNI"),
        ("Farfantepenaeus duorarum", "APS"),
    ],
)
def test_split_genera_are_the_same_species(name, code):
    assert code_of_name(name) == code
    line = line_of(delivery(*[carton(i, label=label(species_code="", scientific_name=name)) for i in (3, 11, 17)]))
    assert ("SPECIES-LABEL" in codes(line)) == (code != "PNV")


@pytest.mark.parametrize(
    ("read", "found"),
    [
        ({"species_code": "MPE", "scientific_name": "Metapenaeus ensis"}, []),
        ({"species_code": "MPE", "scientific_name": ""}, []),
        ({"species_code": "AU-ENDRED", "scientific_name": ""}, []),
        ({"species_code": "AU-SCHOOL", "scientific_name": ""}, ["SPECIES-LABEL"]),
        ({"species_code": "ENS", "scientific_name": ""}, ["SPECIES-LABEL"]),
        ({"species_code": "", "scientific_name": "Metapenaeus endeavouri"}, ["SPECIES-LABEL"]),
    ],
)
def test_a_code_that_nobody_here_knows_is_no_other_species(read, found):
    """A red endeavour has a house key: its FAO code on the label is not held against it; another known one is."""
    ordered = {**SPECIFICATION, "species_code": "AU-ENDRED"}
    line = line_of(delivery(*[carton(i, label=label(**read)) for i in (3, 11, 17)]), ordered)
    assert [code for code in codes(line) if code.startswith("SPECIES")][:1] == found


def test_marks_of_the_head_are_not_asked_of_headless_goods():
    assert [mark for mark in marks_to_check("KUP", "HLSO") if MARKS[mark]["view"] == "head_on"] == []
    assert marks_to_check("KUP", "PD") == []


@pytest.mark.parametrize("code", sorted(BY_CODE))
@pytest.mark.parametrize("presentation", ["HOSO", "HLSO"])
def test_the_key_asks_at_most_four_questions_and_never_loses_the_true_species(code, presentation):
    answers: dict = {}
    while (row := next_question(answers, presentation)) is not None:
        own = BY_CODE[code]["traits"][row["trait"]]
        answers[row["trait"]] = own
        if presentation == "HLSO":
            assert row["view"] == "shell_on"
    assert len(answers) <= 4
    assert code in candidates(answers)
    assert len(candidates(answers)) < len(BY_CODE)


TRAITS = st.sampled_from([row["trait"] for row in KEY])


@given(st.dictionaries(TRAITS, st.booleans() | st.sampled_from(["none", "x", 1])))
def test_an_answer_is_used_or_refused_with_its_code(answers):
    code = None
    try:
        left = candidates(answers)
    except UnusableAnswer as problem:
        left, code = [], problem.code
    assert code in (None, "KEY-01")
    assert set(left) <= set(BY_CODE)


def test_each_further_answer_only_narrows():
    everything = candidates({})
    some = candidates({"bands": False})
    fewer = candidates({"bands": False, "lower_teeth": "more"})
    assert set(fewer) < set(some) < set(everything)


@pytest.mark.parametrize("code", ["GIT", "TIP", "KUP", "WKP", "PRB"])
def test_banded_species_are_flagged_for_the_advisory__CV_6_40_to_43(code):
    assert BY_CODE[code]["natural"]["banded"]
    assert BY_CODE[code]["natural"]["words"]


@pytest.mark.parametrize("code", ["LAA", "PRA", "ARS", "DPS"])
def test_species_red_when_raw_are_flagged_for_the_advisory__CV_6_48(code):
    assert BY_CODE[code]["natural"]["red"]


def test_a_substitution_has_its_words_and_its_severity():
    line = line_of(delivery(carton(3, label=label(species_code="GIT")), carton(11), carton(17)))
    reason = line["reasons"][0]
    assert (reason["code"], reason["severity"], line["suggestion"]) == ("SPECIES-LABEL", "major", "not_yet")
    assert reason["text"] == (
        "Carton 3: label states Giant tiger prawn (GIT), did not meet the order: Whiteleg shrimp (PNV)."
    )


@published("CV-7-34", source="common practice, no source", known="common practice")
def test_marks_never_say_what_a_prawn_is__CV_7_34():
    texts = [mark["words"] for mark in MARKS.values()]
    document = delivery(carton(3, marks={"answer": "disagree"}), carton(11), carton(17))
    texts += [reason["text"] for reason in line_of(document)["reasons"]]
    assert not any(" is a " in text and "prawn" in text for text in texts)


def test_codes_are_three_capitals__CV_7_36():
    house_keys = {code for code in BY_CODE if code.startswith("AU-")}
    assert all(species_code(code) == code for code in BY_CODE.keys() - house_keys)
    # A house key can never be read off a label.
    assert {species_code(code) for code in house_keys} == {""}
    assert len(BY_CODE) == len(TABLE["species"])
