"""A database that goes away for a moment: whoever asks is told to come back, nothing is called a fault of its own."""
import pytest
from django.db import InterfaceError, OperationalError
from django.test import Client

from tests.inspections.file_fixtures import apart, phone  # noqa: F401
from tests.inspections.receiving import decide, document, make_kitchen

GONE = OperationalError("consuming input failed: server closed the connection unexpectedly")


@pytest.fixture
def kitchen(transactional_db, apart):  # noqa: F811
    return make_kitchen()


def raising(trouble):
    def go_away(*args, **kwargs):
        raise trouble

    return go_away


@pytest.mark.parametrize("trouble", [GONE, InterfaceError("connection already closed")])
def test_a_document_is_asked_for_again_and_taken_then(kitchen, phone, monkeypatch, trouble):  # noqa: F811
    draft = document(kitchen)
    with monkeypatch.context() as patch:
        patch.setattr("inspections.sync.document.make_document", raising(trouble))
        answer = phone.put(draft)
    assert (answer.status_code, answer.json()["code"]) == (503, "DATABASE-AWAY")
    assert int(answer["Retry-After"]) > 0
    assert phone.put(draft).status_code == 201


def test_so_is_a_signature(kitchen, phone, monkeypatch):  # noqa: F811
    final = decide(document(kitchen))
    with monkeypatch.context() as patch:
        patch.setattr("inspections.sync.signing.seal", raising(GONE))
        assert phone.sign(final).status_code == 503
    assert phone.sign(final).status_code == 200


@pytest.mark.django_db
@pytest.mark.parametrize("address", ["/sync/reference", "/api/session"])
def test_also_where_the_session_cannot_be_read(monkeypatch, address):
    """Before any view is asked, so Django's own handler of faults answers."""
    client = Client(raise_request_exception=False)
    client.cookies["sessionid"] = "a" * 32
    monkeypatch.setattr("django.contrib.sessions.backends.db.SessionStore.load", raising(GONE))
    answer = client.get(address)
    assert (answer.status_code, answer.json()["code"]) == (503, "DATABASE-AWAY")
    assert answer["Content-Type"] == "application/problem+json"
    assert int(answer["Retry-After"]) > 0
