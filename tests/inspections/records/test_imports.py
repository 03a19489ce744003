"""Tables from elsewhere: bad lines are named one by one, and never cost what is already there."""
from datetime import date, datetime
from io import BytesIO, StringIO

import pytest
from django.core.management import CommandError, call_command
from openpyxl import Workbook

from inspections.errors import Forbidden, Unprocessable
from inspections.records.models import Order, OrderLine, SpecificationVersion, Supplier, Thermometer
from inspections.records.services.imports import import_rows
from tests.factories import a_specification, a_supplier

SPECIFICATIONS = (
    "code;name;species;presentation;state;grade;carton_net;units_per_carton;market;declared_glaze_percent;origin;method\n"
    "VAN-1620;Whiteleg 16/20;PNV;HLSO;raw;16/20;10 kg;5;EU;10;EC, VN;farmed\n"
)
ORDERS = (
    "number;supplier;site;expected_on;specification;cartons;price_per_kg\n"
    "O-7;REEF;QUAY;25.11.2026;VAN-1620;20;9,80\n"
    "O-7;REEF;QUAY;25.11.2026;VAN-2125;10;\n"
)


def read(kind: str, text: str | bytes, person=None, **more):
    content = text if isinstance(text, bytes) else text.encode()
    return import_rows(kind=kind, content=content, person=person, **more)


def at(report) -> list[tuple]:
    return [(error.line, error.column, error.value) for error in report.errors]


def test_suppliers_are_added_with_semicolons_a_mark_and_umlauts(db):
    report = read("suppliers", "\ufeffcode;name;contact_email\r\nNORD;Nörd Fisk (invented);a@example.com\r\n")
    assert (report.added, report.errors) == (1, [])
    assert Supplier.objects.get().name == "Nörd Fisk (invented)"


@pytest.mark.parametrize("separator", [";", ",", "\t"])
def test_the_separator_is_found_by_itself(db, separator):
    assert read("suppliers", f"code{separator}name\nA{separator}One\n").added == 1


def test_a_first_line_that_names_the_separator_is_passed_over(db):
    report = read("suppliers", "sep=,\ncode,name,contact_email\nA,One,nobody\n")
    assert at(report) == [(3, "contact_email", "nobody")]


def test_utf_16_as_spreadsheets_write_it_is_read(db):
    assert read("suppliers", "code\tname\nA\tÉtoile\n".encode("utf-16")).added == 1
    assert Supplier.objects.get().name == "Étoile"


def test_a_quoted_line_break_keeps_the_line_numbers_right(db):
    report = read("suppliers", 'code;name;contact_email\nA;"Two\nlines";\nB;;\n')
    assert at(report) == [(4, "name", "")]


def test_importing_twice_is_importing_once(db):
    text = "code;name\nA;One\nB;Two\n"
    assert read("suppliers", text).added == 2
    again = read("suppliers", text)
    assert (again.added, again.changed, again.unchanged) == (0, 0, 2)


def test_a_column_that_is_not_there_leaves_its_values_alone(db):
    a_supplier("A", contact_email="kept@example.com")
    assert read("suppliers", "code;name\nA;New name\n").changed == 1
    assert Supplier.objects.get().contact_email == "kept@example.com"


def test_one_bad_line_writes_nothing_and_loses_nothing(db):
    a_supplier("A", name="Before")
    report = read("suppliers", "code;name;contact_email\nA;After;\nB;Two;nobody\n")
    assert at(report) == [(3, "contact_email", "nobody")]
    assert not report.is_written
    assert [one.name for one in Supplier.objects.all()] == ["Before"]


def test_keeping_the_good_lines_leaves_only_the_bad_ones_out(db):
    report = read("suppliers", "code;name;contact_email\nA;One;\nB;Two;nobody\nC;Three;\n", keep_good=True)
    assert (report.added, report.is_written, at(report)) == (2, True, [(3, "contact_email", "nobody")])
    assert {one.code for one in Supplier.objects.all()} == {"A", "C"}


def test_a_dry_run_tells_and_writes_nothing(db):
    report = read("suppliers", "code;name\nA;One\n", is_dry_run=True)
    assert (report.added, report.is_dry_run, report.is_written) == (1, True, False)
    assert not Supplier.objects.exists()


def test_a_value_too_long_for_its_place_is_an_error_of_its_line(db):
    report = read("suppliers", f"code;name\n{'A' * 30};One\n")
    assert at(report) == [(2, "code", "A" * 30)]


def test_specifications_become_versions(db):
    assert read("specifications", SPECIFICATIONS).added == 1
    version = SpecificationVersion.objects.get()
    assert (version.version, version.data["carton_net_g"], version.data["origin"]) == (1, 10000.0, ["EC", "VN"])
    assert read("specifications", SPECIFICATIONS).unchanged == 1
    assert read("specifications", SPECIFICATIONS.replace("16/20;10 kg", "21/25;10 kg")).changed == 1
    assert SpecificationVersion.objects.count() == 2


