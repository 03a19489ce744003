"""What was sent, held to a schema, and what is wrong with it in words that name the place.

``faults_in`` finds what no database or canonical form keeps; ``convert`` puts the library's message into words of
our own; ``read`` takes the entries of a form or a query, and names every one that cannot be used.
"""
import math
import re
import threading
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

import msgspec

from inspections.errors import ApiProblem

#: A document's own parts go eight deep, the phone's judgement in it six more.
DEEPEST = 24
#: Beyond this, whole numbers are not the same in every language (RFC 7493).
EXACT = 2**53 - 1
UNSTORED = "a sign that cannot be stored"
UNKEPT = re.compile("[\x00\ud800-\udfff]")
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

T = TypeVar("T", bound=msgspec.Struct)
#: Kinds that the library has looked at whole.
_learnt: set[Any] = set()
_learning = threading.Lock()


class Misshapen(Exception):
    """Not as the schema has it; ``str()`` is the fault with its place. ``is_text``: a sign that cannot be stored."""

    def __init__(self, path: str, fault: str, *, is_text: bool = False):
        self.place, self.is_text = place_of(path), is_text
        super().__init__(f"{self.place}: {fault}" if self.place else fault)


class Entries(msgspec.Struct, forbid_unknown_fields=True, omit_defaults=True):
    """What a form or a query holds. A field that may be left out is ``UNSET`` or has a default."""

    def given(self) -> dict[str, Any]:
        """What was entered, by name."""
        return {name: value for name in self.__struct_fields__ if (value := getattr(self, name)) is not msgspec.UNSET}


def read(kind: type[T], data: Any) -> T:
    """A JSON object as entries of that kind.

    Raises
    ------
    ApiProblem
        400 FIELDS, with every entry that cannot be used and why.
    """
    return _read(kind, data, strict=True)


def read_query(kind: type[T], query: Mapping[str, str]) -> T:
    """A query as entries of that kind; names that are not known are passed over."""
    fields = {field.encode_name for field in msgspec.structs.fields(kind)}
    return _read(kind, {name: value.strip() for name, value in query.items() if name in fields},
                 strict=False)


def _read(kind: type[T], data: Any, *, strict: bool) -> T:
    faults: dict[str, list[str]] = {}
    try:
        entries: T = convert(data, kind, strict=strict)
        return entries
    except Misshapen as trouble:
        faults[""] = [str(trouble)]
    if isinstance(data, dict):
        faults = _by_field(kind, data, strict=strict) or faults
    told = "; ".join(f"{name.replace('_', ' ')}: {said[0]}" if name else said[0] for name, said in faults.items())
    raise ApiProblem("FIELDS", status=400, fields=told, extra={"fields": faults})


def _by_field(kind: type[msgspec.Struct], data: dict[str, Any], *, strict: bool) -> dict[str, list[str]]:
    """Every field with its fault, where the library stops at the first."""
    known = {field.encode_name: field for field in msgspec.structs.fields(kind)}
    faults = {str(name)[:60]: ["is not known here"] for name in data if name not in known}
    for name, field in known.items():
        if name not in data:
            if field.required:
                faults[name] = ["is missing"]
            continue
        try:
            _convert(data[name], field.type, strict=strict)
        except Misshapen as trouble:
            faults[name] = [str(trouble)]
    return faults


def convert(body: Any, kind: Any, *, strict: bool = True) -> Any:
    """The body as that kind of object.

    Raises
    ------
    Misshapen
        With the place and the fault.

    Notes
    -----
    The library looks at a kind when it first meets it, and shows the half-made result to whatever thread comes by: that
    one reads at address 0, and its process is gone with all that it was answering. So one thread looks at a kind first.
    """
    if kind not in _learnt:
        with _learning:
            msgspec.json.Decoder(kind)
            _learnt.add(kind)
    return _convert(body, kind, strict=strict)


def _convert(body: Any, kind: Any, *, strict: bool) -> Any:
    """``convert`` to a kind that is known, or to a part of one."""
    if not _is_sound(body):
        for path, what in faults_in(body):
            raise Misshapen(path, what, is_text=what == UNSTORED)
    try:
        return msgspec.convert(body, kind, strict=strict)
    except msgspec.ValidationError as trouble:
        what, _, path = str(trouble).partition(" - at `")
        raise Misshapen(path.removeprefix("key in `").rstrip("`"), _fault(what)) from trouble


def _is_sound(part: Any, depth: int = 0) -> bool:
    """Whether ``faults_in`` finds nothing, at a third of its cost: nearly everything that comes is sound."""
    kind = type(part)
    if kind is str:
        return UNKEPT.search(part) is None
    if kind is dict:
        return depth < DEEPEST and UNKEPT.search("".join(part)) is None and all(
            _is_sound(value, depth + 1) for value in part.values())
    if kind is list:
        return depth < DEEPEST and all(_is_sound(value, depth + 1) for value in part)
    if kind is float:
        return math.isfinite(part)
    return part is None or kind is bool or (kind is int and abs(part) <= EXACT)


def faults_in(part: Any, path: str = "", depth: int = 0) -> Iterator[tuple[str, str]]:
    """Places of what no database or no canonical form keeps; the name of a key counts for its parent."""
    match part:
        case str():
            if UNKEPT.search(part):
                yield path, UNSTORED
        case float() if not math.isfinite(part):
            yield path, "a number without an end"
        case int() if abs(part) > EXACT:
            yield path, "a whole number of more than fifteen digits"
        case dict() | list() if depth >= DEEPEST:
            yield path, "lists within lists"
        case dict():
            for key, value in part.items():
                yield from faults_in(key, path, depth)
                yield from faults_in(value, f"{path}.{key}", depth + 1)
        case list():
            for number, value in enumerate(part):
                yield from faults_in(value, f"{path}[{number}]", depth + 1)


def place_of(path: str) -> str:
    """A path as a person would say it.

    >>> place_of(".lines[1].cartons[0].temperature.product")
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
