"""Section 5 of the published rows: limits in law, where and how to probe, instruments."""

import json

import pytest

from inspections.trade.exposure import LIFE
from inspections.trade.limits import DEFAULT_LIMITS, limits_from_json
from inspections.trade.thermometer import judge_ice_point, thermometer_on
from tests.published import HOUSE, published

from .deliveries import carton, delivery, probed
from .test_limits import changed
from .test_verdict import codes, line_of

LIMITS = limits_from_json(DEFAULT_LIMITS)
PROCEDURES = json.loads((HOUSE / "inspections" / "trade" / "data" / "procedures.json").read_text("utf-8"))


def text_of(name: str) -> str:
    """All steps of a procedure, as one text."""
    return " ".join(step["text"] for step in PROCEDURES[name]["steps"])


def judged(**changes):
    """A line of three cartons, the first of them changed."""
    return line_of(delivery(carton(3, **changes), carton(11), carton(17)))


@published("CV-5-01", source="89/108/EEC Art. 5(1)", known="read")
@published("CV-5-30", source="89/108/EEC Art. 5(1)", known="read")
@pytest.mark.parametrize(("entered", "is_noted"), [("-18", False), ("-18.0", False), ("-25", False), ("-17.9", True)])
def test_minus_18_or_colder_is_within(entered, is_noted):
    assert ("TEMP-TOLERANCE" in codes(judged(temperature=probed(entered)))) is is_noted
    assert LIMITS["product_c.within"].basis.source == "89/108/EEC Art. 5(1)"


@published("CV-5-02", source="89/108/EEC Art. 5(1); Austrian TGL §4", known="read")
@published("CV-5-31", source="89/108/EEC Art. 5(1)", known="read")
@pytest.mark.parametrize("entered", ["-17.9", "-16", "-15.0"])
def test_three_degrees_of_transport_tolerance_are_recorded_and_accepted(entered):
    line = judged(temperature=probed(entered))
    assert "TEMP-TOLERANCE" in codes(line)
    assert line["suggestion"] == "accept"
    assert LIMITS["product_c.tolerance"].bound - LIMITS["product_c.within"].bound == 3.0


@published("CV-5-32", source="common practice, no source", known="common practice")
@pytest.mark.parametrize("entered", ["-14.9", "-12.0"])
def test_beyond_the_tolerance_is_outside_up_to_minus_12(entered):
    line = judged(temperature=probed(entered))
    assert "TEMP-OUTSIDE" in codes(line)
    assert "TEMP-REJECT" not in codes(line)
    assert line["suggestion"] != "accept"


@published("CV-5-20", source="CXC 8-1976 §4", known="from memory")
@published("CV-5-33", source="common practice, no source", known="common practice")
@published("CV-5-17", source="Cal. Health & Safety Code 114037(e)", known="read")
@pytest.mark.parametrize("changes", [{"temperature": probed("-11.9")}, {"refreezing": ["ice_pool"]}])
def test_warmer_than_minus_12_or_refrozen_is_refused_or_held(changes):
    line = judged(**changes)
    assert line["reasons"][0]["severity"] == "critical"
    assert line["suggestion"] == "hold"
    everywhere = line_of(delivery(*[carton(place, **changes) for place in (3, 11, 17)]))
    assert everywhere["suggestion"] == "reject"
    assert LIMITS["product_c.reject"].basis.known == "from_memory"


@published("CV-5-15", source="Food Code 3-202.11(A),(E),(F)", known="read")
@published("CV-5-12", source="FSANZ guidance to Std 3.2.2 cl. 5", known="read")
def test_goods_that_thawed_on_the_way_are_not_frozen_goods():
    """Frozen hard, no sign of earlier abuse: a once thawed carton is critical at any reading."""
    assert judged(refreezing=["deformed"], temperature=probed("-19"))["reasons"][0]["severity"] == "critical"
    assert "TEMP-REJECT" in codes(judged(temperature=probed("5.0")))


@published("CV-5-19", source="UK frozen-food trade guide", known="read")
def test_the_reject_line_is_where_growth_begins_to_matter():
    assert LIMITS["product_c.reject"].bound == -12.0


@published("CV-5-34", source="89/108/EEC Art. 5(1)", known="computed")
@pytest.mark.parametrize(
    ("entered", "found"),
    [
        ("-18.0", set()),
        ("-17.9", {"TEMP-TOLERANCE"}),
        ("-15.0", {"TEMP-TOLERANCE"}),
        ("-14.9", {"TEMP-OUTSIDE"}),
        ("-12.0", {"TEMP-OUTSIDE"}),
        ("-11.9", {"TEMP-REJECT"}),
    ],
)
def test_the_end_point_belongs_to_the_colder_band__CV_5_34(entered, found):
    bands = {"TEMP-TOLERANCE", "TEMP-OUTSIDE", "TEMP-REJECT"}
    assert bands & set(codes(judged(temperature=probed(entered)))) == found


