"""SQLite as Django has it, with a queue for writers.

SQLite lets one transaction write at a time. Whoever finds it taken sleeps and asks again, each time longer, up to a
tenth of a second: with sixteen phones sending, the database stood idle most of the time while all of them slept, and
the unlucky waited for seconds. Here the threads of a process wait in line and are woken; only the first of the line
asks the other processes, every half millisecond. Whoever asks holds the place next in turn meanwhile, so that a busy
process cannot take the turn again and again before an idle one. A line that does not move for the connection's
``timeout`` ends as SQLite's own waiting does, with "database is locked".
"""
import fcntl
import os
import threading
import time

from django.db.backends.sqlite3 import base
from django.db.utils import OperationalError

ASK_AGAIN_S = 0.0005
#: Django looks for it here.
Database = base.Database  # type: ignore[attr-defined]


class _Line:
    """The threads of this process that wait to write to one database, and what they hold against other processes."""

    lines: dict[str, "_Line"] = {}

    def __init__(self, path: str):
        self.turn = threading.Lock()
        self.path = path
        #: Files of this process that hold, or ask for, a place among the processes.
        self.open: set[int] = set()

    @classmethod
    def of(cls, path: str) -> "_Line":
        return cls.lines.setdefault(path, cls(path))

    def join(self, most_s: float) -> int | None:
        """An open file that holds the turn, -1 where no file can; None when the turn did not come in time."""
        until = time.monotonic() + most_s
        if not self.turn.acquire(timeout=most_s):
            return None
        handle = None
        try:
            after = self._hold(f"{self.path}-next", until)
            if after is not None:
                try:
                    handle = self._hold(f"{self.path}-queue", until)
                finally:
                    self._let_go(after)
        except OSError:
            # No place for the files: SQLite's own waiting is enough to be right.
            handle = -1
        if handle is None:
            self.turn.release()
        return handle

    def leave(self, handle: int) -> None:
        if handle >= 0:
            self._let_go(handle)
        self.turn.release()

    def _hold(self, path: str, until: float) -> int | None:
        handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
        self.open.add(handle)
        while True:
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                if time.monotonic() > until:
                    self._let_go(handle)
                    return None
                time.sleep(ASK_AGAIN_S)
            else:
                return handle

    def _let_go(self, handle: int) -> None:
        # Unlocked by name: closing alone would not free what a child forked a moment ago has open too.
        fcntl.flock(handle, fcntl.LOCK_UN)
        self.open.discard(handle)
        os.close(handle)

    @classmethod
    def forget(cls) -> None:
        """In the child of a fork: turns that threads of the parent have are not the child's to hold or to wait for."""
        for line in cls.lines.values():
            for handle in line.open:
                os.close(handle)
        cls.lines.clear()


os.register_at_fork(after_in_child=_Line.forget)


class DatabaseWrapper(base.DatabaseWrapper):
    """A connection whose transactions wait in line."""

    _turn: tuple[_Line, int] | None = None

    def _start_transaction_under_autocommit(self) -> None:
        if not self.is_in_memory_db():
            line = _Line.of(str(self.settings_dict["NAME"]))
            handle = line.join(self.settings_dict["OPTIONS"].get("timeout", 5))
            if handle is None:
                raise OperationalError("database is locked")
            self._turn = line, handle
        try:
            super()._start_transaction_under_autocommit()  # type: ignore[misc]
        except BaseException:
            self._leave()
            raise

    def _commit(self) -> None:
        super()._commit()  # type: ignore[misc]
        self._leave()

    def _rollback(self) -> None:
        try:
            super()._rollback()  # type: ignore[misc]
        finally:
            self._leave()

    def _close(self) -> None:
        try:
            super()._close()  # type: ignore[misc]
        finally:
            self._leave()

    def _leave(self) -> None:
        if self._turn is not None:
            (line, handle), self._turn = self._turn, None
            line.leave(handle)