def test_a_specifications_own_limits_survive_an_import_that_knows_none(db):
    read("specifications", SPECIFICATIONS)
    a_specification(**{**SpecificationVersion.objects.get().data, "overrides": {"broken_share": 0.05}})
    read("specifications", SPECIFICATIONS.replace("10 kg", "12 kg"))
    newest = SpecificationVersion.objects.order_by("-version").first()
    assert (newest.data["carton_net_g"], newest.data["overrides"]) == (12000.0, {"broken_share": 0.05})


@pytest.mark.parametrize(
    ("old", "new", "column"),
    [(";PNV;", ";XYZ;", "species"), (";16/20;", ";jumbo;", "grade"), (";HLSO;", ";WHOLE;", "presentation"),
     (";EU;", ";MARS;", "market"), (";10 kg;", ";ten;", "carton_net"), (";farmed", ";magic", "method")],
)  # fmt: skip
def test_a_specification_that_cannot_be_judged_by_names_its_column(db, old, new, column):
    report = read("specifications", SPECIFICATIONS.replace(old, new))
    assert [(error.line, error.column) for error in report.errors] == [(2, column)]
    assert not SpecificationVersion.objects.exists()


@pytest.fixture
def known(cast):
    return a_specification("VAN-1620"), a_specification("VAN-2125", grade="21/25")


def test_orders_come_with_their_lines(cast, known):
    report = read("orders", ORDERS, cast.manager)
    assert (report.added, report.errors) == (1, [])
    order = Order.objects.get()
    assert (order.expected_on, order.source, order.lines.count()) == (date(2026, 11, 25), "import", 2)
    assert read("orders", ORDERS, cast.manager).unchanged == 1
    assert OrderLine.objects.count() == 2


def test_an_order_imported_again_changes_its_numbers_and_adds_no_product_twice(cast, known):
    read("orders", ORDERS)
    a_specification("VAN-1620", declared_glaze_percent=5)
    report = read("orders", ORDERS.replace(";20;9,80", ";24;9,80"))
    assert report.changed == 1
    assert sorted(OrderLine.objects.values_list("cartons", flat=True)) == [10, 24]


def test_an_order_with_a_bad_line_is_left_out_whole(cast, known):
    text = ORDERS + "O-8;REEF;QUAY;2026-11-26;VAN-1620;0;\nO-9;REEF;QUAY;2026-11-26;VAN-1620;5;\n"
    report = read("orders", text.replace("VAN-2125", "NO-SUCH"), keep_good=True)
    assert [(error.line, error.column) for error in report.errors] == [(2, ""), (3, "specification"), (4, "cartons")]
    assert [order.number for order in Order.objects.all()] == ["O-9"]


def test_an_order_with_two_days_or_a_product_twice_is_refused(cast, known):
    text = ORDERS.replace("25.11.2026;VAN-2125", "26.11.2026;VAN-1620")
    found = [(line, column) for line, column, _ in at(read("orders", text))]
    assert found == [(2, ""), (3, "expected_on"), (3, "specification")]
    assert not Order.objects.exists()


def test_a_manager_imports_only_for_their_own_sites(cast, known):
    report = read("orders", ORDERS, cast.other_manager)
    assert {(error.column, error.value) for error in report.errors} == {("site", "QUAY")}
    assert not Order.objects.exists()


@pytest.mark.parametrize("kind", ["suppliers", "specifications", "orders", "thermometers"])
def test_a_receiver_imports_nothing(cast, kind):
    with pytest.raises(Forbidden) as caught:
        read(kind, "code;name\nA;One\n", cast.receiver)
    assert caught.value.code == "ROLE-NEEDED"


def test_thermometers_are_found_by_site_and_name(cast):
    text = "site;name;accuracy_c;last_checked_on;last_check_c;check_due_on\nQUAY;Probe;0,3;46340;-0,1;2026-12-14\n"
    assert read("thermometers", text).added == 1
    probe = Thermometer.objects.get()
    assert (probe.accuracy_c, probe.last_check_c, probe.last_checked_on) == (0.3, -0.1, date(2026, 11, 14))
    assert read("thermometers", text).unchanged == 1


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "IMPORT-EMPTY"),
        (b"code;name\n\n", "IMPORT-EMPTY"),
        (b"code;name\nA;caf\x81\xe9\n", "IMPORT-ENCODING"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 of an older kind", "IMPORT-OLD-WORKBOOK"),
        (b"PK\x03\x04 and then nothing that can be opened", "IMPORT-NOT-A-TABLE"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\xff", "IMPORT-NOT-A-TABLE"),
        (b"code\nA\n", "IMPORT-HEADINGS"),
        (b"code;name;colour\nA;B;C\n", "IMPORT-HEADINGS"),
        (b"code;name;name\nA;B;C\n", "IMPORT-HEADINGS"),
    ],
)
def test_a_file_that_cannot_be_used_at_all_is_refused(db, content, code):
    with pytest.raises(Unprocessable) as caught:
        read("suppliers", content)
    assert caught.value.code == code


def workbook(*rows) -> bytes:
    book, file = Workbook(), BytesIO()
    for row in rows:
        book.active.append(row)
    book.save(file)
    return file.getvalue()


