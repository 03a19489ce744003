"""Work that must be done once, although brokers lose hints and workers are killed.

A job row is written in the transaction of the fact that causes it. The broker carries only hints that there is
work, never more than ``MOST_HINTS`` at once; a worker that gets one takes what is needed soonest (the delivery at
the door before what was asked again in bulk, the newest first), row by row, until nothing waits. It takes a row by
one conditional update and holds it for a lease; it finishes in the same transaction that stores the result.
``sweep`` hints again while anything waits or has outlived its lease, so a lost hint loses nothing.
After ``MOST_ATTEMPTS`` a job is parked with its sentence. Advice that was switched off while its job waited, or
while the worker was at it, is not given: the job is closed as unwanted, which is no failure, and asking anew opens
it again.

Killed before ``take``: the row still waits. Killed after ``take``: the lease runs out. Killed after
``finish``: it is done. A worker that wakes up after its lease was given away finishes nothing, because
the number of attempts is the token of the taking.
"""
import hashlib
import json
import logging
import random
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import F, Max, Q
from django.utils import timezone

from inspections.records import cutoffs, storage
from inspections.records.advising import WAS_OFF, WENT_OFF, are_off_now
from inspections.records.models import DocketLine, Job, JobState, Need, Photo, PhotoUse
from inspections.records.services.advisory import record_advisory
from inspections.tracing import request_id

log = logging.getLogger(__name__)

ANALYSE_PHOTO = "analyse_photo"
SMALL_PICTURES = "small_pictures"
ADVICE_PICTURES = ("overlay", "histogram")
HINT_TASK = "imaging.tasks.work_through"
MOST_HINTS = 8
#: A little longer than the worker may be at one photo (``imaging.tasks.MOST_S``).
LEASE_S = 75
MOST_ATTEMPTS = 5
FIRST_WAIT_S = 10
LONGEST_WAIT_S = 600
#: Longer than the worker may be at one photo: jobs that wait so long while nothing is finished wait for ever.
STANDSTILL_S = 90
GIVEN_UP = (
    "The worker stopped {attempts} times while at this photo. The photo is kept as it was taken. "
    "Look at it yourself: no advice is given on it."
)
FILE_AWAY = "The photo's file could not be read just now. It is tried again by itself."


@dataclass(frozen=True)
class TakenJob:
    """What a worker needs for one job: nothing of the database, only bytes and words.

    ``kind`` says whether advice is wanted or only the small pictures; ``is_unwanted`` that the advice was switched
    off while the job waited. ``photo`` is the file as taken; ``context`` holds species_code, presentation, state
    and purpose; ``versions`` are the specification's, by whose switch it goes; ``attempt`` is the token that
    ``finish`` and ``fail`` compare.
    """

    id: UUID
    attempt: int
    sha256: str
    photo: bytes
    context: dict
    kind: str = ANALYSE_PHOTO
    is_unwanted: bool = False
    versions: tuple[str, ...] = ()

    @property
    def wants_advice(self) -> bool:
        return self.kind == ANALYSE_PHOTO and not self.is_unwanted


def write_job(kind: str, subject: dict, *, version: str = "") -> Job:
    """Write down work, in the caller's transaction, and hint the worker once that has committed.

    Parameters
    ----------
    kind : str
        ``analyse_photo``, or ``small_pictures`` where no advice is wanted.
    subject : dict
        JSON; ``{"sha256"}`` and, for ``analyse_photo``, ``"context": {...}``; work to be done anew says in
        ``"again"`` what makes it another piece of work.
    version : str, optional
        Id of the specification's version whose switch for photo advice holds; it makes no other piece of work.

    Returns
    -------
    Job
        The row; the one already there when the same work was written before, done or not. One that was closed
        as unwanted waits again.
    """
    return write_jobs([(kind, subject, version)])[0]


def write_jobs(works: Iterable[tuple[str, dict, str]]) -> list[Job]:
    """The same for many at once: kind, subject and version of each; the rows in that order.

    Notes
    -----
    Two queries, and one more for each that was closed as unwanted.
    """
    now, wanted = timezone.now(), []
    for kind, subject, version in works:
        whole = {**subject, "version": version} if version else subject
        wanted.append(Job(kind=kind, key=_key(subject), subject=whole, not_before=now, need=_need(kind, subject),
                          request_id=request_id.get()))
    # Who comes second to the same work, in this call or another, finds the row of the first.
    Job.objects.bulk_create(wanted, ignore_conflicts=True)
    rows = {(row.kind, row.key): row for row in Job.objects.filter(key__in={job.key for job in wanted})}
    found = [rows[job.kind, job.key] for job in wanted]
    made = {job.pk for job in wanted}
    # one hint is enough, however much work: whoever hears it works through all that waits
    if sum(
        row.pk in made or (row.state == JobState.UNWANTED and _open_again(row, job.subject, now))
        for job, row in zip(wanted, found, strict=True)
    ):
        transaction.on_commit(hint)
    return found


def _key(subject: dict) -> str:
    return hashlib.sha256(json.dumps(subject, sort_keys=True).encode()).hexdigest()


