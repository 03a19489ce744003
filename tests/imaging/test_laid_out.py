"""Drawn laid-out samples under six lamps, with and without card: geometry and colour only, not used for tuning.

They say nothing of real photographs; those are measured by `manage.py evaluate_advisory`. Of 240 samples (five sets of
numbers, black on an eighth and on a quarter of all shell) 231 were counted right to within one; the area was 0.956 to
0.986 with an eighth, and 0.915 to 0.989 with a quarter: what nearly every piece shows is taken for the species.
"""

import pytest

from imaging.measures import auc
from tests.imaging.laid_out import LAMPS, black_of_pieces, looked_at, request, true_pieces

BLACK = 0.10  # of a piece, drawn: less is a speck; without any it is clean


@pytest.mark.parametrize("first", [0, 40])
def test_pieces_are_counted_and_black_ones_told_from_clean(first):
    samples = [
        looked_at(request(first + number, lamp, card=card, dark=dark, dark_share=0.12 if dark else 0.0))
        for card in (True, False)
        for number, lamp in enumerate(LAMPS)
        for dark in (True, False)
    ]
    right = [abs(found.advice["pieces"] - true_pieces(scene)) <= 1 for scene, found in samples]
    pieces = [piece for sample in samples for piece in black_of_pieces(*sample)]
    clean = [figure for black, figure in pieces if black == 0]
    assert sum(right) >= 0.95 * len(right)
    assert auc([figure for black, figure in pieces if black >= BLACK], clean).area >= 0.95
