"""A supplier's person with an account, on a phone without scripts; and notifications in the kitchen's own browser.

The browser of the tests has no push service behind it: it says so in a sentence. What is sent to one, and that a
browser's keys open it, is held in ``tests/inspections/claims/test_push.py``. That the worker shows it, here: the
browser hands over what a push service would, by the Chrome DevTools Protocol (domain ServiceWorker).
"""
import json
import re

import pytest
from playwright.sync_api import Browser, Page

from tests.journeys.reach import faults_of
from tests.journeys.test_claim import browser, fresh, signed  # noqa: F401
from tests.journeys.walk import Walk

pytestmark = pytest.mark.browser
CLAIMED = """
from inspections.claims.models import Claim
from inspections.claims.services import Said, change_claim, draft_claim, say
from inspections.people.models import Person
from inspections.records.models import DocketLine
mira = Person.objects.get(username="mira")
claim = draft_claim(line=DocketLine.objects.get(delivery="{delivery}"), person=mira)
refused = claim.items[0]
change_claim(claim=claim, person=mira, items=[refused | {"figures": refused["figures"] | {"price": "14.50"}}])
say(claim=claim, said=Said("send", "kitchen", mira.name, mira, "All three were warm."))
print(claim.number, claim.pk)
"""


@pytest.fixture
def claim(served) -> str:
    """The number of a claim of EUR 435.00 that was sent."""
    made = served.manage("shell", "-c", CLAIMED.replace("{delivery}", signed(served, "DN-ACCOUNT")))
    assert made.returncode == 0, made.stderr
    return made.stdout.split()[-2]


def test_invited_at_the_desk_the_supplier_sees_its_claims_evidence_and_figures(phone, browser, claim):  # noqa: F811
    desk = phone.open()
    Walk(desk).sign_in("gil")
    page = fresh(browser, invited(desk, phone.address), java_script_enabled=False)
    page.get_by_label("New password").fill("lantern-quay-9")
    page.get_by_label("The same once more").fill("lantern-quay-9")
    page.get_by_role("button", name="Keep it and sign in").click()
    page.get_by_role("heading", name="Northern Basin Seafoods").wait_for()
    page.get_by_text("EUR 435.00").first.wait_for()
    assert int(page.locator("td[data-name=Refused]").last.inner_text()) >= 3
    page.get_by_role("link", name=re.compile(claim)).click()
    page.get_by_label("Ask a question").check()
    page.get_by_label("In your own words").fill("Which probe was it?")
    page.get_by_role("button", name="Send the answer").click()
    page.get_by_text("Ade Winter, for the supplier").wait_for()
    page.get_by_role("link", name="Evidence of the delivery").click()
    page.get_by_role("heading", name="Docket DN-ACCOUNT").wait_for()
    looked_over(browser, page)
    assert page.request.get(f"{phone.address}/api/claims").status == 401
    page.goto(f"{phone.address}/supplier")
    page.get_by_role("button", name="Sign out").click()
    page.get_by_role("heading", name="Sign in as a supplier").wait_for()


def invited(desk: Page, address: str) -> str:
    """At the desk: the supplier chosen, its people opened, one invited; the address to pass on."""
    desk.goto(f"{address}/desk/claims")
    desk.get_by_label(re.compile("^Supplier")).select_option(label="Northern Basin Seafoods")
    desk.get_by_text("People of Northern Basin Seafoods").click()
    desk.get_by_label("Name", exact=True).fill("Ade Winter")
    desk.get_by_label("E-mail address").fill("ade@basin.example")
    desk.get_by_role("button", name="Invite").click()
    told = desk.get_by_label("Address of the invitation")
    told.wait_for()
    assert faults_of(desk) == []
    return told.input_value()


def looked_over(browser: Browser, page: Page) -> None:  # noqa: F811
    """Each page of the account as axe sees it, at 390 and 320 px, and none of it cut."""
    there = page.url
    claims = page.locator("nav a", has_text="read and answer").first.get_attribute("href")
    origin = re.match(r"https?://[^/]+", there)[0]
    seen = browser.new_context(storage_state=page.context.storage_state(), has_touch=True).new_page()
    for width in (390, 320):
        seen.set_viewport_size({"width": width, "height": 844})
        for address in (there, origin + claims, f"{origin}/supplier?state=all"):
            seen.goto(address)
            assert seen.evaluate("document.documentElement.scrollWidth") <= width, (address, width)
            assert [fault for fault in faults_of(seen) if not fault.startswith("A ")] == [], address
    for address in (f"{origin}/supplier/sign-in", f"{origin}/verify"):
        seen.goto(address)
        assert [fault for fault in faults_of(seen) if not fault.startswith("A ")] == [], address


def test_a_notification_is_asked_for_by_a_button_and_a_browser_without_a_service_says_so(phone):
    desk = phone.open()
    Walk(desk).sign_in("mira")
    phone.context.grant_permissions(["notifications"], origin=phone.address)
    desk.goto(f"{phone.address}/desk/claims")
    desk.get_by_role("heading", name="Notifications on this device").wait_for()
    desk.get_by_role("button", name="Notify me on this device").click()
    # No push service stands behind this browser: it says so, and nothing else is changed.
    desk.get_by_text("The browser's push service did not answer, so nothing was changed.").wait_for()
    assert faults_of(desk) == []


def test_what_a_push_service_hands_over_the_worker_shows(phone):
    desk = phone.open(path="/desk")
    phone.context.grant_permissions(["notifications"], origin=phone.address)
    devtools = phone.context.new_cdp_session(desk)
    running: list[str] = []
    devtools.on("ServiceWorker.workerRegistrationUpdated",
                lambda told: running.extend(one["registrationId"] for one in told["registrations"]))
    devtools.send("ServiceWorker.enable")
    desk.evaluate("navigator.serviceWorker.ready.then(() => true)")
    told = {"title": "Claim HAR-C1: AUD 1,450.00 offered", "text": "Cold Reach, docket DN-5530",
            "address": "/desk/claims/1"}
    devtools.send("ServiceWorker.deliverPushMessage",
                  {"origin": phone.address, "registrationId": running[-1], "data": json.dumps(told)})
    shown = desk.evaluate("""async () => {
      const registration = await navigator.serviceWorker.ready;
      for (;;) {
        const shown = await registration.getNotifications();
        if (shown.length) return shown.map(({ title, body, data }) => ({ title, text: body, address: data }));
        await new Promise((again) => setTimeout(again, 100));
      }
    }""")
    assert shown == [told]
