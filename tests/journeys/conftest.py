"""A real server with a real worker, and a phone whose browser can be killed."""
import json
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, sync_playwright

from inspections.development.testing import browser_path

BASE = Path(__file__).resolve().parents[2]
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]
#: A journey waits as long as this for a page beside other work on two cores.
WAIT_MS = 30_000
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "has_touch": True, "is_mobile": True}


def free_port() -> int:
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return trial.getsockname()[1]


class Served:
    """``manage.py start`` on a data folder of its own."""

    def __init__(self, data: Path, furnished_by: str = "kitchen.py"):
        self.data, self.port = data, free_port()
        self.address = f"http://localhost:{self.port}"
        self.environment = {key: value for key, value in os.environ.items() if key not in {"DATABASE_URL", "REDIS_URL"}}
        self.environment |= {"UNDERLID_DATA": str(data), "UNDERLID_SWEEP_SECONDS": "2"}
        made = subprocess.run([sys.executable, f"tests/journeys/{furnished_by}"], cwd=BASE, env=self.environment,
                              capture_output=True, text=True)
        assert made.returncode == 0, made.stderr
        self.kitchen = json.loads(made.stdout.splitlines()[-1])
        self.process = subprocess.Popen(
            [sys.executable, "manage.py", "start", "--no-demo", "--host", "127.0.0.1", "--port", str(self.port)],
            cwd=BASE, env=self.environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        self._wait()

    def _wait(self) -> None:
        for _ in range(900):
            try:
                urllib.request.urlopen(f"{self.address}/health", timeout=2).close()
            except OSError:
                assert self.process.poll() is None, self.process.stdout.read()
                time.sleep(0.2)
            else:
                return
        raise AssertionError("the server did not answer within three minutes")

    def manage(self, *words: str) -> subprocess.CompletedProcess:
        """A Django command on the same data."""
        return subprocess.run([sys.executable, "manage.py", *words], cwd=BASE, env=self.environment,
                              capture_output=True, text=True)

    def stop(self) -> None:
        self.process.send_signal(signal.SIGTERM)
        self.process.wait(timeout=40)
        self.process.stdout.close()


@pytest.fixture(scope="session")
def served(tmp_path_factory):
    server = Served(tmp_path_factory.mktemp("served"))
    yield server
    server.stop()


@pytest.fixture(scope="session")
def playwright():
    with sync_playwright() as running:
        yield running


class Phone:
    """A browser with a profile on disk, at phone size; counts taps."""

    def __init__(self, playwright, profile: Path, address: str, **more):
        self.playwright, self.profile, self.address, self.more = playwright, profile, address, more
        self.context: BrowserContext | None = None
        self.taps = 0

    def open(self, *, offline: bool = False, path: str = "/") -> Page:
        """Start the browser (again) and go to the app."""
        self.context = self.playwright.chromium.launch_persistent_context(
            str(self.profile), executable_path=browser_path(), args=QUIET, **(PHONE | self.more))
        self.context.set_offline(offline)
        self.page = self.context.pages[0] if self.context.pages else self.context.new_page()
        self.page.set_default_timeout(WAIT_MS)
        self.page.goto(self.address + path)
        return self.page

    def kill(self) -> None:
        """End the browser as an empty battery would: no goodbye to any page."""
        found = subprocess.run(["pgrep", "-f", f"user-data-dir={self.profile}"], capture_output=True, text=True)
        for pid in found.stdout.split():
            try:
                os.kill(int(pid), signal.SIGKILL)
            except ProcessLookupError:
                continue
        time.sleep(0.5)
        for name in ("SingletonLock", "SingletonSocket", "SingletonCookie"):
            (self.profile / name).unlink(missing_ok=True)

    def close(self) -> None:
        if self.context is not None:
            try:
                self.context.close()
            except Exception:  # the browser was killed: there is nothing left to close
                return


@pytest.fixture
def phone(playwright, served, tmp_path):
    one = Phone(playwright, tmp_path / "phone", served.address)
    yield one
    one.close()


@pytest.fixture
def second_phone(playwright, served, tmp_path):
    other = Phone(playwright, tmp_path / "second", served.address)
    yield other
    other.close()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """A journey that fails leaves a picture of each phone, where ``UNDERLID_PICTURES`` names a folder."""
    report = yield
    folder = os.environ.get("UNDERLID_PICTURES")
    if folder and report.failed:
        for name in ("phone", "second_phone"):
            one = item.funcargs.get(name)
            if one is not None and one.context is not None:
                one.page.screenshot(path=str(Path(folder) / f"{item.name}-{name}.png"))
    return report
