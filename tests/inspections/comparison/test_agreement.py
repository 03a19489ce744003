"""Counting what the advice was worth: pure numbers, held to statsmodels."""
import doctest

import pytest
from statsmodels.stats.proportion import proportion_confint

from inspections.comparison import agreement as module
from inspections.comparison.agreement import (
    BEYOND,
    CANNOT_TELL,
    NONE,
    NONE_SEEN,
    SEEN,
    WITHIN,
    Checked,
    agreement,
    answer_of,
    by_group,
    share,
)


def checked(answer=SEEN, found=WITHIN, *, site="Harbour", delivery="d1", is_blind=True, specification="s1") -> Checked:
    return Checked(site, specification, "PNV", delivery, answer, found, is_blind)


def cartons(**numbers: int) -> list[Checked]:
    """So many cartons of each cell; every fifth carton is of the same delivery."""
    cells = {"seen_found": (SEEN, WITHIN), "seen_beyond": (SEEN, BEYOND), "seen_none": (SEEN, NONE),
             "none_found": (NONE_SEEN, WITHIN), "none_none": (NONE_SEEN, NONE), "tell_found": (CANNOT_TELL, WITHIN),
             "tell_none": (CANNOT_TELL, NONE)}
    listed = [cells[name] for name, number in numbers.items() for _ in range(number)]
    return [checked(*cell, delivery=place % 9) for place, cell in enumerate(listed)]


def test_the_examples_in_the_module_hold():
    result = doctest.testmod(module)
    assert result.attempted >= 3
    assert result.failed == 0


# ---- one carton -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("answers", "of_the_carton"),
    [([SEEN], SEEN), ([NONE_SEEN, SEEN, CANNOT_TELL], SEEN), ([CANNOT_TELL, NONE_SEEN], NONE_SEEN),
     ([CANNOT_TELL, CANNOT_TELL], CANNOT_TELL)],
)
def test_one_photo_that_shows_darkening_is_enough(answers, of_the_carton):
    assert answer_of(answers) == of_the_carton


# ---- many -------------------------------------------------------------------------------------------------
def test_the_table_and_what_is_said_from_it():
    counted = agreement(cartons(seen_found=30, seen_beyond=7, seen_none=5, none_found=6, none_none=40, tell_found=4,
                                tell_none=8))
    assert (counted.cartons, counted.deliveries, sum(counted.table.values())) == (100, 9, 100)
    assert counted.table[SEEN, BEYOND] == 7
    assert counted.table[CANNOT_TELL, NONE] == 8
    numbers = {name: (getattr(counted, name).count, getattr(counted, name).of) for name in (
        "agreeing", "right_flags", "flagged", "flagged_beyond", "wrong_flags", "untold")}
    assert numbers == {
        "agreeing": (77, 88),  # 30 + 7 + 40 of all where it told something
        "right_flags": (37, 42),  # of 30 + 7 + 5
        "flagged": (37, 47),  # of 30 + 7 + 6 + 4: "cannot tell" is not flagged
        "flagged_beyond": (7, 7),
        "wrong_flags": (5, 53),  # of 5 + 40 + 8
        "untold": (12, 100),
    }


@pytest.mark.parametrize(("count", "of"), [(0, 20), (1, 20), (5, 20), (20, 20), (37, 42), (3, 40), (500, 1000)])
def test_intervals_are_wilson_s_as_in_statsmodels(count, of):
    # statsmodels.stats.proportion.proportion_confint, method "wilson" (Wilson 1927)
    one = share(count, of, deliveries=9)
    low, high = proportion_confint(count, of, alpha=0.05, method="wilson")
    assert (one.low, one.high) == pytest.approx((low, high), abs=1e-9)
    assert one.low <= one.share == count / of <= one.high


def test_nothing_to_count_is_no_share_and_not_nought__CV_9_14():
    counted = agreement([])
    assert (counted.cartons, counted.agreeing.share, counted.agreeing.low) == (0, None, None)
    assert counted.agreeing.too_few


def test_cartons_with_nothing_to_compare_are_not_in_the_table():
    counted = agreement([checked(SEEN, None), checked(NONE_SEEN, NONE)])
    assert counted.cartons == 1
    assert counted.right_flags.of == 0


@pytest.mark.parametrize(
    ("of", "deliveries", "too_few"), [(20, 5, False), (19, 5, True), (20, 4, True), (0, 0, True)]
)
def test_exactly_the_stated_numbers_are_enough__CV_12_81(of, deliveries, too_few):
    assert share(0, of, deliveries).too_few is too_few


def test_groups_add_up_to_the_whole():
    some = [checked(site="Harbour"), checked(NONE_SEEN, NONE, site="Hill"), checked(SEEN, NONE, site="Hill")]
    groups = {key: agreement(found) for key, found in by_group(some, lambda carton: carton.site).items()}
    assert {key: counted.cartons for key, counted in groups.items()} == {"Harbour": 1, "Hill": 2}
    whole = agreement(some).table
    assert {cell: sum(counted.table[cell] for counted in groups.values()) for cell in whole} == whole
