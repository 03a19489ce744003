"""The desk's lists: filters, figures by currency, and tables that no spreadsheet runs."""
import csv
import io
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone
from openpyxl import load_workbook

from inspections.claims.exports import csv_of, xlsx_of
from inspections.claims.models import Claim, SupplierTerms
from inspections.claims.selectors import claim_row, claims_at, figures
from inspections.claims.services import Said, draft_claim, say
from inspections.evidence.checking import verify_chain
from inspections.evidence.strip_location import tells_place
from inspections.people.models import Person, Role, Site
from inspections.records import storage
from inspections.records.models import ClaimEntry, Delivery
from inspections.spreadsheets import FORMULA_STARTS
from tests.inspections.claims.conftest import send_claim
from tests.inspections.claims.hostile import HOSTILE
from tests.inspections.logs import WARM_SPELL
from tests.inspections.logs import csv_of as log_of
from tests.inspections.receiving import decide, document, sha256_of, with_place


@pytest.fixture
def desk(kitchen) -> Client:
    client = Client()
    client.force_login(kitchen.manager)
    return client


def numbers(desk: Client, query: str = "") -> list[str]:
    return [row["number"] for row in desk.get(f"/api/claims{query}").json()["rows"]]


@pytest.fixture
def two(kitchen, claim, phone) -> list[Claim]:
    """One sent, one settled in yen."""
    SupplierTerms.objects.create(supplier=kitchen.supplier, currency="JPY", notice_hours=48, answer_hours=24)
    final = decide(document(kitchen, docket="DN-2", bad=True), kind="reject", reason="Warm.")
    assert phone.sign(final, key="a-second-key-0001").status_code == 200
    second = draft_claim(line=Delivery.objects.get(pk=final["id"]).lines.get(), person=kitchen.manager)
    send_claim(claim=second, person=kitchen.manager)
    say(claim=second, said=Said("offer", "supplier", "Ade", amount="2000"))
    say(claim=second, said=Said("accept", "kitchen", "Ines", kitchen.manager))
    say(claim=second, said=Said("credit", "kitchen", "Ines", kitchen.manager, amount="2000", credit_note="=1+1"))
    return list(Claim.objects.order_by("number"))


def test_the_list_is_filtered_by_what_stands_in_the_address(desk, two, kitchen):
    assert numbers(desk) == ["HAR-C1"]
    assert numbers(desk, "?state=settled") == ["HAR-C2"]
    assert numbers(desk, "?state=all&order=amount") == ["HAR-C1", "HAR-C2"]
    assert numbers(desk, f"?state=all&supplier={kitchen.supplier.pk}&site={kitchen.site.pk}&order=supplier")
    assert numbers(desk, f"?site={kitchen.other_site.pk}") == []
    assert numbers(desk, "?over=yes") == []
    Claim.objects.filter(number="HAR-C1").update(answer_until=timezone.now() - timedelta(minutes=1))
    assert numbers(desk, "?over=yes&order=deadline") == ["HAR-C1"]
    assert desk.get("/api/claims?order=luck").status_code in (400, 422)


def test_figures_of_a_supplier_stand_by_currency_and_are_never_added_up_over_two(two):
    Claim.objects.filter(number="HAR-C2").update(closed_at=two[1].sent_at + timedelta(days=3, hours=5))
    told = {one["currency"]: one for one in figures(claims_at(Site.objects.all(), state="all"))}
    assert (told["AUD"]["claims"], told["AUD"]["open"], told["AUD"]["claimed"]) == (1, 1, "AUD 2,900.00")
    assert told["AUD"]["agreed_share"] is None
    assert (told["JPY"]["claimed"], told["JPY"]["agreed"], told["JPY"]["days"]) == ("JPY 2,900", "JPY 2,000", 3)
    assert told["JPY"]["agreed_share"] == pytest.approx(2000 / 2900)


@pytest.mark.parametrize("start", FORMULA_STARTS)
def test_no_cell_is_a_formula(two, start):
    rows = [claim_row(one) for one in claims_at(Site.objects.all(), state="all")]
    rows[0]["supplier"] = {"name": f"{start}cmd|'/c calc'!A1"}
    rows[0]["credit_note"] = f"{start}HYPERLINK(1)"
    for cells in list(csv.reader(io.StringIO(csv_of(rows).decode("utf-8-sig"))))[1:]:
        assert not any(cell.startswith(FORMULA_STARTS) for cell in cells)
    sheet = load_workbook(io.BytesIO(xlsx_of(rows)))["Claims"]
    cells = [cell for line in sheet.iter_rows(min_row=2) for cell in line]
    assert not any(cell.data_type == "f" for cell in cells)
    # Amounts are numbers: what is a number cannot be a formula, and can be added up.
    assert [cell.value for cell in cells if cell.column_letter == "K"] == [2900, 2900]


