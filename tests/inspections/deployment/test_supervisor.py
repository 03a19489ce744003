"""The supervisor restarts what ends and leaves nothing behind."""
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

BASE = Path(__file__).resolve().parents[3]
# The parent of one child that itself has a child: the whole group must go.
SCRIPT = """
import sys
from inspections.deployment.supervisor import Child, Supervisor
child = "import subprocess,sys,time,os;p=subprocess.Popen([sys.executable,'-c','import time;time.sleep(60)']);" \
        "print('pids',os.getpid(),p.pid,flush=True);time.sleep(60)"
sys.exit(Supervisor([Child("sleeper", [sys.executable, "-c", child])]).run())
"""


@pytest.fixture
def supervised():
    process = subprocess.Popen([sys.executable, "-c", SCRIPT], cwd=BASE, stdout=subprocess.PIPE,
                               stderr=subprocess.DEVNULL, text=True)
    yield process
    process.kill()
    process.stdout.close()
    process.wait()


def pids(process) -> list[int]:
    return [int(word) for word in process.stdout.readline().split()[1:]]


def lives(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] != "Z"
    except OSError:
        return False


def wait_until(true, seconds=10.0) -> bool:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if true():
            return True
        time.sleep(0.05)
    return False


def test_term_ends_the_children_and_their_children(supervised):
    family = pids(supervised)
    supervised.send_signal(signal.SIGTERM)
    assert supervised.wait(timeout=20) == 0
    assert wait_until(lambda: not any(map(lives, family)))


def test_a_killed_child_is_started_again_without_its_old_group(supervised):
    leader, grandchild = pids(supervised)
    os.kill(leader, signal.SIGKILL)
    new_leader, _ = pids(supervised)
    assert new_leader != leader
    assert wait_until(lambda: not lives(grandchild))


@pytest.mark.skipif(
    sys.platform != "linux",
    reason="only Linux tells a child that its parent died; CI runs on Linux, where leaving this out fails",
)
def test_killing_the_supervisor_ends_the_child(supervised):
    leader, _ = pids(supervised)
    supervised.kill()
    assert wait_until(lambda: not lives(leader))


def test_a_child_that_lives_but_does_nothing_is_named_and_started_again():
    script = """
import sys
from inspections.deployment import supervisor
supervisor.LOOK_SECONDS = 0.3
sleeper = "import os,time;print('pids',os.getpid(),flush=True);time.sleep(60)"
child = supervisor.Child("worker", [sys.executable, "-c", sleeper],
                         trouble=lambda up_s: "3 photos wait." if up_s > 1 else None)
sys.exit(supervisor.Supervisor([child]).run())
"""
    process = subprocess.Popen([sys.executable, "-c", script], cwd=BASE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                               text=True)
    first, second = pids(process), pids(process)
    process.terminate()
    _, told = process.communicate(timeout=30)
    assert first != second
    assert not lives(first[0])
    assert "3 photos wait. The worker is stopped." in told
