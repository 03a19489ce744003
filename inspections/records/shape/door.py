"""What was sent, checked once against the schema: a frozen object, or a sentence that names the place in words."""
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from inspections.errors import Unprocessable
from inspections.records.shape.delivery import SCHEMA, InspectionDocument
from inspections.records.shape.later import AnyAddendum, IceCheck
from inspections.strict import Misshapen, convert

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
    Unprocessable
        DOC-SCHEMA, DOC-SHAPE with the place, DOC-TEXT with the place.
    """
    if isinstance(body, dict) and (type(body.get("schema")) is not int or body["schema"] != SCHEMA):
        raise Unprocessable("DOC-SCHEMA")
    return Sent(_read(body, InspectionDocument, "DOC-SHAPE", text_code="DOC-TEXT"), body)


def read_addendum(body) -> Sent[AnyAddendum]:
    """A put-away or a correction; Unprocessable ADDENDUM-SHAPE."""
    return Sent(_read(body, AnyAddendum, "ADDENDUM-SHAPE"), body)


def read_ice_check(body) -> Sent[IceCheck]:
    """A check of a thermometer in ice; Unprocessable CHECK-SHAPE."""
    return Sent(_read(body, IceCheck, "CHECK-SHAPE"), body)


def _read(body: Any, kind: Any, code: str, *, text_code: str = "") -> Any:
    try:
        return convert(body, kind)
    except Misshapen as trouble:
        if text_code and trouble.is_text:
            raise Unprocessable(text_code, where=trouble.place or "the delivery itself") from trouble
        raise Unprocessable(code, what=str(trouble)) from trouble
