"""``manage.py start``: everything from an empty folder to a served app, then keep it running."""
import argparse
import errno
import os
import secrets
import socket
import sys
from pathlib import Path

from inspections.deployment import frontend
from inspections.deployment.data_folder import CannotUseFolder, held, sentence_of
from inspections.deployment.supervisor import Child, Supervisor

BASE = Path(__file__).resolve().parents[2]


def main(arguments: list[str]) -> int:
    """Run the command.

    Parameters
    ----------
    arguments : list of str
        What stands behind ``start``.

    Returns
    -------
    int
        0 after a clean stop, 1 when it could not start (the sentence was printed).
    """
    asked = _parser().parse_args(arguments)
    # Django reads its settings from the environment, and so do the children.
    if asked.data:
        os.environ["UNDERLID_DATA"] = str(Path(asked.data).expanduser().resolve())
    folder = Path(os.environ.get("UNDERLID_DATA") or BASE / ".data").expanduser().resolve()
    try:
        with held(folder, f"the server on port {asked.port}"):
            try:
                _refuse_taken_port(asked.host, asked.port)
                frontend.built()
                prepare(with_demo=not asked.no_demo)
            except _stops() as trouble:
                raise CannotUseFolder(_plainly(trouble, folder)) from trouble
            _say_where(asked.host, asked.port)
            return Supervisor([web_server(asked.host, asked.port), worker()]).run()
    except CannotUseFolder as trouble:
        print(trouble, file=sys.stderr)
        return 1


def prepare(*, with_demo: bool) -> None:
    """Database, static files and, on the first run, the demo."""
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", interactive=False, verbosity=0)
    call_command("check", fail_level="ERROR")
    call_command("collectstatic", interactive=False, verbosity=0)
    call_command("ready_reference", verbosity=0)
    if with_demo and (demo_password(make=False) or not _has_people()):
        # Also on later days: it adds that day's expected orders and leaves all else alone.
        first = demo_password(make=False) is None
        if first:
            print("Loading the demo (invented group, people, suppliers and deliveries) …", flush=True)
        call_command("load_demo", password=demo_password(make=True), verbosity=1 if first else 0)


def demo_password(*, make: bool) -> str | None:
    """The demo people's password: made on the first run, kept in the data folder, printed at each start.

    A password that stands in the code would open every demo that somebody leaves on a network.
    """
    from django.conf import settings

    kept = settings.KEY_ROOT / "demo-password.txt"
    if not kept.exists():
        if not make:
            return None
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_text(f"{secrets.choice(_WORDS)}-{secrets.choice(_WORDS)}-{secrets.randbelow(9000) + 1000}", "ascii")
        kept.chmod(0o600)
    return kept.read_text("ascii").strip()


_WORDS = ("anchor", "barrel", "basket", "beacon", "copper", "harbour", "ladle", "lantern", "marble", "mussel",
          "paddle", "pepper", "pickle", "quay", "ripple", "saffron", "skillet", "tide", "timber", "whisk")


def _has_people() -> bool:
    from django.contrib.auth import get_user_model

    return get_user_model().objects.exists()


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="manage.py start", description="Set up what is missing and serve Underlid.")
    parser.add_argument("--port", type=_port, default=int(os.environ.get("PORT", 8000)), help="port to serve on (8000)")
    parser.add_argument("--host", default="0.0.0.0", help="address to serve on; 127.0.0.1 keeps it to this machine")
    parser.add_argument("--data", metavar="FOLDER", help="database, photos and keys (default .data/)")
    parser.add_argument("--no-demo", action="store_true",
                        help="start empty; make the first person with manage.py createsuperuser")
    return parser


def _port(word: str) -> int:
    if not word.isascii() or not word.isdigit() or not 1 <= int(word) <= 65535:
        raise argparse.ArgumentTypeError(f"“{word}” is not a port; give a number from 1 to 65535")
    return int(word)


class PortTaken(Exception):
    """Something else listens there."""


def _stops() -> tuple[type[Exception], ...]:
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management.base import SystemCheckError
    from django.db.utils import OperationalError

    from inspections.env import UnusableSetting

    return (PortTaken, frontend.CannotBuild, UnusableSetting, ImproperlyConfigured, SystemCheckError,
            OperationalError, OSError)


def _plainly(trouble: Exception, folder: Path) -> str:
    """The sentence of what stopped the start; a database tells of its disk in words of its own."""
    from django.db import DatabaseError

    if isinstance(trouble, OSError):
        return sentence_of(trouble, folder)
    if isinstance(trouble, DatabaseError):
        from inspections.errors import is_disk_full

        return sentence_of(OSError(errno.ENOSPC if is_disk_full(trouble) else 0, str(trouble)), folder)
    return str(trouble)


def _refuse_taken_port(host: str, port: int) -> None:
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
        except OSError as trouble:
            raise PortTaken(
                f"Port {port} could not be opened ({trouble.strerror}). Nothing was changed. Stop the other program, "
                f"or choose another port: python3 manage.py start --port {min(port + 1, 65535)}") from trouble


def web_server(host: str, port: int) -> Child:
    """The process that answers requests."""
    return Child("web server", [
        sys.executable, "-m", "inspections.deployment.web", "--host", host, "--port", str(port)])


def worker(name: str = "worker") -> Child:
    """A process that looks at photos."""
    return Child(name, [
        sys.executable, "-m", "celery", "--app", "inspections.celery", "--workdir", str(BASE), "--quiet", "worker",
        "--pool", "solo", "--loglevel", "WARNING", "--without-gossip", "--without-mingle", "--without-heartbeat"],
        trouble=_worker_trouble)


def _worker_trouble(up_s: float) -> str | None:
    """Why a worker that has run for so long must be started again; None while all is well."""
    from django.db import close_old_connections

    from inspections.records import jobs

    close_old_connections()
    queue = jobs.queue()
    return queue.sentence if up_s > jobs.STANDSTILL_S + 15 and queue.stands_still else None


def _say_where(host: str, port: int) -> None:
    near, far = f"http://localhost:{port}/", f"http://{_lan_address()}:{port}/"
    print(f"\nUnderlid is served at {near}", flush=True)
    if password := demo_password(make=False):
        print(f"Demo people (password of all: {password}):")
        for line in _demo_people():
            print(f"  {line}")
    if host not in {"127.0.0.1", "localhost"} and "127.0.0.1" not in far:
        import segno

        print(f"\nFor a phone on the same network: {far}")
        segno.make(far, micro=False).terminal(compact=True)
        print("Over plain HTTP a phone can do everything but start without a signal; for that, put HTTPS in front "
              "(see “Production deployment” in README.md).")
    print("\nCtrl-C stops it.", flush=True)


def _demo_people() -> list[str]:
    from django.contrib.auth import get_user_model

    people = get_user_model().objects.filter(is_demo=True).order_by("id")
    return [f"{person.username:<14}{person.get_role_display()}, "
            f"{', '.join(site.name for site in person.sites.all()) or 'all sites'}" for person in people]


def _lan_address() -> str:
    """The address that other machines on the network see; no packet is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # documentation address of RFC 5737: only the route is looked up
            return probe.getsockname()[0]
        except OSError:
            return "127.0.0.1"
