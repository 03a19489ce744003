"""Held against SciPy's own law."""
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import hypergeom

from inspections.comparison.hypergeometric import chances

laws = st.tuples(st.integers(0, 400), st.integers(1, 4000)).flatmap(
    lambda sizes: st.tuples(st.just(sizes[0]), st.just(sizes[1]), st.integers(0, sum(sizes))))


@given(laws)
def test_chances_are_those_of_scipy(law):
    drawn, others, bad = law
    counts, likely = chances(drawn, others, bad)
    assert likely == pytest.approx(hypergeom.pmf(counts, drawn + others, bad, drawn), rel=1e-9, abs=1e-14)
    assert likely.sum() == pytest.approx(1)


def test_what_is_left_out_of_a_long_law_has_no_chance():
    counts, likely = chances(300_000, 700_000, 80_000)
    assert len(counts) < 12_000
    law = hypergeom(1_000_000, 80_000, 300_000)
    assert max(law.cdf(counts[0] - 1), law.sf(counts[-1])) == 0.0
    assert likely[np.searchsorted(counts, 24_000)] == pytest.approx(law.pmf(24_000), rel=1e-7)
