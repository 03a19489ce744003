"""Whatever is sent, the device protocol answers with a record or a sentence, and it hurts its own document only."""
import json
from copy import deepcopy
from uuid import uuid4

import pytest
from django.db import transaction

from inspections.records.models import Delivery, PhotoUse
from inspections.sync.models import Document, NamedPhoto
from tests.inspections.receiving import DEVICE, decide, document, photo_entry, picture, put_away, sha256_of

#: The first and the last year of the calendar, in time zones that push them out of it.
YEAR_1, YEAR_9999 = "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:00-12:00"
JUNK = (
    "", "x", 7, -1, 2.5, 1.0, True, None, [], ["x"], [[]], [{}], {}, {"x": 1}, {"entered": 1, "unit": "C"}, "9" * 400,
    10**18, 10**400, 1e300, YEAR_1, YEAR_9999, "2026-11-25", "\x00", "\ud800",
)


def places(part, path=()):
    """Every place of a document, as a path of keys."""
    entries = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
    for key, value in entries:
        yield (*path, key)
        yield from places(value, (*path, key))


def with_junk(whole: dict, path: tuple, junk) -> dict:
    changed = deepcopy(whole)
    part = changed
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = junk
    return changed


def tried(whole: dict, at_each: int) -> list[tuple]:
    """Places with what is put there: more kinds at the head, some in turn further in."""
    found = []
    for number, path in enumerate(places(whole)):
        turns = min(len(JUNK), 3 * at_each if len(path) == 1 else at_each)
        found += [(path, JUNK[(number * at_each + turn) % len(JUNK)]) for turn in range(turns)]
    return found


class RolledBack(Exception):
    """Ends each try without leaving a row for the next."""


def faults_of(cases: list[tuple], act) -> dict:
    """Where an act met a fault of the server's own, or answered without a sentence."""
    found = {}
    for path, junk in cases:
        try:
            with transaction.atomic():
                for answer in act(path, junk):
                    if answer.status_code >= 500 or (answer.status_code >= 400 and not answer.json()["sentence"]):
                        found[(path, repr(junk)[:40])] = answer.status_code
                raise RolledBack
        except RolledBack:
            pass
        except Exception as fault:  # every place is named at once, not only the first
            found[(path, repr(junk)[:40])] = repr(fault)[:200]
    return found


def test_a_set_of_limits_that_is_no_id_leaves_the_reference_of_the_site_whole(kitchen, phone, other_phone):
    sound, odd = document(kitchen, docket="DN-1"), document(kitchen, docket="DN-2")
    phone.put(sound)
    phone.put({**odd, "limits_id": {}})
    told = other_phone.client.get("/sync/reference")
    assert told.status_code == 200
    assert sound["id"] in {one["id"] for one in told.json()["open_documents"]}


@pytest.mark.parametrize("body", [
    {}, {"lines": 7}, {"lines": [7, None, {"specification_id": {}}]}, {"limits_id": []}, {"lines": {}, "photos": 3},
    {"docket_number": {"a": 1}}, {"photos": [7, {}, {"id": {}}], "lines": [{"id": []}]}, [], "text", 7,
])
def test_a_stored_document_that_cannot_be_read_hurts_itself_only(kitchen, phone, other_phone, body):
    """Rows of an older server, or of a hand in the database: others are told of, and this one is still listed."""
    sound = document(kitchen, docket="DN-1", photos=[photo_entry(picture())])
    odd = document(kitchen, docket="DN-2")
    phone.put(sound)
    phone.put(odd)
    Document.objects.filter(pk=odd["id"]).update(body=body)
    told = other_phone.client.get("/sync/reference")
    assert told.status_code == 200
    listed = {one["id"]: one["docket_number"] for one in told.json()["open_documents"]}
    assert listed == {sound["id"]: "DN-1", odd["id"]: ""}
    assert told.json()["limit_sets"]
    assert told.json()["specifications"]
    # A photo that both name arrives for the one that can be read.
    NamedPhoto.objects.create(document_id=odd["id"], sha256=sha256_of(picture()))
    phone.send_photo(picture())
    assert [str(use.delivery_id) for use in PhotoUse.objects.all()] == [sound["id"]]
    assert phone.client.get(f"/sync/documents/{odd['id']}").status_code == 200
    assert phone.client.get(f"/sync/advisories?delivery={odd['id']}").status_code == 200
    assert phone.put({**odd, "notes": "written anew"}, 1).status_code == 200