def _need(kind: str, subject: dict) -> Need:
    if "again" in subject:
        return Need.ASKED_AGAIN
    return Need.AT_THE_DOOR if kind == ANALYSE_PHOTO else Need.TO_LOOK_AT


def _open_again(job: Job, subject: dict, now) -> bool:
    closed = Job.objects.filter(pk=job.pk, state=JobState.UNWANTED)
    return closed.update(state=JobState.WAITING, subject=subject, not_before=now, attempts=0, sentence="",
                         finished_at=None) == 1


def hint() -> bool:
    """Tell the workers that something waits, unless as many hints as help lie there already.

    A hint that lies there is read after this, so its reader finds what was committed before.

    Returns
    -------
    bool
        False when none was sent; when the broker cannot be reached, the sweep finds the job.
    """
    from inspections.celery import app, broker, hints_waiting

    try:
        with broker() as connection:
            if hints_waiting(connection) >= MOST_HINTS:
                return False
            app.send_task(HINT_TASK, ignore_result=True, connection=connection)
    except Exception as trouble:  # any broker, any trouble: the fact is committed and must not fail now
        log.warning("hint not sent: %s", trouble)
        return False
    return True


def next_due() -> UUID | None:
    """The job that is needed soonest, of those that wait; None when none does."""
    due = Job.objects.filter(_free(timezone.now()), attempts__lt=MOST_ATTEMPTS)
    return due.order_by("need", "-created_at").values_list("pk", flat=True).first()


def take(job_id: UUID | str, lease_s: int = LEASE_S) -> TakenJob | None:
    """Take a job for ``lease_s`` seconds.

    Returns
    -------
    TakenJob or None
        None when there is nothing to do: done, parked, not due, taken by somebody else, gone, or the
        photo's file cannot be read just now (the job then waits again).
    """
    now = timezone.now()
    won = Job.objects.filter(_free(now), pk=job_id, attempts__lt=MOST_ATTEMPTS).update(
        state=JobState.TAKEN, lease_until=now + timedelta(seconds=lease_s), attempts=F("attempts") + 1
    )
    if won != 1:
        _park_if_spent(job_id, now)
        return None
    job = Job.objects.get(pk=job_id)
    request_id.set(job.request_id)
    sha256 = job.subject["sha256"]
    try:
        photo = storage.read(storage.photo_name(sha256))
    except OSError as trouble:
        log.warning("photo %s not readable: %s", sha256, trouble)
        _put_back(job.id, job.attempts, FILE_AWAY, retry=True)
        return None
    versions = _versions_of(job.subject) if job.kind == ANALYSE_PHOTO else ()
    context = job.subject.get("context") or {}
    return TakenJob(job.id, job.attempts, sha256, photo, context, job.kind, are_off_now(versions), versions)


def cut_off_of(job: TakenJob) -> cutoffs.GoodsCutOff:
    """Where darkening begins on goods of this kind, by what receivers have found up to now."""
    return cutoffs.cut_off_for(job.sha256, job.context)


def finish(job: TakenJob, result: dict | None, files: dict[str, bytes] | None = None) -> bool:
    """Store what came out and close the job, in one transaction.

    Parameters
    ----------
    job : TakenJob
    result : dict or None
        The advice as ``imaging.advice.analyse`` gives it, JSON. None when none was wanted; a job that
        was unwanted when it was taken is closed with that as its reason, and so is one whose advice was switched
        off since: its answer is dropped.
    files : dict of str to bytes, optional
        Pictures made from the photo: ``thumb``, ``screen``, ``overlay``.

    Returns
    -------
    bool
        False when the lease had passed to somebody else: nothing is stored then.

    Notes
    -----
    Files are written before the transaction, under names that a second run writes again with the same
    content; a kill in between leaves files without a row, never a row without files.
    """
    if not _mine(job).exists():
        return False
    kept = _keep_files(job, files or {})
    with transaction.atomic():
        went_off = result is not None and are_off_now(job.versions)
        if _mine(job).update(**_closed(job, went_off)) != 1:
            return False
        if went_off:
            for name in ADVICE_PICTURES:
                storage.drop(kept.get(name, ""))
        elif result is not None:
            record_advisory(
                photo=Photo.objects.get(pk=job.sha256), context=job.context, advice=result,
                overlay_name=kept.get("overlay", ""),
            )
    return True


def _closed(job: TakenJob, went_off: bool) -> dict:
    is_unwanted = went_off or job.is_unwanted
    sentence = WENT_OFF if went_off else WAS_OFF if job.is_unwanted else ""
    return {"state": JobState.UNWANTED if is_unwanted else JobState.DONE, "sentence": sentence, "lease_until": None,
            "finished_at": timezone.now()}


def fail(job: TakenJob, sentence: str, retry: bool) -> bool:
    """Give a job back with the sentence of what went wrong; parked when not ``retry`` or too often.

    Returns
    -------
    bool
        False when the lease had passed to somebody else: nothing is changed then.
    """
    return _put_back(job.id, job.attempt, sentence, retry=retry)


