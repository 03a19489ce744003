"""Are the rows still what the sealed record makes them? Made anew by the acts that wrote them, and compared whole.

Every column is compared but those that only the database gives (running numbers) or that may change (``guards``).
Names of columns are told, so that whoever looks into it knows where.
"""
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from django.db.models import AutoField, Model

from inspections.errors import ApiProblem
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.models import SharedCopy
from inspections.records import storage
from inspections.records.judging import versions_of
from inspections.records.models import Addendum, Delivery, Photo, PhotoUse, State
from inspections.records.services.addendum import put_away_row
from inspections.records.services.delivery import listed_by, receiver_signed_at, rows_of
from inspections.records.services.photo import kind_and_size, uses_in
from inspections.records.services.signable import moment
from inspections.records.services.thawed import PURPOSE, thawed_photos
from inspections.trade.facts import facts_from_document


def differing(stored: Model, expected: Mapping[str, object]) -> list[str]:
    """Names of those columns of a row that are not as expected; ``expected`` by column."""
    fields = {field.attname: field for field in stored._meta.concrete_fields}
    return [name for name, value in expected.items() if not _same(fields[name], getattr(stored, name), value)]


def delivery_row(row: Delivery, content: dict[str, Any]) -> Iterator[str]:
    """The delivery's own columns."""
    document = content["document"]
    for name in differing(row, {
        "order_id": document.get("order_id"), "docket_number": str(document["docket_number"]).strip(),
        "arrived_at": moment(document["arrived_at"]), "device_id": document["device_id"],
        "limit_set_id": content["limits"]["id"], "separate_from": document.get("separate_from") or None,
        "is_demo": row.site.is_demo, **listed_by(document, content["judgement"]),
        # Records from before it was sealed do not tell who sent them.
        **({"receiver_id": content["sent_by"]} if "sent_by" in content else {}),
    }):
        yield f"its {name.removesuffix('_id')} is not the one that was sealed"
    if row.receiver_signed_at != receiver_signed_at(document):
        yield "when the receiver signed is not as it was sealed"
    if row.state != _state(row):
        yield "its state is not what was put away"


def rows_below(row: Delivery, content: dict[str, Any]) -> Iterator[str]:
    """Lines, cartons, readings and findings, which desk and comparison read."""
    as_sealed = Delivery(pk=row.pk, site=row.site, document=content["document"], judgement=content["judgement"])
    try:
        facts, versions = facts_from_document(as_sealed.document), versions_of(as_sealed.document)
        lines, cartons, readings, findings = rows_of(as_sealed, facts, versions)
    except (ApiProblem, KeyError) as trouble:
        yield f"its rows cannot be made anew from what was sealed ({trouble})"
        return
    stored = {str(line.pk): line for line in row.lines.all()}
    held = {str(line.pk): {str(one.pk): one for one in line.cartons.all()} for line in stored.values()}
    for line in lines:
        found = stored.pop(str(line.pk), None)
        if named := ["gone"] if found is None else _columns_differing(found, line):
            yield f"the row of line {line.number} tells otherwise ({', '.join(named)})"
            continue
        opened = [carton for carton in cartons if str(carton.line_id) == str(line.pk)]
        if named := _by_id(held[str(line.pk)], opened):
            yield f"the cartons of line {line.number} tell otherwise ({', '.join(named)})"
    if stored:
        yield "it has a line that was not signed"
    for name, there, made in (("readings", row.readings.all(), readings), ("findings", row.findings.all(), findings)):
        if named := _in_order(list(there), made):
            yield f"its {name} tell otherwise ({', '.join(named)})"


def photo_uses(row: Delivery, content: dict[str, Any]) -> Iterator[str]:
    """Where the photos belong."""
    signed = PhotoUse.objects.filter(delivery_id=row.pk).exclude(purpose=PURPOSE)
    yield from _uses({str(use.pk): use for use in signed}, uses_in(content["document"]))


def later_uses(row: Addendum) -> Iterator[str]:
    """Where the photos of a fault found on thawing belong."""
    made = thawed_photos(row)
    yield from _uses({str(use.pk): use for use in PhotoUse.objects.filter(pk__in=[use.pk for use in made])}, made)


