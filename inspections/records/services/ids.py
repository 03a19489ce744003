"""Whose are the ids that a document brings? They are made on the device, so any id may come from anybody."""
from collections.abc import Iterator
from uuid import UUID

from inspections.errors import Conflict, Unprocessable
from inspections.records import stored
from inspections.records.models import Carton, DocketLine, PhotoUse

#: Kind of entry -> its words, its rows, and the way from a row to its delivery's id.
_KINDS = {
    "lines": ("A line", DocketLine, "delivery_id"),
    "cartons": ("A carton", Carton, "line__delivery_id"),
    "photos": ("A photo", PhotoUse, "delivery_id"),
}


def need_own_ids(document: dict, *kinds: str) -> None:
    """Nothing, when no id of a line, carton or photo stands twice in the document or belongs to another delivery.

    Parameters
    ----------
    document : dict
        An inspection document, open or final; entries without a usable id are passed over.
    *kinds : str
        ``lines``, ``cartons``, ``photos``; all of them without one.

    Raises
    ------
    Unprocessable
        422 IDS-TWICE.
    Conflict
        409 IDS-TAKEN: a row of another delivery, of this site or another, has that id.

    Notes
    -----
    One query for each kind. Two signings at the same moment are told apart by the primary keys of the rows.
    """
    own = _id_of(document)
    for kind, entries in _entries(document).items():
        if kinds and kind not in kinds:
            continue
        what, rows, way = _KINDS[kind]
        ids = [found for entry in entries if (found := _id_of(entry)) is not None]
        if len(set(ids)) < len(ids):
            raise Unprocessable("IDS-TWICE", what=what)
        if ids and rows.objects.filter(pk__in=ids).exclude(**{way: own}).exists():
            raise Conflict("IDS-TAKEN", what=what)


def ids_of(document: dict) -> dict[str, list[UUID | None]]:
    """All ids of lines, cartons and photos: two documents with the same ones ask the same of ``need_own_ids``."""
    return {kind: [_id_of(entry) for entry in entries] for kind, entries in _entries(stored.head(document)).items()}


def ids_in(document: dict, kind: str) -> set[UUID]:
    """Ids of the document's ``lines``, ``cartons`` or ``photos``."""
    return {found for entry in _entries(document)[kind] if (found := _id_of(entry)) is not None}


def _entries(document: dict) -> dict[str, list[dict]]:
    lines = list(_dicts(document.get("lines")))
    return {"lines": lines, "cartons": [carton for line in lines for carton in _dicts(line.get("cartons"))],
            "photos": list(_dicts(document.get("photos")))}


def _dicts(entries) -> Iterator[dict]:
    yield from (entry for entry in entries if isinstance(entry, dict)) if isinstance(entries, list) else ()


def _id_of(entry: dict) -> UUID | None:
    return as_id(entry.get("id"))


def as_id(value) -> UUID | None:
    """The id that a text spells; None for anything else."""
    try:
        return UUID(value) if isinstance(value, str) else None
    except ValueError:
        return None
