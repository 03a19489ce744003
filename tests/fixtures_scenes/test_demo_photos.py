"""The demo's photos: enough of them, small, the same each time, and drawn without any test dependency."""

import io
import subprocess
import sys

from PIL import Image

from fixtures.demo import photos

PURPOSES = {"load", "docket", "label", "top", "under_liner", "sample", "defect"}


def test_photos_are_small_varied_and_the_same_each_time(tmp_path, monkeypatch):
    monkeypatch.setattr(photos, "SETS", 3)
    monkeypatch.setattr(photos, "SIDE_BY_SIDE", ())
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
    monkeypatch.setattr(photos, "SIDE_BY_SIDE", ())
    sound, faulty = (photos.draw_demo_photos(tmp_path, 7)[place : place + 4] for place in (0, 4))
    assert [one.purpose for one in faulty] == ["label", "top", "sample", "defect"]
    assert all(one.dark_share == 0 for one in sound)
    assert [one.dark_share > 0.03 for one in faulty] == [False, True, True, True]


def test_the_whole_demo_has_forty_photos_of_every_purpose():
    shots = list(photos._shots(7))
    assert len(shots) == 40
    assert {shot.purpose for shot in shots} == PURPOSES


def test_cartons_side_by_side_are_some_dark_and_some_clean_and_mostly_with_a_card():
    shots = list(photos._side_by_side(7))
    assert len(shots) == 57
    assert [shot.carton for shot in shots[:6]] == [0, 1, 2, 0, 1, 2]
    assert len({shot.request.seed for shot in shots}) == 57
    assert 15 <= sum(shot.request.dark_share > 0.09 for shot in shots) <= 40
    assert sum(shot.request.card for shot in shots) > 35


def test_drawn_on_several_cores_they_are_the_same(tmp_path, monkeypatch):
    monkeypatch.setattr(photos, "SETS", 0)
    monkeypatch.setattr(photos, "SIDE_BY_SIDE", ((photos.SIDE_BY_SIDE[0][0], 2),))
    monkeypatch.setattr(photos, "FEW", 4)
    monkeypatch.setattr(photos, "SMALL_LONG", 160)
    monkeypatch.setattr(photos, "SMALL_SHORT", 120)
    together = [one.path.read_bytes() for one in photos.draw_demo_photos(tmp_path / "a", 7)]
    monkeypatch.setattr(photos.os, "cpu_count", lambda: 1)
    alone = [one.path.read_bytes() for one in photos.draw_demo_photos(tmp_path / "b", 7)]
    assert together == alone
    assert len(alone) == 6


def test_drawing_needs_no_test_dependency():
    """The first start runs on the run-time pins alone; colour-science and scipy are not loaded for it."""
    code = "import sys, fixtures.demo.photos; print(sorted({'colour', 'scipy', 'skimage'} & set(sys.modules)))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"