def sweep() -> int:
    """Hint again while jobs are due that nobody holds; park those that used up their attempts.

    Returns
    -------
    int
        How many jobs are due.
    """
    now = timezone.now()
    for job_id in Job.objects.filter(_free(now), attempts__gte=MOST_ATTEMPTS).values_list("pk", flat=True):
        _park_if_spent(job_id, now)
    due = Job.objects.filter(_free(now), attempts__lt=MOST_ATTEMPTS).count()
    if due:
        hint()
    return due


@dataclass(frozen=True)
class Queue:
    """How the work stands: jobs that are due, seconds that the oldest has been, seconds since one was closed.

    ``open`` counts also those that a worker is at and those that are to be tried again later; ``parked_lately``
    those given up within the last day, ``why_parked`` the sentence of the last one.
    """

    waiting: int
    oldest_s: float
    idle_s: float | None
    parked: int = 0
    open: int = 0
    parked_lately: int = 0
    why_parked: str = ""

    @property
    def stands_still(self) -> bool:
        """Whether jobs wait and nothing has been finished for longer than any job takes."""
        return self.oldest_s > STANDSTILL_S and (self.idle_s is None or self.idle_s > STANDSTILL_S)

    @property
    def sentence(self) -> str:
        """How it stands, for whoever looks after the server."""
        if not self.waiting:
            return "No photo waits for the worker."
        last = "has finished none yet" if self.idle_s is None else f"finished its last {self.idle_s:.0f} s ago"
        return f"{self.waiting} photos wait for the worker, the oldest for {self.oldest_s:.0f} s; it {last}."


NO_WORK = Queue(waiting=0, oldest_s=0.0, idle_s=None)


def queue() -> Queue:
    """The work as it stands now."""
    now = timezone.now()
    due = [one or other for one, other in Job.objects.filter(_free(now)).values_list("lease_until", "not_before")]
    closed = Job.objects.aggregate(last=Max("finished_at"))["last"]
    parked = Job.objects.filter(state=JobState.PARKED)
    lately = parked.filter(finished_at__gte=now - timedelta(days=1)).order_by("-finished_at")
    reasons = list(lately.values_list("sentence", flat=True))
    return Queue(
        waiting=len(due), oldest_s=(now - min(due)).total_seconds() if due else 0.0,
        idle_s=(now - closed).total_seconds() if closed else None,
        parked=parked.count(), parked_lately=len(reasons), why_parked=reasons[0] if reasons else "",
        open=Job.objects.filter(state__in=(JobState.WAITING, JobState.TAKEN)).count(),
    )


def _versions_of(subject: dict) -> tuple[str, ...]:
    """The version of the specification that the work names; rows of earlier releases name none.

    Theirs are found by the lines of signed deliveries that the photo is used in for the same purpose.
    """
    if named := subject.get("version"):
        return (named,)
    uses = PhotoUse.objects.filter(photo_id=subject["sha256"], purpose=(subject.get("context") or {}).get("purpose"))
    lines = DocketLine.objects.filter(pk__in=uses.filter(line_id__isnull=False).values("line_id"))
    return tuple(str(pk) for pk in lines.values_list("specification_version", flat=True).distinct())


def _free(now) -> Q:
    waits = Q(state=JobState.WAITING, not_before__lte=now)
    left = Q(state=JobState.TAKEN, lease_until__lte=now)
    return waits | left


def _mine(job: TakenJob):
    return Job.objects.filter(pk=job.id, state=JobState.TAKEN, attempts=job.attempt)


def _park_if_spent(job_id, now) -> None:
    spent = Job.objects.filter(_free(now), pk=job_id, attempts__gte=MOST_ATTEMPTS)
    spent.update(
        state=JobState.PARKED, lease_until=None, finished_at=now, sentence=GIVEN_UP.format(attempts=MOST_ATTEMPTS)
    )


def _put_back(job_id, attempt: int, sentence: str, *, retry: bool) -> bool:
    now = timezone.now()
    changes: dict[str, Any] = {"lease_until": None, "sentence": sentence}
    if retry and attempt < MOST_ATTEMPTS:
        changes |= {"state": JobState.WAITING, "not_before": now + timedelta(seconds=_wait_s(attempt))}
    else:
        changes |= {"state": JobState.PARKED, "finished_at": now}
    return Job.objects.filter(pk=job_id, state=JobState.TAKEN, attempts=attempt).update(**changes) == 1


def _wait_s(attempt: int) -> float:
    """Doubling from FIRST_WAIT_S, with up to a quarter more so that many do not come back at once."""
    return min(FIRST_WAIT_S * 2 ** (attempt - 1), LONGEST_WAIT_S) * (1 + random.random() / 4)


def _keep_files(job: TakenJob, files: dict[str, bytes]) -> dict[str, str]:
    kept = {}
    for name, content in files.items():
        # Overlay and histogram belong to one advice, the smaller pictures to the photo.
        stored = storage.derived_name(job.sha256, f"{name}-{job.id}" if name in ADVICE_PICTURES else name)
        storage.put(stored, content)
        kept[name] = stored
    return kept
