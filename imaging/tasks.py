"""The only door between photos' analysis and the worker: takes a job, hands back advice and pictures."""

from __future__ import annotations

import contextlib
import logging
import signal
import threading
import time
from collections.abc import Iterator
from types import FrameType
from typing import TYPE_CHECKING, Any
from uuid import UUID

from celery import shared_task

from imaging.advice import Context, analyse
from imaging.decode import UnreadablePhoto, screen_pictures
from imaging.overlay import overlay_jpeg

if TYPE_CHECKING:
    from inspections.records import jobs

log = logging.getLogger(__name__)

TOO_SLOW = "The photo took too long to look at. It is kept as it was taken. No advice is given on it."
#: The longest that the worker is at one photo, and the longest between two looks at whether it is to stop.
MOST_S, ROUND_S = 60, 5
WENT_WRONG = "Looking at the photo went wrong. It is kept as it was taken. It is tried again by itself."


@shared_task(name="imaging.tasks.work_through", ignore_result=True)
def work_through() -> None:
    """Do what waits, the most needed first; after ``ROUND_S`` the rest is left to another hint."""
    from inspections.records import jobs

    began = time.monotonic()
    while (job_id := jobs.next_due()) is not None:
        run(job_id)
        if time.monotonic() - began > ROUND_S:
            jobs.hint()
            return


def run(job_id: UUID | str) -> None:
    """Do one photo's work; doing it again changes nothing.

    Parameters
    ----------
    job_id : UUID or str
        Id of the job row.
    """
    from inspections.records import jobs

    job = jobs.take(job_id)
    if job is None:
        return
    try:
        with _at_most(MOST_S):
            result, files = _done(job)
    except _TooSlow:
        jobs.fail(job, TOO_SLOW, retry=False)
        return
    except Exception:
        log.exception("photo %s could not be analysed", job.sha256)
        jobs.fail(job, WENT_WRONG, retry=True)
        return
    jobs.finish(job, result, files)
    log.info("photo %s done", job.sha256[:12])


class _TooSlow(Exception):
    """The time for this photo is up."""


@contextlib.contextmanager
def _at_most(seconds: float) -> Iterator[None]:
    """Raise ``_TooSlow`` in here when the time is up; signals reach the main thread only, a worker's usual one."""
    def late(number: int, frame: FrameType | None) -> None:
        raise _TooSlow

    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _done(job: jobs.TakenJob) -> tuple[dict[str, Any] | None, dict[str, bytes]]:
    from inspections.records import jobs

    if not job.wants_advice:
        return None, small_pictures(job.photo)
    learnt = jobs.cut_off_of(job)
    result, files = advice_and_pictures(job.photo, job.context, **learnt.context())
    return {**result, "learnt": learnt.to_json()}, files


def small_pictures(photo: bytes) -> dict[str, bytes]:
    """The photo as thumb and screen, by name; none when it cannot be read."""
    try:
        small = screen_pictures(photo)
    except UnreadablePhoto as trouble:
        log.info("no small pictures: %s", trouble.code)
        return {}
    return {"thumb": small.thumb, "screen": small.screen}


def advice_and_pictures(
    photo: bytes, context: dict[str, Any], **learnt: Any
) -> tuple[dict[str, Any], dict[str, bytes]]:
    """Advice as JSON and the pictures made from a photo.

    Parameters
    ----------
    photo : bytes
    context : dict
        species_code, presentation, state, purpose; absent ones count as not told.
    learnt
        ``cut_off`` and ``may_answer`` (`imaging.advice.Context`) where receivers' findings have taught them.

    Returns
    -------
    tuple of dict and dict of str to bytes
        The advice, and pictures by name: thumb, screen, overlay; those that could be made.
    """
    told: dict[str, Any] = {name: context.get(name) or "" for name in ("species_code", "presentation", "state")}
    analysis = analyse(photo, Context(**told, purpose=context.get("purpose") or "top", **learnt))
    files = small_pictures(photo)
    overlay = overlay_jpeg(analysis)
    return analysis.advice, files if overlay is None else {**files, "overlay": overlay}
