"""The one cut-off, refitted by receivers' findings: where it lies, how surely, and when it goes quiet."""

import numpy as np
import pytest

from imaging.advice import CUT_OFF
from imaging.cutoff import LEAST, refit


def figures(middle: float, count: int, seed: int) -> np.ndarray:
    return np.random.default_rng(seed).normal(middle, 0.08, count)


def test_one_in_twenty_sound_cartons_lies_above_it_and_the_interval_holds_it():
    sound = figures(0.45, 400, 1)
    learnt = refit(sound, figures(0.8, 60, 2))
    assert (sound > learnt.cut_off).mean() == pytest.approx(0.05, abs=0.005)
    # the 95th percentile of a normal distribution is 1.645 standard deviations above its middle
    assert learnt.cut_off == pytest.approx(0.45 + 1.645 * 0.08, abs=0.03)
    assert learnt.low < learnt.cut_off < learnt.high < learnt.low + 0.1
    assert not learnt.is_quiet
    assert learnt.drift == pytest.approx(learnt.cut_off - CUT_OFF)


def test_too_few_of_either_kind_teach_nothing():
    assert refit(figures(0.4, LEAST - 1, 1), figures(0.8, 100, 2)) is None
    assert refit(figures(0.4, 100, 1), figures(0.8, LEAST - 1, 2)) is None


def test_it_goes_quiet_where_the_figure_tells_nothing_or_has_drifted_far():
    assert refit(figures(0.5, 60, 1), figures(0.52, 60, 2)).is_quiet
    assert refit(figures(0.9, 60, 1), figures(1.4, 60, 2)).is_quiet
