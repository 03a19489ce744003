"""Trials of the advisory: figures against published formulas, every bad row and photo told, nothing dropped."""

import io
from pathlib import Path

import numpy as np
import pillow_heif
import pytest
from django.core.management import CommandError, call_command
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from scipy import stats

from fixtures.scenes import SceneRequest, draw_scene
from imaging.evaluation.labels import UnusableLabels, read_labels
from imaging.evaluation.measures import Rate, auc, share_error
from imaging.evaluation.table import report
from imaging.evaluation.trials import Outcome, PhotoTrial, run

HEADING = "file,label,species,presentation,cooked,truth_share\n"


def outcome(**changes) -> Outcome:
    plain = {
        "name": "a.jpg", "label": "clean", "species": "PNV", "group": "", "truth_share": None, "answer": "none_seen",
        "share": 0.01, "low": 0.0, "high": 0.03, "card_used": False, "seconds": 0.05, "problem": "",
    }  # fmt: skip
    return Outcome(**(plain | changes))


def photo(folder: Path, name: str, **request) -> None:
    scene = draw_scene(SceneRequest(seed=3, width=480, height=360, **request))
    (folder / name).write_bytes(scene.jpeg)


@given(
    st.lists(st.integers(0, 12), min_size=2, max_size=30),
    st.lists(st.integers(0, 12), min_size=2, max_size=30),
)
def test_area_is_the_mann_whitney_share_of_pairs(high, low):
    """Hanley and McNeil 1982: area = U / (m n), ties half; scipy's U is the reference."""
    found = auc(high, low)
    expected = stats.mannwhitneyu(high, low).statistic / (len(high) * len(low))
    assert found.area == pytest.approx(expected)
    assert found.low <= found.area + 1e-12
    assert found.area <= found.high + 1e-12


@given(st.lists(st.floats(0, 1), min_size=3, max_size=12), st.lists(st.floats(0, 1), min_size=3, max_size=12))
def test_interval_comes_from_the_placement_variance(high, low):
    """DeLong, DeLong and Clarke-Pearson 1988, equations 3 to 5, written out pair by pair."""
    found = auc(high, low)
    above = np.array([[1.0 if h > b else 0.5 if h == b else 0.0 for b in low] for h in high])
    variance = above.mean(1).var(ddof=1) / len(high) + above.mean(0).var(ddof=1) / len(low)
    if not 0 < found.area < 1 or variance <= 1e-12:
        return
    logit = np.log(found.area / (1 - found.area))
    half = stats.norm.ppf(0.975) * np.sqrt(variance) / (found.area * (1 - found.area))
    assert found.low == pytest.approx(1 / (1 + np.exp(-(logit - half))))
    assert found.high == pytest.approx(1 / (1 + np.exp(-(logit + half))))


def test_perfect_order_still_has_a_range():
    found = auc([0.5, 0.6, 0.7], [0.1, 0.2, 0.3])
    assert found.area == found.high == 1
    assert found.low < 1


def test_too_few_photos_have_no_area():
    assert auc([0.5], [0.1, 0.2]) is None
    assert auc([], []) is None


@pytest.mark.parametrize(("hits", "total"), [(0, 10), (3, 40), (10, 10), (7, 1000)])
def test_shares_have_the_wilson_interval(hits, total):
    """Wilson 1927, as scipy's binomtest gives it."""
    expected = stats.binomtest(hits, total).proportion_ci(method="wilson")
    assert Rate(hits, total).interval == pytest.approx((expected.low, expected.high))


def test_nothing_seen_means_nothing_known():
    assert Rate(0, 0).share is None
    assert Rate(0, 0).interval == (0.0, 1.0)


def test_share_error_is_absolute_with_its_bias():
    found = share_error([0.10, 0.20, 0.30], [0.12, 0.20, 0.20])
    assert (found.median, found.photos) == (pytest.approx(0.02), 3)
    assert found.bias == pytest.approx(0.08 / 3)
    assert found.p90 == pytest.approx(np.quantile([0.02, 0.0, 0.10], 0.9))


