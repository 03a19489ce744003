"""Tallies say what the rows say: when signed, after an addendum, when made again, and after the migration."""
from datetime import UTC, date, datetime, timedelta
from importlib import import_module
from uuid import uuid4

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command
from django.db import connection
from django.db.models import Sum
from django.test.utils import CaptureQueriesContext
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inspections.comparison.models import COUNTED, LineTally, MonthTally
from inspections.comparison.period import Period
from inspections.comparison.selectors import added_up
from inspections.comparison.tallies import rebuild, wrong_deliveries, wrong_months
from inspections.people.models import Site
from inspections.records.models import Carton, DocketLine, Reading
from inspections.records.shape.door import read_addendum, read_delivery
from inspections.sync.signing import add, sign
from tests.inspections.receiving import DEVICE, decide, document, make_kitchen, put_away

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


def month():
    return {name: getattr(MonthTally.objects.get(), name) for name in COUNTED}


def test_signing_counts_what_was_found_by_kind_and_what_it_cost(kitchen, signed):
    tally = LineTally.objects.get()
    # of three opened cartons one at -9.5 °C, one with black spot on 12 of 20; all weighed 2,010 g of 2,000
    assert (tally.warm_seen, tally.warm, tally.spot_seen, tally.spot) == (3, 1, 3, 1)
    assert (tally.short_seen, tally.short, tally.off_count_seen, tally.off_count) == (3, 0, 3, 0)
    assert (tally.net_g, tally.declared_g, tally.product_cc) == (6030, 6000, -950 - 1940 - 1940)
    # kept cartons of 10 kg at 14.50 a kilogram
    kept = 20 - tally.refused
    assert (tally.priced_g, tally.price_cents) == (kept * 10_000, kept * 14_500)
    assert (tally.due, tally.late, tally.species) == (1, 0, "PNV")
    assert month() == {name: getattr(tally, name) for name in COUNTED}


def test_signing_twice_and_putting_away_leave_the_tallies_right(kitchen):
    final = decide(document(kitchen))
    for _ in range(2):
        sign(sent=read_delivery(final), person=kitchen.receiver)
    before, line = month(), DocketLine.objects.get()
    body = put_away(kitchen, final)
    for _ in range(2):
        add(delivery=line.delivery, sent=read_addendum(body), person=kitchen.receiver)
    assert LineTally.objects.count() == MonthTally.objects.count() == 1
    seconds = sum(row.minutes_out * 60 for row in line.put_aways.all() if row.minutes_out is not None)
    assert seconds > 0
    assert month() == {**before, "put_aways": line.put_aways.count(), "out_seconds": seconds}
    assert list(wrong_deliveries()) == list(wrong_months()) == []


def test_months_are_the_sums_of_their_lines(dock):
    for day in (1, 17, 30):
        dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 2, 4, 3), ("PUD raw", 12, 0, 2, 0),
                      arrived_at=datetime(2026, 4, day, 9, 0, tzinfo=UTC))
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 0, 5, 0))
    rows = MonthTally.objects.order_by("month", "presentation").values_list("presentation", "deliveries", "opened")
    assert list(rows) == [("HLSO", 3, 12), ("PUD", 0, 6), ("HLSO", 1, 5)]
    assert list(wrong_months()) == []


def test_a_month_that_differs_is_found_and_mended(dock, capsys):
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 2, 4, 3), ("PUD raw", 12, 0, 2, 0))
    MonthTally.objects.filter(presentation="PUD").delete()
    MonthTally.objects.filter(presentation="HLSO").update(opened=9)
    with pytest.raises(CommandError, match="0 deliveries and 1 months"):
        call_command("rebuild_tallies", check=True)
    assert "Harbour, 2026-05" in capsys.readouterr().out
    assert rebuild() == 2
    assert sorted(MonthTally.objects.values_list("presentation", "opened")) == [("HLSO", 4), ("PUD", 2)]
    assert rebuild() == 0


@given(days=st.tuples(st.dates(date(2026, 1, 1), date(2026, 4, 30)), st.dates(date(2026, 1, 1), date(2026, 4, 30))))
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_period_is_its_months_less_the_days_outside(some_days, days):
    period = Period(*sorted(days))
    sums = added_up(Site.objects.all(), ("supplier_id",), ("opened", "defective"), period)
    lines = LineTally.objects.filter(day__range=(period.first, period.last))
    expected = lines.order_by().values_list("supplier_id").annotate(Sum("opened"), Sum("defective"))
    assert sums == {(str(supplier),): (opened, defective) for supplier, opened, defective in expected}


