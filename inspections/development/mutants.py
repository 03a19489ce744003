"""Would the tests notice? Small faults are put into the code one by one, and those that no test minds are printed.

    python -m inspections.development.mutants                       trade and sync, half an hour
    python -m inspections.development.mutants inspections/trade/size.py --tests tests/inspections/trade --minutes 10

mutmut (a kept library) makes the faults and runs, for each, the tests that reach its function. It works on a copy, so
the checkout stays as it is. What the time did not allow is said; a share is of the faults that were tried. The
goal is at most 5 % that survive; a survivor that changes nothing anybody can see is no gap.
"""
import argparse
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]
MODULES = ["inspections/trade/*", "inspections/sync/*"]
TESTS = ["tests/inspections/trade", "tests/inspections/sync"]
#: Tests that read the code itself would see every fault at once, whether anything minds it or not.
READ_THE_CODE = ["tests/inspections/trade/test_codes.py"]
COPIED = ["imaging", "inspections", "fixtures", "tests", "manage.py", "pyproject.toml", "requirements.txt"]
#: A fault that was noticed: a test failed, it never came to an end, or Python could not go on.
NOTICED = {"killed", "timeout", "segfault", "caught by type check"}
SURVIVED = {"survived", "no tests"}


def main(words: list[str]) -> int:
    """Run for the time allowed and print what survived; 0 when all that was tried was noticed."""
    asked = _arguments(words)
    with tempfile.TemporaryDirectory(prefix="underlid-mutants-") as folder:
        copy = Path(folder)
        files = subprocess.run(["git", "ls-files", "-z", *COPIED], cwd=BASE, capture_output=True, check=True).stdout
        subprocess.run(["xargs", "-0", "cp", "--parents", "-t", folder], cwd=BASE, input=files, check=True)
        (copy / "setup.cfg").write_text(_settings(asked.modules, asked.tests), "utf-8")
        run = [sys.executable, "-m", "mutmut", "run", "--max-children", str(asked.processes)]
        is_whole = True
        try:
            done = subprocess.run(run, cwd=copy, timeout=asked.minutes * 60, capture_output=True, text=True)
        except subprocess.TimeoutExpired:
            is_whole = False
        else:
            if done.returncode:
                print(done.stdout[-3000:], done.stderr[-1000:], sep="\n", file=sys.stderr)
                return done.returncode
        return _account(copy, is_whole)


def _arguments(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="inspections.development.mutants", description=__doc__.split("\n")[0])
    parser.add_argument("modules", nargs="*", default=MODULES, help="Files to put faults into, * allowed.")
    parser.add_argument("--tests", nargs="+", default=TESTS, help="Tests that should notice.")
    parser.add_argument("--minutes", type=float, default=30, help="The longest it may take.")
    parser.add_argument("--processes", type=int, default=1, help="Faults tried at once.")
    return parser.parse_args(words)


def _settings(modules: list[str], tests: list[str]) -> str:
    given = {
        "source_paths": ["inspections", "imaging"], "only_mutate": modules,
        "also_copy": [name for name in COPIED if name not in ("inspections", "imaging")],
        "pytest_add_cli_args_test_selection": [*tests, *(f"--ignore={name}" for name in READ_THE_CODE)],
    }
    lines = [f"{name} =\n" + "".join(f"    {value}\n" for value in values) for name, values in given.items()]
    return "[mutmut]\ntrack_dependencies = false\n" + "".join(lines)


def _account(copy: Path, is_whole: bool) -> int:
    """Print the survivors, each with its fault, and their share of what was tried."""
    told = subprocess.run([sys.executable, "-m", "mutmut", "results", "--all", "true"], cwd=copy, capture_output=True,
                          text=True).stdout
    rows = (line.rpartition(":") for line in told.splitlines())
    found = [(name.strip(), how.strip()) for name, _, how in rows if name]
    counts = Counter(how for _, how in found)
    noticed, survived = (sum(counts[how] for how in kinds) for kinds in (NOTICED, SURVIVED))
    tried = noticed + survived
    if not tried:
        print("No fault was tried in the time allowed. Give it more with --minutes, or fewer tests with --tests.")
        return 1
    print(f"{survived} of {tried} faults survived ({100 * survived / tried:.1f} %; the goal is at most 5 %).")
    if not is_whole:
        print(f"The time was up. Not tried: {len(found) - tried} of {len(found)}.")
    for name in (name for name, how in found if how in SURVIVED):
        fault = subprocess.run([sys.executable, "-m", "mutmut", "show", name], cwd=copy, capture_output=True, text=True)
        print(fault.stdout.strip(), end="\n\n", flush=True)
    return 1 if survived else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
