"""What is odd about a signing is kept and shown; the record is taken all the same. Sentences and bounds are our own."""
from datetime import timedelta

import pytest
from django.utils import timezone

from inspections.evidence.checking import verify_chain
from inspections.records.models import Delivery
from tests.inspections.file_fixtures import apart  # noqa: F401
from tests.inspections.receiving import Phone, decide, document, make_kitchen, put_away
from tests.inspections.tamper import behind


@pytest.fixture
def kitchen(db, apart):  # noqa: F811
    return make_kitchen()


def final_of(kitchen, *, arrived: timedelta = timedelta(0), signed: timedelta = timedelta(0), name: str = "Mia Castel"):
    now = timezone.now()
    final = decide({**document(kitchen), "arrived_at": (now + arrived).isoformat()})
    final["signatures"]["receiver"] |= {"name": name, "at": (now + signed).isoformat()}
    return final


def codes(kitchen, final) -> list[str]:
    answer = Phone(kitchen.receiver).sign(final)
    assert answer.status_code == 200, answer.content
    assert answer.json()["noticed"] == Delivery.objects.get().noticed
    return [one["code"] for one in answer.json()["noticed"]]


HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.mark.parametrize(("odd", "expected"), [
    ({}, []),
    ({"arrived": -HOUR}, []),
    ({"arrived": timedelta(minutes=5), "signed": timedelta(minutes=6)}, []),
    ({"arrived": -6 * DAY, "signed": -6 * DAY}, []),
    ({"name": " mia  CASTEL "}, []),
    ({"name": "Tom Arden"}, ["OTHER-NAME"]),
    ({"arrived": 1600 * DAY, "signed": 1600 * DAY}, ["ARRIVED-AHEAD", "SIGNED-AHEAD"]),
    ({"arrived": 1600 * DAY}, ["ARRIVED-AHEAD", "SIGNED-BEFORE-ARRIVAL"]),
    ({"arrived": -9 * DAY, "signed": -9 * DAY}, ["ARRIVED-LONG-AGO"]),
    ({"arrived": -HOUR, "signed": -2 * HOUR}, ["SIGNED-BEFORE-ARRIVAL"]),
])
def test_what_does_not_go_together_is_noticed_and_nothing_is_lost(kitchen, odd, expected):
    assert codes(kitchen, final_of(kitchen, **odd)) == expected


def test_it_is_sealed_and_shown_to_desk_and_supplier(kitchen, client):
    final = final_of(kitchen, name="Tom Arden")
    codes(kitchen, final)
    delivery = Delivery.objects.get()
    text = "The receiver’s name is given as “Tom Arden”. The person signed in was “Mia Castel”."
    desk = Phone(kitchen.manager).client.get(f"/api/deliveries/{delivery.pk}").json()
    assert desk["noticed"] == [{"code": "OTHER-NAME", "text": text}]
    shown = Phone(kitchen.manager).client.post(f"/api/deliveries/{delivery.pk}/evidence-links", {"days": 30},
                                               content_type="application/json").json()
    assert text in client.get(shown["url"].removeprefix("http://testserver")).content.decode()
    assert verify_chain(kitchen.site) == []
    behind(Delivery).filter(pk=delivery.pk).update(noticed=[])
    assert ["what was noticed at signing" in str(one) for one in verify_chain(kitchen.site)] == [True]


@pytest.mark.parametrize("moment", ["", "soon", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-12:00", "2026-11-25"])
def test_moments_that_cannot_be_read_break_no_page_of_the_record(kitchen, client, moment):
    final = final_of(kitchen)
    final["lines"][0]["decision"]["decided_at"] = final["wording"]["copied_at"] = moment
    final["lines"][0]["cartons"][0]["opened_at"] = moment
    for signature in final["signatures"].values():
        signature["at"] = moment
    assert codes(kitchen, final) == []
    added = put_away(kitchen, final)
    added["body"]["cartons"][0] |= {"out_at": moment, "in_at": "2026-11-25T06:31:00+11:00"}
    assert Phone(kitchen.receiver).add(added).status_code == 200
    manager = Phone(kitchen.manager).client
    at = f"/api/deliveries/{final['id']}/evidence-links"
    link = manager.post(at, {}, content_type="application/json").json()
    at = link["url"].removeprefix("http://testserver").partition("#")[0]
    for page in (at, f"{at}/worksheet", f"{at}/bundle.zip"):
        assert client.get(page).status_code == 200, page
    for page in ("", "/epcis"):
        assert manager.get(f"/api/deliveries/{final['id']}{page}").status_code == 200, page
    assert verify_chain(kitchen.site) == []
