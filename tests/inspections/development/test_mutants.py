"""The command that puts faults into the code: what it asks mutmut for, and how it tells what came of it."""
from configparser import ConfigParser
from types import SimpleNamespace

import pytest

from inspections.development import mutants

RESULTS = """
    inspections.trade.size.x_judge__mutmut_1: killed
    inspections.trade.size.x_judge__mutmut_2: survived
    inspections.trade.size.x_judge__mutmut_3: timeout
    inspections.trade.size.x_judge__mutmut_4: no tests
    inspections.trade.size.x_judge__mutmut_5: not checked
"""


@pytest.fixture
def told(monkeypatch):
    """What mutmut would print, without a run of it."""

    def run(command, **how):
        return SimpleNamespace(stdout=RESULTS if "results" in command else f"fault of {command[-1][-8:]}\n")

    monkeypatch.setattr(mutants.subprocess, "run", run)


def test_survivors_are_shown_with_their_share_of_those_tried(told, tmp_path, capsys):
    assert mutants._account(tmp_path, is_whole=False) == 1
    out = capsys.readouterr().out
    assert "fault of mutmut_2" in out
    assert "fault of mutmut_4" in out
    assert "fault of mutmut_1" not in out
    assert "2 of 4 faults survived (50.0 %; the goal is at most 5 %)." in out
    assert "The time was up. Not tried: 1 of 5." in out


def test_without_a_fault_tried_it_does_not_call_that_passed(told, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(mutants, "SURVIVED", set())
    monkeypatch.setattr(mutants, "NOTICED", set())
    assert mutants._account(tmp_path, is_whole=False) == 1
    assert "No fault was tried" in capsys.readouterr().out


def test_every_file_and_test_that_it_names_is_there():
    settings = ConfigParser()
    settings.read_string(mutants._settings(mutants.MODULES, mutants.TESTS))
    asked = settings["mutmut"]
    for name in asked["only_mutate"].split():
        assert list(mutants.BASE.glob(name)), name
    for name in (*asked["source_paths"].split(), *asked["also_copy"].split(), *mutants.TESTS, *mutants.READ_THE_CODE):
        assert (mutants.BASE / name).exists(), name
