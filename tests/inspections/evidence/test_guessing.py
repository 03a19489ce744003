"""Trying links: after some wrong ones an address waits, others do not, and a right link costs nobody anything."""
import pytest
from django.core.cache import cache
from django.test import Client

from inspections.evidence.link_throttle import MOST_WRONG
from inspections.evidence.links import make_link
from inspections.records.models import Delivery
from tests.inspections.receiving import decide, document

WRONG = "/e/" + "x" * 43


@pytest.fixture(autouse=True)
def forgotten():
    cache.clear()
    yield
    cache.clear()


@pytest.fixture
def link(kitchen, phone) -> str:
    assert phone.sign(decide(document(kitchen))).status_code == 200
    return "/e/" + make_link(delivery=Delivery.objects.get(), person=kitchen.manager)[1]


def test_many_wrong_links_make_an_address_wait(link):
    guesser = Client(REMOTE_ADDR="203.0.113.7")
    for path in (WRONG, f"{WRONG}/bundle.zip", f"{WRONG}/worksheet"):
        for _ in range(MOST_WRONG // 3):
            assert guesser.get(path).status_code == 404
    answer = guesser.get(WRONG)
    assert answer.status_code == 429
    assert "Wait 10 minutes" in answer.content.decode()
    # Else a right one among the guesses would show.
    assert guesser.get(link).status_code == 429
    assert Client(REMOTE_ADDR="203.0.113.8").get(link).status_code == 200


def test_a_right_link_is_not_counted(link):
    supplier = Client(REMOTE_ADDR="203.0.113.9")
    assert all(supplier.get(link).status_code == 200 for _ in range(MOST_WRONG + 2))


def test_behind_a_proxy_the_address_is_the_one_that_the_proxy_saw(link, settings):
    settings.PROXIES = 1
    for number in range(MOST_WRONG):
        # What a guesser writes in front of it does not help.
        Client().get(WRONG, headers={"X-Forwarded-For": f"10.0.0.{number}, 203.0.113.7"})
    assert Client().get(link, headers={"X-Forwarded-For": "203.0.113.7"}).status_code == 429
    assert Client().get(link, headers={"X-Forwarded-For": "203.0.113.8"}).status_code == 200


def test_the_count_that_runs_out_between_two_looks_harms_nothing(db, apart, monkeypatch):
    monkeypatch.setattr(cache, "add", lambda *asked, **more: False)
    assert Client().get(WRONG).status_code == 404
