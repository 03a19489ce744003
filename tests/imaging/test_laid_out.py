"""Drawn laid-out samples under six lamps, with and without card: geometry and colour only, not used for tuning.

They say nothing of real photographs; those are measured by `manage.py evaluate_advisory`. Wanted are 95 % counted right
to within one and an area of 0.95; what holds now is less, and stands here so that it does not get worse: where every
head is black the threshold loses pale bodies, and black at the very rim is left out by design.
"""

import pytest

from imaging.evaluation.measures import auc
from tests.imaging.laid_out import LAMPS, black_of_pieces, looked_at, request, true_pieces

BLACK = 0.10  # of a piece, drawn: less is a speck; without any it is clean


@pytest.mark.parametrize("card", [True, False])
def test_pieces_are_counted_and_black_ones_told_from_clean(card):
    samples = [
        looked_at(request(number, lamp, card=card, dark=dark, dark_share=0.25 if dark else 0.0))
        for number, lamp in enumerate(LAMPS)
        for dark in (True, False)
    ]
    right = [abs(found.advice["pieces"] - true_pieces(scene)) <= 1 for scene, found in samples]
    pieces = [piece for sample in samples for piece in black_of_pieces(*sample)]
    clean = [figure for black, figure in pieces if black == 0]
    area = auc([figure for black, figure in pieces if black >= BLACK], clean)
    assert sum(right) >= 0.8 * len(right)
    assert area.area >= 0.85
