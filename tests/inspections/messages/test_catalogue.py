"""The catalogue: what is said is there, what is there is said, and both runtimes say the same.

Project Fluent Syntax 1.0. An id begins with the name of its area (``dock-…``), a refusal's is its code. An id may be
put together: the parts in braces of an f-string or a template literal stand for anything.
"""
import ast
import json
import re
from collections import Counter
from pathlib import Path

import pytest
from fluent.syntax import FluentParser
from fluent.syntax import ast as ftl

from inspections.messages import FOLDER, Catalogue

BASE = Path(__file__).resolve().parents[3]
#: File -> what its ids begin with.
AREAS = {"dock": "dock-", "dock_later": "dock-", "dock_desk": "dock-", "desk": "desk-",
         "desk_claims": "desk-claims-", "claims": "claims-", "evidence": "evidence-", "pages": "pages-",
         "trade": "trade-", "errors": "[A-Z]"}
#: A text of the app that begins like an id; what is put together stands in ${}.
IN_APP = re.compile(r"""["'`]((?:dock|desk|trade)-(?:[\w-]|\$\{[^}]*\})+)["'`]""")
SOURCES = {path.stem: path.read_text("utf-8") for path in sorted(FOLDER.glob("*.ftl"))}
BODIES = {area: FluentParser().parse(source).body for area, source in SOURCES.items()}
IDS = {area: [each.id.name for each in body if isinstance(each, ftl.Message)] for area, body in BODIES.items()}
ALL = {name for ids in IDS.values() for name in ids}
REFUSALS = {"ApiProblem", "Forbidden", "NotFound", "Conflict", "Unprocessable"}
VECTORS = json.loads((BASE / "fixtures" / "vectors" / "messages.json").read_text("utf-8"))


def python_files() -> list[Path]:
    return [path for folder in ("inspections", "imaging") for path in (BASE / folder).rglob("*.py")
            if "migrations" not in path.parts]


def said_in_python(path: Path) -> tuple[set[str], set[str]]:
    """Patterns of ids: those that are surely said (arguments), and every text of the file, which may be one."""
    surely, perhaps = set(), set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Constant | ast.JoinedStr):
            perhaps.add(pattern_of(node))
        if isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant | ast.JoinedStr):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if called == "message" or called in REFUSALS:
                surely.add(pattern_of(node.args[0]))
    return surely, perhaps


def pattern_of(text: ast.expr) -> str:
    if isinstance(text, ast.JoinedStr):
        return "".join(re.escape(part.value) if isinstance(part, ast.Constant) else ".+" for part in text.values)
    return re.escape(str(text.value))


def said_in_app() -> set[str]:
    """Every text of the app that begins like an id, as a pattern."""
    patterns = set()
    for path in (BASE / "frontend" / "src").rglob("*"):
        if path.suffix in {".ts", ".svelte"} and not path.name.endswith(".test.ts"):
            for text in IN_APP.findall(path.read_text("utf-8")):
                patterns.add(".+".join(re.escape(part) for part in re.split(r"\$\{[^}]*\}", text)))
    return patterns


def said_in_templates() -> set[str]:
    texts = [path.read_text("utf-8") for path in (BASE / "inspections").rglob("templates/*/*.*")]
    return {re.escape(name) for text in texts for name in re.findall(r"""\{% message ["']([\w-]+)["']""", text)}


@pytest.fixture(scope="module")
def said() -> tuple[set[str], set[str]]:
    surely, perhaps = said_in_app() | said_in_templates(), set()
    for path in python_files():
        sure, maybe = said_in_python(path)
        surely |= sure
        perhaps |= maybe
    return surely, perhaps


@pytest.mark.parametrize("area", SOURCES)
def test_every_message_is_read_without_an_error(area):
    assert [each.content for each in BODIES[area] if isinstance(each, ftl.Junk)] == []


def test_no_id_is_there_twice():
    assert [name for name, times in Counter(name for ids in IDS.values() for name in ids).items() if times > 1] == []


def test_an_id_begins_with_its_area():
    assert set(SOURCES) <= set(AREAS)
    assert [name for area, ids in IDS.items() for name in ids if not re.match(AREAS[area], name)] == []


def test_every_message_that_is_said_is_there(said):
    assert sorted(pattern for pattern in said[0] if not any(re.fullmatch(pattern, name) for name in ALL)) == []


def test_every_message_that_is_there_is_said(said):
    patterns = said[0] | said[1]
    exact = {re.sub(r"\\(.)", r"\1", pattern) for pattern in patterns if ".+" not in pattern}
    loose = [re.compile(pattern) for pattern in patterns if ".+" in pattern and re.match(r"[\w\\]+-", pattern)]
    assert sorted(name for name in ALL - exact if not any(pattern.fullmatch(name) for pattern in loose)) == []


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["id"])
def test_a_message_reads_as_it_does_in_the_app(case):
    sources, asked = ["\n".join(VECTORS["ftl"])], case["in"]
    assert Catalogue(sources, "en", is_strict=True).say(asked["message"], **asked["values"]) == case["out"]
    if "pseudo" in case:
        assert Catalogue(sources, "pseudo", is_strict=True).say(asked["message"], **asked["values"]) == case["pseudo"]


def test_an_unknown_id_and_a_missing_value_are_faults():
    strict = Catalogue(["\n".join(VECTORS["ftl"])], is_strict=True)
    with pytest.raises(LookupError, match="no message nowhere"):
        strict.say("nowhere")
    with pytest.raises(LookupError, match="Unknown external: line"):
        strict.say("carton", count=1)


def test_in_production_a_gap_is_shown_and_logged(caplog):
    lenient = Catalogue(["\n".join(VECTORS["ftl"])])
    assert lenient.say("nowhere") == "nowhere"
    assert lenient.say("carton", count=1, more="x") == "One carton of line line was opened."
    assert len(caplog.records) == 2
