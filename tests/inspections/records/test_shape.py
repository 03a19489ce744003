"""The door: kinds, lengths and depth are held to one schema; what a value says is left to the judgement."""
from copy import deepcopy

import pytest

from fixtures import api_types
from inspections.errors import Unprocessable
from inspections.records.judging import judge
from inspections.records.shape.door import read_addendum, read_delivery, read_ice_check
from tests.factories import a_carton, a_document, a_line, a_put_away, decided, fresh_id, photo_entry


@pytest.fixture
def whole(cast) -> dict:
    """A document with something in every part."""
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version)))
    document["photos"] = [photo_entry(b"x")]
    document["lines"][0]["cartons"][1]["dehydration"] = {"dried": {"entered": "10", "unit": "g"}}
    return document


def put(document: dict, path: str, value) -> dict:
    changed = deepcopy(document)
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    part = changed
    for step in steps:
        part = part[step]
    part[last] = value
    return changed


def refused(document, read=read_delivery) -> dict:
    with pytest.raises(Unprocessable) as caught:
        read(document)
    return {"code": caught.value.code, **caught.value.facts}


def test_what_is_whole_is_read_into_an_object_that_nobody_changes(whole):
    entered = read_delivery(whole).entered
    assert entered.lines[0].cartons[0].temperature.product.entered == whole["lines"][0]["cartons"][0]["temperature"][
        "product"]["entered"]
    with pytest.raises(AttributeError):
        entered.notes = "changed"


def test_a_delivery_is_kept_at_any_tap(cast):
    """As the phone begins one, and with a carton of which nothing is answered yet: absent and null are not checked."""
    begun = a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, signatures=None)
    carton = dict.fromkeys(a_carton(), None) | {"id": fresh_id(), "position": 4, "pieces": {}, "weights": {}}
    for document in (begun, {**begun, "lines": [a_line(cast.version, carton, counted=None, lot="")]},
                     {**begun, "lines": [{"id": fresh_id(), "specification_id": "", "cartons": [{"id": fresh_id()}]}]}):
        assert read_delivery(document).entered.docket_number


@pytest.mark.parametrize(("path", "value", "what"), [
    ("lines.0.cartons_counted", 3.0, "line 1, cartons counted: a number where a whole number belongs"),
    ("lines.0.cartons_counted", True, "line 1, cartons counted: yes or no where a whole number belongs"),
    ("lines.0.cartons_counted", 10**9, "line 1, cartons counted: a number beyond 999999999"),
    ("lines.0.cartons.1.looked_at", "20", "line 1, carton 2, looked at: text where a whole number belongs"),
    ("lines.0.cartons.1.liner", "x" * 41, "line 1, carton 2, liner: longer than 40 characters"),
    ("lines.0.cartons.2.pieces.cracked", 1, "line 1, carton 3, pieces: “cracked” is not known here"),
    ("lines.0.cartons.0.temperature.product", None,
     "line 1, carton 1, temperature, product: nothing where an entry with parts belongs"),
    ("lines.0.cartons.0.temperature.product", {"entered": -19.4, "unit": "C"},
     "line 1, carton 1, temperature, product, entered: a number where text belongs"),
    ("lines.0.decision.reason", 7, "line 1, decision, reason: a whole number where text belongs"),
    ("lines.0.id", "7", "line 1, id: not written as it must be"),
    ("limits_id", {}, "limits: an entry with parts where text belongs"),
    ("docket_number", "9" * 61, "docket number: longer than 60 characters"),
    ("photos.0.purpose", "selfie", "photo 1, purpose: 'selfie' is not known here"),
    ("photos.0.gate.sharpness", None, "photo 1, gate, sharpness: nothing where a number belongs"),
    ("lines", [{}] * 201, "lines: more than 200 entries"),
    ("colour", "red", "“colour” is not known here"),
    ("lines.0.suggested.x", [[[[[[[[[[[[[[[[[[[[[[[0]]]]]]]]]]]]]]]]]]]]]]], None),
    ("lines.0.suggested.x", 2**53, "line 1, suggested, x: a whole number of more than fifteen digits"),
    ("lines.0.suggested.x", float("inf"), "line 1, suggested, x: a number without an end"),
])
def test_another_shape_is_refused_with_its_place_in_words(whole, path, value, what):
    told = refused(put(whole, path, value))
    assert told["code"] == "DOC-SHAPE"
    assert told["what"] == what or (what is None and told["what"].endswith("lists within lists"))


