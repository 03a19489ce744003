"""Guessing passwords is slowed, and a stranger who guesses keeps no receiver out.

The scheme is OWASP's “Slow Down Online Guessing Attacks with Device Cookies”.
"""
from datetime import timedelta

import pytest
from axes.models import AccessAttempt
from django.test import RequestFactory
from rest_framework.test import APIClient

from inspections.people.address import client_address
from inspections.people.known import COOKIE
from tests.factories import a_person, a_site

PASSWORD = "lantern-quay"


@pytest.fixture
def ines(db):
    return a_person("ines", "receiver", a_site("QUAY"), password=PASSWORD)


def sign_in(client: APIClient, username: str = "ines", password: str = PASSWORD, at: str = "203.0.113.7"):
    return client.post("/api/session", {"username": username, "password": password}, format="json", REMOTE_ADDR=at)


def later(minutes: int) -> None:
    for row in AccessAttempt.objects.all():
        AccessAttempt.objects.filter(pk=row.pk).update(attempt_time=row.attempt_time - timedelta(minutes=minutes))


def test_a_stranger_behind_the_same_proxy_does_not_lock_a_receiver_out(ines, settings):
    settings.PROXIES = 1
    phone = APIClient()
    assert sign_in(phone).status_code == 200
    for _ in range(15):
        sign_in(APIClient(), password="guess")
    # The receiver's own phone, from the very same network.
    assert sign_in(phone).status_code == 200


def test_a_new_phone_elsewhere_is_not_locked_out_by_one_address(ines, settings):
    settings.PROXIES = 1

    def from_behind(address: str, password: str):
        body = {"username": "ines", "password": password}
        return APIClient().post("/api/session", body, format="json", headers={"X-Forwarded-For": address})

    answers = [from_behind(f"198.51.100.{number}, 203.0.113.7", "guess").status_code for number in range(12)]
    assert answers[0] == 401
    assert answers[-1] == 429
    assert from_behind("203.0.113.8", PASSWORD).status_code == 200


def test_forty_names_from_one_address_are_slowed(ines):
    answers = [sign_in(APIClient(), f"name{number}", "winter-2026").status_code for number in range(40)]
    assert answers[:29] == [401] * 29
    assert answers[30:] == [429] * 10
    assert sign_in(APIClient()).status_code == 429
    assert sign_in(APIClient(), at="203.0.113.8").status_code == 200


def test_one_name_from_many_addresses_is_slowed_for_strangers_only(ines):
    phone = APIClient()
    sign_in(phone)
    answers = [sign_in(APIClient(), password="guess", at=f"198.51.{n}.1").status_code for n in range(105)]
    assert (answers[98], answers[-1]) == (401, 429)
    assert sign_in(APIClient(), at="203.0.113.8").status_code == 429
    assert sign_in(phone).status_code == 200


def test_guessing_on_a_known_phone_is_slowed_too_and_holds_up_that_phone_alone(ines):
    phone, other = APIClient(), APIClient()
    sign_in(phone)
    sign_in(other)
    answers = [sign_in(phone, password="guess") for _ in range(11)]
    assert [answer.status_code for answer in answers[:9]] == [401] * 9
    assert answers[-1].status_code == 429
    assert answers[-1].headers["Retry-After"] == "600"
    assert sign_in(other).status_code == 200


def test_going_on_trying_does_not_make_the_wait_longer(ines):
    for _ in range(10):
        sign_in(APIClient(), password="guess")
    later(9)
    assert sign_in(APIClient()).status_code == 429
    later(2)
    assert sign_in(APIClient()).status_code == 200


@pytest.mark.parametrize("cookie", ["", "x", "eyJpZCI6IngifQ:1:x"])
def test_a_cookie_that_the_server_did_not_sign_makes_nobody_known(ines, cookie):
    guesser = APIClient()
    guesser.cookies[COOKIE] = cookie
    assert [sign_in(guesser, password="guess").status_code for _ in range(11)][-1] == 429
    assert sign_in(APIClient()).status_code == 429


def test_a_phone_is_known_for_those_who_signed_in_on_it_only(ines):
    a_person("tom", "receiver", password=PASSWORD)
    phone = APIClient()
    sign_in(phone, "tom")
    for _ in range(10):
        sign_in(APIClient(), password="guess")
    assert sign_in(phone, "ines").status_code == 429
    assert sign_in(phone, "tom").status_code == 200


@pytest.mark.parametrize("username", ["ines known on 0123456789abcdef", "i\0nes", "ü" * 150, " "])
def test_odd_names_are_refused_like_any_other(ines, username):
    assert sign_in(APIClient(), username, "guess").status_code in (400, 401)


@pytest.mark.parametrize(
    ("proxies", "remote", "forwarded", "address"),
    [
        (0, "203.0.113.7", "198.51.100.1", "203.0.113.7"),
        (1, "10.0.0.1", "198.51.100.1, 203.0.113.7", "203.0.113.7"),
        (2, "10.0.0.1", "198.51.100.1, 203.0.113.7, 10.0.0.2", "203.0.113.7"),
        (2, "10.0.0.1", "203.0.113.7", "10.0.0.1"),
        (1, "10.0.0.1", "", "10.0.0.1"),
        (1, "10.0.0.1", "unknown", "0.0.0.0"),
        (0, "", "", "0.0.0.0"),
        # RFC 4291, 2.5.4: the last 64 bits are the interface's own.
        (0, "2001:db8:1:2:aaaa::1", "", "2001:db8:1:2::"),
        (0, "::ffff:203.0.113.7", "", "203.0.113.7"),
    ],
)
def test_the_address_is_the_one_that_the_outermost_trusted_proxy_saw(settings, proxies, remote, forwarded, address):
    settings.PROXIES = proxies
    request = RequestFactory().get("/", REMOTE_ADDR=remote, headers={"X-Forwarded-For": forwarded})
    assert client_address(request) == address
