"""Measures by what they are told apart by: counts, shares, cost of a sound kilogram; and answers that are kept."""
from datetime import UTC, datetime, timedelta

import pytest
from django.db.models import F

from inspections.claims.models import Claim
from inspections.claims.services import Said, say
from inspections.comparison import kept as kept_module
from inspections.comparison.measures import of_cost, row
from inspections.comparison.models import COUNTED
from inspections.people.models import Role
from inspections.records.models import Supplier
from inspections.records.shape.door import read_delivery
from inspections.sync.signing import sign
from tests.inspections.claims.conftest import claim, refused  # noqa: F401
from tests.inspections.file_fixtures import apart, phone  # noqa: F401
from tests.inspections.receiving import Kitchen, decide, document, make_kitchen

YEAR = {"from": "2026-01-01", "to": "2026-12-31"}


@pytest.fixture
def kitchen(db, apart) -> Kitchen:  # noqa: F811
    return make_kitchen()


@pytest.fixture
def told(client):
    """Measures as somebody of group operations reads them."""
    def get(person, **query):
        client.force_login(person)
        return client.get("/api/measures", {**YEAR, **query}).json()
    return get


def test_each_way_of_telling_apart_adds_up_to_the_same(dock, person, told):
    for supplier, site in (("Abalone", "Harbour"), ("Bright", "Harbour"), ("Bright", "Hill")):
        for month in (2, 3):
            dock.delivery(supplier, site, ("HLSO raw", 20, 4, 5, 2), ("PUD raw", 10, 0, 3, 0),
                          arrived_at=datetime(2026, month, 4, 6, 0, tzinfo=UTC))
    boss = person(Role.GROUP_OPERATIONS)
    every = {by: told(boss, by=by) for by in ("supplier", "site", "specification", "species", "month")}
    assert {by: len(answer["rows"]) for by, answer in every.items()} == {
        "supplier": 2, "site": 2, "specification": 2, "species": 1, "month": 2}
    for answer in every.values():
        assert answer["all"]["counts"]["opened"] == 48 == sum(each["counts"]["opened"] for each in answer["rows"])
        assert answer["all"]["shares"]["refused"] == pytest.approx(
            {"count": 24, "of": 180, "share": 24 / 180, "low": 0.0914, "high": 0.1906}, abs=5e-4)
    bright = Supplier.objects.get(name="Bright")
    months = told(boss, by="month", supplier=str(bright.pk))
    assert [(each["name"], each["counts"]["opened"]) for each in months["rows"]] == [("2026-02", 16), ("2026-03", 16)]


def test_of_a_signed_delivery_faults_weights_and_costs_are_told(db, told):
    kitchen = make_kitchen()
    sign(sent=read_delivery(decide(document(kitchen, bad=True))), person=kitchen.receiver)
    answer = told(kitchen.manager, by="species")["rows"][0]
    assert (answer["id"], answer["name"]) == ("PNV", "Whiteleg shrimp")
    assert {name: (answer["shares"][name]["count"], answer["shares"][name]["of"]) for name in (
        "warm", "spot", "short", "off_count", "late")} == {
        "warm": (1, 3), "spot": (1, 3), "short": (0, 3), "off_count": (0, 3), "late": (0, 1)}
    assert answer["mean_product_c"] == pytest.approx((-9.5 - 19.4 - 19.4) / 3)
    # every carton was refused: nothing was paid for
    assert answer["cost"] is None


def test_a_sound_kilogram_costs_what_was_paid_over_what_was_there(db, told):
    kitchen = make_kitchen()
    sign(sent=read_delivery(decide(document(kitchen))), person=kitchen.receiver)
    # 14.50 a kilogram, of which 2,010 of 2,000 g were there in three sound cartons
    assert told(kitchen.manager, by="site")["rows"][0]["cost"] == {
        "currency": "AUD", "paid": 14.5, "net_share": pytest.approx(1.005), "sound_share": 1.0,
        "sound": pytest.approx(14.5 / 1.005)}


