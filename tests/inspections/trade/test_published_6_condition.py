"""Section 6 of the published rows: the scale, and colours that must not be misread."""

import pytest

from inspections.trade.basis import load_table
from inspections.trade.quantities import GRAMS_PER_LB
from inspections.trade.species import BY_CODE, MARKS, marks_to_check
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


@published("CV-6-32", source="definition of the pound", known="computed")
@pytest.mark.parametrize(("per_kg", "per_lb"), [(80, "36.29"), (120, "54.43")])
def test_classes_of_the_union_are_units_per_kilogram(per_kg, per_lb):
    assert agrees(per_kg * GRAMS_PER_LB / 1000.0, per_lb)


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
    colour = BY_CODE[code]["natural"]
    assert colour["banded"] is True
    assert colour["words"] == words
    assert set(marks) <= set(marks_to_check(code, "HLSO"))


@published("CV-6-44", source="US regional key", known="read")
def test_the_side_spot_of_the_northern_pink_is_its_own():
    assert BY_CODE["APS"]["natural"]["dark"] is True
    assert "where tail segments 3 and 4 meet" in BY_CODE["APS"]["natural"]["words"]
    assert MARKS["side_spot"]["known"] == "read"


@published("CV-6-45", source="trade reference", known="read")
@published("CV-6-46", source="FAO-based description", known="read")
@published("CV-3-40", source="trade references", known="read")
def test_whiteleg_goes_from_pale_to_dark_with_its_pond():
    assert BY_CODE["PNV"]["natural"]["words"] == "Pale to dark with pond colour (A1 to A5)."
    assert not BY_CODE["PNV"]["natural"]["banded"]


@published("CV-6-48", source="species descriptions", known="from memory")
@pytest.mark.parametrize("code", ["LAA", "ARS", "PRA"])
def test_red_when_raw_is_no_sign_of_cooking(code):
    assert BY_CODE[code]["natural"]["red"] is True
    assert MARKS["red_raw"] == {**MARKS["red_raw"], "words": "Red to pink although raw", "known": "from_memory"}
