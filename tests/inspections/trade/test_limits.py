"""A limit set as data: read whole, refused with the limit's code, overlaid by a specification."""

import copy

import pytest

from inspections.trade.limits import DEFAULT_LIMITS, HAZARDS, UnusableLimits, limits_for, limits_from_json
from inspections.trade.wording import WORDS
from tests.published import published


def changed(code: str, /, **changes):
    data = copy.deepcopy(DEFAULT_LIMITS)
    next(limit for limit in data["limits"] if limit["code"] == code).update(changes)
    return data


def test_the_shipped_default_reads_and_every_limit_has_a_source():
    limits = limits_from_json(DEFAULT_LIMITS)
    assert len(limits.by_code) == len(DEFAULT_LIMITS["limits"])
    for limit in limits.by_code.values():
        assert limit.basis.source
        assert limit.basis.cv.startswith("CV-")
        assert "CV-" not in limit.basis.source + limit.basis.words  # suppliers read these; they have no ledger
        assert (limit.bound is None) == (limit.code == "defective_cartons" or limit.sense == "none")


@pytest.mark.parametrize(
    ("code", "bound"),
    [
        ("product_c.within", -18.0),  # 89/108/EEC Art. 5(1), CV-5-30, read
        ("product_c.tolerance", -15.0),  # 89/108/EEC Art. 5(1), CV-5-31, read
        ("product_c.reject", -12.0),  # CXC 8-1976 §4, CV-5-20, from memory
        ("product_c.accuracy", 0.5),  # 92/2/EEC Annex II, CV-5-46, read
        ("black_spot_wide_share", 0.25),  # CXS 92-1981 §8, CV-1-33, from memory
        ("dehydrated_share", 0.1),  # CXS 92-1981 §8, CV-1-30, from memory
        ("uniformity", 1.5),  # trade specification, CV-3-54, read
        ("tails_share", 0.03),  # trade specification, CV-3-63, read
        ("net_mean_short_percent", 0.0),  # CXS 92-1981 §9, CV-1-37, read
        ("life_share", 2 / 3),  # CV-12-26, common practice
    ],
)
def test_published_bounds_are_the_default(code, bound):
    assert limits_from_json(DEFAULT_LIMITS)[code].bound == bound


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (None, "LIMITS-01"),
        ({}, "LIMITS-01"),
        ({"limits": [5]}, "LIMITS-01"),
        (changed("uniformity", unit="share"), "LIMITS-01"),
        (changed("uniformity", sense="at_least"), "LIMITS-01"),
        (changed("uniformity", code="evenness"), "LIMITS-02"),
        (changed("uniformity", bound=None), "LIMITS-03"),
        (changed("uniformity", bound=True), "LIMITS-03"),
        (changed("uniformity", bound="1.5"), "LIMITS-03"),
        (changed("black_spot_share", bound=1.01), "LIMITS-03"),
        (changed("refreezing", bound=1), "LIMITS-03"),
        (changed("uniformity", severity="fatal"), "LIMITS-04"),
        (changed("product_c.reject", bound=-15.5), "LIMITS-05"),
        (changed("product_c.tolerance", bound=-19), "LIMITS-05"),
        (changed("broken_share.note", bound=0.2), "LIMITS-05"),
        ({"limits": DEFAULT_LIMITS["limits"][:-1]}, "LIMITS-06"),
        ({"limits": [*DEFAULT_LIMITS["limits"], DEFAULT_LIMITS["limits"][0]]}, "LIMITS-06"),
        (changed("uniformity", basis=None), "LIMITS-07"),
        (changed("uniformity", basis={"source": " ", "known": "read", "cv": "", "words": ""}), "LIMITS-07"),
        (changed("uniformity", basis={"source": "x", "known": "hearsay", "cv": "", "words": ""}), "LIMITS-07"),
    ],
)
def test_a_set_that_cannot_be_judged_by_is_refused(data, code):
    with pytest.raises(UnusableLimits) as raised:
        limits_from_json(data)
    assert raised.value.code == code
    assert code in WORDS["unusable"]


@published("CV-1-39", source="CXS 233 §2.1", known="read")
@published("CV-2-07", source="CXS 233 §2.1", known="read")
@pytest.mark.parametrize("hazard", sorted(HAZARDS))
def test_no_site_can_make_a_hazard_acceptable__CV_1_39(hazard):
    with pytest.raises(UnusableLimits) as raised:
        limits_from_json(changed(hazard, severity="minor"))
    assert raised.value.facts == {"limit": hazard}


def test_a_specification_lays_its_bounds_over_without_changing_the_set():
    limits = limits_from_json(DEFAULT_LIMITS)
    own = limits_for(limits, {"black_spot_share": 0.05})
    assert own["black_spot_share"].bound == 0.05
    assert limits["black_spot_share"].bound == 0.1
    assert own["black_spot_share"].basis == limits["black_spot_share"].basis


@pytest.mark.parametrize(
    ("overrides", "code"),
    [(5, "LIMITS-01"), ({"colour": 1}, "LIMITS-02"), ({"count": 1}, "LIMITS-02"), ({"soft_share": 2}, "LIMITS-03")],
)
def test_a_specification_cannot_set_what_is_no_bound(overrides, code):
    with pytest.raises(UnusableLimits) as raised:
        limits_for(limits_from_json(DEFAULT_LIMITS), overrides)
    assert raised.value.code == code