def test_rows_are_read_and_bad_ones_told(tmp_path):
    for name in ("a.jpg", "b.jpg"):
        (tmp_path / name).write_bytes(b"x")
    (tmp_path / "labels.csv").write_text(
        HEADING
        + "a.jpg,dark,pnv,hoso,No,0.12\n"
        + "b.jpg,not_prawn,,,,\n"
        + "c.jpg,dark,PNV,HOSO,no,\n"
        + "a.jpg,dark,PNV,HOSO,no,\n"
        + ",dark,PNV,HOSO,no,\n"
        + "../x.jpg,dark,PNV,HOSO,no,\n",
        encoding="utf-8",
    )
    photos, problems = read_labels(tmp_path)
    assert [(p.path.name, p.label, p.species, p.presentation, p.is_cooked, p.truth_share) for p in photos] == [
        ("a.jpg", "dark", "PNV", "HOSO", False, 0.12),
        ("b.jpg", "not_prawn", "", "", False, None),
    ]
    assert [p.where for p in problems] == [f"labels.csv, line {line}" for line in (4, 5, 6, 7)]
    assert "There is no photo c.jpg" in problems[0].sentence
    assert "earlier row" in problems[1].sentence
    assert "names no file" in problems[2].sentence
    assert "outside the folder" in problems[3].sentence


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("a.jpg,spotty,PNV,HOSO,no,", "Write one of dark, clean, not_prawn"),
        ("a.jpg,dark,PNV,WHOLE,no,", "Write one of HOSO"),
        ("a.jpg,dark,PNV,HOSO,maybe,", "Write yes or no"),
        ("a.jpg,dark,PNV,HOSO,no,12", "number from 0 to 1"),
        ("a.jpg,dark,PNV,HOSO,no,nan", "number from 0 to 1"),
        ("a.jpg", "Write one of dark, clean, not_prawn"),
    ],
)
def test_a_cell_that_cannot_be_used_gets_its_sentence(tmp_path, row, told):
    (tmp_path / "a.jpg").write_bytes(b"x")
    (tmp_path / "labels.csv").write_text(HEADING + row + "\n", encoding="utf-8")
    photos, problems = read_labels(tmp_path)
    assert photos == []
    assert told in problems[0].sentence


def test_a_folder_without_a_usable_table_is_refused(tmp_path):
    with pytest.raises(UnusableLabels, match="no folder"):
        read_labels(tmp_path / "none")
    with pytest.raises(UnusableLabels, match=r"no labels\.csv"):
        read_labels(tmp_path)
    (tmp_path / "labels.csv").write_text("file,label\na.jpg,dark\n", encoding="utf-8")
    with pytest.raises(UnusableLabels, match="no column species, presentation, cooked"):
        read_labels(tmp_path)
    (tmp_path / "labels.csv").write_bytes(b"\xff\xfe\x00\x81" * 20)
    with pytest.raises(UnusableLabels, match="plain text"):
        read_labels(tmp_path)


def test_table_counts_answers_by_label():
    outcomes = [
        outcome(label="dark", answer="darkening_seen", share=0.2, truth_share=0.22),
        outcome(label="dark", answer="cannot_tell", share=None, truth_share=0.15, reasons=("LIGHT",)),
        outcome(label="dark", answer="darkening_seen", share=0.3, truth_share=0.30),
        outcome(truth_share=0.0),
        outcome(answer="darkening_seen", share=0.08, truth_share=0.01),
        outcome(name="broken.jpg", label="dark", answer="", problem="It can't be read. Take it again."),
    ]
    text = report(outcomes)
    assert "5 judged" in text
    dark, clean = (next(line for line in text.splitlines() if line.startswith(label)) for label in ("dark", "clean"))
    assert dark.split()[1] == "66.7"
    assert dark.endswith("3")
    assert clean.split()[1] == "50.0"
    assert "left out of what follows): 1" in text
    assert "AUC, 10% dark and more against 2% and less: 1.0000" in text
    assert "median 1.50 points" in text
    assert "LIGHT" in text
    assert "Left out: 0 rows of labels.csv, 1 photos that could not be read" in text
    assert "broken.jpg: It can't be read. Take it again." in text


