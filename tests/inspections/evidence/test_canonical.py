"""Canonical JSON by RFC 8785 and signatures by RFC 8032, each against its published vectors.

The number table and the sorting example are those of RFC 8785 (appendix B, sections 3.2.2 to 3.2.4),
compared with four independent implementations' copies of them; the signature vectors are those of RFC 8032
section 7.1, compared the same way. The RFC texts themselves could not be opened when this was written.
"""
import base64
import json
import struct

import pytest
import rfc8785
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given
from hypothesis import strategies as st

from inspections.errors import Unprocessable
from inspections.evidence import keys
from inspections.evidence.canonical import canonical_bytes, sha256_hex
from inspections.evidence.statement import signature_holds

NUMBERS = [
    ("0000000000000000", "0"), ("8000000000000000", "0"), ("0000000000000001", "5e-324"),
    ("8000000000000001", "-5e-324"), ("7fefffffffffffff", "1.7976931348623157e+308"),
    ("ffefffffffffffff", "-1.7976931348623157e+308"), ("4340000000000000", "9007199254740992"),
    ("c340000000000000", "-9007199254740992"), ("4430000000000000", "295147905179352830000"),
    ("44b52d02c7e14af5", "9.999999999999997e+22"), ("44b52d02c7e14af6", "1e+23"),
    ("44b52d02c7e14af7", "1.0000000000000001e+23"), ("444b1ae4d6e2ef4e", "999999999999999700000"),
    ("444b1ae4d6e2ef4f", "999999999999999900000"), ("444b1ae4d6e2ef50", "1e+21"),
    ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"), ("3eb0c6f7a0b5ed8d", "0.000001"),
    ("41b3de4355555553", "333333333.3333332"), ("41b3de4355555554", "333333333.33333325"),
    ("41b3de4355555555", "333333333.3333333"), ("41b3de4355555556", "333333333.3333334"),
    ("41b3de4355555557", "333333333.33333343"), ("becbf647612f3696", "-0.0000033333333333333333"),
    ("43143ff3c1cb0959", "1424953923781206.2"),
]


@pytest.mark.parametrize(("bits", "text"), NUMBERS)
def test_numbers_are_spelled_as_in_rfc_8785_appendix_b(bits, text):
    (value,) = struct.unpack(">d", bytes.fromhex(bits))
    assert canonical_bytes(value) == text.encode()


@pytest.mark.parametrize("bits", ["7fffffffffffffff", "7ff0000000000000", "fff0000000000000"])
def test_nan_and_infinity_have_no_spelling(bits):
    """RFC 8785 appendix B: both must end with an error."""
    (value,) = struct.unpack(">d", bytes.fromhex(bits))
    with pytest.raises(Unprocessable) as told:
        canonical_bytes({"v": value})
    assert told.value.code == "RECORD-NOT-EXACT"


def test_the_worked_example_of_rfc_8785_3_2_2():
    source = r"""{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }"""
    spelled = (
        '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
    )
    assert canonical_bytes(json.loads(source)) == spelled.encode("utf-8")


def test_keys_are_sorted_by_utf_16_as_in_rfc_8785_3_2_3():
    record = {
        "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
        "\U0001f600": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis",
    }
    assert list(json.loads(canonical_bytes(record)).values()) == [
        "Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign",
        "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh",
    ]


def test_what_was_canonical_stays_canonical():
    record = {"b": [1, 2.5, -0.0, 1e21], "a": {"é": "e\u0301", "": None}}
    once = canonical_bytes(record)
    assert canonical_bytes(json.loads(once)) == once


@pytest.mark.parametrize(("record", "is_exact"), [
    (2**53 - 1, True), (-(2**53) + 1, True), (2**53, False), (-(2**53), False), ("\ud800", False), ("a\x00", False),
])
def test_only_what_every_reader_reads_alike_is_sealed(record, is_exact):
    """I-JSON, RFC 7493 section 2 (from memory): whole numbers within 2**53 - 1, no lone surrogates."""
    if is_exact:
        assert canonical_bytes([record])
    else:
        with pytest.raises(Unprocessable):
            canonical_bytes([record])


SIGNATURES = [  # RFC 8032 section 7.1, tests 1 to 3: secret key, public key, message, signature
    ("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
     "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
     "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd"
     "25bf5f0595bbe24655141438e7a100b"),
    ("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
     "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
     "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c3"
     "87b2eaeb4302aeeb00d291612bb0c00"),
    ("c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
     "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
     "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594"
     "a7c15e9716ed28dc027beceea1ec40a"),
]


@pytest.mark.parametrize(("secret", "public", "message", "signature"), SIGNATURES)
def test_signatures_are_those_of_rfc_8032(secret, public, message, signature):
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret))
    assert key.public_key().public_bytes_raw().hex() == public
    signed = bytes.fromhex(message)
    assert key.sign(signed).hex() == signature
    told = base64.b64encode(bytes.fromhex(signature)).decode()
    pem = keys.pem_of(key.public_key())
    assert signature_holds(signed=signed, signature=told, pem=pem)
    assert not signature_holds(signed=signed + b"x", signature=told, pem=pem)


@pytest.mark.parametrize(("signature", "pem"), [("", ""), ("***", "x"), ("AAAA", "-----BEGIN PUBLIC KEY-----")])
def test_what_is_no_signature_does_not_hold_and_does_not_fail(signature, pem):
    assert not signature_holds(signed=b"x", signature=signature, pem=pem)


def test_the_hash_is_sha_256():
    """FIPS 180-4, example "abc" (from memory)."""
    assert sha256_hex(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.text() | st.floats(allow_nan=False,
                                                                                       allow_infinity=False),
    lambda parts: st.lists(parts) | st.dictionaries(st.text(), parts), max_leaves=30)


@given(JSON)
def test_everything_is_spelled_as_the_reference_library_spells_it(record):
    """rfc8785 (Trail of Bits), which follows the reference implementation, is slower by three times."""
    assert b"\\u0000" in rfc8785.dumps(record) or canonical_bytes(record) == rfc8785.dumps(record)


@pytest.mark.parametrize("value", [1e-4, 9.9e-5, 1e-5, 1e15, 1e16, 9007199254740993.0, 123456789012345680.0, 2.0, -0.0,
                                   -2.0, 1e20, 1e21, 0.1 + 0.2])
def test_floats_at_the_ends_of_the_short_way_too(value):
    assert canonical_bytes([value, -value]) == rfc8785.dumps([value, -value])


def test_keys_beyond_the_basic_plane_are_sorted_by_utf_16():
    assert canonical_bytes({"\ufb33": 1, "\U0001f600": 2, "a": 3}) == '{"a":3,"\U0001f600":2,"\ufb33":1}'.encode()
