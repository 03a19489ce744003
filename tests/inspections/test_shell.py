"""The app's page stands behind each of its addresses; other addresses get a plain sentence."""
from collections import namedtuple
from datetime import timedelta

import pytest
from django.db import OperationalError
from django.utils import timezone

from inspections.records.models import Job


@pytest.fixture
def built(tmp_path, settings):
    (tmp_path / "index.html").write_text("<!doctype html><title>Underlid</title>")
    settings.FRONTEND_DIST = tmp_path
    return tmp_path


@pytest.mark.parametrize(
    "path", ["/", "/walk/1/label~2~3", "/waiting", "/sign-in", "/desk", "/desk/deliveries/1", "/how"])
def test_each_address_of_the_app_opens_the_app(client, built, path):
    answer = client.get(path)
    assert answer.status_code == 200
    assert b"<title>Underlid</title>" in answer.content
    assert answer["Cache-Control"] == "no-cache"
    assert "csrftoken" in answer.cookies


def test_an_app_that_is_not_built_says_what_to_do(client, tmp_path, settings):
    settings.FRONTEND_DIST = tmp_path
    answer = client.get("/")
    assert answer.status_code == 503
    assert "python3 manage.py start" in answer.content.decode()


@pytest.mark.parametrize(("path", "json"), [("/nothing/here", False), ("/api/nothing", True), ("/sync/nothing", True)])
def test_a_wrong_address_gets_a_sentence(client, path, json):
    answer = client.get(path)
    assert answer.status_code == 404
    said = answer.json()["sentence"] if json else answer.content.decode()
    assert "There is nothing at this address" in said


@pytest.mark.django_db
def test_health_tells_how_worker_disk_and_backups_stand(client):
    told = client.get("/health").json()
    assert (told["database"], told["worker"], told["last_backup"]) == ("answers", "has no work", None)
    assert told["jobs"] == {"open": 0, "waiting": 0, "oldest_waiting_s": 0, "parked": 0, "last_finished_s": None}
    assert told["free_bytes"] > 0
    assert client.get("/health/ready").status_code == 200


@pytest.mark.django_db
def test_health_names_a_worker_that_finishes_nothing(client):
    long_ago = timezone.now() - timedelta(seconds=400)
    Job.objects.create(kind="small_pictures", key="1", subject={"sha256": "1"}, not_before=long_ago)
    told = client.get("/health").json()
    assert (told["worker"], told["jobs"]["oldest_waiting_s"]) == ("stands still", 400)
    assert "1 photos wait" in told["sentences"][0]
    assert client.get("/health/ready").status_code == 200  # receiving goes on without the worker


@pytest.mark.django_db
def test_a_full_disk_makes_the_server_unready(client, monkeypatch):
    usage = namedtuple("usage", "total used free")
    monkeypatch.setattr("inspections.health.shutil.disk_usage", lambda folder: usage(10, 9, 1))
    answer = client.get("/health/ready")
    assert (answer.status_code, answer.json()["sentences"]) == (503, ["The disk is full (0 MB free)."])
    assert client.get("/health/live").status_code == 200


def test_a_database_that_is_away_is_told(client, monkeypatch):
    def away():
        raise OperationalError("connection refused")

    monkeypatch.setattr("inspections.spa.how_it_stands", away)
    answer = client.get("/health")
    assert (answer.status_code, answer.json()["database"]) == (503, "does not answer")
    assert client.get("/health/live").status_code == 200