@pytest.mark.parametrize("moment", [YEAR_1, YEAR_9999])
def test_an_arrival_beyond_the_calendar_is_a_sentence_at_signing(kitchen, phone, moment):
    final = decide(document(kitchen))
    answer = phone.sign({**final, "arrived_at": moment})
    assert answer.status_code == 422
    assert not Delivery.objects.exists()


@pytest.mark.parametrize("reason", [7, True, ["x"], {"x": 1}])
def test_a_reason_that_is_no_text_is_a_sentence_at_signing(kitchen, phone, reason):
    final = decide(document(kitchen), kind="reject", reason="soft")
    final["lines"][0]["decision"]["reason"] = reason
    answer = phone.sign(final)
    assert answer.status_code == 422
    assert not Delivery.objects.exists()


def _whole(kitchen) -> dict:
    """A document in which every place is filled."""
    draft = document(kitchen)
    line = draft["lines"][0]
    del line["cartons"][1:]
    entry = photo_entry(picture(), line_id=line["id"], carton_id=line["cartons"][0]["id"], purpose="top")
    final = decide({**draft, "photos": [entry], "separate_from": str(uuid4())})
    final["lines"][0]["suggested"] = {"suggestion": "accept", "reasons": [{"code": "x", "measured": 1.5}]}
    return final


@pytest.mark.slow
def test_junk_in_any_place_of_an_open_document(kitchen, phone):
    whole = _whole(kitchen)
    phone.send_photo(picture())

    def act(path, junk):
        # The address is the document's own, else only the address would be looked at.
        changed = with_junk(whole, path, junk)
        yield phone.client.put(
            f"/sync/documents/{whole['id']}", json.dumps(changed), content_type="application/json",
            headers={"If-None-Match": "*"},
        )
        yield phone.client.get("/sync/reference")
        yield phone.client.get(f"/sync/advisories?delivery={whole['id']}")

    assert faults_of(tried(whole, 2), act) == {}


@pytest.mark.slow
def test_junk_in_any_place_of_what_is_signed(kitchen, phone):
    whole = _whole(kitchen)
    phone.send_photo(picture())
    act = lambda path, junk: [  # noqa: E731
        phone.client.post(
            f"/sync/documents/{whole['id']}/signature", json.dumps({"document": with_junk(whole, path, junk)}),
            content_type="application/json", headers={"Idempotency-Key": "key-for-signing-0001"},
        )
    ]
    assert faults_of(tried(whole, 2), act) == {}


def test_junk_in_any_place_of_a_put_away(kitchen, phone):
    final = decide(document(kitchen))
    assert phone.sign(final).status_code == 200
    whole = put_away(kitchen, final)
    at = f"/sync/deliveries/{final['id']}/addenda/{whole['id']}"
    act = lambda path, junk: [  # noqa: E731
        phone.client.put(at, json.dumps(with_junk(whole, path, junk)), content_type="application/json")
    ]
    assert faults_of(tried(whole, len(JUNK)), act) == {}


def test_junk_in_any_place_of_a_check_in_ice(kitchen, phone):
    from inspections.records.models import Thermometer

    probe = Thermometer.objects.create(site=kitchen.site, name="Probe 3")
    whole = {
        "id": str(uuid4()), "thermometer_id": str(probe.pk), "at": "2026-11-25T05:30:00+11:00",
        "reading": {"entered": "0,1", "unit": "C"}, "person": {"name": "Mia Castel"}, "device_id": DEVICE,
    }
    at = f"/sync/thermometers/{probe.pk}/checks/{whole['id']}"
    act = lambda path, junk: [  # noqa: E731
        phone.client.put(at, json.dumps(with_junk(whole, path, junk)), content_type="application/json")
    ]
    assert faults_of(tried(whole, len(JUNK)), act) == {}


