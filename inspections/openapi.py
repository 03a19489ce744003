"""The API as an OpenAPI 3.1 document, made from the addresses and from what ``describe`` notes above each method.

Refusals are one response, described once: problem details (RFC 9457). JSON schemas are those that ``msgspec`` makes
of the types that the code itself uses. Served at ``/api/openapi.json``, written by ``manage.py write_openapi``.

Sources: OpenAPI Specification 3.1.1; RFC 9457; JSON Schema 2020-12.
"""
import re
from collections.abc import Iterator
from functools import cache
from typing import Any, TypedDict

import msgspec
from django.http import HttpRequest, JsonResponse
from django.urls import URLPattern, URLResolver, get_resolver
from django.urls.converters import IntConverter, SlugConverter, StringConverter, UUIDConverter

from inspections.describe import FORM, JSON, Described, describe
from inspections.errors import PROBLEM
from inspections.strict import EXACT

#: Raised in its first number when an address, a field or a status goes or changes its meaning; in its second when
#: something is added.
VERSION = "1.0"
METHODS = ("get", "head", "post", "put", "patch", "delete")
#: Whose addresses are the API.
BELOW = ("/api/", "/sync/", "/health")
UUID_PATTERN = "^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$"
KINDS: dict[type, dict[str, Any]] = {
    UUIDConverter: {"type": "string", "format": "uuid", "pattern": UUID_PATTERN}, IntConverter: {"type": "integer"},
    SlugConverter: {"type": "string", "pattern": "^[-a-zA-Z0-9_]+$"},
    StringConverter: {"type": "string", "pattern": "^[^/]+$"},
}
ADDRESS = "/api/openapi.json"
DESCRIPTION = (
    "Deliveries of frozen prawns, from the docket to the comparison of suppliers. Whoever is signed in sees the sites "
    "that they work for. How phones send is told at length in the protocol page. In answers null means not known, "
    "never zero."
)


class ProblemDetails(TypedDict):
    """A refusal (RFC 9457): the sentence is the detail, and the code tells more than the status does."""

    type: str
    title: str
    status: int
    detail: str
    code: str
    sentence: str
    facts: dict[str, Any]


Reference = dict[str, Any]


@describe(dict[str, Any], is_open=True)
def served(request: HttpRequest) -> JsonResponse:
    """The document, for whoever asks."""
    return JsonResponse(document())


@cache
def document() -> dict[str, Any]:
    """The whole document."""
    described = dict(operations())
    types = {id(kind): kind for one in described.values() for kind in _types(one)}
    types[id(ProblemDetails)] = ProblemDetails
    roots, components = msgspec.json.schema_components(types.values(), ref_template="#/components/schemas/{name}")
    told = dict(zip(types, roots, strict=True))
    paths: dict[str, dict[str, Any]] = {}
    for (method, path, pattern), one in described.items():
        paths.setdefault(path, {})[method] = _operation(method, path, pattern, one, told)
    whole: dict[str, Any] = _for_everybody({
        "openapi": "3.1.1",
        "info": {"title": "Underlid", "version": VERSION, "description": DESCRIPTION},
        "paths": paths,
        "components": {
            "schemas": dict(sorted(components.items())),
            "responses": {"Problem": {
                "description": "A refusal, in a sentence: what happened, what is safe, what to do.",
                "content": {PROBLEM: {"schema": told[id(ProblemDetails)]}},
            }},
            "securitySchemes": {
                "session": {"type": "apiKey", "in": "cookie", "name": "sessionid",
                            "description": "Set by POST /api/session."},
                "token": {"type": "apiKey", "in": "header", "name": "X-CSRFToken",
                          "description": "The cookie csrftoken, sent back with whatever changes something."},
            },
        },
    })
    return whole


def addresses(resolver: URLResolver | None = None, before: str = "") -> Iterator[tuple[str, URLPattern]]:
    """Every route with its pattern, the operator's own pages left out."""
    for part in (resolver or get_resolver()).url_patterns:
        route = before + str(part.pattern)
        if isinstance(part, URLPattern):
            yield route, part
        elif route != "admin/":
            yield from addresses(part, route)


def operations() -> Iterator[tuple[tuple[str, str, URLPattern], Described]]:
    """Method, path and pattern of every operation of the API; where one address serves several kinds, one of each.

    Raises
    ------
    LookupError
        A method is not described.
    """
    for route, pattern in addresses():
        path = _path(route)
        if not path.startswith(BELOW):
            continue
        for method, view in _methods(pattern):
            one: Described | None = getattr(view, "described", None)
            if one is None:
                raise LookupError(f"{method} /{route} is not described")
            for at, each in _each(path, one):
                yield (method, at, pattern), each


