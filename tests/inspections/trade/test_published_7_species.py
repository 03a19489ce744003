"""Section 7 of the published rows: each species with its names, its marks, its teeth; the key; the code."""

import json

import pytest

from inspections.trade.species import BY_CODE, KEY, MARKS, candidates, code_of_name, marks_to_check, species_code
from tests.published import HOUSE, ledger, published

ROWS = ledger()
NAMES = json.loads((HOUSE / "fixtures" / "published" / "species_codes.json").read_text("utf-8"))["rows"]
#: FAO code: teeth as printed (upper / lower), split-genus names on labels, marks that the row names.
SPECIES = {
    "PNV": ("7-10 / 2-4", ["Litopenaeus vannamei"], ["no_bands", "legs_white", "tail_reddish"]),
    "GIT": ("6-8 / 3", [], ["bands_dark", "crest_level"]),
    "TIP": ("6-8 / 3", [], ["bands_dark", "crest_rear_clear_groove", "crest_sloping", "feelers_banded"]),
    "PRB": ("6-7 / 3-4", [], ["bands_brown"]),
    "KUP": ("7-11 / 1", ["Marsupenaeus japonicus"], ["bands_brown_unbroken", "tail_yellow_blue", "telson_spines"]),
    "PNI": ("7-9 / 3-6", ["Fenneropenaeus indicus"], ["grooves_none", "beak_s", "feelers_yellowish"]),
    "PBA": ("6-9 / 3-5", ["Fenneropenaeus merguiensis"], ["crest_high", "feelers_red_brown", "grooves_none"]),
    "FLP": ("7-9 / 3-5", ["Fenneropenaeus chinensis"], ["no_bands", "grooves_none"]),
    "WKP": ("9-12 / 1", ["Melicertus latisulcatus"], ["grooves_long", "side_bars", "tail_blue", "telson_spines"]),
    "PNP": ("10-11 / 1", ["Melicertus plebejus"], ["grooves_long", "tail_blue", "teeth_lower_one"]),
    "PST": ("7-10 / 2-4", ["Litopenaeus setiferus"], ["last_groove_none", "no_side_spot", "feelers_long"]),
    "ABS": ("8-10 / 2-3", ["Farfantepenaeus aztecus"], ["last_groove_wide", "no_side_spot", "tail_purplish"]),
    "APS": ("8-9 / 2", ["Farfantepenaeus duorarum"], ["side_spot", "last_groove_narrow", "tail_blue"]),
    "ENS": ("9-12 / 0", [], ["hairy", "teeth_lower_none", "tail_blue"]),
    "MPN": ("8-12 / 0", [], ["hairy", "teeth_lower_none"]),
    "MTJ": ("8-11 / 0", [], ["teeth_lower_none"]),
    "NAY": ("7-9 / 0", [], ["beak_tip_bare"]),
    "BOB": ("5-6 / 0", [], ["beak_upturned", "teeth_lower_none"]),
    "LAA": ("", [], ["red_raw", "teeth_lower_none"]),
    "PRA": ("", [], ["red_raw", "plate_second"]),
    "PRF": ("11-14 / 8-12", [], ["claws_blue", "beak_upturned", "plate_second"]),
    "DPS": ("", [], ["red_raw"]),
    "ARS": ("", [], ["red_raw"]),
    "ARA": ("", [], ["red_raw"]),
    "AU-ENDRED": ("8-11 / 0", [], ["hairy", "teeth_lower_none", "tail_red_edge", "speckled"]),
    "AU-SCHOOL": ("", ["Metapenaeus dalli"], ["teeth_lower_none", "speckled"]),
    "AU-CORAL": (
        "7-8 / 0",
        ["Metapenaeopsis barbata", "Metapenaeopsis novaeguineae", "Metapenaeopsis rosea"],
        ["velvet", "mottled_red", "telson_spines"],
    ),
}


def row_of(code: str):
    """The ledger's row of a species."""
    return next(row for row in ROWS.values() if row.section == "7" and code in row.says.split(" / "))


