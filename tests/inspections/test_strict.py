"""What is sent is held to its schema by many threads at once."""
import subprocess
import sys
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]

#: Eight threads meet thirty kinds that nobody has met, each of twenty layers.
FIRST_MEETINGS = """
import sys, threading
from msgspec import defstruct
from inspections.strict import convert

def layered(number):
    kind = defstruct(f"Kind{number}", [("whole", int)])
    for layer in range(20):
        kind = defstruct(f"Kind{number}_{layer}", [
            (f"part{n}", list[kind] if n == 0 else list[str]) for n in range(12)])
    return kind

sys.setswitchinterval(1e-6)
body = {f"part{n}": [] for n in range(12)}
answers = []
for number in range(30):
    kind, gate = layered(number), threading.Barrier(8)
    def meet():
        gate.wait()
        answers.append(convert(body, kind))
    threads = [threading.Thread(target=meet) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
print(len(answers))
"""


def test_threads_that_meet_a_kind_at_once_do_not_end_the_process():
    # Eight phones that come as a web process starts: without a turn in line this one ended with a fault of the memory.
    done = subprocess.run([sys.executable, "-c", FIRST_MEETINGS], cwd=BASE, capture_output=True, text=True)
    assert (done.returncode, done.stdout.strip()) == (0, "240"), done.stderr
