"""A real worker under the supervisor, killed hard at its work: what waits goes on without anybody's help."""
import os
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

BASE = Path(__file__).resolve().parents[2]
PHOTOS = 40
SCRIPT = """
import hashlib, sys
import django
django.setup()
from django.core.management import call_command
call_command("migrate", verbosity=0)
from inspections.records import jobs
from inspections.records.services.photo import store_photo
from inspections.deployment.start import _children
from inspections.deployment.supervisor import Supervisor
from tests.factories import a_jpeg
for number in range(int(sys.argv[1])):
    content = a_jpeg() + str(number).encode()
    sha256 = hashlib.sha256(content).hexdigest()
    store_photo(sha256=sha256, path_or_bytes=content, content_type="image/jpeg")
    jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": {"purpose": "top"}})
worker = _children("127.0.0.1", 1)[1]
start = worker.start
def started():
    start()
    print(worker.process.pid, flush=True)
worker.start = started
sys.exit(Supervisor([worker]).run())
"""


@pytest.fixture
def working(tmp_path):
    """The supervisor with its worker, and the worker's first process id."""
    clean = {name: value for name, value in os.environ.items() if name not in {"DATABASE_URL", "REDIS_URL"}}
    process = subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(PHOTOS)], cwd=BASE, stdout=subprocess.PIPE, text=True,
        env=clean | {"UNDERLID_DATA": str(tmp_path), "UNDERLID_SWEEP_SECONDS": "1",
                     "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    yield int(process.stdout.readline())
    process.terminate()
    process.wait(timeout=40)
    process.stdout.close()


def wait_for_states(data: Path, enough, seconds: float = 60.0) -> list[str]:
    end = time.monotonic() + seconds
    while True:
        with sqlite3.connect(data / "underlid.sqlite3", timeout=20) as database:
            found = [row[0] for row in database.execute("SELECT state FROM records_job")]
        database.close()
        if enough(found):
            return found
        assert time.monotonic() < end, found
        time.sleep(0.02)


def test_a_worker_killed_at_its_work_is_replaced_and_the_rest_is_done(working, tmp_path):
    found = wait_for_states(tmp_path, lambda states: "done" in states)
    os.kill(working, signal.SIGKILL)
    assert "waiting" in found
    # What the dead worker had in hand waits for its lease; nothing else does.
    wait_for_states(tmp_path, lambda states: states.count("done") >= PHOTOS - 1)
