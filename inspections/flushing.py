"""A transaction whose end waits for no disk, for what nobody was promised."""
import contextlib
from collections.abc import Iterator

from django.db import connection, transaction


@contextlib.contextmanager
def unflushed() -> Iterator[None]:
    """A transaction that a power cut may take back, and that the next flushed one keeps for good with its own.

    A killed process loses nothing of it: the operating system has it. Inside another transaction it is that one's part.
    Sources: SQLite, PRAGMA synchronous (in WAL mode NORMAL flushes at checkpoints only); PostgreSQL 16, 20.12
    (a synchronous_commit that is switched off loses the last transactions, never the consistency).
    """
    is_outermost, is_sqlite = not connection.in_atomic_block, connection.vendor == "sqlite"
    if is_outermost and is_sqlite:
        _say("PRAGMA synchronous = NORMAL")
    try:
        with transaction.atomic():
            if is_outermost and not is_sqlite:
                _say("SET LOCAL synchronous_commit TO OFF")
            yield
    finally:
        if is_outermost and is_sqlite:
            _say("PRAGMA synchronous = FULL")


def _say(statement: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(statement)
