"""What is kept at the desk by hand: people, sites, suppliers, specifications, thermometers, freezers.

Each kind is a row of ``KINDS``: who may read it, who may change it, how it is listed and how one is saved. Nothing
is ever removed, because deliveries point at it: it is taken out of use.
"""
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypedDict

from django.core.exceptions import ValidationError
from django.db import models

from inspections.errors import NotFound, Unprocessable
from inspections.people import answers as of_people
from inspections.people import keeping
from inspections.people.access import need_role, sites_for
from inspections.people.api import site_json
from inspections.people.models import Person, Role
from inspections.records import entries as shapes
from inspections.records.answers.kept import FreezerKept, SpecificationKept, SupplierKept, ThermometerKept
from inspections.records.models import Freezer, Specification, SpecificationVersion, Supplier, Thermometer
from inspections.records.services.reference import FIELDS, publish_specification
from inspections.strict import Entries, read

MANAGERS = (Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
SUPPLIER_FIELDS = ("name", "code", "contact_name", "contact_email", "is_active")
THERMOMETER_FIELDS = ("name", "accuracy_c", "last_checked_on", "last_check_c", "check_due_on", "in_use")


@dataclass(frozen=True)
class Kind:
    """One kind of entry; ``save`` gives the row and whether it is new, ``one`` a row as ``told`` describes it."""

    shape: type[Entries]
    told: Any
    writers: tuple[str, ...]
    rows: Callable[[Person], models.QuerySet]
    save: Callable[..., tuple[models.Model, bool]]
    one: Callable[[models.Model], dict]

    @property
    def rows_told(self) -> Any:
        """The type of a list of these."""
        return TypedDict(f"{self.told.__name__}s", {"rows": list[self.told]})  # type: ignore[misc]


def kept(kind: str, person: Person) -> list[dict]:
    """Every row of a kind that the person may see.

    Raises
    ------
    Forbidden
        ROLE-NEEDED.
    NotFound
        There is no such kind.
    """
    of = _kind(kind)
    need_role(person, *MANAGERS)
    return [of.one(row) for row in of.rows(person)[:2000]]


def keep(kind: str, person: Person, row_id: str | None, data: dict) -> tuple[models.Model, dict, bool]:
    """Add or change one entry: its row, the same as the desk shows it, and whether it is new.

    Raises
    ------
    Forbidden, NotFound
        As ``kept``; also for a row of another site.
    Unprocessable
        FIELDS: which entries cannot be used, and why.

    Notes
    -----
    What ``data`` leaves out stays as it was.
    """
    of = _kind(kind)
    need_role(person, *of.writers)
    data = {name: value.strip() if isinstance(value, str) and name != "password" else value
            for name, value in read(of.shape, data).given().items()}
    try:
        row, is_new = of.save(by=person, row_id=row_id, data=data)
    except ValidationError as trouble:
        fields = getattr(trouble, "error_dict", None)
        told = trouble.message_dict if fields else {"": trouble.messages}
        raise Unprocessable("FIELDS", fields=_in_words(told), extra={"fields": told}) from trouble
    return row, of.one(row), is_new


def _kind(name: str) -> Kind:
    if name not in KINDS:
        raise NotFound()
    return KINDS[name]


def _in_words(fields: dict[str, list[str]]) -> str:
    parts = (f"{name.replace('_', ' ')}: {' '.join(said)}" if name and name != "__all__" else " ".join(said)
             for name, said in fields.items())
    return "; ".join(part.rstrip(".") for part in parts)


def _saver(rows: Callable[[Person], models.QuerySet], model: type[models.Model], fields: tuple[str, ...]):
    """Saves a plain row; one that belongs to a site, at a site of the person's."""
    has_site = any(field.name == "site" for field in model._meta.fields)

    def save(*, by: Person, row_id: str | None, data: dict) -> tuple[models.Model, bool]:
        row = keeping.found_in(rows(by), row_id) if row_id else model()
        if has_site and (row_id is None or "site" in data):
            row.site = keeping.found_in(sites_for(by), str(data.get("site") or ""))
        for name in fields:
            if name in data:
                setattr(row, name, data[name])
        row.full_clean()
        row.save()
        return row, row_id is None

    return save


def _shower(fields: tuple[str, ...], has_site: bool = False) -> Callable[[models.Model], dict]:
    def one(row: models.Model) -> dict:
        told = {name: getattr(row, name) for name in fields}
        return {"id": str(row.pk), **told, **({"site": str(row.site_id)} if has_site else {})}

    return one


def _suppliers(person: Person) -> models.QuerySet:
    return Supplier.objects.all()


def _thermometers(person: Person) -> models.QuerySet:
    return Thermometer.objects.filter(site__in=sites_for(person))


def _freezers(person: Person) -> models.QuerySet:
    return Freezer.objects.filter(site__in=sites_for(person))


def _specifications(person: Person) -> models.QuerySet:
    return Specification.objects.prefetch_related("versions")


def _save_specification(*, by: Person, row_id: str | None, data: dict) -> tuple[Specification, bool]:
    """A change of what was agreed is the next version; the code of one that is there stays."""
    row = keeping.found_in(Specification.objects, row_id) if row_id else Specification(code=str(data.get("code") or ""))
    if row_id is None:
        row.name = str(data.get("name") or "")
        row.full_clean()
    newest = _newest(row) if row_id else None
    agreed = {**(newest.data if newest else {}), **{name: data[name] for name in FIELDS if name in data}}
    publish_specification(code=row.code, name=str(data.get("name") or row.name), data=agreed, person=by)
    row = Specification.objects.get(code=row.code)
    if data.get("is_active", row.is_active) != row.is_active:
        row.is_active = bool(data["is_active"])
        row.save(update_fields=["is_active"])
    return row, row_id is None


def _newest(row: Specification) -> SpecificationVersion | None:
    return max(row.versions.all(), key=lambda one: one.version, default=None)


def _specification_json(row: Specification) -> dict:
    newest = _newest(row)
    agreed = newest.data if newest else {}
    return {
        "id": str(row.pk), "code": row.code, "name": row.name, "is_active": row.is_active,
        "version": newest.version if newest else 0, **{name: agreed.get(name) for name in FIELDS},
    }


KINDS = {
    "people": Kind(shapes.OfPerson, of_people.AccountRow, MANAGERS, keeping.people_kept_by, keeping.save_person,
                   keeping.account_json),
    "sites": Kind(shapes.OfSite, of_people.Site, (Role.GROUP_OPERATIONS,), sites_for, keeping.save_site, site_json),
    "suppliers": Kind(shapes.OfSupplier, SupplierKept, (Role.GROUP_OPERATIONS,), _suppliers,
                      _saver(_suppliers, Supplier, SUPPLIER_FIELDS), _shower(SUPPLIER_FIELDS)),
    "specifications": Kind(shapes.OfSpecification, SpecificationKept, (Role.GROUP_OPERATIONS,),
                           _specifications, _save_specification, _specification_json),
    "thermometers": Kind(shapes.OfThermometer, ThermometerKept, MANAGERS, _thermometers,
                         _saver(_thermometers, Thermometer, THERMOMETER_FIELDS),
                         _shower(THERMOMETER_FIELDS, has_site=True)),
    "freezers": Kind(shapes.OfFreezer, FreezerKept, MANAGERS, _freezers,
                     _saver(_freezers, Freezer, ("name", "in_use")), _shower(("name", "in_use"), has_site=True)),
}  # fmt: skip
