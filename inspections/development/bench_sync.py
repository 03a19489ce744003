"""``manage.py bench_sync``: how fast the device protocol is, beside a bare endpoint that keeps the same bytes.

Both are served by the same web server with the same number of processes and threads and the same database settings
(``bare.py``), asked by the same clients, in slices of a few seconds that take turns, so that a busy machine slows both
alike. The worker is not running; what it would take of the processor is not in these figures. All of it is on the
loopback address, in a folder that is thrown away. A power cut's safety is the same on both sides: each answer follows
a flushed transaction.
"""
import argparse
import base64
import contextlib
import hashlib
import itertools
import json
import math
import random
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

import psutil

from inspections.development import forms
from inspections.development.device import Device, Tally
from inspections.development.made_up_deliveries import (
    a_delivery,
    a_photo,
    an_id,
    photo_entry,
    signed_off,
    with_comment,
)
from inspections.development.wire import TUS, Answer, Asked, NoAnswer, Wire

PHOTO_KB = 300
#: What each part of the protocol is to reach of the bare endpoint's rate.
GOALS = {"a document's revision": 0.5, "a photo's bytes": 0.5, "a signature": 0.2}
TURNS = 3
#: So many requests are made ready for each client's turn.
READY = {"a document's revision": 120, "a photo's bytes": 30, "a signature": 15}


@dataclass
class Measured:
    """Requests of one kind: seconds that each took, how long all took, and why so many failed."""

    took: list[float] = field(default_factory=list)
    seconds: float = 0.0
    why: Counter[str] = field(default_factory=Counter)

    @property
    def failed(self) -> int:
        return self.why.total()

    @property
    def rate(self) -> float:
        """Answers a second."""
        return len(self.took) / self.seconds if self.seconds else 0.0

    def percentile(self, share: float) -> float:
        """Milliseconds that so large a share took at most (the nearest rank)."""
        if not self.took:
            return math.nan
        return 1000 * sorted(self.took)[max(0, math.ceil(share * len(self.took)) - 1)]

    def row(self, what: str) -> str:
        return (f"  {what:<36}{self.rate:>9.1f}/s {self.percentile(.5):>8.0f} {self.percentile(.95):>8.0f} "
                f"{self.percentile(.99):>8.0f} ms  {self.failed} failed"
                + "".join(f"\n    {count} × {why}" for why, count in self.why.most_common(6)))


class Side:
    """One server under measurement: its address and its processes."""

    def __init__(self, environment: dict[str, str], log: Path, port: int, application: str):
        self.port = port
        with open(log, "ab") as out:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "inspections.deployment.web", "--host", "127.0.0.1", "--port", str(port),
                 "--application", application],
                cwd=forms.BASE, env=environment, stdin=subprocess.DEVNULL, stdout=out, stderr=out)

    def wait(self, path: str) -> None:
        """Return when it answers."""
        for _ in range(600):
            with contextlib.suppress(NoAnswer):
                Wire(self.port, 5).ask(Asked("GET", path))
                return
            time.sleep(0.2)
        raise forms.DidNotComeUp(f"port {self.port} did not answer")

    def processes(self) -> list[psutil.Process]:
        top = psutil.Process(self._process.pid)
        return [top, *(one for one in top.children(recursive=True) if "spawn_main" in " ".join(one.cmdline()))]

    def used(self) -> dict[int, tuple[float, float]]:
        """Seconds of processor time and MB of memory of its own, by process id."""
        return {one.pid: (sum(one.cpu_times()[:2]), one.memory_full_info().uss / 1048576) for one in self.processes()}

    def stop(self) -> None:
        self._process.terminate()
        self._process.wait(timeout=30)


class Phones:
    """Signed-in devices and what they have ready to send."""

    def __init__(self, port: int, given: dict, clients: int):
        tally, until = Tally(), time.monotonic() + 600
        self.devices = [Device(port, name, given["password"], tally, seed=number, until=until, trouble=0.0)
                        for number, name in enumerate(given["usernames"][:clients])]
        _at_once([device.sign_in for device in self.devices])
        # not seeded: what an earlier round has sent is stored, and would not be sent again
        self._chance = random.Random()
        self._photo = a_photo(self._chance, PHOTO_KB)

    def a_photo(self) -> bytes:
        """A picture that no phone has sent, at little cost."""
        return with_comment(self._photo, self._chance.randbytes(8).hex())

    def draft(self, device: Device, photos: list[bytes]) -> dict:
        draft = a_delivery(device.reference, device_id=device.device_id, docket=an_id())
        return {**draft, "photos": [photo_entry(one, draft["lines"][0]["id"]) for one in photos]}


def _put(draft: dict, base: int, **changes) -> Asked:
    guard = {"If-Match": f'"{base}"'} if base else {"If-None-Match": "*"}
    return Asked("PUT", f"/sync/documents/{draft['id']}", {"Content-Type": "application/json", **guard},
                 json.dumps({**draft, **changes}).encode())


