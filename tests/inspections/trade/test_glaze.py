"""Glaze, average and single-unit shortage, against the published tables."""

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inspections.trade.glaze import (
    TOLERANCES,
    deglazed_g,
    glaze_percent,
    glazed_g,
    judge_glaze,
)
from inspections.trade.quantities import Unusable, UnusableReading
from inspections.trade.shortage import (
    claim_amount,
    judge_average_eu,
    judge_average_us,
    maximum_allowable_variation,
    sample_correction_factor,
    shortage_g,
    spread_of_units,
    tolerable_deficiency,
)
from tests.published import published

from .calls import attempt
from .printed import agrees, table

HB133 = table("hb133")
TWELVE = [905, 911, 900, 898, 909, 903, 907, 912, 896, 904, 901, 908]


@published("CV-4-05", source="worked by hand", known="computed")
@published("CV-4-03", source="CXS and trade", known="from memory")
def test_glaze_is_stated_in_percent_of_the_glazed_weight__CV_4_05():
    assert agrees(glaze_percent(1250, 1000), "20.0")


@published("CV-4-06", "CV-4-07", source="worked by hand from the definition", known="computed")
@published("CV-4-01", source="HB 133 §2.6; CXS 92 §7.3", known="from memory")
@published("CV-4-02", source="common practice, no source", known="common practice")
def test_full_carton__CV_4_06():
    frozen = glazed_g(2185, 85)
    assert frozen == 2100
    assert agrees(glaze_percent(frozen, 1890), "10.0")
    assert shortage_g(1800, 1890) == -90  # a surplus
    assert deglazed_g(2410.5, 520.5) == 1890


@pytest.mark.parametrize(("allowed", "kind"), [(0.0, "beyond"), (2.0, "within"), (1.9, "beyond")])
def test_more_glaze_than_declared_and_allowed_is_beyond(allowed, kind):
    assert judge_glaze(1000, 880, 10, allowed).kind == kind


def test_glaze_exactly_as_declared_is_within():
    answer = judge_glaze(1000, 900, 10)
    assert answer.kind == "within"
    assert answer.facts["over_points"] == 0.0


@published("CV-4-82 to 90", source="76/211/EEC Annex I; OIML R 87; FPackV §9", known="computed")
@published("CV-4-79", source="FPackV §9; 76/211", known="read")
@pytest.mark.parametrize("row", table("tolerable_deficiency")["rows"], ids=lambda row: row["cv"])
def test_tolerable_deficiency_as_worked(row):
    found = tolerable_deficiency(row["nominal_g"])
    assert agrees(found.tolerable_g, row["t"])
    assert agrees(found.least_t1_g, row["least_t1"])
    assert agrees(found.least_t2_g, row["least_t2"])


def test_tolerable_deficiency_runs_on_without_a_step__CV_4_70_to_78():
    """Percent and gram rows of the Directive meet at every boundary."""
    for nominal in (50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 10_000.0, 15_000.0):
        assert (
            tolerable_deficiency(nominal + 0.001).tolerable_g - tolerable_deficiency(nominal).tolerable_g <= 0.1 + 1e-9
        )
    assert tolerable_deficiency(10_000.0).known == "read"
    assert tolerable_deficiency(10_000.1).known == "from_memory"


@published("CV-4-80", source="FPackV §9(4)", known="read")
def test_beyond_t1_and_beyond_t2__CV_4_80():
    found = tolerable_deficiency(2000.0)
    assert (found.least_t1_g, found.least_t2_g) == (1970.0, 1940.0)


@published("CV-4-40 to 64", source="NIST HB 133 Table 2-5", known="from memory")
@pytest.mark.parametrize("row", HB133["rows"], ids=lambda row: row["cv"])
def test_maximum_allowable_variation_by_both_columns(row):
    """From memory: the gram figure is the pound figure x 453.59237, cut off after the digits printed."""
    over_g, mav_g = float(row["over_kg"]) * 1000.0, float(row["mav_g"])
    assert maximum_allowable_variation(over_g + 0.5) == mav_g
    if row["to_kg"]:
        assert maximum_allowable_variation(round(float(row["to_kg"]) * 1000.0)) == mav_g
    assert 0.0 <= float(row["mav_lb"]) * 453.59237 - mav_g < (1.0 if "." not in row["mav_g"] else 0.1)


@published("CV-4-65", source="NIST HB 133 Table 2-5", known="from memory")
def test_above_the_table_two_percent_and_between_rows_cannot_tell():
    assert maximum_allowable_variation(30_000) == 600
    assert maximum_allowable_variation(300) is None


@published("CV-4-29", source="HB 133 Table 2-1", known="from memory; computed")
def test_sample_correction_factors_are_the_printed_ones__CV_4_29():
    for units, printed in HB133["sample_correction_factors"]:
        assert agrees(sample_correction_factor(units), printed)


@pytest.mark.parametrize(("column", "quantile"), [("t975", 0.975), ("t995", 0.995)])
def test_the_t_tables_are_those_of_scipy(column, quantile):
    for units, value in TOLERANCES[column]:
        assert value == pytest.approx(stats.t.ppf(quantile, units - 1), abs=6e-7)


