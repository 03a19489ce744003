"""Does everything that was sealed still stand as it was? Recomputed from rows and files, seal by seal.

Found are: an altered seal, a number left out, a record that no longer is what was sealed, rows made from
it that tell otherwise, a photo whose file is gone or altered, and a delivery or addendum without a seal.
Not found, here: the newest seals of a site cut off together with their deliveries. Compare the last number
with one that a phone or a supplier holds.
"""
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import load_pem_public_key

from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.keys import key_id, pem_of
from inspections.evidence.models import Seal, SealingKey, SealKind, TimeStamp
from inspections.evidence.row_checks import (
    delivery_row,
    differing,
    later_uses,
    photo_files,
    photo_uses,
    put_aways,
    rows_below,
)
from inspections.evidence.stamps import stamp_trouble
from inspections.evidence.statement import NO_SEAL_BEFORE, signature_holds, utc_text
from inspections.people.models import Site
from inspections.records import storage
from inspections.records.models import Addendum, ClaimEntry, Delivery, LimitSet, LoggerFile, SpecificationVersion
from inspections.records.services.logger_file import answers_key
from inspections.records.services.signable import moment


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
    given_up: dict[str, int] = {}
    # Not joined: a seal whose key's row is gone must not be passed over.
    keys = SealingKey.objects.in_bulk()
    stamps = {row.seal_id: row for row in TimeStamp.objects.filter(seal__site=site)}
    for seal in Seal.objects.filter(site=site).order_by("number").iterator(200):
        told = [*_chain(seal, before, expected), *_own(seal, keys.get(seal.public_key_id)), *_sealed(seal)]
        if seal.pk in stamps and (trouble := stamp_trouble(stamps[seal.pk], seal.statement().to_bytes())):
            told.append(trouble)
        if seal.public_key_id in given_up:
            told.append(f"its key had been given up at seal {given_up[seal.public_key_id]}")
        if seal.kind == SealKind.KEY:
            given_up[seal.public_key_id] = seal.number
        found += [Mismatch(site.code, seal.number, what) for what in told]
        before, expected = seal.sha256, seal.number + 1
    return [*found, *(Mismatch(site.code, 0, what) for what in _unsealed(site))]


def _chain(seal: Seal, before: str, expected: int) -> Iterator[str]:
    if seal.number != expected:
        yield f"seal {expected} is missing before it" if seal.number > expected else "its number stands twice"
    elif seal.previous_sha256 != before:
        yield "it does not follow on the seal before it"


def _own(seal: Seal, key: SealingKey | None) -> Iterator[str]:
    statement = seal.statement()
    if statement.sha256 != seal.sha256:
        yield "its statement was altered"
    if key is None:
        yield "its public key is gone"
    elif not signature_holds(signed=statement.to_bytes(), signature=seal.signature, pem=key.pem):
        yield "its signature does not hold"
    if key is not None and _key_id(key.pem) != seal.public_key_id:
        yield "its public key was altered"
    if sha256_hex(bytes(seal.content)) != seal.content_sha256:
        yield "its sealed record was altered"


def _sealed(seal: Seal) -> Iterator[str]:
    try:
        content = json.loads(bytes(seal.content))
    except ValueError:
        yield "its sealed record cannot be read"
        return
    check = CHECKS.get(seal.kind)
    if check is None:
        yield "its kind is not known"
        return
    try:
        yield from check(seal, content)
    except Exception as trouble:  # what was altered may have any shape, and the rest is to be checked all the same
        yield f"its sealed record and its rows cannot be compared ({type(trouble).__name__}: {trouble})"


def _delivery(seal: Seal, content: dict[str, Any]) -> Iterator[str]:
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
    if str(row.supplier_id) != content["supplier"]["id"]:
        yield f"{docket}: its supplier is not the one that was sealed"
    told = [*delivery_row(row, content), *rows_below(row, content), *photo_uses(row, content), *_references(content)]
    for entry in content["photos"]:
        told += photo_files(entry)
    yield from (f"{docket}: {what}" for what in told)


def _references(content: dict[str, Any]) -> Iterator[str]:
    """Specification and limits that it was judged by; names may change later, what was agreed may not."""
    for spec in content["specifications"]:
        row = SpecificationVersion.objects.select_related("specification").filter(pk=spec["id"]).first()
        # Code and name are the specification's own, and may change.
        if row is None or {**spec, "code": "", "name": ""} != {**row.to_json(), "code": "", "name": ""}:
            yield f"specification {spec['code']} version {spec['version']} is not the one that it was judged by"
    limits = LimitSet.objects.filter(pk=content["limits"]["id"]).first()
    if limits is None or limits.to_json() != content["limits"]:
        yield "the limits are not the ones that it was judged by"


