"""Documents as earlier apps wrote them: a phone may come out of a drawer after months, and what it holds must be taken.

There has been one schema, number 1. Its editions have added keys and words and taken none away; ``FIRST`` has every
key, and each of the words, that the first app could write (25 November 2026).
"""
import copy

import pytest

from inspections.records.models import Delivery
from inspections.records.shape.delivery import SCHEMA
from inspections.records.shape.door import read_addendum, read_delivery
from inspections.sync.models import Document
from inspections.trade.facts import facts_from_document
from tests.inspections.receiving import decide, photo_entry, picture

CONTENT = picture("coral")
READING = {"entered": "-19,4", "unit": "C"}
WEIGHT = {"entered": "2010", "unit": "g"}
LABEL = {
    "source": "typed", "scan": "", "species_code": "PNV", "scientific_name": "Penaeus vannamei", "presentation": "HLSO",
    "state": "raw", "grade": "16/20", "net": {"entered": "2", "unit": "kg"}, "lot": "L2608",
    "production_date": "2026-06-02", "frozen_on": "2026-06-02", "best_before": "2028-06-01", "origin": "EC",
    "catch_area": "", "method": "farmed", "shows": ["name", "scientific_name", "method", "lot", "date"],
}
CARTON = {
    "id": "018f0000-0000-7000-8000-0000000000c1", "position": 3, "opened_at": "2026-11-25T06:13:00+11:00",
    "label": LABEL, "liner": "closed", "frost": "none", "refreezing": [],
    "temperature": {"product": READING, "method": "between_packs", "thermometer_id": None}, "looked_at": 20,
    "pieces": {"black_spot": 0, "black_spot_wide": 0, "black_spot_meat": 0, "dehydrated": 0, "broken": 0, "soft": 0,
               "heads": 0, "legs": 0, "tails": 0},
    "black_spot_score": 0, "odour": "sound", "foreign_matter": "none", "foreign_note": "",
    "weights": {"gross": WEIGHT, "tare": {"entered": "10", "unit": "g"}, "glazed": WEIGHT, "deglazed": WEIGHT},
    "sample": {"pieces": 36, "weight": {"entered": "907", "unit": "g"}, "weight_is": "deglazed", "largest": None,
               "smallest": None},
    "marks": {"answer": "agree", "seen": {"long_rostrum": True}}, "note": "",
}
#: Words of the first app, by the place in a carton where they stand.
WORDS = {
    "liner": ["closed", "open", "torn", "missing"], "frost": ["none", "some", "heavy"],
    "odour": ["sound", "slight", "off", "chemical"], "foreign_matter": ["none", "harmless", "hazard"],
    "refreezing": [["ice_pool"], ["deformed"], ["clumped"]],
    "temperature.method": ["between_packs", "core", "surface"],
    "sample.weight_is": ["deglazed", "glazed", "unglazed"], "marks.answer": ["agree", "disagree", "unsure"],
    "label.source": ["scan", "typed"],
}


@pytest.fixture
def first(kitchen) -> dict:
    """A delivery with every key that the first app wrote, in the middle of the walk."""
    entry = {**photo_entry(CONTENT), "line_id": "018f0000-0000-7000-8000-0000000000b1"}
    return {
        "schema": 1, "id": "018f0000-0000-7000-8000-0000000000a1", "site_id": str(kitchen.site.pk),
        "supplier_id": str(kitchen.supplier.pk), "order_id": str(kitchen.order.pk), "limits_id": str(kitchen.limits.pk),
        "docket_number": "DN-1", "arrived_at": "2026-11-25T06:10:00+11:00",
        "receiver": {"person_id": kitchen.receiver.pk, "name": "Mia Castel"},
        "device_id": "018f0000-0000-7000-8000-0000000000d1", "separate_from": None,
        "vehicle": {"air": READING, "load": "sound", "seal_number": "S-20417", "note": ""},
        "lines": [{
            "id": "018f0000-0000-7000-8000-0000000000b1", "order_line_id": None,
            "specification_id": str(kitchen.whiteleg.pk), "cartons_on_docket": 20, "cartons_counted": 20,
            "lot": "L2608",
            "sampling": {"plan": "house", "layers": 1, "seed": "tide", "n": 1, "acceptance": 0, "positions": [3]},
            "cartons": [CARTON], "suggested": None, "decision": None,
        }],
        "photos": [entry], "wording": None, "signatures": None, "notes": "",
    }


def test_the_first_app_s_document_is_taken_and_signed(first, phone):
    assert phone.put(first).status_code == 201
    phone.send_photo(CONTENT)
    final = decide(first)
    final["signatures"]["driver"] = {"refused": True, "reason": "In a hurry.", "at": "2026-11-25T06:23:00+11:00"}
    assert phone.put(final, 1).json() == {"revision": 2}
    answer = phone.sign(final)
    assert answer.status_code == 200, answer.content
    assert Delivery.objects.get().document == final


@pytest.mark.parametrize(("place", "word"), [(place, word) for place, words in WORDS.items() for word in words])
def test_every_word_that_it_knew_is_still_known(first, place, word):
    changed = copy.deepcopy(first)
    part = changed["lines"][0]["cartons"][0]
    *above, name = place.split(".")
    for step in above:
        part = part[step]
    part[name] = word
    read_delivery(changed)
    assert [one.path for one in facts_from_document(changed).unusable if name in one.path] == []


@pytest.mark.parametrize("body", [
    {"kind": "correction", "body": {"text": "Lot L2609.", "reason": "Misread."}},
    {"kind": "put_away", "body": {"cartons": [{
        "line_id": "018f0000-0000-7000-8000-0000000000b1", "count": 20,
        "freezer_id": "018f0000-0000-7000-8000-00000000f001", "position": "shelf 2", "liner_closed": True,
        "out_at": "2026-11-25T06:31:00+11:00",
        "in_at": "2026-11-25T06:39:00+11:00"}], "freezer_air": READING}},
], ids=["correction", "put away"])
def test_its_addenda_are_read(body):
    read_addendum({
        "id": "018f0000-0000-7000-8000-0000000000e1", "delivery_id": "018f0000-0000-7000-8000-0000000000a1",
        "at": "2026-11-25T06:40:00+11:00", "person": {"person_id": 1, "name": "Mia Castel"},
        "device_id": "018f0000-0000-7000-8000-0000000000d1", **body})


def test_a_document_that_lies_open_since_the_first_app_goes_on_with_the_new_one(first, phone):
    """What today's app adds to what the server keeps from then."""
    phone.put(first)
    newer = copy.deepcopy(first)
    newer["lines"][0]["cartons"][0]["dehydration"] = {"dried": {"entered": "10", "unit": "g"}}
    assert phone.put(newer, 1).json() == {"revision": 2}
    assert Document.objects.get().body == newer


def test_every_schema_there_has_been_is_read(first):
    """Fails when the number goes up without the documents of the one before."""
    assert set(range(1, SCHEMA + 1)) == {1}
    read_delivery(first)
