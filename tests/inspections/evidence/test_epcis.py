"""A sealed delivery as EPCIS 2.0 events: as the schema asks, with what a receiver keeps for tracing."""
import copy
import json
from datetime import datetime
from pathlib import Path

import jsonschema_rs
import pytest
from django.test import Client

from inspections.evidence.epcis import epcis_document
from inspections.evidence.models import Seal, SealKind
from inspections.evidence.seals import content_of
from inspections.records.models import Delivery
from tests.inspections.receiving import decide, document
from tests.published import HOUSE, published

#: EPCIS 2.0's own JSON schema (``epcis_schema/README.md``), with times and addresses held to their formats.
SCHEMA = jsonschema_rs.Draft7Validator(
    json.loads((Path(__file__).parent / "epcis_schema" / "epcis_2_0.json").read_text("utf-8")), validate_formats=True)
EXAMPLE = json.loads((HOUSE / "fixtures" / "published" / "epcis_receiving.json").read_text("utf-8"))["document"]
SCAN = "]C1011952123400017131020010001528030010PRN-24A"


@pytest.fixture
def sealed(kitchen, phone):
    """Signs a delivery, changed by the given function, and gives its events."""
    def make(change=lambda draft: None, **decided):
        draft = document(kitchen)
        change(draft)
        assert phone.sign(decide(draft, **decided)).status_code == 200
        seal = Seal.objects.get(kind=SealKind.DELIVERY)
        told = epcis_document(content_of(seal), base="https://desk.example", recorded_at=seal.sealed_at)
        assert problems(told) == []
        return told
    return make


def events(told: dict) -> list[dict]:
    return told["epcisBody"]["eventList"]


def problems(document: dict) -> list[str]:
    return [error.message for error in SCHEMA.iter_errors(document)]


def without(name: str) -> dict:
    changed = copy.deepcopy(EXAMPLE)
    del events(changed)[0][name]
    return changed


def with_(**fields) -> dict:
    changed = copy.deepcopy(EXAMPLE)
    events(changed)[0].update(fields)
    return changed


@published("CV-8.7-01", source="EPCIS 2.0 JSON schema", known="computed")
def test_the_invented_example_passes_and_each_thing_left_out_is_one_error():
    assert problems(EXAMPLE) == []
    assert problems(without("action")) == ['"action" is a required property']
    assert problems(without("eventTimeZoneOffset")) == ['"eventTimeZoneOffset" is a required property']
    bare = copy.deepcopy(EXAMPLE)
    for name in ("epcList", "quantityList", "sensorElementList"):
        del events(bare)[0][name]
    assert problems(bare)


@published("CV-8-130", source="EPCIS 2.0 examples", known="read")
@published("CV-8-131", source="EPCIS JSON schema", known="read")
def test_every_event_of_a_delivery_has_what_is_always_required(sealed):
    told = sealed()
    assert problems(told) == []
    assert {name for name in told if name[0] != "@"} == {"type", "schemaVersion", "creationDate", "epcisBody"}
    assert (told["type"], told["schemaVersion"]) == ("EPCISDocument", "2.0")
    for event in events(told):
        assert {"type", "eventTime", "eventTimeZoneOffset", "action"} <= set(event)


@published("CV-8-132 to 134", source="EPCIS 2.0 JSON schema", known="read")
def test_what_was_received_is_observed_and_no_master_data_is_claimed(sealed):
    receiving, accepting = events(sealed())
    assert receiving["quantityList"][0]["quantity"] == 20
    assert (receiving["bizStep"], accepting["bizStep"]) == ("receiving", "accepting")
    assert {event["action"] for event in (receiving, accepting)} == {"OBSERVE"}
    assert "ilmd" not in receiving
    assert problems(with_(ilmd={"ex:lot": "1"}))
    for step in ("receiving", "arriving", "accepting", "inspecting", "unloading", "sampling", "storing", "holding"):
        assert problems(with_(bizStep=step)) == []


@published("CV-8-135", source="EPCIS 2.0 JSON schema", known="read")
@pytest.mark.parametrize(
    ("kind", "step", "disposition"),
    [("accept", "accepting", "conformant"), ("reject", "inspecting", "non_conformant"),
     ("hold", "holding", "in_progress")],
)
def test_each_decision_has_its_step_and_its_disposition(sealed, kind, step, disposition):
    decided = events(sealed(kind=kind, reason="as agreed on the telephone"))[1]
    assert (decided["bizStep"], decided["disposition"], decided["rd:decision"]) == (step, disposition, kind)
    assert decided["quantityList"][0]["quantity"] == 20
    assert problems(with_(disposition=disposition)) == []


@published("CV-8-136", source="EPCIS 2.0 JSON schema", known="read")
def test_what_is_not_as_the_papers_say_is_set_as_a_lasting_mark(sealed):
    def change(draft):
        line = draft["lines"][0]
        line["cartons_counted"] = 18
        line["cartons"][0]["label"]["species_code"] = "GIT"
        line["cartons"][0]["label"]["scientific_name"] = ""

    receiving = events(sealed(change))[0]
    assert receiving["persistentDisposition"] == {"set": ["mismatch_class", "mismatch_quantity"]}
    assert receiving["quantityList"][0]["quantity"] == 18
    assert problems(with_(persistentDisposition={"was": []}))


def test_nothing_wrong_sets_no_mark(sealed):
    assert "persistentDisposition" not in events(sealed())[0]


