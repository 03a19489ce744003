"""Photos that simulated phones send: as large as said, and each another one."""
import io
import random

import numpy as np
import pytest
from PIL import Image

from inspections.development.made_up_deliveries import a_photo, with_comment
from inspections.evidence.strip_location import tells_place


@pytest.mark.parametrize("kilobytes", [40, 300])
def test_a_photo_is_about_as_large_as_said(kilobytes):
    # a simulated phone sends pieces of 16 kB: one of 14 kB never met a second piece
    assert len(a_photo(random.Random(1), kilobytes)) / 1024 == pytest.approx(kilobytes, rel=0.1)


def test_a_comment_makes_the_same_picture_another_file_that_tells_no_place():
    photo = a_photo(random.Random(1), 12)
    other = with_comment(photo, "0001")
    assert other != photo
    assert (np.asarray(Image.open(io.BytesIO(other))) == np.asarray(Image.open(io.BytesIO(photo)))).all()
    assert not tells_place(other)
