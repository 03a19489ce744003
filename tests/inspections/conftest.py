"""The cast, and clients signed in as each of them."""
import pytest
from django.db import DatabaseError, connection
from rest_framework.test import APIClient

from tests.personas import Cast, make_cast


@pytest.fixture
def cast(db) -> Cast:
    return make_cast()


@pytest.fixture
def signed_in():
    """A client that is signed in as the given person; as nobody without one."""

    def client(person=None) -> APIClient:
        browser = APIClient()
        if person is not None:
            browser.force_login(person)
        return browser

    return client


class FullDatabase:
    """The test database, which can be made to find no room; SQLite by its own limit of pages."""

    error = DatabaseError

    def close(self) -> None:
        with connection.cursor() as cursor:
            # Pages that earlier tests left free would still take a document.
            cursor.execute("VACUUM")
            cursor.execute("PRAGMA page_count")
            pages = cursor.fetchone()[0]
            cursor.execute(f"PRAGMA max_page_count = {pages}")

    def open(self) -> None:
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA max_page_count = 1073741823")

    def fill(self) -> None:
        """Write until there is no room."""
        self.close()
        try:
            with connection.cursor() as cursor:
                cursor.execute("CREATE TABLE filling AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n "
                               "WHERE i < 100000) SELECT i, hex(randomblob(40)) FROM n")
        finally:
            self.open()


@pytest.fixture
def full_database(transactional_db):
    if connection.vendor != "sqlite":
        pytest.skip("PostgreSQL has no limit of its own that a test could set; its SQLSTATE is looked for by name. "
                    "CI runs this on SQLite, and fails without")
    full = FullDatabase()
    yield full
    full.open()
