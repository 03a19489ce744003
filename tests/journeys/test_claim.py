"""A refused line, claimed at the desk, answered by the supplier on a phone without scripts, settled, and checked.

The supplier has no account and comes with no cookie; the answer is sent from a browser that runs no script. At the
end the evidence file of the claim holds by all three ways: the command, openssl and sha256sum by hand in a shell, and
the page in the supplier's own browser; altered, each names the file.
"""
import json
import re
import shutil
import subprocess
import zipfile
from datetime import datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from inspections.development.testing import browser_path
from tests.inspections.logs import WARM_SPELL, csv_of
from tests.inspections.receiving import picture, sha256_of, with_place
from tests.journeys.conftest import PHONE, QUIET, WAIT_MS
from tests.journeys.reach import faults_of
from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser

# Signed through the server's own door; the walk to a refusal is another journey.
SIGNED = """
from inspections.people.models import Person, Site
from inspections.records.models import LimitSet, SpecificationVersion, Supplier
from inspections.records.shape.door import read_delivery
from inspections.sync.signing import sign
from tests.factories import a_carton, a_document, a_line, decided, reading
rosa = Person.objects.get(username="rosa")
version = SpecificationVersion.objects.get(specification__code="VAN-1620")
limits = LimitSet.objects.get(is_current=True)
warm = {"product": reading("-6,0", "C"), "method": "between_packs", "thermometer_id": None}
line = a_line(version, *(a_carton(position, temperature=warm) for position in (1, 2, 3)))
final = decided(a_document(Site.objects.get(), Supplier.objects.get(), limits, rosa, line, docket_number="{docket}"))
assert final["lines"][0]["decision"]["refused"] == 3, final["lines"][0]["decision"]
sign(sent=read_delivery(final), person=rosa)
print(final["id"])
"""
LOG = csv_of(WARM_SPELL, start=datetime(2026, 11, 24, 12, 0), heading="Date/Time (UTC);Temp (°C)").encode()
#: Other journeys on the same server may have claimed before.
CLAIM = re.compile(r"QUAY-C\d+")
PHOTO = picture("teal", size=(640, 480))


def signed(served, docket: str) -> str:
    """A delivery of three cartons at −6 °C, all refused; its id."""
    made = served.manage("shell", "-c", SIGNED.replace("{docket}", docket))
    assert made.returncode == 0, made.stderr
    return made.stdout.split()[-1]


@pytest.fixture
def delivery(served) -> str:
    return signed(served, "DN-CLAIM")


@pytest.fixture
def browser(playwright):
    one = playwright.chromium.launch(executable_path=browser_path(), args=QUIET)
    yield one
    one.close()


def fresh(browser: Browser, address: str, **more) -> Page:
    """A page of somebody who was never here: no cookie, phone size."""
    context = browser.new_context(**(PHONE | more))
    assert context.cookies() == []
    page = context.new_page()
    page.set_default_timeout(WAIT_MS)
    page.goto(address)
    return page


def test_from_a_refused_line_to_a_credit_and_every_seal_holds(phone, served, browser, delivery, tmp_path):
    desk = phone.open()
    Walk(desk).sign_in("mira")
    link = drafted_and_sent(desk, phone.address, delivery)
    contested(browser, link)
    settled(desk, browser, link)
    assert served.manage("verify_seals").returncode == 0
    bundle = tmp_path / "evidence.zip"
    page = fresh(browser, link)
    with page.expect_download() as coming:
        page.get_by_role("link", name=re.compile("Download everything as one file")).click()
    coming.value.save_as(bundle)
    for way in (by_command, by_hand, by_page):
        way(served, browser, bundle, tmp_path)


def drafted_and_sent(desk: Page, address: str, delivery: str) -> str:
    """At the desk: the claim on the refused line, its price filled in, sent; a link for the supplier."""
    desk.goto(f"{address}/desk/deliveries/{delivery}")
    desk.get_by_role("button", name="Draft a claim on line 1").click()
    desk.get_by_role("heading", name=CLAIM).wait_for()
    desk.get_by_label("price per kg, EUR").fill("14.50")
    desk.get_by_role("button", name="Save the draft").click()
    desk.get_by_text("3 cartons × 10 kg × EUR 14.50 per kg = EUR 435.00").wait_for()
    assert faults_of(desk) == []
    desk.get_by_label("In your words").fill("All three were warm. Please credit the line.")
    desk.get_by_role("button", name="Send the claim").click()
    desk.get_by_role("heading", name="Claim sent: EUR 435.00").wait_for()
    desk.goto(f"{address}/desk/deliveries/{delivery}")
    desk.get_by_role("button", name="Make a link").click()
    return desk.get_by_label("Address of the evidence page").input_value()


def contested(browser: Browser, link: str) -> None:
    """The supplier, without scripts: reads, contests point by point, attaches a photo and a logger's file."""
    page = fresh(browser, link, java_script_enabled=False)
    page.get_by_role("link", name=re.compile(f"{CLAIM.pattern}: read and answer")).click()
    page.get_by_text("All three were warm.").wait_for()
    page.get_by_label("Contest it").check()
    page.get_by_label("Refused cartons, EUR 435.00").fill("One of three was probed at the door of the truck.")
    page.get_by_label("Photos and logger files").set_input_files([
        {"name": "loading.jpg", "mimeType": "image/jpeg", "buffer": PHOTO},
        {"name": "trip.csv", "mimeType": "text/csv", "buffer": LOG},
    ])
    page.get_by_label("Your name").fill("Ade Winter")
    page.get_by_role("button", name="Send the answer").click()
    page.get_by_role("heading", name="Contested the claim").wait_for()
    page.get_by_role("img", name="Photo loading.jpg, sent by the supplier").wait_for()
    page.get_by_role("img", name=re.compile("Drawing of the log")).first.wait_for()
    assert page.context.cookies() == []
    address = page.url.partition("#")[0]
    for width in (390, 320):
        seen = fresh(browser, address, viewport={"width": width, "height": 844})
        for one in (address, link):
            seen.goto(one)
            assert seen.evaluate("document.documentElement.scrollWidth") <= width
            assert [fault for fault in faults_of(seen) if not fault.startswith("A ")] == []
        seen.emulate_media(media="print")
        assert not seen.get_by_role("button", name="Send the answer").is_visible() or one == link


