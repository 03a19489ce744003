"""The worker's door: one job, one advice, whatever the photo is and however often the job is offered."""

import hashlib
import time

import pytest

from imaging import advice, tasks
from inspections.records import jobs, storage
from inspections.records.models import Advisory, Job, JobState
from inspections.records.services.photo import store_photo
from tests.imaging import files

pytestmark = pytest.mark.django_db

CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "top"}


@pytest.fixture
def job(monkeypatch) -> Job:
    monkeypatch.setattr(jobs, "hint", lambda: True)
    data = files.jpeg()
    sha256 = hashlib.sha256(data).hexdigest()
    store_photo(sha256=sha256, path_or_bytes=data)
    return jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": CONTEXT})


def test_a_job_gives_one_advice_and_the_small_pictures(job):
    tasks.run(str(job.pk))
    advisory = Advisory.objects.get()
    assert advisory.answer in ("cannot_tell", "look_here")
    assert advisory.would_say == advisory.body["would_say"]
    for name in ("thumb", "screen"):
        assert storage.read(storage.derived_name(advisory.photo_id, name)).startswith(b"\xff\xd8")
    job.refresh_from_db()
    assert job.state == JobState.DONE


def test_offered_twice_it_is_done_once(job):
    tasks.run(str(job.pk))
    tasks.run(str(job.pk))
    assert Advisory.objects.count() == 1


def test_a_newer_method_is_kept_beside_the_earlier_answer(job, monkeypatch):
    tasks.run(str(job.pk))
    Job.objects.update(state=JobState.WAITING)
    earlier = advice.METHOD_VERSION
    monkeypatch.setattr(advice, "METHOD_VERSION", "pieces-99")
    tasks.run(str(job.pk))
    kept = Advisory.objects.order_by("created_at").values_list("method_version", flat=True)
    assert list(kept) == [earlier, "pieces-99"]


def test_trouble_in_the_method_gives_the_job_back_with_a_sentence(job, monkeypatch):
    def fall_over(*_args):
        raise RuntimeError("an unforeseen fault")

    monkeypatch.setattr(tasks, "analyse", fall_over)
    tasks.run(str(job.pk))
    job.refresh_from_db()
    assert job.state == JobState.WAITING
    assert job.sentence == tasks.WENT_WRONG
    assert Advisory.objects.count() == 0


def test_a_job_that_is_gone_is_nothing_to_do():
    tasks.run("00000000-0000-4000-8000-000000000000")
    assert Advisory.objects.count() == 0


def test_what_takes_too_long_is_parked_with_its_sentence(job, monkeypatch):
    monkeypatch.setattr(tasks, "MOST_S", 0.2)
    monkeypatch.setattr(tasks, "analyse", lambda *_args: time.sleep(20))
    tasks.run(str(job.pk))
    job.refresh_from_db()
    assert job.state == JobState.PARKED
    assert job.sentence == tasks.TOO_SLOW


def test_one_hint_is_enough_for_all_that_waits(job):
    for size in ((40, 30), (80, 60)):
        data = files.saved(files.picture(*size), "JPEG")
        sha256 = hashlib.sha256(data).hexdigest()
        store_photo(sha256=sha256, path_or_bytes=data)
        jobs.write_job(jobs.SMALL_PICTURES, {"sha256": sha256})
    tasks.work_through()
    assert set(Job.objects.values_list("state", flat=True)) == {JobState.DONE}


def test_a_worker_leaves_the_rest_to_another_hint_so_that_it_can_be_stopped(job, monkeypatch):
    hints = []
    monkeypatch.setattr(jobs, "hint", lambda: hints.append(1))
    monkeypatch.setattr(tasks, "ROUND_S", 0)
    tasks.work_through()
    assert hints == [1]
