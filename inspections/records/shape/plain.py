"""The plain checks of the registry as keys of the schema."""
from typing import Annotated, Any

from msgspec import Meta, defstruct

from inspections.records.shape.parts import Note, Part, Reading, Text, Whole, word, written
from inspections.trade.registry import Check, checks_on

Field = tuple[str, Any, None]


def answers(on: str) -> type[Part]:
    """What a vehicle, carton or label may hold for its plain checks; a path of two keys is a part of its own."""
    fields: list[Field] = []
    inner: dict[str, list[Field]] = {}
    for check in checks_on(on):
        for path in filter(None, (check.at, check.of)):
            holder, _, key = path.rpartition(".")
            (inner.setdefault(holder, []) if holder else fields).append((key, _kind(check), None))
        if check.note:
            fields.append((check.note, written(Note), None))
    for holder, own in inner.items():
        part = defstruct(holder.title(), own, bases=(Part,), kw_only=True)
        fields.append((holder, written(part) if holder == "pieces" else part | None, None))
    return defstruct(f"{on.title()}Answers", fields, bases=(Part,), kw_only=True)


def _kind(check: Check) -> Any:
    """A label states its words and texts or leaves them empty; elsewhere an answer is null until it is given."""
    name = check.name.title().replace("_", "")
    if check.type in ("choice", "flags"):
        one = Annotated[str, word(name, (*check.choices, *filter(None, (check.none,))), or_empty=check.on == "label")]
        kind = Annotated[list[one], Meta(max_length=20)] if check.type == "flags" else one
        # Phones of before several signs could be given send one word.
        kind = kind | one if check.none else kind
        return written(kind) if check.on == "label" else kind | None
    if check.type == "text":
        return written(Text)
    return (Reading if check.type in ("reading", "part") else Whole) | None
