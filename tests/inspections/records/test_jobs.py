"""Work is done once, whatever is lost or killed on the way."""
from datetime import timedelta

import pytest
from django.db import transaction
from django.utils import timezone

from inspections.records import jobs, storage
from inspections.records.models import Advisory, Job
from tests.factories import a_jpeg
from tests.inspections.records.test_photos import store

CONTEXT = {"species_code": "PNV", "presentation": "HLSO", "state": "raw", "purpose": "under_liner"}
ADVICE = {
    "answer": "none_seen", "share": 0.01, "share_low": 0.0, "share_high": 0.03, "where": [], "reasons": [],
    "card_used": False, "method_version": "1", "baseline_version": "1",
}  # fmt: skip


@pytest.fixture
def hints(monkeypatch) -> list:
    """What was sent to the broker."""
    sent = []
    monkeypatch.setattr("inspections.celery.hints_waiting", lambda connection: len(sent))
    monkeypatch.setattr("inspections.celery.app.send_task", lambda name, **more: sent.append(name))
    return sent


@pytest.fixture
def job(db, hints) -> Job:
    return jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": store(a_jpeg()).sha256, "context": CONTEXT})


def pass_time(seconds: float) -> None:
    """As if that much time had passed for every job."""
    for job in Job.objects.all():
        earlier = {"not_before": job.not_before - timedelta(seconds=seconds)}
        if job.lease_until:
            earlier["lease_until"] = job.lease_until - timedelta(seconds=seconds)
        Job.objects.filter(pk=job.pk).update(**earlier)


def state() -> str:
    return Job.objects.get().state


def test_the_hint_goes_out_after_the_commit(hints, django_capture_on_commit_callbacks, db):
    with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
        jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "0" * 64, "context": CONTEXT})
        assert hints == []
    assert hints == [jobs.HINT_TASK]


def test_a_fact_rolled_back_takes_its_job_with_it(hints, db):
    def fact_and_job():
        with transaction.atomic():
            jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "0" * 64, "context": CONTEXT})
            raise RuntimeError

    with pytest.raises(RuntimeError):
        fact_and_job()
    assert not Job.objects.exists()


def test_a_lost_broker_does_not_touch_the_fact(monkeypatch, django_capture_on_commit_callbacks, db):
    def lost(*args, **more):
        raise OSError("no broker")

    monkeypatch.setattr("inspections.celery.app.send_task", lost)
    with django_capture_on_commit_callbacks(execute=True):
        jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "0" * 64, "context": CONTEXT})
    assert state() == "waiting"
    assert jobs.sweep() == 1


def test_the_sweep_offers_what_a_lost_broker_left(job, hints):
    hints.clear()
    assert jobs.sweep() == 1
    assert hints == [jobs.HINT_TASK]


def test_the_same_work_is_written_once(job, hints):
    again = jobs.write_job(jobs.ANALYSE_PHOTO, {"context": CONTEXT, "sha256": job.subject["sha256"]})
    assert again == job


def test_a_taken_job_carries_what_imaging_needs(job):
    taken = jobs.take(job.pk)
    assert (taken.photo, taken.context, taken.sha256) == (a_jpeg(), CONTEXT, job.subject["sha256"])


def test_only_one_of_two_workers_gets_it(job):
    assert jobs.take(job.pk) is not None
    assert jobs.take(job.pk) is None


def test_finishing_stores_the_advice_and_the_pictures(job):
    taken = jobs.take(job.pk)
    assert jobs.finish(taken, ADVICE, {"thumb": b"small", "overlay": b"marked"})
    advisory = Advisory.objects.get()
    assert (state(), advisory.answer, advisory.share, advisory.body) == ("done", "none_seen", 0.01, ADVICE)
    assert storage.read(storage.derived_name(taken.sha256, "thumb")) == b"small"
    assert storage.read(advisory.overlay_name) == b"marked"


def test_killed_between_claim_and_finish_is_done_once(job, hints):
    dead = jobs.take(job.pk)
    assert jobs.sweep() == 0
    pass_time(jobs.LEASE_S + 1)
    assert jobs.sweep() == 1
    alive = jobs.take(job.pk)
    assert jobs.finish(alive, ADVICE)
    # The one that was thought dead wakes up: it must not add a second advice.
    assert not jobs.finish(dead, {**ADVICE, "answer": "cannot_tell"})
    assert [one.answer for one in Advisory.objects.all()] == ["none_seen"]


def test_killed_inside_finish_leaves_neither_advice_nor_done(job, monkeypatch):
    def killed(**given):
        raise KeyboardInterrupt

    monkeypatch.setattr(jobs, "record_advisory", killed)
    with pytest.raises(KeyboardInterrupt):
        jobs.finish(jobs.take(job.pk), ADVICE)
    assert state() == "taken"
    assert not Advisory.objects.exists()


def test_a_late_worker_cannot_fail_what_another_holds(job):
    late = jobs.take(job.pk)
    pass_time(jobs.LEASE_S + 1)
    jobs.take(job.pk)
    assert not jobs.fail(late, "x", retry=False)
    assert state() == "taken"


