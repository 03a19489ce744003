"""Cheap passwords: these tests try hundreds, and what is asked here is not how hard one is to reckon."""
import pytest

from tests.inspections.file_fixtures import apart  # noqa: F401


@pytest.fixture(autouse=True)
def cheap_passwords(settings):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
