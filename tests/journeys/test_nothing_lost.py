"""What a phone may meet between the door and the server: killed, full, updated, cut off for hours, broken for good."""
import hashlib
import http.client
import json
import re
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Thread

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page

from tests.journeys.reach import faults_of
from tests.journeys.walk import Walk, wait_until

pytestmark = pytest.mark.browser
UP_BYTES_A_SECOND = 150_000
HOUR_MS = 3_600_000
#: A browser's answers when 1 MB is left (Storage Standard, QuotaExceededError); DevTools' own override of the quota
#: does not reach the databases here.
NEARLY_FULL = """(() => {
  const [put, isFull] = [IDBObjectStore.prototype.put, () => localStorage.getItem("test-full") !== null];
  IDBObjectStore.prototype.put = function (value, ...more) {
    if (isFull() && value?.bytes?.byteLength > 1_000_000) throw new DOMException("full", "QuotaExceededError");
    return put.call(this, value, ...more);
  };
  const estimate = navigator.storage.estimate.bind(navigator.storage);
  navigator.storage.estimate = async () => {
    const told = await estimate();
    return isFull() ? { ...told, quota: told.usage + 1_000_000 } : told;
  };
})()"""
#: What would bring a compressed answer, or none because nothing is newer.
LEFT_OUT = {"accept-encoding", "if-none-match", "if-modified-since"}


@pytest.fixture
def large_photo(request, tmp_path) -> bytes:
    """A JPEG of about 3 MB, another for each test: six pieces of an upload."""
    noise = np.random.default_rng(len(request.node.name)).integers(40, 230, (1500, 2000, 3), dtype=np.uint8)
    Image.fromarray(noise).save(tmp_path / "large.jpg", quality=85)
    return (tmp_path / "large.jpg").read_bytes()


class Signal:
    """The phone's network: slow from the beginning, and off at will."""

    def __init__(self, page: Page):
        self.session = page.context.new_cdp_session(page)
        self.session.send("Network.enable")
        self.switch(is_on=True)

    def switch(self, *, is_on: bool) -> None:
        self.session.send("Network.emulateNetworkConditions", {
            "offline": not is_on, "latency": 20, "downloadThroughput": -1, "uploadThroughput": UP_BYTES_A_SECOND,
        })


def take(page: Page, photo: bytes) -> None:
    """Choose the docket's photo, and keep it whatever the gate thinks of noise."""
    page.get_by_test_id("photo-docket").set_input_files(
        {"name": "docket.jpg", "mimeType": "image/jpeg", "buffer": photo})
    wait_until(page, "document.querySelector('.photo img, [data-testid=keep-anyway]') !== null")
    if page.get_by_test_id("keep-anyway").count():
        page.get_by_test_id("keep-anyway").click()
        page.locator(".photo img").first.wait_for()


def half_way(served, page: Page, photo: bytes) -> None:
    """Wait until some of the photo, but not all, is on the server's disk."""
    def begins_with_it(part) -> bool:
        return part.is_file() and part.stat().st_size > 500_000 and photo.startswith(part.read_bytes())

    for _ in range(300):
        if any(begins_with_it(part) for part in (served.data / "uploads").rglob("*")):
            return
        page.wait_for_timeout(100)
    raise AssertionError("no piece of the photo arrived")


def offsets(page: Page) -> list[int]:
    """Where each piece that is sent from now on begins."""
    begun: list[int] = []

    def note(asked) -> None:
        if asked.method == "PATCH":
            begun.append(int(asked.headers["upload-offset"]))

    page.on("request", note)
    return begun


def is_stored(served, photo: bytes) -> bool:
    sha = hashlib.sha256(photo).hexdigest()
    kept = served.data / "photos" / sha[:2] / sha
    return kept.exists() and kept.read_bytes() == photo


