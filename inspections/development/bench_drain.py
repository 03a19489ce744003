"""``manage.py bench_drain``: how fast one worker works off photos that wait, beside the analysis alone.

A throw-away folder gets photos of 12 megapixels with their jobs, a tenth of them of a delivery at the door and written
last; then one worker is started, as ``manage.py start`` does it. Printed are photos a second from the first job
finished to the last, the same for the analysis of one such photo after another in a process without anything else,
the most messages that lay with the broker, and whether what is needed first was done first.
"""
import argparse
import contextlib
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from inspections.development import forms

CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "sample"}
ALONE = 12


def furnish(count: int) -> dict:
    """Photos with their jobs, as signing writes them; and how fast the analysis alone is."""
    import hashlib

    from django.db import transaction

    from imaging.tasks import advice_and_pictures
    from inspections.development.made_up_deliveries import with_comment
    from inspections.development.management.commands.bench_advisory import drawn_photo
    from inspections.records import jobs
    from inspections.records.services.photo import store_photo

    photo = drawn_photo()
    for number in range(count):
        content = with_comment(photo, f"{number:016}")
        sha256 = hashlib.sha256(content).hexdigest()
        is_at_the_door = number >= count - count // 10
        with transaction.atomic():
            store_photo(sha256=sha256, path_or_bytes=content)
            jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": CONTEXT, **({} if is_at_the_door else {
                "again": "bench"})})
    advice_and_pictures(photo, CONTEXT)
    began = time.perf_counter()
    for _ in range(ALONE):
        advice_and_pictures(photo, CONTEXT)
    return {"bytes": len(photo), "alone": ALONE / (time.perf_counter() - began)}


def drained(form: forms.Form, count: int) -> tuple[float, int, bool]:
    """Photos a second of one worker, the most messages that lay with the broker, and whether the order was kept."""
    from inspections.deployment.start import worker

    data, most = Path(form.environment["UNDERLID_DATA"]), 0
    with open(form.log, "ab") as log:
        process = subprocess.Popen(worker().command, cwd=forms.BASE, env=form.environment, stdout=log, stderr=log)
    try:
        with contextlib.closing(sqlite3.connect(data / "underlid.sqlite3")) as database:
            while (left := _left(database)) and process.poll() is None:
                most = max(most, len(list((data / "broker" / "messages").glob("*.msg"))))
                time.sleep(0.25)
            if left:
                raise forms.DidNotComeUp(f"The worker ended with {left} photos left. Its log: {form.log}")
            done = [need for (need,) in database.execute("SELECT need FROM records_job ORDER BY finished_at")]
            took = database.execute("SELECT (julianday(MAX(finished_at)) - julianday(MIN(finished_at))) * 86400 "
                                    "FROM records_job").fetchone()[0]
    finally:
        process.terminate()
        process.wait(timeout=60)
    return (count - 1) / took, most, done == sorted(done)


def _left(database: sqlite3.Connection) -> int:
    return database.execute("SELECT COUNT(*) FROM records_job WHERE state IN ('waiting', 'taken')").fetchone()[0]


def main(arguments: list[str]) -> int:
    """Run the command; 0 when all was worked off in the order of need."""
    parser = argparse.ArgumentParser(prog="manage.py bench_drain", description=__doc__.partition("\n")[0])
    parser.add_argument("--photos", type=int, default=200)
    count = parser.parse_args(arguments).photos
    folder = Path(tempfile.mkdtemp(prefix="underlid-drain-"))
    try:
        with forms.running(forms.Embedded, folder, 0) as form:
            told = json.loads(form.run("-m", "inspections.development.bench_drain", str(count)).splitlines()[-1])
            rate, most, is_in_order = drained(form, count)
        sys.stdout.write(
            f"{count} photos of {told['bytes'] / 1e6:.1f} MB, one worker: {rate:.1f} a second; the analysis alone: "
            f"{told['alone']:.1f} ({rate / told['alone']:.2f} of it)\n"
            f"at most {most} messages with the broker; {'in' if is_in_order else 'NOT in'} order of need\n")
        return 0 if is_in_order else 1
    finally:
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    import django

    django.setup()
    sys.stdout.write(json.dumps(furnish(int(sys.argv[1]))) + "\n")
