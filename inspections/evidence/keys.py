"""The key that this installation seals with (Ed25519, RFC 8032), and its public half for everybody.

The private key lies in ``KEY_ROOT/seal-ed25519.pem`` (PKCS #8, readable by its owner only), made on first
use. Whoever holds it can seal in this installation's name: back it up apart from the database, give it to
nobody. ``rotation`` puts another in its place. If it is lost a new one is made; older seals stay checkable, since
each keeps its public key.
"""
import contextlib
import hashlib
import os
import secrets
from collections.abc import Iterator
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
    load_pem_public_key,
)
from django.conf import settings

KEY_FILE = "seal-ed25519.pem"


def private_key() -> Ed25519PrivateKey:
    """The sealing key; made on the first call, the same ever after."""
    path = Path(settings.KEY_ROOT) / KEY_FILE
    if not path.exists():
        _make(path)
    return _read(path)


@contextlib.contextmanager
def next_key() -> Iterator[Ed25519PrivateKey]:
    """A new key that takes the place of the old one when the block ends well; else the old one stays.

    The old private key is gone then: nothing needs it, and whoever has it could go on sealing.
    """
    path = Path(settings.KEY_ROOT) / KEY_FILE
    coming = _written(path)
    try:
        yield _read(coming)
        coming.replace(path)
    finally:
        coming.unlink(missing_ok=True)
    _flush(path.parent)


def public_pem() -> str:
    """The public key as PEM (SubjectPublicKeyInfo, RFC 8410)."""
    return pem_of(private_key().public_key())


def pem_of(key: Ed25519PublicKey) -> str:
    """A public key as PEM text."""
    return key.public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo).decode("ascii")


def key_id(pem: str) -> str:
    """SHA-256 of the public key in DER, 64 hexadecimal digits.

    By hand: ``openssl pkey -pubin -in public-key.pem -outform DER | openssl dgst -sha256``.

    Raises
    ------
    ValueError
        Not a PEM public key.
    """
    der = load_pem_public_key(pem.encode("ascii")).public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return hashlib.sha256(der).hexdigest()


def _read(path: Path) -> Ed25519PrivateKey:
    key = load_pem_private_key(path.read_bytes(), password=None)
    if not isinstance(key, Ed25519PrivateKey):
        raise TypeError(f"{path} holds another kind of key.")
    return key


def _make(path: Path) -> None:
    """Write a new key whole and under its name in one step: of two starters one wins, both read the same."""
    coming = _written(path)
    try:
        # A link fails where the name is taken; a rename would put a second key over the first.
        os.link(coming, path)
    except FileExistsError:
        return
    finally:
        coming.unlink()
    _flush(path.parent)


def _written(path: Path) -> Path:
    """A new key, flushed, in a file of its own beside ``path``."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    new = Ed25519PrivateKey.generate().private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    coming = path.with_name(f".{path.name}-{secrets.token_hex(8)}")
    with os.fdopen(os.open(coming, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(new)
        file.flush()
        os.fsync(file.fileno())
    return coming


def _flush(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