def test_a_browser_killed_in_the_middle_of_a_photo_goes_on_from_there(phone, served, large_photo):
    walk = Walk(phone.open())
    walk.sign_in()
    walk.tap("order-PO-14")
    Signal(walk.page)
    walk.page.get_by_test_id("docket-number").fill("DN-1100")
    take(walk.page, large_photo)
    half_way(served, walk.page, large_photo)
    phone.kill()
    page = phone.open(path="/sign-in")           # the sign-in of the last seconds may be lost with the battery
    begun = offsets(page)
    Walk(page).sign_in()
    page.goto(f"{phone.address}/waiting")
    page.get_by_text("All on the server.").wait_for(timeout=90_000)
    assert is_stored(served, large_photo)
    assert 0 not in begun[1:]                    # one piece at most is offered again, and refused


def test_a_signal_lost_in_the_middle_of_a_photo_for_hours(phone, served, large_photo):
    walk = Walk(phone.open())
    page = walk.page
    page.clock.install()
    page.reload()
    walk.sign_in()
    walk.tap("order-PO-15")
    signal = Signal(page)
    page.get_by_test_id("docket-number").fill("DN-1200")
    take(page, large_photo)
    half_way(served, page, large_photo)
    signal.switch(is_on=False)
    page.clock.fast_forward(7 * HOUR_MS)
    page.get_by_test_id("status").filter(has_text="7 h").wait_for()   # how long the oldest waits
    begun = offsets(page)
    signal.switch(is_on=True)
    page.get_by_test_id("status").filter(has_text="All on").wait_for(timeout=60_000)
    assert is_stored(served, large_photo)
    assert begun
    assert min(begun) > 0


def test_a_page_that_the_service_worker_passed_over_is_taken_on(phone):
    page = phone.open()
    Walk(page).sign_in()
    # a page that is loading while the worker takes over, or one loaded past it as here, is nobody's
    page.context.new_cdp_session(page).send("Page.reload", {"ignoreCache": True})
    page.get_by_test_id("something-else").wait_for()
    wait_until(page, "navigator.serviceWorker.controller !== null")


def test_a_first_visit_with_a_file_missing_is_made_good_by_itself(phone):
    page = phone.open(path="/health")
    lost = []

    def lose(route):
        if lost:
            route.continue_()
        else:
            lost.append(route.request.url)
            route.abort()

    page.context.route(re.compile("/assets/later-.*[.]js"), lose)
    page.goto(phone.address)
    Walk(page).sign_in()
    assert len(lost) == 1


def test_a_phone_that_is_nearly_full_says_so_and_keeps_all_that_was_entered(phone, large_photo):
    walk = Walk(phone.open())
    page = walk.page
    page.add_init_script(NEARLY_FULL)
    page.reload()
    walk.sign_in()
    walk.tap("order-PO-16")
    page.get_by_test_id("docket-number").fill("DN-1300")
    page.evaluate("localStorage.setItem('test-full', 'yes')")
    page.get_by_test_id("photo-docket").set_input_files(
        {"name": "docket.jpg", "mimeType": "image/jpeg", "buffer": large_photo})
    wait_until(page, "document.querySelector('.photo [role=alert]') !== null")
    if page.get_by_test_id("keep-anyway").count():
        page.get_by_test_id("keep-anyway").click()
    page.locator(".photo [role=alert]").filter(has_text="Free some space").wait_for()
    assert page.locator(".photo img").count() == 0
    walk.tap("next")                             # what is typed needs next to no room
    walk.enter("-20")
    walk.count("2")
    page.goto(f"{phone.address}/waiting")
    page.get_by_test_id("room").filter(has_text="Little room").wait_for()
    assert faults_of(page) == []
    page.evaluate("localStorage.removeItem('test-full')")
    page.goto(phone.address)
    page.get_by_text("DN-1300").first.click()
    page.get_by_test_id("whole-list").click()
    shown = page.locator("main").inner_text()
    assert "DN-1300" in shown
    assert "2 of 2" in shown


