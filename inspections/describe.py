"""How a method of the API is described, above the code that answers it; ``openapi`` makes the document of it.

Answers are ``TypedDict`` in the ``answers`` module of their application, bodies and queries are ``Entries`` or, from
phones, the structs of ``records.shape``. A test holds every answer of the rights table against them.
"""
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any, TypeVar

from msgspec import Meta

JSON, FORM = "application/json", "multipart/form-data"

Uuid = Annotated[str, Meta(extra_json_schema={"format": "uuid"})]
Day = Annotated[str, Meta(extra_json_schema={"format": "date"})]
#: With its offset from UTC.
Moment = Annotated[str, Meta(extra_json_schema={"format": "date-time"})]
Sha256 = Annotated[str, Meta(extra_json_schema={"pattern": "^[0-9a-f]{64}$"})]

View = TypeVar("View", bound=Callable[..., Any])


@dataclass(frozen=True)
class Header:
    """A header of the request; ``needed``: without it the answer is a refusal."""

    name: str
    words: str
    needed: bool = False
    pattern: str = ""


@dataclass(frozen=True)
class Described:
    """One method.

    Attributes
    ----------
    answer : type, optional
        What the JSON of a good answer is; None: it has no body, or another kind (``gives``).
    statuses : tuple of int
        Every status of a good answer; all others are problem details.
    takes, gives : tuple of str
        Media types of body and answer; ``body`` is the type of a JSON body, or the fields of a form.
    by : mapping, optional
        Where one address serves several kinds: the name of its part in the path, and body and answer of each.
    """

    answer: Any = None
    statuses: tuple[int, ...] = (200,)
    query: Any = None
    body: Any = None
    takes: tuple[str, ...] = (JSON,)
    gives: tuple[str, ...] = (JSON,)
    headers: tuple[Header, ...] = ()
    told: Mapping[str, str] = field(default_factory=dict)
    is_open: bool = False
    by: tuple[str, Mapping[str, tuple[Any, Any]]] | None = None


def describe(answer: Any = None, *statuses: int, **more: Any) -> Callable[[View], View]:
    """Describe a method of a view: the type of its answer, its good statuses (200 by default), and ``Described``'s."""

    def described(view: View) -> View:
        view.described = Described(answer, statuses or (200,), **more)  # type: ignore[attr-defined]
        return view

    return described
