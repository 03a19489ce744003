"""``manage.py fault_run``: many phones send while what serves them is killed hard, and nothing may be lost.

Real processes, real HTTP, on the loopback address and in a folder that is thrown away; the installation that the
command is run beside is not touched. A SIGKILL leaves what the program had handed to the operating system, so this
tries order, repeats and recovery; that bytes are flushed before they are acknowledged is tested by itself
(``tests/faults/test_durability.py``).
"""
import argparse
import json
import random
import shutil
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from inspections.development import forms
from inspections.development.device import Device, GivenUp, Tally

#: Longer than a killed worker's lease on the photo that it was at, with room for its turn.
JOBS_DONE_S = 900
UP_S = 180


@dataclass(frozen=True)
class Plan:
    """How much is sent and killed."""

    devices: int = 40
    inspections: int = 400
    photos: int = 4
    kills: int = 50
    minutes: float = 30.0
    seed: int = 1


@dataclass
class Outcome:
    """What came of it; ``rows`` are what, wanted and found."""

    plan: Plan
    form: str
    seconds: float = 0.0
    kills: Counter = field(default_factory=Counter)
    tally: Tally = field(default_factory=Tally)
    rows: list[list] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    @property
    def holds(self) -> bool:
        """Whether nothing was lost, doubled or answered otherwise than the protocol says."""
        return bool(self.rows) and not self.wrong and all(wanted == found for _, wanted, found in self.rows)

    def table(self) -> str:
        """The account, to be printed."""
        lines = [f"{self.form}: {self.plan.devices} devices, {self.seconds:.0f} s, seed {self.plan.seed}", ""]
        lines += [f"{'':2}{'killed hard: ' + role:<58}{count:>16}" for role, count in sorted(self.kills.items())]
        lines += [f"{'':2}{what:<58}{count:>16}" for what, count in sorted(self.tally.counts.items())]
        lines += ["", f"{'':2}{'':<58}{'wanted':>8}{'found':>8}"]
        lines += [f"{'  ' if wanted == found else '! '}{what:<58}{wanted:>8}{found:>8}"
                  for what, wanted, found in self.rows]
        lines += [f"! {sentence}" for sentence in self.wrong]
        lines += ["", "Nothing was lost and nothing counted twice." if self.holds else "It does NOT hold."]
        return "\n".join(lines)


def fault_run(kind: type[forms.Form], plan: Plan, *, port: int, folder: Path,
              tell: Callable[[str], None] = lambda line: None) -> Outcome:
    """Let devices send to a form of the installation while it is killed again and again.

    Parameters
    ----------
    kind : type of Form
    plan : Plan
    port : int
        On the loopback address.
    folder : Path
        Gets all data; must exist.
    tell : callable
        Gets a line now and then.

    Raises
    ------
    DidNotComeUp
        The form did not start at all.
    NoService
        PostgreSQL or Redis are not to be had here.
    """
    outcome = Outcome(plan, kind.name)
    with forms.running(kind, folder, port) as form:
        made = form.run("-m", "inspections.development.made_up_kitchens", str(plan.devices))
        given = json.loads(made.splitlines()[-1])
        form.start()
        form.wait_until_ready(UP_S)
        began = time.monotonic()
        until = began + plan.minutes * 60
        devices = [
            Device(port, name, given["password"], outcome.tally, seed=plan.seed * 1000 + number, until=until)
            for number, name in enumerate(given["usernames"])
        ]
        threads = _sent(devices, plan)
        _kill_while_sending(form, devices, threads, outcome, tell)
        _audit(form, devices, outcome, tell)
        outcome.seconds = time.monotonic() - began
    return outcome


