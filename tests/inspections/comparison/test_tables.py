"""Tables to take away: read again by other libraries, without formulas, page by page, of the own sites only."""
import csv
import io
from datetime import UTC, datetime

import pyarrow.parquet as pq
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from openpyxl import load_workbook

from inspections.comparison import table_files, tables
from inspections.comparison.tables import TABLES, dictionary
from inspections.people.models import Deed, Role
from inspections.records.models import DocketLine, LineLot
from inspections.records.shape.door import read_delivery
from inspections.sync.signing import sign
from tests.inspections.receiving import decide, document, make_kitchen

YEAR = {"from": "2026-01-01", "to": "2026-12-31"}


@pytest.fixture
def signed(db, client):
    kitchen = make_kitchen()
    sign(sent=read_delivery(decide(document(kitchen, bad=True))), person=kitchen.receiver)
    client.force_login(kitchen.manager)
    return kitchen


def take(client, name, kind):
    answer = client.get(f"/api/tables/{name}.{kind}", YEAR)
    assert answer.status_code == 200
    return b"".join(answer.streaming_content)


@pytest.mark.parametrize("name", TABLES)
def test_every_table_says_the_same_in_each_kind_of_file(signed, client, name):
    page = client.get(f"/api/tables/{name}", YEAR).json()
    table = TABLES[name]
    told = list(csv.reader(io.StringIO(take(client, name, "csv").decode("utf-8-sig"))))
    assert told[0] == page["columns"] == [column.name for column in table.columns]
    sheet = load_workbook(io.BytesIO(take(client, name, "xlsx")))[name]
    parquet = pq.read_table(io.BytesIO(take(client, name, "parquet")))
    if name == "put_aways":
        assert (page["rows"], len(told), parquet.num_rows) == ([], 1, 0)
        return
    assert len(page["rows"]) == len(told) - 1 == sheet.max_row - 1 == parquet.num_rows > 0
    assert parquet.schema.names == page["columns"]
    for place, column in enumerate(table.columns):
        assert parquet.schema.field(column.name).metadata[b"meaning"].decode() == column.meaning
        ours, theirs = page["rows"][0][place], parquet.column(column.name)[0].as_py()
        cell = sheet.cell(2, place + 1).value
        if isinstance(ours, int | float) or ours is None:
            assert theirs == ours == cell
        elif not isinstance(theirs, datetime):
            assert str(theirs) == ours
            assert told[1][place] == (f"'{ours}" if ours.startswith("-") else ours)


def test_the_receiving_sheet_has_what_the_rule_asks_for(signed, client):
    """21 CFR 1.1345(a)(1) to (8), read."""
    row = dict(zip(*(lambda page: (page["columns"], page["rows"][0]))(
        client.get("/api/tables/receiving", YEAR).json()), strict=True))
    lot, line = LineLot.objects.first(), DocketLine.objects.first()
    assert row["traceability_lot_code"] == lot.lot
    assert row["quantity"] == line.cartons_counted == 20
    assert row["product_description"] == "Whiteleg, headless shell-on 16/20"
    assert (row["previous_source"], row["lot_code_source"]) == ("Cold Reach Seafood",) * 2
    assert (row["received_at"], row["date_received"]) == ("Harbour kitchen", "2026-11-25")
    assert (row["docket_number"], row["order_number"]) == (line.delivery.docket_number, "PO-88")
    sheet = load_workbook(io.BytesIO(take(client, "receiving", "xlsx")))["receiving"]
    assert (sheet.freeze_panes, sheet.auto_filter.ref) == ("A2", f"A1:L{sheet.max_row}")
    paragraphs = {column.meaning[:6] for column in TABLES["receiving"].columns if column.meaning.startswith("(a)")}
    assert paragraphs == {f"(a)({number})" for number in range(1, 9)}


def test_no_cell_is_a_formula(db, client):
    kitchen = make_kitchen()
    draft = document(kitchen)
    draft["docket_number"] = "=1+2"
    sign(sent=read_delivery(decide(draft)), person=kitchen.receiver)
    client.force_login(kitchen.manager)
    told = list(csv.DictReader(io.StringIO(take(client, "deliveries", "csv").decode("utf-8-sig"))))
    assert told[0]["docket_number"] == "'=1+2"
    sheet = load_workbook(io.BytesIO(take(client, "deliveries", "xlsx")))["deliveries"]
    cell = sheet.cell(2, [each.value for each in sheet[1]].index("docket_number") + 1)
    assert (cell.value, cell.data_type) == ("=1+2", "s")


