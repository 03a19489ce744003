"""The whole way from photo to answer, on scenes drawn by a generator that shares nothing with it.

The figures promised for a thousand held-out scenes are measured by `manage.py evaluate_advisory`; here a
few scenes hold the behaviour that must never break.
"""

import cv2
import numpy as np
import pytest

from fixtures.scenes import SceneRequest, draw_scene
from imaging.advice import Context, accepted_look, advise, analyse
from imaging.answers import REASONS, CannotTell, DarkeningSeen, NoneSeen
from imaging.baseline import refined_baseline
from imaging.overlay import histogram_png, overlay_jpeg
from imaging.sizing import piece_length
from imaging.tasks import advice_and_pictures

# Small, so that they draw fast; the gate wants 600 px on the short side.
PNV = {
    "species": "PNV",
    "presentation": "HLSO",
    "state": "raw",
    "card": True,
    "layout": "packed",
    "width": 900,
    "height": 675,
}


def context_of(request: SceneRequest, purpose: str = "top") -> Context:
    return Context(request.species, request.presentation, request.state, purpose)


def analysis_of(**wanted):
    request = SceneRequest(**{**PNV, **wanted})
    return analyse(draw_scene(request).jpeg, context_of(request))


@pytest.fixture(scope="module")
def dark():
    return analysis_of(seed=411, layout="rows", dark_share=0.3, dark_kind="spots")


@pytest.fixture(scope="module")
def clean():
    return analysis_of(seed=412)


def test_heavy_black_spot_is_seen_with_share_range_and_reason(dark):
    assert isinstance(dark.advice, DarkeningSeen)
    assert dark.advice.share_low <= dark.advice.share <= dark.advice.share_high
    assert abs(dark.advice.share - 0.3) < 0.2
    assert dark.advice.card_used
    assert dark.advice.where
    assert {"card_used", "share"} <= {reason.code for reason in dark.advice.reasons}


def test_clean_prawns_are_not_flagged(clean):
    assert isinstance(clean.advice, NoneSeen)
    assert clean.advice.share < 0.05


@pytest.mark.parametrize(
    "kind",
    [
        {"species": "GIT", "presentation": "HOSO"},
        {"species": "TIP"},
        {"species": "LAA"},
        {"species": "PNV", "state": "cooked"},
        {"species": "ARS", "presentation": "HOSO"},
    ],
    ids=["banded", "banded headless", "red raw", "cooked", "deep red"],
)
def test_own_colour_is_never_called_darkening(kind):
    assert not isinstance(analysis_of(seed=31, layout="rows", **kind).advice, DarkeningSeen)


@pytest.mark.parametrize("subject", ["empty_liner", "label", "hand", "floor", "docket"])
def test_without_prawns_nothing_is_called_darkening(subject):
    assert not isinstance(analysis_of(seed=77, subject=subject).advice, DarkeningSeen)


@pytest.mark.parametrize(("fault", "code"), [("blurred", "blurred"), ("dim", "dark")])
def test_a_bad_shot_is_no_answer_but_says_what_to_do(fault, code):
    advice = analysis_of(seed=5, fault=fault, card=False).advice
    assert isinstance(advice, CannotTell)
    assert advice.reasons[0].code == code


ICED = {"seed": 90, "presentation": "HOSO", "layout": "block", "glaze": 0.9, "frost": 0.1}


def test_black_heads_are_seen_through_thick_ice_and_sound_ones_are_not():
    sound = analysis_of(**ICED).advice
    black = analysis_of(**ICED, dark_share=0.3, dark_kind="heads").advice
    assert isinstance(sound, NoneSeen)
    assert isinstance(black, DarkeningSeen)
    for advice in (sound, black):
        assert "through_ice" in {reason.code for reason in advice.reasons}
        assert advice.share_high > 0.15  # ice hides black


def test_little_under_thick_ice_is_no_answer_and_says_what_to_do():
    advice = analysis_of(**ICED, dark_share=0.06, dark_kind="heads").advice
    assert isinstance(advice, CannotTell)
    assert advice.reasons[-1].code == "veiled"


def test_without_a_card_no_black_under_ice_is_no_answer():
    advice = analysis_of(**ICED | {"card": False}).advice
    assert isinstance(advice, CannotTell)
    assert advice.reasons[-1].code == "veiled"


def test_darkening_seen_through_a_little_frost_is_seen():
    """Ice hides black and makes none."""
    wanted = {"presentation": "HOSO", "layout": "packed", "dark_share": 0.35, "dark_kind": "mixed"}
    assert isinstance(analysis_of(seed=411, frost=0.25, **wanted).advice, DarkeningSeen)


@pytest.mark.parametrize("presentation", ["HOSO", "HLSO"])
def test_shadows_of_a_bare_lamp_are_no_darkening(presentation):
    """Sound prawns: the same pile in the light of ceiling panels and of one lamp."""
    for seed in range(60, 64):
        for light in ("soft", "hard"):
            advice = analysis_of(seed=seed, presentation=presentation, light=light).advice
            assert not isinstance(advice, DarkeningSeen), (seed, light)


