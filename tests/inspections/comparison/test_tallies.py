"""Tallies say what the rows say: when signed, after an addendum, when made again, and after the migration."""
from datetime import UTC, datetime
from importlib import import_module

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command

from inspections.comparison.models import LineTally
from inspections.comparison.tallies import rebuild, wrong_deliveries
from inspections.records.models import Carton, DocketLine, Reading
from inspections.records.shape.door import read_addendum, read_delivery
from inspections.sync.signing import add, sign
from tests.inspections.receiving import decide, document, make_kitchen, put_away

COUNTS = ("delivered", "refused", "held", "opened", "defective", "with_product", "with_sample", "deliveries",
          "deliveries_opened")


@pytest.fixture
def kitchen(db):
    return make_kitchen()


@pytest.fixture
def signed(kitchen):
    final = decide(document(kitchen, bad=True))
    sign(sent=read_delivery(final), person=kitchen.receiver)
    return final


def test_signing_counts_each_line_in_the_same_transaction(kitchen, signed):
    tally, line = LineTally.objects.get(), DocketLine.objects.get()
    # one carton too warm, one with black spot on 12 of 20, one sound;
    # the product temperature was read and a sample weighed of all three
    decided = signed["lines"][0]["decision"]
    assert [getattr(tally, name) for name in COUNTS] == [20, decided["refused"], decided["held"], 3, 2, 3, 3, 1, 1]
    assert (tally.pk, tally.presentation, tally.state) == (line.pk, "HLSO", "raw")
    # 06:10 in Sydney on the 25th is the 24th in Greenwich; a Wednesday
    assert [str(day) for day in (tally.day, tally.week, tally.month)] == ["2026-11-25", "2026-11-23", "2026-11-01"]


def test_a_signing_that_fails_leaves_no_tally(kitchen, monkeypatch):
    final = decide(document(kitchen))
    monkeypatch.setattr("inspections.sync.signing.seal", lambda **_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        sign(sent=read_delivery(final), person=kitchen.receiver)
    assert not LineTally.objects.exists()


def test_signing_twice_and_putting_away_leave_the_tallies_right(kitchen, signed):
    sign(sent=read_delivery(signed), person=kitchen.receiver)
    line = DocketLine.objects.get()
    if line.accepted + line.held:
        add(delivery=line.delivery, sent=read_addendum(put_away(kitchen, signed)), person=kitchen.receiver)
    assert LineTally.objects.count() == 1
    assert list(wrong_deliveries()) == []


def test_a_tally_that_differs_is_found_and_made_again(signed, capsys):
    LineTally.objects.update(opened=40)
    with pytest.raises(CommandError, match="1 deliveries"):
        call_command("rebuild_tallies", check=True)
    call_command("rebuild_tallies")
    assert LineTally.objects.get().opened == Carton.objects.count() == 3
    call_command("rebuild_tallies", check=True)
    assert capsys.readouterr().out.splitlines()[-1] == "All tallies are what a fresh count gives."


def test_deliveries_of_several_lines_are_counted_once(dock):
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 2, 0, 0), ("PUD raw", 12, 0, 2, 1), ("PUD raw", 5, 5, 1, 1))
    rows = LineTally.objects.order_by("line__number").values_list("deliveries", "deliveries_opened", "opened")
    assert list(rows) == [(1, 0, 0), (0, 1, 2), (0, 0, 1)]


def test_the_migration_fills_what_signing_would_have_written(dock):
    dock.site("East", "Australia/Sydney")
    first = dock.delivery("Abalone Bay", "Harbour", ("HLSO raw", 20, 2, 4, 3), ("PUD raw", 12, 0, 0, 0))
    dock.delivery("Abalone Bay", "East", ("PUD raw", 20, 2, 1, 0), arrived_at=datetime(2026, 5, 31, 22, 0, tzinfo=UTC))
    Reading.objects.create(delivery=first, carton=Carton.objects.filter(line__delivery=first).first(), kind="sample",
                           value=900, unit="g", entered="900", entered_unit="g")
    assert rebuild() == 1
    before = list(LineTally.objects.order_by("pk").values())
    LineTally.objects.all().delete()
    assert len(set(wrong_deliveries())) == 2
    fill = import_module("inspections.comparison.migrations.0002_fill_line_tallies").fill
    fill(apps, None)
    fill(apps, None)
    assert list(LineTally.objects.order_by("pk").values()) == before
    assert rebuild() == 0
