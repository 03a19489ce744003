"""Does everything that was sealed still stand as it was? Recomputed from rows and files, seal by seal.

Found are: an altered seal, a number left out, a record that no longer is what was sealed, rows made from
it that tell otherwise, a photo whose file is gone or altered, and a delivery or addendum without a seal.
Not found, here: the newest seals of a site cut off together with their deliveries. Compare the last number
with one that a phone or a supplier holds.
"""
import json
from collections.abc import Iterator
from dataclasses import dataclass

from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.keys import key_id
from inspections.evidence.models import Seal, SealKind, SharedCopy
from inspections.evidence.statement import NO_SEAL_BEFORE, signature_holds, utc_text
from inspections.people.models import Site
from inspections.records import storage
from inspections.records.acts.delivery import receiver_signed_at
from inspections.records.acts.readings import readings_of
from inspections.records.black_spot import found_in
from inspections.records.models import Addendum, Delivery, LimitSet, LoggerFile, Photo, SpecificationVersion
from inspections.trade.facts import facts_from_document


@dataclass(frozen=True)
class Mismatch:
    """Something that is not as it was sealed; ``number`` is 0 where no seal exists."""

    site: str
    number: int
    what: str

    def __str__(self) -> str:
        return f"{self.site} seal {self.number}: {self.what}" if self.number else f"{self.site}: {self.what}"


def verify_chain(site: Site) -> list[Mismatch]:
    """Check every seal of a site and what it sealed.

    Returns
    -------
    list of Mismatch
        Empty when all stands. Never stops at the first.
    """
    found, before, expected = [], NO_SEAL_BEFORE, 1
    for seal in Seal.objects.filter(site=site).select_related("public_key").order_by("number").iterator(200):
        told = [*_chain(seal, before, expected), *_own(seal), *_sealed(seal)]
        found += [Mismatch(site.code, seal.number, what) for what in told]
        before, expected = seal.sha256, seal.number + 1
    return [*found, *(Mismatch(site.code, 0, what) for what in _unsealed(site))]


def _chain(seal: Seal, before: str, expected: int) -> Iterator[str]:
    if seal.number != expected:
        yield f"seal {expected} is missing before it" if seal.number > expected else "its number stands twice"
    elif seal.previous_sha256 != before:
        yield "it does not follow on the seal before it"


def _own(seal: Seal) -> Iterator[str]:
    statement = seal.statement()
    if statement.sha256 != seal.sha256:
        yield "its statement was altered"
    if not signature_holds(signed=statement.to_bytes(), signature=seal.signature, pem=seal.public_key.pem):
        yield "its signature does not hold"
    if _key_id(seal.public_key.pem) != seal.public_key_id:
        yield "its public key was altered"
    if sha256_hex(bytes(seal.content)) != seal.content_sha256:
        yield "its sealed record was altered"


def _sealed(seal: Seal) -> Iterator[str]:
    try:
        content = json.loads(bytes(seal.content))
    except ValueError:
        yield "its sealed record cannot be read"
        return
    yield from CHECKS[seal.kind](seal, content)


def _delivery(seal: Seal, content: dict) -> Iterator[str]:
    row = Delivery.objects.select_related("site").filter(pk=seal.subject_id).first()
    if row is None:
        yield "the delivery that it seals is gone"
        return
    docket = f"delivery {row.docket_number}"
    for name in ("document", "judgement", "difference"):
        if canonical_bytes(getattr(row, name)) != canonical_bytes(content[name]):
            yield f"{docket}: its {name} is not the one that was sealed"
    # Records sealed before anything was noticed at signing say nothing about it.
    if row.noticed != content.get("noticed", []):
        yield f"{docket}: what was noticed at signing is not what was sealed"
    if utc_text(row.signed_at) != content["signed_at"] or str(row.site_id) != content["site"]["id"]:
        yield f"{docket}: its time of signing or its site is not the one that was sealed"
    if row.receiver_signed_at != receiver_signed_at(content["document"]):
        yield f"{docket}: when the receiver signed is not as it was sealed"
    if str(row.supplier_id) != content["supplier"]["id"]:
        yield f"{docket}: its supplier is not the one that was sealed"
    yield from (f"{docket}: {what}" for what in [*_rows(row, content), *_references(content), *_photos(content)])


def _rows(row: Delivery, content: dict) -> Iterator[str]:
    """The rows that desk and comparison read are made from the document; they must still agree with it."""
    document, judgement = content["document"], content["judgement"]
    lines = {str(line.pk): line for line in row.lines.all()}
    for number, (entry, judged) in enumerate(zip(document["lines"], judgement["lines"], strict=True), start=1):
        line = lines.pop(entry["id"], None)
        if line is None or _told_by(line) != _signed_in(entry, judged):
            yield f"the row of line {number} tells otherwise"
        elif {str(one.pk): (one.data, one.is_defective, one.black_spot) for one in line.cartons.all()} != _cartons(
            entry, judged
        ):
            yield f"the cartons of line {number} tell otherwise"
    if lines:
        yield "it has a line that was not signed"
    if sorted(map(_reading, row.readings.all())) != _readings(content, row):
        yield "its readings tell otherwise"
    yield from _findings(row, judgement)


def _told_by(line) -> tuple:
    return (line.cartons_counted, line.accepted, line.refused, line.held, line.decided, line.suggested)


