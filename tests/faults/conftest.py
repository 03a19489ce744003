"""A kitchen in the database, with keys, photos and part files in a folder of this test's own."""
from pathlib import Path

import pytest

from tests.inspections.receiving import Kitchen, Phone, make_kitchen


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
def kitchen(transactional_db, apart) -> Kitchen:
    return make_kitchen()


@pytest.fixture
def phone(kitchen) -> Phone:
    return Phone(kitchen.receiver)


@pytest.fixture
def other_phone(kitchen) -> Phone:
    return Phone(kitchen.other_receiver)