@published("CV-7-01", "CV-7-03 to 04", source="FAO ASFIS list 2024; FAO species guides", known="read; from memory")
@published("CV-7-02", "CV-7-05 to 07", "CV-7-09", source="FAO ASFIS list 2024; FAO species guides", known="read")
@published("CV-7-08", "CV-7-10 to 12", source="FAO ASFIS list 2024; FAO species guides", known="read; from memory")
@published("CV-7-13", "CV-7-21", source="FAO ASFIS list 2024; FAO species guides", known="read")
@published("CV-7-14 to 20", "CV-7-22 to 23", source="FAO ASFIS list 2024; FAO guides", known="read; from memory")
@published("CV-7-25", source="FAO guide WCP vol. 2, pp. 910 and 938; an Australian fish market", known="read")
@published("CV-7-26", source="an Australian fish market (names)", known="read; from memory")
@published("CV-7-27", source="FAO guide WCP vol. 2, pp. 907 to 908", known="read; from memory")
@pytest.mark.parametrize("code", sorted(SPECIES))
def test_a_species_has_its_published_names_teeth_and_marks(code):
    teeth, split_names, marks = SPECIES[code]
    species, row = BY_CODE[code], row_of(code)
    assert species["name"] in row.value
    assert species["scientific_name"] in row.value
    assert sorted(species["split_names"]) == split_names
    assert all(name in row.value for name in split_names)
    if teeth:
        assert teeth in row.value
        assert species["teeth"].replace("about ", "").startswith(teeth)
    assert set(marks) <= {*species["head_on"], *species["headless"]}
    # A species whose FAO code is not known here has a house key, which no label can carry.
    has_fao_code = species_code(code) == code
    assert ([code, species["name"], species["scientific_name"]] in NAMES) == has_fao_code


@published("CV-7-24", source="FAO ASFIS list 2024", known="read")
@pytest.mark.parametrize(
    ("code", "name", "scientific"),
    [
        ("SOP", "Southern pink", "notialis"),
        ("PNB", "Redspotted", "brasiliensis"),
        ("PNU", "Southern brown", "subtilis"),
        ("PNT", "Southern white", "schmitti"),
    ],
)
def test_the_mixed_atlantic_four_are_in_the_table(code, name, scientific):
    assert BY_CODE[code]["name"].startswith(name)
    assert BY_CODE[code]["scientific_name"] == f"Penaeus {scientific}"
    assert BY_CODE[code]["natural"]["words"] == "Sold mixed by colour group."
    genus = "Litopenaeus" if code == "PNT" else "Farfantepenaeus"
    assert code_of_name(f"{genus} {scientific}") == code


@published("CV-7-30", source="FAO guides; US key", known="read; from memory")
def test_plates_part_penaeids_from_carideans_even_headless():
    caridean = {code for code, species in BY_CODE.items() if species["traits"]["caridean"]}
    assert caridean == {"PRA", "PRF"}
    assert set(candidates({"caridean": True})) == caridean
    assert next(row for row in KEY if row["trait"] == "caridean")["view"] == "shell_on"
    assert (MARKS["plate_first"]["known"], MARKS["plate_second"]["known"]) == ("read", "from_memory")
    for code, species in BY_CODE.items():
        assert ("plate_second" if code in caridean else "plate_first") in species["headless"]


@published("CV-7-31", source="FAO guides; university course after Dall 1990", known="read")
def test_the_genus_penaeus_has_teeth_above_and_below_and_is_never_hairy():
    for code, species in BY_CODE.items():
        if species["scientific_name"].startswith("Penaeus "):
            assert species["traits"]["lower_teeth"] in ("one", "more"), code
            assert species["traits"]["hairy"] is False, code


@published("CV-7-32", source="FAO guide", known="read; from memory")
def test_hairy_patches_mean_metapenaeus():
    hairy = {code for code, species in BY_CODE.items() if species["traits"]["hairy"]}
    assert hairy == {code for code, each in BY_CODE.items() if each["scientific_name"].startswith("Metapenaeus ")}
    assert MARKS["hairy"]["known"] == "from_memory"


@published("CV-7-33", source="common practice, no source", known="common practice")
@pytest.mark.parametrize("presentation", ["PD", "PUD", "PPV", "BTTY"])
def test_peeled_meat_shows_no_mark(presentation):
    assert marks_to_check("PNV", presentation) == []


@published("CV-7-35", source="common practice, no source", known="common practice")
def test_likely_swaps_are_told_at_the_species():
    assert {"PNI", "PBA"} <= set(BY_CODE["PNV"]["mistaken_for"])
    assert "TIP" in BY_CODE["GIT"]["mistaken_for"]
    assert "GIT" in BY_CODE["TIP"]["mistaken_for"]


@published("CV-7-36", source="FAO ASFIS list 2024, AI format", known="read")
@pytest.mark.parametrize(
    ("text", "code"), [("PNV", "PNV"), ("PNV ", "PNV"), ("pnv", "PNV"), ("GIT", "GIT"), ("PBA", "PBA"), ("PN", "")]
)
def test_a_code_is_three_capitals_however_it_came(text, code):
    assert species_code(text) == code
