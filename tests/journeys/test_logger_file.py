"""A data logger's file at the desk: one that cannot be read gets its sentence, a good one is read, drawn, sealed."""
import hashlib
from datetime import datetime

import pytest

from tests.inspections.logs import WARM_SPELL, csv_of
from tests.journeys.reach import faults_of
from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser

# A delivery signed through the server's own door, as walking through one takes longer than all of this.
SIGNED = """
from inspections.people.models import Person, Site
from inspections.records.models import LimitSet, SpecificationVersion, Supplier
from inspections.records.shape.door import read_delivery
from inspections.sync.signing import sign
from tests.factories import a_document, a_line, decided
rosa = Person.objects.get(username="rosa")
version = SpecificationVersion.objects.get(specification__code="VAN-1620")
limits = LimitSet.objects.get(is_current=True)
open_one = a_document(Site.objects.get(), Supplier.objects.get(), limits, rosa, a_line(version), docket_number="DN-LOG")
final = decided(open_one)
sign(sent=read_delivery(final), person=rosa)
print(final["id"])
"""
#: The load's 90 warm minutes end before the delivery came, at 06:10 UTC.
GOOD = csv_of(WARM_SPELL, start=datetime(2026, 11, 24, 12, 0), heading="Date/Time (UTC);Temp (°C)").encode()
NO_TEMPERATURE = b"Time,Humidity %\n2026-11-24 06:00,50\n"


@pytest.fixture
def delivery(served) -> str:
    made = served.manage("shell", "-c", SIGNED)
    assert made.returncode == 0, made.stderr
    return made.stdout.split()[-1]


def test_a_bad_file_gets_its_sentence_and_a_good_one_is_read_and_sealed(phone, served, delivery, tmp_path):
    page = phone.open()
    Walk(page).sign_in("mira")
    page.goto(f"{phone.address}/desk/deliveries/{delivery}")
    card = page.locator("section", has=page.get_by_role("heading", name="Data logger"))
    card.get_by_text("No logger file yet.").wait_for()

    choose = card.locator("input[type=file]")
    choose.set_input_files({"name": "humidity.csv", "mimeType": "text/csv", "buffer": NO_TEMPERATURE})
    card.get_by_role("button", name="Keep humidity.csv").click()
    refused = card.get_by_role("alert")
    refused.wait_for()
    for words in ("No temperature column was found", "Your entries are kept", "Export it as CSV with its headings"):
        assert words in refused.inner_text()
    card.get_by_text("No logger file yet.").wait_for()

    choose.set_input_files({"name": "trip.csv", "mimeType": "text/csv", "buffer": GOOD})
    assert refused.count() == 0
    card.get_by_role("button", name="Keep trip.csv").click()
    card.get_by_role("status").filter(has_text="kept on the server, untouched, and sealed").wait_for()
    told = card.inner_text()
    # by hand: nine readings at −9 °C, 80 min, and 6 in 11 of the ten minutes before and after above −15 °C: 91
    assert "Warmer than −15.0 °C for 91 minutes, in 1 stretch." in told.replace("\u00a0", " ")
    card.get_by_role("img", name="Drawing of the log").wait_for()
    assert faults_of(page) == []

    page.reload()
    card.get_by_text("Warmer than −15.0").first.wait_for()
    seals = page.evaluate(f"() => fetch('/api/deliveries/{delivery}/seals').then(answer => answer.json())")["seals"]
    assert [seal["kind"] for seal in seals] == ["delivery", "logger"]
    sha256 = hashlib.sha256(GOOD).hexdigest()
    kept = served.data / "photos" / "logger-files" / sha256[:2] / sha256
    assert kept.read_bytes() == GOOD
