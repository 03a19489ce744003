"""Baselines: documented for what is traded, refined by accepted cartons, and slow to believe a few photos."""

import dataclasses

import pytest

from imaging.baseline import BORROWED, AcceptedLook, documented_baseline, drift, refined_baseline

BANDED = ("GIT", "TIP", "PRB", "KUP")  # CV-6-40 to CV-6-42, CV-7-04
RED_RAW = ("LAA", "ARS", "PRA")  # CV-6-48


def look(lightness: float, a: float = 1.0, b: float = 7.0, dark: float = 0.01) -> AcceptedLook:
    counts = [0] * 50
    counts[int(lightness // 2)] = 1000
    return AcceptedLook(tuple(counts), a, b, dark)


@pytest.mark.parametrize("code", BANDED)
def test_naturally_banded_species_are_known_as_such(code):
    assert documented_baseline(code, "HLSO", "raw").pattern == "banded"


@pytest.mark.parametrize("code", RED_RAW)
def test_red_raw_species_are_red_without_being_cooked__CV_6_48(code):
    assert documented_baseline(code, "HLSO", "raw").lab[1] > 15


def test_cooked_ones_are_redder_than_raw_ones__CV_6_49():
    raw, cooked = (documented_baseline("PNV", "HLSO", state) for state in ("raw", "cooked"))
    assert cooked.lab[1] > raw.lab[1] + 10


def test_unknown_species_gets_a_wide_look():
    unknown, known = documented_baseline("QQQ", "HLSO", "raw"), documented_baseline("PNV", "HLSO", "raw")
    assert all(wide >= narrow for wide, narrow in zip(unknown.spread, known.spread, strict=True))


def test_no_photos_change_nothing():
    documented = documented_baseline("PNV", "HLSO", "raw")
    assert refined_baseline(documented, [], []) is documented
    assert drift(documented, documented) == 0


def test_as_many_photos_as_are_borrowed_move_it_half_way():
    documented = documented_baseline("PNV", "HLSO", "raw")
    refined = refined_baseline(documented, [], [look(41.0)] * int(BORROWED))
    assert refined.lab[0] == pytest.approx((documented.lab[0] + 41.0) / 2)


def test_a_site_with_few_photos_stays_near_its_group():
    documented = documented_baseline("PNV", "HLSO", "raw")
    refined = refined_baseline(documented, [look(65.0)] * 200, [look(35.0)])
    assert abs(refined.lab[0] - 65) < abs(refined.lab[0] - 35)
    assert refined.lab[0] < refined_baseline(documented, [look(65.0)] * 200, []).lab[0]


def test_order_of_photos_changes_no_figure():
    documented = documented_baseline("PNV", "HLSO", "raw")
    looks = [look(40.0), look(50.0, 3), look(61.0, 2, 9)]
    one, other = refined_baseline(documented, [], looks), refined_baseline(documented, [], looks[::-1])
    assert dataclasses.replace(one, version="") == dataclasses.replace(other, version="")


def test_a_few_bad_cartons_among_accepted_ones_do_not_hide_black_spot():
    documented = documented_baseline("PNV", "HLSO", "raw")
    looks = [look(56.0, dark=0.01)] * 40 + [look(56.0, dark=0.3)] * 8
    assert refined_baseline(documented, [], looks).own_dark_share <= 0.011


def test_own_share_never_grows_beyond_a_twentieth():
    documented = documented_baseline("PNV", "HLSO", "raw")
    assert refined_baseline(documented, [], [look(56.0, dark=0.5)] * 500).own_dark_share <= 0.05


def test_version_names_what_it_was_made_from_and_drift_grows():
    documented = documented_baseline("PNV", "HLSO", "raw")
    near, far = (refined_baseline(documented, [], [look(value)] * 30) for value in (54.0, 40.0))
    assert near.version != far.version
    assert near.version.startswith(documented.version)
    assert drift(documented, far) > drift(documented, near) > 0


def test_a_look_without_prawn_surface_is_an_error():
    with pytest.raises(ValueError):
        refined_baseline(documented_baseline("PNV", "HLSO", "raw"), [], [AcceptedLook((0,) * 50, 0, 0, 0)])
