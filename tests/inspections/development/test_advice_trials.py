"""The measure itself: areas against a general library, labels that can't be used, painted photos kept apart."""

import json

import numpy as np
import pytest
from django.core.management import CommandError, call_command
from scipy import stats

from imaging.decode import encode_jpeg
from imaging.measures import Rate, auc
from inspections.development.advice_trials.labels import read_labels
from inspections.development.advice_trials.painted import painted
from inspections.development.advice_trials.trials import outcomes
from inspections.development.management.commands import evaluate_advisory
from tests.imaging.test_advice import tray


def test_area_is_the_one_of_mann_and_whitney_as_scipy_has_it():
    chance = np.random.default_rng(1)
    high, low = chance.normal(1, 1, 30).round(1), chance.normal(0, 1, 50).round(1)
    found = auc(high, low)
    assert found.area == pytest.approx(stats.mannwhitneyu(high, low).statistic / (30 * 50))
    assert found.low < found.area < found.high


def test_area_interval_holds_the_truth_about_as_often_as_it_says():
    chance, truth = np.random.default_rng(2), stats.norm.cdf(1 / np.sqrt(2))
    found = [auc(chance.normal(1, 1, 25), chance.normal(0, 1, 25)) for _ in range(400)]
    assert np.mean([one.low <= truth <= one.high for one in found]) > 0.92


def test_shares_have_wilson_intervals_as_scipy_has_them():
    there = stats.binomtest(3, 40).proportion_ci(method="wilson")
    assert Rate(3, 40).interval == pytest.approx((there.low, there.high))


@pytest.fixture
def folder(tmp_path):
    for name, depth in (("one-1.jpg", 0.9), ("two-2.jpg", 0.0), ("two-3.jpg", 0.0), ("one-4.jpg", 0.9)):
        (tmp_path / name).write_bytes(encode_jpeg(tray(depth, 0, 0), 95))
    rows = ["file,darkening,x,y", "one-1.jpg,marked,0.13,0.156", "two-2.jpg,none,,", "two-3.jpg,naturally-dark,,",
            "one-4.jpg,marked,0.9,0.9", "gone.jpg,none,,", "one-1.jpg,none,,", "../x.jpg,none,,"]
    (tmp_path / "labels.csv").write_text("\n".join(rows))
    return tmp_path


def test_every_row_that_cannot_be_used_has_its_sentence(folder):
    photos, problems = read_labels(folder)
    assert [photo.source for photo in photos] == ["one", "two", "two", "one"]
    assert len(problems) == 3
    assert all(problem.endswith(".") for problem in problems)


def test_frames_are_held_against_the_place_and_painted_ones_stand_apart(folder):
    found = list(outcomes(read_labels(folder)[0]))
    marked = [one.is_framed for one in found if one.label == "marked"]
    assert marked == [True, False]  # the second is told to lie where nothing is
    assert {one.label for one in found} == {"marked", "none", "naturally-dark", "painted"}


def test_a_painted_place_is_darker_and_leaves_the_rest_alone():
    picture = tray(0, 0, 0)
    made, (x, y) = painted(picture, np.random.default_rng(7))
    row, col = int(y * 900), int(x * 900)
    assert made[row, col].mean() < 0.75 * picture[row, col].mean()
    assert np.abs(made[880:].astype(int) - picture[880:]).max() <= 1


def test_the_command_writes_table_and_figures_and_kept_aside_ones_are_by_state(folder, tmp_path, monkeypatch, capsys):
    page, figures = tmp_path / "method.md", tmp_path / "measured.json"
    page.write_text("before\n<!-- kept_aside: made by evaluate_advisory -->\nold\n<!-- kept_aside ends -->\nafter\n")
    figures.write_text('{"open": {}, "kept_aside": {}}')
    monkeypatch.setattr(evaluate_advisory, "PAGE", page)
    monkeypatch.setattr(evaluate_advisory, "MEASURED", figures)
    call_command("evaluate_advisory", folder, write="kept_aside")
    assert "marked against none" in capsys.readouterr().out
    assert page.read_text().startswith("before\n<!-- kept_aside")
    assert "\nold\n" not in page.read_text()
    kept = json.loads(figures.read_text())["kept_aside"]
    assert set(kept) == {"raw"}
    assert kept["raw"]["marked"] == 2
    assert 0 <= kept["raw"]["auc_low"] <= kept["raw"]["auc"]


def test_the_command_says_what_is_missing(tmp_path):
    with pytest.raises(CommandError, match="There is no table"):
        call_command("evaluate_advisory", tmp_path)
