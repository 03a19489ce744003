"""One server on one data folder, nobody else's eyes on it, and a sentence where it cannot be used."""
import os
import signal
import stat
import subprocess
import sys
from collections import namedtuple
from pathlib import Path

import pytest

from inspections import env
from inspections.deployment import data_folder, start
from inspections.deployment.data_folder import CannotUseFolder, close_to_others, held

BASE = Path(__file__).resolve().parents[3]
HOLDER = """
import pathlib, sys, time
from inspections.deployment.data_folder import held
with held(pathlib.Path(sys.argv[1]), "the server on port 8001"):
    print("held", flush=True)
    time.sleep(60)
"""


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.fixture
def holder(tmp_path):
    """Another process that has the folder."""
    process = subprocess.Popen([sys.executable, "-c", HOLDER, str(tmp_path)], cwd=BASE, stdout=subprocess.PIPE,
                               text=True)
    assert process.stdout.readline() == "held\n"
    yield process
    process.kill()
    process.wait()
    process.stdout.close()


def test_a_second_supervisor_is_told_of_the_first(holder, tmp_path):
    with pytest.raises(CannotUseFolder, match=rf"the server on port 8001 \(process {holder.pid}\).*--data"), \
            held(tmp_path, "a second"):
        pass


def test_start_refuses_a_folder_in_use_before_it_changes_anything(holder, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(start, "prepare", None)
    monkeypatch.setenv("UNDERLID_DATA", str(tmp_path))
    assert start.main(["--data", str(tmp_path)]) == 1
    assert "in use by the server on port 8001" in capsys.readouterr().err


def test_a_dead_process_holds_nothing(holder, tmp_path):
    holder.send_signal(signal.SIGKILL)
    holder.wait()
    with held(tmp_path, "a second"):
        assert (tmp_path / data_folder.LOCK_FILE).read_text().startswith("a second")


def test_files_and_folders_of_an_earlier_release_are_closed_to_others(tmp_path):
    for name in ("underlid.sqlite3", "underlid.sqlite3-wal", "keys/seal.pem", "uploads/1.part", "broker/messages/1"):
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o755)
        file.write_bytes(b"x")
        file.chmod(0o644)
    tmp_path.chmod(0o755)
    with held(tmp_path, "the server"):
        pass
    assert {mode(path) for path in tmp_path.rglob("*") if path.is_file()} == {0o600}
    assert {mode(path) for path in [tmp_path, *tmp_path.rglob("*")] if path.is_dir()} == {0o700}
    assert close_to_others(tmp_path) == 0


def test_whatever_a_command_writes_is_its_user_s_alone(tmp_path):
    data = tmp_path / "data"
    data.mkdir(mode=0o755)
    script = ("import django; django.setup(); from django.core.management import call_command; "
              "call_command('migrate', verbosity=0); call_command('collectstatic', interactive=False, verbosity=0); "
              "from inspections.records import jobs; jobs.hint(); from inspections.evidence import keys; "
              "keys.public_pem(); from inspections.sync import room; (room.folder() / 'x.part').touch(); "
              "from inspections.people.models import Site; Site.objects.create(name='a', code='b'); "
              "import os; os.system('find $UNDERLID_DATA -perm /077 -not -type l')")
    clean = {name: value for name, value in os.environ.items() if name not in {"DATABASE_URL", "REDIS_URL"}}
    done = subprocess.run(
        ["sh", "-c", 'umask 022; exec "$0" -c "$1"', sys.executable, script], cwd=BASE, text=True, capture_output=True,
        env=clean | {"UNDERLID_DATA": str(data), "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    assert (done.returncode, done.stdout) == (0, ""), done.stderr
    assert len(list(data.rglob("*"))) > 10


def test_a_folder_that_cannot_be_written_gets_a_sentence(tmp_path, monkeypatch):
    (tmp_path / "file").touch()  # not even root can make a folder below a file
    below = tmp_path / "file" / "data"
    with pytest.raises(CannotUseFolder, match=r"cannot be written.*Nothing was changed.*--data"), held(below, "x"):
        pass
    monkeypatch.setenv("UNDERLID_DATA", str(below))
    with pytest.raises(env.UnusableSetting, match=r"cannot be written.*UNDERLID_DATA"):
        env.private_folder("UNDERLID_DATA", tmp_path)


def test_a_command_on_an_empty_data_folder_gets_a_sentence(tmp_path):
    clean = {name: value for name, value in os.environ.items() if name not in {"DATABASE_URL", "REDIS_URL"}}
    done = subprocess.run([sys.executable, "manage.py", "verify_seals"], cwd=BASE, text=True, capture_output=True,
                          env=clean | {"UNDERLID_DATA": str(tmp_path)})
    assert done.returncode == 1
    assert done.stderr.startswith("The database could not be used (no such table")
    assert "Traceback" not in done.stderr


def test_a_full_disk_at_start_gets_a_sentence(tmp_path, monkeypatch, capsys):
    usage = namedtuple("usage", "total used free")
    monkeypatch.setattr(data_folder.shutil, "disk_usage", lambda folder: usage(10**9, 10**9, 3 * 1024 * 1024))
    monkeypatch.setenv("UNDERLID_DATA", str(tmp_path))
    assert start.main(["--data", str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert "is full (3 MB free). What is stored is safe" in told


def test_a_database_that_finds_no_room_while_starting_is_told_as_a_full_disk(tmp_path, full_database):
    with pytest.raises(full_database.error) as trouble:
        full_database.fill()
    assert "is full" in start._plainly(trouble.value, tmp_path)
