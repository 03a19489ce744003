"""One id from the phone's request to the worker's lines, and figures for whoever watches."""
import json
import logging
import os
import subprocess
import sys
from pathlib import Path

import pytest

from inspections.records import jobs
from inspections.records.models import Job
from inspections.tracing import WithRequestId, request_id
from tests.inspections.file_fixtures import apart, phone  # noqa: F401
from tests.inspections.receiving import document, keep, make_kitchen, photo_entry, picture

BASE = Path(__file__).resolve().parents[2]
GIVEN = "019ad3f0-7c1e-7000-8000-00000000abcd"


@pytest.fixture
def kitchen(db, apart):  # noqa: F811
    return make_kitchen()


def test_the_phone_s_id_comes_back_and_goes_with_the_job_to_the_worker(
        kitchen, phone, caplog, monkeypatch, django_capture_on_commit_callbacks):  # noqa: F811
    from imaging import tasks

    monkeypatch.setattr(jobs, "hint", lambda: True)
    caplog.set_level(logging.INFO)
    caplog.handler.addFilter(WithRequestId())
    content = picture()
    keep(content)
    draft = document(kitchen, photos=[photo_entry(content)])
    answer = phone.client.put(f"/sync/documents/{draft['id']}", json.dumps(draft), content_type="application/json",
                              headers={"If-None-Match": "*", "X-Request-ID": GIVEN})
    assert (answer.status_code, answer["X-Request-ID"]) == (201, GIVEN)
    request_id.set("")
    tasks.run(Job.objects.get().pk)
    told = {record.getMessage().split(" ")[0]: record.request_id for record in caplog.records}
    assert (told["PUT"], told["photo"]) == (GIVEN, GIVEN)


@pytest.mark.parametrize("given", ["", "short", "x" * 65, "two words here", "line\nbreak-in-it", "ünder-the-lid"])
def test_an_id_that_is_none_is_replaced(client, given):
    answer = client.get("/health/live", headers={"X-Request-ID": given})
    assert len(answer["X-Request-ID"]) == 16


def test_a_link_s_token_stands_in_no_log(client, db, caplog):
    caplog.set_level(logging.INFO)
    client.get("/e/secret-token-of-a-supplier/worksheet")
    assert "/e/…/worksheet" in caplog.text
    assert "Not Found: /e/…/worksheet" in caplog.text
    assert "secret-token" not in caplog.text
    assert not any(hasattr(record, "request") for record in caplog.records)


def test_logs_for_machines_are_json_lines(tmp_path):
    script = ("import django,logging; django.setup(); from inspections.tracing import request_id; "
              "request_id.set('abcdefgh'); logging.getLogger('x').warning('the disk %s', 'is full')")
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=BASE, capture_output=True, text=True, env=os.environ | {
            "UNDERLID_DATA": str(tmp_path), "UNDERLID_LOG_JSON": "yes",
            "DJANGO_SETTINGS_MODULE": "inspections.settings"})
    told = json.loads(done.stderr.splitlines()[-1])
    assert (told["message"], told["request_id"], told["levelname"]) == ("the disk is full", "abcdefgh", "WARNING")


def test_figures_are_told_to_whoever_has_the_token(client, db, settings):
    assert client.get("/metrics").status_code == 404
    settings.METRICS_TOKEN = "a-long-token"
    assert client.get("/metrics", headers={"Authorization": "Bearer another"}).status_code == 404
    client.get("/health/live")
    page = client.get("/metrics", headers={"Authorization": "Bearer a-long-token"}).content.decode()
    assert "underlid_jobs_waiting 0.0" in page
    assert 'underlid_request_seconds_count{method="GET",route="health/live",status="200"}' in page


def test_check_deploy_finds_nothing_with_https_on(tmp_path):
    environment = os.environ | {"UNDERLID_DATA": str(tmp_path), "UNDERLID_HTTPS": "yes",
                                "UNDERLID_HOSTS": "receiving.example"}
    for name in ("DJANGO_SETTINGS_MODULE", "DJANGO_ALLOW_ASYNC_UNSAFE"):
        environment.pop(name, None)
    done = subprocess.run([sys.executable, "manage.py", "check", "--deploy", "--fail-level", "WARNING"], cwd=BASE,
                          capture_output=True, text=True, env=environment)
    assert "no issues" in done.stdout, done.stderr
