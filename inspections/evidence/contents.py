"""What is sealed: the record with everything needed to read it, so that it still speaks for itself in ten years.

The sealed content of a delivery holds names of site and supplier, what was ordered, the limits judged by,
the document as signed, the server's judgement, where the phone had judged otherwise, what was noticed at
signing, the draw of cartons repeated from its seed, and the hashes of every photo: as taken, and of the copy
that may be shown outside. It holds no address, telephone number, price, place or other supplier.
"""
from collections.abc import Mapping
from typing import Any

from django.conf import settings

from inspections.evidence.draws import draw_repeated
from inspections.evidence.sharing import shared_copy
from inspections.evidence.statement import utc_text
from inspections.people.models import Site
from inspections.records.models import Addendum, ClaimEntry, Delivery, LoggerFile, Photo, SpecificationVersion

SCHEMA = 1


def delivery_content(
    delivery: Delivery, versions: Mapping[str, SpecificationVersion] | None = None
) -> dict[str, Any]:
    """The content to seal for a signed delivery, or for one whose row is yet to be written.

    Parameters
    ----------
    delivery : Delivery
    versions : mapping, optional
        The specifications' versions that its lines name, by id, where they were read already.

    Raises
    ------
    Photo.DoesNotExist
        A photo named in the document is not stored; signing checks that before.
    """
    return {
        "schema": SCHEMA,
        "kind": "delivery",
        "installation": settings.INSTALLATION_NAME,
        "site": site_words(delivery.site),
        "supplier": {"id": str(delivery.supplier_id), "name": delivery.supplier.name, "code": delivery.supplier.code},
        "order_number": delivery.order.number if delivery.order else None,
        "signed_at": utc_text(delivery.signed_at),
        "sent_by": delivery.receiver_id,
        "document": delivery.document,
        "specifications": specifications_of(delivery.document, versions),
        "limits": delivery.limit_set.to_json(),
        "judgement": delivery.judgement,
        "difference": delivery.difference,
        "noticed": delivery.noticed,
        "draws": [draw_repeated(line) for line in delivery.document["lines"]],
        "photos": photos_of(delivery.document["photos"]),
    }


def addendum_content(addendum: Addendum, *, delivery_seal_sha256: str) -> dict[str, Any]:
    """The content to seal for an addendum; it names the seal of the delivery that it adds to."""
    return {
        "schema": SCHEMA,
        "kind": "addendum",
        "installation": settings.INSTALLATION_NAME,
        "site": site_words(addendum.delivery.site),
        "delivery_id": str(addendum.delivery_id),
        "delivery_seal_sha256": delivery_seal_sha256,
        "sent_by": addendum.person_id,
        "addendum": addendum.document,
        "freezers": {str(put.freezer_id): put.freezer.name for put in
                     addendum.put_aways.select_related("freezer") if put.freezer is not None},
        **({"photos": photos_of(addendum.body["photos"])} if addendum.kind == "thawed" else {}),
    }


def logger_content(row: LoggerFile, *, delivery_seal_sha256: str) -> dict[str, Any]:
    """The content to seal for a logger file: the hash of its bytes, who added it when, and what it was read to say."""
    return {
        "schema": SCHEMA,
        "kind": "logger",
        "installation": settings.INSTALLATION_NAME,
        "site": site_words(row.delivery.site),
        "delivery_id": str(row.delivery_id),
        "delivery_seal_sha256": delivery_seal_sha256,
        "sent_by": row.person_id,
        "logger_file": {
            "id": str(row.pk), "file_name": row.file_name, "sha256": row.sha256, "bytes": row.bytes,
            "at": utc_text(row.at), "person": row.person.name, "answers": row.answers,
            "method_version": row.method_version,
        },
        "reading": row.reading,
    }


def claim_content(row: ClaimEntry, *, delivery_seal_sha256: str) -> dict[str, Any]:
    """The content to seal for an entry of a claim: what was said, by which side, with the hashes of its files."""
    return {
        "schema": SCHEMA,
        "kind": "claim",
        "installation": settings.INSTALLATION_NAME,
        "site": site_words(row.delivery.site),
        "delivery_id": str(row.delivery_id),
        "delivery_seal_sha256": delivery_seal_sha256,
        "sent_by": row.person_id,
        "entry": row.document,
    }


def site_words(site: Site) -> dict[str, Any]:
    """A site as named in records."""
    return {"id": str(site.pk), "name": site.name, "code": site.code, "timezone": site.timezone}


def specifications_of(
    document: dict[str, Any], versions: Mapping[str, SpecificationVersion] | None = None
) -> list[dict[str, Any]]:
    """The specification versions that the document's lines name, once each, in that order."""
    ids = list(dict.fromkeys(line["specification_id"] for line in document["lines"]))
    if versions is None:
        rows = SpecificationVersion.objects.select_related("specification").in_bulk(ids)
        versions = {str(key): row for key, row in rows.items()}
    return [versions[key].to_json() for key in ids if key in versions]


def photos_of(entries: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Hashes of a document's photos, once each: as taken, and of the copy that may be shown outside."""
    told = []
    photos = Photo.objects.select_related("shared_copy").in_bulk({entry["sha256"] for entry in entries})
    for sha256 in dict.fromkeys(entry["sha256"] for entry in entries):
        if sha256 not in photos:
            raise Photo.DoesNotExist(f"photo {sha256} is not stored")
        photo = photos[sha256]
        # made when the photo arrived; of older ones it is made here
        copy = getattr(photo, "shared_copy", None) or shared_copy(photo)
        told.append({"sha256": photo.sha256, "bytes": photo.bytes, "type": photo.content_type,
                     "shared_sha256": copy.sha256 or None, "shared_type": copy.content_type or None,
                     "shared_how": copy.how, **({"unreadable": photo.unreadable} if photo.unreadable else {})})
    return told