class NewerBuild:
    """Passes all on to the server; from ``publish`` on its service worker and page are those of a newer build."""

    def __init__(self, port: int):
        build = self
        self.is_newer = False

        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def pass_on(self) -> None:
                body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
                server = http.client.HTTPConnection("localhost", port, timeout=60)
                headers = {key: value for key, value in self.headers.items() if key.lower() not in LEFT_OUT}
                server.request(self.command, self.path, body=body, headers=headers)
                answer = server.getresponse()
                content = build.altered(self.path, answer.read())
                self.send_response_only(answer.status)
                for key, value in answer.getheaders():
                    if key.lower() not in {"content-length", "transfer-encoding", "connection"}:
                        self.send_header(key, value)
                self.send_header("Content-Length", str(len(content)))
                self.end_headers()
                if self.command != "HEAD":
                    self.wfile.write(content)

            do_GET = do_HEAD = do_PUT = do_POST = do_PATCH = do_DELETE = pass_on

            def log_message(self, *_args) -> None:
                """Silent."""

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://localhost:{self.server.server_port}"
        Thread(target=self.server.serve_forever, daemon=True).start()

    def publish(self) -> None:
        self.is_newer = True

    def altered(self, path: str, content: bytes) -> bytes:
        if not self.is_newer:
            return content
        if path.split("?")[0] == "/sw.js":       # another revision of the page, as a build writes it
            entry = rb'(\{[^{}]*"revision":")([0-9a-f]+)("[^{}]*"url":"index\.html")'
            return re.sub(entry, rb"\g<1>newer\g<2>\g<3>", content)
        if path.split("?")[0] == "/index.html":
            return content.replace(b"<title>", b'<meta name="build" content="newer"><title>')
        return content


def test_a_newer_app_is_offered_in_a_delivery_and_takes_nothing_away(phone, served):
    build = NewerBuild(served.port)
    phone.address = build.address
    walk = Walk(phone.open())
    walk.sign_in()
    page = walk.page
    walk.docket("PO-17", "DN-1400")
    build.publish()
    page.evaluate("navigator.serviceWorker.getRegistration().then(one => one.update())")
    page.evaluate("window.isSamePage = true")
    page.get_by_text("A newer Underlid is ready.").wait_for(timeout=60_000)
    walk.enter("-20")                            # the question at hand goes on
    assert page.evaluate("window.isSamePage")
    page.get_by_role("button", name="Later").click()
    page.get_by_text("A newer Underlid is ready.").wait_for(state="detached")
    page.reload()
    assert page.locator("meta[name=build]").count() == 0
    page.get_by_role("button", name="Use it now").click()
    page.locator("meta[name=build]").wait_for(state="attached", timeout=30_000)
    walk.count("2")
    page.get_by_test_id("whole-list").click()
    shown = page.locator("main").inner_text()
    assert "DN-1400" in shown
    assert "−20 °C" in shown
    assert "2 of 2" in shown


def test_what_a_broken_phone_saves_as_a_file_comes_in_at_the_desk_once(
    phone, second_phone, served, large_photo, tmp_path
):
    walk = Walk(phone.open())
    walk.sign_in("rosa")
    page = walk.page
    page.context.set_offline(True)
    walk.tap("order-PO-18")
    page.get_by_test_id("docket-number").fill("DN-1500")
    take(page, large_photo)
    walk.tap("next")
    page.get_by_test_id("status").click()
    page.get_by_text("This phone cannot send any more?").click()
    assert faults_of(page) == []
    with page.expect_download() as saving:
        page.get_by_test_id("save-outbox").click()
    saving.value.save_as(tmp_path / "phone.outbox")
    phone.close()

    desk = second_phone.open()
    Walk(desk).sign_in("mira")
    desk.goto(f"{served.address}/desk/devices")
    for _ in range(2):                           # the second time changes nothing
        desk.get_by_test_id("phone-file").set_input_files(tmp_path / "phone.outbox")
        desk.get_by_test_id("brought-in").wait_for(timeout=60_000)
        assert "2 entries brought in" in desk.get_by_test_id("brought-in").inner_text()
    opened = desk.evaluate("() => fetch('/sync/reference').then(answer => answer.json())")["open_documents"]
    (mine,) = [one for one in opened if one["docket_number"] == "DN-1500"]
    assert mine["person_name"] == "Rosa Lind"
    assert is_stored(served, large_photo)
    trail = desk.evaluate("() => fetch('/api/trail').then(answer => answer.json())")
    assert "DN-1500" in json.dumps(trail)
    letter = {"name": "a.txt", "mimeType": "text/plain", "buffer": b"a letter"}
    desk.get_by_test_id("phone-file").set_input_files(letter)
    desk.get_by_role("alert").filter(has_text="no file of a phone").wait_for()
