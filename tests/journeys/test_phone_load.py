"""What the app asks of a phone: bytes and time of a first visit, memory and blocked time of thirty photos.

Common practice, no source: the goals are this house's own: thirty photos under 300 MB, ready for no signal within 6 s,
scripts under 90 KB. What is asserted guards what was reached, with room for a busy machine. The network is
DevTools' "Slow 4G" (1.44 Mbit/s down, 562.5 ms a request), the processor is slowed four times as Lighthouse
does for a phone.
"""
import asyncio
import os
import re
import sys
import time
from pathlib import Path
from threading import Thread

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page

from inspections.development.testing import browser_path
from tests.journeys.conftest import BASE, PHONE, QUIET
from tests.journeys.walk import Walk, wait_until

pytestmark = [pytest.mark.browser, pytest.mark.slow]

FRONTEND_DIST = Path(os.environ.get("UNDERLID_FRONTEND") or BASE / "frontend" / "dist")
PHOTOS = 30
LONG_TASKS = """new PerformanceObserver(list => (window.blocks ??= []).push(...list.getEntries().map(e => e.duration)))
    .observe({type: 'longtask'})"""
KEPT = "n => [...document.querySelectorAll('.photo small')].some(e => e.textContent.startsWith(n + ' photo'))"
ALL_CACHED = "async paths => (await Promise.all(paths.map(p => caches.match(p, {ignoreSearch: true})))).every(Boolean)"
STATIC_IMPORT = re.compile(r"""(?:from|import)\s*["'`]\./([^"'`]+\.js)["'`]""")


@pytest.fixture
def browser(playwright):
    running = playwright.chromium.launch(executable_path=browser_path(), args=QUIET)
    yield running
    running.close()


def page_of(browser: Browser) -> Page:
    page = browser.new_context(**PHONE).new_page()
    page.set_default_timeout(30_000)
    return page


def peak_mb(browser: Browser) -> tuple[float, float]:
    """Most memory that the page's process ever held, and what of it now is the browser's program and fonts, MB.

    VmHWM and RssFile of proc_pid_status(5); the latter is shared with the browser's other processes.
    """
    processes = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    found = []
    for one in processes:
        if one["type"] == "renderer":
            status = Path(f"/proc/{one['id']}/status").read_text()
            found.append(tuple(int(status.split(f"{name}:")[1].split()[0]) / 1024 for name in ("VmHWM", "RssFile")))
    return max(found)


def twelve_megapixels(folder: Path) -> list[str]:
    """Thirty JPEGs of 4032 × 3024; bytes after the end marker (ITU-T T.81, B.2.1) make each another file."""
    noise = np.random.default_rng(1).integers(40, 230, (756, 1008, 3), dtype=np.uint8)
    Image.fromarray(noise).resize((4032, 3024), Image.Resampling.BILINEAR).save(folder / "base.jpg", quality=88)
    base = (folder / "base.jpg").read_bytes()
    paths = []
    for number in range(PHOTOS):
        paths.append(folder / f"{number}.jpg")
        paths[-1].write_bytes(base + bytes([number]))
    return [str(path) for path in paths]


def test_thirty_photos_of_twelve_megapixels(browser, served, tmp_path):
    page = page_of(browser)
    page.set_content("<p>An empty page")
    empty, _ = peak_mb(browser)
    page.add_init_script(LONG_TASKS)
    page.goto(served.address)
    walk = Walk(page)
    walk.sign_in()
    walk.docket("PO-9", "D-500")
    walk.vehicle(["2"])
    walk.begin_cartons()
    walk.carton(lot="L-1")
    walk.tap("whole-list")
    page.get_by_test_id("item-photos").first.click()
    page.get_by_test_id("photo-file-defect").wait_for(state="attached")
    paths = twelve_megapixels(tmp_path)
    before, _ = peak_mb(browser)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 4})
    page.evaluate("window.blocks = []")
    chosen = page.get_by_test_id("photo-file-defect")
    for group in [paths] if chosen.get_attribute("multiple") is not None else [[path] for path in paths]:
        chosen.set_input_files(group)
        wait_until(page, KEPT, paths.index(group[-1]) + 1)
    blocks, (peak, program) = page.evaluate("window.blocks"), peak_mb(browser)
    sys.stdout.write(f"\n{PHOTOS} photos of {Path(paths[0]).stat().st_size / 1e6:.1f} MB: page at most {peak:.0f} MB "
                     f"(before: {before:.0f} MB, an empty page: {empty:.0f} MB; the browser's program: "
                     f"{program:.0f} MB); at 4× slow-down blocked {max(blocks, default=0):.0f} ms at worst, "
                     f"{len(blocks)} times over 50 ms\n")
    # 319 to 393 MB were seen, of them 200 to 205 before the first photo (an empty page: 119 to 157, the browser's own
    # program: 106 to 128): the goal is not met yet. The rest is garbage: collected after each photo it stays under 232.
    assert peak < 450


