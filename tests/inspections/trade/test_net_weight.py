"""Net weight and glaze in the verdict: the published table and test of each market, and what is taken off."""

import statistics
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from inspections.trade.limits import DEFAULT_LIMITS, LATER, RETIRED, limits_from_json
from inspections.trade.shortage import maximum_allowable_variation, short_percent, tolerable_deficiency, tolerance_for
from tests.published import published

from .deliveries import SPECIFICATION, carton, delivery, grams
from .test_limits import changed
from .test_verdict import codes, line_of, weight_of

MARKETS = ("EU", "US", "ANZ", "CODEX")
SHOWN = [
    *("name", "scientific_name", "method", "area", "gear", "state", "net_weight", "lot", "date"),
    *("storage", "crustacean", "producer", "approval", "origin"),
]


def weighed(market, *units, limits=DEFAULT_LIMITS, **ordered):
    """The line of a delivery whose cartons gave these net weights, g."""
    cartons = []
    for k in range(max(3, len(units))):
        weights = {"deglazed": grams(f"{units[k]:.4f}")} if k < len(units) else {}
        sound = carton(k + 1, weights=weights)
        sound["label"]["shows"] = list(SHOWN)
        cartons.append(sound)
    return line_of(delivery(*cartons), {**SPECIFICATION, "market": market, **ordered}, limits)


def reason_of(line, code):
    return next(reason for reason in line["reasons"] if reason["code"] == code)


@published("CV-4-87", source="76/211/EEC Annex I; OIML R 87; FPackV §9", known="computed")
@pytest.mark.parametrize("market", ["EU", "ANZ", "CODEX"])
@pytest.mark.parametrize(
    ("net", "code"),
    [(1970.0, None), (1969.9, "NET-UNIT-NOTE"), (1940.0, "NET-UNIT-NOTE"), (1939.9, "NET-UNIT")],
)
def test_one_unit_of_2_kg_by_the_tolerable_deficiency(market, net, code):
    line = weighed(market, net, 2100, 2100)
    assert codes(line) == ([] if code is None else [code])
    if code is not None:
        reason = reason_of(line, code)
        assert (reason["unit"], reason["bound"]) == ("g", 60.0 if code == "NET-UNIT" else 30.0)
        assert reason["measured"] == pytest.approx(2000 - net, abs=1e-9)
        assert "76/211/EEC" in reason["basis"]["source"]


@published("CV-4-53", source="NIST HB 133 Table 2-5", known="from memory")
@pytest.mark.parametrize(("net", "code"), [(1945.6, None), (1945.5, "NET-UNIT")])
def test_one_unit_of_2_kg_by_the_maximum_allowable_variation(net, code):
    line = weighed("US", net, 2100, 2100)
    assert codes(line) == ([] if code is None else [code])
    if code is not None:
        reason = reason_of(line, code)
        assert reason["bound"] == 54.4
        assert "Handbook 133" in reason["basis"]["source"]


def test_a_unit_without_a_row_of_the_table_is_said_and_not_judged():
    line = weighed("US", 290, carton_net_g=3000, units_per_carton=10)  # 300 g lies in a gap of the rows held here
    assert "NET-NO-TABLE" in codes(line)
    assert line["cartons"][0]["checks"]["net_weight"] == "cannot_tell"
    assert line["suggestion"] == "accept"
    tiny = weighed("EU", 3.9, carton_net_g=40, units_per_carton=10)  # T begins at 5 g
    assert "NET-NO-TABLE" in codes(tiny)


def test_units_short_beyond_their_tolerance_are_taken_off_where_the_mean_is_not_short():
    line = weighed("EU", 1930, 1930, 2200)
    assert line["suggestion"] == "accept_with_allowance"
    assert (line["allowance"]["basis"], line["allowance"]["quantity"]) == ("short_weight", pytest.approx(0.14))
    assert "2 units weighed beyond what one unit may be short" in line["allowance"]["formula"]


@published("CV-1-37", source="CXS 92-1981 §9", known="read")
def test_codex_asks_for_a_mean_not_under_the_declared_weight():
    line = weighed("CODEX", 1999, 2000, 2000)
    reason = reason_of(line, "NET-MEAN")
    assert (reason["bound"], reason["basis"]["source"]) == (0.0, "CXS 92-1981 §9")
    assert reason["measured"] == pytest.approx(1 / 3)


@pytest.mark.parametrize(("market", "side"), [("EU", 0.995), ("ANZ", 0.995), ("US", 0.975)])
@pytest.mark.parametrize("units", [(1990, 1991, 1992), (1990, 1985, 1970), (1999, 1998, 2002, 1997, 1996, 2000)])
def test_the_mean_has_the_sample_allowance_of_its_market__CV_4_29_CV_4_92(market, side, units):
    """Against SciPy: Student's t over root n, times the spread."""
    line = weighed(market, *units)
    allowance = stats.t.ppf(side, len(units) - 1) / sqrt(len(units)) * statistics.stdev(units)
    short = 2000 - statistics.mean(units)
    code = "NET-MEAN" if short > allowance else "NET-MEAN-UNSURE"
    reason = reason_of(line, code)
    assert reason["measured"] == pytest.approx(short, abs=1e-9)
    assert reason["bound"] == pytest.approx(allowance, rel=1e-6)
    assert reason["severity"] == ("major" if code == "NET-MEAN" else "note")
    assert (line["allowance"] is None) == (code == "NET-MEAN-UNSURE")


@pytest.mark.parametrize("market", MARKETS)
def test_units_all_alike_and_short_are_short_for_every_market(market):
    line = weighed(market, 1990, 1990, 1990)
    assert codes(line) == ["NET-MEAN"]
    assert line["allowance"]["quantity"] == pytest.approx(10 * 5 * 20 / 1000)  # CV-4-09: shortage x units x cartons