@pytest.mark.parametrize("body", [
    b"7", b"null", b"[]", b'"x"', b'{"document": null}', b'{"document": []}', b'{"document": {"id": {}}}', b"{}",
    b"\xff\xfe", b"1" * 5000, b'{"a":' * 3000 + b"1" + b"}" * 3000, b'{"x": 1e999}', b'{"x": NaN}', b"",
])
def test_a_body_of_any_kind_is_answered_in_a_sentence(kitchen, phone, body):
    draft, probe = document(kitchen), uuid4()
    phone.put(draft)
    for send, at in (
        (phone.client.put, f"/sync/documents/{draft['id']}"),
        (phone.client.post, f"/sync/documents/{draft['id']}/signature"),
        (phone.client.put, f"/sync/deliveries/{draft['id']}/addenda/{probe}"),
        (phone.client.put, f"/sync/thermometers/{probe}/checks/{probe}"),
    ):
        answer = send(at, body, content_type="application/json",
                      headers={"If-Match": '"1"', "Idempotency-Key": "key-for-signing-0001"})
        assert 400 <= answer.status_code < 500, at
        assert answer.json()["sentence"]


@pytest.mark.parametrize("accepted", ["text/html", "text/html,application/xhtml+xml;q=0.9", "image/png", "nonsense"])
@pytest.mark.parametrize("address", ["/sync/reference", "/api/session", "/api/deliveries", "/sync/documents/{id}"])
def test_whatever_form_is_accepted_the_answer_is_the_same(kitchen, phone, accepted, address):
    draft = document(kitchen)
    phone.put(draft)
    at = address.format(id=draft["id"])
    plain = phone.client.get(at, headers={"Accept": "application/json"})
    asked = phone.client.get(at, headers={"Accept": accepted})
    assert (asked.status_code, asked["Content-Type"]) == (200, "application/json")
    assert {**asked.json(), "server_time": 0} == {**plain.json(), "server_time": 0}


def test_a_refusal_is_a_problem_with_its_details(kitchen, phone):
    """Members and media type: RFC 9457 sections 3 and 3.1; title for about:blank: section 4.2.1 (from memory)."""
    answer = phone.put({**document(kitchen), "lines": 7})
    told = answer.json()
    assert answer["Content-Type"] == "application/problem+json"
    assert told["type"] == "about:blank"
    assert (told["status"], told["title"]) == (422, "Unprocessable Entity")
    assert told["detail"] == told["sentence"]
    assert told["code"] == "DOC-SHAPE"
    missing = phone.client.get("/sync/nothing")
    assert (missing.status_code, missing["Content-Type"]) == (404, "application/problem+json")
    assert missing.json()["status"] == 404


def test_a_body_over_the_limit_is_a_sentence(kitchen, phone, settings):
    settings.DATA_UPLOAD_MAX_MEMORY_SIZE = 2 * 1024 * 1024
    answer = phone.put({**document(kitchen), "notes": "9" * 2_200_000})
    assert answer.status_code == 413
    assert answer.json()["facts"] == {"most_mb": 2}


def test_a_name_that_comes_twice_is_a_sentence(kitchen, phone):
    """RFC 7493 section 2.3: names in one object must not come twice (from memory)."""
    draft = document(kitchen)
    text = json.dumps(draft).replace('"docket_number"', '"notes": "", "docket_number"', 1)
    answer = phone.client.put(f"/sync/documents/{draft['id']}", text, content_type="application/json",
                              headers={"If-None-Match": "*"})
    assert answer.status_code == 400
    assert answer.json()["facts"] == {"name": "notes"}
    assert not Document.objects.exists()


def test_a_document_without_a_supplier_says_so(kitchen, phone):
    """As the phone starts one that no order stands behind: the supplier is still to be chosen."""
    answer = phone.put({**document(kitchen), "supplier_id": ""})
    assert (answer.status_code, answer.json()["code"]) == (422, "DOC-SUPPLIER")