def _revisions(phones: Phones, device: Device, photos: list[bytes]) -> Iterator[list[Asked]]:
    """One delivery after another, each changed twenty times."""
    while True:
        draft = phones.draft(device, photos)
        for base in range(20):
            yield [_put(draft, base, notes=str(base))]


def _photos(phones: Phones, device: Device, photos: list[bytes]) -> Iterator[list[Asked]]:
    """A photo begun and sent whole."""
    while True:
        content = phones.a_photo()
        sha256 = hashlib.sha256(content).hexdigest()
        yield [Asked("POST", "/sync/uploads/", {
            **TUS, "Content-Type": "application/offset+octet-stream", "Upload-Length": str(len(content)),
            "Upload-Metadata": f"sha256 {base64.b64encode(sha256.encode()).decode()}"}),
            Asked("PATCH", "", {**TUS, "Content-Type": "application/offset+octet-stream", "Upload-Offset": "0"},
                  content)]


def _signatures(phones: Phones, device: Device, photos: list[bytes]) -> Iterator[list[Asked]]:
    """Deliveries with four photos that are there; each signature after its document, which is not timed."""
    while True:
        draft = phones.draft(device, photos)
        final = signed_off(draft, device.reference)
        device.wire.ask(_put(draft, 0))
        yield [Asked("POST", f"/sync/documents/{draft['id']}/signature", {
            "Content-Type": "application/json", "Idempotency-Key": an_id()}, json.dumps({"document": final}).encode())]


KINDS: dict[str, Callable[[Phones, Device, list[bytes]], Iterator[list[Asked]]]] = {
    "a document's revision": _revisions, "a photo's bytes": _photos, "a signature": _signatures}


def measure(phones: Phones, kind: str, bare_port: int, seconds: float) -> tuple[Measured, Measured]:
    """The protocol and the bare endpoint in turns; a photo counts once, with both of its requests.

    Parameters
    ----------
    phones : Phones
    kind : str
        Of ``KINDS``.
    bare_port : int
    seconds : float
        For each of the two, in ``TURNS`` slices; one comes before them, uncounted: a new process is slow at first.
    """
    ours, bare = Measured(), Measured()
    warm = Measured()
    four = [[phones.a_photo() for _ in range(4)] for _ in phones.devices]
    for device, photos in zip(phones.devices, four, strict=True):
        for content in photos:
            device._send_photo(content)
    wires = [Wire(bare_port) for _ in phones.devices]
    for turn in range(TURNS + 1):
        # made ready before the clock runs: the clients share the machine with what they measure
        ready = [list(itertools.islice(KINDS[kind](phones, device, photos), READY[kind]))
                 for device, photos in zip(phones.devices, four, strict=True)]
        bodies = [wanted[0][-1].body for wanted in ready]
        _slice(ours if turn else warm, seconds / TURNS, [
            (device.wire, iter(wanted)) for device, wanted in zip(phones.devices, ready, strict=True)])
        _slice(bare if turn else warm, seconds / TURNS, [
            (wire, itertools.repeat([Asked("POST", "/keep", {}, body)]))
            for wire, body in zip(wires, bodies, strict=True)])
    ours.why += warm.why  # a request that fails is a fault whenever it comes
    return ours, bare


def _slice(into: Measured, seconds: float, clients: list[tuple[Wire, Iterator[list[Asked]]]]) -> None:
    """All clients at once, for so long or until one has nothing ready any more."""
    lock, is_over = threading.Lock(), threading.Event()

    def client(wire: Wire, wanted: Iterator[list[Asked]]) -> None:
        end = time.monotonic() + seconds
        for one in wanted:
            if time.monotonic() > end or is_over.is_set():
                break
            took, answer = _ask_all(wire, one)
            with lock:
                if answer.status in {200, 201, 204}:
                    into.took.append(took)
                else:
                    told = answer.code or answer.body.decode("utf-8", "replace")[:80]
                    into.why[f"{one[-1].method} after {took:.1f} s: {answer.status} {told}"] += 1
        is_over.set()

    began = time.monotonic()
    _at_once([partial(client, *pair) for pair in clients])
    into.seconds += time.monotonic() - began


def _ask_all(wire: Wire, wanted: list[Asked]) -> tuple[float, Answer]:
    """Seconds that the requests took one after another, and the last answer; an upload's piece goes where it was told.
    """
    began, answer = time.monotonic(), Answer(0, {}, b"")
    for one in wanted:
        asked = one if one.path else Asked(one.method, answer.headers["location"], one.headers, one.body)
        try:
            answer = wire.ask(asked)
        except NoAnswer as trouble:
            return time.monotonic() - began, Answer(0, {}, str(trouble).encode())
        if answer.status >= 400:
            break
    return time.monotonic() - began, answer


