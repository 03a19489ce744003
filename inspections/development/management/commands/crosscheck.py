"""Judge made-up inspections in both runtimes and compare, value by value."""

from __future__ import annotations

import json
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from inspections.trade.generated import cases
from inspections.trade.limits import DEFAULT_LIMITS
from inspections.trade.quantities import Unusable
from inspections.trade.verdict import judge_document

BATCH = 1000


def server_answer(case: dict[str, Any]) -> dict[str, Any]:
    """The server's judgement of one case, or the documented error that it raises."""
    try:
        return judge_document(case["document"], case["specifications"], case["limits"])
    except Unusable as problem:
        return {"error": problem.code, "facts": problem.facts}


def canonical(text: str) -> str:
    """JSON with sorted keys and every number as a double, so that 3 and 3.0 are the same."""
    return json.dumps(json.loads(text, parse_int=float), sort_keys=True, ensure_ascii=False)


def bundle(frontend: Path, folder: Path) -> Path:
    """Bundle the phone's judgements into one file that node can run."""
    program = frontend / "node_modules" / ".bin" / "rolldown"
    if not program.exists() or shutil.which("node") is None:
        raise CommandError(
            "The phone's judgements could not be run: node or the frontend's packages are missing. "
            "Nothing was compared. Install node 20 or newer and run `npm ci` in frontend/."
        )
    bundled = folder / "crosscheck.mjs"
    asked = ["src/testing/crosscheck.ts", "--format", "esm", "--platform", "node", "--tsconfig", "tsconfig.json"]
    done = subprocess.run([str(program), *asked, "-o", str(bundled)], cwd=frontend, capture_output=True, text=True)
    if done.returncode != 0:
        raise CommandError(f"The phone's judgements could not be bundled. Nothing was compared.\n{done.stderr}")
    return bundled


def _sent(case: dict[str, Any]) -> dict[str, Any]:
    """A case as it is sent; the shipped limits go by name, as both runtimes read them from one file."""
    return {**case, "limits": "default"} if case["limits"] is DEFAULT_LIMITS else case


def phone_answers(bundled: Path, batch: list[dict[str, Any]]) -> list[str]:
    """The phone's judgements of a batch as JSON text, in its order."""
    lines = "".join(json.dumps(_sent(case)) + "\n" for case in batch)
    done = subprocess.run(["node", str(bundled)], input=lines, capture_output=True, text=True, encoding="utf-8")
    answers = [line for line in done.stdout.split("\n") if line]
    if done.returncode != 0 or len(answers) != len(batch):
        raise CommandError(f"The phone's judgement stopped after {len(answers)} of a batch.\n{done.stderr[-2000:]}")
    return answers


def differences(count: int, seed: int) -> tuple[int, list[tuple[int, str, str]]]:
    """Compare so many made-up inspections; number compared, and each that differs with both answers."""
    differing: list[tuple[int, str, str]] = []
    compared = 0
    with tempfile.TemporaryDirectory() as folder:
        bundled = bundle(Path(settings.BASE_DIR) / "frontend", Path(folder))
        made = cases(count, seed)
        while batch := [case for _, case in zip(range(min(BATCH, count - compared)), made, strict=False)]:
            for number, (case, theirs) in enumerate(zip(batch, phone_answers(bundled, batch), strict=True)):
                ours, phones = canonical(json.dumps(server_answer(case))), canonical(theirs)
                if ours != phones:
                    differing.append((compared + number, ours, phones))
            compared += len(batch)
    return compared, differing


class Command(BaseCommand):
    """Judge made-up inspections in Python and TypeScript and count the differences."""

    help = "Judge made-up inspections in both runtimes and count the differences."

    def add_arguments(self, parser: CommandParser) -> None:
        """``--count`` inspections from ``--seed``."""
        parser.add_argument("--count", type=int, default=20_000)
        parser.add_argument("--seed", type=int, default=1)

    def handle(self, *args: Any, **options: Any) -> None:
        """Compare, print count and differences; fail when there is any."""
        compared, differing = differences(options["count"], options["seed"])
        for number, ours, theirs in differing[:3]:
            self.stderr.write(f"Inspection {number} of seed {options['seed']}:")
            self.stderr.write(f"  server {ours[:2000]}")
            self.stderr.write(f"  phone  {theirs[:2000]}")
        self.stdout.write(f"{compared} inspections compared, {len(differing)} differences.")
        if differing:
            raise CommandError("Phone and server do not judge alike. Nothing was changed.")
