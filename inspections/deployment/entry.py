"""What ``manage.py`` does with its first word.

Standard library only: at this point nothing may be installed yet.
"""
import importlib
import os
import sys
from pathlib import Path

from inspections.deployment import pins

BASE = Path(__file__).resolve().parents[2]
#: Words that take what only developers need, each with the module that knows it.
NEEDS_TEST_PINS = {"test": "testing", "fault_run": "fault_run", "bench_sync": "bench_sync",
                   "bench_drain": "bench_drain", "image_steps": "image_steps"}


def enter(argv: list[str]) -> None:
    """Make sure that the pins are there, then run the command in the Python that has them.

    Parameters
    ----------
    argv : list of str
        As the shell gave it; ``argv[1]`` is ``start``, a word of NEEDS_TEST_PINS or a Django command.
    """
    word = argv[1] if len(argv) > 1 else "help"
    locks = [BASE / "requirements.txt"]
    if word in NEEDS_TEST_PINS:
        locks.append(BASE / "tests" / "requirements.txt")
    try:
        python = pins.python_with(locks)
    except pins.CannotInstall as trouble:
        sys.exit(str(trouble))
    if Path(sys.executable) != python:
        os.execv(python, [str(python), str(BASE / "manage.py"), *argv[1:]])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "inspections.settings")
    sys.exit(_run(word, argv))


def _run(word: str, argv: list[str]) -> int:
    if word == "start":
        from inspections.deployment.start import main

        return main(argv[2:])
    if word in NEEDS_TEST_PINS:
        return importlib.import_module(f"inspections.development.{NEEDS_TEST_PINS[word]}").main(argv[2:])
    return _django(argv)


def _django(argv: list[str]) -> int:
    from django.core.management import execute_from_command_line
    from django.db import DatabaseError

    from inspections.env import UnusableSetting

    try:
        execute_from_command_line(argv)
    except UnusableSetting as trouble:
        sys.exit(str(trouble))
    except DatabaseError as trouble:
        sys.exit(f"The database could not be used ({trouble}). What is stored is as it was. If data folder or program "
                 "are new, run “python3 manage.py migrate” first; if the disk is full, free some room.")
    return 0