def test_an_xlsx_workbook_is_read_as_the_same_csv_would_be(cast, known):
    head = ("number", "supplier", "site", "expected_on", "specification", "cartons", "price_per_kg")
    content = workbook(head, ("O-7", "REEF", "QUAY", datetime(2026, 11, 25), "VAN-1620", 20, 9.8), (None,) * 7,
                       (4711, "REEF", "QUAY", "25.11.2026", "VAN-2125", 10.0))
    report = read("orders", content, cast.manager)
    assert (report.added, report.errors, report.read_as) == (2, [], "xlsx")
    assert {(order.number, str(order.expected_on)) for order in Order.objects.all()} == {
        ("O-7", "2026-11-25"), ("4711", "2026-11-25")}
    assert {str(line.price_per_kg) for line in OrderLine.objects.all()} == {"9.8000", "None"}


def test_a_bad_cell_of_a_workbook_is_named_by_its_line(db):
    content = workbook(("code", "name", "contact_email"), (), ("A", "One", "nobody"), ("B", True, None))
    report = read("suppliers", content)
    assert at(report) == [(3, "contact_email", "nobody")]


def test_a_workbook_without_cells_is_empty(db):
    with pytest.raises(Unprocessable) as caught:
        read("suppliers", workbook())
    assert caught.value.code == "IMPORT-EMPTY"


@pytest.mark.parametrize("encoding", ["cp1252", "latin-1"])
def test_what_spreadsheets_save_without_utf_8_is_read_and_told(db, encoding):
    report = read("suppliers", "code;name\nA;Crème Ålesund ß\n".encode(encoding))
    assert (report.added, report.read_as) == (1, "Windows-1252")
    assert Supplier.objects.get().name == "Crème Ålesund ß"


def test_every_bad_cell_is_named_at_once(cast):
    text = f"code;name;contact_email\n{'A' * 30};{'N' * 130};nobody\n;;x@\n"
    assert sorted(cell[:2] for cell in at(read("suppliers", text))) == [
        (line, column) for line in (2, 3) for column in ("code", "contact_email", "name")]
    row = ";".join((SPECIFICATIONS.splitlines()[0], "\nVAN;Whiteleg;XYZ;WHOLE;frozen;jumbo;ten;0;MARS;200;EC;magic\n"))
    found = {column for _, column, _ in at(read("specifications", row.replace(";\n", "\n")))}
    assert found == {"species", "presentation", "state", "grade", "carton_net", "units_per_carton", "market",
                     "declared_glaze_percent", "method"}
    text = "site;name;accuracy_c;last_checked_on;last_check_c\nNOWHERE;;9;31.02.2026;cold\n"
    assert {cell[1] for cell in at(read("thermometers", text))} == {
        "site", "name", "accuracy_c", "last_checked_on", "last_check_c"}


def test_a_code_that_stands_twice_is_refused_on_both_lines(cast):
    report = read("suppliers", "code;name\nA;One\nB;Two\nA;Three\nA;Four\n", keep_good=True)
    assert [(error.line, error.column, error.sentence) for error in report.errors] == [
        (2, "code", "The same stands on lines 4, 5. Keep one of them."),
        (4, "code", "The same stands on lines 2, 5. Keep one of them."),
        (5, "code", "The same stands on lines 2, 4. Keep one of them.")]
    assert [one.code for one in Supplier.objects.exclude(pk=cast.supplier.pk)] == ["B"]
    twice = SPECIFICATIONS + SPECIFICATIONS.splitlines(keepends=True)[1]
    assert [cell[:2] for cell in at(read("specifications", twice))] == [(2, "code"), (3, "code")]
    probes = "site;name\nQUAY;Probe\nQUAY;Other\nQUAY;Probe\nBEND;Probe\n"
    assert [cell[:2] for cell in at(read("thermometers", probes))] == [(2, "name"), (4, "name")]


def test_an_unknown_kind_is_refused(db):
    with pytest.raises(Unprocessable) as caught:
        read("prices", "code;name\nA;B\n")
    assert caught.value.code == "IMPORT-KIND"


def test_a_line_with_too_many_cells_is_named(db):
    assert read("suppliers", "code;name\nA;One;surplus\n").errors[0].line == 2


def test_the_command_writes_and_tells(db, tmp_path):
    file = tmp_path / "suppliers.csv"
    file.write_text("code;name\nA;One\n", encoding="utf-8")
    out = StringIO()
    call_command("import_data", "suppliers", file, stdout=out)
    assert out.getvalue() == "1 added, 0 changed, 0 as before.\n"


def test_the_command_names_each_bad_cell_and_fails(db, tmp_path):
    file = tmp_path / "suppliers.csv"
    file.write_text("code;name;contact_email\nA;One;nobody\n", encoding="utf-8")
    told = StringIO()
    with pytest.raises(CommandError):
        call_command("import_data", "suppliers", file, stderr=told)
    assert told.getvalue().startswith("line 2, contact_email “nobody”: This is not an e-mail address.")


def test_the_command_says_when_the_file_is_not_there(db, tmp_path):
    with pytest.raises(CommandError, match="Nothing was changed"):
        call_command("import_data", "suppliers", tmp_path / "none.csv")
