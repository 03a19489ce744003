"""The cast, and clients signed in as each of them."""
import pytest
from rest_framework.test import APIClient

from tests.cast import Cast, make_cast


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