def test_a_failed_job_waits_longer_each_time(job):
    waits = []
    for attempt in range(1, jobs.MOST_ATTEMPTS):
        jobs.fail(jobs.take(job.pk), f"trouble {attempt}", retry=True)
        waits.append((Job.objects.get().not_before - timezone.now()).total_seconds())
        pass_time(waits[-1] + 1)
    assert waits == sorted(waits)
    assert waits[0] >= jobs.FIRST_WAIT_S - 1
    assert Job.objects.get().sentence == f"trouble {jobs.MOST_ATTEMPTS - 1}"


def test_a_job_that_is_not_due_is_not_taken(job):
    jobs.fail(jobs.take(job.pk), "trouble", retry=True)
    assert jobs.take(job.pk) is None
    assert jobs.sweep() == 0


def test_after_the_last_attempt_it_is_parked_with_its_sentence(job):
    for _ in range(jobs.MOST_ATTEMPTS):
        jobs.fail(jobs.take(job.pk), "The photo could not be decoded.", retry=True)
        pass_time(jobs.LONGEST_WAIT_S * 2)
    assert (state(), Job.objects.get().sentence) == ("parked", "The photo could not be decoded.")
    assert jobs.take(job.pk) is None


def test_a_job_that_kills_its_worker_every_time_is_parked_by_the_sweep(job):
    for _ in range(jobs.MOST_ATTEMPTS):
        assert jobs.take(job.pk) is not None
        pass_time(jobs.LEASE_S + 1)
    assert jobs.sweep() == 0
    assert state() == "parked"
    assert "5 times" in Job.objects.get().sentence


def test_a_hopeless_job_is_parked_at_once(job):
    jobs.fail(jobs.take(job.pk), "No such kind.", retry=False)
    assert state() == "parked"


def test_a_photo_whose_file_is_away_waits_for_it(job):
    name = storage.photo_name(job.subject["sha256"])
    storage.photos().delete(name)
    assert jobs.take(job.pk) is None
    assert (state(), Job.objects.get().sentence) == ("waiting", jobs.FILE_AWAY)
    storage.put(name, a_jpeg())
    pass_time(60)
    assert jobs.take(job.pk) is not None


def test_the_hint_names_the_worker_s_task():
    from imaging.tasks import work_through

    assert work_through.name == jobs.HINT_TASK


def test_a_busy_hour_leaves_no_heap_of_hints(hints, django_capture_on_commit_callbacks, db):
    for number in range(50):
        with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
            jobs.write_job(jobs.SMALL_PICTURES, {"sha256": f"{number:064}"})
    for _ in range(10):
        jobs.sweep()
    assert len(hints) == jobs.MOST_HINTS


def test_hints_that_lie_in_the_broker_are_counted(db):
    from inspections.celery import app, broker, hints_waiting

    app.control.purge()
    with broker() as connection:
        assert hints_waiting(connection) == 0
        for _ in range(3 * jobs.MOST_HINTS):
            jobs.hint()
        assert hints_waiting(connection) == jobs.MOST_HINTS
    app.control.purge()


def test_the_delivery_at_the_door_comes_before_what_was_asked_again(hints, db):
    again = jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "a" * 64, "context": CONTEXT, "again": "colour-2"})
    small = jobs.write_job(jobs.SMALL_PICTURES, {"sha256": "b" * 64})
    earlier = jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "c" * 64, "context": CONTEXT})
    at_the_door = jobs.write_job(jobs.ANALYSE_PHOTO, {"sha256": "d" * 64, "context": CONTEXT})
    order = []
    while (job_id := jobs.next_due()) is not None:
        order.append(job_id)
        Job.objects.filter(pk=job_id).update(state="done")
    assert order == [at_the_door.pk, earlier.pk, small.pk, again.pk]


def test_work_that_stands_still_is_told(job):
    assert not jobs.queue().stands_still
    pass_time(jobs.STANDSTILL_S + 5)
    queue = jobs.queue()
    assert (queue.waiting, queue.stands_still) == (1, True)
    assert queue.sentence == "1 photos wait for the worker, the oldest for 95 s; it has finished none yet."
    Job.objects.update(state="done", finished_at=timezone.now())
    assert jobs.queue().sentence == "No photo waits for the worker."


def test_a_long_queue_that_is_worked_through_does_not_stand_still(job, hints):
    pass_time(1000)
    done = jobs.write_job(jobs.SMALL_PICTURES, {"sha256": "e" * 64})
    Job.objects.filter(pk=done.pk).update(state="done", finished_at=timezone.now())
    assert jobs.queue().oldest_s > 900
    assert not jobs.queue().stands_still


def test_whoever_watches_the_server_is_told_of_work_that_stands_still_and_why_photos_were_given_up(client, job, hints):
    assert client.get("/health").json()["sentences"] == []
    pass_time(jobs.STANDSTILL_S + 5)
    told = client.get("/health").json()
    assert told["worker"] == "stands still"
    (sentence,) = told["sentences"]
    assert sentence.startswith("1 photos wait for the worker, the oldest for 9")
    taken = jobs.take(job.pk)
    jobs.fail(taken, "The photo took too long to look at.", retry=False)
    told = client.get("/health").json()
    assert told["jobs"]["parked"] == 1
    assert told["sentences"] == ["1 photos were given up in the last day, the last of them because: The photo took too "
                                 "long to look at."]
    Job.objects.update(finished_at=timezone.now() - timedelta(days=2))
    told = client.get("/health").json()
    assert (told["jobs"]["parked"], told["sentences"]) == (1, [])
