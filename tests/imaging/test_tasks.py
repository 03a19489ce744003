"""The worker's door: one job, one advice, whatever the photo is and however often the job is offered."""

import hashlib

import pytest

from imaging import advice, tasks
from inspections.records import jobs, storage
from inspections.records.acts.photo import store_photo
from inspections.records.models import Advisory, Job, JobState
from tests.imaging import files

pytestmark = pytest.mark.django_db

CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "top"}


@pytest.fixture
def job(monkeypatch) -> Job:
    monkeypatch.setattr(jobs, "hint", lambda job_id: True)
    data = files.jpeg()
    sha256 = hashlib.sha256(data).hexdigest()
    store_photo(sha256=sha256, path_or_bytes=data, content_type="image/jpeg")
    return jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": sha256, "context": CONTEXT})


def test_a_job_gives_one_advice_and_the_small_pictures(job):
    tasks.run(str(job.pk))
    advisory = Advisory.objects.get()
    assert advisory.answer == "cannot_tell"
    assert advisory.body["reasons"][0]["text"].endswith(".")
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
    monkeypatch.setattr(advice, "METHOD_VERSION", "colour-99")
    tasks.run(str(job.pk))
    kept = Advisory.objects.order_by("created_at").values_list("method_version", flat=True)
    assert list(kept) == [earlier, "colour-99"]


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
    def never_ends(*_args):
        raise tasks.SoftTimeLimitExceeded

    monkeypatch.setattr(tasks, "analyse", never_ends)
    tasks.run(str(job.pk))
    job.refresh_from_db()
    assert job.state == JobState.PARKED
    assert job.sentence == tasks.TOO_SLOW