def test_both_tables_come_with_the_filters_of_the_list(desk, two):
    table = desk.get("/api/claims.csv?state=all").content.decode("utf-8-sig")
    assert table.count("\r\n") == 3
    assert "'=1+1" in table
    answer = desk.get("/api/claims.xlsx?state=settled")
    assert answer["Content-Disposition"].endswith('.xlsx"')
    assert load_workbook(io.BytesIO(answer.content))["Claims"].max_row == 2


def test_group_operations_keep_a_supplier_s_terms(kitchen, desk):
    at = f"/api/suppliers/{kitchen.supplier.pk}/claim-terms"
    assert desk.get(at).json() == {
        "supplier": {"id": str(kitchen.supplier.pk), "name": kitchen.supplier.name}, "is_kept": False, "currency": "",
        "notice_hours": 24, "answer_hours": 48,
    }
    group = Client()
    group.force_login(Person.objects.create(username="g", name="G", role=Role.GROUP_OPERATIONS, password="!"))
    told = {"currency": "KWD", "notice_hours": 72, "answer_hours": 24}
    assert group.put(at, told, content_type="application/json").json()["is_kept"] is True
    for wrong in ({"currency": "kwd"}, {"notice_hours": 0}, {"answer_hours": 99999}):
        assert group.put(at, told | wrong, content_type="application/json").status_code in (400, 422)
    assert SupplierTerms.objects.get().currency == "KWD"


def test_a_claim_is_drafted_changed_sent_and_answered_at_the_desk(desk, refused):
    def send(method: str, at: str, body: dict):
        return getattr(desk, method)(at, body, content_type="application/json")

    made = send("post", "/api/claims", {"line": str(refused.lines.get().pk)})
    assert made.status_code == 201
    told, at = made.json(), f"/api/claims/{made.json()['id']}"
    assert told["may"] == ["send"]
    items = [told["items"][0] | {"amount": "2500", "reason": "Two were used."}]
    assert send("put", at, {"items": items}).json()["items"][0]["amount"] == "2500.00"
    entry = {"id": "019ad3f0-7c1e-7000-8000-00000000abcd", "kind": "send", "text": "Please credit."}
    sent = [desk.post(f"{at}/entries", entry) for _ in range(2)]
    assert [one.status_code for one in sent] == [201, 201]
    assert len(sent[1].json()["thread"]) == 1
    assert desk.delete(at).status_code == 409
    assert desk.get(f"/api/deliveries/{refused.pk}/claims").json()["rows"][0]["state"] == "sent"


def test_a_claim_s_file_is_asked_for_by_an_id_or_is_not_found(desk):
    # 36 characters that are no UUID (RFC 9562) once were a fault of the server.
    answer = desk.get(f"/api/claims/{'0a-' * 12}/files/{'0' * 64}/original")
    assert (answer.status_code, answer.json()["code"]) == (404, "NOT-FOUND")


def test_the_kitchen_s_photo_and_log_are_sealed_without_where_they_were_taken(desk, claim, link):
    """A photo with its place in it (Exif 2.3, GPS IFD) is kept as a copy without; the supplier sees what is sealed."""
    photo, log = with_place("navy"), log_of(WARM_SPELL, heading="Date/Time (UTC);Temp (°C)").encode()
    assert tells_place(photo)
    entry = {"id": str(uuid4()), "kind": "note", "text": "As it stood in our freezer.", "files": [
        SimpleUploadedFile("freezer.jpg", photo), SimpleUploadedFile("trip.csv", log)]}
    told = desk.post(f"/api/claims/{claim.pk}/entries", entry)
    assert told.status_code == 201, told.content
    files = told.json()["thread"][-1]["files"]
    assert [one["kind"] for one in files] == ["photo", "logger"]
    assert files[1]["sha256"] == sha256_of(log)
    kept = storage.read(storage.claim_file_name(files[0]["sha256"]))
    assert (tells_place(kept), sha256_of(kept)) == (False, files[0]["sha256"])
    page = Client().get(f"/e/{link}/claims/{claim.pk}").content.decode()
    assert "Photo freezer.jpg, sent by the kitchen" in page
    assert Client().get(f"/e/{link}/claims/{claim.pk}/files/{files[0]['sha256']}/original").content == kept
    assert verify_chain(claim.delivery.site) == []


@pytest.mark.parametrize(("name", "content", "kind", "code"), HOSTILE, ids=[row[0] for row in HOSTILE])
def test_the_kitchen_s_files_are_taken_for_hostile_too(desk, claim, name, content, kind, code):
    entry = {"id": str(uuid4()), "kind": "note", "text": "See.", "files": [SimpleUploadedFile(name, content, kind)]}
    told = desk.post(f"/api/claims/{claim.pk}/entries", entry)
    assert (told.status_code, told.json()["code"]) == (422, code)
    assert ClaimEntry.objects.count() == 1
    assert not storage.photos().exists(storage.claim_file_name(sha256_of(content)))


def test_a_file_where_words_belong_is_no_fault_of_the_server(desk, claim):
    told = desk.post(f"/api/claims/{claim.pk}/entries", {"kind": SimpleUploadedFile("a.txt", b"note"), "text": "x"})
    assert (told.status_code, told.json()["code"]) == (400, "FIELDS")
