"""A disk that fills up while the server runs: a sentence, nothing lost, and on it goes once there is room."""
import errno

import pytest
from django.test import Client

from tests.inspections.file_fixtures import apart, phone  # noqa: F401
from tests.inspections.receiving import document, make_kitchen


@pytest.fixture
def kitchen(transactional_db, apart):  # noqa: F811
    return make_kitchen()


def test_a_document_that_finds_no_room_is_refused_in_a_sentence_and_taken_later(kitchen, phone, full_database):  # noqa: F811
    draft = document(kitchen)
    draft["lines"][0]["suggested"] = {"text": "n" * 200_000}
    full_database.close()
    answer = phone.put(draft)
    assert (answer.status_code, answer.json()["code"]) == (507, "NO-ROOM")
    full_database.open()
    assert phone.put(draft).status_code == 201


def test_a_page_that_finds_no_room_says_so(monkeypatch):
    def full():
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("inspections.spa.how_it_stands", full)
    answer = Client(raise_request_exception=False).get("/health")
    assert answer.status_code == 507
    assert "disk is full" in answer.content.decode()


@pytest.mark.django_db
def test_another_database_error_is_not_called_a_full_disk():
    from django.db import DatabaseError, connection

    from inspections.errors import is_disk_full

    with pytest.raises(DatabaseError) as trouble, connection.cursor() as cursor:
        cursor.execute("SELECT nothing FROM nowhere")
    assert not is_disk_full(trouble.value)
