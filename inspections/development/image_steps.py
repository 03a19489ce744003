"""The container file's steps, run in an empty folder without a container engine.

    python3 manage.py image_steps FOLDER

They are read from the container file itself, so the two cannot drift apart. Each stage gets a folder of its own and
its own virtual environment; what is copied comes from the repository's tracked files, as from a fresh clone. Left out,
and said so, is what changes the system (``ON_A_SYSTEM``) and the choice of the base image: Python and Node are this
machine's. After the last stage Django's checks of a deployment run under what the compose file sets, then the image's
command, until the server says that it is ready.
"""
import argparse
import contextlib
import os
import re
import shutil
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]
CONTAINER_FILE = BASE / "inspections" / "deployment" / "Containerfile"
#: Commands that need root and a Debian, by their first word.
ON_A_SYSTEM = {"apt-get", "/usr/share/postgresql-common/pgdg/apt.postgresql.org.sh", "useradd", "install", "rm"}
#: Nothing happens at these while an image is built.
SAID_ONLY = {"USER", "VOLUME", "EXPOSE"}
CHECKED_UNDER = {
    "UNDERLID_HTTPS": "yes", "UNDERLID_HOSTS": "receiving.example.org", "UNDERLID_SECRET_KEY": "0123456789abcdef" * 4}
READY_WITHIN_S = 120


class Failed(Exception):
    """A step ended badly, or cannot be run; the message says which."""


def steps_of(text: str) -> Iterator[tuple[str, str]]:
    """Instruction and what stands behind it, in order; comments gone, continued lines joined.

    >>> list(steps_of("# made of\\nFROM a AS b\\nRUN one \\\\\\n && two\\n"))
    [('FROM', 'a AS b'), ('RUN', 'one && two')]
    """
    plain = re.sub(r"^#.*\n", "", text, flags=re.MULTILINE)
    for line in re.sub(r"\\\n\s*", "", plain).splitlines():
        if line.strip():
            instruction, _, rest = line.strip().partition(" ")
            yield instruction.upper(), rest.strip()


def parted(command: str) -> tuple[list[str], list[str]]:
    """The commands of a ``RUN`` that are run here, and those that are left out.

    >>> parted("pip install x && useradd y")
    (['pip install x'], ['useradd y'])
    """
    each = [part.strip() for part in command.split("&&")]
    return ([part for part in each if part.split()[0] not in ON_A_SYSTEM],
            [part for part in each if part.split()[0] in ON_A_SYSTEM])


class Stage:
    """One stage of the image, as a folder that stands for its root."""

    def __init__(self, root: Path):
        self.root = root
        self.folder = root
        self.environment: dict[str, str] = {}
        subprocess.run([sys.executable, "-m", "venv", str(root / "venv")], check=True)

    def do(self, instruction: str, rest: str, stages: dict[str, "Stage"]) -> None:
        """One instruction other than those that begin and end a stage."""
        if instruction == "WORKDIR":
            self.folder = Path(self.at(rest))
            self.folder.mkdir(parents=True, exist_ok=True)
        elif instruction == "COPY":
            self.copy(rest.split(), stages)
        elif instruction == "ENV":
            pairs = (pair.split("=", 1) for pair in rest.split())
            self.environment |= {name: self.at(value) for name, value in pairs}
        elif instruction == "RUN":
            here, left_out = parted(rest)
            for one in left_out:
                say(f"  left out, it changes the system: {one}")
            if here:
                self.run(" && ".join(here))
        elif instruction not in SAID_ONLY:
            raise Failed(f"{instruction} is not known here.")

    def at(self, text: str) -> str:
        """The text with the image's absolute paths moved below this root."""
        return re.sub(r"(?<![\w./])/(?=(?:data|tmp|backups|underlid)\b)", f"{self.root}/", text)

    def run(self, command: str) -> None:
        say(f"  {command}")
        done = subprocess.run(["sh", "-c", self.at(command)], cwd=self.folder, env=self.variables())
        if done.returncode:
            raise Failed(f"“{command}” ended with {done.returncode}.")

    def variables(self) -> dict[str, str]:
        (self.root / "tmp").mkdir(exist_ok=True)
        kept = {name: os.environ[name] for name in os.environ if not name.startswith(("UNDERLID_", "DJANGO_"))}
        return {**kept, "PATH": f"{self.root / 'venv' / 'bin'}:{kept['PATH']}", **self.environment}

    def copy(self, words: list[str], stages: dict[str, "Stage"]) -> None:
        """What ``COPY`` does, for the ways in which the container file uses it."""
        *sources, target = words
        if sources[0].startswith("--from="):
            other = stages[sources.pop(0).partition("=")[2]]
            pairs = [(Path(other.at(source)), self.folder / target) for source in sources]
        else:
            pairs = [(BASE / name, self.folder / target / name.removeprefix(source).lstrip("/") if name != source
                      else self.folder / target / (Path(name).name if target.endswith(("/", ".")) else ""))
                     for source in sources for name in tracked(source)]
        for source, goal in pairs:
            goal.parent.mkdir(parents=True, exist_ok=True)
            if source.is_dir():
                shutil.copytree(source, goal, dirs_exist_ok=True)
            else:
                shutil.copy2(source, goal)


