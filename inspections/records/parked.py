"""Work on photos that was given up, with its reason, and the leave to try it again.

A job is parked when it failed for good or too often (``jobs``). Nothing of the photo is lost: only its small pictures
or its advice are missing. Who answers for a site sees the parked work on the photos of that site.
"""
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from inspections.errors import NotFound
from inspections.people.models import Site
from inspections.records import jobs
from inspections.records.models import Delivery, Job, JobState, PhotoUse
from inspections.records.services.photo import received_at

MOST = 200


def parked_at(sites: QuerySet[Site]) -> list[dict[str, Any]]:
    """The latest parked jobs on photos that the sites have, newest first, each with the dockets that name the photo."""
    rows = list(Job.objects.filter(state=JobState.PARKED).order_by("-finished_at")[:MOST])
    here = received_at(sites, [_photo_of(job) for job in rows])
    dockets = _dockets(sites, here)
    return [_json(job, dockets.get(_photo_of(job), [])) for job in rows if _photo_of(job) in here]


def try_again(job_id: UUID, sites: QuerySet[Site]) -> Job:
    """Let a parked job wait for the worker again, as if it had never been tried.

    Raises
    ------
    NotFound
        No parked job of that id on a photo of the sites.
    """
    job = Job.objects.filter(pk=job_id, state=JobState.PARKED).first()
    if job is None or not received_at(sites, [_photo_of(job)]):
        raise NotFound()
    with transaction.atomic():
        Job.objects.filter(pk=job.pk, state=JobState.PARKED).update(
            state=JobState.WAITING, attempts=0, not_before=timezone.now(), finished_at=None, sentence="")
        transaction.on_commit(jobs.hint)
    return job


def _photo_of(job: Job) -> str:
    return str(job.subject.get("sha256", ""))


def _dockets(sites: QuerySet[Site], hashes: set[str]) -> dict[str, list[dict[str, str]]]:
    """Signed deliveries that use each photo; the docket of one that is still open stands on its phone."""
    uses = set(PhotoUse.objects.filter(photo__in=hashes, site__in=sites).order_by().values_list(
        "photo_id", "delivery_id"))
    numbers = dict(Delivery.objects.filter(pk__in={delivery for _, delivery in uses}).values_list(
        "pk", "docket_number"))
    found: dict[str, list[dict[str, str]]] = {}
    for photo, delivery in sorted(uses, key=str):
        if delivery in numbers:
            found.setdefault(photo, []).append({"id": str(delivery), "docket_number": numbers[delivery]})
    return found


def _json(job: Job, dockets: list[dict[str, str]]) -> dict[str, Any]:
    return {"id": str(job.pk), "kind": job.kind, "sha256": _photo_of(job), "reason": job.sentence,
            "parked_at": job.finished_at.isoformat() if job.finished_at else None, "deliveries": dockets}
