"""Fixtures of those tests that work on files: a data folder of each test's own, and two people's phones."""
from pathlib import Path

import pytest

from tests.inspections.receiving import Phone


@pytest.fixture
def apart(settings, tmp_path) -> Path:
    """The data folder of this one test."""
    settings.DATA = tmp_path
    settings.KEY_ROOT = tmp_path / "keys"
    settings.PHOTO_ROOT = tmp_path / "photos"
    settings.STORAGES = {**settings.STORAGES, "photos": {
        "BACKEND": "inspections.records.storage.DurableFiles", "OPTIONS": {"location": tmp_path / "photos"},
    }}
    settings.STATIC_ROOT = tmp_path / "static"
    settings.STATIC_ROOT.mkdir()
    return tmp_path


@pytest.fixture
def phone(kitchen) -> Phone:
    return Phone(kitchen.receiver)


@pytest.fixture
def other_phone(kitchen) -> Phone:
    return Phone(kitchen.other_receiver)
