"""Section 8 of the published rows: GS1 identifiers on a carton, their formats, dates and arithmetic; label law."""
import pytest

from inspections.records.scans import UnusableScan, particulars_from_scan
from inspections.trade.gs1 import UnusableDate, full_year, gs1_check_digit, gs1_date, has_swallowed_date
from inspections.trade.labels import TABLE, missing_particulars
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from tests.inspections.trade.deliveries import SPECIFICATION, carton, delivery, label
from tests.inspections.trade.test_verdict import codes, line_of
from tests.published import published

GTIN = "0119521234000171"
GS = "\x1d"


def read(text: str) -> dict:
    return particulars_from_scan(text, 2026)


def refused(text: str) -> str:
    with pytest.raises(UnusableScan) as raised:
        read(text)
    return raised.value.code


@published("CV-8-30", source="GS1 Barcode Syntax Dictionary", known="read")
def test_sscc_is_eighteen_digits_with_a_check_digit():
    assert read("00395212340000004210")["sscc"] == "395212340000004210"
    assert refused("00395212340000004211") == "SCAN-02"
    assert refused("0039521234000000421") == "SCAN-01"


@published("CV-8-31", source="GS1 Barcode Syntax Dictionary", known="read")
def test_gtin_is_fourteen_digits_and_stands_without_02_37_and_255():
    assert read(GTIN)["gtin"] == "19521234000171"
    assert refused("0119521234000172") == "SCAN-02"
    for other in ("0219521234000171", "3712", "2559521234000013"):
        assert refused(GTIN + other) in ("SCAN-02", "SCAN-03")


@published("CV-8-32", source="GS1 Barcode Syntax Dictionary", known="read")
def test_content_has_its_count_and_stands_without_01():
    found = read("00395212340000004210" + "0219521234000171" + "3740")
    assert (found["content_gtin"], found["count"]) == ("19521234000171", 40)
    assert refused("0219521234000171" + GTIN) == "SCAN-03"
    assert refused("0219521234000171" + "0319521234000171") == "SCAN-03"


@published("CV-8-34", source="GS1 Barcode Syntax Dictionary", known="read")
def test_a_lot_is_up_to_twenty_signs_ended_by_a_separator_and_wants_a_product():
    assert read(GTIN + "10" + "A" * 20)["lot"] == "A" * 20
    assert refused(GTIN + "10" + "A" * 21) == "SCAN-01"
    assert read(GTIN + "10AB" + GS + "15280331")["best_before"] == "2028-03-31"
    assert read("10AB")["warnings"] == ["no_product_key"]