@published("CV-5-35", source="common practice, no source", known="common practice")
@pytest.mark.parametrize(("entered", "is_near"), [("-14.6", True), ("-14.5", False)])
def test_a_reading_nearer_to_a_limit_than_the_accuracy_says_so__CV_5_35(entered, is_near):
    assert ("TEMP-NEAR" in codes(judged(temperature=probed(entered)))) is is_near


@published("CV-5-51", source="FSANZ thermometer page", known="read")
def test_a_surface_reading_never_decides__CV_5_51():
    line = judged(temperature=probed("-5.0", "surface"))
    assert "TEMP-SURFACE" in codes(line)
    assert not {"TEMP-OUTSIDE", "TEMP-REJECT"} & set(codes(line))


@published("CV-5-40", source="92/2/EEC preamble; German TLMV §2b", known="read")
def test_the_core_is_opened_only_on_doubt():
    first = PROCEDURES["probe_core"]["steps"][0]
    assert (first["code"], "it spoils the pack" in first["text"]) == ("doubt", True)
    assert "air and between-pack readings leave a doubt" in first["text"]


@published("CV-5-41", source="CXC 8-1976 Annex", known="from memory")
def test_between_packs_the_sensor_lies_flat_and_pressed_until_steady():
    text = text_of("probe_between_packs")
    for words in ("flat between two inner packs", "Press them together", "until the reading is steady"):
        assert words in text


@published("CV-5-42", source="92/2/EEC Annex II", known="read; from memory")
def test_the_core_is_reached_with_cooled_tools_two_and_a_half_centimetres_deep():
    text = text_of("probe_core")
    for words in ("Cool drill and probe", "cooled drill or pointed tool", "at least 2.5 cm below the surface"):
        assert words in text
    assert "depth from memory" in PROCEDURES["probe_core"]["basis"]["words"]


@published("CV-5-46", source="92/2/EEC Annex II 5(a)-(d)", known="read")
def test_an_instrument_is_true_to_half_a_degree_and_read_to_a_tenth():
    assert LIMITS["product_c.accuracy"].bound == 0.5
    assert "TEMP-NEAR" in codes(judged(temperature=probed("-14.6")))
    waits = [step["seconds"] for step in PROCEDURES["probe_between_packs"]["steps"] if step["code"] == "wait"]
    assert waits == [180]  # nine tenths of the change within three minutes
    assert "Read to 0.1 °C" in text_of("probe_between_packs")


@published("CV-5-50", source="92/2/EEC Annex II 5(e)-(h)", known="read")
@published("CV-5-60", source="EN 13486", known="from memory")
def test_a_thermometer_is_checked_at_intervals_and_not_trusted_past_its_day():
    assert thermometer_on("2026-11-25", "2026-11-01", 0.2).is_trusted
    assert not thermometer_on("2027-11-25", "2026-11-01", 0.2).is_trusted
    assert not thermometer_on("2026-11-25", None, None, "2027-01-01").is_trusted


@published("CV-5-52", source="FSANZ Std 3.2.2 cl. 22; thermometer page", known="read")
@published("CV-5-55", source="Food Code 4-203.11", known="from memory")
def test_one_degree_is_the_ice_point_limit_and_the_probe_is_cleaned_first():
    assert [judge_ice_point(reading).kind for reading in (-1.0, 1.0, 1.1, -1.1)] == ["within", "within"] + [
        "beyond"
    ] * 2
    assert PROCEDURES["probe_between_packs"]["steps"][0]["code"] == "clean"
    assert "alcohol wipe" in text_of("probe_between_packs")


@published("CV-5-58", source="EN 13485:2001", known="from memory")
@pytest.mark.parametrize(("accuracy", "is_near"), [(0.5, False), (1.0, True), (2.0, True)])
def test_each_accuracy_class_widens_what_is_near(accuracy, is_near):
    limits = changed("product_c.accuracy", bound=accuracy)
    line = line_of(delivery(carton(3, temperature=probed("-14.2")), carton(11), carton(17)), limits=limits)
    assert ("TEMP-NEAR" in codes(line)) is is_near


@published("CV-5-84", source="common practice, no source", known="common practice")
def test_no_storage_life_is_claimed_for_raw_goods():
    """What the trade prints as best before is no published figure: only the four printed products are held."""
    assert set(LIFE["products"]) == {"shell_on_cooked", "peeled_cooked", "lean_fish", "fatty_fish_glazed"}


@published("CV-12-17", source="common practice, no source", known="common practice")
def test_one_reading_is_not_a_delivery():
    unread = {"temperature": None}
    line = line_of(delivery(carton(3), carton(11, **unread), carton(17, **unread)))
    assert "product_readings" in line["needed"]
    assert LIMITS["product_readings"].bound == 3