def _addendum(seal: Seal, content: dict[str, Any]) -> Iterator[str]:
    row = Addendum.objects.filter(pk=seal.subject_id).first()
    if row is None:
        yield "the addendum that it seals is gone"
        return
    as_sealed = content["addendum"]
    if row.document != as_sealed or row.body != as_sealed["body"] or row.kind != as_sealed["kind"]:
        yield f"the {row.get_kind_display().lower()} is not the one that was sealed"
        return
    if named := differing(row, {
        "delivery_id": content["delivery_id"], "at": moment(as_sealed["at"]), "device_id": as_sealed["device_id"],
        **({"person_id": content["sent_by"]} if "sent_by" in content else {}),
    }):
        yield f"the row of the {row.get_kind_display().lower()} tells otherwise ({', '.join(named)})"
    yield from put_aways(row, content)
    yield from later_uses(row)
    for entry in content.get("photos", ()):
        yield from photo_files(entry)
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=row.delivery_id).first()
    if main is None or main.sha256 != content["delivery_seal_sha256"]:
        yield "the seal of its delivery is not the one that it was added to"


def _logger(seal: Seal, content: dict[str, Any]) -> Iterator[str]:
    row = LoggerFile.objects.select_related("delivery__site", "person").filter(pk=seal.subject_id).first()
    if row is None:
        yield "the logger file that it seals is gone"
        return
    as_sealed = content["logger_file"]
    if named := differing(row, {
        "delivery_id": content["delivery_id"], "zone_assumed": as_sealed["answers"].get("zone", ""),
        "answers_key": answers_key(as_sealed["answers"]), "stored_name": storage.logger_file_name(as_sealed["sha256"]),
        **({"person_id": content["sent_by"]} if "sent_by" in content else {}),
        **{name: as_sealed[name] for name in ("sha256", "bytes", "file_name", "answers", "method_version")},
    }) or ["at"] * (utc_text(row.at) != as_sealed["at"]):
        yield f"the logger file is not the one that was sealed ({', '.join(named)})"
    if canonical_bytes(row.reading) != canonical_bytes(content["reading"]):
        yield "what the logger file was read to say is not what was sealed"
    if _hash_of(row.stored_name) != as_sealed["sha256"]:
        yield f"logger file {as_sealed['sha256'][:12]} is gone or was altered"
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=row.delivery_id).first()
    if main is None or main.sha256 != content["delivery_seal_sha256"]:
        yield "the seal of its delivery is not the one that it was added to"


def _claim(seal: Seal, content: dict[str, Any]) -> Iterator[str]:
    row = ClaimEntry.objects.filter(pk=seal.subject_id).first()
    if row is None:
        yield "the entry of a claim that it seals is gone"
        return
    as_sealed = content["entry"]
    if canonical_bytes(row.document) != canonical_bytes(as_sealed):
        yield "the entry of a claim is not the one that was sealed"
        return
    if named := differing(row, {
        "delivery_id": content["delivery_id"], "at": moment(as_sealed["at"]), "person_id": content["sent_by"],
        **{name: as_sealed[name] for name in ("claim_id", "number", "kind", "side")},
    }):
        yield f"the row of an entry of a claim tells otherwise ({', '.join(named)})"
    for file in as_sealed["files"]:
        if _hash_of(storage.claim_file_name(file["sha256"])) != file["sha256"]:
            yield f"file {file['sha256'][:12]} of a claim is gone or was altered"
    main = Seal.objects.filter(kind=SealKind.DELIVERY, subject_id=row.delivery_id).first()
    if main is None or main.sha256 != content["delivery_seal_sha256"]:
        yield "the seal of its delivery is not the one that it was added to"


def _key(seal: Seal, content: dict[str, Any]) -> Iterator[str]:
    if content["old_key_id"] != seal.public_key_id:
        yield "the key that it gives up is not the one that it is sealed with"
    row = SealingKey.objects.filter(pk=content["new_key_id"]).first()
    if row is None or row.pem != content["new_key"] or _key_id(content["new_key"]) != content["new_key_id"]:
        yield "the key that it hands over to is gone or was altered"


#: What is checked of each kind of seal against the rows and files of today.
CHECKS: dict[str, Callable[[Seal, dict[str, Any]], Iterator[str]]] = {
    SealKind.DELIVERY: _delivery, SealKind.ADDENDUM: _addendum, SealKind.LOGGER: _logger, SealKind.CLAIM: _claim,
    SealKind.KEY: _key,
}


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
    for pk, docket in ClaimEntry.objects.filter(delivery__site=site).values_list("pk", "delivery__docket_number"):
        if (SealKind.CLAIM, pk) not in sealed:
            yield f"an entry of a claim on delivery {docket} has no seal"


def _hash_of(name: str) -> str | None:
    try:
        return sha256_hex(storage.read(name))
    except OSError:
        return None


def _key_id(pem: str) -> str | None:
    try:
        # Spelled another way it would be the same key, and not the row that was written.
        key = load_pem_public_key(pem.encode("ascii"))
        return key_id(pem) if isinstance(key, Ed25519PublicKey) and pem_of(key) == pem else None
    except (ValueError, UnicodeError):
        return None