def _uses(stored: dict[str, PhotoUse], made: list[PhotoUse]) -> Iterator[str]:
    for use in made:
        found = stored.pop(str(use.pk), None)
        if named := ["gone"] if found is None else _columns_differing(found, use):
            yield f"where photo {use.photo_id[:12]} belongs is not as it was sealed ({', '.join(named)})"
    if stored:
        yield "it uses a photo that was not signed"


def photo_files(entry: dict[str, Any]) -> Iterator[str]:
    """A photo and the copy of it that may be shown: the bytes, and the rows about them."""
    short, row = entry["sha256"][:12], Photo.objects.filter(pk=entry["sha256"]).first()
    content = _read(row.stored_name) if row is not None else None
    if row is None or content is None or sha256_hex(content) != entry["sha256"]:
        yield f"photo {short} is gone or was altered"
    else:
        _, width, height = kind_and_size(content)
        if named := differing(row, {
            "bytes": entry["bytes"], "content_type": entry["type"], "unreadable": entry.get("unreadable", ""),
            "width": width, "height": height, "stored_name": storage.photo_name(entry["sha256"]),
        }):
            yield f"the row of photo {short} tells otherwise ({', '.join(named)})"
    yield from _shared(entry, short)


def put_aways(row: Addendum, content: dict[str, Any]) -> Iterator[str]:
    """Rows of cartons put away."""
    entries = row.document["body"].get("cartons") or [] if row.document["kind"] == "put_away" else []
    made = [put_away_row(row, entry, set(content["freezers"])) for entry in entries]
    if named := _in_order(list(row.put_aways.order_by("id")), made, but={"id"}):
        yield f"what was put away tells otherwise ({', '.join(named)})"


def _shared(entry: dict[str, Any], short: str) -> Iterator[str]:
    copy = SharedCopy.objects.filter(pk=entry["sha256"]).first()
    content = _read(copy.stored_name) if copy is not None and copy.stored_name else b""
    is_whole = content is not None and (sha256_hex(content) if content else "") == (entry["shared_sha256"] or "")
    if copy is None or content is None or not is_whole:
        yield f"the copy of photo {short} that may be shown is gone or was altered"
    elif named := differing(copy, {
        "how": entry["shared_how"], "sha256": entry["shared_sha256"] or "", "content_type": entry["shared_type"] or "",
        "bytes": len(content),
    }):
        yield f"the row of the copy of photo {short} tells otherwise ({', '.join(named)})"


def _state(row: Delivery) -> str:
    """What the put-aways make it."""
    if not row.addenda.filter(kind="put_away").exists():
        return State.SIGNED
    lines = row.lines.prefetch_related("put_aways")
    is_all_away = all(sum(one.count for one in line.put_aways.all()) >= line.accepted + line.held for line in lines)
    return State.PUT_AWAY if is_all_away else State.SIGNED


def _by_id(stored: Mapping[str, Model], made: Iterable[Model]) -> list[str]:
    again = {str(one.pk): one for one in made}
    if set(stored) != set(again):
        return ["number"]
    return sorted({name for key, one in again.items() for name in _columns_differing(stored[key], one)})


def _in_order(
    stored: Sequence[Model], made: Sequence[Model], but: frozenset[str] | set[str] = frozenset()
) -> list[str]:
    if len(stored) != len(made):
        return ["number"]
    pairs = zip(stored, made, strict=True)
    return sorted({name for one, other in pairs for name in _columns_differing(one, other) if name not in but})


def _columns_differing(stored: Model, made: Model) -> list[str]:
    fields = [field for field in stored._meta.concrete_fields if not isinstance(field, AutoField)]
    return differing(stored, {field.attname: getattr(made, field.attname) for field in fields})


def _same(field: Any, stored: Any, expected: Any) -> bool:
    if isinstance(stored, (dict, list)) or isinstance(expected, (dict, list)):
        return canonical_bytes(stored) == canonical_bytes(expected)
    plain = field.target_field if field.is_relation else field
    return bool(plain.to_python(stored) == plain.to_python(expected))


def _read(name: str) -> bytes | None:
    try:
        return storage.read(name)
    except OSError:
        return None
