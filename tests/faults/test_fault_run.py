"""The fault run of ``manage.py fault_run``, small: a few phones, a few kills, both forms, everything there once."""
import socket

import pytest

from inspections.development import forms, services
from inspections.development.fault_run import Outcome, Plan, fault_run

SMALL = Plan(devices=3, inspections=9, photos=2, kills=2, minutes=5)


def free_port() -> int:
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return trial.getsockname()[1]


@pytest.mark.slow
@pytest.mark.services
@pytest.mark.parametrize("kind", forms.FORMS.values(), ids=forms.FORMS)
def test_nothing_is_lost_and_nothing_counts_twice_under_hard_kills(kind, tmp_path):
    try:
        outcome = fault_run(kind, SMALL, port=free_port(), folder=tmp_path)
    except services.NoService as trouble:
        pytest.skip(f"{trouble}; the fault run kills real services, and in CI leaving it out fails")
    assert outcome.holds, outcome.table()
    assert outcome.kills.total() == SMALL.kills


@pytest.mark.parametrize(("rows", "wrong", "holds"), [
    ([["inspections, each once", 6, 6]], [], True),
    ([["inspections, each once", 6, 5]], [], False),
    ([["inspections, each once", 6, 6]], ["photo 0f is gone or has other bytes"], False),
    ([], [], False),
])
def test_a_run_holds_only_when_all_that_was_wanted_is_found(rows, wrong, holds):
    outcome = Outcome(SMALL, "embedded", rows=rows, wrong=wrong)
    assert outcome.holds is holds
    assert ("It does NOT hold." in outcome.table()) is not holds