class SlowNetwork:
    """Passes a phone's connections on to the server: each request waits, and all answers share the band."""

    LATENCY_S, BYTES_A_SECOND = 0.5625, 180_000

    def __init__(self, port: int):
        self.server_port, self.asked, self.bytes, self.free_at = port, 0, 0, 0.0
        self.loop = asyncio.new_event_loop()
        Thread(target=self.loop.run_forever, daemon=True).start()
        self.port = asyncio.run_coroutine_threadsafe(self._listen(), self.loop).result()

    async def _listen(self) -> int:
        listening = await asyncio.start_server(self._connected, "127.0.0.1", 0)
        return listening.sockets[0].getsockname()[1]

    async def _connected(self, phone_reads, phone_writes) -> None:
        server_reads, server_writes = await asyncio.open_connection("127.0.0.1", self.server_port)
        await asyncio.gather(self._up(phone_reads, server_writes), self._down(server_reads, phone_writes),
                             return_exceptions=True)

    async def _up(self, reads, writes) -> None:
        while request := await reads.read(65_536):
            self.asked += 1
            await asyncio.sleep(self.LATENCY_S)
            writes.write(request)
        writes.close()

    async def _down(self, reads, writes) -> None:
        while part := await reads.read(4_096):
            now = time.monotonic()
            self.bytes += len(part)
            self.free_at = max(self.free_at, now) + len(part) / self.BYTES_A_SECOND
            await asyncio.sleep(self.free_at - now)
            writes.write(part)
        writes.close()


def scripts_br_kb() -> float:
    """Size of the scripts that the first question waits for, as the server sends them, KB.

    The entry, the walk's page, and all that they import before they run; what they fetch later is not waited for.
    """
    entry = re.search(r'src="/assets/(index-[^"]+)"', (FRONTEND_DIST / "index.html").read_text()).group(1)
    waited_for, assets = set(), FRONTEND_DIST / "assets"
    following = [entry, next(assets.glob("WalkPage-*.js")).name]
    while following:
        name = following.pop()
        if name not in waited_for:
            waited_for.add(name)
            following += STATIC_IMPORT.findall((assets / name).read_text())
    return sum((assets / f"{name}.br").stat().st_size for name in waited_for) / 1000


def test_first_visit_until_it_works_without_a_signal(browser, served):
    network = SlowNetwork(served.port)
    page = page_of(browser)
    began = time.monotonic()
    page.goto(f"http://localhost:{network.port}")
    page.get_by_label("User name").wait_for()
    shown = time.monotonic() - began
    wait_until(page, "navigator.serviceWorker.controller !== null")
    ready, kb, asked = time.monotonic() - began, network.bytes / 1000, network.asked
    files = [f"/{path.relative_to(FRONTEND_DIST)}" for path in FRONTEND_DIST.rglob("*")
             if path.suffix in {".js", ".css", ".wasm", ".svg"} and path.name != "sw.js"]
    wait_until(page, ALL_CACHED, files)
    sys.stdout.write(f"\nslow 4G: sign-in shown after {shown:.1f} s, works without a signal after {ready:.1f} s "
                     f"({kb:.0f} KB, {asked} requests), all kept after {time.monotonic() - began:.1f} s "
                     f"({network.bytes / 1000:.0f} KB, {network.asked})\n")
    page.goto(served.address)
    walk = Walk(page)
    walk.sign_in()
    walk.tap("order-PO-10")
    page.get_by_test_id("docket-number").wait_for()
    sys.stdout.write(f"scripts up to the first question: {scripts_br_kb():.0f} KB\n")
    assert ready < 9
    assert scripts_br_kb() < 90