def _methods(pattern: URLPattern) -> Iterator[tuple[str, Any]]:
    view = getattr(pattern.callback, "view_class", None) or getattr(pattern.callback, "cls", None)
    if view is None:
        yield "get", pattern.callback
    else:
        yield from ((name, getattr(view, name)) for name in METHODS if name in vars(view))


def _each(path: str, one: Described) -> Iterator[tuple[str, Described]]:
    if one.by is None:
        yield path, one
        return
    name, kinds = one.by
    for kind, (answer, body) in kinds.items():
        told = Described(answer, one.statuses, one.query, body, one.takes, one.gives, one.headers, one.told)
        yield path.replace(f"{{{name}}}", kind), told


def _path(route: str) -> str:
    """A route as OpenAPI writes a path."""
    named = re.sub(r"\(\?P<(\w+)>(?:\[[^\]]*\]|[^)])*\)", r"{\1}", route)
    return "/" + re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", named).replace("^", "").replace("\\", "").rstrip("$")


def _types(one: Described) -> list[Any]:
    return [kind for kind in (one.answer, one.query, one.body) if kind not in (None, bytes)]


def _operation(
    method: str, path: str, pattern: URLPattern, one: Described, told: dict[int, Reference]
) -> dict[str, Any]:
    needs: dict[str, list[str]] = {"session": [], **({} if method in ("get", "head") else {"token": []})}
    view = getattr(pattern.callback, "view_class", None) or getattr(pattern.callback, "cls", pattern.callback)
    body = _content(one.body, one.takes, told)
    return {
        "operationId": "_".join([method, *re.findall(r"\w+", path.replace("{", "").replace("}", ""))]),
        "summary": (view.__doc__ or "").strip().partition("\n")[0],
        "security": [] if one.is_open else [needs],
        "parameters": [*_in_path(path, pattern), *_in_query(one.query), *_in_headers(one)],
        **({"requestBody": {"required": True, "content": body}} if body else {}),
        "responses": {
            **{str(status): _answer(method, status, one, told) for status in one.statuses},
            **{status: {"$ref": "#/components/responses/Problem"} for status in ("4XX", "5XX")},
        },
    }


def _answer(method: str, status: int, one: Described, told: dict[int, Reference]) -> dict[str, Any]:
    has_body = status not in (204, 304) and method != "head"
    content = _content(one.answer, one.gives, told) if has_body else {}
    headers = {name: {"description": words, "schema": {"type": "string"}} for name, words in one.told.items()}
    return {"description": "Done." if status < 300 else "As it was.", **({"content": content} if content else {}),
            **({"headers": headers} if headers else {})}


def _content(kind: Any, media: tuple[str, ...], told: dict[int, Reference]) -> dict[str, Any]:
    if kind is None:
        return {}
    schema = {"type": "string", "contentMediaType": "application/octet-stream"} if kind is bytes else told[id(kind)]
    return {name: {} if kind is bytes and name != JSON and name != FORM else {"schema": schema} for name in media}


def _in_path(path: str, pattern: URLPattern) -> Iterator[dict[str, Any]]:
    converters = pattern.pattern.converters
    for name in re.findall(r"\{(\w+)\}", path):
        if name in converters:
            schema = KINDS[type(converters[name])]
        else:
            inside = re.search(rf"\(\?P<{name}>((?:\[[^\]]*\]|[^)])*)\)", str(pattern.pattern))
            schema = {"type": "string", "pattern": f"^(?:{inside[1] if inside else '.+'})$"}
        yield {"name": name, "in": "path", "required": True, "schema": schema}


def _in_query(kind: Any) -> Iterator[dict[str, Any]]:
    if kind is None:
        return
    (_,), parts = msgspec.json.schema_components([kind])
    own = parts[kind.__name__]
    for name, schema in own["properties"].items():
        yield {"name": name, "in": "query", "required": name in own.get("required", []), "schema": schema}


def _in_headers(one: Described) -> Iterator[dict[str, Any]]:
    for header in one.headers:
        schema = {"type": "string", **({"pattern": header.pattern} if header.pattern else {})}
        yield {"name": header.name, "in": "header", "required": header.needed, "description": header.words,
               "schema": schema}


def _for_everybody(part: Any) -> Any:
    """The same with patterns as every language reads them, and whole numbers as far as they are exact in each."""
    match part:
        case {"type": "integer"}:
            return {"minimum": -EXACT, "maximum": EXACT, **part}
        case dict():
            return {key: value.replace(r"\Z", "$") if key == "pattern" and isinstance(value, str)
                    else _for_everybody(value) for key, value in part.items()}
        case list():
            return [_for_everybody(value) for value in part]
    return part