def _signed_in(entry: dict, judged: dict) -> tuple:
    decision = entry["decision"]
    parts = (decision.get(name) or 0 for name in ("accepted", "refused", "held"))
    return (entry["cartons_counted"], *parts, decision["kind"], judged["suggestion"])


def _cartons(entry: dict, judged: dict) -> dict:
    found = {one["carton_id"]: one for one in judged["cartons"]}
    return {one["id"]: (one, found[one["id"]]["defective"], found_in(one, found[one["id"]]["checks"]))
            for one in entry.get("cartons") or []}


def _reading(one) -> tuple:
    return (str(one.carton_id or ""), one.kind, one.entered, one.entered_unit, one.value, one.unit, one.method)


def _readings(content: dict, row: Delivery) -> list[tuple]:
    """What the sealed document gives, by the same act that wrote the rows."""
    as_sealed = Delivery(pk=row.pk, site=row.site, document=content["document"])
    return sorted(map(_reading, readings_of(as_sealed, facts_from_document(as_sealed.document))))


def _findings(row: Delivery, judgement: dict) -> Iterator[str]:
    judged = [reason["code"] for reason in judgement["vehicle"]["reasons"]]
    for line in judgement["lines"]:
        judged += [reason["code"] for reason in line["reasons"] if reason.get("carton") is None]
        judged += [reason["code"] for carton in line["cartons"] for reason in carton["reasons"]]
    if sorted(judged) != sorted(row.findings.values_list("kind", flat=True)):
        yield "its findings tell otherwise"


def _references(content: dict) -> Iterator[str]:
    """Specification and limits that it was judged by; names may change later, what was agreed may not."""
    for spec in content["specifications"]:
        row = SpecificationVersion.objects.filter(pk=spec["id"]).first()
        if row is None or any(spec.get(key) != value for key, value in row.data.items()):
            yield f"specification {spec['code']} version {spec['version']} is not the one that it was judged by"
    limits = LimitSet.objects.filter(pk=content["limits"]["id"]).first()
    if limits is None or any(content["limits"].get(key) != value for key, value in limits.data.items()):
        yield "the limits are not the ones that it was judged by"


def _photos(content: dict) -> Iterator[str]:
    for entry in content["photos"]:
        short = entry["sha256"][:12]
        row = Photo.objects.filter(pk=entry["sha256"]).first()
        if row is None or _hash_of(row.stored_name) != entry["sha256"]:
            yield f"photo {short} is gone or was altered"
        copy = SharedCopy.objects.filter(pk=entry["sha256"]).first()
        if copy is None or (copy.stored_name and _hash_of(copy.stored_name)) != (entry["shared_sha256"] or ""):
            yield f"the copy of photo {short} that may be shown is gone or was altered"


def _addendum(seal: Seal, content: dict) -> Iterator[str]:
    row = Addendum.objects.filter(pk=seal.subject_id).first()
    if row is None:
        yield "the addendum that it seals is gone"
        return
    as_sealed = content["addendum"]
    if row.document != as_sealed or row.body != as_sealed["body"] or row.kind != as_sealed["kind"]:
        yield f"the {row.get_kind_display().lower()} is not the one that was sealed"
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=row.delivery_id).first()
    if main is None or main.sha256 != content["delivery_seal_sha256"]:
        yield "the seal of its delivery is not the one that it was added to"


def _logger(seal: Seal, content: dict) -> Iterator[str]:
    row = LoggerFile.objects.select_related("delivery__site", "person").filter(pk=seal.subject_id).first()
    if row is None:
        yield "the logger file that it seals is gone"
        return
    as_sealed = content["logger_file"]
    is_same = all(getattr(row, name) == as_sealed[name] for name in ("sha256", "bytes", "answers", "method_version"))
    if not is_same or str(row.delivery_id) != content["delivery_id"]:
        yield "the logger file is not the one that was sealed"
    if canonical_bytes(row.reading) != canonical_bytes(content["reading"]):
        yield "what the logger file was read to say is not what was sealed"
    if _hash_of(row.stored_name) != as_sealed["sha256"]:
        yield f"logger file {as_sealed['sha256'][:12]} is gone or was altered"
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=row.delivery_id).first()
    if main is None or main.sha256 != content["delivery_seal_sha256"]:
        yield "the seal of its delivery is not the one that it was added to"


#: What is checked of each kind of seal against the rows and files of today.
CHECKS = {SealKind.DELIVERY: _delivery, SealKind.ADDENDUM: _addendum, SealKind.LOGGER: _logger}


def _unsealed(site: Site) -> Iterator[str]:
    sealed = set(Seal.objects.filter(site=site).values_list("kind", "subject_id"))
    for pk, docket in Delivery.objects.filter(site=site).values_list("pk", "docket_number"):
        if (SealKind.DELIVERY, pk) not in sealed:
            yield f"delivery {docket} has no seal"
    for pk, docket in Addendum.objects.filter(delivery__site=site).values_list("pk", "delivery__docket_number"):
        if (SealKind.ADDENDUM, pk) not in sealed:
            yield f"an addendum to delivery {docket} has no seal"
    for pk, docket in LoggerFile.objects.filter(delivery__site=site).values_list("pk", "delivery__docket_number"):
        if (SealKind.LOGGER, pk) not in sealed:
            yield f"a logger file of delivery {docket} has no seal"


def _hash_of(name: str) -> str | None:
    try:
        return sha256_hex(storage.read(name))
    except OSError:
        return None


def _key_id(pem: str) -> str | None:
    try:
        return key_id(pem)
    except (ValueError, UnicodeError):
        return None
