"""The demo's photos: enough of them, small, the same each time, and drawn without any test dependency."""

import io
import subprocess
import sys

from PIL import Image

from fixtures.demo import photos

PURPOSES = {"load", "docket", "label", "top", "under_liner", "sample", "defect"}


def test_photos_are_small_varied_and_the_same_each_time(tmp_path, monkeypatch):
    monkeypatch.setattr(photos, "SETS", 3)
    drawn = photos.draw_demo_photos(tmp_path / "a", 7)
    again = photos.draw_demo_photos(tmp_path / "b", 7)
    assert len(drawn) == 12
    assert [p.path.read_bytes() for p in drawn] == [p.path.read_bytes() for p in again]
    for one in drawn:
        with Image.open(io.BytesIO(one.path.read_bytes())) as picture:
            assert max(picture.size) <= 1600
        assert one.purpose in PURPOSES
        assert one.path.stat().st_size < 700_000


def test_sets_with_a_defect_are_dark_and_the_others_clean(tmp_path, monkeypatch):
    monkeypatch.setattr(photos, "SETS", 2)
    sound, faulty = (photos.draw_demo_photos(tmp_path, 7)[place : place + 4] for place in (0, 4))
    assert [one.purpose for one in faulty] == ["label", "top", "sample", "defect"]
    assert all(one.dark_share == 0 for one in sound)
    assert [one.dark_share > 0.03 for one in faulty] == [False, True, True, True]


def test_the_whole_demo_has_forty_photos_of_every_purpose():
    requests = list(photos._requests(7))
    assert len(requests) == 40
    assert {purpose for purpose, _ in requests} == PURPOSES


def test_drawing_needs_no_test_dependency():
    """The first start runs on the run-time pins alone; colour-science and scipy are not loaded for it."""
    code = "import sys, fixtures.demo.photos; print(sorted({'colour', 'scipy', 'skimage'} & set(sys.modules)))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