def test_hard_light_is_told_and_what_to_do():
    advice = analysis_of(seed=63, presentation="HOSO", light="hard", dark_share=0.2, dark_kind="spots").advice
    assert isinstance(advice, CannotTell)
    assert advice.reasons[-1].code == "hard_light"
    assert "light comes from all sides" in advice.reasons[-1].text


def test_one_dark_thing_is_no_darkening():
    """A tiled floor with a dark stain, and the card on it."""
    advice = analysis_of(seed=77, subject="floor").advice
    assert isinstance(advice, CannotTell)
    assert advice.reasons[-1].code == "few_places"


def test_range_is_wider_without_a_card():
    both = [
        analysis_of(seed=411, layout="rows", dark_share=0.3, dark_kind="spots", card=card).darkness
        for card in (True, False)
    ]
    with_card, without = (d.share_high - d.share_low for d in both)
    assert without > with_card


def test_turned_photo_gives_the_same_answer():
    answers = {
        type(analysis_of(seed=411, layout="rows", dark_share=0.3, dark_kind="spots", orientation=o).advice)
        for o in (1, 6)
    }
    assert answers == {DarkeningSeen}


def test_docket_photo_is_not_looked_at():
    request = SceneRequest(seed=1, subject="docket", width=900, height=675)
    assert advise(draw_scene(request).jpeg, context_of(request, "docket")).reasons[0].code == "not_product"


def test_grey_picture_is_cannot_tell():
    pixels = np.random.default_rng(4).integers(40, 220, (90, 120), dtype=np.uint8)
    grey = cv2.resize(pixels, (1200, 900), interpolation=cv2.INTER_NEAREST)
    advice = advise(cv2.imencode(".png", grey)[1].tobytes(), Context("PNV", "HLSO", "raw"))
    assert isinstance(advice, CannotTell)
    assert "no_colour" in {reason.code for reason in advice.reasons}


def test_an_answer_has_no_truth_value(clean):
    with pytest.raises(TypeError):
        bool(clean.advice)


def test_json_has_the_agreed_fields_and_cannot_tell_has_no_share(dark):
    agreed = {
        "answer",
        "share",
        "share_low",
        "share_high",
        "where",
        "reasons",
        "card_used",
        "method_version",
        "baseline_version",
    }
    assert agreed <= set(dark.advice.to_json())
    unread = advise(b"", Context("PNV", "HLSO", "raw")).to_json()
    assert unread["answer"] == "cannot_tell"
    assert unread["share"] is None


def test_overlay_and_histogram_are_pictures_of_what_was_seen(dark):
    overlay = cv2.imdecode(np.frombuffer(overlay_jpeg(dark), np.uint8), cv2.IMREAD_COLOR)
    assert overlay.shape[1] == dark.photo.pixels.shape[1]
    assert overlay.shape[0] > dark.photo.pixels.shape[0]
    assert cv2.imdecode(np.frombuffer(histogram_png(dark), np.uint8), cv2.IMREAD_COLOR).shape == (260, 560, 3)


def test_worker_hands_back_advice_and_pictures():
    photo = draw_scene(SceneRequest(seed=412, **PNV)).jpeg
    told = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "top"}
    result, pictures = advice_and_pictures(photo, told)
    assert result["answer"] == "none_seen"
    assert set(pictures) == {"thumb", "screen", "overlay", "histogram"}


def test_worker_hands_back_the_sentence_for_a_text_file():
    result, pictures = advice_and_pictures(b"just text, named .jpg", {"species_code": "PNV"})
    assert result["answer"] == "cannot_tell"
    assert pictures == {}
    assert "Your other entries are saved." in result["reasons"][0]["text"]


def test_accepted_photos_refine_the_baseline(clean):
    look = accepted_look(clean)
    refined = refined_baseline(Context("PNV", "HLSO", "raw").look(), [], [look] * 20)
    assert refined.version in analyse_again(refined).advice.baseline_version


def analyse_again(baseline):
    request = SceneRequest(seed=412, **PNV)
    return analyse(draw_scene(request).jpeg, Context("PNV", "HLSO", "raw", baseline=baseline))


def strips(lengths: list[int], width: int = 16) -> np.ndarray:
    """Prawn mask of straight pieces lying apart."""
    mask = np.zeros((400, 500), bool)
    for number, length in enumerate(lengths):
        mask[20 + number * 50 : 20 + number * 50 + width, 30 : 30 + length] = True
    return mask


def test_length_of_pieces_that_lie_apart():
    found = piece_length(strips([100, 110, 120, 110]), 0.8)
    assert found.pieces == 4
    assert found.mean_mm == pytest.approx(110 * 0.8, rel=0.05)


def test_curled_pieces_are_as_long_as_their_back():
    mask = np.zeros((400, 500), np.uint8)
    for centre in ((90, 100), (250, 100), (90, 280)):
        cv2.ellipse(mask, centre, (45, 45), 0, 0, 180, 1, 22)
    assert piece_length(mask > 0, 1.0).mean_mm == pytest.approx(np.pi * 45, rel=0.12)


def test_no_length_without_card_or_with_few_pieces():
    assert piece_length(strips([100, 110, 120]), None) is None
    assert piece_length(strips([100, 110]), 0.8) is None


def test_reasons_are_plain_sentences_without_blame():
    for text in REASONS.values():
        assert text.endswith(".")
        assert "invalid" not in text.lower()