def _sent(devices: list[Device], plan: Plan) -> list[threading.Thread]:
    """Each device at work in a thread of its own."""
    def work(device: Device, deliveries: int) -> None:
        try:
            device.sign_in()
            for _ in range(deliveries):
                device.deliver(plan.photos)
        except GivenUp as trouble:
            device.tally.note(f"the time was over before all was sent: {trouble}")
        except Exception as trouble:  # an answer that cannot be read is a fault of the server's, to be told
            device.tally.note(f"{device.username} met {type(trouble).__name__}: {trouble}")

    shares = [len(range(number, plan.inspections, len(devices))) for number in range(len(devices))]
    threads = [threading.Thread(target=work, args=pair, daemon=True) for pair in zip(devices, shares, strict=True)]
    for thread in threads:
        thread.start()
    return threads


def _kill_while_sending(form, devices, threads, outcome: Outcome, tell) -> None:
    """Kills spread evenly over the work, each at a moment and in a role that chance chooses."""
    chance, plan = random.Random(outcome.plan.seed), outcome.plan
    roles = [role for role, weight in form.roles.items() for _ in range(weight)]
    while any(thread.is_alive() for thread in threads):
        form.keep_up()
        signed = sum(len(device.receipts.signed) for device in devices)
        if outcome.kills.total() < plan.kills and signed >= outcome.kills.total() * plan.inspections * 0.9 / plan.kills:
            time.sleep(chance.random() * 2)
            role = chance.choice(roles)
            if form.kill(role, chance.random()):
                outcome.kills[role] += 1
                tell(f"{signed} signed, kill {outcome.kills.total()}: {role}")
        time.sleep(0.2)


def _audit(form, devices, outcome: Outcome, tell) -> None:
    """Let the worker finish, then compare what is there with the receipts."""
    plan = outcome.plan
    form.wait_until_ready(JOBS_DONE_S)
    tell("all sent; waiting for the worker")
    _wait_for_jobs(form)
    receipts = {"signed": [one for device in devices for one in device.receipts.signed],
                "photos": [one for device in devices for one in device.receipts.photos]}
    found = json.loads(form.run("-m", "inspections.development.audit", given=json.dumps(receipts)).splitlines()[-1])
    outcome.rows = [["kills", plan.kills, outcome.kills.total()],
                    ["inspections that devices hold a seal for", plan.inspections, len(receipts["signed"])],
                    *found["rows"], ["answers that the protocol does not know", 0, len(outcome.tally.wrong)]]
    outcome.wrong = [*found["wrong"], *outcome.tally.wrong[:20]]


def _wait_for_jobs(form) -> None:
    end = time.monotonic() + JOBS_DONE_S
    while time.monotonic() < end:
        form.keep_up()
        try:
            status, told = form.ask("/health")
        except OSError:
            status, told = 0, {}
        if status == 200 and told["jobs"]["open"] == 0:
            return
        time.sleep(1)


def main(arguments: list[str]) -> int:
    """Run the command; 0 when all holds."""
    parser = argparse.ArgumentParser(prog="manage.py fault_run", description=__doc__.partition("\n")[0])
    parser.add_argument("forms", nargs="*", choices=[*forms.FORMS, []], help="embedded, production; both without")
    parser.add_argument("--port", type=int, default=8160)
    for name in ("devices", "inspections", "photos", "kills", "seed"):
        parser.add_argument(f"--{name}", type=int, default=getattr(Plan, name))
    parser.add_argument("--minutes", type=float, default=Plan.minutes, help="the longest that devices go on")
    asked = vars(parser.parse_args(arguments))
    chosen, port = asked.pop("forms") or list(forms.FORMS), asked.pop("port")
    outcomes = [_run_one(forms.FORMS[name], Plan(**asked), port) for name in chosen]
    return 0 if all(outcome.holds for outcome in outcomes) else 1


def _run_one(kind: type[forms.Form], plan: Plan, port: int) -> Outcome:
    folder = Path(tempfile.mkdtemp(prefix="underlid-faults-"))
    outcome = fault_run(kind, plan, port=port, folder=folder,
                        tell=lambda line: print(line, file=sys.stderr, flush=True))
    print(f"\n{outcome.table()}", flush=True)
    if outcome.holds:
        shutil.rmtree(folder, ignore_errors=True)
    else:
        print(f"Data and log are kept in {folder}", file=sys.stderr)
    return outcome
