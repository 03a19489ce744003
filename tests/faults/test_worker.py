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
from inspections.deployment import start
from inspections.deployment.supervisor import Supervisor
from tests.factories import a_jpeg
for number in range(int(sys.argv[1])):
    content = a_jpeg() + str(number).encode()
    sha256 = hashlib.sha256(content).hexdigest()
    store_photo(sha256=sha256, path_or_bytes=content)
    jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": {"purpose": "top"}})
worker = start.worker()
if len(sys.argv) > 2:
    worker.command = [sys.executable, "-c", sys.argv[2], sha256]
begin = worker.start
def started():
    begin()
    print(worker.process.pid, flush=True)
worker.start = started
sys.exit(Supervisor([worker]).run())
"""
#: A worker that dies of one photo, as a decoder's fault or the system's memory guard would have it.
POISONED = """
import os, signal, sys
from functools import partial
import django
django.setup()
import imaging.tasks
from inspections.celery import app
from inspections.records import jobs
jobs.take = partial(jobs.take, lease_s=1)
jobs.MOST_ATTEMPTS = 2
done = imaging.tasks._done
def done_or_dead(job):
    if job.sha256 == sys.argv[1]:
        os.kill(os.getpid(), signal.SIGKILL)
    return done(job)
imaging.tasks._done = done_or_dead
app.worker_main(["--quiet", "worker", "--pool", "solo", "--without-gossip", "--without-mingle", "--without-heartbeat"])
"""


@pytest.fixture
def working(tmp_path, request):
    """The supervisor with its worker, and the worker's first process id."""
    clean = {name: value for name, value in os.environ.items() if name not in {"DATABASE_URL", "REDIS_URL"}}
    process = subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(PHOTOS), *getattr(request, "param", [])], cwd=BASE,
        stdout=subprocess.PIPE, text=True,
        env=clean | {"UNDERLID_DATA": str(tmp_path), "UNDERLID_SWEEP_SECONDS": "1",
                     "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    yield int(process.stdout.readline())
    process.terminate()
    process.wait(timeout=40)
    process.stdout.close()


def asked(data: Path, query: str) -> list:
    with sqlite3.connect(data / "underlid.sqlite3", timeout=20) as database:
        found = database.execute(query).fetchall()
    database.close()
    return found


def wait_for_states(data: Path, enough, seconds: float = 60.0) -> list[str]:
    end = time.monotonic() + seconds
    while True:
        found = [row[0] for row in asked(data, "SELECT state FROM records_job")]
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


@pytest.mark.parametrize("working", [[POISONED]], indirect=True)
def test_a_photo_that_kills_its_worker_is_parked_with_its_reason_and_holds_no_other_up(working, tmp_path):
    wait_for_states(tmp_path, lambda states: "parked" in states and states.count("done") == PHOTOS - 1, seconds=120)
    (sentence,) = asked(tmp_path, "SELECT sentence FROM records_job WHERE state = 'parked'")
    assert "The worker stopped 2 times while at this photo" in sentence[0]
