"""Every column of every sealed row, and any byte of a photo, a file or a seal: altered, it is found and named.

The guards are taken off first, as somebody who administers the database can.
"""
import datetime
import uuid

import pytest
from django.db import IntegrityError, connection, models, transaction

from inspections.evidence import guards
from inspections.evidence.checking import verify_chain
from inspections.evidence.models import Seal, SealingKey, SharedCopy
from inspections.records import storage
from inspections.records.models import LoggerFile, Photo, PhotoUse
from tests.inspections.evidence.test_guards import SEALED, sealed  # noqa: F401
from tests.inspections.tamper import behind

#: Columns that no seal speaks for, each with its reason.
NOT_SEALED = {
    "Reading.id": "a running number", "Finding.id": "a running number", "PutAway.id": "made by the server",
    "Seal.id": "made by the server", "Photo.received_at": "when the server had it", "SealingKey.first_used_at": "told",
    "SpecificationVersion.created_by": "who agreed it is no part of what was agreed",
    "SpecificationVersion.created_at": "likewise", "LimitSet.created_by": "likewise", "LimitSet.created_at": "likewise",
    "LimitSet.is_current": "another set may be in use by now",
}


def other(field: models.Field, value):
    """Another value of the column's kind."""
    match value:
        case bool():
            return not value
        case int() | float():
            return value + 1
        case str():
            return value[:-1] + ("x" if value[-1:] != "x" else "y") if value else "x"
        case datetime.datetime():
            return value + datetime.timedelta(seconds=1)
        case uuid.UUID():
            return uuid.UUID(int=value.int ^ 1)
        case dict() | list():
            return {"other": True}
        case bytes() | memoryview():
            return bytes(value)[:-1] + b" "
    plain = field.target_field if field.is_relation else field
    return {models.UUIDField: uuid.uuid4(), models.JSONField: {"other": True}, models.BooleanField: True,
            models.DateTimeField: datetime.datetime(2026, 1, 1, tzinfo=datetime.UTC)}.get(type(plain), 1)


def found_after(kitchen, model, row, field) -> list[str]:
    """What the check tells once one column of a row was altered; the alteration is undone."""
    with transaction.atomic():
        try:
            with transaction.atomic():
                behind(model).filter(pk=row.pk).update(**{field.attname: other(field, getattr(row, field.attname))})
            return [str(one) for one in verify_chain(kitchen.site)]
        except IntegrityError:
            return ["the database refuses it even so"]
        finally:
            transaction.set_rollback(True)


@pytest.mark.parametrize("model", SEALED, ids=lambda model: model.__name__)
def test_an_altered_column_of_a_sealed_row_is_found(sealed, model):  # noqa: F811
    guards.remove(connection)
    assert verify_chain(sealed.site) == []
    unseen = []
    row = model.objects.order_by("pk").first()
    for field in model._meta.concrete_fields:
        name = f"{model.__name__}.{field.name}"
        if name not in NOT_SEALED and not found_after(sealed, model, row, field):
            unseen.append(name)
    assert unseen == []
    assert verify_chain(sealed.site) == []


@pytest.mark.parametrize("model", SEALED, ids=lambda model: model.__name__)
def test_a_lost_row_is_found(sealed, model):  # noqa: F811
    row = model.objects.order_by("pk").first()
    with connection.constraint_checks_disabled():
        behind(model).filter(pk=row.pk)._raw_delete("default")
        found = verify_chain(sealed.site)
        transaction.set_rollback(True)
    assert found


def test_a_photo_laid_to_another_carton_is_named(sealed):  # noqa: F811
    behind(PhotoUse).update(purpose="defect")
    (told,) = verify_chain(sealed.site)
    photo = Photo.objects.get()
    assert told.what == f"delivery DN-5530: where photo {photo.pk[:12]} belongs is not as it was sealed (purpose)"


@pytest.mark.parametrize("at", [0, 0.5, 1])
@pytest.mark.parametrize("kind", ["photo", "copy", "logger"])
def test_any_byte_of_a_file_is_found(sealed, kind, at):  # noqa: F811
    row = {"photo": Photo, "copy": SharedCopy, "logger": LoggerFile}[kind].objects.get()
    content = bytearray(storage.read(row.stored_name))
    content[int(at * (len(content) - 1))] ^= 1
    storage.put(row.stored_name, bytes(content))
    assert [one.what for one in verify_chain(sealed.site) if "gone or was altered" in one.what]


@pytest.mark.parametrize("number", [1, 2, 3])
@pytest.mark.parametrize("at", [0, 0.5, 1])
def test_any_byte_of_a_sealed_record_is_found(sealed, number, at):  # noqa: F811
    row = Seal.objects.get(number=number)
    content = bytearray(row.content)
    content[int(at * (len(content) - 1))] ^= 1
    behind(Seal).filter(pk=row.pk).update(content=bytes(content))
    assert any(one.number == number and "sealed record" in one.what for one in verify_chain(sealed.site))


def test_a_seal_of_another_key_is_found(sealed):  # noqa: F811
    behind(SealingKey).update(pem=SealingKey.objects.get().pem.replace("A", "B", 1))
    assert verify_chain(sealed.site)
