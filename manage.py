#!/usr/bin/env python3
"""``start`` serves, ``test`` tests, every other word is a Django command.

Needs only Python 3.11 or newer: what is missing is installed into ``.venv`` beside this file first.
"""
import sys

if sys.version_info < (3, 11):
    sys.exit("Underlid needs Python 3.11 or newer; this is %d.%d. Nothing was changed. "
             "Run the same command with a newer python3." % sys.version_info[:2])

from inspections.deployment.entry import enter

if __name__ == "__main__":
    enter(sys.argv)
