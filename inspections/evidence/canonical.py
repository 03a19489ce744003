"""One spelling for a record, so that its hash means something: canonical JSON by RFC 8785."""
import hashlib
from json.encoder import encode_basestring as quoted
from typing import Any

import rfc8785

from inspections.errors import Unprocessable

#: Whole numbers that every language keeps, and floats that are printed without an exponent, either way.
EXACT, PLAIN, ROUND = 2**53 - 1, 1e-4, 1e16


def canonical_bytes(record: Any) -> bytes:
    """The record as every computer would spell it.

    Parameters
    ----------
    record : dict, list, str, int, float, bool or None
        JSON as Python reads it. Whole numbers up to 2**53 - 1 either way, finite floats, no lone surrogates.

    Returns
    -------
    bytes
        UTF-8: keys sorted by UTF-16 code units, no blanks, numbers as ECMAScript prints them.

    Raises
    ------
    Unprocessable
        RECORD-NOT-EXACT: a number beyond exact range, NaN, infinity, a lone surrogate or a NUL
        (RFC 7493 forbids the first four; PostgreSQL cannot keep the last).

    References
    ----------
    RFC 8785, JSON Canonicalization Scheme.

    Examples
    --------
    >>> canonical_bytes({"b": 2.50, "a": [1e21, -0.0]})
    b'{"a":[1e+21,0],"b":2.5}'
    """
    try:
        spelled = _spelled(record).encode("utf-8")
    except (rfc8785.CanonicalizationError, UnicodeError, RecursionError) as trouble:
        raise Unprocessable("RECORD-NOT-EXACT", what=_what(trouble)) from trouble
    if b"\\u0000" in spelled and _holds_nul(record):
        raise Unprocessable("RECORD-NOT-EXACT", what="the character NUL")
    return spelled


def _spelled(part: Any) -> str:
    """As ``rfc8785.dumps`` has it, in a third of its time; what is rare is left to it, and every refusal."""
    kind = type(part)
    if kind is str:
        return quoted(part)
    if kind is dict:
        keys = sorted(part) if all(map(str.isascii, part)) else sorted(part, key=_utf16)
        return "{" + ",".join([f"{quoted(key)}:{_spelled(part[key])}" for key in keys]) + "}"
    if kind is list:
        return "[" + ",".join([_spelled(value) for value in part]) + "]"
    if part is None:
        return "null"
    if kind is bool:
        return "true" if part else "false"
    if kind is int and -EXACT <= part <= EXACT:
        return str(part)
    if kind is float and PLAIN <= abs(part) < ROUND:
        # Python and ECMAScript print the same shortest digits; they differ in exponents and in a last ".0".
        return repr(part).removesuffix(".0")
    return rfc8785.dumps(part).decode("utf-8")


def _utf16(key: str) -> bytes:
    return key.encode("utf-16-be")


def sha256_hex(content: bytes) -> str:
    """SHA-256 (FIPS 180-4) as 64 small hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def _what(trouble: Exception) -> str:
    match trouble:
        case rfc8785.IntegerDomainError():
            return "a whole number of more than fifteen digits"
        case rfc8785.FloatDomainError():
            return "a number without an end"
        case RecursionError():
            return "lists within lists without an end"
    return "a broken character"


def _holds_nul(part: Any) -> bool:
    match part:
        case str():
            return "\x00" in part
        case dict():
            return any(_holds_nul(key) or _holds_nul(value) for key, value in part.items())
        case list() | tuple():
            return any(_holds_nul(value) for value in part)
    return False