def tracked(name: str) -> list[str]:
    """Files of the repository below a name, or the file itself."""
    listed = subprocess.run(["git", "ls-files", "-z", "--", name], cwd=BASE, capture_output=True, text=True, check=True)
    return listed.stdout.split("\0")[:-1]


def build(folder: Path) -> tuple[Stage, str]:
    """All stages in an empty folder; the last one and the image's command."""
    stages: dict[str, Stage] = {}
    stage, command = None, ""
    for instruction, rest in steps_of(CONTAINER_FILE.read_text("utf-8")):
        if instruction == "FROM":
            say(f"FROM {rest}: this machine's Python and Node stand in for it")
            name = rest.partition(" AS ")[2] or "last"
            stage = stages[name] = Stage(folder / name)
        elif instruction == "CMD":
            command = re.findall(r'"((?:[^"\\]|\\.)*)"', rest)[-1]
        elif stage is not None:
            stage.do(instruction, rest, stages)
    if stage is None or not command:
        raise Failed("The container file has no stage, or no command.")
    return stage, command


def serve(stage: Stage, command: str, port: int) -> None:
    """The image's command, until it says that it is ready; then ended.

    Raises
    ------
    Failed
        It ended, or was not ready in time.
    """
    say(f"CMD {command}")
    process = subprocess.Popen(["sh", "-c", f"{command} --host 127.0.0.1 --port {port}"], cwd=stage.folder,
                               env=stage.variables())
    try:
        for _ in range(READY_WITHIN_S * 2):
            if process.poll() is not None:
                raise Failed(f"The command ended with {process.returncode}.")
            with contextlib.suppress(OSError):
                urllib.request.urlopen(f"http://127.0.0.1:{port}/health/ready", timeout=5).close()
                return
            time.sleep(0.5)
        raise Failed(f"The server was not ready within {READY_WITHIN_S} s.")
    finally:
        process.terminate()
        process.wait(timeout=30)


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def main(arguments: list[str]) -> int:
    """Run the command; 0 when every step did what it should."""
    parser = argparse.ArgumentParser(prog="manage.py image_steps", description=__doc__.partition("\n")[0])
    parser.add_argument("folder", type=Path, help="an empty folder, or one that is not there yet")
    parser.add_argument("--port", type=int, default=8164)
    asked = parser.parse_args(arguments)
    folder = asked.folder.expanduser().resolve()
    folder.mkdir(parents=True, exist_ok=True)
    if any(folder.iterdir()):
        sys.stderr.write(f"{folder} is not empty. Nothing was done. Name another folder.\n")
        return 1
    began = time.monotonic()
    try:
        stage, command = build(folder)
        under = "".join(f"{name}={value} " for name, value in CHECKED_UNDER.items())
        stage.run(f"{under}python manage.py check --deploy --fail-level WARNING")
        serve(stage, command, asked.port)
    except Failed as trouble:
        sys.stderr.write(f"{trouble}\n")
        return 1
    say(f"Every step went well, in {time.monotonic() - began:.0f} s.")
    return 0
