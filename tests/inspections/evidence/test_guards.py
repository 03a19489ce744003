"""What was sealed is refused to be altered twice over: by the models, and by the database itself."""
import pytest
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction
from django.db.models import QuerySet

from inspections.errors import Conflict
from inspections.evidence import guards
from inspections.evidence.logger_files import add_logger_file
from inspections.evidence.models import Seal, SealingKey, SharedCopy
from inspections.records.models import (
    Addendum,
    Carton,
    Delivery,
    DocketLine,
    Finding,
    LimitSet,
    LoggerFile,
    Photo,
    PhotoUse,
    PutAway,
    Reading,
    SpecificationVersion,
)
from tests.inspections.receiving import decide, document, photo_entry, put_away, with_place
from tests.inspections.records.test_photos import cut

LOG = b"Time;Temperature (C)\n" + b"".join(b"2026-11-24 %02d:00:00;-18.5\n" % hour for hour in range(24))
SEALED = [Delivery, DocketLine, Carton, Reading, Finding, PhotoUse, Photo, SharedCopy, Addendum, PutAway, LoggerFile,
          Seal, SealingKey, SpecificationVersion, LimitSet]


@pytest.fixture
def sealed(kitchen, phone):
    """A bad delivery with a photo, put away, with a logger's file."""
    draft = document(kitchen, photos=[photo_entry(with_place())], bad=True)
    final = decide(draft, kind="hold", reason="ask")
    phone.send_photo(with_place())
    assert phone.sign(final).status_code == 200
    assert phone.add(put_away(kitchen, final)).status_code == 200
    add_logger_file(delivery=Delivery.objects.get(), name="a.csv", content=LOG, told={"zone": "UTC"},
                    person=kitchen.receiver)
    return kitchen


def columns() -> list:
    """Every column of every sealed table, with whether it may change."""
    free = {(guard.table, column) for guard in guards.GUARDS for column in guard.free}
    return [pytest.param(model, field.column, (model._meta.db_table, field.column) in free,
                         id=f"{model.__name__}.{field.name}")
            for model in SEALED for field in model._meta.concrete_fields]


@pytest.mark.parametrize(("model", "column", "is_free"), columns())
def test_the_database_refuses_to_alter_a_column(sealed, model, column, is_free):
    table = model._meta.db_table

    def alter():
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(f'UPDATE {table} SET "{column}" = "{column}"')
            assert cursor.rowcount > 0

    if is_free:
        alter()
    else:
        with pytest.raises(IntegrityError, match="SEALED"):
            alter()


@pytest.mark.parametrize("model", SEALED)
def test_the_database_refuses_to_remove_a_row(sealed, model):
    with pytest.raises(IntegrityError, match="SEALED"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(f"DELETE FROM {model._meta.db_table}")


@pytest.mark.parametrize("model", [DocketLine, Carton, Reading, Finding, PhotoUse, PutAway])
def test_the_database_refuses_another_row_of_a_sealed_record(sealed, model):
    row = model.objects.first()
    row.pk = sealed.order.pk if model in (DocketLine, Carton, PhotoUse, PutAway) else 999_999
    row._state.adding = True
    if model is DocketLine:
        row.number = 99
    with pytest.raises(IntegrityError, match="SEALED"), transaction.atomic():
        row.save(force_insert=True)


@pytest.mark.parametrize("model", [model for model in SEALED if model is not PhotoUse])
def test_the_models_refuse_in_a_sentence(sealed, model):
    row = model.objects.first()
    column = next(field.name for field in model._meta.concrete_fields if not field.primary_key)
    for act in (row.save, row.delete, model.objects.all().delete,
                lambda: model.objects.update(**{column: getattr(row, column)})):
        with pytest.raises(Conflict) as caught:
            act()
        assert caught.value.code in {"SIGNED-ONCE", "WRITTEN-ONCE"}


def test_what_is_not_sealed_yet_may_change(kitchen, phone):
    """Photos, their uses and rows of other deliveries, beside a sealed one."""
    first = decide(document(kitchen))
    phone.sign(first)
    other = cut("JPEG", 1)
    draft = document(kitchen, docket="DN-2", photos=[photo_entry(other)])
    phone.put(draft)
    phone.send_photo(other)
    draft["photos"][0]["purpose"] = "defect"
    assert phone.put(draft, base=1).status_code == 200
    assert PhotoUse.objects.get().purpose == "defect"
    assert phone.put({**draft, "photos": []}, base=2).status_code == 200
    QuerySet(Photo).update(width=1)


def test_no_use_is_moved_into_a_sealed_record(sealed, phone):
    other = cut("JPEG", 1)
    phone.put(document(sealed, docket="DN-2", photos=[photo_entry(other)]))
    phone.send_photo(other)
    with pytest.raises(IntegrityError, match="SEALED"), transaction.atomic():
        PhotoUse.objects.filter(photo=Photo.objects.latest("received_at")).update(
            delivery_id=Delivery.objects.get().pk)


def test_every_guard_is_on_and_a_missing_one_is_told(sealed):
    assert guards.missing() == []
    guards.remove()
    assert len(guards.missing()) == sum(len(guard.whens()) for guard in guards.GUARDS)
    with pytest.raises(Exception, match="not as they were sealed"):
        call_command("verify_seals")
    guards.install()
    assert guards.missing() == []


@pytest.mark.django_db(transaction=True)
def test_they_are_on_again_after_every_migrate(kitchen):
    guards.remove()
    call_command("migrate", verbosity=0)
    assert guards.missing() == []
