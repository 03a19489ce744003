"""What suppliers are shown and sent is in the catalogue: no plain word in a template, none beside it in Python.

The pages' texts that come out of the judgement, a record or a person stand outside (they are values).
"""
import html
import re
from pathlib import Path

import pytest
from django.core import mail
from django.test import Client

from inspections import messages
from inspections.claims.exports import csv_of
from inspections.claims.messages import send_due
from inspections.claims.selectors import claim_json, claim_row
from inspections.claims.supplier_people import invite
from inspections.messages import AREAS, FOLDER, Catalogue
from inspections.people.models import Person, Role
from inspections.trade.wording import typeset
from tests.inspections.claims.conftest import claim, kitchen, link, phone, refused  # noqa: F401
from tests.inspections.file_fixtures import apart  # noqa: F401

BASE = Path(__file__).resolve().parents[3] / "inspections"
TEMPLATES = [path for area in ("claims", "evidence") for path in sorted((BASE / area / "templates" / area).iterdir())]
#: What is no language: names of files and commands, a hash, units.
CODE = re.compile(r"<(pre|code|script|style|svg)\b.*?</\1>|SHA-256|°[CF]", re.DOTALL)
MOMENT = re.compile(r"\d{1,2} [A-Z][a-z]+ 20\d\d, \d\d:\d\d")
READ = re.compile(r'(?:alt|aria-label|title|placeholder)="([^"]*)"')


def plain_in(source: str) -> list[str]:
    """Texts of a template with two letters in a row that no tag puts there."""
    source = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|<!doctype html>|&nbsp;", " ", source, flags=re.DOTALL)
    source = CODE.sub(" ", source)
    texts = [*READ.findall(source), *re.sub(r"<[^>]*>", "\n", source).split("\n")]
    return [text.strip() for text in texts if re.search(r"[A-Za-z]{2}", text)]


def test_what_is_left_in_plain_words_is_found():
    assert plain_in('<p>{{ a }} read {% if b %}<b aria-label="Seal {{ c }}">') == ["Seal", "read"]


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_says_nothing_beside_the_catalogue(path):
    assert plain_in(path.read_text("utf-8")) == []


@pytest.fixture
def pseudo(monkeypatch):
    """Everything that the server says, in a language that nobody speaks."""
    made = Catalogue([(FOLDER / f"{area}.ftl").read_text("utf-8") for area in AREAS], "pseudo", is_strict=True)
    monkeypatch.setattr(messages, "catalogue", lambda: made)


def marked(text: str) -> bool:
    return text.startswith("⟦") and text.endswith("⟧")


def texts_of(page: str) -> list[str]:
    page = re.sub(r"<(svg|pre|code|script|style|textarea)\b.*?</\1>", "", page, flags=re.DOTALL)
    return [html.unescape(text).strip() for text in re.sub(r"<[^>]*>", "\n", page).split("\n") if text.strip()]


def test_the_claim_s_page_and_the_account_are_said_in_marks(claim, link, kitchen, pseudo):  # noqa: F811
    """What is left in plain letters are values: names, amounts, moments, and the judgement's own words."""
    group = Person.objects.create(username="g", name="G", role=Role.GROUP_OPERATIONS)
    row, _ = invite(supplier=kitchen.supplier, name="Ade", email="a@b.example", by=group)
    _, token = invite(supplier=kitchen.supplier, name="Bo", email="b@b.example", by=group)
    account = Client()
    account.force_login(row.person)
    values = {claim.number, kitchen.supplier.name, kitchen.site.name, "Ade", "Please credit the whole line."}
    values |= {typeset(one[name]) for one in claim.found for name in ("text", "whose")}
    for client, at in ((Client(), f"/e/{link}/claims/{claim.pk}"), (account, "/supplier"),
                       (account, f"/supplier/deliveries/{claim.delivery_id}/claims/{claim.pk}"),
                       (Client(), "/supplier/sign-in"), (Client(), f"/supplier/invitation/{token}"),
                       (Client(), "/verify")):
        told = client.get(at)
        assert told.status_code == 200
        plain = [text for text in texts_of(told.content.decode()) if "⟦" not in text
                 and re.search(r"[A-Za-z]{3}", text) and text not in values]
        known = (claim.line.specification_version.specification.name, "Underlid", "AUD", "UTC",
                 "Australia/", "manage.py", "SHA-256")
        plain = [text for text in plain if not MOMENT.search(text)]
        assert [text for text in plain if not any(one in text for one in known)] == [], at


def test_what_python_says_of_a_claim_is_marked(claim, pseudo):  # noqa: F811
    row, whole = claim_row(claim), claim_json(claim)
    assert all(map(marked, (row["state_words"], row["deadline"]["what"], row["deadline"]["left"])))
    assert all(marked(one["name"]) and all(marked(put["words"]) for put in one["inputs"])
               for one in whole["grounds"].values())
    assert all(marked(one["what"]) and marked(one["side_words"]) for one in whole["thread"])
    head = csv_of([row]).decode("utf-8-sig").splitlines()[0]
    assert all(map(marked, head.split(",")))


def test_a_mail_is_marked_but_for_what_somebody_wrote(claim, settings, pseudo):  # noqa: F811
    settings.SENDS_MAIL, settings.PUBLIC_ADDRESS = True, "https://kitchen.example"
    from inspections.claims.services import Said, say

    say(claim=claim, said=Said("ask", "supplier", "Ade", text="Which truck?"))
    send_due()
    told = mail.outbox[-1]
    assert marked(told.subject)
    lines = [line for line in told.body.splitlines() if line.strip()]
    plain = [line for line in lines if "⟦" not in line]
    assert [line for line in plain if line != "Which truck?" and not re.match(r"https://|[0-9a-f]{64}$", line)] == []
