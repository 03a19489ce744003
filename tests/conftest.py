"""What every Python test stands on.

The data folder is a fresh temporary one, named before Django reads its settings, so that no test can
touch a real installation. ``DATABASE_URL`` and ``REDIS_URL`` are left as the test command set them: the
same tests run on SQLite with the file broker and on PostgreSQL with Redis.
"""
import os
import tempfile
from pathlib import Path

_data = tempfile.mkdtemp(prefix="underlid-tests-")
os.environ["UNDERLID_DATA"] = _data
# WhiteNoise warns of a missing folder, and a warning is an error here.
(Path(_data) / "static").mkdir()
os.environ["DJANGO_SETTINGS_MODULE"] = "inspections.settings"
# Parallel workers each purge and count hints, so each has a database of its own on the test command's Redis.
_worker = os.environ.get("PYTEST_XDIST_WORKER", "").removeprefix("gw")
if _worker and os.environ.get("REDIS_URL", "").startswith("redis+socket:"):
    os.environ["REDIS_URL"] = f"{os.environ['REDIS_URL'].partition('?')[0]}?virtual_host={_worker}"
# Browser tests drive a live server from a thread; Django's ORM must allow that.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

import django  # noqa: E402
import pytest  # noqa: E402

from inspections import messages  # noqa: E402

django.setup()
# A gap in the catalogue is a fault of the code that is tested.
messages.catalogue().is_strict = True
# Each parallel worker must come by here too, and name a data folder of its own, before its Django starts.
del os.environ["DJANGO_SETTINGS_MODULE"]

BASE = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session", autouse=True)
def _emptied_between_tests():
    """SQLite empties tables by DELETE, which the guards of sealed rows refuse: they come off for that and go on again.

    PostgreSQL truncates, which fires no row's guard.
    """
    from django.db.backends.sqlite3.base import DatabaseWrapper

    from inspections.evidence import guards

    empty = DatabaseWrapper.ops_class.execute_sql_flush

    def unguarded(self, sql_list):
        guards.remove(self.connection)
        empty(self, sql_list)
        guards.install(self.connection)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DatabaseWrapper.ops_class, "execute_sql_flush", unguarded)
        yield


@pytest.fixture(scope="session")
def published() -> Path:
    """Folder of published tables, one source a file."""
    return BASE / "fixtures" / "published"


@pytest.fixture(scope="session")
def vectors() -> Path:
    """Folder of vectors that both languages are held to."""
    return BASE / "fixtures" / "vectors"


def pytest_sessionfinish(session, exitstatus):
    """The temporary data folder goes with the run."""
    import shutil

    shutil.rmtree(_data, ignore_errors=True)


def pytest_runtest_logreport(report):
    """Tell the test command what was skipped and why; it lists that at the end."""
    notes = os.environ.get("UNDERLID_LEFT_OUT_FILE")
    if notes and report.skipped:
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
        with open(notes, "a", encoding="utf-8") as file:
            file.write(f"{report.nodeid}: {reason.removeprefix('Skipped: ')}\n")
