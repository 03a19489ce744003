"""A site's latest seal, time-stamped by an authority outside (RFC 3161), where the installation has one.

What is stamped is the seal's statement, so the stamp holds for that seal and, through the chain, for every earlier
one of the site: none of them is younger than the stamp. Without an authority nothing is asked and nothing is said.
The whole answer is kept as it came; ``openssl ts -verify`` reads it.

Does not help: for seals after the last stamp, and against a wrong clock before it (a record may be sealed earlier
than its seal says, never later than its stamp).
"""
from http.client import HTTPException
from pathlib import Path
from urllib.request import Request, urlopen

from cryptography.x509 import load_pem_x509_certificates
from django.conf import settings
from rfc3161_client import (
    HashAlgorithm,
    TimestampRequestBuilder,
    VerificationError,
    VerifierBuilder,
    decode_timestamp_response,
)

from inspections.evidence.models import Seal, TimeStamp

WAIT_S, MOST_BYTES = 15, 1 << 16


class CannotStamp(Exception):
    """The authority gave no stamp that holds; the message is a sentence. Nothing was kept."""


def stamp(seal: Seal) -> TimeStamp:
    """Have a seal stamped and keep the stamp; the one already there when it was stamped before.

    Raises
    ------
    CannotStamp
        The authority is not set, cannot be reached, or its answer does not hold for this seal.
    """
    known: TimeStamp | None = TimeStamp.objects.filter(seal=seal).first()
    if known is not None:
        return known
    if not settings.TSA:
        raise CannotStamp("No authority for time stamps is set (UNDERLID_TSA). Nothing was stamped.")
    stated = seal.statement().to_bytes()
    asked = TimestampRequestBuilder().data(stated).hash_algorithm(HashAlgorithm.SHA256).build()
    try:
        answer = _answer_to(asked.as_bytes())
    except (OSError, HTTPException) as trouble:
        raise CannotStamp(f"The authority for time stamps could not be reached ({trouble}). The seals are as they "
                          "were. Try again later.") from trouble
    try:
        told = decode_timestamp_response(answer)
        _verifier(VerifierBuilder.from_request(asked)).build().verify_message(told, stated)
    except (ValueError, VerificationError) as trouble:
        raise CannotStamp(f"The authority's answer is not a stamp of this seal that holds ({trouble}). Nothing was "
                          "kept. Compare UNDERLID_TSA_ROOTS with the authority's own certificate.") from trouble
    return TimeStamp.objects.create(seal=seal, authority=settings.TSA, at=told.tst_info.gen_time, token=answer)


def stamp_trouble(row: TimeStamp, stated: bytes) -> str | None:
    """Why a kept stamp does not hold for a seal's statement; None where it does."""
    if not settings.TSA_ROOTS:
        return "its time stamp cannot be checked, since UNDERLID_TSA_ROOTS names no certificates"
    try:
        told = decode_timestamp_response(bytes(row.token))
        _verifier(VerifierBuilder()).build().verify_message(told, stated)
    except (ValueError, VerificationError) as trouble:
        return f"its time stamp does not hold ({trouble})"
    return None if told.tst_info.gen_time == row.at else "its time stamp tells another time than its row"


def stamp_after(seal: Seal) -> TimeStamp | None:
    """The earliest stamp that speaks for a seal: its own, or that of a later one of its site."""
    found: TimeStamp | None = TimeStamp.objects.filter(
        seal__site=seal.site_id, seal__number__gte=seal.number
    ).select_related("seal").order_by("seal__number").first()
    return found


def _answer_to(query: bytes) -> bytes:
    request = Request(settings.TSA, query, {"Content-Type": "application/timestamp-query"})  # noqa: S310 - see settings
    with urlopen(request, timeout=WAIT_S) as answer:  # noqa: S310
        told: bytes = answer.read(MOST_BYTES)
    return told


def _verifier(builder: VerifierBuilder) -> VerifierBuilder:
    for root in load_pem_x509_certificates(Path(settings.TSA_ROOTS).read_bytes()):
        builder = builder.add_root_certificate(root)
    return builder
