"""Work for the worker, written with the fact that causes it."""
from django.db import models

from inspections.people.models import new_id


class JobState(models.TextChoices):
    WAITING = "waiting", "Waiting"
    TAKEN = "taken", "Taken"
    DONE = "done", "Done"
    PARKED = "parked", "Parked"
    UNWANTED = "unwanted", "No longer wanted"


class Need(models.IntegerChoices):
    """How soon a job's answer is needed: the lower, the sooner."""

    AT_THE_DOOR = 0, "The receiver waits for it"
    TO_LOOK_AT = 1, "The desk will look at it"
    ASKED_AGAIN = 2, "Asked again, in bulk"


class Job(models.Model):
    """One piece of work. ``attempts`` counts takings and is the token of the current one."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    kind = models.CharField(max_length=30)
    subject = models.JSONField()
    key = models.CharField(max_length=64, help_text="Hash of what is asked: the same work is not written twice.")
    state = models.CharField(max_length=10, choices=JobState.choices, default=JobState.WAITING)
    need = models.PositiveSmallIntegerField(choices=Need.choices, default=Need.AT_THE_DOOR)
    lease_until = models.DateTimeField(null=True, blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    not_before = models.DateTimeField()
    sentence = models.TextField(blank=True, help_text="Why the last attempt failed, or why nothing was done.")
    request_id = models.CharField(max_length=64, blank=True, help_text="Of the request that caused it.")
    created_at = models.DateTimeField(auto_now_add=True)
    finished_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["not_before", "id"]
        constraints = [models.UniqueConstraint(fields=["kind", "key"], name="one_job_for_one_subject")]
        indexes = [models.Index(fields=["state", "not_before"]), models.Index(fields=["state", "lease_until"])]

    def __str__(self) -> str:
        return f"{self.kind} {self.state}"