def test_pages_end_to_end_are_all_rows_once(dock, person, client):
    for month in range(1, 8):
        dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 2, 3, 1), ("PUD raw", 12, 0, 2, 0),
                      arrived_at=datetime(2026, month, 4, 6, 0, tzinfo=UTC))
    dock.delivery("Abalone", "Hill", ("HLSO raw", 20, 2, 3, 1))
    client.force_login(person(Role.SITE_MANAGER, dock.site("Harbour")))
    seen, after = [], ""
    while True:
        page = client.get("/api/tables/docket_lines", {**YEAR, "limit": 4, "after": after}).json()
        seen += [row[0] for row in page["rows"]]
        if not (after := page["next"]):
            break
    theirs = DocketLine.objects.filter(delivery__site=dock.site("Harbour"))
    assert seen == [str(pk) for pk in theirs.order_by("delivery__arrived_at", "pk").values_list("pk", flat=True)]
    elsewhere = str(DocketLine.objects.get(delivery__site=dock.site("Hill")).pk)
    assert Deed.objects.filter(what="table_taken", about="docket_lines").count() == 1
    for query, code in (({"after": "x"}, "TABLE-AFTER"), ({"after": elsewhere}, "TABLE-AFTER"),
                        ({"limit": "0"}, "TABLE-LIMIT"),
                        ({"limit": "9999"}, "TABLE-LIMIT")):
        assert client.get("/api/tables/docket_lines", {**YEAR, **query}).json()["code"] == code
    assert client.get("/api/tables/nothing").status_code == client.get("/api/tables/cartons.doc").status_code == 404


def test_a_page_reads_little_more_than_it_shows(dock, person, client, monkeypatch):
    """Years before the period are passed over by the index on arrivals, not read row by row."""
    monkeypatch.setattr(tables, "PART", 2)
    for month in range(1, 11):
        dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 2, 3, 1), arrived_at=datetime(2026, month, 4, tzinfo=UTC))
    client.force_login(person(Role.GROUP_OPERATIONS))
    with CaptureQueriesContext(connection) as queries:
        page = client.get("/api/tables/cartons", {**YEAR, "limit": 4}).json()
    assert len(page["rows"]) == 4
    assert len([each for each in queries if 'FROM "records_carton"' in each["sql"]]) == 1


@pytest.mark.parametrize(("zone", "hour", "is_in"), [
    ("Pacific/Kiritimati", 9, False), ("Pacific/Kiritimati", 10, True), ("Etc/GMT+12", 11, False),
    ("Etc/GMT+12", 12, True),
])
def test_days_are_those_of_the_site_s_own_clock(dock, person, client, zone, hour, is_in):
    """The year begins at 10:00 UTC of the day before fourteen hours east, at 12:00 UTC twelve hours west."""
    dock.site("Edge", zone)
    before = datetime(2026, 1, 1, tzinfo=UTC) if zone.startswith("Etc") else datetime(2025, 12, 31, tzinfo=UTC)
    dock.delivery("Abalone", "Edge", ("HLSO raw", 20, 2, 3, 1), arrived_at=before.replace(hour=hour))
    client.force_login(person(Role.GROUP_OPERATIONS))
    assert len(client.get("/api/tables/deliveries", YEAR).json()["rows"]) == is_in


def test_more_rows_than_a_worksheet_holds_are_refused_in_a_sentence(signed, client, monkeypatch):
    monkeypatch.setattr(table_files, "MOST_SHEET_ROWS", 2)
    assert client.get("/api/tables/cartons.xlsx", YEAR).json()["code"] == "TABLE-TOO-LONG"


def test_every_column_is_described_once():
    for table in dictionary():
        names = [column["name"] for column in table["columns"]]
        assert len(names) == len(set(names))
        assert all(column["meaning"].endswith((".", "…")) for column in table["columns"]), table["name"]
