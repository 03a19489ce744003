"""What a receiver found of black spot: read once, at signing, and kept in the carton's row."""
from datetime import UTC, datetime, timedelta, timezone

import pytest

from inspections.records.black_spot import BEYOND, NONE, WITHIN, found_of
from inspections.records.models import BlackSpot, Carton, Delivery
from inspections.records.services.delivery import receiver_signed_at
from tests.factories import a_carton, a_document, a_line, decided, sign_delivery


@pytest.mark.parametrize(
    ("pieces", "looked_at", "checks", "found"),
    [
        ({"black_spot": 3}, 20, {"black_spot": "within"}, WITHIN),
        ({"black_spot": 3}, 20, {"black_spot": "beyond"}, BEYOND),
        ({"black_spot": 3}, 20, {}, WITHIN),
        ({"black_spot": 0}, 20, {"black_spot": "within"}, NONE),
        ({"black_spot": 0, "black_spot_meat": 1}, 20, {"black_spot_meat": "beyond"}, BEYOND),
        ({"black_spot_meat": 1}, 20, {"black_spot_meat": "within"}, WITHIN),
        # not looked for is nothing to compare with, and never "none" (CV-0-06)
        ({"black_spot_meat": 0}, 20, {}, None),
        ({"broken": 2}, 20, {}, None),
        ({}, 20, {}, None),
        ({"black_spot": 0}, None, {}, None),
        ({"black_spot": 0}, 0, {}, None),
        # numbers that cannot be
        ({"black_spot": 21}, 20, {}, None),
        ({"black_spot": -1}, 20, {}, None),
        ({"black_spot": True}, 20, {}, None),
        ({"black_spot": "3"}, 20, {}, None),
        ({"black_spot": 0}, True, {}, None),
    ],
)
def test_what_the_receiver_found(pieces, looked_at, checks, found):
    assert found_of(pieces, looked_at, checks) == found


def test_the_words_of_the_row_are_those_of_the_reading():
    assert set(BlackSpot.values) == {BEYOND, WITHIN, NONE}


def test_signing_keeps_what_was_found_and_when_the_receiver_signed(cast):
    pieces = [{"black_spot": 2}, {"black_spot": 15}, {"black_spot": 0}, {"broken": 0}]
    cartons = [a_carton(position, pieces=found) for position, found in enumerate(pieces, start=1)]
    document = decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver,
                                  a_line(cast.version, *cartons, counted=4)))
    sign_delivery(document=document, person=cast.receiver)
    found = dict(Carton.objects.values_list("position", "black_spot"))
    assert found == {1: "within", 2: "beyond", 3: "none", 4: ""}
    assert Delivery.objects.get().receiver_signed_at == datetime(2026, 11, 25, 6, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("at", "kept"),
    [
        ("2026-11-25T16:30:00+10:00", datetime(2026, 11, 25, 16, 30, tzinfo=timezone(timedelta(hours=10)))),
        ("2026-11-25T06:30:00Z", datetime(2026, 11, 25, 6, 30, tzinfo=UTC)),
        ("2026-11-25T06:30:00", None),  # no offset: nobody knows which clock
        ("last Tuesday", None),
        (None, None),
        (7, None),
        # clocks that were never set: no moment that a database can keep in UTC
        ("0001-01-01T00:00:00+10:00", None),
        ("9999-12-31T23:59:00-10:00", None),
    ],
)
def test_when_the_receiver_signed_by_the_phone(at, kept):
    assert receiver_signed_at({"signatures": {"receiver": {"at": at}}}) == kept


@pytest.mark.parametrize("document", [{}, {"signatures": None}, {"signatures": {"receiver": None}}])
def test_a_document_without_a_signature_tells_none(document):
    assert receiver_signed_at(document) is None
