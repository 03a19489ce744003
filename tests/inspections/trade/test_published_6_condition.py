"""Section 6 of the published rows: sulphite limits and their traps, and colours that must not be misread."""

import pytest

from inspections.trade.basis import load_table
from inspections.trade.labels import TABLE, must_declare_sulphites, sulphite_limit_mg_kg
from inspections.trade.quantities import GRAMS_PER_LB
from inspections.trade.species import MARKS, marks_to_check, natural_colour
from tests.published import published

from .printed import agrees

MELANOSIS = load_table("melanosis")


@published("CV-6-06", source="common practice, no source", known="common practice")
def test_the_scale_has_its_name_and_scales_are_never_averaged():
    assert MELANOSIS["scale"] == "prevalence_2015"
    assert "Never average scores from different scales." in MELANOSIS["cautions"]


@published("CV-6-14", source="common practice, no source", known="common practice")
@published("CV-6-52", source="common practice, no source", known="common practice")
@published("CV-6-53", source="synthesis of rows, no source", known="common practice")
def test_the_scale_comes_with_what_must_not_be_misread():
    words = " ".join(MELANOSIS["cautions"])
    assert "within minutes of thaw" in words
    assert "Eyes are always black" in words
    assert "Bands at the same place on most prawns, alike left and right, are natural" in words
    assert "patches that follow plate edges" in words


@published("CV-6-24", source="Reg. 1333/2008 notes", known="read")
@published("CV-6-25", source="Reg. 1169/2011 Annex II item 12", known="from memory")
@published("CV-6-31", source="above: EU, US and Australian texts", known="read; from memory")
@pytest.mark.parametrize(("mg_kg", "eu", "others"), [(9.9, False, False), (10.0, False, True), (10.1, True, True)])
def test_exactly_ten_must_be_declared_in_some_places_only(mg_kg, eu, others):
    assert must_declare_sulphites("EU", mg_kg) is eu
    assert [must_declare_sulphites(market, mg_kg) for market in ("US", "ANZ", "CODEX")] == [others] * 3


@published("CV-6-27", source="21 CFR 101.100(a)(4)", known="from memory")
def test_the_us_label_trigger_is_ten_and_says_how_it_is_known():
    rule = TABLE["sulphites"]["US"]
    assert (rule["over_mg_kg"], rule["sense"], rule["known"]) == (10, "at_least", "from_memory")
    assert rule["source"] == "21 CFR 101.100(a)(4)"


@published("CV-6-30", source="Std 1.2.3", known="read")
def test_the_australian_trigger_is_ten_and_was_read():
    rule = TABLE["sulphites"]["ANZ"]
    assert (rule["over_mg_kg"], rule["sense"], rule["known"], rule["source"]) == (10, "at_least", "read", "Std 1.2.3")


@published("CV-6-28", source="FDA/industry", known="from memory")
@published("CV-6-29", source="Schedule 15, 9.1/9.2", known="from memory")
@pytest.mark.parametrize(("market", "state", "mg_kg"), [("US", "raw", 100), ("ANZ", "raw", 100), ("ANZ", "cooked", 30)])
def test_residue_limits_outside_the_union(market, state, mg_kg):
    assert sulphite_limit_mg_kg(market, "Penaeidae", state, 200.0) == mg_kg
    assert TABLE["sulphite_limits"][market]["known"] == "from_memory"


@published("CV-6-32", source="definition of the pound", known="computed")
@pytest.mark.parametrize(("per_kg", "per_lb", "mg_kg"), [(80, "36.29", 150), (120, "54.43", 200)])
def test_classes_of_the_union_are_units_per_kilogram(per_kg, per_lb, mg_kg):
    assert agrees(per_kg * GRAMS_PER_LB / 1000.0, per_lb)
    assert sulphite_limit_mg_kg("EU", "Penaeidae", "raw", per_kg) == mg_kg
    # 40 to the pound is 88 to the kilogram: the middle class, though 40 itself is under 80
    assert sulphite_limit_mg_kg("EU", "Penaeidae", "raw", 40 * 1000.0 / GRAMS_PER_LB) == 200


@published("CV-6-40 to 41", source="FAO guide (Chan 1998)", known="read")
@published("CV-6-42", source="alien-species database", known="read")
@published("CV-6-43", source="FAO sheet 1983", known="read")
@pytest.mark.parametrize(
    ("code", "words", "marks"),
    [
        ("GIT", "Dark brown and muddy-yellow bands; large adults reddish brown.", ["bands_dark"]),
        ("TIP", "Muddy-yellow bands on the head, grey-brown bands on the tail.", ["bands_dark"]),
        ("KUP", "Pale with unbroken brown bands.", ["bands_brown_unbroken", "tail_yellow_blue"]),
        (
            "WKP",
            "Short upright bar on each of the first five side plates; dark brown crests.",
            ["side_bars", "tail_blue"],
        ),
    ],
)
def test_bands_that_belong_to_the_species_are_no_black_spot(code, words, marks):
    colour = natural_colour(code)
    assert colour["banded"] is True
    assert colour["words"] == words
    assert set(marks) <= set(marks_to_check(code, "HLSO"))


@published("CV-6-44", source="US regional key", known="read")
def test_the_side_spot_of_the_northern_pink_is_its_own():
    assert natural_colour("APS")["dark"] is True
    assert "where tail segments 3 and 4 meet" in natural_colour("APS")["words"]
    assert MARKS["side_spot"]["known"] == "read"


@published("CV-6-45", source="trade reference", known="read")
@published("CV-6-46", source="FAO-based description", known="read")
@published("CV-3-40", source="trade references", known="read")
def test_whiteleg_goes_from_pale_to_dark_with_its_pond():
    assert natural_colour("PNV")["words"] == "Pale to dark with pond colour (A1 to A5)."
    assert not natural_colour("PNV")["banded"]


@published("CV-6-48", source="species descriptions", known="from memory")
@pytest.mark.parametrize("code", ["LAA", "ARS", "PRA"])
def test_red_when_raw_is_no_sign_of_cooking(code):
    assert natural_colour(code)["red"] is True
    assert MARKS["red_raw"] == {**MARKS["red_raw"], "words": "Red to pink although raw", "known": "from_memory"}
