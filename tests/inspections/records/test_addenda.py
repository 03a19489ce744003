"""After signing: put-away and corrections are added, nothing signed is altered."""
from copy import deepcopy

import pytest
from django.db.models import F

from inspections.errors import Conflict, Forbidden, Unprocessable
from inspections.records.models import Addendum, Delivery, DocketLine, PutAway
from tests.factories import a_document, a_line, a_put_away, add_addendum, decided, fresh_id, sign_delivery
from tests.inspections.tamper import behind


@pytest.fixture
def document(cast) -> dict:
    return decided(a_document(cast.quay, cast.supplier, cast.limits, cast.receiver, a_line(cast.version, counted=6)))


@pytest.fixture
def delivery(cast, document) -> Delivery:
    return sign_delivery(document=document, person=cast.receiver)


def add(cast, delivery, addendum, person=None) -> Addendum:
    return add_addendum(delivery=delivery, addendum=addendum, person=person or cast.receiver)


def test_putting_everything_away_closes_the_delivery(cast, document, delivery):
    row = add(cast, delivery, a_put_away(document))
    put = row.put_aways.get()
    assert (put.count, put.position, put.liner_closed, put.minutes_out) == (6, "shelf 2 left", True, 8.0)
    assert Delivery.objects.get().state == "put_away"
    assert Delivery.objects.get().document == document


def test_putting_a_part_away_leaves_it_open_until_the_rest_is(cast, document, delivery):
    add(cast, delivery, a_put_away(document, 4))
    assert Delivery.objects.get().state == "signed"
    add(cast, delivery, a_put_away(document, 2))
    assert Delivery.objects.get().state == "put_away"


def test_more_than_was_kept_is_refused_and_nothing_is_written(cast, document, delivery):
    add(cast, delivery, a_put_away(document, 4))
    with pytest.raises(Unprocessable) as caught:
        add(cast, delivery, a_put_away(document, 3))
    assert (caught.value.code, caught.value.facts) == ("PUT-AWAY-COUNT", {"line": 1, "count": 7, "kept": 6})
    assert PutAway.objects.count() == Addendum.objects.count() == 1


def test_the_same_addendum_again_is_the_same(cast, document, delivery):
    addendum = a_put_away(document, 4)
    assert add(cast, delivery, addendum) == add(cast, delivery, deepcopy(addendum))
    assert PutAway.objects.count() == 1


def test_another_addendum_under_the_same_id_is_refused(cast, document, delivery):
    addendum = a_put_away(document, 4)
    add(cast, delivery, addendum)
    with pytest.raises(Conflict) as caught:
        add(cast, delivery, {**addendum, "kind": "correction", "body": {"text": "other", "reason": ""}})
    assert caught.value.code == "ADDENDUM-OTHER"


def test_a_correction_is_kept_in_its_own_words(cast, document, delivery):
    correction = a_put_away(document, kind="correction", body={"text": "Lot is L43", "reason": "misread"})
    assert add(cast, delivery, correction).body == {"text": "Lot is L43", "reason": "misread"}
    assert Delivery.objects.get().lines.get().lot == "L42"


def test_in_before_out_is_refused(cast, document, delivery):
    addendum = a_put_away(document)
    addendum["body"]["cartons"][0]["in_at"] = "2026-11-25T06:30:59+00:00"
    with pytest.raises(Unprocessable) as caught:
        add(cast, delivery, addendum)
    assert caught.value.code == "PUT-AWAY-TIME"


def test_where_all_was_refused_nothing_went_into_the_freezer(cast, document, delivery):
    behind(DocketLine).update(accepted=0, held=0, refused=F("accepted") + F("held") + F("refused"))
    addendum = add(cast, delivery, {**a_put_away(document), "body": {"cartons": [], "freezer_air": None}})
    assert addendum.delivery.state == "put_away"
    assert not addendum.put_aways.exists()


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"id": "x"}, "ADDENDUM-SHAPE"),
        ({"delivery_id": fresh_id()}, "ADDENDUM-SHAPE"),
        ({"kind": "deletion"}, "ADDENDUM-SHAPE"),
        ({"at": "now"}, "ADDENDUM-SHAPE"),
        ({"body": None}, "ADDENDUM-SHAPE"),
        ({"body": {"cartons": []}}, "ADDENDUM-EMPTY"),
        ({"body": {"cartons": [{"line_id": fresh_id(), "count": 1}]}}, "PUT-AWAY-LINE"),
        ({"kind": "correction", "body": {"text": " "}}, "ADDENDUM-EMPTY"),
    ],
)
def test_what_cannot_be_added_is_refused(cast, document, delivery, changes, code):
    with pytest.raises(Unprocessable) as caught:
        add(cast, delivery, {**a_put_away(document), **changes})
    assert caught.value.code == code
    assert not Addendum.objects.exists()


def test_another_sites_receiver_cannot_add(cast, document, delivery):
    with pytest.raises(Forbidden):
        add(cast, delivery, a_put_away(document), person=cast.other_receiver)
