"""Open documents: by revision, by docket, by person; every request may come twice or late."""
import json

import pytest

from inspections.people.models import Device
from inspections.records.models import Job, PhotoUse
from inspections.sync.docket import docket_key
from inspections.sync.models import Document, DocumentRevision, NamedPhoto
from tests.inspections.receiving import OTHER_DEVICE, Phone, document, photo_entry, picture, sha256_of


def test_a_new_document_is_kept_as_revision_1(kitchen, phone):
    draft = document(kitchen)
    answer = phone.put(draft)
    assert answer.status_code == 201
    assert answer.json() == {"revision": 1}
    assert answer["ETag"] == '"1"'
    read = phone.client.get(f"/sync/documents/{draft['id']}")
    assert read.json()["document"] == draft
    assert read["ETag"] == '"1"'


def test_each_change_is_a_revision_and_all_are_kept(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    for base, note in ((1, "b"), (2, "c")):
        assert phone.put({**draft, "notes": note}, base).json() == {"revision": base + 1}
    kept = DocumentRevision.objects.order_by("revision")
    assert [row.body["notes"] for row in kept] == ["", "b", "c"]


def test_late_and_repeated_requests_in_any_order_change_nothing(kitchen, phone):
    draft = document(kitchen)
    second, third = {**draft, "notes": "b"}, {**draft, "notes": "c"}
    asked = [(draft, 0), (second, 1), (third, 2)]
    answers = [phone.put(body, base).json() for body, base in asked]
    before = list(DocumentRevision.objects.values())
    for turn in ([0, 1, 2], [2, 1, 0], [1, 0, 2, 2, 0]):
        for which in turn:
            again = phone.put(*asked[which])
            assert again.json() == answers[which]
    assert list(DocumentRevision.objects.values()) == before
    assert Document.objects.get().body == third


def test_the_same_entries_as_the_current_ones_are_no_new_revision(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    assert phone.put(draft, 1).json() == {"revision": 1}
    assert DocumentRevision.objects.count() == 1


def test_going_back_to_earlier_entries_is_a_new_revision(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    phone.put({**draft, "notes": "b"}, 1)
    assert phone.put(draft, 2).json() == {"revision": 3}


def test_a_second_device_gets_both_versions_and_overwrites_nothing(kitchen, phone, other_phone):
    draft = document(kitchen)
    phone.put(draft, **{"X-Underlid-Device": "dock phone"})
    phone.put({**draft, "notes": "mine"}, 1)
    theirs = {**draft, "device_id": OTHER_DEVICE, "notes": "theirs"}
    refused = other_phone.put(theirs, 1)
    assert refused.status_code == 412
    told = refused.json()
    assert told["code"] == "DOC-OTHER-REVISION"
    assert told["facts"]["revision"] == 2
    assert told["facts"]["person_name"] == "Mia Castel"
    assert told["facts"]["device_label"] == "dock phone"
    assert told["current"]["notes"] == "mine"
    assert Document.objects.get().body["notes"] == "mine"
    on_top = other_phone.put(theirs, 2, **{"X-Underlid-Replace": "yes"})
    assert on_top.json() == {"revision": 3}
    assert list(DocumentRevision.objects.order_by("revision").values_list("is_replacement", flat=True)) == [
        False, False, True
    ]


def test_two_documents_on_one_docket_are_a_choice(kitchen, phone, other_phone):
    first = document(kitchen, docket="DN-5530")
    phone.put(first)
    second = document(kitchen, docket=" dn 5530", device=OTHER_DEVICE)
    refused = other_phone.put(second)
    assert refused.status_code == 409
    assert refused.json()["code"] == "DOCKET-OPEN-ELSEWHERE"
    assert refused.json()["facts"]["other_id"] == first["id"]
    assert Document.objects.count() == 1
    apart = other_phone.put({**second, "separate_from": first["id"]})
    assert apart.status_code == 201
    assert Document.objects.count() == 2


def test_a_docket_may_be_typed_later_and_then_counts(kitchen, phone, other_phone):
    phone.put(document(kitchen, docket="7731"))
    second = document(kitchen, docket="")
    assert other_phone.put(second).status_code == 201
    assert other_phone.put({**second, "docket_number": "77-31"}, 1).json()["code"] == "DOCKET-OPEN-ELSEWHERE"


@pytest.mark.parametrize(("one", "other", "is_same"), [
    ("DN-5530", "dn5530", True),
    ("DN 5530", "D N–5530", True),
    ("DN\u201155\u00a030", "DN5530", True),
    ("ＤＮ5530", "dn−5530", True),
    ("DN-5530", "DN-5531", False),
    ("DN/5530", "DN5530", False),
    ("0123", "123", False),
])
def test_dockets_are_the_same_but_for_case_blanks_and_dashes(one, other, is_same):
    assert (docket_key(one) == docket_key(other)) is is_same


@pytest.mark.parametrize(("part", "value", "code"), [
    ("schema", 2, "DOC-SCHEMA"),
    ("schema", None, "DOC-SCHEMA"),
    ("id", "018f0000-0000-7000-8000-00000000ffff", "DOC-ID-DIFFERS"),
    ("site_id", "harbour", "DOC-SHAPE"),
    ("supplier_id", 7, "DOC-SHAPE"),
    ("supplier_id", "018f0000-0000-7000-8000-00000000ffff", "DOC-SUPPLIER"),
    ("device_id", None, "DOC-SHAPE"),
    ("lines", {}, "DOC-SHAPE"),
    ("photos", None, "DOC-SHAPE"),
    ("photos", [{"sha256": "../../etc/passwd"}], "DOC-SHAPE"),
    ("docket_number", "9" * 61, "DOC-SHAPE"),
    ("docket_number", 5530, "DOC-SHAPE"),
    ("notes", 2**60, "DOC-SHAPE"),
    ("notes", "a\x00b", "DOC-TEXT"),
    ("notes", "\ud800", "DOC-TEXT"),
])
def test_what_cannot_be_kept_is_refused_in_a_sentence(kitchen, phone, part, value, code):
    draft = document(kitchen)
    at = draft["id"]
    draft[part] = value
    answer = phone.client.put(
        f"/sync/documents/{at}", json.dumps(draft), content_type="application/json", headers={"If-None-Match": "*"}
    )
    assert answer.status_code == 422, answer.content
    assert answer.json()["code"] == code
    assert "nvalid" not in answer.json()["sentence"]
    assert not Document.objects.exists()


@pytest.mark.parametrize("field", ["id", "purpose", "line_id", "sha256"])
def test_a_photo_entry_that_cannot_be_filed_is_refused(kitchen, phone, field):
    entry = {**photo_entry(picture()), field: "nonsense"}
    assert phone.put(document(kitchen, photos=[entry])).json()["code"] == "DOC-SHAPE"


@pytest.mark.parametrize("headers", [{}, {"If-Match": "1"}, {"If-Match": "*"}, {"If-None-Match": '"1"'}])
def test_without_a_word_on_what_it_builds_on_nothing_is_kept(kitchen, phone, headers):
    """428 Precondition Required: RFC 6585 section 3 (from memory)."""
    draft = document(kitchen)
    answer = phone.client.put(
        f"/sync/documents/{draft['id']}", json.dumps(draft), content_type="application/json", headers=headers
    )
    assert answer.status_code == 428
    assert answer.json()["code"] == "DOC-NO-PRECONDITION"


def test_a_document_that_the_server_lost_can_come_again_as_new(kitchen, phone):
    draft = document(kitchen)
    refused = phone.put(draft, 4)
    assert refused.status_code == 412
    assert refused.json()["facts"]["revision"] == 0
    assert phone.client.put(
        f"/sync/documents/{draft['id']}", json.dumps(draft), content_type="application/json",
        headers={"If-Match": '"0"'},
    ).status_code == 201


@pytest.mark.parametrize("body", [b"{", b"[1,2", b'{"schema":NaN}', b"[" * 20000])
def test_what_is_no_json_is_refused_in_a_sentence(kitchen, phone, body):
    answer = phone.client.put(
        f"/sync/documents/{document(kitchen)['id']}", body, content_type="application/json",
        headers={"If-None-Match": "*"},
    )
    assert answer.status_code == 400
    assert answer.json()["code"] == "NOT-JSON"


def test_another_site_sees_and_changes_nothing(kitchen, phone):
    draft = document(kitchen)
    phone.put(draft)
    stranger = Phone(kitchen.stranger)
    assert stranger.client.get(f"/sync/documents/{draft['id']}").status_code == 403
    assert stranger.put({**draft, "notes": "x"}, 1).status_code == 403
    moved = {**draft, "site_id": str(kitchen.other_site.pk)}
    assert stranger.put(moved, 1).status_code == 403
    assert Document.objects.get().revision == 1


@pytest.mark.parametrize("address", ["/sync/reference", "/sync/documents/{id}", "/sync/advisories?delivery={id}"])
def test_nobody_unknown_gets_anything(kitchen, client, address):
    answer = client.get(address.format(id=document(kitchen)["id"]))
    assert answer.status_code == 401
    assert answer.json()["code"] == "SIGN-IN-FIRST"


def test_a_request_from_another_page_is_refused(kitchen):
    from django.test import Client

    strict = Client(enforce_csrf_checks=True)
    strict.force_login(kitchen.receiver)
    draft = document(kitchen)
    answer = strict.put(f"/sync/documents/{draft['id']}", json.dumps(draft), content_type="application/json",
                        headers={"If-None-Match": "*"})
    assert answer.status_code == 403
    assert answer.json()["code"] == "PAGE-STALE"


def test_the_phone_is_remembered_with_its_label(kitchen, phone):
    phone.put(document(kitchen), **{"X-Underlid-Device": "dock phone"})
    device = Device.objects.get()
    assert device.person == kitchen.receiver
    assert device.label == "dock phone"


@pytest.mark.parametrize(("sign", "name"), [("\x00", "NUL"), ("\ud83d", "half a surrogate pair")])
def test_a_sign_that_no_database_keeps_is_refused_with_its_place(kitchen, phone, sign, name):
    draft = document(kitchen)
    draft["lines"][0]["cartons"][1]["note"] = f"cold{sign}"
    answer = phone.put(draft)
    assert answer.status_code == 422, name
    assert answer.json()["code"] == "DOC-TEXT"
    assert answer.json()["facts"] == {"where": "line 1, carton 2, note"}
    assert not Document.objects.exists()
    draft["lines"][0]["cartons"][1]["note"] = "cold"
    draft[f"odd{sign}"] = 1
    assert phone.put(draft).json()["code"] == "DOC-TEXT"
    del draft[f"odd{sign}"]
    assert phone.put(draft).status_code == 201


def test_a_photo_taken_out_of_a_document_is_no_longer_named_by_it(kitchen, phone):
    """It may still be on its way: when it arrives it belongs nowhere, and nobody is asked for advice on it."""
    out, kept = picture("coral"), picture("pink")
    draft = document(kitchen, photos=[photo_entry(out), photo_entry(kept)])
    phone.put(draft)
    phone.put({**draft, "photos": draft["photos"][1:]}, 1)
    assert list(NamedPhoto.objects.values_list("sha256", flat=True)) == [sha256_of(kept)]
    phone.send_photo(out)
    assert not PhotoUse.objects.exists()
    assert not Job.objects.exists()
    phone.send_photo(kept)
    assert [use.photo_id for use in PhotoUse.objects.all()] == [sha256_of(kept)]
    phone.put({**draft, "notes": "taken in again"}, 2)
    assert set(NamedPhoto.objects.values_list("sha256", flat=True)) == {sha256_of(out), sha256_of(kept)}
    assert {use.photo_id for use in PhotoUse.objects.all()} == {sha256_of(out), sha256_of(kept)}