def test_no_photo_at_all_is_said_plainly():
    text = report([])
    assert "no photo was judged" in text
    assert "not enough photos" in text


def test_a_folder_of_photos_is_judged_and_bad_files_are_told(tmp_path, capsys):
    photo(tmp_path, "sound.jpg", presentation="HOSO")
    photo(tmp_path, "wall.jpg", subject="cardboard")
    (tmp_path / "text.jpg").write_text("this is no photo")
    photo(tmp_path, "floor.jpg", subject="floor")
    Image.open(tmp_path / "floor.jpg").save(tmp_path / "floor.png")
    (tmp_path / "labels.csv").write_text(
        HEADING
        + "sound.jpg,clean,PNV,HOSO,no,0\nwall.jpg,not_prawn,,,,\ntext.jpg,dark,PNV,HOSO,no,\n"
        + "floor.png,not_prawn,,,,\ngone.jpg,dark,PNV,HOSO,no,\n",
        encoding="utf-8",
    )
    call_command("evaluate_advisory", str(tmp_path))
    text = capsys.readouterr().out
    assert "3 judged" in text
    assert "Left out: 1 rows of labels.csv, 1 photos that could not be read" in text
    assert "text.jpg: " in text
    assert "gone.jpg" in text


def test_a_heic_photo_is_judged(tmp_path):
    scene = draw_scene(SceneRequest(seed=3, width=480, height=360))
    pillow_heif.from_pillow(Image.open(io.BytesIO(scene.jpeg))).save(tmp_path / "a.heic")
    (tmp_path / "labels.csv").write_text(HEADING + "a.heic,clean,PNV,HLSO,no,\n", encoding="utf-8")
    photos, _ = read_labels(tmp_path)
    (found,) = run([PhotoTrial(photos[0])])
    assert found.problem == ""
    assert found.answer in ("darkening_seen", "none_seen", "cannot_tell")


def test_a_file_that_vanished_is_told(tmp_path):
    photo(tmp_path, "a.jpg")
    (tmp_path / "labels.csv").write_text(HEADING + "a.jpg,clean,PNV,HLSO,no,\n", encoding="utf-8")
    photos, _ = read_labels(tmp_path)
    (tmp_path / "a.jpg").unlink()
    (found,) = run([PhotoTrial(photos[0])])
    assert "could not be read from disk" in found.problem


def test_several_workers_answer_as_one(tmp_path):
    for name in ("a.jpg", "b.jpg", "c.jpg"):
        photo(tmp_path, name, species="GIT" if name == "b.jpg" else "PNV")
    (tmp_path / "labels.csv").write_text(
        HEADING + "".join(f"{n}.jpg,clean,PNV,HLSO,no,\n" for n in "abc"), encoding="utf-8"
    )
    trials = [PhotoTrial(one) for one in read_labels(tmp_path)[0]]
    one, two = ([(o.name, o.answer, o.share) for o in run(trials, workers=workers)] for workers in (1, 2))
    assert one == two


def test_scenes_are_tried_with_and_without_card(capsys):
    call_command("evaluate_advisory", scenes=3, seed=2, split="dev")
    text = capsys.readouterr().out
    assert "with card: 3 judged" in text
    assert "without card: 3 judged" in text


def test_neither_or_both_sources_is_refused(tmp_path):
    with pytest.raises(CommandError, match="either a folder"):
        call_command("evaluate_advisory")
    with pytest.raises(CommandError, match="either a folder"):
        call_command("evaluate_advisory", str(tmp_path), scenes=3)


def test_drawn_folder_can_be_evaluated(tmp_path, capsys):
    folder = tmp_path / "scenes"
    call_command("make_scenes", str(folder), count=3, seed=4)
    photos, problems = read_labels(folder)
    assert len(photos) == 3
    assert problems == []
    with pytest.raises(CommandError, match="not empty"):
        call_command("make_scenes", str(folder), count=3)
