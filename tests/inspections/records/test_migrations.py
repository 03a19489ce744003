"""The models and their migrations say the same, and the database holds what the models promise."""
import pytest
from django.core.management import call_command
from django.db import IntegrityError, transaction

from inspections.records.acts.delivery import sign_delivery
from inspections.records.models import Carton, DocketLine, LimitSet, PutAway
from tests.factories import a_document, a_line, decided


def test_no_model_waits_for_a_migration(db):
    call_command("makemigrations", "people", "records", check=True, dry_run=True, verbosity=0)


@pytest.fixture
def line(cast) -> DocketLine:
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version)))
    return sign_delivery(document=document, person=cast.receiver, device_id=document["device_id"]).lines.get()


@pytest.mark.parametrize("changes", [{"accepted": 2}, {"decided": "hold"}, {"number": 0, "refused": 1}])
def test_the_database_itself_refuses_a_line_that_does_not_hold(line, changes):
    with pytest.raises(IntegrityError), transaction.atomic():
        DocketLine.objects.filter(pk=line.pk).update(**changes)


def test_the_database_itself_refuses_two_current_limit_sets(cast):
    LimitSet.objects.create(name="Other", version=1, data={})
    with pytest.raises(IntegrityError), transaction.atomic():
        LimitSet.objects.filter(name="Other").update(is_current=True)


def test_a_carton_id_stands_in_one_delivery_only(line):
    taken = line.cartons.first()
    with pytest.raises(IntegrityError), transaction.atomic():
        Carton.objects.bulk_create([Carton(id=taken.pk, line=line, is_defective=False, data={}, derived={})])


def test_minutes_out_are_not_known_without_both_times():
    assert PutAway(count=1).minutes_out is None