def settled(desk: Page, browser: Browser, link: str) -> None:
    """The kitchen offers, the supplier accepts, the credit is recorded."""
    desk.goto(desk.url.partition("/desk")[0] + "/desk/claims?state=contested")
    desk.get_by_role("link", name=CLAIM).click()
    desk.get_by_text("One of three was probed at the door of the truck.").wait_for()
    desk.get_by_role("combobox").select_option("offer")
    desk.get_by_label("Amount, EUR").fill("300")
    desk.get_by_label("In your words").fill("Split the difference.")
    desk.get_by_label("Photos and logger files").set_input_files(
        [{"name": "freezer.jpg", "mimeType": "image/jpeg", "buffer": with_place("olive")}])
    desk.get_by_role("button", name="Offer another amount").click()
    desk.get_by_role("heading", name="Offered an amount: EUR 300.00").wait_for()
    desk.get_by_role("img", name="freezer.jpg, sent by the kitchen").wait_for()
    page = fresh(browser, link, java_script_enabled=False)
    page.get_by_role("link", name=re.compile(f"{CLAIM.pattern}: read and answer")).click()
    page.get_by_role("img", name="Photo freezer.jpg, sent by the kitchen").wait_for()
    page.get_by_label("Accept the amount offered by the kitchen: EUR 300.00").check()
    page.get_by_label("Your name").fill("Ade Winter")
    page.get_by_role("button", name="Send the answer").click()
    page.get_by_role("heading", name="Accepted the offer: EUR 300.00").wait_for()
    desk.reload()
    desk.get_by_role("combobox").select_option("credit")
    desk.get_by_label("Number of the credit note").fill("CN-771")
    desk.get_by_role("button", name="Record the credit note").click()
    desk.get_by_text("EUR 300.00, note CN-771").wait_for()
    assert faults_of(desk) == []


def altered(bundle: Path, folder: Path, name: str) -> Path:
    """The same file with one byte of one part changed."""
    # A browser does not read a file anew that has the name of the one chosen before.
    changed = folder / f"altered-{name.replace('/', '-')}.zip"
    with zipfile.ZipFile(bundle) as old, zipfile.ZipFile(changed, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            content = old.read(part)
            if part == name:
                at = content.rindex(b"e") if b"e" in content else len(content) - 1
                content = content[:at] + bytes([content[at] ^ 1]) + content[at + 1:]
            new.writestr(part, content)
    return changed


def parts(bundle: Path) -> list[str]:
    """One of each kind: a record, a claim's entry, a photo of the supplier, the logger's file."""
    names = zipfile.ZipFile(bundle).namelist()
    sealed = ["record.json", "addendum-2/record.json", f"claim-files/{sha256_of(PHOTO)}.jpg",
              f"claim-files/{sha256_of(LOG)}.csv"]
    assert set(sealed) <= set(names)
    return sealed


def by_command(served, browser: Browser, bundle: Path, folder: Path) -> None:
    assert served.manage("verify_bundle", str(bundle)).returncode == 0
    for name in parts(bundle):
        told = served.manage("verify_bundle", str(altered(bundle, folder, name)))
        assert told.returncode != 0
        assert f"DOES NOT    {name}" in told.stdout, name


SHELL = """set -eu; cd "$1"
for folder in . addendum-*; do (cd "$folder"
  openssl pkeyutl -verify -pubin -inkey public-key.pem -rawin -in seal.json -sigfile seal.sig >/dev/null ||
    echo "ALTERED $folder/seal.json"
  grep -q "$(sha256sum record.json | cut -c1-64)" seal.json || echo "ALTERED $folder/record.json"); done
for file in claim-files/*; do
  [ "$(sha256sum "$file" | cut -c1-64)" = "$(basename "${file%.*}")" ] || echo "ALTERED $file"; done
"""


def by_hand(served, browser: Browser, bundle: Path, folder: Path) -> None:
    """The README's steps in a shell, with openssl and sha256sum and nothing of ours."""
    def checked(file: Path) -> str:
        unpacked = folder / "unpacked"
        shutil.rmtree(unpacked, ignore_errors=True)
        with zipfile.ZipFile(file) as opened:
            opened.extractall(unpacked)
        done = subprocess.run(["sh", "-c", SHELL, "sh", str(unpacked)], capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        return done.stdout

    assert checked(bundle) == ""
    for name in parts(bundle):
        told = checked(altered(bundle, folder, name))
        assert told.strip().replace("./", "") == f"ALTERED {name}"


def by_page(served, browser: Browser, bundle: Path, folder: Path) -> None:
    """In the supplier's browser: once the page is there, nothing is asked of the server any more."""
    page = fresh(browser, f"{served.address}/verify")
    page.wait_for_load_state("networkidle")
    assert faults_of(page) == []
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.context.set_offline(True)
    page.locator("#bundle").set_input_files(bundle)
    page.get_by_role("heading", name=re.compile("checks hold: docket DN-CLAIM")).wait_for()
    for name in parts(bundle):
        page.locator("#bundle").set_input_files(altered(bundle, folder, name))
        page.get_by_role("heading", name=f"Altered: {name}", exact=True).wait_for()
    assert json.dumps(asked) == "[]"
