"""Readers of the environment refuse an odd value with the allowed ones."""
import stat

import pytest

from inspections import env


def test_an_absent_variable_takes_the_default(monkeypatch):
    monkeypatch.delenv("UNDERLID_TRY", raising=False)
    assert env.yes_no("UNDERLID_TRY", True) is True
    assert env.whole_number("UNDERLID_TRY", 7, least=1, most=9) == 7
    assert env.words("UNDERLID_TRY", ["a"]) == ["a"]


@pytest.mark.parametrize(("word", "meant"), [("yes", True), ("ON", True), ("0", False), ("false", False)])
def test_yes_and_no_are_read_as_people_write_them(monkeypatch, word, meant):
    monkeypatch.setenv("UNDERLID_TRY", word)
    assert env.yes_no("UNDERLID_TRY", not meant) is meant


@pytest.mark.parametrize("word", ["0", "10", "4.5", "-3", "many", "٣"])
def test_a_number_out_of_range_stops_the_start_with_its_name(monkeypatch, word):
    monkeypatch.setenv("UNDERLID_TRY", word)
    with pytest.raises(env.UnusableSetting, match=r"UNDERLID_TRY.*1 to 9"):
        env.whole_number("UNDERLID_TRY", 7, least=1, most=9)


def test_an_odd_yes_or_no_is_refused(monkeypatch):
    monkeypatch.setenv("UNDERLID_TRY", "perhaps")
    with pytest.raises(env.UnusableSetting, match="yes or no"):
        env.yes_no("UNDERLID_TRY", True)


def test_a_secret_is_made_once_and_only_its_owner_reads_it(tmp_path, monkeypatch):
    monkeypatch.delenv("UNDERLID_TRY", raising=False)
    kept = tmp_path / "keys" / "secret.txt"
    first = env.secret("UNDERLID_TRY", kept_at=kept)
    assert env.secret("UNDERLID_TRY", kept_at=kept) == first
    assert len(first) >= 64
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600


def test_a_secret_file_that_is_missing_is_named(tmp_path, monkeypatch):
    monkeypatch.setenv("UNDERLID_TRY_FILE", str(tmp_path / "none"))
    with pytest.raises(env.UnusableSetting, match="UNDERLID_TRY_FILE"):
        env.secret("UNDERLID_TRY", kept_at=tmp_path / "other")