def test_one_unit_cannot_tell_a_mean_where_the_test_needs_a_spread():
    for market in ("EU", "US"):
        line = weighed(market, 1995)
        assert codes(line) == ["NET-ONE-UNIT"]
        assert line["suggestion"] == "accept"
    assert codes(weighed("CODEX", 1995)) == ["NET-MEAN"]


@pytest.mark.parametrize("market", MARKETS)
@pytest.mark.parametrize(
    "units", [(1999.8, 2000.9, 2000.1, 1998.4, 2000.8), (1999.9, 2000.1), (1999.7, 2000.1, 2000.2)]
)
def test_a_mean_that_is_the_declared_weight_is_not_short_by_a_rounding(market, units):
    assert codes(weighed(market, *units)) == []


@given(market=st.sampled_from(MARKETS), tenths=st.lists(st.integers(-300, 300), min_size=1, max_size=5))
def test_weights_around_the_declared_one_are_judged_without_a_fault(market, tenths):
    units = [2000 + each / 10 for each in (*tenths, -sum(tenths)) if -400 <= each <= 400]
    found = set(codes(weighed(market, *units)))
    assert found <= {"NET-MEAN", "NET-MEAN-UNSURE", "NET-ONE-UNIT", "NET-UNIT-NOTE"}
    if sum(tenths) in range(-400, 401):
        assert found <= {"NET-UNIT-NOTE"}


def test_a_contract_may_tolerate_a_short_mean():
    tolerant = changed("net_mean_short_percent", bound=1.0)
    assert codes(weighed("EU", 1985, 1985, 1985, limits=tolerant)) == []
    assert codes(weighed("EU", 1979, 1979, 1979, limits=tolerant)) == ["NET-MEAN"]


def test_found_glaze_against_declared_with_its_numbers():
    line = line_of(
        delivery(carton(3, weights={"glazed": grams("2400"), "deglazed": grams("2100")}), carton(11), carton(17))
    )
    reason = reason_of(line, "GLAZE-OVER")
    assert (reason["measured"], reason["bound"], reason["unit"]) == (2.5, 2.0, "points")
    assert reason["facts"]["glaze_percent"] == 12.5


def test_a_set_published_before_these_limits_is_read_with_the_shipped_ones():
    older = changed("uniformity", bound=1.4)
    older["limits"] = [limit for limit in older["limits"] if limit["code"] not in LATER]
    older["limits"].append({"code": RETIRED[0], "bound": 3.0})
    read = limits_from_json(older)
    assert read["uniformity"].bound == 1.4
    assert all(read[code] == limits_from_json(DEFAULT_LIMITS)[code] for code in LATER)
    strict = {**SPECIFICATION, "overrides": {RETIRED[0]: 1.0}}
    assert line_of(delivery(), strict)["suggestion"] == "accept"


@pytest.mark.parametrize("market", MARKETS)
@given(units=st.lists(st.floats(1500, 2500), min_size=1, max_size=6), more=st.floats(0, 300))
def test_more_in_every_unit_never_worsens(market, units, more):
    assert weight_of(weighed(market, *[unit + more for unit in units])) <= weight_of(weighed(market, *units))


@given(st.sampled_from(MARKETS), st.floats(0.001, 100_000), st.floats(0.001, 100_000))
def test_the_tolerance_is_positive_and_the_percent_follows_the_shortage(market, declared_g, found_g):
    tolerance = tolerance_for(market, declared_g)
    assert tolerance is None or tolerance.tolerable_g > 0
    assert (short_percent(found_g, declared_g) > 0) == (found_g < declared_g)


@given(glazed=st.floats(1000, 3000), less=st.floats(1, 900), more_ice=st.floats(0.001, 50))
def test_more_ice_in_the_same_weight_is_never_more_prawn(glazed, less, more_ice):
    def derived(net):
        weights = {"glazed": grams(f"{glazed:.3f}"), "deglazed": grams(f"{net:.3f}")}
        return line_of(delivery(carton(3, weights=weights), carton(11), carton(17)))["cartons"][0]["derived"]

    icier, plain = derived(glazed - less - more_ice if glazed - less - more_ice > 1 else 1.0), derived(glazed - less)
    assert icier["net_g"] <= plain["net_g"]
    assert icier["glaze_percent"] >= plain["glaze_percent"]


@published("CV-4.2-01", source="NIST HB 133 Table 2-5", known="from memory")
def test_454_g_may_be_19_9_g_short_and_not_9():
    assert maximum_allowable_variation(454.0) == 19.9


@published("CV-4-70 to 76", source="76/211 Annex I; R 87 Table 1; FPackV §9(3)", known="read")
@published("CV-4-77 to 78", source="R 87 Table 1 only", known="from memory")
@pytest.mark.parametrize(
    ("nominal_g", "tolerable_g", "cv"),
    [
        (5, 0.5, "CV-4-70"),
        (50, 4.5, "CV-4-70"),
        (75, 4.5, "CV-4-71"),
        (150, 6.8, "CV-4-72"),
        (200, 9.0, "CV-4-72"),
        (250, 9.0, "CV-4-73"),
        (450, 13.5, "CV-4-74"),
        (750, 15.0, "CV-4-75"),
        (3000, 45.0, "CV-4-76"),
        (12_000, 150.0, "CV-4-77"),
        (20_000, 200.0, "CV-4-78"),
    ],
)
def test_every_row_of_the_tolerable_deficiency(nominal_g, tolerable_g, cv):
    found = tolerable_deficiency(float(nominal_g))
    assert (found.tolerable_g, found.cv) == (tolerable_g, cv)
    assert found.known == ("from_memory" if cv in ("CV-4-77", "CV-4-78") else "read")