@published("CV-8-137 to 138", source="EPCIS 2.0 JSON schema", known="read")
def test_papers_and_parties_have_their_types(sealed, kitchen):
    receiving = events(sealed())[0]
    assert [paper["type"] for paper in receiving["bizTransactionList"]] == ["po", "desadv"]
    assert receiving["bizTransactionList"][0]["bizTransaction"].endswith("/PO-88")
    assert receiving["bizTransactionList"][1]["bizTransaction"].endswith("/DN-5530")
    assert receiving["sourceList"] == [
        {"type": "possessing_party", "source": f"https://desk.example/suppliers/{kitchen.supplier.pk}"}]
    assert receiving["destinationList"][0]["type"] == "location"
    assert problems(with_(bizTransactionList=[{"type": "letter", "bizTransaction": "urn:x:y"}]))


@published("CV-8-139 to 141", source="EPCIS 2.0 JSON schema, by validation", known="computed")
def test_offsets_units_and_words_are_those_of_the_lists(sealed):
    receiving = events(sealed())[0]
    assert (receiving["eventTime"], receiving["eventTimeZoneOffset"]) == ("2026-11-25T06:10:00+11:00", "+11:00")
    assert problems(with_(eventTimeZoneOffset="+14:00")) == []
    assert problems(with_(eventTimeZoneOffset="+15:00"))
    assert problems(with_(quantityList=[{"epcClass": "urn:x:y", "quantity": 1, "uom": "KGM"}])) == []
    assert problems(with_(quantityList=[{"epcClass": "urn:x:y", "quantity": 1, "uom": "kg"}]))
    reports = [part["sensorReport"][0] for part in receiving["sensorElementList"]]
    assert {report["uom"] for report in reports} == {"CEL"}
    assert reports[0]["value"] == -19.4
    assert (reports[-1]["minValue"], reports[-1]["maxValue"], reports[-1]["meanValue"]) == (-19.4, -19.4, -19.4)
    # without a check of formats the schema lets these pass: a word that is none of its own has to be an address
    assert problems(with_(bizStep="receive"))
    assert problems(with_(decision="accepted"))
    assert problems(with_(eventTime="yesterday"))


@published("CV-8-142", source="EPCIS 2.0 examples", known="read")
def test_own_fields_carry_the_declared_prefix(sealed):
    told = sealed()
    assert told["@context"] == [
        "https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld", {"rd": "https://desk.example/how/receiving/"}]
    own = [name for event in events(told) for name in event if ":" in name]
    assert own
    assert all(name.startswith("rd:") for name in own)


@published("CV-8-21", source="21 CFR 1.1345(a)", known="read")
@published("CV-8-28", source="21 CFR 1.1345", known="read")
def test_the_eight_things_that_a_receiver_keeps_are_there(sealed):
    receiving = events(sealed())[0]
    line = receiving["rd:lines"][0]
    assert line["rd:lotCode"] == "L2608"  # 1
    assert (line["rd:quantity"], line["rd:unit"]) == (20, "cartons")  # 2: two fields
    assert line["rd:description"] == "Whiteleg, headless shell-on 16/20"  # 3
    assert receiving["rd:receivedFrom"] == "Cold Reach Seafood"  # 4
    assert receiving["rd:receivedAt"] == "Harbour kitchen"  # 5
    assert receiving["rd:receivedOn"] == "2026-11-25"  # 6
    assert receiving["rd:lotCodeSource"] == "Cold Reach Seafood"  # 7
    assert {"rd:type": "docket", "rd:number": "DN-5530"} in receiving["rd:papers"]  # 8


def test_a_scanned_label_names_the_goods_by_their_digital_link(sealed):
    def change(draft):
        draft["lines"][0]["cartons"][1]["label"]["scan"] = "not a code"
        draft["lines"][0]["cartons"][2]["label"]["scan"] = SCAN

    for event in events(sealed(change)):
        assert event["quantityList"][0]["epcClass"] == "https://id.gs1.org/01/19521234000171/10/PRN-24A"


def test_goods_without_a_scan_are_named_below_the_installation(sealed, kitchen):
    name = events(sealed())[0]["quantityList"][0]["epcClass"]
    assert name == f"https://desk.example/goods/{kitchen.whiteleg.pk}/10/L2608"


def test_a_second_export_is_the_same_event_and_not_another(sealed):
    told = sealed()
    seal = Seal.objects.get(kind=SealKind.DELIVERY)
    again = epcis_document(content_of(seal), base="https://desk.example", recorded_at=seal.sealed_at)
    assert again == told
    assert len({event["eventID"] for event in events(told)}) == len(events(told))
    assert datetime.fromisoformat(events(told)[0]["recordTime"]).tzinfo is not None


def test_a_delivery_that_was_not_probed_has_no_sensor_element(sealed):
    def change(draft):
        for carton in draft["lines"][0]["cartons"]:
            carton["temperature"] = None

    told = sealed(change, kind="hold", reason="no thermometer")
    assert "sensorElementList" not in events(told)[0]
    assert problems(told) == []


def test_people_of_the_site_get_the_file_and_nobody_else(sealed, kitchen):
    sealed()
    address = f"/api/deliveries/{Delivery.objects.get().pk}/epcis"
    statuses = {}
    for person in (kitchen.receiver, kitchen.manager, kitchen.stranger):
        client = Client()
        client.force_login(person)
        statuses[person.username] = client.get(address)
    assert [answer.status_code for answer in statuses.values()] == [200, 200, 404]
    answer = statuses["mia"]
    assert answer["Content-Type"] == "application/ld+json"
    assert answer["Content-Disposition"] == 'attachment; filename="events-HAR-DN-5530.jsonld"'
    assert problems(answer.json()) == []
    assert Client().get(address).status_code in (401, 403)


def test_a_delivery_that_is_not_there_or_not_sealed_is_not_found(kitchen):
    client = Client()
    client.force_login(kitchen.manager)
    answer = client.get("/api/deliveries/018f0000-0000-7000-8000-000000000000/epcis")
    assert (answer.status_code, answer.json()["code"]) == (404, "NOT-FOUND")
