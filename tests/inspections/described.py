"""Holds an answer against the API's own document, closed: a key that is not described is a fault here.

The check of JSON against JSON Schema 2020-12 is a library's (``jsonschema``), so the document is read as others
would read it.
"""
import json
import re
from functools import cache
from typing import Any

from jsonschema import Draft202012Validator

from inspections import openapi

FORMATS = Draft202012Validator.FORMAT_CHECKER


def need_described(method: str, address: str, answer) -> None:
    """Nothing, where status, content type and body are as the document says."""
    path = address.partition("?")[0]
    fit = [template for template, item in openapi.document()["paths"].items()
           if method in item and _template(template).fullmatch(path)]
    if not fit:
        # Of what is kept there are some kinds and no others.
        assert answer.status_code in (401, 404) or not path.startswith(("/api/", "/sync/", "/health")), path
        return
    # Of several the one that says most, as the addresses do: /tables/{name}.{kind} before /tables/{name}.
    most = max(fit, key=lambda template: len(re.sub(r"\{\w+\}", "", template)))
    responses = openapi.document()["paths"][most][method]["responses"]
    status = str(answer.status_code)
    response = responses.get(status) or responses[f"{status[0]}XX"]
    name = response.get("$ref", "").rpartition("/")[2]
    content = (openapi.document()["components"]["responses"][name] if name else response).get("content", {})
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if method == "head" or not content:
        assert body == b"" or method == "head", f"{method} {path} {status} has a body that is not described"
        return
    kind = answer["Content-Type"].partition(";")[0]
    assert kind in content, f"{method} {path} {status}: {kind}"
    if "schema" in content[kind]:
        fault = next(_validator(content[kind]["schema"].get("$ref", "")).iter_errors(json.loads(body)), None)
        assert fault is None, f"{method} {path} {status} {fault.json_path}: {fault.message[:300]}"


@cache
def _template(template: str) -> re.Pattern[str]:
    return re.compile(re.sub(r"\\\{\w+\\\}", "[^/]+", re.escape(template)))


@cache
def _validator(reference: str) -> Draft202012Validator:
    parts = {name: _closed(part) for name, part in openapi.document()["components"]["schemas"].items()}
    if not reference:
        return Draft202012Validator({})
    if reference.endswith("/ProblemDetails"):
        # A refusal may carry more, such as the fields that it is about.
        parts["ProblemDetails"].pop("additionalProperties")
    return Draft202012Validator({"$ref": reference, "components": {"schemas": parts}}, format_checker=FORMATS)


def _closed(part: dict[str, Any]) -> dict[str, Any]:
    return {**part, "additionalProperties": False} if "properties" in part else part
