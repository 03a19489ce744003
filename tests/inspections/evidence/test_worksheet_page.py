"""The worksheet behind a supplier's link and on the desk: the sealed record from entry to decision."""
import re

import pytest
from django.test import Client

from inspections.evidence.links import make_link
from inspections.records.models import Delivery
from tests.inspections.evidence import paper_oracle
from tests.inspections.receiving import Phone, decide, document


@pytest.fixture
def delivery(kitchen, phone) -> Delivery:
    draft = document(kitchen, bad=True)
    for carton in draft["lines"][0]["cartons"]:
        carton["temperature"]["method"] = "core"
    final = decide(draft, kind="hold", reason="kept for the <b>inspector</b>")
    assert phone.sign(final).status_code == 200
    return Delivery.objects.get()


@pytest.fixture
def page(kitchen, delivery):
    _, token = make_link(delivery=delivery, person=kitchen.manager)
    return Client().get(f"/e/{token}/worksheet")


def text_of(answer) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode().replace("&nbsp;", " ")))


def test_it_shows_every_part_in_order(page):
    assert page.status_code == 200
    told = text_of(page)
    parts = (
        "What was ordered", "Net weight of a carton 10000 g", "What was typed for the line", "Cartons counted 20",
        "Carton 3", "As typed", "Product temperature −9,5 °C", "Worked out", "Against the limits",
        "product temperature, refusal", "−9.5 °C at most −12 °C past the limit",
        "critical: carton refused; the rest held until more is known",
        "Defective, because of: product temperature, refusal", "Carton 11", "12 / 20 x 100 = 60 %", "Tally",
        "2 with a fault, 2 of them bad (2 beyond chance); the plan accepts at most 0, refuses at 2",
        "What had to be checked", "Steps: the first “yes” decides",
        "Suggested Reject", "Decided by the receiver Hold", "0 accepted, 0 refused, 20 held",
    )
    at = 0
    for part in parts:
        found = told.find(part, at)
        assert found >= 0, part
        at = found
    assert "<b>inspector</b>" not in page.content.decode()


def test_it_is_as_private_as_the_evidence(page, kitchen, delivery):
    assert page["Referrer-Policy"] == "no-referrer"
    assert "noindex" in page["X-Robots-Tag"]
    assert "private" in page["Cache-Control"]
    assert Client().get(f"/e/{'x' * 43}/worksheet").status_code == 404
    for private in ("@", "14.5", "Ade Winter", "coldreach", "<script", "style="):
        assert private not in page.content.decode(), private


def test_the_evidence_leads_to_it(kitchen, delivery):
    _, token = make_link(delivery=delivery, person=kitchen.manager)
    told = Client().get(f"/e/{token}").content.decode()
    assert f'href="/e/{token}/worksheet#line-1"' in told


def test_the_desk_has_the_same(kitchen, delivery):
    answer = Phone(kitchen.manager).client.get(f"/api/deliveries/{delivery.pk}/worksheet")
    assert answer.status_code == 200
    (line,) = answer.json()["lines"]
    as_printed = {**line, "checks": line["checks"]["made"],
                  "cartons": [{**carton, "checks": carton["checks"]["made"]} for carton in line["cartons"]]}
    assert paper_oracle.suggestion(as_printed) == line["suggestion"] == "Reject"
    assert Phone(kitchen.stranger).client.get(f"/api/deliveries/{delivery.pk}/worksheet").status_code == 404
    assert Client().get(f"/api/deliveries/{delivery.pk}/worksheet").status_code in (401, 403)
    missing = "00000000-0000-7000-8000-0000000000ff"
    assert Phone(kitchen.manager).client.get(f"/api/deliveries/{missing}/worksheet").status_code == 404


def test_no_page_behind_a_link_lacks_its_icon(kitchen, delivery):
    _, token = make_link(delivery=delivery, person=kitchen.manager)
    for path in (f"/e/{token}", f"/e/{token}/worksheet", f"/e/{'x' * 43}"):
        assert '<link rel="icon" href="/icon.svg"' in Client().get(path).content.decode()
