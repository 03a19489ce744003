"""What a seal says, and whether it holds: pure functions, shared by sealing and by every check.

A seal is a short statement in canonical JSON. It names the hash of the sealed record and the hash of the
statement before it at that site, so leaving out or altering any earlier one breaks all later ones. The
statement's own SHA-256 is the seal's hash; its bytes are signed with Ed25519. So three standard tools are
enough to check one by hand: a SHA-256 program, a text viewer and OpenSSL.
"""
import base64
import binascii
from dataclasses import dataclass
from datetime import UTC, datetime

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import load_pem_public_key

from inspections.evidence.canonical import canonical_bytes, sha256_hex

VERSION = 1
#: Stands in the first seal of a site, which has none before it.
NO_SEAL_BEFORE = "0" * 64


@dataclass(frozen=True)
class Statement:
    """What is signed. Hashes are 64 hexadecimal digits; ``number`` counts from 1 at each site."""

    site_id: str
    number: int
    kind: str
    subject_id: str
    content_sha256: str
    previous_sha256: str
    public_key_id: str
    sealed_at: datetime

    def to_bytes(self) -> bytes:
        """The statement as it is hashed and signed (RFC 8785)."""
        return canonical_bytes({
            "seal": VERSION,
            "site_id": self.site_id,
            "number": self.number,
            "kind": self.kind,
            "subject_id": self.subject_id,
            "content_sha256": self.content_sha256,
            "previous_sha256": self.previous_sha256,
            "public_key_id": self.public_key_id,
            "sealed_at": utc_text(self.sealed_at),
        })

    @property
    def sha256(self) -> str:
        """The seal's hash."""
        return sha256_hex(self.to_bytes())


def utc_text(moment: datetime) -> str:
    """A moment to the microsecond in UTC, always spelled the same: ``2026-11-25T06:10:00.000000Z``."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def signature_holds(*, signed: bytes, signature: str, pem: str) -> bool:
    """Whether the Ed25519 signature (base64) over those bytes is by the holder of that key; never raises."""
    try:
        key = load_pem_public_key(pem.encode("ascii"))
        raw = base64.b64decode(signature, validate=True)
    except (ValueError, UnicodeError, binascii.Error):
        return False
    if not isinstance(key, Ed25519PublicKey):
        return False
    try:
        key.verify(raw, signed)
    except InvalidSignature:
        return False
    return True