@published("CV-8-35", source="GS1 Barcode Syntax Dictionary", known="read")
@published("CV-8-37", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize(
    ("ai", "field", "day_00"),
    [("11", "production_date", "2028-03"), ("13", "pack_date", "2028-03"), ("15", "best_before", "2028-03-31"),
     ("17", "use_by", "2028-03-31")],
)
def test_four_dates_of_six_digits_need_no_separator_and_may_leave_the_day_open(ai, field, day_00):
    found = read(GTIN + ai + "280314" + "10L")
    assert (found[field], found["lot"]) == ("2028-03-14", "L")
    assert read(GTIN + ai + "280300")[field] == day_00
    assert [name for name in ("production_date", "pack_date", "best_before", "use_by") if found[name]] == [field]
    assert read(GTIN + "16280331")["fields"]["16"] == "280331"


@published("CV-8-36", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize("part", ["12280100", "2005"])
def test_a_payment_date_and_a_variant_are_kept_and_not_taken_for_food_dates(part):
    found = read(GTIN + part)
    assert found["fields"][part[:2]] == part[2:]
    assert not any(found[name] for name in ("production_date", "pack_date", "best_before", "use_by"))
    assert read("0319521234000171")["fields"] == {"03": "19521234000171"}


@published("CV-8-42", source="GS1 Barcode Syntax Dictionary", known="read")
@published("CV-8-48", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize(("ai", "field", "most"), [("21", "serial", 20), ("400", "order_number", 30)])
def test_serial_and_order_number_have_their_length(ai, field, most):
    assert read(GTIN + ai + "X" * most)[field] == "X" * most
    assert refused(GTIN + ai + "X" * (most + 1)) == "SCAN-01"


@published("CV-8-43 to 44", source="GS1 Barcode Syntax Dictionary", known="read")
def test_counts_have_up_to_eight_digits():
    assert read(GTIN + "3012")["count"] == 12
    assert read("0219521234000171" + "3712345678")["count"] == 12_345_678
    for ai in ("30", "37"):
        assert refused("0219521234000171" + ai + "123456789") == "SCAN-01"


@published("CV-8-45 to 47", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize(
    ("part", "field", "entered", "unit"),
    [("3100000010", "net", "10", "kg"), ("3105000500", "net", "0.00500", "kg"), ("3201000050", "net", "5.0", "lb"),
     ("3205000500", "net", "0.00500", "lb"), ("3302045250", "gross", "452.50", "kg")],
)
def test_the_last_digit_of_a_weight_says_where_the_point_is(part, field, entered, unit):
    found = read(GTIN + part + "10L")
    assert (found[field], found["lot"]) == ({"entered": entered, "unit": unit}, "L")
    assert refused(GTIN + "310000001" + "A") == "SCAN-01"
    assert refused(GTIN + "3100000010" + "3101000010") == "SCAN-03"  # only one net weight in kg


@published("CV-8-49", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize("ai", ["410", "412", "414"])
def test_places_are_thirteen_digits_with_a_check_digit(ai):
    assert read(ai + "9521234001089")["fields"][ai] == "9521234001089"
    assert refused(ai + "9521234001088") == "SCAN-02"


@published("CV-8-50", source="GS1 Barcode Syntax Dictionary", known="read")
def test_origin_needs_its_separator_though_its_length_is_fixed():
    assert read(GTIN + "422356" + GS + "10L")["origin"] == "IN"
    assert read(GTIN + "422999")["origin"] == "999"  # no country of the list: kept as it is
    # left out, its three digits still end it: the country is not lost, nor what follows
    assert read(GTIN + "422356" + "10L")["origin"] == "IN"
    assert refused(GTIN + "422356" + GS + "426356") == "SCAN-03"


@published("CV-8-51", source="GS1 Barcode Syntax Dictionary", known="read")
def test_countries_of_processing_are_up_to_five():
    assert read(GTIN + "423" + "356764")["processed_in"] == ["IN", "TH"]
    assert refused(GTIN + "423" + "356" * 6) == "SCAN-01"
    assert read(GTIN + "426356")["fields"]["426"] == "356"


@published("CV-8-53 to 55", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize(("part", "day_00"), [("70032803311200", "70032803001200"), ("7006240213", "7006240200"),
                                              ("7007240105", "7007240100"), ("7007240105240212", "7007240105240200")])
def test_expiry_time_freezing_and_harvest_have_a_day(part, day_00):
    assert read(GTIN + part)["fields"][part[:4]] == part[4:]
    assert refused(GTIN + day_00) == "SCAN-01"


def test_a_harvest_of_one_day_begins_and_ends_on_it():
    found = read(GTIN + "7007240105")
    assert (found["harvest_from"], found["harvest_to"]) == ("2024-01-05", "2024-01-05")


@published("CV-8-56 to 57", source="GS1 Barcode Syntax Dictionary", known="read")
def test_species_and_gear_are_the_codes_of_the_fao():
    found = read(GTIN + "7008PNV" + GS + "7009OTB" + GS + "10L")
    assert (found["species_code"], found["gear"], found["lot"]) == ("PNV", "OTB", "L")
    assert refused(GTIN + "7008PNVX") == "SCAN-01"
    assert refused(GTIN + "7009" + "X" * 11) == "SCAN-01"


@published("CV-8-58", source="GS1 Barcode Syntax Dictionary", known="read")
@pytest.mark.parametrize(("code", "method"), [("01", "caught"), ("02", "caught_freshwater"), ("03", "farmed"),
                                              ("07", "")])
def test_production_method_by_its_code_list(code, method):
    """Format read; what 01 to 03 mean is from memory (U-21). Another code is kept and not guessed."""
    found = read(GTIN + "7010" + code)
    assert (found["method"], found["fields"]["7010"]) == (method, code)


@published("CV-8-59 to 61", source="GS1 Barcode Syntax Dictionary", known="read")
def test_approval_numbers_are_read_and_company_fields_kept_as_they_are():
    assert read(GTIN + "7030356" + "ABC-12")["approval"] == "ABC-12"
    fields = read(GTIN + "240X" + GS + "241Y" + GS + "250Z" + GS + "91own-1")["fields"]
    assert [fields[ai] for ai in ("240", "241", "250", "91")] == ["X", "Y", "Z", "own-1"]


@published("CV-8-70 to 71", "CV-8-73 to 74", source="GS1 General Specifications 7.9", known="computed")
@published("CV-8-72", source="GS1 General Specifications 7.9; GS1's demonstration value", known="read; computed")
@pytest.mark.parametrize(
    ("body", "total", "check"),
    [("1952123400017", 69, 1), ("952123454321", 77, 3), ("39521234000000421", 70, 0), ("952123400108", 71, 9)],
)
def test_check_digits_as_worked(body, total, check):
    weighted = sum(int(digit) * (3 if place % 2 == 0 else 1) for place, digit in enumerate(reversed(body)))
    assert weighted == total
    assert gs1_check_digit(body) == check == (10 - total % 10) % 10


@published("CV-8-75", source="GS1 General Specifications; dictionary and reference checker", known="read")
def test_day_00_is_allowed_in_six_identifiers_and_month_00_never():
    for ai in ("11", "12", "13", "15", "16", "17"):
        assert gs1_date(ai, "280300", 2026).startswith("2028-03")
        with pytest.raises(UnusableDate):
            gs1_date(ai, "280015", 2026)


@published("CV-8-76", source="GS1 General Specifications 3.4", known="from memory; computed")
@pytest.mark.parametrize(("digits", "day"), [("280300", "2028-03-31"), ("280200", "2028-02-29"),
                                             ("270200", "2027-02-28")])
def test_day_00_is_the_last_of_the_month(digits, day):
    assert [gs1_date(ai, digits, 2026) for ai in ("15", "16", "17")] == [day] * 3


@published("CV-8-78", source="GS1 General Specifications 7.12, reference checker", known="read")
@published("CV-8-79 to 80", source="GS1 General Specifications 7.12", known="computed")
@pytest.mark.parametrize(
    ("now", "years"),
    [(2026, {0: 2000, 26: 2026, 49: 2049, 75: 2075, 76: 2076, 77: 1977, 99: 1999}),
     (2060, {10: 2110, 11: 2011, 0: 2100, 99: 2099})],
)
def test_two_digits_mean_a_year_within_the_window(now, years):
    assert {two: full_year(two, now) for two in years} == years


@published("CV-8-81", source="GS1 General Specifications", known="read")
def test_carrier_prefixes_are_taken_off_and_plain_data_is_no_gs1_data():
    for prefix in ("]C1", "]d2", "]Q3", "]e0"):
        assert read(prefix + GTIN + "10A")["lot"] == "A"
    assert read("]E09521234000174")["gtin"] == "09521234000174"
    for prefix in ("]d1", "]Q1"):
        assert refused(prefix + "hello") == "SCAN-01"


@published("CV-8-82", source="GS1 General Specifications", known="read; common practice")
def test_the_separator_is_ascii_29_and_one_at_the_start_is_no_data():
    assert chr(29) == GS
    assert read(GS + GTIN + "10A" + GS + "15280331")["fields"] == {"01": GTIN[2:], "10": "A", "15": "280331"}
    assert has_swallowed_date("A15280331")  # a scanner that sent none: said, not repaired


@published("CV-8-84", source="GS1 General Specifications", known="read")
def test_printed_brackets_read_as_the_barcode_does():
    assert read("(01)19521234000171(10)L7") == read(GTIN + "10L7")


@published("CV-8-85 to 87", source="GS1 General Specifications", known="from memory")
def test_short_numbers_are_padded_and_a_variable_measure_carries_its_weight():
    assert read("9521234000174")["gtin"] == "09521234000174"
    assert read("012345678905")["gtin"] == "00012345678905"
    assert read("96385074")["gtin"] == "00000096385074"
    # indicator 9: variable measure, so the weight stands beside it; 952 is the demonstration prefix
    weighed = particulars_from_scan("0199521234000313" + "3201000050" + "10L7", 2026)
    assert (weighed["net"], weighed["lot"]) == ({"entered": "5.0", "unit": "lb"}, "L7")


@published("CV-8-126", source="GS1 Digital Link, GS1's open reference parser", known="computed")
def test_path_order_of_a_digital_link():
    found = read("https://id.gs1.org/01/19521234000171/22/V1/10/L/21/S?17=280331")
    assert (found["lot"], found["serial"], found["use_by"]) == ("L", "S", "2028-03-31")
    assert refused("https://id.gs1.org/01/19521234000171/21/S/10/L") == "SCAN-01"


# -- label law ---------------------------------------------------------------------------------------------------------


def basis(market: str, particular: str) -> tuple:
    return tuple(TABLE["markets"][market]["bases"][particular])


@published("CV-8-01", source="Reg. 1379/2013 Art. 35(1)", known="read")
def test_what_the_union_wants_a_kitchen_to_be_told():
    for particular in ("name", "scientific_name", "method", "area"):
        assert basis("EU", particular) == ("Reg. 1379/2013 Art. 35(1)", "read", "CV-8-01")
        assert particular in missing_particulars((), "EU", "farmed")
    assert "gear" in missing_particulars((), "EU", "caught")


@published("CV-8-04", source="Reg. 1169/2011 Art. 9", known="from memory")
@published("CV-8-05", source="Reg. 1169/2011 Annex III 6.1, Annex X 3", known="from memory")
@published("CV-8-07", source="Reg. 853/2004 Annex II", known="from memory")
@pytest.mark.parametrize(("particular", "cv"), [("net_weight", "CV-8-04"), ("crustacean", "CV-8-04"),
                                                ("producer", "CV-8-04"), ("date", "CV-8-05"), ("approval", "CV-8-07")])
def test_food_information_of_the_union_says_that_it_is_from_memory(particular, cv):
    assert particular in missing_particulars((), "EU", "farmed")
    assert basis("EU", particular)[1:] == ("from_memory", cv)


@published("CV-5-06", source="89/108/EEC Art. 8", known="read; from memory")
def test_a_quick_frozen_label_has_its_batch_and_its_storage_words():
    for particular in ("lot", "storage"):
        assert basis("EU", particular) == ("89/108/EEC Art. 8", "read", "CV-5-06")


@published("CV-8-06", source="Reg. 1169/2011 Annex IX 5", known="from memory")
def test_the_declared_net_weight_is_without_glaze():
    glazed = {"gross": {"entered": "2350", "unit": "g"}, "tare": {"entered": "100", "unit": "g"},
              "glazed": {"entered": "2250", "unit": "g"}, "deglazed": {"entered": "1800", "unit": "g"}}
    document = delivery(*[carton(place, weights=glazed) for place in (3, 11, 17)])
    line = line_of(document, {**SPECIFICATION, "market": "EU"})
    assert line["cartons"][0]["derived"]["net_g"] == 1800.0
    assert any(code.startswith("NET-") for code in codes(line))


@published("CV-8-10", source="Public Law 107-171 §10816; 7 CFR 60.107", known="read")
def test_origin_is_asked_of_a_us_label_though_kitchens_are_exempt():
    assert basis("US", "origin") == ("7 CFR 60: suppliers pass the data on", "read", "CV-8-10")


@published("CV-8-11", source="FALCPA 2004", known="from memory")
@published("CV-8-13", source="Std 1.2.3, Schedule 9", known="read; from memory")
@pytest.mark.parametrize(("market", "cv"), [("US", "CV-8-11"), ("ANZ", "CV-8-13")])
def test_crustacean_must_be_named(market, cv):
    assert basis(market, "crustacean")[2] == cv
    ordered = {**SPECIFICATION, "market": market}
    without = label(shows=[each for each in label()["shows"] if each != "crustacean"])
    line = line_of(delivery(carton(3, label=without), carton(11), carton(17)), ordered)
    reason = next(one for one in line["reasons"] if one["code"] == "LABEL-CRUSTACEAN")
    assert reason["severity"] == "major"


@published("CV-8-14", source="Std 1.2.1 to 1.2.10; origin information standard", known="from memory")
@pytest.mark.parametrize("particular", ["name", "lot", "producer", "date", "storage", "origin"])
def test_other_particulars_of_australia_say_that_they_are_from_memory(particular):
    assert basis("ANZ", particular)[1:] == ("from_memory", "CV-8-14")


@published("CV-8-16", source="synthesis, common practice", known="common practice")
def test_the_receivers_minimum_is_on_every_markets_list():
    for market in TABLE["markets"]:
        assert {"name", "net_weight", "lot", "crustacean", "producer"} <= set(missing_particulars((), market, "farmed"))
    assert limits_from_json(DEFAULT_LIMITS)["label.particulars"].basis.cv == "CV-8-16"


@published("CV-12-30", source="counting days", known="computed")
@pytest.mark.parametrize(
    ("arrived", "left", "share", "passes"), [("2026-03-13", 672, 0.922, True), ("2027-08-15", 152, 0.209, False)]
)
def test_remaining_life_as_worked(arrived, left, share, passes):
    stated = label(production_date="2026-01-15", best_before="2028-01-14")
    document = delivery(*[carton(place, label=stated) for place in (3, 11, 17)])
    document["arrived_at"] = f"{arrived}T06:10:00+11:00"
    line = line_of(document, {**SPECIFICATION, "min_life_share": 2 / 3})
    derived = line["cartons"][0]["derived"]
    assert (derived["life_days_left"], round(derived["life_share"], 3)) == (left, share)
    assert ({"LIFE-SHORT", "LIFE-LITTLE"}.isdisjoint(codes(line))) is passes
    assert 729 * 2 / 3 == 486
