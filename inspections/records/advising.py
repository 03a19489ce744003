"""What the photo advisory is told of a photo, and whether anybody wants its advice.

Advice is switched on and off per specification, by a new version of it. An order or an open document may
still name an older version, so the switch is read from the version that was the newest when the delivery was
signed (now, while it is open): from the moment of switching off no photo of these goods is asked about. What was
asked before and still waits is not looked at either: the worker asks when it takes the work (``jobs.take``), and
once more when it stores the answer (``jobs.finish``).
"""
from collections.abc import Iterable
from datetime import datetime

from imaging.advice import PRODUCT_PURPOSES
from inspections.records import stored
from inspections.records.judging import is_id
from inspections.records.models import Delivery, SpecificationVersion

SWITCHED_OFF = "Photo advice is switched off for this specification."
WAS_OFF = "Photo advice was switched off for this specification when this photo’s turn came. Nothing looked at it."
WENT_OFF = (
    "Photo advice was switched off for this specification while this photo was being looked at. "
    "The answer was not kept."
)
#: Purposes of photos that show the prawns themselves; on others there is nothing to advise.
PRAWN_PURPOSES = PRODUCT_PURPOSES
#: Read from the specification; the purpose comes from the photo.
GOODS = ("species_code", "presentation", "state")


def advice_contexts(document: dict) -> list[tuple[dict, dict | None]]:
    """Each photo of a document with what the advisory is told of it.

    Parameters
    ----------
    document : dict
        An inspection document, open or signed.

    Returns
    -------
    list of (dict, dict or None)
        The document's entry, and ``species_code``, ``presentation``, ``state`` (each None when the photo
        belongs to no line) and ``purpose``. None instead: advice is switched off for its specification.

    Notes
    -----
    Three queries at most, however many photos.
    """
    entries = [entry for entry in stored.entries(document, "photos") if _is_named(entry)]
    lines = {line["id"]: line for line in stored.entries(document, "lines") if is_id(line.get("id"))}
    named = {entry["id"]: _version_of(lines.get(entry.get("line_id") or "")) for entry in entries}
    rows = SpecificationVersion.objects.filter(pk__in=set(filter(None, named.values())))
    versions = {str(row.pk): row for row in rows}
    off = _switched_off(versions.values(), _signed_at(document)) if versions else set()
    return [(entry, _context(entry, versions.get(named[entry["id"]]), off)) for entry in entries]


def version_named(document: dict, entry: dict) -> str:
    """Id of the specification's version that the photo's line names; empty when it belongs to no line."""
    lines = stored.entries(document, "lines")
    return _version_of(next((line for line in lines if line.get("id") == entry.get("line_id")), None))


def switched_off_now(version_ids: Iterable[str]) -> set[str]:
    """Those of the versions whose specification wants no advice at this moment, whenever a delivery was signed."""
    versions = list(SpecificationVersion.objects.filter(pk__in=set(filter(None, version_ids))))
    off = _switched_off(versions, None) if versions else set()
    return {str(version.pk) for version in versions if version.specification_id in off}


def are_off_now(version_ids: Iterable[str]) -> bool:
    """Whether every one of the versions belongs to a specification that wants no advice now; not so for none."""
    asked = set(filter(None, version_ids))
    return bool(asked) and asked <= switched_off_now(asked)


def _is_named(entry: dict) -> bool:
    return is_id(entry.get("id")) and isinstance(entry.get("sha256"), str)


def _version_of(line: dict | None) -> str:
    given = (line or {}).get("specification_id")
    return str(given) if given and is_id(given) else ""


def _signed_at(document: dict) -> datetime | None:
    return Delivery.objects.filter(pk=document.get("id")).values_list("signed_at", flat=True).first()


def _switched_off(versions, moment: datetime | None) -> set:
    """Ids of the specifications whose newest version of that moment wants no advice.

    A delivery may have been signed before its specification was written here (imported, or the demo's past):
    then the version that it names has the word.
    """
    newest = {version.specification_id: version for version in versions}
    rows = SpecificationVersion.objects.filter(specification__in=list(newest)).order_by("version")
    for row in rows if moment is None else rows.filter(created_at__lte=moment):
        newest[row.specification_id] = row
    return {key for key, version in newest.items() if not version.data.get("advisory", True)}


def _context(entry: dict, version: SpecificationVersion | None, off: set) -> dict | None:
    if version is not None and version.specification_id in off:
        return None
    data = version.data if version else {}
    return {**{name: data.get(name) for name in GOODS}, "purpose": entry.get("purpose") or "load"}
