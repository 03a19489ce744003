"""The models and their migrations say the same, and the database holds what the models promise."""
from importlib import import_module

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import IntegrityError, transaction

from inspections.records.models import (
    Advisory,
    Carton,
    Delivery,
    DocketLine,
    LimitSet,
    PhotoReceipt,
    PhotoUse,
    PutAway,
)
from inspections.records.services.advisory import record_advisory
from inspections.records.services.photo import use_photos
from tests.factories import a_carton, a_document, a_jpeg, a_line, decided, photo_entry, sign_delivery
from tests.inspections.records.test_jobs import ADVICE, CONTEXT
from tests.inspections.records.test_photos import store
from tests.inspections.tamper import Unguarded, behind


def test_no_model_waits_for_a_migration(db):
    call_command("makemigrations", check=True, dry_run=True, verbosity=0)


@pytest.fixture
def line(cast) -> DocketLine:
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version)))
    return sign_delivery(document=document, person=cast.receiver).lines.get()


@pytest.mark.parametrize("changes", [{"accepted": 2}, {"decided": "hold"}, {"number": 0, "refused": 1}])
def test_the_database_itself_refuses_a_line_that_does_not_hold(line, changes):
    with pytest.raises(IntegrityError), transaction.atomic():
        behind(DocketLine).filter(pk=line.pk).update(**changes)


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


# ---- 0006: columns that the worth of the photo advice is asked by ------------------------------------------
@pytest.fixture
def filling():
    return import_module("inspections.records.migrations.0006_what_agreement_asks_by")


def test_rows_of_before_get_what_signing_would_have_written(cast, filling):
    pieces = [{"black_spot": 2}, {"black_spot": 15}, {"black_spot": 0}, {"broken": 0}, {}]
    cartons = [a_carton(position, pieces=found) for position, found in enumerate(pieces, start=1)]
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver,
                                  a_line(cast.version, *cartons, counted=5)))
    sign_delivery(document=document, person=cast.receiver)
    record_advisory(photo=store(a_jpeg()), context=CONTEXT, advice=ADVICE)
    record_advisory(photo=store(a_jpeg()), context={"purpose": "load", "state": None}, advice=ADVICE)
    written = _columns()
    behind(Carton).update(black_spot="")
    behind(Delivery).update(receiver_signed_at=None)
    Advisory.objects.update(**dict.fromkeys(filling.TOLD, ""))
    assert _columns() != written
    for _ in range(2):  # begun again it changes nothing
        filling.fill_cartons(Unguarded, None)
        filling.fill_deliveries(Unguarded, None)
        filling.fill_advisories(Unguarded, None)
        assert _columns() == written


def _columns() -> tuple:
    told = ("species_code", "presentation", "state", "purpose")
    return (
        list(Carton.objects.order_by("position").values_list("position", "black_spot")),
        list(Delivery.objects.values_list("receiver_signed_at", flat=True)),
        list(Advisory.objects.order_by("created_at", "id").values_list(*told)),
    )


@pytest.mark.parametrize(
    ("data", "derived"),
    [({}, {}), (None, None), ([], []), ({"pieces": None, "looked_at": None}, {"checks": None}),
     ({"pieces": {"black_spot": "3"}, "looked_at": 20}, {}), ({"pieces": {"black_spot": 21}, "looked_at": 20}, {})],
)
def test_odd_cartons_of_before_were_not_looked_at(filling, data, derived):
    assert filling._black_spot(data, derived) == ""


@pytest.mark.parametrize("document", [{}, [], None, {"signatures": None}, {"signatures": {"receiver": {"at": "x"}}},
                                      {"signatures": {"receiver": {"at": "0001-01-01T00:00:00+10:00"}}}])
def test_odd_signatures_of_before_tell_no_time(filling, document):
    assert filling._signed(document) is None


def test_more_rows_than_a_batch_are_all_filled(cast, filling, monkeypatch):
    monkeypatch.setattr(filling, "BATCH", 2)
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(
        cast.version, *[a_carton(position) for position in range(1, 6)], counted=5)))
    sign_delivery(document=document, person=cast.receiver)
    behind(Carton).update(black_spot="")
    filling.fill_cartons(Unguarded, None)
    assert set(Carton.objects.values_list("black_spot", flat=True)) == {"none"}


# ---- 0007: which site has received which photo -------------------------------------------------------------
def test_a_site_has_received_what_its_deliveries_used_before_receipts_were_kept(cast):
    receiving = import_module("inspections.records.migrations.0007_photo_receipts")
    photo = store(a_jpeg())
    for _ in range(2):
        document = a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, photos=[photo_entry(a_jpeg())])
        use_photos(document=document)
    PhotoReceipt.objects.all().delete()
    for _ in range(2):
        receiving.receive(apps, None)
    assert list(PhotoReceipt.objects.values_list("photo", "site")) == [(photo.pk, cast.quay.pk)]


# ---- 0011: uses of photos that a signed document does not name ----------------------------------------------
def test_uses_left_from_before_signing_are_dropped(cast):
    dropping = import_module("inspections.records.migrations.0011_uses_as_signed")
    store(a_jpeg()), store(a_jpeg(80))
    kept, left = photo_entry(a_jpeg()), photo_entry(a_jpeg(80))
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version),
                                  photos=[kept]))
    sign_delivery(document=document, person=cast.receiver)
    use_photos(document={**document, "photos": [left, kept]})
    still_open = a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, photos=[photo_entry(a_jpeg())])
    use_photos(document=still_open)
    for _ in range(2):
        dropping.drop(apps, None)
    told = {(str(use.pk), str(use.delivery_id)) for use in PhotoUse.objects.all()}
    assert told == {(kept["id"], document["id"]), (still_open["photos"][0]["id"], still_open["id"])}