def test_nothing_looked_at_is_no_share_and_no_cost():
    empty = row([])
    assert {share["share"] for share in empty["shares"].values()} == {None}
    assert (empty["cost"], empty["net_share"], empty["mean_product_c"], empty["out_minutes"]) == (None,) * 4


def test_prices_in_two_currencies_are_not_added_up():
    part = {**dict.fromkeys(COUNTED, 0), "priced_g": 1000, "price_cents": 900}
    assert row([("EUR", part), ("EUR", part)])["cost"]["paid"] == 9.0
    assert row([("EUR", part), ("AUD", part)])["cost"] is None


def test_all_defective_leaves_no_sound_kilogram():
    counts = {"priced_g": 1000, "price_cents": 900, "net_g": 0, "declared_g": 0, "opened": 2, "defective": 2}
    assert of_cost({"EUR"}, counts)["sound"] is None


def test_a_manager_reads_the_own_site_only_and_an_unknown_word_is_refused(dock, person, told, client):
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 4, 5, 2))
    dock.delivery("Abalone", "Hill", ("HLSO raw", 20, 4, 7, 2))
    manager = person(Role.SITE_MANAGER, dock.site("Hill"))
    assert told(manager, by="site")["all"]["counts"]["opened"] == 7
    assert client.get("/api/measures", {"by": "weather"}).json()["code"] == "FIELDS"
    assert client.get("/api/measures", {"supplier": "x"}).json()["code"] == "FIELDS"


def test_an_answer_is_kept_until_its_sites_are_counted_anew(dock, person, ask, monkeypatch):
    worked = []
    original = kept_module.kept
    monkeypatch.setattr("inspections.comparison.api.kept", lambda work, asked, sites: original(
        lambda: worked.append(asked) or work(), asked, sites))
    boss = person(Role.GROUP_OPERATIONS)
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 4, 5, 2))
    for _ in range(3):
        assert ask(boss, from_="2026-01-01", to="2026-12-31").json()["common"]["cartons_opened"] == 5
    assert len(worked) == 1
    dock.delivery("Abalone", "Harbour", ("HLSO raw", 20, 4, 5, 2))
    assert ask(boss, from_="2026-01-01", to="2026-12-31").json()["common"]["cartons_opened"] == 10
    Supplier.objects.update(name="Abalone Bay")
    answer = ask(boss, from_="2026-01-01", to="2026-12-31").json()
    assert answer["rows"][0]["supplier"]["name"] == "Abalone Bay"
    assert len(worked) == 3


def test_claims_are_counted_with_the_goods_that_they_are_about(kitchen, claim, told):  # noqa: F811
    """Sent four days after the goods came, a day allowed: late; agreed and settled two days and a half after that."""
    def of(by="supplier", **query):
        rows = told(kitchen.manager, by=by, **query)["rows"]
        return rows[0] if rows else None

    first = of()
    assert (first["counts"]["claims"], first["shares"]["late_notice"]["count"], first["settle_days"]) == (1, 1, None)
    assert of(by="month", supplier=str(kitchen.supplier.pk))["shares"]["claims_agreed"]["of"] == 1
    say(claim=claim, said=Said("agree", "supplier", "Cold Reach Seafood"))
    assert of()["shares"]["claims_agreed"]["count"] == 1
    amount = f"{Claim.objects.get().agreed:.2f}"
    say(claim=Claim.objects.get(), said=Said("credit", "kitchen", kitchen.manager.name, kitchen.manager, "",
                                             amount=amount, credit_note="CN-1"))
    Claim.objects.update(closed_at=F("sent_at") + timedelta(hours=60))
    kept_module._kept.clear()
    settled = of()
    assert (settled["counts"]["claims_settled"], settled["settle_days"]) == (1, pytest.approx(2.5))
    assert of(**{"from": "2026-12-01"}) is None
