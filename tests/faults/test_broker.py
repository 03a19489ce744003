"""A broker that is killed hard and comes back empty: no request waits for it, and what it forgot is hinted again."""
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from inspections.records import jobs
from tests.factories import a_jpeg
from tests.inspections.receiving import keep

BASE = Path(__file__).resolve().parents[2]
#: More hints than kombu keeps connections in its pool (10).
HINTS = 12
SCRIPT = """
import json, os, signal, sys, time
from inspections.development.services import Redis, brought_up
with brought_up(Redis) as redis:
    os.environ["REDIS_URL"] = redis.url
    import django
    django.setup()
    from inspections.celery import broker, hints_waiting
    from inspections.records import jobs
    count = int(sys.argv[1])
    told = {"before": jobs.hint()}
    os.kill(redis.pid, signal.SIGKILL)
    began = time.monotonic()
    told["away"] = [jobs.hint() for _ in range(count)]
    told["seconds"] = time.monotonic() - began
    redis.start_again()
    told["back"] = [jobs.hint() for _ in range(count)]
    with broker() as connection:
        told["waiting"] = hints_waiting(connection)
print(json.dumps(told))
"""


@pytest.mark.services
def test_redis_killed_and_wiped_holds_nobody_up_and_is_hinted_at_again(tmp_path):
    clean = {name: value for name, value in os.environ.items() if name not in {"DATABASE_URL", "REDIS_URL"}}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(HINTS)], cwd=BASE, capture_output=True, text=True, timeout=100,
        env=clean | {"UNDERLID_DATA": str(tmp_path), "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout.splitlines()[-1])
    assert told["before"] is True
    assert told["away"] == [False] * HINTS
    assert told["seconds"] < 10
    assert told["back"] == [True] * jobs.MOST_HINTS + [False] * (HINTS - jobs.MOST_HINTS)
    assert told["waiting"] == jobs.MOST_HINTS


def test_hints_that_a_wiped_broker_forgot_are_given_again_by_the_sweep(kitchen):
    from inspections.celery import app, broker, hints_waiting

    jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": keep(a_jpeg()), "context": {"purpose": "top"}})
    app.control.purge()
    with broker() as connection:
        assert hints_waiting(connection) == 0
        assert jobs.sweep() == 1
        assert hints_waiting(connection) == 1
    app.control.purge()
