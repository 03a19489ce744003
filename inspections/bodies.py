"""The bodies of requests: JSON read strictly, never more than the limit; and one form of answer."""
import json
from collections import Counter

from django.conf import settings
from django.http import HttpRequest
from rest_framework.exceptions import ParseError
from rest_framework.negotiation import DefaultContentNegotiation
from rest_framework.parsers import BaseParser

from inspections.errors import ApiProblem


def need_size(request: HttpRequest, most: int) -> None:
    """Nothing, where the body is at most so many bytes; ApiProblem 413 TOO-LARGE otherwise.

    The body is here already (``inspections.front``), so nobody is cut off before the sentence.
    """
    length = request.META.get("CONTENT_LENGTH") or ""
    if length.isdigit() and int(length) > most:
        raise ApiProblem("TOO-LARGE", status=413, most_mb=most // 1048576)


class StrictJSON(BaseParser):
    """JSON as RFC 8259 has it: UTF-8, no NaN, and no name twice in one object (RFC 7493)."""

    media_type = "application/json"

    def parse(self, stream, media_type=None, parser_context=None):
        need_size(stream, settings.DATA_UPLOAD_MAX_MEMORY_SIZE)
        try:
            text = stream.read().decode("utf-8")
            return json.loads(text, object_pairs_hook=_each_once, parse_constant=_refuse)
        except (ValueError, RecursionError) as trouble:
            raise ParseError() from trouble


class OneForm(DefaultContentNegotiation):
    """The API answers in one form; whoever asks for another, such as a browser for HTML, gets that one too."""

    def select_renderer(self, request, renderers, format_suffix=None):
        return renderers[0], renderers[0].media_type


def _each_once(pairs: list[tuple[str, object]]) -> dict:
    found = dict(pairs)
    if len(found) < len(pairs):
        name = Counter(key for key, _ in pairs).most_common(1)[0][0]
        raise ApiProblem("NAMED-TWICE", status=400, name=name[:60])
    return found


def _refuse(constant: str):
    raise ValueError(constant)
