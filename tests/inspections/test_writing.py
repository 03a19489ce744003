"""How the database is written: in line, each in its turn, and flushed where something is promised."""
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from django.db import OperationalError, connection, connections, transaction

from inspections.flushing import unflushed
from inspections.people.models import Site
from inspections.records.storage import DurableFiles
from inspections.sqlite.base import _Line

BASE = Path(__file__).resolve().parents[2]

ON_SQLITE = pytest.mark.skipif(
    "connection.vendor != 'sqlite'",
    reason="PostgreSQL has no one writer to wait for; CI runs this on SQLite, and fails without")


def in_thread(deed, *given):
    """Run with a connection of its own; gives the thread and what came of it."""
    found = []

    def run():
        try:
            found.append(deed(*given))
        except Exception as trouble:
            found.append(trouble)
        finally:
            connections.close_all()

    thread = threading.Thread(target=run)
    thread.start()
    return thread, found


def add(name: str) -> float:
    with transaction.atomic():
        Site.objects.create(name=name, code=name)
        return time.monotonic()


@pytest.mark.django_db(transaction=True)
def test_who_waits_to_write_is_woken_at_once():
    """SQLite's own waiting sleeps a tenth of a second by then, each for itself."""
    with transaction.atomic():
        Site.objects.create(name="first", code="first")
        waiting = [in_thread(add, f"n{number}") for number in range(6)]
        time.sleep(0.5)
    ended = time.monotonic()
    for thread, _ in waiting:
        thread.join(10)
    assert Site.objects.count() == 7
    assert min(found[0] for _, found in waiting) - ended < 0.09


@ON_SQLITE
@pytest.mark.django_db(transaction=True)
def test_a_line_that_does_not_move_ends_with_the_sentence_for_a_busy_one(monkeypatch):
    from inspections.sync.idempotency import is_busy

    monkeypatch.setitem(connection.settings_dict["OPTIONS"], "timeout", 0.2)
    with transaction.atomic():
        Site.objects.create(name="first", code="first")
        thread, found = in_thread(add, "second")
        thread.join(10)
    assert isinstance(found[0], OperationalError)
    assert is_busy(found[0])
    assert add("third")


@ON_SQLITE
@pytest.mark.django_db(transaction=True)
def test_a_transaction_that_fails_leaves_its_place():
    def fail():
        with transaction.atomic():
            Site.objects.create(name="never", code="never")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail()
    thread, found = in_thread(add, "next")
    thread.join(10)
    assert isinstance(found[0], float)


@ON_SQLITE
@pytest.mark.django_db(transaction=True)
def test_what_nobody_was_promised_is_not_flushed_and_all_else_is():
    def is_flushed() -> bool:
        with connection.cursor() as cursor:
            return cursor.execute("PRAGMA synchronous").fetchone()[0] == 2

    assert is_flushed()
    with unflushed():
        Site.objects.create(name="one", code="one")
        assert not is_flushed()
    assert is_flushed()
    with transaction.atomic(), unflushed():
        Site.objects.create(name="two", code="two")
        assert is_flushed()
    assert Site.objects.count() == 2


def test_a_file_is_taken_over_without_being_copied(tmp_path):
    files, part = DurableFiles(location=tmp_path / "photos"), tmp_path / "part"
    part.write_bytes(b"whole")
    files.adopt("ab/abc", part)
    target = tmp_path / "photos/ab/abc"
    assert target.samefile(part)
    # what a kill left under the name is put right
    target.unlink()
    target.write_bytes(b"wh")
    files.adopt("ab/abc", part)
    assert target.read_bytes() == b"whole"
    part.unlink()
    assert target.read_bytes() == b"whole"


BUSY = """
import sys, threading, time
from inspections.sqlite.base import _Line
line = _Line(sys.argv[1])
def hold():
    while True:
        handle = line.join(60)
        time.sleep(0.002)
        line.leave(handle)
for _ in range(8):
    threading.Thread(target=hold, daemon=True).start()
print("busy", flush=True)
time.sleep(60)
"""


def test_a_busy_process_does_not_keep_another_waiting(tmp_path):
    path = str(tmp_path / "db")
    busy = subprocess.Popen([sys.executable, "-c", BUSY, path], cwd=BASE, stdout=subprocess.PIPE, text=True)
    try:
        busy.stdout.readline()
        line = _Line(path)
        for _ in range(20):
            handle = line.join(1.0)
            assert handle is not None
            line.leave(handle)
    finally:
        busy.kill()
        busy.wait()
        busy.stdout.close()
