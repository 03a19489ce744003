"""Phone and server judge made-up inspections alike; the full run is ``manage.py crosscheck``."""

import io

import pytest
from django.core.management import CommandError, call_command

from inspections.development.management.commands import crosscheck
from inspections.trade.generated import cases


def test_two_thousand_made_up_inspections_are_judged_alike():
    out = io.StringIO()
    call_command("crosscheck", count=2000, seed=20261125, stdout=out)
    assert out.getvalue() == "2000 inspections compared, 0 differences.\n"


def test_a_difference_fails_the_command(monkeypatch):
    monkeypatch.setattr(crosscheck, "server_answer", lambda case: {"judgement_version": 0})
    with pytest.raises(CommandError):
        call_command("crosscheck", count=3, seed=1, stdout=io.StringIO(), stderr=io.StringIO())


def test_true_is_not_one_and_three_is_three_point_nought():
    assert crosscheck.canonical('{"b": 3, "a": true}') == crosscheck.canonical('{"a": true, "b": 3.0}')
    assert crosscheck.canonical("[1]") != crosscheck.canonical("[true]")


def test_the_same_seed_makes_the_same_inspections():
    assert list(cases(20, 5)) == list(cases(20, 5))
    assert list(cases(20, 5)) != list(cases(20, 6))
