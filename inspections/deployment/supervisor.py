"""Keeps a few child processes running and ends them all together.

A child that ends is started again, with a growing pause when it keeps ending; so is one that lives but does not do
its work, which its ``trouble`` tells. TERM or Ctrl-C ends every
child's whole process group, politely first. If this process itself is killed hard, Linux sends the children
TERM (PR_SET_PDEATHSIG), so nothing is left behind either way.
"""
import ctypes
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field

GRACE_SECONDS = 25.0
STEADY_SECONDS = 10.0
LONGEST_PAUSE = 30.0
LOOK_SECONDS = 10.0
_PR_SET_PDEATHSIG = 1


@dataclass
class Child:
    """One kept process."""

    name: str
    command: list[str]
    process: subprocess.Popen | None = None
    started: float = 0.0
    pause: float = 0.0
    not_before: float = 0.0
    environment: dict[str, str] = field(default_factory=dict)
    #: Asked every LOOK_SECONDS with how long it has run; a sentence means that it must be started again.
    trouble: Callable[[float], str | None] = lambda up_s: None

    def start(self) -> None:
        """Start it in a process group of its own."""
        self.process = subprocess.Popen(
            self.command, env=os.environ | self.environment, stdin=subprocess.DEVNULL,
            start_new_session=True, preexec_fn=_die_with_parent)
        self.started = time.monotonic()

    def send(self, what: signal.Signals) -> None:
        """Send a signal to the whole group; a group that has gone is fine."""
        if self.process is not None:
            try:
                os.killpg(self.process.pid, what)
            except ProcessLookupError:
                pass


def _die_with_parent() -> None:
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGTERM)


class Supervisor:
    """Runs children until told to stop.

    Parameters
    ----------
    children : list of Child
        Started in order.
    """

    def __init__(self, children: list[Child]):
        self.children = children
        self.stopping = False
        self._looked = time.monotonic()

    def run(self) -> int:
        """Start all, keep all, return 0 after a clean stop."""
        for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
            signal.signal(number, self._asked_to_stop)
        for child in self.children:
            child.start()
        while not self.stopping:
            self._look_after(time.monotonic())
            time.sleep(0.2)
        self.stop()
        return 0

    def stop(self) -> None:
        """TERM to every child, then KILL to what is left of its group after the grace."""
        for child in self.children:
            if child.process is not None:
                child.process.send_signal(signal.SIGTERM)
        end = time.monotonic() + GRACE_SECONDS
        for child in self.children:
            self._wait_for(child, end)
            child.send(signal.SIGKILL)

    def _asked_to_stop(self, number, frame) -> None:
        self.stopping = True

    def _wait_for(self, child: Child, end: float) -> None:
        if child.process is None:
            return
        try:
            child.process.wait(timeout=max(0.1, end - time.monotonic()))
        except subprocess.TimeoutExpired:
            pass

    def _look_after(self, now: float) -> None:
        for child in self.children:
            if child.process is not None and child.process.poll() is not None:
                self._ended(child, now)
            if child.process is None and now >= child.not_before:
                child.start()
        if now - self._looked > LOOK_SECONDS:
            self._looked = now
            self._end_idle(now)

    def _end_idle(self, now: float) -> None:
        for child in self.children:
            if child.process is None:
                continue
            try:
                why = child.trouble(now - child.started)
            except Exception as trouble:  # a database that is away must not end the supervisor
                why = None
                print(f"Whether the {child.name} does its work could not be seen ({trouble}).", file=sys.stderr)
            if why:
                print(f"{why} The {child.name} is stopped.", file=sys.stderr, flush=True)
                child.send(signal.SIGKILL)

    def _ended(self, child: Child, now: float) -> None:
        # What the dead leader left of its group would hold the port or the queue.
        child.send(signal.SIGKILL)
        steady = now - child.started > STEADY_SECONDS
        child.pause = 0.5 if steady else min(LONGEST_PAUSE, max(0.5, child.pause * 2))
        print(f"The {child.name} ended ({child.process.returncode}); starting it again in {child.pause:g} s.",
              file=sys.stderr, flush=True)
        child.process, child.not_before = None, now + child.pause
