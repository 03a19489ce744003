"""What answers are sent with: no file from outside runs as part of the app, no script stands in a page.

Sources: W3C Content Security Policy Level 3; RFC 6797 (HSTS); RFC 6265, 4.1.2 (cookies).
"""
import html
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client

from inspections.messages import message
from inspections.user_files import picture_headers
from tests.inspections.test_rights import ROWS, _ask, apart, kitchen, people, things  # noqa: F401

BASE = Path(__file__).resolve().parents[2]
FILES = [
    "/api/photos/{photo}/original", "/api/photos/{photo}/thumb", "/e/{token}/photos/{photo}/original",
    "/e/{token}/photos/{photo}/thumb", "/api/logger-files/{log}/file", "/e/{token}/logger-files/{log}",
    "/e/{token}/bundle.zip", "/api/claims/{claim}/files/{claim_file}/original",
    "/e/{claim_token}/claims/{claim}/files/{claim_file}/original",
]  # fmt: skip


@pytest.mark.parametrize("address", FILES)
def test_a_file_from_outside_is_never_a_page_of_the_app(people, things, address):  # noqa: F811
    client = Client()
    client.force_login(people["manager"])
    answer = client.get(address.format(**things))
    assert answer.status_code == 200
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Content-Security-Policy"].startswith("sandbox; default-src 'none'")
    assert re.match(r'(inline|attachment); filename="[\w.-]+"$', answer["Content-Disposition"])
    assert answer["Content-Type"] in {"image/jpeg", "application/zip", "application/octet-stream"}


@pytest.mark.parametrize("kind", ["image/svg+xml", "text/html", "image/heic", ""])
def test_what_browsers_do_not_show_as_a_picture_is_to_be_saved(kind):
    assert picture_headers(kind, "abc")["Content-Disposition"] == 'attachment; filename="abc.bin"'


@pytest.mark.parametrize(
    "address", ["/", "/desk", "/index.html", "/api/session", "/health", "/nothing", "/admin/login/"]
)
def test_every_answer_has_a_policy_that_runs_no_script_of_a_page(db, address):
    policy = Client().get(address)["Content-Security-Policy"]
    scripts = next(part for part in policy.split(";") if part.strip().startswith("script-src"))
    assert "unsafe-inline" not in policy
    assert "'unsafe-eval'" not in scripts
    assert "frame-ancestors 'none'" in policy
    assert "object-src 'none'" in policy


def test_no_page_of_ours_has_a_script_or_a_style_inside():
    pages = [BASE / "frontend" / "index.html", *(BASE / "inspections").rglob("templates/**/*.html")]
    assert len(pages) > 5
    for page in pages:
        text = page.read_text(encoding="utf-8")
        assert not re.search(r"<script(?![^>]*\bsrc=)|<style|\son\w+=|javascript:", text), page


# By link nobody is signed in and no cookie counts: the link itself is what a form's token would be.
UNSAFE = [row for row in ROWS if row.method not in ("get", "head") and row.address != "/api/session"
          and not row.route.startswith("e/")]


@pytest.mark.parametrize("row", UNSAFE, ids=lambda row: f"{row.method} {row.address}")
def test_nothing_is_changed_without_the_page_s_token(people, things, row):  # noqa: F811
    client = Client(enforce_csrf_checks=True)
    client.force_login(people["administrator"])
    answer = _ask(client, things, row)
    assert answer.status_code == 403
    if row.address.startswith("/supplier"):  # pages for a browser without scripts
        assert html.escape(message("PAGE-STALE")) in answer.content.decode()
    else:
        assert answer.json()["code"] == "PAGE-STALE"


ASKED = """
import django; django.setup()
from django.conf import settings as s
print(s.SESSION_COOKIE_SECURE, s.CSRF_COOKIE_SECURE, s.SECURE_HSTS_SECONDS, s.PROXIES)
"""


def test_behind_https_cookies_are_secure_and_browsers_keep_to_it(tmp_path):
    given = os.environ | {"UNDERLID_HTTPS": "yes", "UNDERLID_DATA": str(tmp_path),
                          "DJANGO_SETTINGS_MODULE": "inspections.settings"}
    told = subprocess.run([sys.executable, "-c", ASKED], env=given, cwd=BASE, capture_output=True, text=True)
    assert told.stdout.split() == ["True", "True", str(365 * 24 * 3600), "1"], told.stderr


def test_cookies_go_to_no_other_site_and_no_script_reads_the_session(db):
    assert settings.SESSION_COOKIE_SAMESITE == settings.CSRF_COOKIE_SAMESITE == "Lax"
    assert settings.SESSION_COOKIE_HTTPONLY
