"""The Celery application: its messages are hints that work waits in the database (see records/jobs.py).

A worker works in its own process (``--pool solo``), not in a child: a child that is killed hard can leave the lock
of its pool held for ever, and the parent lives on and looks well. More work at once is more worker processes.
Beside the work, every worker sweeps; claims let it send their mails (`claims/mailing.py`).
"""
import contextlib
import logging
import os
import threading
import time
import warnings
from collections.abc import Iterator

from celery import Celery
from celery.exceptions import SecurityWarning
from celery.signals import worker_ready
from kombu.connection import Connection

log = logging.getLogger(__name__)

# Celery warns root of pickled messages. Ours are JSON, and a container's only person is often root.
warnings.filterwarnings("ignore", message="You're running the worker with superuser", category=SecurityWarning)

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")

app = Celery("underlid")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks(["imaging"])


#: A request must not wait for a broker that is away: what was not hinted is found by the sweep.
PATIENCE = {"socket_connect_timeout": 2, "socket_timeout": 2}


@contextlib.contextmanager
def broker() -> Iterator[Connection]:
    """A connection of one's own, closed at the end; raises what the broker raises when it is away.

    None is kept in a pool. One that broke with its Redis is handed out again and fails for ever, and of ten that were
    never given back the eleventh request waits without end.
    """
    with app.connection_for_write(transport_options=PATIENCE) as connection:
        connection.ensure_connection(max_retries=0)
        yield connection


def hints_waiting(connection: Connection) -> int:
    """How many messages lie in the queue, unread."""
    with connection.channel() as channel:
        return channel.queue_declare(queue=app.conf.task_default_queue, durable=True).message_count


@worker_ready.connect
def _begin_to_sweep(**_signal) -> None:
    threading.Thread(target=_sweep_for_ever, name="sweep", daemon=True).start()


def _sweep_for_ever() -> None:
    """Hint at what a lost hint or a killed worker left; end this process when the work stands still in it.

    Whoever watches over the process (the supervisor, a container's restart rule) starts it again.
    """
    from django.conf import settings
    from django.db import close_old_connections

    from inspections.records import jobs

    began = time.monotonic()
    while True:
        try:
            jobs.sweep()
            if time.monotonic() - began > jobs.STANDSTILL_S and (queue := jobs.queue()).stands_still:
                log.error("%s This worker ends, to be started again.", queue.sentence)
                os._exit(70)
        except Exception as trouble:  # a database that is away comes back; the sweep must be there then
            log.warning("not swept: %s", trouble)
        finally:
            close_old_connections()
        time.sleep(settings.SWEEP_SECONDS)
