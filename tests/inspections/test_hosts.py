"""The server answers to its own names and addresses, and to nobody's by default."""
import pytest

from inspections import hosts


@pytest.fixture(autouse=True)
def as_installed(settings):
    settings.ALLOWED_HOSTS = hosts.own_names()
    settings.ANSWERS_TO_OWN_ADDRESS = True


@pytest.mark.django_db
@pytest.mark.parametrize(("host", "own"), [
    ("localhost:8000", "127.0.0.1"), ("192.0.2.7:8000", "192.0.2.7"), ("[2001:db8::7]:8000", "2001:db8::7")])
def test_the_machine_s_own_addresses_are_answered_to(client, host, own):
    assert client.get("/health", HTTP_HOST=host, SERVER_NAME=own).status_code == 200


@pytest.mark.parametrize("host", ["pages.example", "192.0.2.8", "localhost.pages.example"])
def test_another_name_gets_a_sentence(client, host):
    answer = client.get("/api/session", HTTP_HOST=host, SERVER_NAME="192.0.2.7")
    assert (answer.status_code, answer.json()["code"]) == (400, "HOST-UNKNOWN")
    page = client.get("/nothing", HTTP_HOST=host, SERVER_NAME="192.0.2.7")
    assert "UNDERLID_HOSTS" in page.content.decode()


def test_named_hosts_leave_the_machine_s_address_out(client, settings):
    settings.ALLOWED_HOSTS, settings.ANSWERS_TO_OWN_ADDRESS = ["receiving.example"], False
    assert client.get("/health", HTTP_HOST="192.0.2.7", SERVER_NAME="192.0.2.7").status_code == 400


def test_a_name_is_never_learnt_from_the_socket(client, settings):
    client.get("/health", HTTP_HOST="pages.example", SERVER_NAME="pages.example")
    assert "pages.example" not in settings.ALLOWED_HOSTS
