"""A kitchen in the database, with keys, photos and part files in a folder of this test's own."""
import pytest

from tests.inspections.file_fixtures import apart, other_phone, phone  # noqa: F401
from tests.inspections.receiving import Kitchen, make_kitchen


@pytest.fixture
def kitchen(transactional_db, apart) -> Kitchen:  # noqa: F811
    return make_kitchen()
