"""The kinds of values that documents are made of."""
import re
from typing import Annotated

from msgspec import Meta, Struct

#: Words are kept as they came, as long as they are short: one that this server does not know is listed by the
#: judgement, not refused. The lists stand in ``trade`` and go into the schema for whoever writes documents.
LONGEST_WORD = 40
#: The largest whole number that may be written, either way; what a count may be is the judgement's question.
MOST = 999_999_999

Id = Annotated[str, Meta(
    pattern=r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z", max_length=36,
    description="UUID as RFC 9562 writes it, made on the device.",
)]
SHA256 = re.compile(r"[0-9a-f]{64}", re.ASCII)
Sha256 = Annotated[str, Meta(pattern=r"^[0-9a-f]{64}\Z", max_length=64, description="SHA-256 of the file's bytes.")]
#: An id that may still be empty or unknown; the sentence about it comes at signing.
Named = Annotated[str, Meta(max_length=64)]
Text = Annotated[str, Meta(max_length=200)]
Note = Annotated[str, Meta(max_length=4000)]
Docket = Annotated[str, Meta(max_length=60)]
Moment = Annotated[str, Meta(max_length=40, description="ISO 8601; moments with the device's offset from UTC.")]
Whole = Annotated[int, Meta(ge=-MOST, le=MOST)]
Number = Annotated[float, Meta(ge=-1e12, le=1e12)]


def word(name: str, known: tuple[str, ...], *, or_empty: bool = False) -> Meta:
    """What a word of this name may be: any short text, of which these are the known ones."""
    words = [*known, ""] if or_empty else list(known)
    return Meta(title=name, max_length=LONGEST_WORD, extra_json_schema={"x-words": words})


def written(kind, *, always: bool = False):
    """What the phone never writes as null (and, with ``always``, never leaves out); the door takes either."""
    return Annotated[kind | None, Meta(extra_json_schema={"x-written": "always" if always else "sometimes"})]


class Part(Struct, frozen=True, forbid_unknown_fields=True):
    """A part of a document: its keys are these and no others; absent and null mean "not checked"."""


class Reading(Part, kw_only=True):
    """What a person entered, kept as entered; everything else is derived from it."""

    entered: Annotated[str, Meta(max_length=100)]
    unit: Annotated[str, word("Unit", ("C", "F", "g", "kg", "lb", "oz", "pieces", "percent"))]


class ThermometerSnapshot(Part, kw_only=True):
    """How the thermometer stood when the reading was taken; a later check changes nothing."""

    name: Text
    checked_at: Moment | None = None
    ice_point: Reading | None = None
    due_at: Moment | None = None


class Receiver(Part, kw_only=True):
    person_id: Whole
    name: Text