@published("CV-4-92", source="76/211 Annex II 2.3", known="from memory; computed")
@pytest.mark.parametrize(
    ("units", "printed"), [(20, "0.6397"), (30, "0.5032"), (50, "0.3790"), (80, "0.2951"), (125, "0.2340")]
)
def test_factors_of_the_european_mean_test__CV_4_92(units, printed):
    t = dict(map(tuple, TOLERANCES["t995"]))[units]
    assert agrees(t / units**0.5, printed)


@published("CV-4-31", source="HB 133 Tables 2-1 and 2-5, worked by hand", known="computed")
@published("CV-4-30", source="HB 133 §2.3", known="from memory")
def test_twelve_packs_by_the_us_average_test__CV_4_31():
    answer = judge_average_us(907, TWELVE)
    assert answer.kind == "within"
    assert agrees(answer.facts["mean_error_g"], "-2.5000")
    assert agrees(answer.facts["deviation_g"], "5.1079")
    assert agrees(answer.facts["allowance_g"], "3.2454")
    assert agrees(answer.measured, "0.7454")
    assert maximum_allowable_variation(907) == 31.7
    assert all(907 - each <= 31.7 for each in TWELVE)


@published("CV-4-95", source="76/211/EEC Annex II 2.3, worked by hand", known="computed")
@published("CV-4-91", source="76/211 Annex II 2.3", known="read")
def test_twenty_packs_by_the_european_mean_test__CV_4_95():
    wide = (6.0**2 * 19 / 20) ** 0.5
    answer = judge_average_eu(1000, [997.0 + wide * (1 if i % 2 else -1) for i in range(20)])
    assert agrees(answer.facts["deviation_g"], "6.0")
    assert agrees(1000 - answer.facts["allowance_g"], "996.16")
    assert answer.kind == "within"


@published("CV-4-98", source="common practice, no source", known="common practice")
@pytest.mark.parametrize("judge", [judge_average_us, judge_average_eu])
def test_one_short_unit_cannot_tell_the_average(judge):
    assert judge(1000, [999.0]).reasons == ("NET-ONE-UNIT",)
    assert judge(1000, [1000.0]).kind == "within"
    assert "not a legal net-contents test" in judge(1000, [999.0]).facts["screening"]


@pytest.mark.parametrize("judge", [judge_average_us, judge_average_eu])
def test_units_that_are_all_equally_short_are_beyond(judge):
    assert judge(1000, [999.0, 999.0, 999.0]).kind == "beyond"


def test_claim_for_short_weight__CV_4_09():
    assert agrees(claim_amount(40, 10_000, 9620, 14.50), "220.40")
    assert claim_amount(40, 10_000, 10_050, 14.50) == 0.0


@pytest.mark.parametrize(
    ("call", "args", "code"),
    [
        (glaze_percent, (1000, 1000.1), "GLAZE-03"),
        (glazed_g, (85, 85), "GLAZE-01"),
        (deglazed_g, (50, 85), "GLAZE-02"),
        (judge_glaze, (1000, 900, 100), "PERCENT-01"),
        (tolerable_deficiency, (4.9,), "NET-01"),
        (spread_of_units, (1000, []), "NET-02"),
        (sample_correction_factor, (1,), "NET-02"),
        (shortage_g, (0, 5), "WEIGHT-01"),
    ],
)
def test_weights_that_cannot_be_are_refused(call, args, code):
    with pytest.raises(UnusableReading) as refused:
        call(*args)
    assert refused.value.code == code


weights = st.floats(1, 90_000)


@given(weights, st.floats(0.0, 0.99))
def test_glaze_percent_is_the_share_that_was_taken_away(with_glaze_g, share):
    without = with_glaze_g * (1.0 - share)
    assert glaze_percent(with_glaze_g, without) == pytest.approx(100.0 * share, abs=1e-9)
    assert 0.0 <= glaze_percent(with_glaze_g, without) <= 100.0


@given(st.floats(5, 90_000), st.floats(1, 1000))
def test_a_larger_pack_is_allowed_no_less(nominal_g, more_g):
    if nominal_g + more_g <= 100_000:
        assert tolerable_deficiency(nominal_g + more_g).tolerable_g >= tolerable_deficiency(nominal_g).tolerable_g


@given(st.floats(5, 90_000))
def test_tolerable_deficiency_is_never_below_its_percentage(nominal_g):
    """Rounded up to 0.1 g, so at least the smallest rate of the table (1 %) and at most 9 % and a tenth."""
    assert nominal_g * 0.01 - 1e-9 <= tolerable_deficiency(nominal_g).tolerable_g <= nominal_g * 0.09 + 0.1


@given(st.lists(st.floats(100, 2000), min_size=2, max_size=30))
def test_mean_and_deviation_are_those_of_the_standard_library(found):
    spread = spread_of_units(1000, found)
    assert spread.mean_error_g == pytest.approx(statistics.fmean(found) - 1000, abs=1e-9)
    assert spread.deviation_g == pytest.approx(statistics.stdev(found), abs=1e-6)


@given(st.sampled_from([glaze_percent, glazed_g, shortage_g]), st.floats(), st.floats())
def test_nothing_but_the_documented_error_comes_out(call, first, second):
    result = attempt(call, first, second)
    assert isinstance(result, (Unusable, float)) or result.kind in ("within", "beyond", "cannot_tell")