def _inspections(phones: Phones, seconds: float) -> tuple[int, float]:
    """Whole inspections with four photos and a put-away, until the time is over: how many, in how many seconds."""
    began, done, end = time.monotonic(), [0] * len(phones.devices), time.monotonic() + seconds

    def work(number: int, device: Device) -> None:
        device.kilobytes = PHOTO_KB
        while time.monotonic() < end:
            device.deliver(4)
            done[number] += 1

    _at_once([partial(work, *pair) for pair in enumerate(phones.devices)])
    return sum(done), time.monotonic() - began


def _at_once(deeds: list[Callable[[], object]]) -> None:
    threads = [threading.Thread(target=deed) for deed in deeds]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def bench(kind: type[forms.Form], folder: Path, *, port: int, workers: list[int], clients: int, seconds: float,
          grow: list[int]) -> bool:
    """Print the tables; whether no request failed."""
    all_well = True
    with forms.running(kind, folder, port) as form:
        made = form.run("-m", "inspections.development.made_up_kitchens", str(clients))
        given = json.loads(made.splitlines()[-1])
        bare = form.environment if "postgresql" in form.environment.get("DATABASE_URL", "") else {
            **form.environment, "DATABASE_URL": f"sqlite:///{folder / 'bare.sqlite3'}"}
        subprocess.run([sys.executable, "-m", "inspections.development.bare"], cwd=forms.BASE, env=bare, check=True)
        for count in workers:
            with _both(form, bare, count) as (ours_side, bare_side):
                all_well &= _one_count(ours_side, bare_side, given, clients, seconds)
        for stored in grow:
            told = form.run("-m", "inspections.development.grown", str(stored)).strip().splitlines()[-1]
            with _both(form, bare, 1) as (ours_side, bare_side):
                print(f"\n{told}")
                phones = Phones(ours_side.port, given, clients)
                for what in KINDS:
                    ours, _ = measure(phones, what, bare_side.port, seconds)
                    print(ours.row(what), flush=True)
                    all_well &= not ours.failed
    return all_well


def _one_count(ours_side: Side, bare_side: Side, given: dict, clients: int, seconds: float) -> bool:
    began_with = {one.pid for one in ours_side.processes()}
    phones, all_well = Phones(ours_side.port, given, clients), True
    print(f"\n{len(ours_side.processes())} web processes, {clients} phones"
          f"\n  {'':<36}{'rate':>11} {'p50':>8} {'p95':>8} {'p99':>8}")
    for what, goal in GOALS.items():
        ours, bare = measure(phones, what, bare_side.port, seconds)
        share = ours.rate / bare.rate if bare.rate else 0.0
        print(ours.row(what), bare.row("  the same bytes, bare"), sep="\n")
        is_met = "met" if share >= goal else "not met"
        print(f"  {'':<36}{share:.2f} of the bare endpoint; the goal is {goal}: {is_met}", flush=True)
        all_well &= not ours.failed and not bare.failed
    if {one.pid for one in ours_side.processes()} != began_with:
        print("  a web process died and was replaced; its log says where")
        all_well = False
    before, began = ours_side.used(), time.monotonic()
    count, took = _inspections(phones, seconds)
    after, past = ours_side.used(), time.monotonic() - began
    print(f"  whole inspections with 4 photos of {PHOTO_KB} kB: {count / took * 60:.0f} a minute")
    for pid, (cpu, memory) in after.items():
        busy = (cpu - before.get(pid, (0.0, 0))[0]) / past
        print(f"    process {pid}: {busy:.0%} of a core, {memory:.0f} MB of its own")
    return all_well


@contextlib.contextmanager
def _both(form: forms.Form, bare: dict[str, str], count: int) -> Iterator[tuple[Side, Side]]:
    more = {"UNDERLID_WEB_PROCESSES": str(count)}
    sides = (Side(form.environment | more, form.log, form.port, "inspections.asgi:application"),
             Side(bare | more, form.log, form.port + 1, "inspections.development.bare:application"))
    try:
        sides[0].wait("/health/live")
        sides[1].wait("/keep")
        yield sides
    finally:
        for side in sides:
            side.stop()


def main(arguments: list[str]) -> int:
    """Run the command; 0 when no request failed."""
    parser = argparse.ArgumentParser(prog="manage.py bench_sync", description=__doc__.partition("\n")[0])
    parser.add_argument("form", nargs="?", choices=list(forms.FORMS), default="embedded")
    parser.add_argument("--port", type=int, default=8162)
    parser.add_argument("--workers", type=int, nargs="*", default=[1, 2, 4], help="web processes")
    parser.add_argument("--clients", type=int, default=16)
    parser.add_argument("--seconds", type=float, default=12, help="for each kind of request, and side")
    parser.add_argument("--grow", type=int, nargs="*", default=[], help="measure again with so many stored inspections")
    asked = vars(parser.parse_args(arguments))
    folder = Path(tempfile.mkdtemp(prefix="underlid-bench-"))
    try:
        return 0 if bench(forms.FORMS[asked.pop("form")], folder, **asked) else 1
    finally:
        shutil.rmtree(folder, ignore_errors=True)
