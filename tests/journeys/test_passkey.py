"""A passkey made at the desk opens it the next time, and nothing once it is taken away.

The authenticator is Chromium's own virtual one (Chrome DevTools Protocol, domain WebAuthn): it holds the key, counts,
and says that its owner was there, as a phone would.
"""
import pytest
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser

HELD = {"protocol": "ctap2", "transport": "internal", "hasResidentKey": True, "hasUserVerification": True,
        "isUserVerified": True, "automaticPresenceSimulation": True}


def held_by(page: Page):
    devtools = page.context.new_cdp_session(page)
    devtools.send("WebAuthn.enable")
    made = devtools.send("WebAuthn.addVirtualAuthenticator", {"options": HELD})
    return devtools, made["authenticatorId"]


def sign_out(page: Page) -> None:
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", name="Sign in", exact=True)).to_be_visible()


def test_made_used_and_taken_away(served, phone):
    page = phone.open(path="/desk/more")
    complaints = []
    page.on("console", lambda said: complaints.append(said.text) if "Content Security" in said.text else None)
    devtools, authenticator = held_by(page)
    page.fill("[name=username]", "mira")
    page.fill("[name=password]", served.kitchen["password"])
    page.get_by_role("button", name="Sign in", exact=True).click()

    page.get_by_text("Your passkeys").click()
    page.get_by_label("Name of the device").fill("Dock phone")
    page.locator("details", has_text="Your passkeys").get_by_label("Your password").fill(served.kitchen["password"])
    page.get_by_role("button", name="Add a passkey on this device").click()
    expect(page.get_by_test_id("passkey")).to_contain_text("Not used yet")
    assert len(devtools.send("WebAuthn.getCredentials", {"authenticatorId": authenticator})["credentials"]) == 1

    sign_out(page)
    page.get_by_role("button", name="Sign in with a passkey").click()
    page.get_by_text("Your passkeys").click()
    expect(page.get_by_test_id("passkey")).to_contain_text("Last used on")
    page.get_by_role("button", name="Take away").click()
    expect(page.get_by_test_id("passkey")).to_have_count(0)

    sign_out(page)
    page.get_by_role("button", name="Sign in with a passkey").click()
    expect(page.get_by_role("alert")).to_contain_text("That passkey does not open an account here")
    assert complaints == []