def test_after_a_signing_only_its_own_site_is_added_up_again(dock, django_assert_num_queries):
    """And the sums are those of a fresh count, whoever asked before."""
    period = Period(date(2026, 5, 1), date(2026, 5, 31))
    asked = (Site.objects.all(), ("supplier_id",), ("opened", "defective"), period)
    for site in ("Harbour", "Quay", "Mill"):
        dock.delivery("North", site, ("HLSO raw", 20, 0, 4, 1))
    assert list(added_up(*asked).values()) == [(12, 3)]
    dock.delivery("North", "Quay", ("HLSO raw", 20, 0, 3, 2))
    with CaptureQueriesContext(connection) as queries:
        assert list(added_up(*asked).values()) == [(15, 5)]
    months = [each["sql"] for each in queries if "comparison_monthtally" in each["sql"]]
    assert len(months) == 1
    quay = Site.objects.get(name="Quay").pk
    assert quay.hex in months[0].replace("-", "")
    assert all(site.pk.hex not in months[0].replace("-", "") for site in Site.objects.exclude(pk=quay))
    with django_assert_num_queries(2):
        added_up(*asked)


@pytest.fixture
def some_days(dock):
    for place, day in enumerate([1, 2, 30, 31, 32, 58, 59, 60, 61, 89, 90, 91, 119, 120]):
        dock.delivery(f"S{place % 3}", "Harbour", ("HLSO raw", 20, 0, 1 + place, place % 2),
                      arrived_at=datetime(2026, 1, 1, 9, 0, tzinfo=UTC) + timedelta(days=day - 1))


def test_a_tally_that_differs_is_found_and_made_again(signed, capsys):
    LineTally.objects.update(opened=40)
    with pytest.raises(CommandError, match="1 deliveries and 1 months"):
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
    months = sorted(MonthTally.objects.values_list(*COUNTED))
    LineTally.objects.all().delete()
    MonthTally.objects.all().delete()
    assert len(set(wrong_deliveries())) == 2
    fill = import_module("inspections.comparison.migrations.0004_fill_measures_and_months").fill
    fill(apps, None)
    fill(apps, None)
    assert list(LineTally.objects.order_by("pk").values()) == before
    assert sorted(MonthTally.objects.values_list(*COUNTED)) == months
    assert rebuild() == 0


def test_held_cartons_that_are_refused_later_are_the_suppliers_refused_ones(kitchen):
    """Twelve of twenty held ones go back, eight may be used: nothing is held any more, and twelve are not paid for."""
    final = decide(document(kitchen), kind="hold", reason="The logger's file is missing.")
    sign(sent=read_delivery(final), person=kitchen.receiver)
    before = LineTally.objects.get()
    assert (before.refused, before.held) == (0, 20)
    for event, count in (("refused", 12), ("released", 8)):
        body = {"event": event, "happened_at": "2026-11-27T09:00:00+11:00", "where": "", "by": "R. Manager",
                "reason": "The file came.", "cartons": [{"line_id": str(before.pk), "part": "held", "count": count}]}
        add(delivery=before.delivery, sent=read_addendum({
            "id": str(uuid4()), "delivery_id": final["id"], "kind": "set_apart", "at": "2026-11-27T09:05:00+11:00",
            "person": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"}, "device_id": DEVICE, "body": body,
        }), person=kitchen.receiver)
    after = LineTally.objects.get()
    assert (after.refused, after.held, after.delivered) == (12, 0, 20)
    assert after.priced_g == before.priced_g * 8 // 20
    assert MonthTally.objects.get().refused == 12
    # what was signed before this was counted is counted by the migration
    for model in (LineTally, MonthTally):
        model.objects.update(refused=0, held=20, priced_g=before.priced_g, price_cents=before.price_cents)
    count_decided = import_module("inspections.comparison.migrations.0006_held_then_decided").count_decided
    for _ in range(2):
        count_decided(apps, None)
        assert list(wrong_deliveries()) == list(wrong_months()) == []
