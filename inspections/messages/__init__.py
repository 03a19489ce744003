"""Which words does a person meet?

One catalogue in Project Fluent serves the server (here) and the app (``frontend/src/messages``): ``en/<area>.ftl``.
Values are put in as text that our own code has formatted, so that both runtimes give the same characters; a whole
number may be given as such, chooses the plural form and is shown in plain digits.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from fluent.runtime import FluentBundle, FluentResource
from fluent.runtime.types import fluent_number
from fluent.syntax import ast
from fluent.syntax.visitor import Transformer

from inspections import env

from .pseudo import bracketed, marked

log = logging.getLogger(__name__)
FOLDER = Path(__file__).parent / "en"
#: Files whose messages the server says; the app reads its own, and ``trade`` like the server.
AREAS = ("errors", "pages", "trade", "claims", "evidence")
#: ``en``, or ``pseudo`` to see what was left out of the catalogue.
LANGUAGE = env.one_of("UNDERLID_LANGUAGE", ("en", "pseudo"))
#: The longest text that fluent.runtime takes as one value.
_LONGEST = 2500


class Catalogue:
    """Messages in one language.

    Parameters
    ----------
    sources : iterable of str
        Texts in Fluent.
    language : str
        ``en`` or ``pseudo``.
    is_strict : bool
        Whether an unknown id or a missing value raises; else the text shows the gap, and the log names it.
    """

    def __init__(self, sources: Iterable[str], language: str = "en", is_strict: bool = False) -> None:
        self.is_pseudo, self.is_strict = language == "pseudo", is_strict
        self._bundle = FluentBundle(["en-GB"], use_isolating=False)
        for source in sources:
            resource = FluentResource(source)
            self._bundle.add_resource(_Marking().visit(resource) if self.is_pseudo else resource)

    def say(self, name: str, /, **values: str | int) -> str:
        """The message of that id with its values.

        Raises
        ------
        LookupError
            No such message, or a value is missing; only in a strict catalogue.
        """
        pattern = self._bundle.get_message(name).value if self._bundle.has_message(name) else None
        if pattern is None:
            return self._missing(name, f"no message {name}")
        text, troubles = self._bundle.format_pattern(pattern, {key: _given(value) for key, value in values.items()})
        said = bracketed(str(text)) if self.is_pseudo else str(text)
        return self._missing(said, f"{name}: {troubles}") if troubles else said

    def _missing(self, instead: str, trouble: str) -> str:
        if self.is_strict:
            raise LookupError(trouble)
        log.error(trouble)
        return instead


def message(name: str, /, **values: str | int) -> str:
    """What the server says under that id, in the language that ``UNDERLID_LANGUAGE`` names; see ``Catalogue.say``."""
    return catalogue().say(name, **values)


@cache
def catalogue() -> Catalogue:
    """The server's own messages, read once in each process, when the first is said."""
    sources = [(FOLDER / f"{area}.ftl").read_text("utf-8") for area in AREAS]
    return Catalogue(sources, LANGUAGE, is_strict=env.yes_no("UNDERLID_DEBUG", False))


class _Marking(Transformer):
    def visit_TextElement(self, element: ast.TextElement) -> ast.TextElement:
        element.value = marked(element.value)
        return element


def _given(value: str | int) -> object:
    if isinstance(value, int):
        return fluent_number(value, useGrouping=False)
    return value if len(value) <= _LONGEST else f"{value[: _LONGEST - 1]}…"
