"""What was sent, checked once against the schema: a frozen object, or a sentence that names the place in words."""
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

import msgspec

from inspections.errors import CannotUse
from inspections.records.shape.delivery import SCHEMA, InspectionDocument
from inspections.records.shape.later import AnyAddendum, IceCheck

#: A document's own parts go eight deep, the phone's judgement in it six more.
DEEPEST = 24
#: Beyond this, whole numbers are not the same in every language (RFC 7493).
EXACT = 2**53 - 1
UNKEPT = re.compile("[\x00\ud800-\udfff]")
FAULT = re.compile(r"(?P<what>.*?)(?: - at `(?:key` in `)?\$(?P<path>[^`]*)`)?", re.DOTALL)
STEP = re.compile(r"\.?([a-z_0-9]+)|\[(\d+|\.\.\.)\]")
#: A list's name where one of its entries is meant.
SINGULAR = {"lines": "line", "cartons": "carton", "photos": "photo", "shows": "particular", "positions": "position",
            "strokes": "stroke"}
KINDS = {"int": "a whole number", "float": "a number", "str": "text", "bool": "yes or no", "array": "a list",
         "object": "an entry with parts", "dict": "an entry with parts", "list": "a list", "null": "nothing"}

FAULTS = {
    r"Object contains unknown field `(.*)`": "“{0}” is not known here",
    r"Object missing required field `(.*)`": "“{0}” is missing",
    r"Expected `str` of length <= (\d+)": "longer than {0} characters",
    r"Expected `str` of length >= \d+": "empty",
    r"Expected `(?:array|object)` of length <= (\d+)": "more than {0} entries",
    r"Expected `array` of length (\d+), got (\d+)": "{1} entries where {0} belong",
    r"Expected `(?:int|float)` [<>]= (.*)": "a number beyond {0}",
    r"Expected `str` matching regex .*": "not written as it must be",
    r"Invalid (?:enum )?value (.*)": "{0} is not known here",
}

T = TypeVar("T")


@dataclass(frozen=True)
class Sent(Generic[T]):
    """What a phone sent: ``entered`` is what stands in it, ``body`` the JSON itself, for hash, judgement and seal."""

    entered: T
    body: dict


def read_delivery(body) -> Sent[InspectionDocument]:
    """An inspection document.

    Raises
    ------
    CannotUse
        DOC-SCHEMA, DOC-SHAPE with the place, DOC-TEXT with the place.
    """
    if isinstance(body, dict) and (type(body.get("schema")) is not int or body["schema"] != SCHEMA):
        raise CannotUse("DOC-SCHEMA")
    return Sent(_read(body, InspectionDocument, "DOC-SHAPE", text_code="DOC-TEXT"), body)


def read_addendum(body) -> Sent[AnyAddendum]:
    """A put-away or a correction; CannotUse ADDENDUM-SHAPE."""
    return Sent(_read(body, AnyAddendum, "ADDENDUM-SHAPE"), body)


def read_ice_check(body) -> Sent[IceCheck]:
    """A check of a thermometer in ice; CannotUse CHECK-SHAPE."""
    return Sent(_read(body, IceCheck, "CHECK-SHAPE"), body)


def _read(body, kind, code: str, *, text_code: str = ""):
    for path, what in _unkept(body, "", 0):
        if what == "text" and text_code:
            raise CannotUse(text_code, where=_place(path) or "the delivery itself")
        raise CannotUse(code, what=_sentence(path, "a sign that cannot be stored" if what == "text" else what))
    try:
        return msgspec.convert(body, kind)
    except msgspec.ValidationError as trouble:
        raise CannotUse(code, what=_told(str(trouble))) from trouble


def _unkept(part, path: str, depth: int) -> Iterator[tuple[str, str]]:
    """Places of what no database or no canonical form keeps; the name of a key counts for its parent."""
    match part:
        case str():
            if UNKEPT.search(part):
                yield path, "text"
        case float() if not math.isfinite(part):
            yield path, "a number without an end"
        case int() if abs(part) > EXACT:
            yield path, "a whole number of more than fifteen digits"
        case dict() | list() if depth >= DEEPEST:
            yield path, "lists within lists"
        case dict():
            for key, value in part.items():
                yield from _unkept(key, path, depth)
                yield from _unkept(value, f"{path}.{key}", depth + 1)
        case list():
            for number, value in enumerate(part):
                yield from _unkept(value, f"{path}[{number}]", depth + 1)


def _told(message: str) -> str:
    found = FAULT.fullmatch(message)
    return _sentence(found["path"] or "", _fault(found["what"]))


def _sentence(path: str, fault: str) -> str:
    place = _place(path)
    return f"{place}: {fault}" if place else fault


def _place(path: str) -> str:
    """A path as a person would say it.

    >>> _place(".lines[1].cartons[0].temperature.product")
    'line 2, carton 1, temperature, product'
    """
    said: list[str] = []
    for name, number in STEP.findall(path):
        if name:
            said.append(name.removesuffix("_id").replace("_", " "))
        elif number.isdigit() and said:
            said[-1] = f"{SINGULAR.get(said[-1], said[-1])} {int(number) + 1}"
    return ", ".join(said)


def _fault(what: str) -> str:
    """The library's message in words of our own."""
    if found := re.match(r"Expected `([a-z]+)(?: \| null)?`, got `([a-z]+)`", what):
        wanted, got = (KINDS.get(kind, "another kind of entry") for kind in found.groups())
        return f"{got} where {wanted} belongs"
    for pattern, words in FAULTS.items():
        if found := re.fullmatch(pattern, what, re.DOTALL):
            return words.format(*(part[:40] for part in found.groups()))
    return "not as it should be"
