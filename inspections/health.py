"""How the installation stands: for whoever watches it, in figures and in sentences."""
import shutil
import threading
from dataclasses import dataclass
from typing import Literal, NotRequired, TypedDict

from django.conf import settings
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from inspections.deployment.backup import last_backup
from inspections.deployment.data_folder import LEAST_FREE_BYTES
from inspections.records import jobs


class Live(TypedDict):
    alive: bool


class JobsTold(TypedDict):
    open: int
    waiting: int
    oldest_waiting_s: int
    parked: int
    last_finished_s: int | None


class HealthAnswer(TypedDict):
    """Seconds, bytes and ISO 8601; without the database nothing but that."""

    database: Literal["answers", "does not answer"]
    sentences: list[str]
    jobs: NotRequired[JobsTold]
    worker: NotRequired[Literal["stands still", "works", "has no work"]]
    free_bytes: NotRequired[int]
    last_backup: NotRequired[str | None]


@dataclass(frozen=True)
class Health:
    """Figures, and a sentence for each thing that somebody must see to."""

    queue: jobs.Queue
    free_bytes: int
    last_backup: str | None
    is_migrated: bool

    @property
    def sentences(self) -> list[str]:
        found = []
        if not self.is_migrated:
            found.append("The database is older than the program. Run “manage.py migrate”.")
        if self.free_bytes < LEAST_FREE_BYTES:
            found.append(f"The disk is full ({self.free_bytes // 1048576} MB free).")
        if self.queue.stands_still:
            found.append(self.queue.sentence)
        if self.queue.parked_lately:
            found.append(f"{self.queue.parked_lately} photos were given up in the last day, the last of them because: "
                         f"{self.queue.why_parked}")
        return found

    @property
    def is_ready(self) -> bool:
        """Whether requests can be taken: what the worker does not do harms no receiver."""
        return self.is_migrated and self.free_bytes >= LEAST_FREE_BYTES

    def to_json(self) -> dict:
        """Seconds, bytes and ISO 8601."""
        return {
            "database": "answers",
            "jobs": {"open": self.queue.open, "waiting": self.queue.waiting,
                     "oldest_waiting_s": round(self.queue.oldest_s), "parked": self.queue.parked,
                     "last_finished_s": self.queue.idle_s and round(self.queue.idle_s)},
            "worker": "stands still" if self.queue.stands_still else "works" if self.queue.waiting else "has no work",
            "free_bytes": self.free_bytes, "last_backup": self.last_backup, "sentences": self.sentences,
        }


_migrated = threading.Event()


def _is_migrated() -> bool:
    """Looked up until it is so; a database does not grow older again under a running program."""
    if not _migrated.is_set():
        executor = MigrationExecutor(connection)
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            return False
        _migrated.set()
    return True


def health() -> Health:
    """How it stands now; raises what the database raises when it does not answer."""
    is_migrated = _is_migrated()
    return Health(
        queue=jobs.queue() if is_migrated else jobs.NO_WORK,
        free_bytes=shutil.disk_usage(settings.DATA).free, last_backup=last_backup(), is_migrated=is_migrated,
    )