@pytest.mark.parametrize("sign", ["\x00", "\ud800"])
def test_signs_that_no_database_keeps_are_refused_wherever_they_stand(whole, sign):
    for path in ("notes", "lines.0.cartons.1.note", "lines.0.suggested.x", "lines.0.cartons.1.marks.seen"):
        value = {f"a{sign}": True} if path.endswith("seen") else f"a{sign}"
        assert refused(put(whole, path, value))["code"] == "DOC-TEXT"
    assert read_delivery(put(whole, "notes", "prawns \U0001f990 é"))


@pytest.mark.parametrize(("path", "value", "is_listed"), [
    ("lines.0.cartons.1.temperature.product.entered", "-17,2", False),
    ("lines.0.cartons.1.weights.gross", {"entered": "", "unit": "kg"}, False),
    ("arrived_at", "0001-01-01T00:00:00+14:00", False),
    ("lines.0.cartons.1.temperature.product.entered", "cold", True),
    ("lines.0.cartons.1.weights.gross", {"entered": "900000", "unit": "kg"}, True),
    ("lines.0.cartons.1.liner", "half open", True),
    ("lines.0.cartons.1.looked_at", 0, True),
    ("lines.0.cartons.1.pieces.broken", -1, True),
    ("lines.0.cartons.1.label.best_before", "soon", True),
    ("lines.0.cartons_counted", 999_999, True),
    ("arrived_at", "this morning", True),
])
def test_a_value_that_cannot_be_used_is_kept_and_left_to_the_judgement(whole, path, value, is_listed):
    """Nothing is lost on the phone: it is listed with its place and a sentence, and refused at signing only."""
    changed = put(whole, path, value)
    assert read_delivery(changed).body == changed
    assert bool(judge(changed)["unusable"]) == is_listed


@pytest.mark.parametrize("document", [None, [], 7, "x", True])
def test_what_is_no_document_is_refused(document):
    assert refused(document)["code"] == "DOC-SHAPE"
    assert refused(document, read_addendum)["code"] == "ADDENDUM-SHAPE"
    assert refused(document, read_ice_check)["code"] == "CHECK-SHAPE"


@pytest.mark.parametrize("schema", [None, 0, 2, "1", 1.0, True])
def test_another_edition_of_documents_is_refused_with_what_to_do(whole, schema):
    assert refused({**whole, "schema": schema})["code"] == "DOC-SCHEMA"


@pytest.mark.parametrize(("path", "value", "what"), [
    ("body.cartons.0.count", 2.0, "body, carton 1, count: a number where a whole number belongs"),
    ("body.cartons.0.count", 0, "body, carton 1, count: a number beyond 1"),
    ("body.cartons.0.count", 5001, "body, carton 1, count: a number beyond 5000"),
    ("body.cartons.0.liner_closed", "yes", "body, carton 1, liner closed: text where yes or no belongs"),
    ("kind", "return", "kind: 'return' is not known here"),
    ("body.text", "x", "body: “text” is not known here"),
])
def test_another_shape_of_a_put_away_is_refused_with_its_place(whole, path, value, what):
    assert refused(put(a_put_away(whole), path, value), read_addendum) == {"code": "ADDENDUM-SHAPE", "what": what}


def test_the_types_of_the_phone_are_those_of_the_schema():
    """The type checker holds its screens to them. Made anew by ``python -m fixtures.api_types``."""
    assert api_types.DOCUMENTS.read_text(encoding="utf-8") == api_types.of_documents()
    assert api_types.ANSWERS.read_text(encoding="utf-8") == api_types.of_answers()
