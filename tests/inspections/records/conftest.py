"""Photos and small pictures in a folder of each test's own: what one leaves behind is not there for the next."""
from pathlib import Path

import pytest

from tests.inspections.file_fixtures import apart  # noqa: F401


@pytest.fixture(autouse=True)
def own_folder(apart: Path) -> Path:  # noqa: F811
    """Asked of every test here, as most keep a photo or two."""
    return apart
