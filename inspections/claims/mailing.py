"""Every worker sends the mails and notifications that wait, in a thread of its own: they hold up no photo."""
import logging
import threading
import time
from collections.abc import Callable

from celery.signals import worker_ready

log = logging.getLogger(__name__)
#: What else sends mails that wait: called with each sweep.
SENDERS: list[Callable[[], int]] = []


@worker_ready.connect
def begin_to_mail(**_signal) -> None:
    """Once the worker is up; see ``messages.send_due``."""
    threading.Thread(target=_mail_for_ever, name="mail", daemon=True).start()


def _mail_for_ever() -> None:
    from django.conf import settings
    from django.db import close_old_connections

    from inspections.claims.messages import send_due

    while True:
        try:
            for send in (send_due, *SENDERS):
                send()
        except Exception as trouble:  # a database that is away comes back; the mails must go out then
            log.warning("messages not looked for: %s", trouble)
        finally:
            close_old_connections()
        time.sleep(settings.SWEEP_SECONDS)
