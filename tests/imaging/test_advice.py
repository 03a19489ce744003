"""The way from photo to advice: what is said, what is framed, and when nothing is said."""

import dataclasses

import cv2
import numpy as np
import pytest

from fixtures.scenes import SceneRequest, draw_scene
from imaging import advice
from imaging.advice import CUT_OFF, Context, advise, analyse
from imaging.decode import encode_jpeg
from imaging.overlay import overlay_jpeg
from tests.imaging.laid_out import looked_at, request, true_pieces

GOODS = Context("PNV", "HOSO", "raw")


def tray(*figures: float, size: int = 900, ground=(205, 208, 210), shell=(120, 130, 140)) -> np.ndarray:
    """Plain pale ground with straight pieces side by side, each with a black disc of that depth of log light."""
    picture = np.full((size, size, 3), ground, np.uint8)
    for number, depth in enumerate(figures):
        x, y = 150 + 300 * (number % 3), 140 + 240 * (number // 3)
        cv2.ellipse(picture, (x, y), (120, 45), 0, 0, 360, shell, -1, cv2.LINE_AA)
        if depth:
            cv2.circle(picture, (x - 30, y), 14, [int(v * (1 - depth)) for v in shell], -1, cv2.LINE_AA)
    noise = np.random.default_rng(4).normal(0, 3, picture.shape)
    return np.clip(picture + noise, 0, 255).astype(np.uint8)


def said(picture: np.ndarray, context: Context = GOODS) -> dict:
    return advise(encode_jpeg(picture, 95), context)


def test_pieces_are_counted_and_the_black_ones_framed_where_they_are_black():
    one = said(tray(0, 0.85, 0, 0, 0.85, 0, 0))
    assert (one["pieces"], one["dark_pieces"], one["would_say"]) == (7, 2, "darkening_seen")
    for x, y in ((420, 140), (420, 380)):
        assert min(np.hypot(frame["x"] - x / 900, frame["y"] - y / 900) for frame in one["frames"]) < 0.02


def test_clean_pieces_are_not_called_dark():
    one = said(tray(0, 0, 0, 0, 0))
    assert (one["dark_pieces"], one["would_say"]) == (0, "none_seen")


def test_what_every_piece_shows_is_the_species_up_to_a_bound():
    alone, every = said(tray(0.85, 0, 0)), said(tray(*[0.85] * 7))
    assert 0.1 < alone["figure"] - every["figure"] <= 0.2 + 0.05


@pytest.mark.parametrize("light", [0.5, 0.7, 1.1])
def test_less_light_on_the_whole_tray_changes_no_figure(light):
    whole = said(tray(0, 0.85, 0, 0))
    dimmed = said(np.clip(tray(0, 0.85, 0, 0) * light ** (1 / 2.2), 0, 255).astype(np.uint8))
    assert dimmed["figure"] == pytest.approx(whole["figure"], abs=0.15)
    assert dimmed["pieces"] == whole["pieces"]


def test_black_that_shell_encloses_stays_in_the_outline():
    picture = tray(0, 0, 0)
    cv2.circle(picture, (150, 140), 30, (205, 208, 210), -1)  # even where it has the ground's own colour
    found = analyse(encode_jpeg(picture, 95), GOODS).pieces
    assert len(found) == 3
    assert all(one.piece.mask[one.piece.mask.shape[0] // 2].all() for one in found)


def test_until_photographs_kept_aside_are_known_frames_are_shown_without_an_answer():
    one = said(tray(0, 0.85, 0))
    assert (one["answer"], one["would_say"]) == ("look_here", "darkening_seen")
    assert [reason["code"] for reason in one["reasons"]] == ["frames_only"]


@pytest.mark.parametrize(("low", "answer"), [(0.65, "look_here"), (0.66, "darkening_seen")])
def test_an_answer_is_given_where_the_lower_end_on_photographs_is_above_the_floor(monkeypatch, low, answer):
    monkeypatch.setattr(advice, "measured", lambda: {"kept_aside": {"raw": {"auc_low": low}}})
    assert said(tray(0, 0.85, 0))["answer"] == answer
    assert said(tray(0, 0.85, 0), Context("PNV", "HOSO", "cooked"))["answer"] == "look_here"


def test_findings_may_silence_it_or_move_the_cut_off():
    one = said(tray(0, 0.85, 0))
    learnt = dataclasses.replace(GOODS, cut_off=one["figure"] + 0.05, may_answer=True)
    assert said(tray(0, 0.85, 0), learnt)["dark_pieces"] == 0
    assert said(tray(0, 0.85, 0), dataclasses.replace(GOODS, may_answer=False))["answer"] == "look_here"
    assert one["cut_off"] == CUT_OFF


@pytest.mark.parametrize("subject", ["empty_liner", "label", "hand", "floor", "docket"])
def test_into_a_carton_nothing_sure_means_nothing_said(subject):
    scene = draw_scene(SceneRequest(seed=5, subject=subject, width=900, height=675))
    one = advise(scene.jpeg, Context("PNV", "HLSO", "raw", "top"))
    assert one["would_say"] != "darkening_seen"
    assert one["answer"] == "look_here" or (one["reasons"], one["frames"]) == ([], [])


def test_a_heap_gets_no_answer_of_any_kind():
    one = advise(draw_scene(SceneRequest(seed=8, layout="packed", width=900, height=675)).jpeg, GOODS)
    assert one["would_say"] == "cannot_tell"


def test_pieces_that_touch_are_counted_and_left_out_with_a_word():
    picture = tray(0, 0, 0, 0, 0, 0, 0)
    cv2.rectangle(picture, (200, 100), (380, 180), (120, 130, 140), -1)
    one = said(picture)
    assert one["pieces"] == 7
    assert "touching" in [reason["code"] for reason in one["reasons"]]


def test_other_purposes_and_unreadable_photos_get_a_sentence():
    assert said(tray(0), dataclasses.replace(GOODS, purpose="label"))["reasons"][0]["code"] == "not_product"
    assert advise(b"no picture", GOODS)["reasons"][0]["code"] == "PHOTO-NOT-A-PICTURE"


def test_the_same_photo_gives_the_same_answer():
    first, second = (said(tray(0, 0.85, 0)) for _ in range(2))
    assert {**first, "timing_ms": 0} == {**second, "timing_ms": 0}


def test_the_overlay_shows_frames_and_there_is_none_without():
    data = encode_jpeg(tray(0, 0.85, 0), 95)
    assert cv2.imdecode(np.frombuffer(overlay_jpeg(analyse(data, GOODS)), np.uint8), 1).shape[:2] == (900, 900)
    assert overlay_jpeg(analyse(encode_jpeg(np.full((900, 900, 3), 200, np.uint8), 95), GOODS)) is None


def test_drawn_lengths_come_with_the_card_only():
    scene, found = looked_at(request(2, "D65", card=True, dark=False))
    assert found.advice["length_mm"]["pieces"] >= 3
    assert abs(found.advice["pieces"] - true_pieces(scene)) <= 1
    assert looked_at(request(2, "D65", card=False, dark=False))[1].advice["length_mm"] is None
