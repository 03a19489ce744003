"""A docket or lot is found as people read it, and a lot leads to the freezer that it went into."""
from importlib import import_module

import pytest
from django.apps import apps
from django.db import connection
from django.test.utils import CaptureQueriesContext

from inspections.records.models import Carton, Delivery, DocketLine, Freezer, LineLot, SearchWord
from inspections.records.search_words import words_of
from tests.factories import a_carton, a_document, a_line, a_put_away, add_addendum, decided, sign_delivery
from tests.inspections.tamper import Unguarded, behind


def labelled(position, lot, **changes):
    carton = a_carton(position)
    return {**carton, "label": {**carton["label"], "lot": lot, **changes}}


def signed(cast, *lines, site=None, person=None, **changes):
    person = person or cast.receiver
    document = decided(a_document(site or cast.quay, cast.supplier, cast.limits, person, *lines, **changes))
    return sign_delivery(document=document, person=person)


def found(signed_in, person, words):
    return signed_in(person).get("/api/lots", {"q": words}).json()


@pytest.mark.parametrize(("number", "words"), [
    ("DN-5530", {"dn5530", "5530", "530"}),
    ("L2608-A", {"l2608a", "2608a", "a", "08a", "608a"}),
    ("4/17", {"417", "17"}),
    ("批次 88", {"批次88", "88", "次88"}),
    ("--", set()),
])
def test_the_words_of_a_number_begin_where_people_begin_to_read_it(number, words):
    assert words_of(number) == words


@pytest.mark.parametrize(("words", "count"), [
    ("DN-77120", 1), ("dn 77120", 1), ("77120", 1), ("7712", 1), ("120", 1), ("l2608", 1), ("L2608-A", 1), ("2608", 1),
    ("08a", 1), ("reef", 1), ("(invented)", 1), ("nothing", 0), ("-", 0), ("%", 0), ("_", 0), ("\U0010ffff", 0),
])
def test_deliveries_are_found_by_docket_lot_and_supplier(cast, signed_in, words, count):
    signed(cast, a_line(cast.version, labelled(1, "L2608-A"), counted=1, lot=""), docket_number="DN-77120")
    assert signed_in(cast.manager).get("/api/deliveries", {"q": words}).json()["count"] == count


def test_a_lot_on_one_carton_s_label_alone_is_found(cast, signed_in):
    line = a_line(cast.version, labelled(1, "L42"), labelled(2, "l-42"), labelled(3, "X9", best_before="2028-01-31"))
    delivery = signed(cast, line)
    [row] = found(signed_in, cast.manager, "x9")["rows"]
    assert (row["lot"], row["is_on_docket"], row["delivery_id"]) == ("X9", False, str(delivery.pk))
    assert row["labels"] == [{"position": 3, "best_before": "2028-01-31", "production_date": "2026-06-01"}]
    [row] = found(signed_in, cast.manager, "L 42")["rows"]
    assert (row["is_on_docket"], [label["position"] for label in row["labels"]]) == (True, [1, 2])


def test_one_step_back_and_one_step_forward(cast, signed_in):
    delivery = signed(cast, a_line(cast.version, counted=3, lot="L42"))
    freezer = Freezer.objects.create(site=cast.quay, name="Freezer 2")
    body = a_put_away(delivery.document, count=2)
    body["body"]["cartons"][0]["freezer_id"] = str(freezer.pk)
    add_addendum(delivery=delivery, addendum=body, person=cast.receiver)
    [row] = found(signed_in, cast.manager, "L42")["rows"]
    assert (row["supplier"]["code"], row["docket_number"]) == ("REEF", delivery.docket_number)
    assert (row["accepted"], row["refused"], row["not_put_away"], row["signed_by"]) == (3, 0, 1, "Receiver")
    assert row["put_away"] == [{"count": 2, "freezer": "Freezer 2", "position": "shelf 2 left",
                                "in_at": "2026-11-25T06:39:00+00:00", "by": "Receiver"}]


def test_lots_of_other_sites_are_not_told(cast, signed_in):
    signed(cast, a_line(cast.version, lot="L42"), site=cast.bend, person=cast.other_receiver)
    assert found(signed_in, cast.manager, "L42") == {"count": 0, "most": 200, "rows": []}
    assert found(signed_in, cast.group, "L42")["count"] == 1
    assert signed_in(cast.group).get("/api/lots").status_code == 400


def test_which_lots_are_shown_is_asked_of_few_tables(cast, signed_in):
    """PostgreSQL joins more than eight (join_collapse_limit) in the order written, and so would read every lot."""
    signed(cast, a_line(cast.version, lot="L42"))
    with CaptureQueriesContext(connection) as queries:
        assert found(signed_in, cast.manager, "L42")["count"] == 1
    choosing = [each["sql"] for each in queries if 'FROM "records_linelot"' in each["sql"] and " LIMIT " in each["sql"]]
    assert len(choosing) == 1
    assert choosing[0].count(" JOIN ") < 8
    assert "records_specification" not in choosing[0]


def test_rows_of_before_get_the_words_that_signing_would_have_written(cast):
    line = a_line(cast.version, labelled(1, "L42"), labelled(2, "X9"), counted=2, lot="L-42")
    signed(cast, line, docket_number="DN-7/8")

    def kept():
        return (list(LineLot.objects.order_by("key").values("line_id", "lot", "key", "is_on_docket", "labels")),
                sorted(SearchWord.objects.values_list("word", "lot__key", "delivery_id")),
                list(Delivery.objects.values_list("has_refused", "has_defective")))

    before = kept()
    SearchWord.objects.all().delete()
    LineLot.objects.all().delete()
    migration = import_module("inspections.records.migrations.0014_fill_search_words")
    behind(Delivery).update(has_refused=False, has_defective=False)
    behind(DocketLine).update(accepted=1, refused=1, held=0)
    behind(Carton).filter(position=1).update(is_defective=True)
    for _ in range(2):
        migration.fill(apps, None)
        migration.mark(Unguarded, None)
    assert kept() == (*before[:2], [(True, True)])
